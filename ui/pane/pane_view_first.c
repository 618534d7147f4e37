// SPDX-License-Identifier: ISC
/* What Debian 12's Pugl (0~svn32) does to a host, and where it is cured; each
   has a test in tests/pane/test_pane.c:
   1. its window isn't sent to the X server until the first event is asked for, so
      hosts die of a window they can't find: wait_for_the_first_size;
   2. it destroys its context while that is current, which kills the process a few
      windows later: finish in pane.c lets go of it first;
   3. it takes the thread's GL context from the host: pane_guard.c;
   4. it goes on drawing on a window that was destroyed with its parent, and X
      errors end processes: take in pane_input.c, pane_guard.c;
   5. without a display or GLX it uses a null pointer: try_display;
   6. it loses half of the keys, and messages without a name and the release of Esc
      end windows: once open it isn't asked for events any more, nor to draw.
   Xlib itself ends the process where the server, or by it any client, cuts the
   connection: pane_guard_display, which needs libX11 1.7. */
#include "pane_inside.h"

#include <pugl/pugl.h>

#include <stdio.h>
#include <time.h>

enum { FIRST_SIZE_MS = 250, LOOK_EVERY_MS = 2 };

/* While opening. */
typedef struct {
    Pane* pane;
    bool reshaped; /* Pugl told a size */
} PaneOpening;

/* Pugl's own two lists of attributes: with a back buffer, and without. */
static bool has_visual(Display* const display)
{
    int doubled[] = {
        GLX_RGBA, GLX_DOUBLEBUFFER, GLX_RED_SIZE, 4,   GLX_GREEN_SIZE, 4, GLX_BLUE_SIZE,
        4,        GLX_DEPTH_SIZE,   16,           None};
    int single[] = {GLX_RGBA,       GLX_RED_SIZE, 4,   GLX_GREEN_SIZE, 4, GLX_BLUE_SIZE, 4,
                    GLX_DEPTH_SIZE, 16,           None};
    XVisualInfo* visual = glXChooseVisual(display, DefaultScreen(display), doubled);
    visual = visual ? visual : glXChooseVisual(display, DefaultScreen(display), single);
    if (visual) {
        XFree(visual);
    }
    return visual;
}

/* A connection that shows that puglCreate will live: there are a display, GLX, a
   visual.  Else NULL, and says why not.  To be closed only when Pugl has its own:
   GLX would unload its driver and load it again, half of what opening costs. */
static Display* try_display(char why[256])
{
    Display* const display = XOpenDisplay(NULL);
    if (!display) {
        snprintf(why, 256,
                 "no window: the X display \"%.100s\" doesn't answer; DISPLAY must name one",
                 XDisplayName(NULL));
        return NULL;
    }
    const char* lack = NULL;
    if (!glXQueryExtension(display, NULL, NULL)) {
        lack = "has no GLX";
    } else if (!has_visual(display)) {
        lack = "has no RGB visual with a depth buffer for GLX";
    }
    if (lack) {
        snprintf(why, 256, "no window: the X display \"%.100s\" %s, so nothing can be drawn on it",
                 XDisplayName(NULL), lack);
        XCloseDisplay(display);
    }
    return lack ? NULL : display;
}

/* Inside a callback of Pugl's that draws, the current context is its own, unless
   it couldn't be had. */
static bool meet(Pane* const pane)
{
    if (!pane->context && pane->window && glXGetCurrentDrawable() == pane->window) {
        pane->display = glXGetCurrentDisplay();
        pane->context = glXGetCurrentContext();
        pane_guard_display(pane);
    }
    return pane_draw_can(pane);
}

static void on_reshape(PuglView* const view, const int width, const int height)
{
    PaneOpening* const opening = puglGetHandle(view);
    if (meet(opening->pane)) {
        opening->reshaped = true;
        opening->pane->width = width;
        opening->pane->height = height;
    }
}

static void on_display(PuglView* const view)
{
    const PaneOpening* const opening = puglGetHandle(view);
    meet(opening->pane);
}

static void wait_for_the_first_size(const PaneOpening* const opening)
{
    const Pane* const pane = opening->pane;
    const struct timespec moment = {0, LOOK_EVERY_MS * 1000000L};
    puglProcessEvents(pane->view);
    for (int waited = 0; waited < FIRST_SIZE_MS && !opening->reshaped && !pane->gone;
         waited += LOOK_EVERY_MS) {
        nanosleep(&moment, NULL);
        puglProcessEvents(pane->view);
    }
    if (!opening->reshaped && !pane->gone) { /* a slow server; meet its context all the same */
        puglPostRedisplay(pane->view);
        puglProcessEvents(pane->view);
    }
    if (!opening->reshaped && !pane->gone && pane->display) { /* and wait for its answer */
        XSync(pane->display, False);
        puglProcessEvents(pane->view);
    }
}

bool pane_view_open(Pane* const pane, const PaneRequest* const request, char why[256])
{
    Display* const trial = try_display(why);
    if (!trial) {
        return false;
    }
    pane->view = puglCreate((PuglNativeWindow)request->parent, request->title, request->width,
                            request->height, true);
    if (pane->view) {
        PaneOpening opening = {.pane = pane};
        pane->window = (Window)puglGetNativeWindow(pane->view);
        puglSetHandle(pane->view, &opening);
        puglSetReshapeFunc(pane->view, on_reshape);
        puglSetDisplayFunc(pane->view, on_display);
        wait_for_the_first_size(&opening);
    }
    XCloseDisplay(trial);
    return pane->view;
}

void pane_view_close(Pane* const pane)
{
    if (pane->view) {
        puglDestroy(pane->view);
    }
}
