// SPDX-License-Identifier: ISC
/* actions.h - what a person can do by a key: a row each, in one table.  By it the
   keyboard works; the window's list of keys is made from it, and the README's table is
   held against it. */
#pragma once

#include "effects.h"

/* Where a key has its meaning; where two do, the later of these counts. */
typedef enum {
    SCOPE_WINDOW, /* wherever the focus is */
    SCOPE_STATE,  /* a state has a page's place */
    SCOPE_DIAL,   /* the focus is on a dial, or the click's switch */
    SCOPE_SWITCH, /* on one that is turned, or goes round its words */
    SCOPE_VALUE,  /* on one that is typed */
    SCOPE_CARD,   /* on what opens a list */
    SCOPE_ITEM,   /* on an item of the editor */
    SCOPE_ROW,    /* on a row that is edited */
    SCOPE_OPTION, /* on an option of the window */
    SCOPE_OTHER,  /* on a tab, a bar or an option */
    SCOPE_VARY,   /* on a row of variations */
    SCOPE_KEPT,   /* on what is kept */
    SCOPE_WORDS,  /* on one of the words of a dial */
    SCOPE_DRAG,   /* the mouse holds a dial */
    SCOPE_TYPING,
    SCOPE_LIST,  /* a list is open */
    SCOPE_KEYS,  /* the list of keys is */
    SCOPE_ASKED, /* where a file is to be written is */
    SCOPE_READING,
    SCOPE_COUNT
} Scope;

typedef enum { ANY_SHIFT, NO_SHIFT, WITH_SHIFT } ShiftKey;

enum {
    ACTION_KEYS_MAX = 4,
    KEY_FIGURES = 0x120000, /* what numbers are written with; above all of PaneEvent's */
    KEY_LETTERS,            /* whatever can be written */
};

/* A key, as PaneEvent has it, and what its effect is about: an index or a number of
   steps, as the row's others. */
typedef struct {
    uint32_t key; /* 0: none */
    int which;
} ActionKey;

typedef struct {
    Scope scope;
    ShiftKey shift;
    ActionKey keys[ACTION_KEYS_MAX];
    const char* help; /* what it does, in a few words */
    Effect* effect;
} Action;

/* The table's rows; NULL behind the last. */
const Action* actions_row(int row);

/* True if the scope's keys have their meaning now. */
bool actions_apply(const Model* model, Scope scope);

/* The scope in a few words. */
const char* actions_scope(Scope scope);

/* The row's keys as people read them: "Page Up, Page Down". */
void actions_keys(const Action* action, char text[KEYS_ROOM]);

/* All rows as the window shows them. */
void actions_list(KeyList* list);
