// SPDX-License-Identifier: ISC
#include "settings.h"

#include <math.h>
#include <string.h>

static int32_t whole(const float values[CONTROL_COUNT], const Control control)
{
    const ControlRow row = control_rows[control];
    const float value = values[control];
    if (!(value >= row.least)) {
        return (int32_t)(value < row.least ? row.least : row.normal);
    }
    return (int32_t)lrintf(value > row.most ? row.most : value);
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

static double real(const float values[CONTROL_COUNT], const Control control)
{
    const ControlRow row = control_rows[control];
    const float value = values[control];
    if (isnan(value)) {
        return (double)row.normal;
    }
    return (double)fminf(fmaxf(value, row.least), row.most);
}

static Feel feel(const float values[CONTROL_COUNT])
{
    return (Feel){
        .take = natural(values, CONTROL_TAKE),
        .looseness_ms = real(values, CONTROL_LOOSENESS),
        .push_hands_ms = real(values, CONTROL_PUSH_HANDS),
        .push_snare_ms = real(values, CONTROL_PUSH_SNARE),
        .push_feet_ms = real(values, CONTROL_PUSH_FEET),
        .touch = real(values, CONTROL_TOUCH) / 100.0,
        .accent = real(values, CONTROL_ACCENT) / 100.0,
        .accent_feet = real(values, CONTROL_ACCENT_FEET) / 100.0,
        .ghost = real(values, CONTROL_GHOST) / 100.0,
        .level = whole(values, CONTROL_LEVEL),
        .liberty = real(values, CONTROL_LIBERTY) / 100.0,
    };
}

static Regrid regrid(const float values[CONTROL_COUNT], const Control grid, const Control cycle,
                     const Control shift)
{
    return (Regrid){whole(values, grid), whole(values, cycle), whole(values, shift)};
}

#define CONTROL_MOST(name, symbol, least, most, normal) MOST_##name = (most),
enum { CONTROLS(CONTROL_MOST) };
#undef CONTROL_MOST

_Static_assert(MOST_RIDE_ON + 1 == RIDE_ON_COUNT, "each value is a place");

/* From slow to full, as the port counts them. */
static Ratio practice_rate(const float values[CONTROL_COUNT])
{
    static const Ratio rates[] = {{1, 4}, {1, 3}, {1, 2}, {2, 3}, {3, 4}, {1, 1}};
    _Static_assert(sizeof rates / sizeof *rates == MOST_PRACTICE_RATE + 1, "each value is a rate");
    return rates[whole(values, CONTROL_PRACTICE_RATE)];
}

static Ladder ladder(const float values[CONTROL_COUNT])
{
    return (Ladder){
        .tempo = real(values, CONTROL_TEMPO),
        .step = real(values, CONTROL_LADDER_STEP),
        .top = real(values, CONTROL_LADDER_TOP),
        .every = natural(values, CONTROL_LADDER_EVERY),
    };
}

static ClickSettings click(const float values[CONTROL_COUNT])
{
    const int32_t channel = whole(values, CONTROL_CLICK_CHANNEL);
    return (ClickSettings){
        .when = (ClickWhen)whole(values, CONTROL_CLICK),
        .grid = (ClickGrid)whole(values, CONTROL_CLICK_GRID),
        .gap_play = natural(values, CONTROL_GAP_PLAY),
        .gap_rest = natural(values, CONTROL_GAP_REST),
        .level = (uint8_t)whole(values, CONTROL_CLICK_LEVEL),
        .channel = (uint8_t)((channel ? channel : whole(values, CONTROL_CHANNEL)) - 1),
    };
}

Settings settings_from_controls(const float values[CONTROL_COUNT])
{
    return (Settings){
        .enabled = on(values, CONTROL_ENABLED),
        .groove = natural(values, CONTROL_GROOVE),
        .hands = natural(values, CONTROL_HANDS),
        .feet = natural(values, CONTROL_FEET),
        .variation = natural(values, CONTROL_VARIATION),
        .variation_then = natural(values, CONTROL_VARIATION_THEN),
        .grow_every = natural(values, CONTROL_GROW_EVERY),
        .ride_on = (RideOn)whole(values, CONTROL_RIDE_ON),
        .phrase_bars = natural(values, CONTROL_PHRASE_BARS),
        .turnaround = whole(values, CONTROL_TURNAROUND),
        .fill_every = natural(values, CONTROL_FILL_EVERY),
        .fill_beats = natural(values, CONTROL_FILL_BEATS),
        .crash = (CrashWhen)whole(values, CONTROL_CRASH),
        .change_at = (ChangeAt)whole(values, CONTROL_CHANGE_AT),
        .hands_regrid =
            regrid(values, CONTROL_HANDS_GRID, CONTROL_HANDS_CYCLE, CONTROL_HANDS_SHIFT),
        .feet_regrid = regrid(values, CONTROL_FEET_GRID, CONTROL_FEET_CYCLE, CONTROL_FEET_SHIFT),
        .realign = (Realign)whole(values, CONTROL_REALIGN),
        .left_foot_leads = on(values, CONTROL_LEAD_FOOT),
        .swing_ratio = real(values, CONTROL_SWING_RATIO),
        .feel = feel(values),
        .swing_sixteenths = on(values, CONTROL_SWING_GRID),
        .swing_follow = on(values, CONTROL_SWING_FOLLOW),
        .limbs = {on(values, CONTROL_RIGHT_HAND), on(values, CONTROL_LEFT_HAND),
                  on(values, CONTROL_RIGHT_FOOT), on(values, CONTROL_LEFT_FOOT)},
        .channel = (uint8_t)(whole(values, CONTROL_CHANNEL) - 1),
        .kit = natural(values, CONTROL_KIT),
        .split_feet = on(values, CONTROL_SPLIT_FEET),
        .through = on(values, CONTROL_THROUGH),
        .clock = (ClockKind)whole(values, CONTROL_CLOCK),
        .ladder = ladder(values),
        .count_in = natural(values, CONTROL_COUNT_IN),
        .click = click(values),
        .practice_rate = practice_rate(values),
        .loop_bar = natural(values, CONTROL_LOOP_BAR),
    };
}

Settings settings_of_kept(const float values[CONTROL_COUNT], const uint32_t slot,
                          const float kept[CONTROL_COUNT])
{
    float laid[CONTROL_COUNT];
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        laid[i] = control_rows[i].is_selection ? kept[i] : values[i];
    }
    Settings settings = settings_from_controls(laid);
    settings.kept = slot;
    return settings;
}

float settings_fit(const Control control, const float value)
{
    const ControlRow* const row = &control_rows[control];
    return isnan(value) ? row->normal : fminf(fmaxf(value, row->least), row->most);
}

int32_t settings_pick(const float values[CONTROL_COUNT], const EntryKind kind)
{
    return whole(values, kind_controls[kind]);
}

bool settings_play_alike(const Settings* const a, const Settings* const b)
{
    return a->kept == b->kept && a->groove == b->groove && a->hands == b->hands &&
           a->feet == b->feet && a->variation == b->variation &&
           a->variation_then == b->variation_then && a->grow_every == b->grow_every &&
           a->ride_on == b->ride_on && a->phrase_bars == b->phrase_bars &&
           a->turnaround == b->turnaround && a->fill_every == b->fill_every &&
           a->fill_beats == b->fill_beats && a->crash == b->crash && a->realign == b->realign &&
           a->left_foot_leads == b->left_foot_leads && a->loop_bar == b->loop_bar &&
           layout_regrid_equal(a->hands_regrid, b->hands_regrid) &&
           layout_regrid_equal(a->feet_regrid, b->feet_regrid);
}

void settings_take_at_once(Settings* const played, const Settings* const asked)
{
    memcpy(played->limbs, asked->limbs, sizeof played->limbs);
    played->enabled = asked->enabled;
    played->channel = asked->channel;
    played->kit = asked->kit;
    played->split_feet = asked->split_feet;
    played->change_at = asked->change_at;
    if (played->kept == asked->kept) {
        played->swing_ratio = asked->swing_ratio;
        played->swing_sixteenths = asked->swing_sixteenths;
        played->swing_follow = asked->swing_follow;
    }
    played->feel = asked->feel;
    played->through = asked->through;
    played->clock = asked->clock;
    played->ladder = asked->ladder;
    played->count_in = asked->count_in;
    played->click = asked->click;
    played->practice_rate = asked->practice_rate;
}
