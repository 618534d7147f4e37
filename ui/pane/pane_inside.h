// SPDX-License-Identifier: ISC
/* pane_inside.h - what the files of a pane share; nobody else includes it. */
#pragma once

#include "pane.h"

#include <GL/gl.h>
#include <GL/glx.h>
#include <GL/glxext.h>
#include <X11/Xlib.h>

/* Motions in a row count once, so a poll would need more clicks and keys than
   these since the last; the rest is dropped. */
enum { PANE_EVENTS_MAX = 256 };

typedef struct {
    GLuint name;                 /* 0: none yet */
    int width, height;           /* of the picture */
    int room_width, room_height; /* of the texture: powers of two where GL wants them */
} PaneLayer;

/* What happened, and for keys as X told it: presses, also of keys without a name
   here (told.key is 0), and releases. */
typedef struct {
    PaneEvent told;
    XKeyEvent key; /* of type 0 for all but keys */
} PaneNews;

typedef enum {
    PANE_DROP_AWARE,
    PANE_DROP_ENTER,
    PANE_DROP_POSITION,
    PANE_DROP_STATUS,
    PANE_DROP_LEAVE,
    PANE_DROP_DROP,
    PANE_DROP_FINISHED,
    PANE_DROP_SELECTION,
    PANE_DROP_TYPES,
    PANE_DROP_COPY,
    PANE_DROP_URI_LIST,
    PANE_DROP_ATOMS
} PaneDropAtom;

enum { PANE_PATH_ROOM = 4096 };

/* Something that is dragged over the window. */
typedef struct {
    Atom atoms[PANE_DROP_ATOMS];
    Window source;             /* whose it is; None: nothing is */
    bool has_list;             /* it has files, perhaps */
    char path[PANE_PATH_ROOM]; /* of the last that was dropped */
} PaneDrop;

struct Pane {
    void* view;       /* what pane_view keeps: Pugl's */
    Display* display; /* these three are Pugl's own */
    Window window;
    GLXContext context;
    Atom protocols, delete_window;
    Window parent; /* the host's; None: a window of its own */
    bool (*event)(void* handle, const PaneEvent* event);
    void* handle;

    bool dirty;      /* what is shown isn't what should be, */
    PaneRect damage; /* here */
    bool gone;       /* the window was destroyed, by its parent's end, or broken */
    bool broken;     /* the connection to the X server was cut */
    bool closed;     /* asked to close, or pane_close within an event */
    bool delivering; /* an event is being told */
    bool freed_next; /* pane_close within an event: end after it */

    PaneNews events[PANE_EVENTS_MAX];
    int event_count;
    uint8_t returned[256 / 8]; /* a bit for each key code whose press went to the host */
    double x, y;               /* the pointer when last seen */
    int width, height;

    PaneDrop drop;

    PaneLayer layers[PANE_LAYERS];
    PaneQuad quads[PANE_QUADS_MAX];
    int quad_count;
    /* For software GL: shows a part of the back buffer; NULL elsewhere.  The part was
       drawn just before, so nothing is asked of what the buffer held. */
    void (*show_part)(Display* display, GLXDrawable window, int x, int y, int width, int height);
    bool swap;     /* swap once first: only then does GL learn a new size of the window */
    bool any_size; /* textures of any size, not powers of two alone */
    int largest;
};

/* ---- pane_view_first.c, pane_view_current.c: a window with a GL context, Pugl's: that of the
   first Pugl, which Debian 12 packages, or the one with worlds; the build takes one. */

/* Sets view, display, window and context, and pane->gone if the parent is.  The size told in
   pane is the window's.  False with the reason in `why`, which stays empty where X refused.
   Within the guard; on false pane_view_close is still due. */
bool pane_view_open(Pane* pane, const PaneRequest* request, char why[256]);

/* The pane's context isn't current.  Nothing happens where none was opened. */
void pane_view_close(Pane* pane);

/* ---- pane_guard.c: the host is left as it was found */

typedef struct {
    Display* display;
    GLXDrawable draw, read;
    GLXContext context;
} PaneHost;

/* Remembers the host's GLX context and turns X errors of the pane's display into
   flags; leave puts both back, and its error handlers.  Never nested. */
PaneHost pane_guard_enter(Pane* pane);
void pane_guard_leave(const Pane* pane, const PaneHost* host);

/* The pane's display is known: its end isn't the process's. */
void pane_guard_display(Pane* pane);

/* Whether the pane's own context is now current. */
bool pane_make_current(const Pane* pane);

double pane_scale_of(Display* display);

/* ---- pane_input.c: what happened */

void pane_input_take_events(Pane* pane);
void pane_input_add(Pane* pane, PaneEvent event);

/* ---- pane_drop.c: what is dragged here and dropped */

void pane_drop_prepare(Pane* pane);
void pane_drop_message(Pane* pane, const XClientMessageEvent* event);
/* What PANE_DROP tells as its path; NULL: nothing was dropped. */
const char* pane_drop_selection(Pane* pane, const XSelectionEvent* event);

/* ---- pane_keys.c: which key */

/* PANE_SHIFT and so on from X's state. */
uint32_t pane_modifiers(unsigned state);

/* A press as it is told; `key` is 0 in the answer if it is none of ours. */
PaneEvent pane_key_of(XKeyEvent* event);

/* ---- pane_return.c: keys that are the host's */

/* What the pane has no use for; outside the guard. */
void pane_return_press(Pane* pane, const XKeyEvent* key);
/* Those whose press was returned. */
void pane_return_release(Pane* pane, const XKeyEvent* key);

/* ---- pane_damage.c: where the picture isn't what it should be */

void pane_damage(Pane* pane, PaneRect part); /* marks dirty */
void pane_damage_all(Pane* pane);
PaneRect pane_within(PaneRect rect, int width, int height); /* cut to 0, 0, width, height */
bool pane_is_empty(PaneRect rect);

/* ---- pane_layer.c, pane_draw.c: these want the pane's context current */

void pane_layer_delete(Pane* pane);
bool pane_draw_can(const Pane* pane); /* whether it is */
void pane_draw_prepare(Pane* pane);
void pane_draw_reshape(int width, int height);
void pane_draw(Pane* pane);            /* all of it, and shows it */
void pane_draw_part(const Pane* pane); /* the damage, and shows it; wants show_part */
