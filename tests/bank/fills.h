// SPDX-License-Identifier: ISC
/* fills.h - what tests ask of the factory's fills: the strokes of one, and where it fits. */
#pragma once

#include "factory.h"

enum { QUARTER = TICKS_PER_QUARTER };

typedef struct {
    const Figure* figure;
    const EntryInfo* info;
} Fill;

static inline uint32_t fill_count(const Bank* const bank)
{
    return bank_count(bank, ENTRY_TURNAROUND);
}

static inline Fill fill_at(const Bank* const bank, const uint32_t index)
{
    return (Fill){factory_figure(bank, ENTRY_TURNAROUND, index),
                  bank_entry(bank, ENTRY_TURNAROUND, index)};
}

static inline double fill_beats(const Fill fill)
{
    return (double)fill.figure->cycle_ticks / (double)QUARTER;
}

static inline bool fill_is_of(const Fill fill, const char* const family)
{
    return !strcmp(fill.info->family, family);
}

static inline bool is_tom(const uint8_t voice)
{
    return voice == VOICE_TOM_HIGH || voice == VOICE_TOM_MID || voice == VOICE_TOM_LOW ||
           voice == VOICE_TOM_FLOOR;
}

static inline bool is_crash(const uint8_t voice)
{
    return voice == VOICE_CRASH || voice == VOICE_CRASH_2 || voice == VOICE_CHINA ||
           voice == VOICE_SPLASH;
}

static inline bool fill_has_level(const Fill fill, const Level level)
{
    for (uint32_t i = 0; i < fill.figure->stroke_count; ++i) {
        if (fill.figure->strokes[i].level == level) {
            return true;
        }
    }
    return false;
}

static inline bool fill_has_triplets(const Fill fill)
{
    for (uint32_t i = 0; i < fill.figure->stroke_count; ++i) {
        if (fill.figure->strokes[i].tick % (QUARTER / 8)) {
            return true;
        }
    }
    return false;
}

/* Where a fill is at home; ours, no source.  One of whole bars: in bars of its length.  Any
   other: whole eighths of the meter long (sixteenths where these are its unit), no longer
   than a bar, or four whole bars at most, or two bars if it is a fill over the bar line; and
   triplets only where the beat is a quarter note or a half. */
static inline bool fill_fits(const Fill fill, const Meter meter)
{
    const int64_t ticks = fill.figure->cycle_ticks;
    const int64_t bar = meter_bar_ticks(meter);
    const int64_t beat = meter_beat_ticks(meter);
    if (fill.figure->bars) {
        return ticks / fill.figure->bars == bar;
    }
    const int64_t most = fill_is_of(fill, "over-the-bar fill") ? 2 * bar : bar;
    const bool fits_bars = ticks <= most || (ticks % bar == 0 && ticks <= 4 * bar);
    return fits_bars && ticks % (beat < QUARTER / 2 ? beat : QUARTER / 2) == 0 &&
           (meter.beat_unit <= 4 || !fill_has_triplets(fill));
}
