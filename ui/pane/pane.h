// SPDX-License-Identifier: ISC
/* pane.h - a window that shows pictures someone else painted, and tells what
   the mouse and the keys did.  Only pane*.c know Pugl, GLX, OpenGL and Xlib
   (tests/checks/layers.sh holds them to it), and hold what Debian 12's Pugl
   needs so as not to harm its host: see pane.c.

   Lengths are real pixels from the top left.  One thread, the host's user
   interface thread, calls everything here.  Several panes at once are fine.
   The host's current GLX context is the same after every call as before; so is
   its X error handler.  Outside pane_open and pane_display_scale, the display
   is the one that $DISPLAY named at pane_open.

   Not cured: Pugl prints three lines on standard output at every open.  If the
   host keeps an EGL context current on this thread, GLX is refused: pane_open
   fails, and later polls leave the picture as it is until the host lets go. */
#pragma once

#include <stdbool.h>
#include <stdint.h>

typedef struct Pane Pane;

typedef enum {
    PANE_PRESS,     /* button, x, y, modifiers */
    PANE_RELEASE,   /* the same; also outside the pane if pressed inside */
    PANE_MOTION,    /* x, y, modifiers; also on entering, and outside while a button is held */
    PANE_SCROLL,    /* scroll lines up (1) or down (-1), at the last known x, y; modifiers */
    PANE_KEY,       /* key, text, modifiers; again and again while held; no releases */
    PANE_LEAVE,     /* the pointer left; a drag goes on none the less */
    PANE_FOCUS_IN,  /* keys come from here on */
    PANE_FOCUS_OUT, /* and no more */
    PANE_RESIZE,    /* width, height; always among the first poll's events */
    PANE_DROP,      /* path: a file was dropped here */
    PANE_CLOSE      /* a window of its own was asked to close; pane_poll says false from now on */
} PaneEventKind;

/* Keys without a character, above all code points of Unicode. */
typedef enum {
    PANE_KEY_UP = 0x110000,
    PANE_KEY_DOWN,
    PANE_KEY_LEFT,
    PANE_KEY_RIGHT,
    PANE_KEY_PAGE_UP,
    PANE_KEY_PAGE_DOWN,
    PANE_KEY_HOME,
    PANE_KEY_END,
    PANE_KEY_INSERT,
    PANE_KEY_ENTER,
    PANE_KEY_ESCAPE,
    PANE_KEY_TAB,
    PANE_KEY_BACKSPACE,
    PANE_KEY_DELETE,
    PANE_KEY_F1, /* F2 to F12 follow one by one */
    PANE_KEY_F12 = PANE_KEY_F1 + 11
} PaneKey;

enum { PANE_SHIFT = 1, PANE_CONTROL = 2, PANE_ALT = 4, PANE_SUPER = 8 };

typedef struct {
    PaneEventKind kind;
    double x, y;
    double scroll;
    int button;         /* 1 left, 2 middle, 3 right; others aren't told */
    uint32_t key;       /* a PaneKey, or the code point typed, letters in lower case */
    uint32_t place;     /* '1' to '9', then '0': keys that have these by their place, on any
                           layout and with Shift too; else 0 */
    uint32_t text;      /* the code point typed, or 0: named keys, and with Control, Alt or Super */
    uint32_t modifiers; /* PANE_SHIFT and so on, or-ed */
    double seconds;     /* of a key: when it was struck, by the clock of X; 0: not told */
    int width, height;
    const char* path; /* bytes as the disk has them, the first of several files; "": what was
                         dropped is no file of this machine; gone after the next poll */
} PaneEvent;
/* Not told: horizontal wheels, buttons above 3, modifier keys alone, dead keys and
   input methods, characters beyond Latin-1 whose keysym isn't their code point
   (Greek and Cyrillic layouts of old). */

typedef struct {
    uintptr_t parent; /* X11 window to live in; 0: a window of its own */
    int width, height;
    int min_width, min_height; /* told to whoever manages the window; 0: none */
    const char* title;         /* may be NULL; copied */
    /* Called by pane_poll alone.  It may call anything here, even pane_close.  True
       if it made use of it.  A key that it did not goes to the parent, press and
       release, as if it had been pressed there, unless a host had sent it here. */
    bool (*event)(void* handle, const PaneEvent* event);
    void* handle;
} PaneRequest;

/* A window that the X server and every client of it know by the time this
   returns.  NULL with the reason in `why`: no display, no GLX, no such parent. */
Pane* pane_open(const PaneRequest* request, char why[256]);

/* Any moment, also when the parent was destroyed first; NULL is fine. */
void pane_close(Pane* pane);

uintptr_t pane_window(const Pane* pane); /* X11 window */

/* How much larger than at 96 dots an inch things should be drawn: Xft.dpi / 96
   of the X resources, 1 if there is none.  The second asks before any pane is
   open, so that a window can be opened in its right size. */
double pane_scale(const Pane* pane);
double pane_display_scale(void);

typedef struct {
    int x, y, width, height;
} PaneRect;

/* Layer 0 is the picture itself, layer 1 another to cut from. */
enum { PANE_PLAIN = 0, PANE_LIT = 1, PANE_LAYERS = 2, PANE_COLOUR = -1 };

/* Keeps a picture as Cairo has it: rows of `stride` bytes (a multiple of 4),
   native-endian 32-bit pixels, alpha premultiplied.  Layer 0's alpha isn't
   looked at, so RGB24 will do there; layer 1 is laid over it, so it needs
   ARGB32.  Only `dirty`, cut to the picture, is read and changed, unless the
   size differs from last time: then all of it.  `pixels` aren't kept.  Marks
   the pane dirty.  False, and the layer as it was, if the picture is empty,
   larger than pane_largest either way, there is no memory for it, or the window
   is gone. */
bool pane_upload(Pane* pane, int layer, const unsigned char* pixels, int width, int height,
                 int stride, PaneRect dirty);
int pane_largest(const Pane* pane);

enum { PANE_QUADS_MAX = 256 }; /* a window shows some 10; a list of rows lit at once 100 */

typedef struct {
    PaneRect place;
    int layer;       /* PANE_PLAIN or PANE_LIT: cut from there, as it is; or PANE_COLOUR */
    PaneRect source; /* in the layer; the size of `place` keeps it crisp */
    float red, green, blue, alpha; /* for PANE_COLOUR, 0 to 1, not premultiplied */
} PaneQuad;

/* What is drawn from now on: layer 0 at the top left, one pixel to a pixel,
   black where it doesn't reach; then the quads in their order.  Copied; those
   beyond PANE_QUADS_MAX aren't drawn.  Marks the pane dirty if it differs from
   what is shown; draws nothing itself. */
void pane_show(Pane* pane, const PaneQuad* quads, int count);

/* Tells the events since last time, then draws if dirty or uncovered; idle it
   costs next to nothing.  False once the pane was closed, or its parent or its
   connection to the X server is gone:
   the user interface should then end (pane_close is still due, unless an event
   called it). */
bool pane_poll(Pane* pane);

/* Asks for the keys: for hosts that don't hand them on, at a click.  False if
   the pane can't have them, because it isn't on the screen. */
bool pane_take_focus(Pane* pane);

/* Best effort: a host may know better.  PANE_RESIZE says what came of it. */
void pane_resize(Pane* pane, int width, int height);
