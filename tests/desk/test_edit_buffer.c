// SPDX-License-Identifier: ISC
/* test_edit_buffer.c - a figure being changed: every change can be taken back and made
   again, what comes of it is always a figure, and is read back as it was written.  The
   promises of figures are those of plugin/engine/written/figure.h. */
#include "../../plugin/bank/single.h"
#include "../../plugin/bank/write_figure.h"
#include "../../ui/desk/edit_buffer.h"
#include "../bank/factory.h"
#include "../help/check.h"
#include "chance.h"

enum { EDITS = 120, SEVENTH = 7, Q = TICKS_PER_QUARTER };

static Bank* bank;

static bool strokes_equal(const Stroke a, const Stroke b)
{
    return a.tick == b.tick && a.limb == b.limb && a.voice == b.voice && a.level == b.level &&
           a.bends == b.bends;
}

static bool same(const EditFigure* const a, const EditFigure* const b)
{
    bool same = a->kind == b->kind && a->id == b->id && a->cycle_ticks == b->cycle_ticks &&
                a->step_ticks == b->step_ticks && a->bars == b->bars && a->count == b->count;
    for (uint32_t i = 0; same && i < a->count; ++i) {
        same = strokes_equal(a->strokes[i], b->strokes[i]);
    }
    return same;
}

/* ---- Changes by chance */

static uint8_t any_limb(const FigureKind kind, Chance* const luck)
{
    const uint32_t hand = chance(luck, 2);
    return (uint8_t)(kind == FIGURE_HANDS  ? hand
                     : kind == FIGURE_FEET ? RIGHT_FOOT + hand
                                           : chance(luck, LIMB_COUNT));
}

static int64_t any_tick(const EditBuffer* const buffer, Chance* const luck)
{
    return edit_buffer_step(buffer, (double)chance(luck, (uint32_t)buffer->now.cycle_ticks));
}

static int64_t any_length(const EditBuffer* const buffer, Chance* const luck, uint32_t* const bars)
{
    const EditFigure* const now = &buffer->now;
    const int by = chance(luck, 2) ? 1 : -1;
    const int64_t cycle = edit_buffer_next_length(buffer, by);
    *bars = now->bars ? (uint32_t)((int)now->bars + by) : 0;
    return cycle > EDIT_BUFFER_STEPS_MAX * Q / buffer->grid ? 0 : cycle;
}

static bool change(EditBuffer* const buffer, Chance* const luck)
{
    const uint8_t limb = any_limb(buffer->now.kind, luck);
    const int64_t tick = any_tick(buffer, luck);
    uint32_t bars = 0;
    int64_t cycle = 0;
    switch (chance(luck, 9)) {
    case 8:
        return edit_buffer_to_bars(buffer, chance(luck, 2) ? 4 * Q : 7 * Q / 2);
    case 0:
        return edit_buffer_move(buffer, limb, tick, any_tick(buffer, luck));
    case 1:
        return edit_buffer_voice(buffer, limb, tick, chance(luck, 2) ? 1 : -1);
    case 2:
        cycle = any_length(buffer, luck, &bars);
        return edit_buffer_length(buffer, cycle, bars);
    case 3:
        return edit_buffer_level(
            buffer, limb, tick,
            (Level)chance(luck, limb_is_foot(limb) ? LEVEL_FLAM : LEVEL_DRAG + 1));
    default:
        return edit_buffer_cycle(buffer, limb, tick);
    }
}

/* One figure in seven of the factory's, each kind. */
static const Figure* sample(const uint32_t number, const char** const name)
{
    uint32_t index = number * SEVENTH;
    for (int kind = ENTRY_HANDS; kind <= ENTRY_TURNAROUND; ++kind) {
        const uint32_t count = bank_count(bank, (EntryKind)kind);
        if (index < count) {
            *name = bank_entry(bank, (EntryKind)kind, index)->name;
            return factory_figure(bank, (EntryKind)kind, index);
        }
        index -= count;
    }
    return NULL;
}

static void check_promises(const EditBuffer* const buffer)
{
    const Figure figure = edit_buffer_figure(buffer);
    CHECK(figure_valid(&figure));
    CHECK(figure.stroke_count >= 1);
    for (uint32_t i = 0; i < figure.stroke_count; ++i) {
        const Stroke a = figure.strokes[i];
        const bool foot = limb_is_foot(a.limb);
        CHECK(figure.kind == FIGURE_TURNAROUND || foot == (figure.kind == FIGURE_FEET));
        CHECK(!foot || a.level <= LEVEL_ACCENT);
        CHECK(figure.plays_limb[a.limb]);
        if (i) {
            const Stroke b = figure.strokes[i - 1];
            CHECK(a.tick != b.tick || a.limb != b.limb); /* one limb is in one place */
        }
    }
}

static void every_change_is_taken_back_and_made_again_exactly(void)
{
    static EditBuffer buffer;
    static EditFigure was[EDITS + 1];
    Chance luck = {1};
    const char* name = "";
    const Figure* figure = NULL;
    uint32_t number = 0;
    for (; (figure = sample(number, &name)); ++number) {
        check_case("%s", name);
        edit_buffer_begin(&buffer, figure);
        was[0] = buffer.now;
        for (int made = 0; made < EDITS;) {
            made += change(&buffer, &luck);
            was[made] = buffer.now;
            check_promises(&buffer);
        }
        CHECK_INT(buffer.undo, EDITS);
        for (int i = EDITS; i-- > 0;) {
            CHECK(edit_buffer_undo(&buffer));
            CHECK(same(&buffer.now, &was[i]));
        }
        CHECK(!edit_buffer_undo(&buffer));
        CHECK_INT(buffer.now.count, figure->stroke_count);
        for (uint32_t i = 0; i < figure->stroke_count; ++i) {
            CHECK(strokes_equal(buffer.now.strokes[i], figure->strokes[i]));
        }
        for (int i = 1; i <= EDITS; ++i) {
            CHECK(edit_buffer_redo(&buffer));
            CHECK(same(&buffer.now, &was[i]));
        }
        CHECK(!edit_buffer_redo(&buffer));
    }
    check_case("how many");
    CHECK(number > 40);
}

static void of_more_changes_than_are_kept_the_oldest_go(void)
{
    static EditBuffer buffer;
    static EditFigure was[4 * EDIT_BUFFER_CHANGES_MAX];
    Chance luck = {2};
    edit_buffer_begin(&buffer, factory_figure(bank, ENTRY_TURNAROUND, 3));
    for (int made = 0; made < 3 * EDIT_BUFFER_CHANGES_MAX;) {
        was[made] = buffer.now;
        made += change(&buffer, &luck);
    }
    int at = 3 * EDIT_BUFFER_CHANGES_MAX;
    while (edit_buffer_undo(&buffer)) {
        CHECK(same(&buffer.now, &was[--at]));
    }
    CHECK_INT(3 * EDIT_BUFFER_CHANGES_MAX - at, EDIT_BUFFER_CHANGES_MAX - 1);
    CHECK(3 * EDIT_BUFFER_CHANGES_MAX - at >= 100);
}

static void a_change_after_going_back_ends_what_was_to_come(void)
{
    static EditBuffer buffer;
    edit_buffer_begin(&buffer, factory_figure(bank, ENTRY_FEET, 0));
    CHECK(edit_buffer_cycle(&buffer, RIGHT_FOOT, Q / 4));
    CHECK(edit_buffer_cycle(&buffer, RIGHT_FOOT, Q / 4));
    CHECK(edit_buffer_undo(&buffer));
    CHECK_INT(buffer.redo, 1);
    CHECK(edit_buffer_cycle(&buffer, LEFT_FOOT, Q / 4));
    CHECK(!edit_buffer_redo(&buffer));
    check_case("taken back for good");
    const EditFigure before = buffer.now;
    CHECK(edit_buffer_cycle(&buffer, LEFT_FOOT, Q / 2));
    CHECK(edit_buffer_take_back(&buffer));
    CHECK(same(&buffer.now, &before));
    CHECK(!edit_buffer_redo(&buffer));
    CHECK_INT(buffer.undo, 2);
}

/* ---- Written and read back */

static void check_read_back(const EditBuffer* const buffer, const char* const text)
{
    char why[SINGLE_WHY_ROOM] = "";
    const Figure want = edit_buffer_figure(buffer);
    Single* const read = single_read("/text", text, strlen(text), why);
    if (!CHECK(read)) {
        printf("# %s\n", why);
        return;
    }
    const Figure* const got = &read->figure;
    CHECK_INT(got->kind, want.kind);
    CHECK_INT(got->id, want.id);
    CHECK_INT(got->cycle_ticks, want.cycle_ticks);
    CHECK_INT(got->bars, want.bars);
    CHECK_INT(got->plays_pedal, want.plays_pedal);
    CHECK_INT(got->stroke_count, want.stroke_count);
    for (uint32_t i = 0; i < want.stroke_count && i < got->stroke_count; ++i) {
        CHECK(strokes_equal(got->strokes[i], want.strokes[i]));
    }
    single_free(read);
}

/* Forty changes to each figure; how many could not be written, which are taken back. */
static int write_many(const uint64_t seed, const bool grids, int* const written)
{
    static EditBuffer buffer;
    Chance luck = {seed};
    const char* name = "";
    const Figure* figure = NULL;
    int refused = 0;
    *written = 0;
    for (uint32_t number = 0; (figure = sample(number, &name)); ++number) {
        const EntryInfo info = {.id = figure->id, .label = "By chance", .uri = "urn:test:chance"};
        check_case("%s", name);
        edit_buffer_begin(&buffer, figure);
        for (int i = 0; i < 40; ++i) {
            if (grids && i % 10 == 9) {
                buffer.grid = 1 + (int)chance(&luck, EDIT_BUFFER_GRID_MAX);
            }
            if (!change(&buffer, &luck)) {
                continue;
            }
            const Figure now = edit_buffer_figure(&buffer);
            char* const text = write_figure(&now, &info);
            if (text) {
                check_read_back(&buffer, text);
                ++*written;
            } else {
                edit_buffer_take_back(&buffer);
                ++refused;
            }
            free(text);
        }
    }
    return refused;
}

static void what_is_changed_on_one_grid_is_read_back_stroke_for_stroke(void)
{
    int written = 0;
    CHECK_INT(write_many(3, false, &written), 0);
    CHECK(written > 1000);
}

/* The grid of changes goes through all there are.  Lines have whole steps, and a figure
   16 of them at most (limits.h): what a mix of grids can't say is taken back, as the
   editor does. */
static void a_mix_of_grids_is_read_back_or_refused(void)
{
    int written = 0, refused = 0;
    for (uint32_t seed = 1; seed <= 8; ++seed) { /* one walk alone strays by a percent */
        int more = 0;
        refused += write_many(seed, true, &more);
        written += more;
    }
    printf("# %d written, %d not\n", written, refused);
    CHECK(written > 8000);
    CHECK(refused < written / 50);
}

int main(void)
{
    bank = factory_open();
    RUN(every_change_is_taken_back_and_made_again_exactly);
    RUN(of_more_changes_than_are_kept_the_oldest_go);
    RUN(a_change_after_going_back_ends_what_was_to_come);
    RUN(what_is_changed_on_one_grid_is_read_back_stroke_for_stroke);
    RUN(a_mix_of_grids_is_read_back_or_refused);
    bank_free(bank);
    return tests_end();
}
