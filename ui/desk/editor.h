// SPDX-License-Identifier: ISC
/* editor.h - changing the figure that plays in the bar shown: from clicks in its
   rows to a draft that the plugin plays, and to an entry of the user's own bank. */
#pragma once

#include "../scene/view.h"
#include "drafts.h"
#include "edit_buffer.h"

/* A mouse button is held in a row. */
typedef struct {
    bool is_held;
    bool is_moving;  /* with Shift */
    bool is_dragged; /* far enough to be no click */
    bool has_changed;
    uint8_t limb; /* of the figure */
    int64_t tick; /* of the cycle */
    double y;
    Level level; /* when the button went down */
} Hold;

/* A kit map that is learned from pads: saved note by note, one save at a time. */
typedef struct {
    Kit kit;
    bool is_sent;      /* not answered yet */
    bool is_due;       /* more notes came since */
    uint32_t asked_id; /* the own kit map it was to go over; 0: a new one */
} Lesson;

typedef struct {
    bool is_open;
    EditBuffer buffer;
    const EntryInfo* info; /* of the figure it began with, the bank's or a draft's */
    Draft drafts[FIGURE_KINDS];
    Hold hold;
    bool is_saving; /* what is in the buffer: not answered, and not changed since */
    char saving[TYPED_ROOM];
    uint32_t asked_id;      /* the own entry it was to go over; 0: a new one */
    char saved[TYPED_ROOM]; /* the name it was saved under last, "" if it wasn't */
    uint32_t saved_id;
    Lesson lesson;
} Editor;

void editor_close(Desk* desk);

/* Another bank has come: what was told of the old one's entries must not be used. */
void editor_bank(Desk* desk);

/* Time goes on. */
void editor_tick(Desk* desk);

/* The mouse in a limb's row. */
void editor_press(Desk* desk, int limb, double x, double y, int button, bool shift);
void editor_drag(Desk* desk, double y);
void editor_release(Desk* desk, double x);
void editor_hover(Desk* desk, int limb, double x);

/* A click or a key at an item of the panel; `by` steps up or down. */
void editor_do(Desk* desk, EditItem item);
void editor_step(Desk* desk, EditItem item, int by);
void editor_name(Desk* desk, const char* name);

/* The phrase as a MIDI file, with feel or exactly on the grid. */
void editor_write(Desk* desk, bool straight);

/* What the plugin says. */
void editor_draft(Desk* desk, FigureKind kind, const char* text, size_t size);
void editor_saved(Desk* desk, int64_t id);
void editor_saved_kit(Desk* desk, int64_t id);
void editor_refused(Desk* desk, const char* why, size_t size);
void editor_note(Desk* desk, int note);
