// SPDX-License-Identifier: ISC
/* How alike bars are with liberty, against the table that liberty_bits.h names: inside its 10
   to 90 %, and no take wanders off. */
#include "liberty_bits.h"

static const char* const part_names[PARTS] = {"kick", "ghosts", "snare", "cymbal"};

static double likeness_at(const int part, const int apart)
{
    double sum = 0.0;
    int pairs = 0;
    for (int bar = 0; bar + apart < BARS; ++bar) {
        int both = 0, either = 0;
        for (int i = part < 0 ? 0 : part; i <= (part < 0 ? PARTS - 1 : part); ++i) {
            const uint32_t a = played.bars[bar].struck[i], b = played.bars[bar + apart].struck[i];
            both += bits_in(a & b);
            either += bits_in(a | b);
        }
        sum += either ? (double)both / either : 0.0;
        pairs += either > 0;
    }
    return sum / pairs;
}

static void check_likeness(const int which, const int part, const int apart)
{
    char statistic[32], of[8];
    snprintf(statistic, sizeof statistic, "likeness %s", part < 0 ? "all" : part_names[part]);
    snprintf(of, sizeof of, "%d", apart);
    const double got = likeness_at(part, apart);
    check_case("groove %d, %s, %d bars apart: %.3f", which, statistic, apart, got);
    CHECK(got >= table(statistic, of, 2) && got <= table(statistic, of, 4));
}

static void bars_are_as_alike_as_drummers_bars(void)
{
    for (int which = 0; which < GROOVES; ++which) {
        play(which, 0.5);
        for (int part = -1; part < PARTS; ++part) {
            check_likeness(which, part, 1);
            check_likeness(which, part, 8);
        }
    }
}

/* Around one bar, not from bar to bar: as alike eight bars on as one. */
static void a_take_does_not_wander_off(void)
{
    for (int which = 0; which < GROOVES; ++which) {
        play(which, 1.0);
        check_case("groove %d", which);
        CHECK_NEAR(likeness_at(-1, 8), likeness_at(-1, 1), 0.03);
        CHECK_NEAR(likeness_at(-1, 64), likeness_at(-1, 1), 0.03);
    }
}

/* Small: nine strokes of ten are those written, and yet of ten bars one is another. */
static void the_default_is_heard_but_small(void)
{
    const double normal = (double)control_rows[CONTROL_LIBERTY].normal / 100.0;
    for (int which = 0; which < GROOVES; ++which) {
        play(which, normal);
        int other = 0;
        double like = 0.0;
        for (int bar = 0; bar < BARS; ++bar) {
            int both = 0, either = 0;
            for (int part = 0; part < PARTS; ++part) {
                const uint32_t a = played.written.struck[part];
                const uint32_t b = played.bars[bar].struck[part];
                both += bits_in(a & b);
                either += bits_in(a | b);
            }
            like += (double)both / either / BARS;
            other += both != either;
        }
        check_case("groove %d: %.3f alike, %d bars of %d", which, like, other, BARS);
        CHECK(like >= 0.9);
        CHECK(other >= BARS / 10);
    }
}

static void more_liberty_is_less_alike(void)
{
    for (int which = 0; which < GROOVES; ++which) {
        double before = 1.0;
        for (int liberty = 1; liberty <= 4; ++liberty) {
            play(which, liberty * 0.25);
            const double like = likeness_at(-1, 1);
            check_case("groove %d at %d: %.3f", which, liberty * 25, like);
            CHECK(like < before);
            before = like;
        }
    }
}

int main(void)
{
    RUN(bars_are_as_alike_as_drummers_bars);
    RUN(a_take_does_not_wander_off);
    RUN(the_default_is_heard_but_small);
    RUN(more_liberty_is_less_alike);
    return tests_end();
}
