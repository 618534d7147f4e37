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

/* A figure that is being changed.  One of each kind: each keeps its changes, and what takes
   them back, while another is changed. */
typedef struct {
    bool is_open;
    EditBuffer buffer;
    EditFigure base;        /* as it is kept; where it is kept nowhere, as it was opened */
    const EntryInfo* info;  /* of the figure it began with, the bank's or a draft's */
    char name[TYPED_ROOM];  /* that it is to be saved under */
    char saved[TYPED_ROOM]; /* the name it was saved under last, "" if it wasn't */
    uint32_t saved_id;
} EditPiece;

/* What is being saved: figure after figure, each answered before the next is sent. */
typedef struct {
    bool is_sent;  /* what is in the buffer of `kind`: not answered yet, */
    bool is_stale; /* and changed since */
    FigureKind kind;
    bool wants[FIGURE_KINDS]; /* those that come after it */
    bool asks;                /* for names that are new */
    bool is_naming;           /* one of them is given a name first */
    TargetId from;            /* what had the keys before */
    char name[TYPED_ROOM];
    uint32_t asked_id;       /* the own entry it was to go over; 0: a new one */
    bool is_beside;          /* one became a new entry all the same */
    char done[MESSAGE_ROOM]; /* names of those that are saved, in words */
} Saving;

typedef struct {
    FigureKind kind; /* whose piece is changed */
    EditPiece pieces[FIGURE_KINDS];
    Draft drafts[FIGURE_KINDS];
    Hold hold;
    Saving saving;
    Lesson lesson;
} Editor;

/* The figure that is edited in the bar shown: hit.h. */
typedef struct HitTest HitTest;

void editor_close(Model* model);

/* The piece that is changed; it may not be open. */
EditPiece* editor_piece(Model* model);
const EditPiece* editor_piece_seen(const Model* model);

/* True if a figure of the kind was changed and isn't kept so. */
bool editor_is_changed(const Model* model, FigureKind kind);

/* Takes up the kind's draft, which is there, wherever it plays. */
void editor_open_draft(Model* model, FigureKind kind);

/* Goes on with a kind's piece, as it was left. */
void editor_go_to(Model* model, FigureKind kind);

/* The name that the piece is to be saved under. */
void editor_name(Model* model, const char* name);

/* Another bank has come: what was told of the old one's entries must not be used. */
void editor_bank(Model* model);

/* Time goes on. */
void editor_tick(Model* model);

/* The mouse in a limb's row. */
void editor_press(Model* model, int limb, double x, double y, int button, bool shift);
void editor_drag(Model* model, double y);
void editor_release(Model* model, double x);
void editor_hover(Model* model, int limb, double x);

/* A step of the figure that is edited. */
typedef struct {
    uint8_t limb; /* of the figure */
    int64_t tick; /* of the cycle */
} EditorPlace;

/* The row that shows a limb of the figure. */
int editor_row(const Model* model, uint8_t limb);

/* Takes up the figure under x in a row and finds its step there; false, and said why, if
   that can't be done. */
bool editor_reach(Model* model, int row, double x, EditorPlace* place);

/* The page stays while one edits: the bar shown, or as much of it as leaves its steps wide
   enough to hit, is held, turned, and follows what plays again. */
void editor_hold_page(Model* model);
void editor_turn_page(Model* model, int by);
void editor_let_page_go(Model* model);

/* Takes up the figure of the hit, if it isn't already; false, and said why, if that
   can't be done. */
bool editor_begin(Model* model, const HitTest* hit);

/* Lets the plugin play the buffer as it is now, which was changed; a change that can't
   be written, or that the plugin would not take, is taken back. */
void editor_change(Model* model);

/* The same after going back or on. */
void editor_send(Model* model);

/* Fills in what the panel shows. */
void editor_show(Model* model);
