// SPDX-License-Identifier: ISC
/* host.h - what a recording host is to a pane: an X connection of its own, a
   plain parent window, and perhaps a GLX context; and eyes for the test. */
#pragma once

#include "../../ui/pane/pane.h"

#include <GL/glx.h>
#include <X11/Xlib.h>

#include <stdbool.h>
#include <stdint.h>

enum { HOST_EVENTS = 64, HOST_WIDTH = 960, HOST_HEIGHT = 540 };

typedef struct {
    Display* display;
    Window parent;
    GLXContext context; /* NULL until host_draws */
    PaneEvent events[HOST_EVENTS];
    int count;        /* of events told so far, those that didn't fit too */
    bool leaves_keys; /* no use is made of them */
    bool opened;      /* the test says when pane_open has returned */
    int early;        /* events told before */
    bool settled;     /* host_settle's own word has come */
} Host;

/* A connection and a mapped parent; false if there is no display. */
bool host_start(Host* host);
void host_end(Host* host);

/* The host draws by GLX itself: its context is current from here on. */
void host_draws(Host* host);
bool host_still_draws(const Host* host);

/* A pane in the parent (or of its own), its events kept; NULL after a failed check. */
Pane* host_open(Host* host, int width, int height);
Pane* host_open_apart(Host* host, int width, int height);

/* Polls until the pane has taken all that the server had for it when this was called, and
   the server all that the pane said to that; what the last poll said. */
bool host_settle(Host* host, Pane* pane);

/* Polls until the pane has come to its end; false if it never does. */
bool host_wait_for_the_end(Pane* pane);

/* Polls until there are `count` events of that kind, and returns the last of these; NULL
   if they never come. */
const PaneEvent* host_wait(Host* host, Pane* pane, PaneEventKind kind, int count);
void host_forget(Host* host);

/* The pane's pixel on the screen, 0xrrggbb, as the host's own connection sees it. */
uint32_t host_pixel(const Host* host, const Pane* pane, int x, int y);

/* All of them, row by row; to be freed. */
uint32_t* host_photo(const Host* host, const Pane* pane, int width, int height);

/* A picture no two pixels of which are alike nearby: `seed` shifts it. */
uint32_t host_colour(int x, int y, int seed);
uint32_t* host_picture(int width, int height, int seed);

/* How many of the pane's pixels in the rectangle aren't host_colour's. */
int host_strangers(const Host* host, const Pane* pane, PaneRect rect, int seed);
