// SPDX-License-Identifier: ISC
/* editor.h - changing the figure that plays in the bar shown: from clicks in its
   rows to a draft that the plugin plays, and to an entry of the user's own bank. */
#pragma once

#include "../../plugin/bank/single.h"
#include "../scene/view.h"
#include "sketch.h"

typedef struct Desk Desk;

typedef struct {
    bool is_open;
    Sketch sketch;
    const EntryInfo* info;        /* of the figure it began with, the bank's or a draft's */
    Single* drafts[FIGURE_KINDS]; /* as the plugin says */
    bool is_saved;                /* since the last change */
    uint8_t limb;                 /* of the figure, while a mouse button is held in a row */
    int64_t tick;                 /* of the cycle, likewise */
    double y;
    bool is_held;
    bool is_moving; /* with Shift */
    Level level;    /* when the button went down */
    bool has_changed;
    Kit kit; /* being learned */
} Editor;

void editor_close(Desk* desk);

/* The mouse in a limb's row. */
void editor_press(Desk* desk, int limb, double x, double y, int button, bool shift);
void editor_drag(Desk* desk, double y);
void editor_release(Desk* desk, double x);
void editor_hover(Desk* desk, int limb, double x);

/* A click or a key at an item of the panel; `by` steps up or down. */
void editor_do(Desk* desk, EditItem item);
void editor_step(Desk* desk, EditItem item, int by);
void editor_name(Desk* desk, const char* name);

/* What the plugin says. */
void editor_draft(Desk* desk, FigureKind kind, const char* text, size_t size);
void editor_saved(Desk* desk, int64_t id);
void editor_saved_kit(Desk* desk, int64_t id);
void editor_refused(Desk* desk, const char* why, size_t size);
void editor_note(Desk* desk, int note);
