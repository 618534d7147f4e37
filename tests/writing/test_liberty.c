// SPDX-License-Identifier: ISC
/* Liberty over the whole bank: what README and the dial promise of any groove.  What
   may never change is found here by counting strokes, not by the rules of liberty_bar.c. */
#include "../../plugin/engine/groove/fill.h"
#include "../../plugin/engine/writing/at_once.h"
#include "../../plugin/engine/writing/play_limits.h"
#include "../desk/chance.h"
#include "../help/check.h"
#include "liberty_rig.h"

#include <math.h>

enum { BARS = 12, Q = TICKS_PER_QUARTER };

static const double tempi[] = {70.0, 120.0, 200.0};
static Bank* bank;

typedef void CheckBar(const LibertyCase* what, const StrokeList* written, const StrokeList* played,
                      int64_t bar);

/* Every groove at three tempi and its own, in two takes, as freely as can be. */
static void each_bar(CheckBar* const check)
{
    const Library* const library = bank_library(bank);
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        for (int way = 0; way < 4; ++way) {
            const LibertyCase what = {&library->grooves[i], 1 + i % 7, 1.0,
                                      way < 3 ? tempi[way] : library->grooves[i].tempo};
            for (int64_t bar = 0; bar < BARS; ++bar) {
                const StrokeList written = written_bar_of(&what, bar);
                const StrokeList played = liberty_bar_of(&what, bar);
                check_case("groove %u at %g, bar %d", what.groove->id, what.tempo, (int)bar);
                check(&what, &written, &played, bar);
            }
        }
    }
}

static bool has(const StrokeList* const list, const Stroke stroke)
{
    for (uint32_t i = 0; i < list->count; ++i) {
        const Stroke other = list->strokes[i];
        if (other.tick == stroke.tick && other.limb == stroke.limb && other.voice == stroke.voice &&
            other.level == stroke.level) {
            return true;
        }
    }
    return false;
}

/* On whatever, as loud as ever. */
static bool has_struck(const StrokeList* const list, const Stroke stroke)
{
    for (uint32_t i = 0; i < list->count; ++i) {
        if (list->strokes[i].tick == stroke.tick && list->strokes[i].limb == stroke.limb) {
            return true;
        }
    }
    return false;
}

static bool is_kick(const Stroke stroke)
{
    return stroke.voice == VOICE_KICK || stroke.voice == VOICE_KICK_LEFT;
}

static void at_0_what_is_written_is_played(void)
{
    const Library* const library = bank_library(bank);
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        const LibertyCase what = {&library->grooves[i], 3, 0.0, 120.0};
        for (int64_t bar = 0; bar < 4; ++bar) {
            const StrokeList written = written_bar_of(&what, bar);
            const StrokeList played = liberty_bar_of(&what, bar);
            check_case("groove %u, bar %d", what.groove->id, (int)bar);
            CHECK(stroke_lists_alike(&written, &played, 0));
        }
    }
}

/* Spans of any lengths have what the whole has. */
static void any_spans_have_the_same(void)
{
    const Library* const library = bank_library(bank);
    Chance state = {20261129};
    int spans = 0;
    for (uint32_t i = 0; i < 12 * library->groove_count; ++i) {
        const LibertyCase what = {&library->grooves[i % library->groove_count], 5, 1.0,
                                  tempi[i % 3]};
        const int64_t ticks = meter_bar_ticks(what.groove->meter);
        const int64_t bar = (int64_t)chance(&state, 40);
        const StrokeList whole = liberty_bar_of(&what, bar);
        StrokeList parts = {.count = 0};
        for (int64_t at = bar * ticks; at < (bar + 1) * ticks; ++spans) {
            const int64_t length = 1 + (int64_t)chance(&state, chance(&state, 2) ? Q / 20 : 2 * Q);
            const int64_t end = at + length < (bar + 1) * ticks ? at + length : (bar + 1) * ticks;
            const StrokeList part = liberty_span(&what, at, end);
            for (uint32_t k = 0; k < part.count; ++k) {
                stroke_list_add(&parts, part.strokes[k]);
            }
            at = end;
        }
        check_case("groove %u, bar %d", what.groove->id, (int)bar);
        CHECK(stroke_lists_alike(&whole, &parts, 0));
    }
    CHECK(spans > 10000);
}

/* ---- What stays */

static int stays_counted;

/* Kicks of both feet, and of one foot three within a quarter note. */
static bool runs(const StrokeList* const list, const uint32_t at)
{
    const Stroke kick = list->strokes[at];
    for (uint32_t from = 0; from < list->count; ++from) {
        const int64_t begin = list->strokes[from].tick;
        int count = 0;
        bool is_two = false;
        for (uint32_t i = 0; i < list->count; ++i) {
            const Stroke other = list->strokes[i];
            const bool is_near = other.tick >= begin && other.tick <= begin + Q;
            count += is_near && is_kick(other);
            is_two |= is_near && is_kick(other) && other.limb != kick.limb;
        }
        if (kick.tick >= begin && kick.tick <= begin + Q && (count >= 3 || is_two)) {
            return true;
        }
    }
    return false;
}

static void running_stays(const LibertyCase* const what, const StrokeList* const written,
                          const StrokeList* const played, const int64_t bar)
{
    (void)what;
    (void)bar;
    for (uint32_t i = 0; i < written->count; ++i) {
        if (is_kick(written->strokes[i]) && runs(written, i)) {
            ++stays_counted;
            CHECK(has(played, written->strokes[i]));
        }
    }
}

static void running_feet_and_two_feet_are_played_as_written(void)
{
    stays_counted = 0;
    each_bar(running_stays);
    CHECK(stays_counted > 20000);
}

static void nothing_comes_to_two_feet(const LibertyCase* const what,
                                      const StrokeList* const written,
                                      const StrokeList* const played, const int64_t bar)
{
    (void)what;
    (void)bar;
    bool is_right = false, is_left = false;
    for (uint32_t i = 0; i < written->count; ++i) {
        is_right |= is_kick(written->strokes[i]) && written->strokes[i].limb == RIGHT_FOOT;
        is_left |= is_kick(written->strokes[i]) && written->strokes[i].limb == LEFT_FOOT;
    }
    for (uint32_t i = 0; i < played->count && is_right && is_left; ++i) {
        ++stays_counted;
        CHECK(!is_kick(played->strokes[i]) || has(written, played->strokes[i]));
    }
}

static void two_feet_get_no_kick_more(void)
{
    stays_counted = 0;
    each_bar(nothing_comes_to_two_feet);
    CHECK(stays_counted > 20000);
}

static void backbeats_stay(const LibertyCase* const what, const StrokeList* const written,
                           const StrokeList* const played, const int64_t bar)
{
    const int64_t line = bar * meter_bar_ticks(what->groove->meter);
    for (uint32_t i = 0; i < written->count; ++i) {
        const Stroke stroke = written->strokes[i];
        const bool is_backbeat = stroke.voice == VOICE_SNARE && stroke.level != LEVEL_GHOST &&
                                 (stroke.tick - line) % Q == 0;
        const bool is_accent = stroke.level >= LEVEL_ACCENT && stroke.voice != VOICE_CRASH;
        const Stroke crash = {stroke.tick, stroke.limb, VOICE_CRASH, LEVEL_ACCENT, false};
        if (is_accent || (is_backbeat && !meter_is_compound(what->groove->meter))) {
            ++stays_counted;
            CHECK(has(played, stroke) || (stroke.tick == line && has(played, crash)));
        }
    }
}

static void backbeats_and_accents_are_never_left_out(void)
{
    stays_counted = 0;
    each_bar(backbeats_stay);
    CHECK(stays_counted > 40000);
}

/* The phrase's first beat: a quarter note, or three eighths where they are one. */
static void beat_one_stays(const LibertyCase* const what, const StrokeList* const written,
                           const StrokeList* const played, const int64_t bar)
{
    const Meter meter = what->groove->meter;
    const int64_t line = bar * meter_bar_ticks(meter);
    const int64_t beat = meter_is_compound(meter) ? 3 * meter_beat_ticks(meter) : Q;
    for (uint32_t i = 0; bar % what->groove->form_bars == 0 && i < written->count; ++i) {
        if (written->strokes[i].tick < line + beat) {
            ++stays_counted;
            CHECK(has(played, written->strokes[i]));
        }
    }
    for (uint32_t i = 0; bar % what->groove->form_bars == 0 && i < played->count; ++i) {
        CHECK(played->strokes[i].tick >= line + beat || has(written, played->strokes[i]));
    }
}

static void a_phrase_s_first_beat_is_played_as_written(void)
{
    stays_counted = 0;
    each_bar(beat_one_stays);
    CHECK(stays_counted > 5000);
}

static void fill_stays(const LibertyCase* const what, const StrokeList* const written,
                       const StrokeList* const played, const int64_t bar)
{
    const Selection selection = liberty_selection(what);
    const Bar there = bar_at(&selection, what->groove->meter, bar);
    const Fill fill = fill_in_bar(&selection, &there);
    StrokeList a = {.count = 0}, b = {.count = 0};
    for (uint32_t i = 0; fill.figure && i < written->count; ++i) {
        if (written->strokes[i].tick >= fill.begin) {
            stroke_list_add(&a, written->strokes[i]);
        }
    }
    for (uint32_t i = 0; fill.figure && i < played->count; ++i) {
        if (played->strokes[i].tick >= fill.begin) {
            stroke_list_add(&b, played->strokes[i]);
        }
    }
    stays_counted += (int)a.count;
    CHECK(stroke_lists_alike(&a, &b, 0));
}

static void fills_are_played_as_written(void)
{
    stays_counted = 0;
    each_bar(fill_stays);
    CHECK(stays_counted > 5000);
}

/* Cymbal and snare in turn: a snare stroke within an eighth on both sides. */
static void blast_stays(const LibertyCase* const what, const StrokeList* const written,
                        const StrokeList* const played, const int64_t bar)
{
    (void)what;
    (void)bar;
    for (uint32_t i = 0; i < written->count; ++i) {
        const Stroke stroke = written->strokes[i];
        bool is_before = false, is_after = false;
        for (uint32_t k = 0; k < written->count; ++k) {
            const Stroke other = written->strokes[k];
            const bool is_snare = other.voice == VOICE_SNARE && other.level >= LEVEL_NORMAL;
            is_before |= is_snare && other.tick < stroke.tick && stroke.tick - other.tick <= Q / 2;
            is_after |= is_snare && other.tick > stroke.tick && other.tick - stroke.tick <= Q / 2;
        }
        if (feel_keeps_time(stroke) && is_before && is_after) {
            ++stays_counted;
            CHECK(has_struck(played, stroke));
        }
    }
}

static void the_cymbal_of_a_blast_goes_on(void)
{
    stays_counted = 0;
    each_bar(blast_stays);
    CHECK(stays_counted > 1000);
}

/* ---- What a person can play */

static void nobody_is_torn(const LibertyCase* const what, const StrokeList* const written,
                           const StrokeList* const played, const int64_t bar)
{
    (void)what;
    (void)bar;
    const bool was = at_once_out_of_reach(written->strokes, written->count) >= 0;
    const bool was_open = at_once_open_and_closed(written->strokes, written->count) >= 0;
    CHECK(was || at_once_out_of_reach(played->strokes, played->count) < 0);
    CHECK(was_open || at_once_open_and_closed(played->strokes, played->count) < 0);
}

static void no_limb_is_in_two_places(void)
{
    each_bar(nobody_is_torn);
}

static int added_counted;

/* Published: one foot 8.6 strokes a second, one hand 10 (play_limits.c, which says from where);
   to another voice a hand goes as fast as play_limits.c lets it. */
static void there_is_time(const LibertyCase* const what, const StrokeList* const written,
                          const StrokeList* const played, const int64_t bar)
{
    const PlayLimits limits = play_limits_default();
    const double ms = 60000.0 / what->tempo / Q;
    (void)bar;
    for (uint32_t i = 0; i < played->count; ++i) {
        const Stroke stroke = played->strokes[i];
        const bool is_added = !has_struck(written, stroke);
        const bool is_opened = stroke.voice == VOICE_HAT_OPEN && !has(written, stroke);
        CHECK(!is_opened || stroke.level == LEVEL_NORMAL);
        for (uint32_t k = 0; !has(written, stroke) && k < played->count; ++k) {
            const Stroke other = played->strokes[k];
            const double apart = fabs((double)(other.tick - stroke.tick)) * ms;
            if (k != i && other.limb == stroke.limb) {
                added_counted += is_added;
                CHECK(!is_added || apart >= 1000.0 / limits.rate[stroke.limb] - 1e-6);
                CHECK(apart >= play_limits_move_ms(&limits, other.voice, stroke.voice));
            }
        }
    }
}

static void what_is_added_has_its_time(void)
{
    added_counted = 0;
    each_bar(there_is_time);
    CHECK(added_counted > 5000);
}

int main(void)
{
    bank = factory_open();
    RUN(at_0_what_is_written_is_played);
    RUN(any_spans_have_the_same);
    RUN(running_feet_and_two_feet_are_played_as_written);
    RUN(two_feet_get_no_kick_more);
    RUN(backbeats_and_accents_are_never_left_out);
    RUN(a_phrase_s_first_beat_is_played_as_written);
    RUN(fills_are_played_as_written);
    RUN(the_cymbal_of_a_blast_goes_on);
    RUN(no_limb_is_in_two_places);
    RUN(what_is_added_has_its_time);
    bank_free(bank);
    return tests_end();
}
