// SPDX-License-Identifier: ISC
/* encode.h - what plugin and window write to each other, forged into a sequence or a buffer
   that the caller set: an fl:Message, whose one property says what is told, or an fl:Look.
   Types of our own, as hosts look into others' (tests/plugin/test_messages.c).  No
   allocation; any thread. */
#pragma once

#include "../engine/groove/controls.h"
#include "seen.h"
#include "uris.h"

#include <lv2/atom/forge.h>
#include <stdbool.h>

/* Bytes of a message less its value's body: event, object, property. */
enum { ENCODE_HEAD_BYTES = 128 };

/* The most that a bar takes, the head of the message included. */
enum {
    ENCODE_BAR_BYTES = 512 + (2 * SEEN_TURNS_MAX + SEEN_CLICKS_MAX) * (int)sizeof(int32_t) +
                       SEEN_STROKES_MAX * 4 * (int)sizeof(int32_t)
};

/* True if the sequence being forged can still take a message with so large a value. */
bool encode_has_room(const LV2_Atom_Forge* forge, size_t value_bytes);

/* Begins one at frame 0 of a sequence; else as below. */
void encode_begin_event(LV2_Atom_Forge* forge, LV2_Atom_Forge_Frame* frame, LV2_URID property,
                        const Uris* uris);

/* Begins a message of a property: the value is forged next, then the frame is popped.
   In a sequence, forge the time first. */
void encode_begin(LV2_Atom_Forge* forge, LV2_Atom_Forge_Frame* frame, LV2_URID property,
                  const Uris* uris);

/* The value of fl:bar, a tuple: the fields of its head as doubles, starts of the
   hands' figure, of the feet's, four numbers a stroke, and clicks.  decode.h reads it. */
void encode_bar(LV2_Atom_Forge* forge, const SeenBar* bar, const Uris* uris);

/* The value of fl:place, its fields as doubles. */
void encode_place(LV2_Atom_Forge* forge, const SeenPlace* place, const Uris* uris);

/* True if both say the same in every field that is sent. */
bool encode_places_alike(const SeenPlace* a, const SeenPlace* b);

/* What is played from a place on, for a plugin whose host knows the song beforehand. */
typedef struct {
    int64_t bar;    /* of the song, where it begins */
    int64_t origin; /* the bar that phrases, figures and feel count from */
    Meter meter;
    double tempo; /* quarter notes a minute it begins at */
    bool ends;    /* nothing is played from here on */
    bool begins;  /* the song's first: those told before are forgotten */
    int64_t tick; /* where it begins in that bar, less than its meter's bar */
    float controls[CONTROL_COUNT];
} ToldSection;

/* An fl:ToldSection. */
void encode_section(LV2_Atom_Forge* forge, const ToldSection* section, const Uris* uris);

/* A part of a long text: of which, where it begins, and how long the whole is, in
   bytes.  `which` is another number whenever the text may be another. */
typedef struct {
    int32_t which;
    int32_t at;
    int32_t whole;
    int32_t length;
    const char* text; /* not ended by a 0 */
} Piece;

/* Bytes of a message of one less the text's own. */
enum { ENCODE_PIECE_BYTES = ENCODE_HEAD_BYTES + 96 };

/* The value of fl:sessionEntries and fl:keptSelections, a tuple: three whole numbers and a string. */
void encode_piece(LV2_Atom_Forge* forge, const Piece* piece, const Uris* uris);

/* Of what is kept: which slot, 1 to KEPT_MAX, or 0, and a name. */
typedef struct {
    int32_t slot;
    int32_t length;   /* bytes of the name */
    const char* name; /* not ended by a 0 */
} KeptWord;

enum { KEPT_WORD_MOST = 256 }; /* bytes of a name; more is no name */

/* The value of fl:keep and its like, a tuple: a whole number and a string. */
void encode_kept(LV2_Atom_Forge* forge, const KeptWord* word);

/* An fl:Look: somebody looks on, and wants one property now, or all there is to tell for 0. */
void encode_look(LV2_Atom_Forge* forge, LV2_URID wanted, const Uris* uris);
