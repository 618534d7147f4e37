// SPDX-License-Identifier: ISC
/* hand_played.h - transports written by hand, at 120 in 4/4 and 48 kHz where a
   test says nothing else, and the frames that their strokes must stand at. */
#pragma once

#include "groove_folder.h"
#include "replay.h"
#include "same_notes.h"

#include <math.h>

enum {
    RATE = 48000,
    PLAIN_FIELDS = 8 /* FRAME to BEATS_PER_MINUTE: those that LV2 defines */
};

static const int64_t SIXTEENTH_FRAMES = 6000;
static const int64_t QUARTER_FRAMES = 24000;
static const int64_t BAR_FRAMES = 96000;

/* A whole position, with the types most hosts use. */
static inline Told position_at(const int64_t frame, const double speed)
{
    const double beats = (double)frame / (double)QUARTER_FRAMES;
    const double bar = floor(beats / 4.0);
    return (Told){PLAIN_FIELDS,
                  {FRAME, SPEED, BAR, BAR_BEAT, BEAT, BEAT_UNIT, BEATS_PER_BAR, BEATS_PER_MINUTE},
                  {'L', 'F', 'L', 'F', 'D', 'I', 'F', 'F'},
                  {(double)frame, speed, bar, beats - bar * 4.0, beats, 4.0, 4.0, 120.0}};
}

static inline void set_field(Told* const told, const Field field, const double value)
{
    for (uint32_t i = 0; i < told->count; ++i) {
        if (told->fields[i] == field) {
            told->values[i] = value;
        }
    }
}

/* Only the fields whose bits are set. */
static inline Told some_fields(const Told* const whole, const uint32_t bits)
{
    Told some = {.count = 0};
    for (uint32_t i = 0; i < whole->count; ++i) {
        if (bits & (1U << i)) {
            some.fields[some.count] = whole->fields[i];
            some.types[some.count] = whole->types[i];
            some.values[some.count++] = whole->values[i];
        }
    }
    return some;
}

static inline Told one_field(const Field field, const char type, const double value)
{
    return (Told){1, {field}, {type}, {value}};
}

static inline void tell(Player* const player, const Told told, const int64_t offset)
{
    player_tell(player, &told, offset);
}

/* As if nothing had been played: activated anew, no notes, frame 0.  What was
   played before must have kept all rules. */
static inline void begin_anew(Player* const player)
{
    CHECK_TEXT(player->fault, "none");
    player_reset(player);
    snprintf(player->fault, sizeof player->fault, "none");
    player->count = 0;
    player->now = 0;
}

/* Plays up to a frame since the player began, in blocks of this size. */
static inline void play_to(Player* const player, const int64_t frame, const uint32_t block)
{
    while (player->now < frame) {
        const int64_t left = frame - player->now;
        player_run(player, left < block ? (uint32_t)left : block);
    }
}

static inline size_t note_ons(const Player* const player)
{
    size_t count = 0;
    for (size_t i = 0; i < player->count; ++i) {
        count += (player->notes[i].bytes[0] & 0xF0U) == LV2_MIDI_MSG_NOTE_ON;
    }
    return count;
}

/* The frame of the note-on of a key, that many after `from`; -1 if none. */
static inline int64_t frame_of_stroke(const Player* const player, const int key, const int64_t from,
                                      size_t index)
{
    for (size_t i = 0; i < player->count; ++i) {
        const Note note = player->notes[i];
        const bool is_on = (note.bytes[0] & 0xF0U) == LV2_MIDI_MSG_NOTE_ON;
        if (is_on && note.bytes[1] == key && note.frame >= from && index-- == 0) {
            return note.frame;
        }
    }
    return -1;
}

/* From `first` to before `end` hats stand `spacing` frames apart, and no others. */
static inline void check_hats_apart(const Player* const player, const int64_t first,
                                    const double spacing, const int64_t end)
{
    size_t index = 0;
    for (;; ++index) {
        const int64_t want = first + llround((double)index * spacing);
        if (want >= end) {
            break;
        }
        if (!CHECK_INT(frame_of_stroke(player, HAT_KEY, first, index), want)) {
            return;
        }
    }
    const int64_t next = frame_of_stroke(player, HAT_KEY, first, index);
    CHECK(next < 0 || next >= end);
}

/* The same of sixteenths at 120. */
static inline void check_hats(const Player* const player, const int64_t first, const int64_t end)
{
    check_hats_apart(player, first, (double)SIXTEENTH_FRAMES, end);
}

/* The same of bar lines, the first of them that of bar `number`. */
static inline void check_bars(const Player* const player, const int64_t first,
                              const int64_t spacing, const int64_t end, int64_t number)
{
    for (int64_t frame = first; frame < end; frame += spacing, ++number) {
        const int key = bar_keys[number % BAR_KEYS];
        CHECK_INT(frame_of_stroke(player, key, frame, 0), frame);
    }
}

/* Made before the first test, removed after the last. */
static GrooveFolder folder;

static inline bool open_player(Player* const player)
{
    *player = (Player){.host = NULL};
    return CHECK(player_open(player, folder.path, RATE));
}

/* Nothing was broken on the way, and a stop ends what sounds. */
static inline void close_player(Player* const player)
{
    if (player->host) {
        player_room(player, 65536);
        replay_stop(player);
        CHECK(!player->overflowed);
        CHECK_TEXT(player->fault, "none");
    }
    player_close(player);
}

/* Runs tests between making and removing the folder; the status for main. */
static inline int run_in_folder(void (*const run_all)(void))
{
    if (!groove_folder_make(&folder)) {
        return 1;
    }
    run_all();
    groove_folder_remove(&folder);
    return tests_end();
}
