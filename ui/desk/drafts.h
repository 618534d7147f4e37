// SPDX-License-Identifier: ISC
/* drafts.h - the three drafts between window and plugin.  What was last sent is what
   counts here; no draft is sent before the one of its kind before it was answered, so
   that however fast a hand is, the plugin is never asked for too much at once. */
#pragma once

#include "../../plugin/bank/single.h"

#include <stdbool.h>
#include <stddef.h>

typedef struct Model Model;

/* Longer texts the plugin refuses. */
enum { DRAFT_BYTES_MAX = 32768 };

typedef struct {
    Single* single; /* as last sent, or as the plugin says; NULL: none */
    char* sent;     /* the text that is not answered yet; NULL: all are */
    double sent_at; /* seconds */
    bool is_due;    /* another was made since */
    bool is_kept;   /* saved into the user's bank as it is */
} Draft;

/* A Turtle text becomes the draft of its kind; "" drops it.  False, and all as it was,
   if the plugin would not take it. */
bool drafts_put(Model* model, FigureKind kind, const char* text);

/* What the plugin says; true if that is another draft than the one known here. */
bool drafts_told(Model* model, FigureKind kind, const char* text, size_t length);

/* The plugin refused something: nothing is waited for any more. */
void drafts_refused(Model* model);

/* Time goes on: an answer that never came is waited for no longer. */
void drafts_tick(Model* model);

void drafts_free(Model* model);
