// SPDX-License-Identifier: ISC
#include "pane_inside.h"

static bool same_place_in_time(const PaneEvent* const last, const PaneEvent* const next)
{
    return last->kind == next->kind && last->modifiers == next->modifiers &&
           (next->kind == PANE_MOTION || next->kind == PANE_RESIZE);
}

static void add(Pane* const pane, const PaneNews news)
{
    PaneNews* const last = pane->event_count ? &pane->events[pane->event_count - 1] : NULL;
    if (last && same_place_in_time(&last->told, &news.told)) {
        *last = news;
    } else if (pane->event_count < PANE_EVENTS_MAX) {
        pane->events[pane->event_count++] = news;
    }
}

void pane_input_add(Pane* const pane, const PaneEvent event)
{
    add(pane, (PaneNews){.told = event});
}

/* ---- X's events, in their order */

static void add_pointer(Pane* const pane, PaneEvent event, const int x, const int y,
                        const unsigned state)
{
    event.x = pane->x = x;
    event.y = pane->y = y;
    event.modifiers = pane_modifiers(state);
    pane_input_add(pane, event);
}

/* Buttons 4 and 5 are the wheel's. */
static void take_button(Pane* const pane, const XButtonEvent* const event)
{
    const bool press = event->type == ButtonPress;
    const bool wheel = event->button == Button4 || event->button == Button5;
    if (wheel && press) {
        const PaneEvent scroll = {.kind = PANE_SCROLL,
                                  .scroll = event->button == Button4 ? 1.0 : -1.0};
        add_pointer(pane, scroll, event->x, event->y, event->state);
    } else if (event->button >= Button1 && event->button <= Button3) {
        const PaneEvent click = {.kind = press ? PANE_PRESS : PANE_RELEASE,
                                 .button = (int)event->button};
        add_pointer(pane, click, event->x, event->y, event->state);
    }
}

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

static void take_message(Pane* const pane, const XClientMessageEvent* const event)
{
    if (event->message_type == pane->protocols && event->format == 32 &&
        (Atom)event->data.l[0] == pane->delete_window) {
        pane->closed = true;
        pane_input_add(pane, (PaneEvent){.kind = PANE_CLOSE});
    } else {
        pane_drop_message(pane, event);
    }
}

static void take_dropped(Pane* const pane, const char* const path)
{
    if (path) {
        pane_input_add(pane, (PaneEvent){.kind = PANE_DROP, .path = path});
    }
}

static void take_size(Pane* const pane, const XConfigureEvent* const event)
{
    if (event->window == pane->window &&
        (event->width != pane->width || event->height != pane->height)) {
        pane->width = event->width;
        pane->height = event->height;
        pane->swap = true;
        pane_damage_all(pane);
        pane_input_add(
            pane, (PaneEvent){.kind = PANE_RESIZE, .width = event->width, .height = event->height});
    }
}

static void take_key(Pane* const pane, XKeyEvent* const event)
{
    const bool press = event->type == KeyPress;
    PaneEvent told = press ? pane_key_of(event) : (PaneEvent){.kind = PANE_KEY};
    told.seconds = (double)event->time * 1e-3;
    add(pane, (PaneNews){.told = told, .key = *event});
}

static void take(Pane* const pane, XEvent* const event)
{
    switch (event->type) {
    case DestroyNotify:
        pane->gone = pane->gone || event->xdestroywindow.window == pane->window;
        break;
    case ConfigureNotify:
        take_size(pane, &event->xconfigure);
        break;
    case Expose: /* drawn once, after the events are told */
        pane_damage(pane, (PaneRect){event->xexpose.x, event->xexpose.y, event->xexpose.width,
                                     event->xexpose.height});
        break;
    case EnterNotify:
    case LeaveNotify:
        take_crossing(pane, &event->xcrossing);
        break;
    case FocusIn:
    case FocusOut:
        take_focus_event(pane, &event->xfocus);
        break;
    case ClientMessage:
        take_message(pane, &event->xclient);
        break;
    case SelectionNotify:
        take_dropped(pane, pane_drop_selection(pane, &event->xselection));
        break;
    case MappingNotify: /* another layout; Xlib wants to be told */
        XRefreshKeyboardMapping(&event->xmapping);
        break;
    case MotionNotify:
        add_pointer(pane, (PaneEvent){.kind = PANE_MOTION}, event->xmotion.x, event->xmotion.y,
                    event->xmotion.state);
        break;
    case ButtonPress:
    case ButtonRelease:
        take_button(pane, &event->xbutton);
        break;
    case KeyPress:
    case KeyRelease:
        take_key(pane, &event->xkey);
        break;
    default: /* a number of X's, not an enum of ours */
        break;
    }
}

void pane_input_take_events(Pane* const pane)
{
    XEvent event;
    for (int left = XPending(pane->display); left > 0 && !pane->broken; --left) {
        XNextEvent(pane->display, &event);
        take(pane, &event);
    }
    XFlush(pane->display); /* the first key asks to be told of other layouts */
}
