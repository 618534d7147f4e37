// SPDX-License-Identifier: ISC
#include "host.h"

#include "../help/check.h"
#include "../help/wait.h"

#include <stdio.h>
#include <stdlib.h>

bool host_start(Host* const host)
{
    *host = (Host){.display = XOpenDisplay(NULL)};
    if (!CHECK(host->display)) {
        return false;
    }
    host->parent = XCreateSimpleWindow(host->display, DefaultRootWindow(host->display), 0, 0,
                                       HOST_WIDTH, HOST_HEIGHT, 0, 0, 0);
    XMapWindow(host->display, host->parent);
    XSync(host->display, False);
    return true;
}

void host_end(Host* const host)
{
    if (host->context) {
        glXMakeCurrent(host->display, None, NULL);
        glXDestroyContext(host->display, host->context);
    }
    XCloseDisplay(host->display);
}

void host_draws(Host* const host)
{
    int wish[] = {GLX_RGBA, GLX_DOUBLEBUFFER, None};
    XVisualInfo* const visual = glXChooseVisual(host->display, DefaultScreen(host->display), wish);
    XSetWindowAttributes set = {
        .colormap = XCreateColormap(host->display, host->parent, visual->visual, AllocNone)};
    const Window canvas =
        XCreateWindow(host->display, host->parent, 600, 400, 40, 40, 0, visual->depth, InputOutput,
                      visual->visual, CWColormap | CWBorderPixel, &set);
    host->context = glXCreateContext(host->display, visual, NULL, True);
    glXMakeCurrent(host->display, canvas, host->context);
    XFree(visual);
}

bool host_still_draws(const Host* const host)
{
    return glXGetCurrentContext() == host->context &&
           glXGetCurrentDisplay() == (host->context ? host->display : NULL);
}

/* Where no pointer is. */
enum { LAST_WORD = -31000 };

static bool keep(void* const handle, const PaneEvent* const event)
{
    Host* const host = handle;
    if (event->kind == PANE_LEAVE && event->x == LAST_WORD) {
        host->settled = true;
        return true;
    }
    host->early += !host->opened;
    if (host->count < HOST_EVENTS) {
        host->events[host->count] = *event;
    }
    ++host->count;
    return event->kind != PANE_KEY || !host->leaves_keys;
}

static Pane* open_in(Host* const host, const uintptr_t parent, const int width, const int height)
{
    const PaneRequest request = {.parent = parent,
                                 .width = width,
                                 .height = height,
                                 .min_width = 72,
                                 .min_height = 42,
                                 .title = "Salt Funicular",
                                 .event = keep,
                                 .handle = host};
    char why[256];
    Pane* const pane = pane_open(&request, why);
    host->opened = true;
    CHECK_TEXT(why, "");
    return pane;
}

Pane* host_open(Host* const host, const int width, const int height)
{
    return open_in(host, host->parent, width, height);
}

Pane* host_open_apart(Host* const host, const int width, const int height)
{
    return open_in(host, 0, width, height);
}

/* The pane asks the server for its scale: the answer comes after all that it has said. */
static void hear_out(const Pane* const pane)
{
    pane_scale(pane);
}

/* The server tells things in their order, so a word sent now arrives last. */
bool host_settle(Host* const host, Pane* const pane)
{
    XEvent word = {.xcrossing = {.type = LeaveNotify,
                                 .window = pane_window(pane),
                                 .x = LAST_WORD,
                                 .mode = NotifyNormal,
                                 .detail = NotifyAncestor}};
    host->settled = false;
    XSendEvent(host->display, pane_window(pane), False, NoEventMask, &word);
    XSync(host->display, False);
    bool lives = pane_poll(pane);
    Wait wait = wait_until("the pane has taken what the server had for it");
    while (lives && !host->settled && CHECK(wait_goes_on(&wait))) {
        lives = pane_poll(pane);
    }
    hear_out(pane);
    return lives;
}

bool host_wait_for_the_end(Pane* const pane)
{
    Wait wait = wait_until("the pane is at its end");
    while (pane_poll(pane)) {
        if (!wait_goes_on(&wait)) {
            return false;
        }
    }
    return true;
}

static const PaneEvent* find(const Host* const host, const PaneEventKind kind, int count)
{
    for (int i = 0; i < host->count && i < HOST_EVENTS; ++i) {
        if (host->events[i].kind == kind && --count == 0) {
            return &host->events[i];
        }
    }
    return NULL;
}

const PaneEvent* host_wait(Host* const host, Pane* const pane, const PaneEventKind kind,
                           const int count)
{
    const PaneEvent* event = find(host, kind, count);
    Wait wait = wait_until("the pane tells an event");
    while (!event && wait_goes_on(&wait)) {
        pane_poll(pane);
        event = find(host, kind, count);
    }
    if (!event) {
        printf("# no %d of kind %d among %d events\n", count, (int)kind, host->count);
    }
    return event;
}

void host_forget(Host* const host)
{
    host->count = 0;
}

static XImage* photograph(const Host* const host, const Pane* const pane, const PaneRect rect)
{
    hear_out(pane);
    return XGetImage(host->display, pane_window(pane), rect.x, rect.y, (unsigned)rect.width,
                     (unsigned)rect.height, AllPlanes, ZPixmap);
}

uint32_t host_pixel(const Host* const host, const Pane* const pane, const int x, const int y)
{
    XImage* const image = photograph(host, pane, (PaneRect){x, y, 1, 1});
    const uint32_t pixel = image ? (uint32_t)XGetPixel(image, 0, 0) & 0xffffff : 0xffffffff;
    if (image) {
        XDestroyImage(image);
    }
    return pixel;
}

uint32_t* host_photo(const Host* const host, const Pane* const pane, const int width,
                     const int height)
{
    XImage* const image = photograph(host, pane, (PaneRect){0, 0, width, height});
    uint32_t* const seen = calloc((size_t)width * (size_t)height, sizeof *seen);
    for (int i = 0; seen && image && i < width * height; ++i) {
        seen[i] = (uint32_t)XGetPixel(image, i % width, i / width) & 0xffffff;
    }
    if (image) {
        XDestroyImage(image);
    }
    return seen;
}

uint32_t host_colour(const int x, const int y, const int seed)
{
    return (uint32_t)((x * 7 + seed) & 0xff) << 16 | (uint32_t)((y * 5 + seed) & 0xff) << 8 |
           (uint32_t)((x + y * 3) & 0xff);
}

uint32_t* host_picture(const int width, const int height, const int seed)
{
    uint32_t* const pixels = malloc((size_t)width * (size_t)height * sizeof *pixels);
    for (int y = 0; pixels && y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            pixels[y * width + x] = 0xff000000U | host_colour(x, y, seed);
        }
    }
    return pixels;
}

int host_strangers(const Host* const host, const Pane* const pane, const PaneRect rect,
                   const int seed)
{
    XImage* const image = photograph(host, pane, rect);
    int strangers = 0;
    for (int y = 0; image && y < rect.height; ++y) {
        for (int x = 0; x < rect.width; ++x) {
            strangers +=
                (XGetPixel(image, x, y) & 0xffffff) != host_colour(x + rect.x, y + rect.y, seed);
        }
    }
    if (!image) {
        return -1;
    }
    XDestroyImage(image);
    return strangers;
}
