// SPDX-License-Identifier: ISC
/* fields.h - the numbers of a bar's head and of a place, in the order in which they
   are sent: type, field.  New ones go to the end: a reader takes what it knows. */
#pragma once

#define BAR_FIELDS(X)                                                                              \
    X(int64_t, bar)                                                                                \
    X(uint32_t, slot)                                                                              \
    X(double, meter.beats_per_bar)                                                                 \
    X(int32_t, meter.beat_unit)                                                                    \
    X(uint32_t, in_phrase)                                                                         \
    X(uint32_t, phrase_bars)                                                                       \
    X(uint8_t, part)                                                                               \
    X(bool, is_coming)                                                                             \
    X(uint32_t, groove)                                                                            \
    X(uint32_t, hands)                                                                             \
    X(uint32_t, feet)                                                                              \
    X(int32_t, hands_step)                                                                         \
    X(int32_t, feet_step)                                                                          \
    X(bool, gap)                                                                                   \
    X(uint32_t, dropped)                                                                           \
    X(uint32_t, fill)                                                                              \
    X(bool, fill_feet)                                                                             \
    X(int32_t, fill_begin)                                                                         \
    X(int64_t, fill_end)                                                                           \
    X(int32_t, fill_step)                                                                          \
    X(uint8_t, varied.numbers[0])                                                                  \
    X(uint8_t, varied.reasons[0])                                                                  \
    X(uint8_t, varied.numbers[1])                                                                  \
    X(uint8_t, varied.reasons[1])                                                                  \
    X(uint8_t, varied.numbers[2])                                                                  \
    X(uint8_t, varied.reasons[2])

#define PLACE_FIELDS(X)                                                                            \
    X(int64_t, bar)                                                                                \
    X(double, tick)                                                                                \
    X(int64_t, phrase)                                                                             \
    X(uint32_t, phrase_bars)                                                                       \
    X(double, ticks_per_second)                                                                    \
    X(bool, rolling)                                                                               \
    X(bool, host_has_tempo)                                                                        \
    X(bool, host_has_place)                                                                        \
    X(bool, waiting)                                                                               \
    X(int64_t, change_bar)                                                                         \
    X(int32_t, change_tick)                                                                        \
    X(bool, loops)                                                                                 \
    X(bool, own_clock)                                                                             \
    X(bool, click_rests)                                                                           \
    X(int64_t, click_bars)                                                                         \
    X(double, next_tempo)                                                                          \
    X(int64_t, ladder_bars)                                                                        \
    X(uint32_t, feet_meet)                                                                         \
    X(uint32_t, all_meet)                                                                          \
    X(bool, late)

#define SECTION_FIELDS(X)                                                                          \
    X(int64_t, bar)                                                                                \
    X(int64_t, origin)                                                                             \
    X(double, meter.beats_per_bar)                                                                 \
    X(int32_t, meter.beat_unit)                                                                    \
    X(double, tempo)                                                                               \
    X(bool, ends)                                                                                  \
    X(bool, begins)                                                                                \
    X(int64_t, tick)

/* How many there are. */
#define ONE_MORE(type, field) +1
enum {
    BAR_FIELD_COUNT = 0 BAR_FIELDS(ONE_MORE),
    PLACE_FIELD_COUNT = 0 PLACE_FIELDS(ONE_MORE),
    SECTION_FIELD_COUNT = 0 SECTION_FIELDS(ONE_MORE)
};
#undef ONE_MORE

/* A stroke is four numbers: written, felt, limb with these packed, velocity with the last. */
enum {
    STROKE_NUMBERS = 4,
    PACK_VOICE = 8,
    PACK_LEVEL = 16,
    PACK_GRACE = 24,
    PACK_FREE = 8,
    PACK_MASK = 0xff
};
