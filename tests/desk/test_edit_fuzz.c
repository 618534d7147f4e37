// SPDX-License-Identifier: ISC
/* test_edit_fuzz.c - twenty thousand clicks, drags, keys and changes of what plays, with
   the plugin behind them: it refuses nothing that the editor sends, no note hangs, and
   what is in the editor is always a figure.  tests/checks/sanitized.sh runs it under the
   sanitizers. */
#include "bench.h"
#include "chance.h"

enum { EVENTS = 20000, SAVES_MAX = 12 };

static int saves;

static PaneEvent at(const Bench* const bench, const TargetId id, Chance* const luck)
{
    TargetList targets;
    const Model* const model = &bench->stage.model;
    const Geometry g = geometry_of(&model->view);
    targets_of(&model->view, &g, &targets);
    const Target* const target = targets_find(&targets, id);
    const Box box = target ? target->box : (Box){0.0, 0.0, model->fit.width, model->fit.height};
    const double x = box.x + box.width * chance(luck, 1000) / 1000.0;
    const double y = box.y + box.height * chance(luck, 1000) / 1000.0;
    return (PaneEvent){.x = model->fit.x + model->fit.scale * x,
                       .y = model->fit.y + model->fit.scale * y,
                       .button = 1,
                       .modifiers = chance(luck, 4) ? 0 : PANE_SHIFT};
}

static PaneEvent in_a_row(const Bench* const bench, Chance* const luck)
{
    const int pair = (int)bench->stage.model.view.edit.pair;
    return at(bench, (TargetId){TARGET_ROW, 2 * pair + (int)chance(luck, 2)}, luck);
}

static void row_click(Bench* const bench, Chance* const luck)
{
    PaneEvent event = in_a_row(bench, luck);
    event.button = chance(luck, 5) ? 1 : 3;
    bench_mouse(bench, event, PANE_MOTION);
    bench_mouse(bench, event, PANE_PRESS);
    bench_mouse(bench, event, PANE_RELEASE);
}

/* The button may never be let go, or the song may go on in between. */
static void row_drag(Bench* const bench, Chance* const luck)
{
    bench_mouse(bench, in_a_row(bench, luck), PANE_PRESS);
    for (uint32_t moves = chance(luck, 4); moves-- > 0;) {
        bench_mouse(bench, in_a_row(bench, luck), PANE_MOTION);
        if (!chance(luck, 3)) {
            bench_run(bench, BENCH_BLOCK);
        }
    }
    if (chance(luck, 8)) {
        bench_mouse(bench, in_a_row(bench, luck), PANE_RELEASE);
    }
}

static void item(Bench* const bench, Chance* const luck)
{
    EditItem item = (EditItem)chance(luck, EDIT_FILE);
    if (item == EDIT_SAVE && (saves >= SAVES_MAX || chance(luck, 20))) {
        item = EDIT_GRID; /* saving waits for the disk, and the bank grows */
    }
    saves += item == EDIT_SAVE;
    PaneEvent event = at(bench, (TargetId){TARGET_EDIT, (int)item}, luck);
    if (chance(luck, 2)) {
        event.scroll = chance(luck, 2) ? 1.0 : -1.0;
        bench_mouse(bench, event, PANE_MOTION);
        bench_mouse(bench, event, PANE_SCROLL);
    } else if (item != EDIT_SAVE || *bench_view(bench)->edit.name) {
        bench_mouse(bench, event, PANE_PRESS);
        bench_mouse(bench, event, PANE_RELEASE);
    }
}

static void key(Bench* const bench, Chance* const luck)
{
    static const uint32_t keys[] = {'z',
                                    'z',
                                    'y',
                                    PANE_KEY_UP,
                                    PANE_KEY_DOWN,
                                    PANE_KEY_LEFT,
                                    PANE_KEY_RIGHT,
                                    PANE_KEY_TAB,
                                    PANE_KEY_ESCAPE,
                                    'a',
                                    0x5869,
                                    PANE_KEY_BACKSPACE};
    stage_key(&bench->stage, keys[chance(luck, sizeof keys / sizeof *keys)]);
}

/* What is picked, how it is laid out, and who leads. */
static void control(Bench* const bench, Chance* const luck)
{
    static const struct {
        Control control;
        int least, count;
    } rows[] = {
        {CONTROL_FEET, ONE, 4},        {CONTROL_FEET, 0, 1},         {CONTROL_FEET, 1, 200},
        {CONTROL_HANDS, 0, 100},       {CONTROL_TURNAROUND, -1, 30}, {CONTROL_GROOVE, 1, 90},
        {CONTROL_LEAD_FOOT, 0, 2},     {CONTROL_SWING_RATIO, 1, 3},  {CONTROL_REALIGN, 0, 3},
        {CONTROL_PRACTICE_RATE, 2, 4}, {CONTROL_LOOP_BAR, 0, 3},     {CONTROL_PHRASE_BARS, 0, 5},
        {CONTROL_FEET_GRID, 0, 2},     {CONTROL_FEET_GRID, 0, 1},    {CONTROL_GROOVE, GROOVE, 1}};
    const uint32_t row = chance(luck, sizeof rows / sizeof *rows);
    bench_set(bench, rows[row].control,
              rows[row].least + (int)chance(luck, (uint32_t)rows[row].count));
}

static void check_nothing_sounds(Bench* const bench)
{
    for (int note = 0; note < 128; ++note) {
        CHECK_INT(bench->sounding[note], 0);
    }
}

static void transport(Bench* const bench, Chance* const luck)
{
    static const float beats[] = {4.0f, 4.0f, 4.0f, 3.0f, 5.0f, 7.0f};
    bench->stage.beats_per_bar = beats[chance(luck, 6)];
    if (chance(luck, 3)) {
        stage_roll(&bench->stage, chance(luck, 40), 0.0f, 1.0f);
    } else {
        stage_roll(&bench->stage, 0, 0.0f, 0.0f);
        bench_run(bench, 2 * BENCH_BLOCK);
        check_nothing_sounds(bench);
        const TargetId bar = {TARGET_BAR, (int)chance(luck, 4)};
        bench_mouse(bench, at(bench, bar, luck), PANE_PRESS);
    }
}

static void do_anything(Bench* const bench, Chance* const luck)
{
    const uint32_t what = chance(luck, 100);
    if (what < 40) {
        row_click(bench, luck);
    } else if (what < 60) {
        row_drag(bench, luck);
    } else if (what < 80) {
        item(bench, luck);
    } else if (what < 94) {
        key(bench, luck);
    } else if (what < 98) {
        control(bench, luck);
    } else {
        transport(bench, luck);
    }
}

static void check_editor(Bench* const bench)
{
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        const EditPiece* const piece = &bench->stage.model.editor.pieces[kind];
        if (piece->is_open) {
            const Figure figure = edit_buffer_figure(&piece->buffer);
            CHECK(figure_valid(&figure));
            CHECK(piece->info != NULL);
        }
    }
    for (int note = 0; note < 128; ++note) {
        CHECK(bench->sounding[note] == 0 || bench->sounding[note] == 1);
    }
}

/* Rows and items are there, whatever the keys did. */
static void come_back(Bench* const bench)
{
    if (bench_view(bench)->list.is_open) {
        stage_key(&bench->stage, PANE_KEY_ESCAPE);
    }
    bench_view(bench)->panel = PANEL_EDIT;
}

static void whatever_is_done_in_the_editor_the_plugin_plays_it(void)
{
    Chance luck = {20};
    Bench* const bench = bench_open();
    int changes = 0;
    for (int i = 0; i < EVENTS; ++i) {
        const int before = bench_view(bench)->edit.undo;
        check_case("event %d", i);
        do_anything(bench, &luck);
        come_back(bench);
        changes += bench_view(bench)->edit.undo != before;
        if (!chance(&luck, 3)) {
            bench_run(bench, BENCH_BLOCK);
        }
        check_editor(bench);
        if (!CHECK_INT(bench->refused, 0)) {
            printf("# %s\n", bench->why);
            break;
        }
    }
    printf("# %d changes, %d texts sent, %d saved\n", changes, bench->said, saves);
    CHECK(changes > EVENTS / 10);
    stage_roll(&bench->stage, 0, 0.0f, 0.0f);
    bench_settle(bench);
    check_nothing_sounds(bench);
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        const Draft* const draft = &bench->stage.model.editor.drafts[kind];
        CHECK(!draft->sent && !draft->is_due); /* all is answered */
    }
    bench_close(bench);
}

int main(void)
{
    bench_move_in();
    RUN(whatever_is_done_in_the_editor_the_plugin_plays_it);
    bench_move_out();
    return tests_end();
}
