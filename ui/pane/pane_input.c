// SPDX-License-Identifier: ISC
#include "pane_inside.h"

#include <stdlib.h>

static bool same_place_in_time(const PaneEvent* const last, const PaneEvent* const next)
{
    return last->kind == next->kind && last->modifiers == next->modifiers &&
           (next->kind == PANE_MOTION || next->kind == PANE_RESIZE);
}

void pane_input_add(Pane* const pane, const PaneEvent event)
{
    PaneEvent* const last = pane->event_count ? &pane->events[pane->event_count - 1] : NULL;
    if (last && same_place_in_time(last, &event)) {
        *last = event;
    } else if (pane->event_count < PANE_EVENTS_MAX) {
        pane->events[pane->event_count++] = event;
    }
}

/* ---- Pugl's callbacks */

static uint32_t modifiers_now(PuglView* const view)
{
    const int now = puglGetModifiers(view);
    return (now & PUGL_MOD_SHIFT ? PANE_SHIFT : 0U) | (now & PUGL_MOD_CTRL ? PANE_CONTROL : 0U) |
           (now & PUGL_MOD_ALT ? PANE_ALT : 0U) | (now & PUGL_MOD_SUPER ? PANE_SUPER : 0U);
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
    Pane* const pane = puglGetHandle(view);
    if (!meet(pane)) {
        return;
    }
    pane->reshaped = true;
    pane->width = width;
    pane->height = height;
    pane->swap = true;
    pane_damage_all(pane);
    pane_draw_reshape(width, height);
    pane_input_add(pane, (PaneEvent){.kind = PANE_RESIZE, .width = width, .height = height});
}

static void on_display(PuglView* const view)
{
    Pane* const pane = puglGetHandle(view);
    if (meet(pane)) {
        pane_draw(pane);
    }
}

static void on_motion(PuglView* const view, const int x, const int y)
{
    Pane* const pane = puglGetHandle(view);
    pane->x = x;
    pane->y = y;
    pane_input_add(pane, (PaneEvent){.kind = PANE_MOTION,
                                     .x = pane->x,
                                     .y = pane->y,
                                     .modifiers = modifiers_now(view)});
}

static void on_mouse(PuglView* const view, const int button, const bool press, const int x,
                     const int y)
{
    Pane* const pane = puglGetHandle(view);
    pane->x = x;
    pane->y = y;
    if (button >= 1 && button <= 3) {
        pane_input_add(pane, (PaneEvent){.kind = press ? PANE_PRESS : PANE_RELEASE,
                                         .x = pane->x,
                                         .y = pane->y,
                                         .button = button,
                                         .modifiers = modifiers_now(view)});
    }
}

static void on_scroll(PuglView* const view, const float across, const float up)
{
    Pane* const pane = puglGetHandle(view);
    (void)across;
    if (up < 0 || up > 0) {
        pane_input_add(pane, (PaneEvent){.kind = PANE_SCROLL,
                                         .x = pane->x,
                                         .y = pane->y,
                                         .scroll = (double)up,
                                         .modifiers = modifiers_now(view)});
    }
}

static void add_key(Pane* const pane, const PaneEvent event)
{
    if (event.key) {
        pane_input_add(pane, event);
    }
}

static void on_keyboard(PuglView* const view, const bool press, const uint32_t key)
{
    if (press) {
        add_key(puglGetHandle(view), pane_key_of_character(key, modifiers_now(view)));
    }
}

static void on_special(PuglView* const view, const bool press, const PuglKey key)
{
    if (press) {
        add_key(puglGetHandle(view), pane_key_of_special(key, modifiers_now(view)));
    }
}

static void on_close(PuglView* const view)
{
    Pane* const pane = puglGetHandle(view);
    pane->closed = true;
    pane_input_add(pane, (PaneEvent){.kind = PANE_CLOSE});
}

void pane_input_connect(Pane* const pane)
{
    puglSetHandle(pane->view, pane);
    puglSetReshapeFunc(pane->view, on_reshape);
    puglSetDisplayFunc(pane->view, on_display);
    puglSetMotionFunc(pane->view, on_motion);
    puglSetMouseFunc(pane->view, on_mouse);
    puglSetScrollFunc(pane->view, on_scroll);
    puglSetKeyboardFunc(pane->view, on_keyboard);
    puglSetSpecialFunc(pane->view, on_special);
    puglSetCloseFunc(pane->view, on_close);
}

/* ---- Events taken before Pugl sees them */

static void take_crossing(Pane* const pane, const XCrossingEvent* const event)
{
    if (event->mode != NotifyNormal || event->detail == NotifyInferior) {
        return; /* only a grab, or a child window */
    }
    if (event->type == EnterNotify) {
        pane->x = event->x;
        pane->y = event->y;
    }
    const PaneEventKind kind = event->type == EnterNotify ? PANE_MOTION : PANE_LEAVE;
    pane_input_add(pane, (PaneEvent){.kind = kind, .x = event->x, .y = event->y});
}

static void take_focus_event(Pane* const pane, const XFocusChangeEvent* const event)
{
    const bool grab = event->mode == NotifyGrab || event->mode == NotifyUngrab;
    const bool pointer = event->detail == NotifyPointer || event->detail == NotifyPointerRoot ||
                         event->detail == NotifyInferior;
    if (!grab && !pointer) {
        pane_input_add(
            pane, (PaneEvent){.kind = event->type == FocusIn ? PANE_FOCUS_IN : PANE_FOCUS_OUT});
    }
}

/* Pugl asks the server for the type's name, and dies if it has none. */
static void take_message(Pane* const pane, const XClientMessageEvent* const event)
{
    if (event->message_type == pane->protocols && event->format == 32 &&
        (Atom)event->data.l[0] == pane->delete_window) {
        on_close(pane->view);
    }
}

static bool take_key(Pane* const pane, XKeyEvent* const event)
{
    const PaneEvent key = pane_key_lost(event);
    add_key(pane, key);
    return key.key;
}

/* Whether the event was ours and is dealt with. */
static bool take(Pane* const pane, XEvent* const event)
{
    switch (event->type) {
    case DestroyNotify:
        pane->gone = pane->gone || event->xdestroywindow.window == pane->window;
        return true;
    case Expose: /* drawn once, after the events are told */
        pane_damage(pane, (PaneRect){event->xexpose.x, event->xexpose.y, event->xexpose.width,
                                     event->xexpose.height});
        return true;
    case EnterNotify:
    case LeaveNotify:
        take_crossing(pane, &event->xcrossing);
        return true;
    case FocusIn:
    case FocusOut:
        take_focus_event(pane, &event->xfocus);
        return true;
    case ClientMessage:
        take_message(pane, &event->xclient);
        return true;
    case MappingNotify: /* another layout; Xlib wants to be told, and Pugl does not */
        XRefreshKeyboardMapping(&event->xmapping);
        return true;
    case KeyPress:
        return take_key(pane, &event->xkey);
    default: /* a number of X's, not an enum of ours: the rest is Pugl's */
        return false;
    }
}

/* Not by XCheckIfEvent: its predicate may not call Xlib, which keys need. */
void pane_input_take_events(Pane* const pane)
{
    const int count = XPending(pane->display);
    XEvent* const kept = count > 0 ? malloc((size_t)count * sizeof *kept) : NULL;
    int kept_count = 0;
    for (int i = 0; kept && i < count; ++i) {
        XNextEvent(pane->display, &kept[kept_count]);
        kept_count += !take(pane, &kept[kept_count]);
    }
    while (kept_count > 0) {
        XPutBackEvent(pane->display, &kept[--kept_count]);
    }
    free(kept);
}
