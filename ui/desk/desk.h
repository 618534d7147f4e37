// SPDX-License-Identifier: ISC
/* desk.h - behind the window: what the plugin says becomes a View, and what a
   person does becomes values for the plugin's ports.  No window system, no clock:
   times are handed in.  One thread. */
#pragma once

#include "../../plugin/bank/bank.h"
#include "../../plugin/talk/encode.h"
#include "../../plugin/talk/uris.h"
#include "../pane/pane.h"
#include "../scene/targets.h"
#include "editor.h"

#include <stdbool.h>
#include <stdint.h>

/* Where values go.  `touch` may be NULL: the host doesn't want to know. */
typedef struct {
    void* handle;
    void (*write)(void* handle, uint32_t port, float value);
    void (*touch)(void* handle, uint32_t port, bool is_held);
    void (*say)(void* handle, LV2_URID property, const char* text); /* a message */
    /* It has changed, and this is what the session has over the files: desk_bank
       follows; may be NULL. */
    void (*read_bank)(void* handle, const char* entries);
    /* the phrase as a MIDI file, as it is played or on the grid; may be NULL */
    void (*write_file)(void* handle, bool straight);
} DeskOutput;

/* The session's own entries, as the plugin tells them piece by piece. */
typedef struct {
    char* text; /* so far */
    Piece last; /* its text isn't looked at */
    double heard_at;
    bool is_whole;
    char* known; /* what the bank was read with last; NULL: nothing yet */
    int32_t known_bank;
} SessionEntries;

struct Desk {
    View view;
    Fit fit;
    DeskOutput output;
    const Uris* uris;
    const Bank* bank;
    Entry* entries[SHELF_COUNT];
    Palette host;   /* from the host's colours, or palette_dark */
    bool is_dirty;  /* the still picture must be drawn again */
    double told_at; /* when the place was told, seconds */
    double told_tick;
    double now; /* seconds, as last ticked */
    double x;   /* of the pointer, logical pixels */
    double y;
    float drag_from; /* the value when the drag began */
    float drag_base; /* the value where it began, or became fine or coarse */
    bool is_fine;    /* the drag goes on finely, by Shift */
    double drag_x;
    double drag_y;
    double clicked_at; /* for double clicks, seconds */
    TargetId clicked;
    Editor editor;
    SessionEntries entries_told;
};

/* `bank` may be NULL: nothing can be picked then.  `scale`: real pixels to a
   logical one.  False if memory ran out. */
bool desk_open(Desk* desk, const Bank* bank, const Uris* uris, DeskOutput output);
void desk_close(Desk* desk);

/* Another bank, or the same read again; the old one may go then.  False, with all as it
   was, if memory ran out. */
bool desk_bank(Desk* desk, const Bank* bank);

/* Says something in the line that explains. */
void desk_say(Desk* desk, const char* words);

void desk_resize(Desk* desk, int width, int height, double scale);

/* The host's colours, if it told any. */
void desk_host_colours(Desk* desk, Colour background, Colour text);

/* The property wanted of the plugin now, 0 for all: as long as somebody looks on, said
   once a second at least, it goes on telling. */
LV2_URID desk_asks(const Desk* desk);

/* What the host says: a port's value, or an atom of the plugin's. */
void desk_port_event(Desk* desk, uint32_t port, uint32_t size, uint32_t format, const void* buffer);

/* What the person did; anything may come in any order.  False for a key that does
   nothing here, as no key does that is pressed with Control, Alt or Super: they are
   the host's. */
bool desk_input(Desk* desk, const PaneEvent* event);

/* Time goes on: the place moves between two messages. */
void desk_tick(Desk* desk, double seconds);
