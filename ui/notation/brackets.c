// SPDX-License-Identifier: ISC
#include "brackets.h"

#include "staff_voices.h"

#include <stdlib.h>

enum { LEFT_LIMBS = 1U << LEFT_HAND | 1U << LEFT_FOOT };

static bool is_known(const SheetBar* const bar, const SheetTuplet* const tuplet)
{
    for (int i = 0; i < bar->tuplet_count; ++i) {
        const SheetTuplet* const other = &bar->tuplets[i];
        if (other->begin == tuplet->begin && other->end == tuplet->end &&
            other->actual == tuplet->actual && other->pair == tuplet->pair) {
            return true;
        }
    }
    return false;
}

/* Where the tuplet that starts with this note, `depth` deep, stops. */
static int64_t end_of(const Rhythm* const rhythm, int note, const int depth)
{
    while (note + 1 < rhythm->count && !rhythm->notes[note].tuplets[depth].stops) {
        ++note;
    }
    return rhythm->notes[note].tick + rhythm->notes[note].ticks;
}

static void add(SheetBar* const bar, const StaffVoice* const voice, const int note, const int depth,
                const int64_t beat)
{
    const RhythmNote* const first = &voice->rhythm.notes[note];
    const RhythmTuplet* const tuplet = &first->tuplets[depth];
    const SheetTuplet found = {.begin = first->tick,
                               .end = end_of(&voice->rhythm, note, depth),
                               .actual = (uint8_t)tuplet->actual,
                               .normal = (uint8_t)tuplet->normal,
                               .is_long = end_of(&voice->rhythm, note, depth) - first->tick > beat,
                               .is_left = !(voice->limbs & ~(unsigned)LEFT_LIMBS),
                               .depth = (uint8_t)depth,
                               .pair = voice->is_up ? PAIR_HANDS : PAIR_FEET};
    if (bar->tuplet_count < SHEET_TUPLETS_MAX && !is_known(bar, &found)) {
        bar->tuplets[bar->tuplet_count++] = found;
    }
}

static void find_in(SheetBar* const bar, const StaffVoice* const voice, const Meter meter)
{
    for (int note = 0; note < voice->rhythm.count; ++note) {
        const RhythmNote* const here = &voice->rhythm.notes[note];
        for (int depth = 0; depth < here->depth; ++depth) {
            if (here->tuplets[depth].starts) {
                add(bar, voice, note, depth, rhythm_beam_ticks(meter));
            }
        }
    }
}

static void find_all(Sheet* const sheet, StaffVoices* const voices)
{
    for (int row = 0; row < sheet->count; ++row) {
        Limb limb = RIGHT_HAND;
        SheetBar* const bar = &sheet->rows[row];
        bar->tuplet_count = 0;
        const bool is_spelled = staff_voices_make(voices, &bar->strokes, sheet->meter, &limb);
        for (int i = 0; is_spelled && i < voices->count; ++i) {
            find_in(bar, &voices->voices[i], sheet->meter);
        }
    }
}

void brackets_find(Sheet* const sheet)
{
    StaffVoices* const voices = malloc(sizeof *voices); /* too large for a stack */
    if (voices) {
        find_all(sheet, voices);
        free(voices);
    }
}
