// SPDX-License-Identifier: ISC
/* Meter and tempo as they stand in the window, and what becomes of a groove in a meter that
   isn't its own.  Beats: a compound meter's beat is a dotted note, 2/2's a half (M. Gotham et
   al., Open Music Theory, chapters on simple and compound meter; from memory).  Where a groove
   starts again is held against the strokes that the plugin tells. */
#include "../../ui/scene/signature.h"
#include "../help/check.h"
#include "shown_text.h"

static void a_beat_is_the_note_that_a_musician_counts(void)
{
    static const struct {
        Meter meter;
        int unit;
        bool dotted;
        double quarters;
    } rows[] = {
        {{4, 4}, 4, false, 1.0},  {{3, 4}, 4, false, 1.0},   {{5, 4}, 4, false, 1.0},
        {{2, 2}, 2, false, 2.0},  {{3, 2}, 2, false, 2.0},   {{6, 8}, 4, true, 1.5},
        {{9, 8}, 4, true, 1.5},   {{12, 8}, 4, true, 1.5},   {{7, 8}, 4, false, 1.0},
        {{5, 8}, 4, false, 1.0},  {{12, 16}, 8, true, 0.75}, {{7, 16}, 4, false, 1.0},
        {{11, 8}, 4, false, 1.0}, {{6, 4}, 4, false, 1.0},   {{3.5, 4}, 4, false, 1.0},
        {{4, 1}, 1, false, 4.0},  {{15, 8}, 4, false, 1.0},  {{6, 16}, 8, true, 0.75},
        {{3, 8}, 4, false, 1.0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        const NoteValue note = note_value_of(rows[i].meter, false);
        check_case("%g/%d", rows[i].meter.beats_per_bar, (int)rows[i].meter.beat_unit);
        CHECK_INT(note.unit, rows[i].unit);
        CHECK_INT(note.dotted, rows[i].dotted);
        CHECK_NEAR(note.quarters, rows[i].quarters, 1e-12);
    }
}

/* As drummers say it: 1 e & a, 1 trip let. */
static void places_are_named_as_they_are_counted(void)
{
    static const struct {
        Meter meter;
        double quarters;
        const char* said;
    } rows[] = {
        {{4, 4}, 3.5, "4&"},        {{4, 4}, 1.25, "2e"},      {{4, 4}, 2.75, "3a"},
        {{4, 4}, 4.0 / 3, "2trip"}, {{4, 4}, 5.0 / 3, "2let"}, {{12, 8}, 3.5, "8"},
        {{12, 8}, 3.75, "8&"},      {{2, 2}, 3.0, "2&"},       {{4, 4}, 1.6, "2+3/5"},
        {{4, 4}, 0.0, "1"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        char text[SIGNATURE_ROOM];
        const int64_t tick = (int64_t)(rows[i].quarters * (double)TICKS_PER_QUARTER + 0.5);
        signature_place(rows[i].meter, tick, text);
        CHECK_TEXT(text, rows[i].said);
    }
}

/* ---- In a host */

static void pick(Stage* const stage, const Control control, const int id)
{
    char why[HOST_WHY_ROOM];
    const float value = (float)id;
    host_set(stage->host, control_rows[control].symbol, value, why);
    incoming_port_event(&stage->model, (uint32_t)(PORT_FIRST_CONTROL + control), sizeof value, 0,
                        &value);
}

static int named(const Stage* const stage, const char* const name)
{
    const Shelf* const shelf = &stage->model.view.shelves[ENTRY_GROOVE];
    for (int i = 0; i < shelf->count; ++i) {
        if (!strcmp(shelf->entries[i].label, name)) {
            return shelf->entries[i].id;
        }
    }
    return 0;
}

static void play_in(Stage* const stage, const int groove, const Meter meter)
{
    stage->beats_per_bar = (float)meter.beats_per_bar;
    stage->beat_unit = meter.beat_unit;
    pick(stage, CONTROL_GROOVE, groove);
    stage_run(stage, 0.05);
    stage_roll(stage, 0, 0.0f, 1.0f);
    stage_run(stage, 0.5);
}

static void the_tempo_counts_the_meters_beat_and_says_the_hosts_quarters(void)
{
    static const struct {
        Meter meter;
        const char* upper;
        const char* number;
        const char* quarters;
    } rows[] = {
        {{12, 8}, "12", "84", "= 126"}, {{2, 2}, "2", "63", "= 126"}, {{4, 4}, "4", "126", NULL}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        Stage* const stage = stage_play(stage_scene("standing"));
        play_in(stage, 1, rows[i].meter);
        shown_draw(&stage->model.view);
        check_case("%s", rows[i].upper);
        CHECK(shown_times(rows[i].upper) >= 1);
        CHECK_INT(shown_times(rows[i].number), 1);
        CHECK(!rows[i].quarters || shown_times(rows[i].quarters) == 1);
        stage_end(stage);
    }
}

static int numbers_at_line(const Stage* const stage, const char* const upper,
                           const char* const lower)
{
    int found = 0;
    const View* const view = &stage->model.view;
    const Geometry g = geometry_of(view);
    const SeenBar* const bar = view_bar(view, view_shown(view));
    const BarSpace space = geometry_bar(&g, bar->meter);
    const double line = geometry_tick(&g, space, (double)meter_bar_ticks(bar->meter));
    shown_draw(view);
    for (int i = 0; i < shown.count; ++i) {
        const ShownText* const text = &shown.texts[i];
        const bool is_there = text->box.x > line && text->box.y < g.row_top[0];
        found += is_there && (!strcmp(text->text, upper) || !strcmp(text->text, lower));
    }
    return found;
}

/* As notation has it: at the line where it changes, and only there (D. Stone, Music Notation in
   the Twentieth Century, 1980, on time signatures; from memory). */
static void a_meter_that_changes_stands_again_at_its_bar_line(void)
{
    static const char* const scenes[] = {"playing-dark",      "least", "large",
                                         "groove-list-light", "keys",  "reading"};
    for (int i = 0; i < 6; ++i) {
        Stage* const stage = stage_play(stage_scene(scenes[i]));
        View* const view = &stage->model.view;
        const bool reads = view->reads;
        check_case("%s", scenes[i]);
        CHECK_INT(numbers_at_line(stage, reads ? "7/8" : "7", "8"), 0);
        for (int bar = (int)(view_shown(view) - view_phrase(view)) + 1; bar < SEEN_BARS; ++bar) {
            view->bars[bar].meter = (Meter){7.0, 8};
        }
        CHECK_INT(numbers_at_line(stage, reads ? "7/8" : "7", "8"), reads ? 1 : 2);
        if (!strcmp(scenes[i], "playing-dark")) { /* and once over the phrase's small bars */
            CHECK_INT(shown_times("7/8"), 1);
        }
        stage_end(stage);
    }
}

/* What is typed is the port's quarters: so that is the note which stands before it. */
static void a_tempo_is_typed_in_quarters_in_any_meter(void)
{
    Stage* const stage = stage_play(stage_scene("standing"));
    pick(stage, CONTROL_CLOCK, 1);
    play_in(stage, named(stage, "Grey Water"), (Meter){12, 8});
    stage_key(stage, 't');
    stage_text(stage, "150");
    shown_draw(&stage->model.view);
    CHECK_INT(shown_times("150|"), 1);
    stage_key(stage, PANE_KEY_ENTER);
    CHECK_NEAR(stage->model.view.values[CONTROL_TEMPO], 150.0, 0.0);
    stage_run(stage, 0.3);
    shown_draw(&stage->model.view);
    CHECK_INT(shown_times("100"), 1); /* dotted quarters */
    stage_end(stage);
}

/* Meters as presets/grooves.ttl has them; places counted by hand: seven eighths end on the
   eighth after beat 4 of 4/4, six on beat 4; nine on the tenth eighth of 12/8; twelve eighths
   are four more than 4/4's, which is a half note. */
static void a_groove_in_another_meter_says_what_becomes_of_it(void)
{
    static const struct {
        const char* groove;
        Meter meter;
        const char* want;
    } rows[] = {
        {"Winter Timetable", {4, 4}, "7/8 groove in 4/4: starts again on 4&"},
        {"Winter Timetable", {7, 8}, ""},
        {"Lower Station", {12, 8}, "4/4 groove in 12/8: starts again on 9"},
        {"Lower Station", {7, 8}, "4/4 groove in 7/8: each bar loses its last 1/8"},
        {"Lower Station", {3, 4}, "4/4 groove in 3/4: each bar loses its last 1/4"},
        {"Lower Station", {4, 4}, ""},
        {"Lower Station", {2, 2}, "4/4 groove in 2/2: as long, counted otherwise"},
        {"Gull Weather", {4, 4}, "6/8 groove in 4/4: starts again on 4"},
        {"Gull Weather", {3, 4}, "6/8 groove in 3/4: as long, counted otherwise"},
        {"Tide Table", {12, 8}, "9/8 groove in 12/8: starts again on 10"},
        {"Grey Water", {4, 4}, "12/8 groove in 4/4: each bar loses its last 1/2"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        char text[SIGNATURE_ROOM];
        Stage* const stage = stage_play(stage_scene("standing"));
        play_in(stage, named(stage, rows[i].groove), rows[i].meter);
        signature_mismatch(&stage->model.view, text);
        check_case("%s in %g/%d", rows[i].groove, rows[i].meter.beats_per_bar,
                   (int)rows[i].meter.beat_unit);
        CHECK_TEXT(text, rows[i].want);
        shown_draw(&stage->model.view);
        CHECK_INT(*text ? shown_times(text) : 0, *text ? 1 : 0);
        stage_end(stage);
    }
}

/* ---- Every meter, by what is struck */

static bool has_stroke(const SeenBar* const bar, const int64_t tick, const int limb)
{
    for (uint32_t i = 0; i < bar->count; ++i) {
        const SeenStroke* const stroke = &bar->strokes[i];
        if (!stroke->is_grace && stroke->written == tick && stroke->limb == limb) {
            return true;
        }
    }
    return false;
}

/* What a pair strikes from a place to the next, or to the line, is what it struck from the
   bar line on. */
static bool repeats(const SeenBar* const bar, const int64_t from, const int64_t length,
                    const int pair)
{
    const int64_t end = meter_bar_ticks(bar->meter);
    const int64_t to = from + length < end ? from + length : end;
    int strokes = 0;
    for (uint32_t i = 0; i < bar->count; ++i) {
        const SeenStroke* const stroke = &bar->strokes[i];
        const bool is_of = stroke->limb / 2 == pair && !stroke->is_grace;
        if (is_of && stroke->written >= from && stroke->written < to) {
            ++strokes;
            if (!has_stroke(bar, stroke->written - from, stroke->limb)) {
                return false;
            }
        }
        if (is_of && stroke->written < to - from &&
            !has_stroke(bar, stroke->written + from, stroke->limb)) {
            return false;
        }
    }
    return strokes > 0;
}

/* The places that the sentence has, read by a reader of its own; how many. */
static int read_places(const char* text, const Meter meter, int64_t places[8])
{
    static const char* const said[] = {"&", "e", "a", "trip", "let", ""};
    static const double parts[] = {0.5, 0.25, 0.75, 1.0 / 3, 2.0 / 3, 0.0};
    int count = 0;
    const char* at = strstr(text, "starts again on ");
    at = at ? at + strlen("starts again on ") : NULL;
    while (at && count < 8 && *at >= '0' && *at <= '9') {
        char* end = NULL;
        double beats = (double)strtol(at, &end, 10) - 1.0;
        for (int i = 0; i < 6; ++i) {
            if (!strncmp(end, said[i], strlen(said[i]))) {
                beats += parts[i];
                end += strlen(said[i]);
                break;
            }
        }
        places[count++] = (int64_t)(beats * (double)meter_beat_ticks(meter) + 0.5);
        at = strncmp(end, ", ", 2) ? NULL : end + 2;
    }
    return count;
}

/* A bar of the phrase in which nothing but the groove's own strokes is: no fill, no crash. */
static void check_places(const View* const view, int* const said)
{
    char text[SIGNATURE_ROOM];
    int64_t places[8];
    const SeenBar* const first = view_bar(view, view_shown(view));
    const Entry* const groove =
        first ? view_entry(view, ENTRY_GROOVE, (int32_t)first->groove) : NULL;
    signature_mismatch(view, text);
    const int count = first ? read_places(text, first->meter, places) : 0;
    const int64_t length = groove ? meter_bar_ticks(groove->groove->meter) : 0;
    for (int k = 0; k < count; ++k) {
        bool found = false;
        int looked = 0;
        for (int i = 1; i < view_phrase_bars(view); ++i) {
            const SeenBar* const bar = view_bar(view, view_phrase(view) + i);
            if (bar && !bar->fill) {
                ++looked;
                found = found || repeats(bar, places[k], length, 0) ||
                        repeats(bar, places[k], length, 1);
            }
        }
        check_case("%s of %s", text, groove->label);
        CHECK(found || !looked);
        *said += found;
    }
}

static void where_it_starts_again_the_same_is_struck_again_in_every_meter(void)
{
    static const Meter meters[] = {{2, 4}, {3, 4}, {4, 4},  {5, 4},  {7, 4},   {5, 8}, {6, 8},
                                   {7, 8}, {9, 8}, {12, 8}, {13, 8}, {15, 16}, {2, 2}};
    Stage* const stage = stage_play(stage_scene("standing"));
    const View* const view = &stage->model.view;
    pick(stage, CONTROL_CRASH, 1); /* never */
    int said = 0;
    for (int i = 0; i < view->shelves[ENTRY_GROOVE].count; i += 5) {
        for (size_t m = 0; m < sizeof meters / sizeof *meters; ++m) {
            play_in(stage, view->shelves[ENTRY_GROOVE].entries[i].id, meters[m]);
            stage_run(stage, 0.3);
            check_places(view, &said);
        }
    }
    CHECK(said > 40);
    stage_end(stage);
}

int main(void)
{
    RUN(a_beat_is_the_note_that_a_musician_counts);
    RUN(places_are_named_as_they_are_counted);
    RUN(the_tempo_counts_the_meters_beat_and_says_the_hosts_quarters);
    RUN(a_meter_that_changes_stands_again_at_its_bar_line);
    RUN(a_tempo_is_typed_in_quarters_in_any_meter);
    RUN(a_groove_in_another_meter_says_what_becomes_of_it);
    RUN(where_it_starts_again_the_same_is_struck_again_in_every_meter);
    return tests_end();
}
