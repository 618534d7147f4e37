// SPDX-License-Identifier: ISC
/* talk.h - bars and places by chance, and messages of them in a buffer. */
#pragma once

#include "../../plugin/talk/decode.h"
#include "../../plugin/talk/encode.h"
#include "../../ui/command/uri_table.h"
#include "../help/check.h"

#include <lv2/atom/util.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TALK_ROOM = 2 * ENCODE_BAR_BYTES };

typedef struct {
    UriTable* table;
    LV2_URID_Map map;
    Uris uris;
    LV2_Atom_Forge forge;
    union {
        LV2_Atom atom;
        uint8_t bytes[TALK_ROOM];
        uint64_t align;
    } buffer;
    uint32_t size; /* of the message, head included */
} Talk;

static inline void talk_open(Talk* const talk)
{
    talk->table = uri_table_new();
    talk->map = (LV2_URID_Map){talk->table, uri_table_map};
    talk->uris = uris_map(&talk->map);
    lv2_atom_forge_init(&talk->forge, &talk->map);
}

static inline void talk_close(Talk* const talk)
{
    uri_table_free(talk->table);
}

static inline void talk_begin(Talk* const talk)
{
    memset(&talk->buffer, 0, sizeof talk->buffer);
    lv2_atom_forge_set_buffer(&talk->forge, talk->buffer.bytes, TALK_ROOM);
}

static inline void talk_end(Talk* const talk)
{
    talk->size = talk->forge.offset;
}

/* The value of the message in the buffer, which should be told by that property. */
static inline const LV2_Atom* talk_value(const Talk* const talk, const LV2_URID wanted)
{
    LV2_URID property = 0;
    const LV2_Atom* value = NULL;
    CHECK(decode_message(&talk->buffer.atom, talk->size, &talk->uris, &property, &value));
    CHECK_INT(property, wanted);
    return value;
}

static inline void talk_bar(Talk* const talk, const SeenBar* const bar)
{
    LV2_Atom_Forge_Frame frame;
    talk_begin(talk);
    encode_begin(&talk->forge, &frame, talk->uris.fl_bar, &talk->uris);
    encode_bar(&talk->forge, bar, &talk->uris);
    lv2_atom_forge_pop(&talk->forge, &frame);
    talk_end(talk);
}

static inline void talk_place(Talk* const talk, const SeenPlace* const place)
{
    LV2_Atom_Forge_Frame frame;
    talk_begin(talk);
    encode_begin(&talk->forge, &frame, talk->uris.fl_place, &talk->uris);
    encode_place(&talk->forge, place, &talk->uris);
    lv2_atom_forge_pop(&talk->forge, &frame);
    talk_end(talk);
}

/* xorshift, Marsaglia 2003: the same on every machine. */
static inline uint32_t chance(uint32_t* const state)
{
    *state ^= *state << 13;
    *state ^= *state >> 17;
    *state ^= *state << 5;
    return *state;
}

static inline uint32_t chance_to(uint32_t* const state, const uint32_t most)
{
    return chance(state) % (most + 1);
}

static inline void chance_turns(uint32_t* const state, SeenTurns* const turns)
{
    turns->count = chance_to(state, SEEN_TURNS_MAX);
    for (uint32_t i = 0; i < turns->count; ++i) {
        turns->ticks[i] = (int32_t)chance(state);
    }
}

/* Any bar that decode.h takes as it is; zeros where nothing is said. */
static inline void chance_bar(uint32_t* const state, SeenBar* const bar)
{
    memset(bar, 0, sizeof *bar);
    bar->bar = (int64_t)chance(state) * 4096;
    bar->meter = (Meter){0.25 * (2 + chance_to(state, 100)), 1 << chance_to(state, 5)};
    bar->phrase_bars = 1 + chance_to(state, FORM_BARS_MAX - 1);
    bar->in_phrase = chance_to(state, bar->phrase_bars - 1);
    bar->part = (uint8_t)chance_to(state, PARTS_MAX - 1);
    bar->is_coming = chance(state) & 1U;
    bar->groove = chance_to(state, ID_MOST);
    bar->hands = chance_to(state, ID_MOST);
    bar->feet = chance_to(state, ID_MOST);
    bar->hands_step = (int32_t)chance_to(state, 1U << 24);
    bar->feet_step = (int32_t)chance_to(state, 1U << 24);
    if (chance(state) & 1U) {
        bar->fill = 1 + chance_to(state, ID_MOST - 1);
        bar->fill_feet = chance(state) & 1U;
        bar->fill_begin = (int32_t)chance_to(state, (uint32_t)meter_bar_ticks(bar->meter) - 1);
        bar->fill_end = bar->fill_begin + 1 + (int32_t)chance_to(state, 1U << 24);
        bar->fill_step = 1 + (int32_t)chance_to(state, 1U << 20);
    }
    for (int i = 0; i < SEEN_VARIED; ++i) {
        bar->varied.numbers[i] = (uint8_t)chance_to(state, 255);
        bar->varied.reasons[i] = (uint8_t)chance_to(state, 255);
    }
    bar->dropped = chance_to(state, 1000);
    bar->slot = chance_to(state, SEEN_BARS - 1);
    bar->gap = chance(state) & 1U;
    bar->clicks.count = chance_to(state, SEEN_CLICKS_MAX);
    for (uint32_t i = 0; i < bar->clicks.count; ++i) {
        bar->clicks.ticks[i] = (int32_t)chance(state);
    }
    chance_turns(state, &bar->hands_turns);
    chance_turns(state, &bar->feet_turns);
    bar->count = chance_to(state, SEEN_STROKES_MAX);
    for (uint32_t i = 0; i < bar->count; ++i) {
        bar->strokes[i] = (SeenStroke){
            .written = (int32_t)chance(state),
            .felt = (int32_t)chance(state),
            .limb = (uint8_t)chance_to(state, LIMB_COUNT - 1),
            .voice = (uint8_t)chance_to(state, VOICE_COUNT - 1),
            .level = (uint8_t)chance_to(state, LEVEL_DRAG),
            .velocity = (uint8_t)chance_to(state, 127),
            .is_grace = chance(state) & 1U,
            .free = chance(state) & 1U,
        };
    }
}

static inline void chance_place(uint32_t* const state, SeenPlace* const place)
{
    memset(place, 0, sizeof *place);
    place->bar = (int64_t)chance(state) - INT32_MAX;
    place->tick = chance(state) / 1024.0;
    place->phrase = (int64_t)chance(state);
    place->phrase_bars = 1 + chance_to(state, FORM_BARS_MAX - 1);
    place->ticks_per_second = chance(state) / 512.0;
    place->rolling = chance(state) & 1U;
    place->loops = chance(state) & 1U;
    place->own_clock = chance(state) & 1U;
    place->click_rests = chance(state) & 1U;
    place->click_bars = (int64_t)chance(state);
    place->next_tempo = chance(state) / 65536.0;
    place->ladder_bars = (int64_t)chance(state);
    place->host_has_tempo = chance(state) & 1U;
    place->host_has_place = chance(state) & 1U;
    place->waiting = chance(state) & 1U;
    place->change_bar = (int64_t)chance(state);
    place->change_tick = (int32_t)chance_to(state, 1U << 24);
    place->feet_meet = chance_to(state, 99);
    place->all_meet = chance_to(state, 9999);
    place->late = chance(state) & 1U;
}

static inline bool turns_alike(const SeenTurns* const a, const SeenTurns* const b)
{
    return a->count == b->count && !memcmp(a->ticks, b->ticks, a->count * sizeof *a->ticks);
}

/* Field by field: padding is nobody's. */
static inline bool bars_alike(const SeenBar* const a, const SeenBar* const b)
{
    bool alike = a->bar == b->bar && meter_equal(a->meter, b->meter) &&
                 a->in_phrase == b->in_phrase && a->phrase_bars == b->phrase_bars &&
                 a->part == b->part && a->fill == b->fill && a->fill_feet == b->fill_feet &&
                 a->fill_begin == b->fill_begin && a->fill_end == b->fill_end &&
                 a->fill_step == b->fill_step && a->is_coming == b->is_coming &&
                 a->groove == b->groove && a->hands == b->hands && a->feet == b->feet &&
                 a->hands_step == b->hands_step && a->feet_step == b->feet_step &&
                 a->dropped == b->dropped && turns_alike(&a->hands_turns, &b->hands_turns) &&
                 turns_alike(&a->feet_turns, &b->feet_turns) && a->count == b->count &&
                 !memcmp(&a->varied, &b->varied, sizeof a->varied) && a->slot == b->slot &&
                 a->gap == b->gap && a->clicks.count == b->clicks.count;
    for (uint32_t i = 0; alike && i < a->clicks.count; ++i) {
        alike = a->clicks.ticks[i] == b->clicks.ticks[i];
    }
    for (uint32_t i = 0; alike && i < a->count; ++i) {
        const SeenStroke x = a->strokes[i], y = b->strokes[i];
        alike = x.written == y.written && x.felt == y.felt && x.limb == y.limb &&
                x.voice == y.voice && x.level == y.level && x.velocity == y.velocity &&
                x.is_grace == y.is_grace && x.free == y.free;
    }
    return alike;
}

static inline bool places_alike(const SeenPlace* const a, const SeenPlace* const b)
{
    return a->bar == b->bar && !(a->tick < b->tick) && !(a->tick > b->tick) &&
           a->phrase == b->phrase && a->phrase_bars == b->phrase_bars &&
           !(a->ticks_per_second < b->ticks_per_second) &&
           !(a->ticks_per_second > b->ticks_per_second) && a->rolling == b->rolling &&
           a->host_has_tempo == b->host_has_tempo && a->host_has_place == b->host_has_place &&
           a->waiting == b->waiting && a->change_bar == b->change_bar &&
           a->change_tick == b->change_tick && a->feet_meet == b->feet_meet &&
           a->all_meet == b->all_meet && a->late == b->late && a->loops == b->loops &&
           a->own_clock == b->own_clock && a->click_rests == b->click_rests &&
           a->click_bars == b->click_bars && a->ladder_bars == b->ladder_bars &&
           !(a->next_tempo < b->next_tempo) && !(a->next_tempo > b->next_tempo);
}

/* A copy that is exactly as large as told, so that a sanitizer sees every byte read
   beyond it. */
static inline LV2_Atom* talk_copy(const Talk* const talk, const uint32_t size)
{
    LV2_Atom* const copy = malloc(size ? size : 1);
    if (!copy) {
        exit(2);
    }
    memcpy(copy, talk->buffer.bytes, size);
    return copy;
}

/* A value that was heard of lies whole inside the message. */
static inline void check_inside(const LV2_Atom* const atom, const uint32_t size,
                                const LV2_Atom* const value)
{
    const ptrdiff_t at = (const char*)value - (const char*)atom;
    CHECK(at > 0 && (size_t)at + sizeof *value <= size &&
          value->size <= size - (size_t)at - sizeof *value);
}

static inline bool hears_bar(const Talk* const talk, const LV2_Atom* const atom,
                             const uint32_t size, SeenBar* const to)
{
    LV2_URID property = 0;
    const LV2_Atom* value = NULL;
    if (!decode_message(atom, size, &talk->uris, &property, &value)) {
        return false;
    }
    check_inside(atom, size, value);
    return property == talk->uris.fl_bar && decode_bar(value, &talk->uris, to);
}

static inline bool hears_place(const Talk* const talk, const LV2_Atom* const atom,
                               const uint32_t size, SeenPlace* const to)
{
    LV2_URID property = 0;
    const LV2_Atom* value = NULL;
    if (!decode_message(atom, size, &talk->uris, &property, &value)) {
        return false;
    }
    check_inside(atom, size, value);
    return property == talk->uris.fl_place && decode_place(value, &talk->uris, to);
}
