// SPDX-License-Identifier: ISC
/* Keys go where the focus is, and after a click that is the pane, so that a host
   would miss its own: Space, or whatever has Control.  They are sent to the parent,
   as other plugins' windows do it: without an event mask X hands them to the client
   that made the parent, whatever it listens for there (X Window System Protocol,
   SendEvent).  What a host had sent here is never sent back, or it would go round. */
#include "pane_inside.h"

static void send(Pane* const pane, const XKeyEvent* const key)
{
    Window child = None;
    XEvent event = {.xkey = *key};
    const PaneHost host = pane_guard_enter(pane);
    event.xkey.window = pane->parent;
    event.xkey.subwindow = pane->window;
    if (!pane->gone && XTranslateCoordinates(pane->display, pane->window, pane->parent, key->x,
                                             key->y, &event.xkey.x, &event.xkey.y, &child)) {
        XSendEvent(pane->display, pane->parent, False, NoEventMask, &event);
        XFlush(pane->display);
    }
    pane_guard_leave(pane, &host);
}

static uint8_t* byte_of(Pane* const pane, const XKeyEvent* const key)
{
    return &pane->returned[(key->keycode & 255U) / 8U];
}

static uint8_t bit_of(const XKeyEvent* const key)
{
    return (uint8_t)(1U << (key->keycode & 7U));
}

void pane_return_press(Pane* const pane, const XKeyEvent* const key)
{
    if (pane->parent && !key->send_event) {
        *byte_of(pane, key) |= bit_of(key);
        send(pane, key);
    }
}

void pane_return_release(Pane* const pane, const XKeyEvent* const key)
{
    uint8_t* const byte = byte_of(pane, key);
    if (*byte & bit_of(key) && !key->send_event) {
        *byte = (uint8_t)(*byte & ~bit_of(key));
        send(pane, key);
    }
}
