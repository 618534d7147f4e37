// SPDX-License-Identifier: ISC
#include "pane_inside.h"

#include <X11/Xproto.h>

#include <stdlib.h>

/* The one variable at file scope: Xlib gives error handlers no handle to carry it
   by.  Set between enter and leave only, on the one thread that may call. */
static struct {
    Pane* pane;
    XErrorHandler before;
    XIOErrorHandler before_io;
} watch;

static int on_error(Display* const display, XErrorEvent* const error)
{
    Pane* const pane = watch.pane;
    /* Until Pugl's display is known, while opening, errors are taken as its. */
    if (!pane || (pane->display && pane->display != display)) {
        return watch.before ? watch.before(display, error) : 0;
    }
    if (pane->window && error->resourceid == pane->window &&
        (error->error_code == BadWindow || error->error_code == BadDrawable)) {
        pane->gone = true;
    }
    if (error->request_code == X_CreateWindow) { /* there is no such parent */
        pane->gone = true;
    }
    return 0;
}

/* Returns for the pane's display, to its exit handler below; others' ends are
   others' business. */
static int on_io_error(Display* const display)
{
    const bool is_ours = watch.pane && (!watch.pane->display || watch.pane->display == display);
    return !is_ours && watch.before_io ? watch.before_io(display) : 0;
}

/* In place of exit(), which is Xlib's own. */
static void on_broken(Display* const display, void* const handle)
{
    Pane* const pane = handle;
    (void)display;
    pane->broken = true;
    pane->gone = true;
}

void pane_guard_display(Pane* const pane)
{
    XSetIOErrorExitHandler(pane->display, on_broken, pane);
}

PaneHost pane_guard_enter(Pane* const pane)
{
    const PaneHost host = {glXGetCurrentDisplay(), glXGetCurrentDrawable(),
                           glXGetCurrentReadDrawable(), glXGetCurrentContext()};
    watch.pane = pane;
    watch.before = XSetErrorHandler(on_error);
    watch.before_io = XSetIOErrorHandler(on_io_error);
    return host;
}

void pane_guard_leave(const Pane* const pane, const PaneHost* const host)
{
    if (glXGetCurrentContext() != host->context || glXGetCurrentDrawable() != host->draw) {
        if (!host->context) {
            glXMakeCurrent(pane->display, None, NULL);
        } else if (host->draw == host->read) {
            glXMakeCurrent(host->display, host->draw, host->context);
        } else {
            glXMakeContextCurrent(host->display, host->draw, host->read, host->context);
        }
    }
    XSetErrorHandler(watch.before);
    XSetIOErrorHandler(watch.before_io);
    watch.pane = NULL;
    watch.before = NULL;
    watch.before_io = NULL;
}

bool pane_make_current(const Pane* const pane)
{
    return pane->context && !pane->gone &&
           glXMakeCurrent(pane->display, pane->window, pane->context) && !pane->gone;
}

double pane_scale_of(Display* const display)
{
    const char* const dots = XGetDefault(display, "Xft", "dpi");
    const double scale = dots ? strtod(dots, NULL) / 96 : 1;
    /* Outside these it is a slip, or not a number at all. */
    return scale >= 0.25 && scale <= 8 ? scale : 1;
}

double pane_display_scale(void)
{
    Display* const display = XOpenDisplay(NULL);
    if (!display) {
        return 1;
    }
    const double scale = pane_scale_of(display);
    XCloseDisplay(display);
    return scale;
}
