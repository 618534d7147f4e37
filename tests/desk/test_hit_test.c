// SPDX-License-Identifier: ISC
/* Whatever figure plays, wherever it starts again and however long the bar is: a place in
   a limb's row is the step of the figure that is drawn there. */
#include "../../plugin/engine/groove/settings.h"
#include "../../ui/desk/edit_items.h"
#include "../../ui/desk/hit_test.h"
#include "bench.h"

/* The first feet figure whose turns cross bar lines, on steps that a quarter has. */
static int rolling_feet(const Bench* const bench)
{
    const Library* const library = bank_library(bench->stage.bank);
    const Figure* figure = library->figures[FIGURE_FEET];
    while (figure->bars || 4 * Q % figure->cycle_ticks == 0 || Q % figure->step_ticks) {
        ++figure;
    }
    return (int)figure->id;
}

static void check_hits(const Bench* const bench)
{
    HitTest hit;
    const Model* const model = &bench->stage.model;
    const Geometry g = geometry_of(&model->view);
    const EditFigure* const now = &editor_piece_seen(model)->buffer.now;
    if (!CHECK(hit_test_of(model, &hit) && editor_piece_seen(model)->is_open && hit.bar->count)) {
        return;
    }
    const BarSpace space = geometry_bar(&g, hit.bar->meter);
    for (uint32_t i = 0; i < hit.bar->count; ++i) {
        const SeenStroke* const stroke = &hit.bar->strokes[i];
        const double x = geometry_tick(&g, space, stroke->written);
        const int64_t tick = hit_test_tick(model, &hit, x);
        const int found = edit_buffer_find(&editor_piece_seen(model)->buffer, stroke->limb, tick);
        check_case("bar %d, looked at %d, stroke at %d of limb %d", (int)hit.bar->bar,
                   model->view.looked_at, stroke->written, stroke->limb);
        CHECK(!limb_is_foot(stroke->limb) || (found >= 0 && now->strokes[found].tick == tick));
    }
}

/* Stands in bar 9 of the song, phrases of four, and looks at each of the phrase's. */
static void check_phrase(Bench* const bench, const int loop, const int realign, const bool is_long)
{
    bench_set(bench, CONTROL_LOOP_BAR, loop);
    bench_pick(bench, CONTROL_REALIGN, realign);
    stage_roll(&bench->stage, 9, 0.0f, 1.0f);
    bench_run(bench, BENCH_BLOCK);
    stage_roll(&bench->stage, 9, 0.0f, 0.0f);
    bench_settle(bench);
    for (int bar = 0; bar < 4; ++bar) {
        const bool is_aside = loop && bar + 1 != loop;
        stage_click(&bench->stage, (TargetId){TARGET_BAR, bar});
        if (!is_long || !is_aside || realign != REALIGN_NEVER) {
            check_hits(bench);
        }
        bench_run(bench, BENCH_RATE); /* no second click of the next */
    }
}

/* One bar may loop: the others are shown as they would be there.  Of a turn longer than
   a bar, that starts in none of them again, that isn't told. */
static void what_is_pointed_at_is_what_is_drawn_wherever_figures_start_again(void)
{
    Bench* const bench = bench_open();
    bench_set(bench, CONTROL_PHRASE_BARS, 4.0);
    bench_pick(bench, CONTROL_FEET, rolling_feet(bench));
    bench_click(bench, RIGHT_FOOT, 0.0);
    stage_key(&bench->stage, 'z'); /* as written, and open */
    for (int i = 0; i < 3 * 3; ++i) {
        check_phrase(bench, i % 3, i / 3, false);
    }
    bench_pick(bench, CONTROL_REALIGN, REALIGN_PHRASE);
    int* const grid = &bench->stage.model.editor.pieces[bench->stage.model.editor.kind].buffer.grid;
    const int kept = *grid;
    *grid = 1;
    for (int i = 0;
         i < 9 &&
         bench->stage.model.editor.pieces[bench->stage.model.editor.kind].buffer.now.cycle_ticks <
             9 * Q;
         ++i) {
        edit_items_step(&bench->stage.model, EDIT_LENGTH, 1);
        bench_settle(bench);
    }
    *grid = kept;
    CHECK_INT(
        bench->stage.model.editor.pieces[bench->stage.model.editor.kind].buffer.now.cycle_ticks,
        9 * Q);
    bench_click(bench, RIGHT_FOOT, 3.0);
    for (int i = 0; i < 3 * 3; ++i) {
        check_phrase(bench, i % 3, i / 3, true);
    }
    bench_close(bench);
}

/* In bars longer and shorter than the figure, from end to end. */
static void nothing_is_pointed_at_beyond_the_figure_or_the_bar(void)
{
    static const float beats[] = {3.0f, 4.0f, 5.0f, 9.0f};
    for (int i = 0; i < 4 * 2; ++i) {
        Bench* const bench = bench_open();
        const Model* const model = &bench->stage.model;
        HitTest hit;
        bench->stage.beats_per_bar = beats[i / 2];
        bench_pick(bench, CONTROL_FEET, i % 2 ? rolling_feet(bench) : 0);
        bench_stop(bench);
        bench_click(bench, RIGHT_FOOT, 0.0);
        CHECK(hit_test_of(model, &hit) && editor_piece_seen(model)->is_open);
        const Geometry g = geometry_of(&model->view);
        const BarSpace space = geometry_bar(&g, hit.bar->meter);
        for (double x = g.beat_1; x < g.beat_1 + space.beats * space.beat; x += 1.0) {
            const int64_t tick = hit_test_tick(model, &hit, x);
            const double apart = (x - g.beat_1) / space.beat * space.ticks - (double)tick;
            check_case("%g beats, %s, x %g", (double)beats[i / 2], i % 2 ? "rolls" : "a bar", x);
            CHECK(tick >= 0 && tick < editor_piece_seen(model)->buffer.now.cycle_ticks);
            CHECK(i % 2 || apart >= (double)Q / -8.0); /* never a later turn's */
        }
        bench_close(bench);
    }
}

/* Of two bars written in 4/4 the second, in a longer one: its first beat comes again. */
static void the_second_bar_of_a_figure_stays_the_second_in_a_longer_bar(void)
{
    Bench* const bench = bench_open();
    const Model* const model = &bench->stage.model;
    HitTest hit;
    bench->stage.beats_per_bar = 5.0f;
    bench_stop(bench);
    bench_click(bench, RIGHT_FOOT, 0.0);
    edit_items_step(&bench->stage.model, EDIT_LENGTH, 1);
    bench_stand(bench, 1);
    CHECK_INT(editor_piece_seen(model)->buffer.now.bars, 2);
    CHECK(hit_test_of(model, &hit) && editor_piece_seen(model)->is_open && hit.bar->in_phrase == 1);
    const Geometry g = geometry_of(&model->view);
    const BarSpace space = geometry_bar(&g, hit.bar->meter);
    for (double quarter = 0.0; quarter < 4.97; quarter += 0.0625) {
        const int64_t tick = hit_test_tick(model, &hit, geometry_tick(&g, space, quarter * Q));
        check_case("quarter %g", quarter);
        CHECK(tick >= 4 * Q && tick < 8 * Q);
    }
    bench_close(bench);
}

/* ---- Bars that a fill takes over in their midst */

static const char* kind_at(const SeenBar* const bar, const SeenStroke* const stroke)
{
    const bool is_feet = limb_is_foot(stroke->limb);
    const bool is_fill = bar->fill && stroke->written >= bar->fill_begin;
    return is_fill && (!is_feet || bar->fill_feet) ? "turnaround" : is_feet ? "feet" : "hands";
}

/* Each stroke that is drawn is found, on its limb and voice, in the figure that plays there. */
static int check_filled(Bench* const bench)
{
    Model* const model = &bench->stage.model;
    const SeenBar* const bar = view_bar(&model->view, view_shown(&model->view));
    const Geometry g = geometry_of(&model->view);
    int in_fill = 0;
    for (uint32_t i = 0; CHECK(bar) && i < bar->count; ++i) {
        HitTest hit;
        const SeenStroke* const stroke = &bar->strokes[i];
        const double x = geometry_tick(&g, geometry_bar(&g, bar->meter), stroke->written);
        model->view.edit.pair = limb_is_foot(stroke->limb) ? PAIR_FEET : PAIR_HANDS;
        editor_piece(model)->is_open = false;
        if (!CHECK(hit_test_at(model, x, &hit) && editor_begin(model, &hit))) {
            continue;
        }
        const EditBuffer* const buffer = &editor_piece_seen(model)->buffer;
        const int found = edit_buffer_find(buffer, stroke->limb, hit_test_tick(model, &hit, x));
        check_case("%g/%d, bar %u, fill %u from %d, stroke at %d of limb %d",
                   bar->meter.beats_per_bar, bar->meter.beat_unit, bar->in_phrase, bar->fill,
                   bar->fill_begin, stroke->written, stroke->limb);
        CHECK_TEXT(kind_rows[hit.kind].name, kind_at(bar, stroke));
        CHECK(found >= 0 && buffer->now.strokes[found].voice == stroke->voice);
        in_fill += hit.kind == FIGURE_TURNAROUND;
    }
    return in_fill;
}

/* Wherever the pointer is it finds a step that is played in the bar, and nothing at all is
   found of a figure where another one plays. */
static void check_every_place(Bench* const bench, const LimbPair pair)
{
    Model* const model = &bench->stage.model;
    const SeenBar* const bar = view_bar(&model->view, view_shown(&model->view));
    const Geometry g = geometry_of(&model->view);
    const BarSpace space = geometry_bar(&g, bar->meter);
    model->view.edit.pair = pair;
    editor_piece(model)->is_open = false;
    for (double x = g.beat_1; x < g.beat_1 + space.beats * space.beat; x += 3.0) {
        HitTest hit;
        if (!CHECK(hit_test_at(model, x, &hit) && editor_begin(model, &hit))) {
            return;
        }
        const int64_t cycle = editor_piece_seen(model)->buffer.now.cycle_ticks;
        const int64_t tick = hit_test_tick(model, &hit, x);
        check_case("%g/%d, bar %u, pair %d, x %g", bar->meter.beats_per_bar, bar->meter.beat_unit,
                   bar->in_phrase, (int)pair, x - g.beat_1);
        const int64_t step = Q / editor_piece_seen(model)->buffer.grid;
        const int64_t left = bar->fill_end - bar->fill_begin;
        if (hit.kind == FIGURE_TURNAROUND && left % step == left) {
            CHECK_INT(tick, -1); /* less is played of it than a step, and none begins there */
            continue;
        }
        CHECK(tick >= 0 && tick < cycle);
        if (hit.kind == FIGURE_TURNAROUND) {
            CHECK(bar->fill_end - cycle + tick >= bar->fill_begin);
        } else if (bar->fill && (pair == PAIR_HANDS || bar->fill_feet)) {
            CHECK(editor_piece_seen(model)->buffer.now.bars != 1 || tick < bar->fill_begin);
        }
    }
}

static void in_a_bar_half_of_a_fill_a_click_hits_what_is_played_there(void)
{
    static const struct {
        float beats;
        int32_t unit;
    } meters[] = {{4, 4}, {3, 4}, {6, 8}, {7, 8}, {5, 4}, {9, 8}, {12, 8}, {2, 2}, {7, 16}};
    int in_fills = 0;
    for (int i = 0; i < 9 * 4; ++i) {
        Bench* const bench = bench_open();
        bench->stage.beats_per_bar = meters[i / 4].beats;
        bench->stage.beat_unit = meters[i / 4].unit;
        bench_set(bench, CONTROL_TURNAROUND, 1001 + i / 2 % 3);
        bench_set(bench, CONTROL_FEET, i % 4 < 2 ? ONE : THREE);
        bench_pick(bench, CONTROL_FILL_BEATS, 1 + i % 3);
        for (int bar = 2; bar < 4; ++bar) {
            bench_stand(bench, bar);
            in_fills += check_filled(bench);
            check_every_place(bench, PAIR_HANDS);
            check_every_place(bench, PAIR_FEET);
            bench_run(bench, BENCH_RATE); /* no second click of the next */
        }
        bench_close(bench);
    }
    printf("# %d strokes in fills\n", in_fills);
    CHECK(in_fills > 30);
}

int main(void)
{
    RUN(what_is_pointed_at_is_what_is_drawn_wherever_figures_start_again);
    RUN(nothing_is_pointed_at_beyond_the_figure_or_the_bar);
    RUN(the_second_bar_of_a_figure_stays_the_second_in_a_longer_bar);
    bench_move_in();
    RUN(in_a_bar_half_of_a_fill_a_click_hits_what_is_played_there);
    bench_move_out();
    return tests_end();
}
