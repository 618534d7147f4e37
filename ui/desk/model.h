// SPDX-License-Identifier: ISC
/* model.h - behind the window, at the bottom: what is known and shown, and where values
   go.  No window system, no clock: times are handed in.  One thread. */
#pragma once

#include "../../plugin/bank/snapshot.h"
#include "../../plugin/engine/writing/play_limits.h"
#include "../../plugin/talk/uris.h"
#include "../scene/targets.h"
#include "editor.h"
#include "entries.h"
#include "groove_saving.h"
#include "pieces.h"
#include "sounding.h"
#include "tap.h"

/* Where values go.  `touch` may be NULL: the host doesn't want to know. */
typedef struct {
    void* handle;
    void (*write)(void* handle, uint32_t port, float value);
    void (*touch)(void* handle, uint32_t port, bool is_held);
    void (*say)(void* handle, LV2_URID property, const char* text); /* a message */
    /* another, of what is kept; may be NULL */
    void (*say_kept)(void* handle, LV2_URID property, const KeptWord* word);
    /* It has changed, and this is what the session has over the files: controller_bank
       follows; may be NULL. */
    void (*read_bank)(void* handle, const char* entries);
    /* the phrase as a MIDI file, as it is played or on the grid; may be NULL */
    void (*write_file)(void* handle, bool straight); /* into view.asked.folder */
    void (*write_handout)(void* handle); /* what plays, as a folder for a bandmate; may be NULL */
    void (*file_folder)(void* handle, char folder[FOLDER_ROOM]); /* at first; may be NULL */
    /* The folder that a file lies in, or it is itself; false if it can't be typed; may be NULL. */
    bool (*folder_of)(void* handle, const char* path, char folder[FOLDER_ROOM]);
    /* Goes on with what is typed of a folder, and tells what there is to choose; may be
       NULL. */
    void (*complete)(void* handle, char folder[FOLDER_ROOM], char found[FOLDERS_ROOM]);
    void (*keep)(void* handle); /* the window's options, for the next one; may be NULL */
} ModelOutput;

struct Model {
    View view;
    int width; /* real pixels, and how many a logical one has at size 1 */
    int height;
    double scale;
    Fit fit; /* of them, at the size wanted */
    ModelOutput output;
    const Uris* uris;
    Bank* bank;         /* what can be picked */
    KeptList* kept;     /* what is kept, as the plugin said; NULL: nothing yet */
    Snapshot* snapshot; /* of it, with the drafts over it: what plays; NULL: nothing can */
    Entry* entries[ENTRY_KINDS];
    Palette host;   /* from the host's colours, or palette_dark */
    bool is_dirty;  /* the still picture must be drawn again */
    double told_at; /* when the place was told, seconds */
    double told_tick;
    double now; /* seconds, as last ticked */
    double x;   /* of the pointer, logical pixels */
    double y;
    bool is_triggered; /* the port below is on, by the window's own doing */
    Control triggered;
    double triggered_at; /* seconds */
    float drag_from;     /* the value when the drag began */
    float drag_base;     /* the value where it began, or became fine or coarse */
    bool is_fine;        /* the drag goes on finely, by Shift */
    double drag_x;
    double drag_y;
    double clicked_at; /* for double clicks, seconds */
    TargetId clicked;
    Tap tap;
    Sounding sounding;
    Editor editor;
    GrooveSaving groove_saving;
    SessionEntries entries_told;
    Pieces kept_told;
    float ports[CONTROL_COUNT];      /* as they are, whatever is kept plays */
    uint32_t composed;               /* snapshots made: another number, another bank */
    PlayLimits limits;               /* what the user can do */
    struct Varying* vary;            /* NULL until the page of variations is seen, */
    struct ShortlistDesk* shortlist; /* until the shortlist is */
};

/* As it is before anything was told, without a bank. */
void model_begin(Model* model, const Uris* uris, ModelOutput output);

/* The bank or a draft has changed: makes what plays anew, as the plugin does.  False, and
   it is as it was, if there is no memory. */
bool model_compose(Model* model);

/* True if all controls have the same values. */
bool model_values_alike(const float a[CONTROL_COUNT], const float b[CONTROL_COUNT]);

/* What plays, NULL without a bank. */
const Library* model_library(const Model* model);

/* Says something in the line that explains. */
void model_say(Model* model, const char* words);

/* The host's colours, if it told any. */
void model_host_colours(Model* model, Colour background, Colour text);

/* Its colours. */
void model_theme(Model* model, Theme theme);

/* How the window's pixels become logical ones. */
void model_fit(Model* model);

/* Shows a value and tells the plugin, if it differs. */
void model_set(Model* model, Control control, float value);

/* What the view's values are: the ports', or where what is kept plays, what it holds. */
void model_show_values(Model* model);

/* The slot, from 1, of what is kept and asked for to play; 0: none, or an empty one. */
uint32_t model_kept(const Model* model);

/* Where what is kept plays: it goes on from there by the ports, which get all that it holds.
   What is picked or edited then isn't ignored.  model_set does so by itself. */
void model_leave_kept(Model* model);

/* Says something of what is kept to the plugin. */
void model_say_kept(Model* model, LV2_URID property, int slot, const char* name);

/* Sets it between touch begin and end. */
void model_nudge(Model* model, Control control, float value);

/* A switch, or the click: off, or as on as it goes. */
void model_toggle(Model* model, Control control);

/* A trigger: on, and off again once every host has seen it, or the window closes. */
void model_trigger(Model* model, Control control);
void model_tick_trigger(Model* model, bool closes);

/* The mouse holds a dial; and lets go of what it holds. */
void model_hold(Model* model, TargetId id);
void model_let_go(Model* model);

void model_focus(Model* model, TargetId id);

/* What was being typed is left. */
void model_stop_typing(Model* model);

void model_targets(const Model* model, TargetList* targets);

/* The tempo of the groove, in quarter notes a minute; where none was told yet, 120. */
double model_tempo(const Model* model);
