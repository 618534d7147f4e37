// SPDX-License-Identifier: ISC
/* rig.h - a small host with the built plugin and its window: a plain X11 parent, the
   plugin run in step, and all that the window says kept.  Beside it a desk of the
   test's own that is told the same, to draw what the window ought to show. */
#pragma once

#include "../../ui/command/host.h"
#include "../../ui/desk/controller.h"
#include "../../ui/desk/incoming.h"

#include <X11/Xlib.h>
#include <cairo.h>
#include <lv2/log/log.h>
#include <lv2/options/options.h>
#include <lv2/ui/ui.h>

enum { RIG_RATE = 48000, RIG_WRITES = 512, RIG_SAID = 1024 };

/* Which optional features the window gets. */
enum { RIG_PARENT = 1, RIG_RESIZE = 2, RIG_TOUCH = 4, RIG_LOG = 8, RIG_OPTIONS = 16, RIG_ALL = 31 };

typedef struct {
    unsigned features;
    int x, y;    /* of the parent on the screen */
    float scale; /* ui:scaleFactor; 0: not told */
    bool has_colours;
    uint32_t background, text; /* red, green, blue, opacity */
} RigOffer;

/* What the window wrote to a control, or that it took hold of it. */
typedef enum { RIG_WROTE, RIG_HELD, RIG_LET_GO } RigDid;
typedef struct {
    RigDid did;
    uint32_t port;
    float value;
} RigWrite;

typedef struct {
    Host* plugin;
    Bank* bank;
    Uris uris;
    Display* display; /* NULL: there is none */
    Window parent;
    const LV2UI_Descriptor* descriptor;
    const LV2UI_Idle_Interface* idle;
    LV2UI_Handle ui;
    LV2UI_Widget widget;
    RigWrite writes[RIG_WRITES]; /* to controls; the last ones are dropped if too many */
    int write_count;
    int gets;            /* messages to the plugin */
    int asked_width;     /* by ui:resize; 0: never */
    int asked_height;    /* by ui:resize; 0: never */
    char said[RIG_SAID]; /* by log:log */
    float told[READOUT_COUNT];
    Model mirror;
    double longest; /* seconds that an idle call took */
    double hardest; /* of them, this thread's own work */
    double others;  /* processor seconds that plugin and mirror took, not the window */
    /* What the features point at. */
    LV2_URID_Map map;
    LV2_Log_Log log;
    LV2UI_Resize resize;
    LV2UI_Touch touch;
    LV2_Options_Option options[4];
    LV2_Feature given[6];
    const LV2_Feature* features[7];
    RigOffer offer;
} Rig;

/* Opens plugin, mirror, parent and window; false after a failed check.  The window's
   refusal is one.  rig_close is due either way, and closes what there is. */
bool rig_open(Rig* rig, const RigOffer* offer);
void rig_close(Rig* rig);

/* The parts of it: a host without a window, the window alone, its end alone. */
bool rig_prepare(Rig* rig, const RigOffer* offer);
bool rig_open_window(Rig* rig);
void rig_close_window(Rig* rig);

/* Tells window and mirror the value of a port, or a message. */
void rig_tell(Rig* rig, uint32_t port, float value);
void rig_tell_control(Rig* rig, Control control, float value); /* and the plugin */
void rig_message(Rig* rig, const LV2_Atom* atom);

/* The transport from a bar of 4/4 on. */
void rig_roll(Rig* rig, int64_t bar, float tempo, float speed);

/* One block of the plugin, and what it says handed on. */
void rig_block(Rig* rig, uint32_t frames);

/* One idle call; false: the window wants to end. */
bool rig_idle(Rig* rig);

/* Runs plugin and window in time, `rate` idle calls a second; false: it ended. */
bool rig_play(Rig* rig, double seconds, int rate);

/* The same without the plugin: 5 ms between idle calls. */
bool rig_rest(Rig* rig, double seconds);

/* The same until it holds; false if it never does. */
bool rig_waits(Rig* rig, bool (*until)(Rig* rig));

/* The same until the window wants to end; false if it never does. */
bool rig_ends(Rig* rig);

/* Whether the window has the keys. */
bool rig_has_keys(Rig* rig);

/* What is on the screen, and what ought to be; RGB24.  NULL if it can't be had. */
cairo_surface_t* rig_picture(const Rig* rig);
cairo_surface_t* rig_wanted(Rig* rig);

/* Pixels that differ by more than `slack` of 255 in any colour; -1: other sizes. */
int rig_difference(cairo_surface_t* a, cairo_surface_t* b, int slack);

/* Where a target's middle is, on the screen; ends the program if there is none. */
void rig_find(const Rig* rig, TargetId id, int* x, int* y);

double rig_now(void);

/* Processor seconds of this thread. */
double rig_worked(void);
