// SPDX-License-Identifier: ISC
#include "song.h"

#include <stddef.h>

SongSection song_section(void)
{
    return (SongSection){.bars = 1, .times = 1};
}

bool song_put(SongSection* const section, const Control control, const float value)
{
    uint32_t at = 0;
    while (at < section->control_count && section->controls[at].control != control) {
        ++at;
    }
    if (at == SONG_CONTROLS_MAX) {
        return false;
    }
    section->control_count = at < section->control_count ? section->control_count : at + 1;
    section->controls[at] = (SongControl){(uint8_t)control, value};
    return true;
}

const float* song_value(const SongSection* const section, const Control control)
{
    for (uint32_t i = 0; i < section->control_count; ++i) {
        if (section->controls[i].control == control) {
            return &section->controls[i].value;
        }
    }
    return NULL;
}

static int64_t pick_of(const SongSection* const section, const Control control)
{
    const float* const value = song_value(section, control);
    return value ? whole_number((double)*value) : 0;
}

bool song_picks_alike(const SongSection* const a, const SongSection* const b)
{
    return pick_of(a, CONTROL_GROOVE) == pick_of(b, CONTROL_GROOVE) &&
           pick_of(a, CONTROL_HANDS) == pick_of(b, CONTROL_HANDS) &&
           pick_of(a, CONTROL_FEET) == pick_of(b, CONTROL_FEET) && a->rests == b->rests;
}

bool song_may_set(const Control control)
{
    static const Control others[] = {
        CONTROL_ENABLED,     CONTROL_GROOVE,       CONTROL_HANDS,         CONTROL_FEET,
        CONTROL_TURNAROUND,  CONTROL_CRASH,        CONTROL_FILL_NOW,      CONTROL_CHANGE_AT,
        CONTROL_LEVEL,       CONTROL_TAKE,         CONTROL_CLOCK,         CONTROL_TEMPO,
        CONTROL_LADDER_STEP, CONTROL_LADDER_EVERY, CONTROL_LADDER_TOP,    CONTROL_COUNT_IN,
        CONTROL_CLICK,       CONTROL_CLICK_GRID,   CONTROL_CLICK_LEVEL,   CONTROL_CLICK_CHANNEL,
        CONTROL_GAP_PLAY,    CONTROL_GAP_REST,     CONTROL_PRACTICE_RATE, CONTROL_LOOP_BAR,
        CONTROL_CHANNEL,     CONTROL_KIT,          CONTROL_SPLIT_FEET,    CONTROL_THROUGH};
    for (size_t i = 0; i < sizeof others / sizeof *others; ++i) {
        if (others[i] == control) {
            return false;
        }
    }
    return control < CONTROL_COUNT;
}
