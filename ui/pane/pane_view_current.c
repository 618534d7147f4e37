// SPDX-License-Identifier: ISC
/* The Pugl that has worlds (tried with 0.5.7).  Of the first one's faults (pane_view_first.c)
   it needs no cure for 1, as its window is on the server when puglRealize returns, for 2, as it
   frees its context before its display, and for 5, as it says what it lacks.  The thread's
   context is lost here too (3), X errors of a window that went with its parent end processes
   (4), and so do cut connections: tests/pane/cures.sh takes those cures out on this one as well.
   Of 6 nothing was found; but keys that the window has no use for go back to the host as X's own
   events, which Pugl keeps to itself, so pane reads them all and Pugl isn't asked for any. */
#include "pane_inside.h"

#include <pugl/gl.h>
#include <pugl/pugl.h>

#include <stdio.h>

/* Never called for more than to be there: pane reads X's events. */
static PuglStatus on_event(PuglView* const view, const PuglEvent* const event)
{
    (void)view;
    (void)event;
    return PUGL_SUCCESS;
}

/* What pane_draw*.c asks of GL is all in its version 1. */
static void ask(PuglView* const view, const PaneRequest* const request)
{
    puglSetBackend(view, puglGlBackend());
    puglSetEventFunc(view, on_event);
    puglSetViewHint(view, PUGL_CONTEXT_VERSION_MAJOR, 2);
    puglSetViewHint(view, PUGL_CONTEXT_VERSION_MINOR, 0);
    puglSetViewHint(view, PUGL_CONTEXT_PROFILE, PUGL_OPENGL_COMPATIBILITY_PROFILE);
    puglSetViewHint(view, PUGL_DOUBLE_BUFFER, PUGL_TRUE);
    puglSetViewHint(view, PUGL_SWAP_INTERVAL, 0);
    puglSetViewHint(view, PUGL_RESIZABLE, PUGL_TRUE);
    puglSetSizeHint(view, PUGL_DEFAULT_SIZE, (unsigned)request->width, (unsigned)request->height);
    puglSetViewString(view, PUGL_WINDOW_TITLE, request->title ? request->title : "");
    puglSetParent(view, (PuglNativeView)request->parent);
}

/* The context is only told by being current. */
static bool meet(Pane* const pane)
{
    if (puglEnterContext(pane->view) == PUGL_SUCCESS) {
        pane->context = glXGetCurrentContext();
        (void)puglLeaveContext(pane->view);
    }
    return pane->context;
}

/* Pugl would only say that there is no context. */
static bool has_glx(Display* const display, char why[256])
{
    const bool has = glXQueryExtension(display, NULL, NULL);
    if (!has) {
        snprintf(why, 256,
                 "no window: the X display \"%.100s\" has no GLX, so nothing can be drawn on it",
                 XDisplayName(NULL));
    }
    return has;
}

/* Shown without being raised, and without taking the keys. */
static bool realize(Pane* const pane, char why[256])
{
    const PuglStatus status = puglRealize(pane->view);
    if (status != PUGL_SUCCESS && !pane->gone) {
        snprintf(why, 256, "no window: on the X display \"%.100s\": %.100s", XDisplayName(NULL),
                 puglStrerror(status));
    }
    if (status != PUGL_SUCCESS || pane->gone) {
        return false;
    }
    pane->window = (Window)puglGetNativeView(pane->view);
    return meet(pane) && puglShow(pane->view, PUGL_SHOW_PASSIVE) == PUGL_SUCCESS;
}

bool pane_view_open(Pane* const pane, const PaneRequest* const request, char why[256])
{
    PuglWorld* const world = puglNewWorld(PUGL_MODULE, 0);
    if (!world) {
        snprintf(why, 256,
                 "no window: the X display \"%.100s\" doesn't answer; DISPLAY must name one",
                 XDisplayName(NULL));
        return false;
    }
    pane->view = puglNewView(world);
    if (!pane->view) {
        puglFreeWorld(world);
        return false;
    }
    pane->display = puglGetNativeWorld(world);
    pane_guard_display(pane);
    ask(pane->view, request);
    return has_glx(pane->display, why) && realize(pane, why);
}

void pane_view_close(Pane* const pane)
{
    if (pane->view) {
        PuglWorld* const world = puglGetWorld(pane->view);
        puglFreeView(pane->view);
        puglFreeWorld(world);
    }
}
