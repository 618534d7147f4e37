// SPDX-License-Identifier: ISC
#include "rhythm.h"

#include <stddef.h>

enum {
    NEVER = 1 << 24, /* a cost */
    UNITS_MOST = 64,
    BRACKET = 6, /* signs that a tuplet's bracket counts as, for each beat under it */
    REST = 2,
    OVER_MOST = 8, /* beats under one bracket */
    TUPLET_MOST = 16
};

static const int quarter = RHYTHM_WHOLE / 4;

typedef struct {
    const int64_t* onsets;
    int count;
    bool nests; /* tuplets may stand in tuplets */
    Rhythm* rhythm;
} Speller;

/* Equal units end to end, which are spelled by joining or dividing them. */
typedef struct {
    int64_t begin;
    int64_t unit; /* ticks */
    int value;    /* of a unit */
    int count;
    bool is_bar; /* its units are beats */
    int actual;
    int normal;
    int depth;
    RhythmTuplet tuplets[RHYTHM_DEEP];
} Run;

typedef enum { AS_SIGN, DIVIDED, AS_TUPLET } How;

/* Some units of a run. */
typedef struct {
    int cost;
    How how;
    int parts;
} Choice;

static int64_t lesser(const int64_t a, const int64_t b)
{
    return a < b ? a : b;
}

static bool is_power(const int number)
{
    return number > 0 && (number & (number - 1)) == 0;
}

/* Of a power of two and of three of them the factor; 0: no single note is as long. */
static int dotted_of(const int value)
{
    return is_power(value) ? 1 : value % 3 == 0 && is_power(value / 3) ? 3 : 0;
}

static bool has_onset(const Speller* const speller, const int64_t from, const int64_t to)
{
    bool has = false;
    for (int i = 0; !has && i < speller->count; ++i) {
        has = speller->onsets[i] >= from && speller->onsets[i] < to;
    }
    return has;
}

/* True if all onsets of a stretch lie on its equal parts. */
static bool on_parts(const Speller* const speller, const int64_t begin, const int64_t ticks,
                     const int64_t parts)
{
    bool is = true;
    for (int i = 0; is && i < speller->count; ++i) {
        const int64_t late = speller->onsets[i] - begin;
        is = late < 0 || late >= ticks || late * parts % ticks == 0;
    }
    return is;
}

/* ---- A single note or rest */

static bool may_join(const Run* const run, const int first, const int count, const bool is_note)
{
    const int value = count * run->value;
    const bool is_aligned = is_power(value) && (first * run->value) % value == 0;
    if (count == 1) {
        return true;
    }
    if (!is_note) {
        return is_aligned && (!run->is_bar || value <= RHYTHM_WHOLE / 2);
    }
    return !run->is_bar || (run->value < quarter && value <= quarter * 3 / 2);
}

static int sign_cost(const Speller* const speller, const Run* const run, const int first,
                     const int count)
{
    const int64_t begin = run->begin + first * run->unit;
    const bool is_note = has_onset(speller, begin, begin + 1);
    if (!dotted_of(count * run->value) || !may_join(run, first, count, is_note) ||
        has_onset(speller, begin + 1, begin + count * run->unit)) {
        return NEVER;
    }
    return is_note ? 1 : REST;
}

/* ---- Divided, by two or three and twos */

static int run_cost(const Speller* speller, const Run* run, uint8_t lengths[UNITS_MOST + 1]);

static Run divided(const Run* const run, const int first, const int parts)
{
    Run inner = *run;
    inner.begin = run->begin + first * run->unit;
    inner.unit = run->unit / parts;
    inner.value = run->value / parts;
    inner.count = parts;
    inner.is_bar = false;
    return inner;
}

static bool can_divide(const Run* const run, const int parts)
{
    return run->value % parts == 0 && run->unit % parts == 0;
}

/* The fewest parts that all its onsets lie on; else the first, whose parts are looked at
   one by one; 0 if it can't be divided. */
static int parts_of(const Speller* const speller, const Run* const run, const int first)
{
    const int least = dotted_of(run->value) == 3 ? 3 : 2;
    const int64_t begin = run->begin + first * run->unit;
    for (int parts = least; parts <= 8 * least && can_divide(run, parts); parts *= 2) {
        if (on_parts(speller, begin, run->unit, parts)) {
            return parts;
        }
    }
    return can_divide(run, least) ? least : 0;
}

static Choice choose_divided(const Speller* const speller, const Run* const run, const int first)
{
    const int parts = parts_of(speller, run, first);
    const Run inner = divided(run, first, parts ? parts : 1);
    return (Choice){parts ? run_cost(speller, &inner, NULL) : NEVER, DIVIDED, parts};
}

/* ---- A tuplet */

/* How many notes of a value fill it otherwise: as many as there can be without being more
   than the tuplet has, or as few as there are. */
static int normal_of(const int value, const int actual)
{
    int normal = value;
    while (normal % 2 == 0 && normal > actual) {
        normal /= 2;
    }
    return normal;
}

static Run tuplet_run(const Run* const run, const int first, const int count, const int actual)
{
    const int value = count * run->value;
    const int normal = normal_of(value, actual);
    Run inner = *run;
    inner.begin = run->begin + first * run->unit;
    inner.unit = count * run->unit / actual;
    inner.value = value / normal;
    inner.count = actual;
    inner.is_bar = false;
    inner.actual = run->actual * actual;
    inner.normal = run->normal * normal;
    inner.tuplets[inner.depth++] = (RhythmTuplet){actual, normal, inner.value, false, false};
    return inner;
}

/* Where the parts of the stretch divide the tuplet too, each takes its own. */
static bool may_be_tuplet(const Speller* const speller, const Run* const run, const int first,
                          const int count, const int actual)
{
    const int64_t ticks = count * run->unit;
    const int64_t begin = run->begin + first * run->unit;
    const bool is_threes = dotted_of(count * run->value) == 3;
    const int64_t parts = is_threes ? 3 * count : count;
    const bool fits = on_parts(speller, begin, ticks, 8 * (int64_t)actual);
    return !is_power(actual) && ticks % actual == 0 &&
           ((count == 1 && !is_threes) || common_divisor(actual, parts) == 1) &&
           (fits || (speller->nests && run->depth + 1 < RHYTHM_DEEP));
}

static Choice choose_tuplet(const Speller* const speller, const Run* const run, const int first,
                            const int count)
{
    Choice best = {NEVER, AS_TUPLET, 0};
    const int64_t begin = run->begin + first * run->unit;
    const int64_t ticks = count * run->unit;
    const int64_t plain = (dotted_of(run->value) == 3 ? 48 : 16) * (int64_t)count;
    if (run->depth == RHYTHM_DEEP || (count > 1 && (!run->is_bar || count > OVER_MOST)) ||
        on_parts(speller, begin, ticks, plain)) {
        return best;
    }
    for (int actual = 3; actual <= TUPLET_MOST; ++actual) {
        if (may_be_tuplet(speller, run, first, count, actual)) {
            const Run inner = tuplet_run(run, first, count, actual);
            const int bracket = BRACKET * count + (count > 1);
            const int cost = bracket + run_cost(speller, &inner, NULL);
            best = cost < best.cost ? (Choice){cost, AS_TUPLET, actual} : best;
        }
    }
    return best;
}

/* ---- Together */

static Choice choose(const Speller* const speller, const Run* const run, const int first,
                     const int count)
{
    Choice best = {sign_cost(speller, run, first, count), AS_SIGN, 1};
    const int64_t begin = run->begin + first * run->unit;
    if (!has_onset(speller, begin + 1, begin + count * run->unit)) {
        return best;
    }
    if (count == 1) {
        const Choice other = choose_divided(speller, run, first);
        best = other.cost < best.cost ? other : best;
    }
    const Choice other = choose_tuplet(speller, run, first, count);
    return other.cost < best.cost ? other : best;
}

/* Dynamic programming: the cheapest way to each unit's end.  `lengths`, if not NULL: how many
   units the last piece before each end has. */
static int run_cost(const Speller* const speller, const Run* const run,
                    uint8_t lengths[UNITS_MOST + 1])
{
    int costs[UNITS_MOST + 1] = {0};
    for (int end = 1; end <= run->count; ++end) {
        costs[end] = NEVER;
        for (int count = 1; count <= end && count <= TUPLET_MOST; ++count) {
            const int before = costs[end - count];
            const int cost =
                before >= NEVER ? NEVER : before + choose(speller, run, end - count, count).cost;
            if (cost < costs[end]) {
                costs[end] = cost;
                if (lengths) {
                    lengths[end] = (uint8_t)count;
                }
            }
        }
    }
    return costs[run->count];
}

static void add_sign(const Speller* const speller, const Run* const run, const int first,
                     const int count)
{
    Rhythm* const rhythm = speller->rhythm;
    const int value = count * run->value;
    const bool is_dotted = dotted_of(value) == 3;
    const int64_t tick = run->begin + first * run->unit;
    RhythmNote note = {.tick = tick,
                       .ticks = count * run->unit,
                       .is_rest = !has_onset(speller, tick, tick + 1),
                       .value = is_dotted ? value / 3 * 2 : value,
                       .dots = is_dotted,
                       .actual = run->actual,
                       .normal = run->normal,
                       .depth = run->depth};
    for (int i = 0; i < run->depth; ++i) {
        note.tuplets[i] = run->tuplets[i];
    }
    if (rhythm->count < RHYTHM_MOST) {
        rhythm->notes[rhythm->count] = note;
    }
    ++rhythm->count;
}

static void add_run(const Speller* speller, const Run* run);

static void add_tuplet(const Speller* const speller, const Run* const run)
{
    Rhythm* const rhythm = speller->rhythm;
    const int from = rhythm->count;
    add_run(speller, run);
    if (rhythm->count <= RHYTHM_MOST) {
        rhythm->notes[from].tuplets[run->depth - 1].starts = true;
        rhythm->notes[rhythm->count - 1].tuplets[run->depth - 1].stops = true;
    }
}

static void add_piece(const Speller* const speller, const Run* const run, const int first,
                      const int count)
{
    const Choice choice = choose(speller, run, first, count);
    if (choice.how == AS_SIGN) {
        add_sign(speller, run, first, count);
    } else if (choice.how == DIVIDED) {
        const Run inner = divided(run, first, choice.parts);
        add_run(speller, &inner);
    } else {
        const Run inner = tuplet_run(run, first, count, choice.parts);
        add_tuplet(speller, &inner);
    }
}

static void add_run(const Speller* const speller, const Run* const run)
{
    uint8_t lengths[UNITS_MOST + 1] = {0};
    uint8_t pieces[UNITS_MOST];
    int count = 0;
    run_cost(speller, run, lengths);
    for (int end = run->count; end > 0; end -= lengths[end]) {
        pieces[count++] = lengths[end];
    }
    for (int first = 0; count > 0; first += pieces[count]) {
        --count;
        add_piece(speller, run, first, pieces[count]);
    }
}

/* The bar in quarters, beats of three eighths, or the units it is counted in. */
static Run bar_run(const Meter meter)
{
    const int unit = meter.beat_unit < 4 ? 4 : meter.beat_unit;
    const int threes = meter_is_compound(meter) ? 3 : 1;
    const int64_t ticks = TICKS_PER_QUARTER * 4 * threes / unit;
    return (Run){.unit = ticks,
                 .value = threes * RHYTHM_WHOLE / unit,
                 .count = (int)lesser(meter_bar_ticks(meter) / ticks, UNITS_MOST + 1),
                 .is_bar = true,
                 .actual = 1,
                 .normal = 1};
}

bool rhythm_spell(Rhythm* const rhythm, const int64_t* const onsets, const int count,
                  const Meter meter)
{
    const Run bar = bar_run(meter);
    Speller speller = {onsets, count, false, rhythm};
    rhythm->count = 0;
    if (bar.count > UNITS_MOST || bar.count * bar.unit != meter_bar_ticks(meter)) {
        return false;
    }
    rhythm->cost = run_cost(&speller, &bar, NULL);
    if (rhythm->cost >= NEVER) {
        speller.nests = true;
        rhythm->cost = run_cost(&speller, &bar, NULL);
    }
    if (rhythm->cost >= NEVER) {
        return false;
    }
    add_run(&speller, &bar);
    return rhythm->count <= RHYTHM_MOST;
}

bool rhythm_is_silent(const Rhythm* const rhythm)
{
    bool is = true;
    for (int i = 0; is && i < rhythm->count; ++i) {
        is = rhythm->notes[i].is_rest;
    }
    return is;
}

int64_t rhythm_beam_ticks(const Meter meter)
{
    return meter_is_compound(meter) ? TICKS_PER_QUARTER * 3 / 2 : TICKS_PER_QUARTER;
}
