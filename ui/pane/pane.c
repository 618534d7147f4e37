// SPDX-License-Identifier: ISC
#include "pane_inside.h"

#include <X11/Xutil.h>

#include <stdio.h>
#include <stdlib.h>

static void hint_sizes(const Pane* const pane, const PaneRequest* const request)
{
    XSizeHints hints = {.flags = PBaseSize,
                        .base_width = request->width,
                        .base_height = request->height,
                        .min_width = request->min_width,
                        .min_height = request->min_height};
    if (request->min_width > 0 && request->min_height > 0) {
        hints.flags |= PMinSize;
    }
    XSetWMNormalHints(pane->display, pane->window, &hints);
}

/* All are read here, of whichever Pugl: a key that goes back to the host is X's own event. */
static void select_events(const Pane* const pane)
{
    XSelectInput(pane->display, pane->window,
                 ExposureMask | KeyPressMask | KeyReleaseMask | ButtonPressMask |
                     ButtonReleaseMask | PointerMotionMask | StructureNotifyMask | EnterWindowMask |
                     LeaveWindowMask | FocusChangeMask);
}

static void prepare(Pane* const pane, const PaneRequest* const request)
{
    pane->protocols = XInternAtom(pane->display, "WM_PROTOCOLS", False);
    pane->delete_window = XInternAtom(pane->display, "WM_DELETE_WINDOW", False);
    select_events(pane);
    hint_sizes(pane, request);
    if (!request->parent) { /* the first Pugl's own try fails if nobody has named that yet */
        XSetWMProtocols(pane->display, pane->window, &pane->delete_window, 1);
    }
    pane_drop_prepare(pane);
    pane_draw_prepare(pane);
    XSync(pane->display, False);
}

/* What came while opening is forgotten but for the size. */
static void start_afresh(Pane* const pane)
{
    pane->event_count = 0;
    pane->swap = true;
    pane_damage_all(pane);
    pane_input_add(pane,
                   (PaneEvent){.kind = PANE_RESIZE, .width = pane->width, .height = pane->height});
}

static bool create(Pane* const pane, const PaneRequest* const request, char why[256])
{
    if (!pane_view_open(pane, request, why) || !pane_make_current(pane)) {
        return false;
    }
    prepare(pane, request);
    return !pane->gone;
}

/* Ends all but the memory, which an event may still stand on. */
static void finish(Pane* const pane)
{
    const PaneHost host = pane_guard_enter(pane);
    if (pane_make_current(pane)) {
        pane_layer_delete(pane);
    }
    if (pane->context) {
        glXMakeCurrent(pane->display, None, NULL);
    }
    pane_view_close(pane);
    pane_guard_leave(pane, &host);
}

Pane* pane_open(const PaneRequest* const request, char why[256])
{
    Pane* const pane = calloc(1, sizeof *pane);
    snprintf(why, 256, "%s", pane ? "" : "no window: no memory is left");
    if (!pane) {
        return NULL;
    }
    pane->parent = (Window)request->parent;
    pane->event = request->event;
    pane->handle = request->handle;
    pane->width = request->width;
    pane->height = request->height;
    const PaneHost host = pane_guard_enter(pane);
    const bool created = create(pane, request, why);
    pane_guard_leave(pane, &host);
    if (!created) {
        if (!why[0]) {
            snprintf(why, 256,
                     "no window: the X server refused one of %d x %d with OpenGL in parent 0x%lx",
                     request->width, request->height, (unsigned long)request->parent);
        }
        pane_close(pane);
        return NULL;
    }
    start_afresh(pane);
    return pane;
}

void pane_close(Pane* const pane)
{
    if (!pane) {
        return;
    }
    if (pane->delivering) {
        pane->freed_next = true;
        return;
    }
    finish(pane);
    free(pane);
}

uintptr_t pane_window(const Pane* const pane)
{
    return pane->window;
}

double pane_scale(const Pane* const pane)
{
    return pane_scale_of(pane->display);
}

/* ---- Polling */

static void look(Pane* const pane)
{
    const PaneHost host = pane_guard_enter(pane);
    pane_input_take_events(pane);
    pane_guard_leave(pane, &host);
}

static void tell(Pane* const pane, const PaneNews* const news)
{
    if (news->key.type == KeyRelease) {
        pane_return_release(pane, &news->key);
        return;
    }
    const bool is_nameless = news->told.kind == PANE_KEY && !news->told.key;
    const bool used = !is_nameless && pane->event(pane->handle, &news->told);
    if (news->key.type == KeyPress && !used && !pane->freed_next) {
        pane_return_press(pane, &news->key);
    }
}

/* The host's context is current meanwhile, and new events only come later. */
static void deliver(Pane* const pane)
{
    pane->delivering = true;
    for (int i = 0; i < pane->event_count && !pane->freed_next; ++i) {
        tell(pane, &pane->events[i]);
    }
    pane->event_count = 0;
    pane->delivering = false;
}

static void redraw(Pane* const pane)
{
    const PaneHost host = pane_guard_enter(pane);
    pane_input_take_events(pane);
    if (pane_make_current(pane)) {
        pane->dirty = false; /* events that come meanwhile may set it again */
        if (pane->swap) {    /* the first picture of a new size may have the old one's place */
            pane_draw_reshape(pane->width, pane->height);
            pane_draw(pane);
        }
        if (pane->show_part) {
            pane_draw_part(pane);
        } else {
            pane_draw(pane);
        }
    }
    pane_guard_leave(pane, &host);
}

bool pane_poll(Pane* const pane)
{
    if (pane->delivering) {
        return true;
    }
    if (!pane->gone) {
        look(pane);
    }
    deliver(pane);
    if (pane->freed_next) {
        pane_close(pane);
        return false;
    }
    if (pane->dirty && !pane->gone && !pane->closed) {
        redraw(pane);
    }
    return !pane->gone && !pane->closed;
}

/* ---- Wishes */

bool pane_take_focus(Pane* const pane)
{
    XWindowAttributes now = {.map_state = IsUnmapped};
    const PaneHost host = pane_guard_enter(pane);
    const bool can = !pane->gone && XGetWindowAttributes(pane->display, pane->window, &now) &&
                     now.map_state == IsViewable;
    if (can) {
        XSetInputFocus(pane->display, pane->window, RevertToParent, CurrentTime);
        XFlush(pane->display);
    }
    pane_guard_leave(pane, &host);
    return can;
}

void pane_resize(Pane* const pane, const int width, const int height)
{
    const PaneHost host = pane_guard_enter(pane);
    if (!pane->gone && width > 0 && height > 0) {
        XResizeWindow(pane->display, pane->window, (unsigned)width, (unsigned)height);
        XFlush(pane->display);
    }
    pane_guard_leave(pane, &host);
}
