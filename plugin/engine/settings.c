// SPDX-License-Identifier: ISC
#include "settings.h"

#include <math.h>
#include <string.h>

#define CONTROL_ROW(name, symbol, least, most, normal) {symbol, least, most, normal},
const ControlRow control_rows[CONTROL_COUNT] = {CONTROLS(CONTROL_ROW)};
#undef CONTROL_ROW

/* Ids are exact in a float up to 2^24; a session may name one we don't have. */
static const float most_id = 16000000.0f;

static int32_t whole(const float values[CONTROL_COUNT], const Control control)
{
    const ControlRow row = control_rows[control];
    const float most = row.most > 0.0f ? row.most : most_id;
    const float value = values[control];
    if (!(value >= row.least)) {
        return (int32_t)(value < row.least ? row.least : row.normal);
    }
    return (int32_t)lrintf(value > most ? most : value);
}

static uint32_t natural(const float values[CONTROL_COUNT], const Control control)
{
    return (uint32_t)whole(values, control);
}

static bool on(const float values[CONTROL_COUNT], const Control control)
{
    const float value = values[control];
    return (isnan(value) ? control_rows[control].normal : value) > 0.0f;
}

Settings settings_from_controls(const float values[CONTROL_COUNT])
{
    return (Settings){
        .enabled = on(values, CONTROL_ENABLED),
        .groove = natural(values, CONTROL_GROOVE),
        .hands = natural(values, CONTROL_HANDS),
        .feet = natural(values, CONTROL_FEET),
        .phrase_bars = natural(values, CONTROL_PHRASE_BARS),
        .turnaround = whole(values, CONTROL_TURNAROUND),
        .limbs = {on(values, CONTROL_RIGHT_HAND), on(values, CONTROL_LEFT_HAND),
                  on(values, CONTROL_RIGHT_FOOT), on(values, CONTROL_LEFT_FOOT)},
        .channel = (uint8_t)(whole(values, CONTROL_CHANNEL) - 1),
        .kit = natural(values, CONTROL_KIT),
        .split_feet = on(values, CONTROL_SPLIT_FEET),
    };
}

bool settings_equal(const Settings* const a, const Settings* const b)
{
    return a->enabled == b->enabled && a->groove == b->groove && a->hands == b->hands &&
           a->feet == b->feet && a->phrase_bars == b->phrase_bars &&
           a->turnaround == b->turnaround && a->channel == b->channel && a->kit == b->kit &&
           a->split_feet == b->split_feet && !memcmp(a->limbs, b->limbs, sizeof a->limbs);
}
