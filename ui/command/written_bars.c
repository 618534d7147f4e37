// SPDX-License-Identifier: ISC
#include "written_bars.h"

#include "../scene/words.h"

const char* written_bars_row(const WrittenSource* const source, const Limb limb)
{
    static const char* const drums[LIMB_COUNT] = {"hats and cymbals", "snare and toms", "kick",
                                                  "second kick, hat pedal"};
    return source->file ? drums[limb] : words_limb(limb);
}

static void put(WrittenBars* const bars, const WrittenSource* const source, const double ms,
                const Stroke stroke)
{
    if (bars->count < TOLD_MOST) {
        bars->strokes[bars->count] = (ToldWritten){.ms = source->first_ms + ms, .stroke = stroke};
        bars->strokes[bars->count++].stroke.limb ^= source->left_handed;
    }
}

/* ---- Of a groove */

static void take_groove_bar(WrittenBars* const bars, const WrittenSource* const source,
                            const uint32_t bar)
{
    static StrokeList strokes; /* too large for a stack */
    const Selection* const selection = source->selection;
    const int64_t ticks = meter_bar_ticks(source->meter);
    groove_strokes(selection, source->meter, bar * ticks, (bar + 1) * ticks, &strokes);
    for (uint32_t i = 0; i < strokes.count; ++i) {
        const Stroke stroke = strokes.strokes[i];
        if (selection->limbs[stroke.limb] &&
            pads_of_stroke(selection->kit, source->split, stroke) != PAD_NONE) {
            put(bars, source, (double)stroke.tick / (double)ticks * source->bar_ms, stroke);
        }
    }
}

/* ---- Of a file */

/* A voice of each stream, and the row that it is told in. */
static const struct {
    Voice voice;
    Limb row;
} streams[PAD_STREAMS] = {
    [PAD_KICK] = {VOICE_KICK, RIGHT_FOOT},       [PAD_KICK_LEFT] = {VOICE_KICK, LEFT_FOOT},
    [PAD_PEDAL] = {VOICE_HAT_PEDAL, LEFT_FOOT},  [PAD_SNARE] = {VOICE_SNARE, LEFT_HAND},
    [PAD_HATS] = {VOICE_HAT_CLOSED, RIGHT_HAND}, [PAD_RIDE] = {VOICE_RIDE, RIGHT_HAND},
    [PAD_CRASHES] = {VOICE_CRASH, RIGHT_HAND},   [PAD_TOMS] = {VOICE_TOM_MID, LEFT_HAND},
    [PAD_COWBELL] = {VOICE_COWBELL, RIGHT_HAND},
};

/* Where ghosts and accents of a file begin; ours, no source: evenness is told among them. */
static Level level_of(const uint8_t velocity)
{
    return velocity < 50 ? LEVEL_GHOST : velocity < 100 ? LEVEL_NORMAL : LEVEL_ACCENT;
}

/* The first note at or after a time. */
static uint32_t first_note(const PlayedFile* const file, const double ms)
{
    uint32_t low = 0;
    uint32_t high = file->count;
    while (low < high) {
        const uint32_t middle = low + (high - low) / 2;
        low = file->notes[middle].ms < ms ? middle + 1 : low;
        high = file->notes[middle].ms < ms ? high : middle;
    }
    return low;
}

static void take_file_bar(WrittenBars* const bars, const WrittenSource* const source,
                          const uint32_t bar)
{
    const double from = bar * source->bar_ms - 0.5; /* files round to their ticks */
    const uint32_t end = first_note(source->file, from + source->bar_ms);
    for (uint32_t i = first_note(source->file, from); i < end; ++i) {
        const ToldPlayed note = source->file->notes[i];
        const PadStream stream = pads_of_key(source->selection->kit, source->split, note.key);
        if (stream != PAD_NONE) {
            put(bars, source, note.ms,
                (Stroke){.voice = (uint8_t)streams[stream].voice,
                         .limb = (uint8_t)streams[stream].row,
                         .level = (uint8_t)level_of(note.velocity)});
        }
    }
}

/* ---- Either */

static void take_bar(WrittenBars* const bars, const WrittenSource* const source, const uint32_t bar)
{
    if (source->file) {
        take_file_bar(bars, source, bar);
    } else {
        take_groove_bar(bars, source, bar);
    }
}

void written_bars_take(WrittenBars* const bars, const WrittenSource* const source,
                       const uint32_t first, const uint32_t last)
{
    static WrittenBars after; /* likewise: what comes next */
    const double line = source->first_ms + (last + 1) * source->bar_ms;
    bars->count = after.count = 0;
    for (uint32_t bar = first; bar <= last; ++bar) {
        take_bar(bars, source, bar);
    }
    take_bar(&after, source, last + 1);
    const double end = bars->count ? bars->strokes[bars->count - 1].ms : line;
    bars->until_ms = (end + (after.count ? after.strokes[0].ms : line)) / 2.0;
}
