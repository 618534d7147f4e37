// SPDX-License-Identifier: ISC
/* test_doubles.c - the same strokes under two names: accents, sticking and cymbals aside, and
   both repeated until they meet.  Each but the first says by fl:differs why it stands, and
   whoever adds one must say so too. */
#include "../help/check.h"
#include "factory.h"

/* What sounds alike here: cymbals, and the two kicks. */
static uint8_t sound_of(const uint8_t voice)
{
    switch ((Voice)voice) {
    case VOICE_KICK_LEFT:
        return VOICE_KICK;
    case VOICE_HAT_HALF_OPEN:
    case VOICE_HAT_OPEN:
    case VOICE_RIDE:
    case VOICE_RIDE_BELL:
    case VOICE_CRASH:
    case VOICE_CRASH_2:
    case VOICE_CHINA:
    case VOICE_SPLASH:
        return VOICE_HAT_CLOSED;
    case VOICE_KICK:
    case VOICE_SNARE:
    case VOICE_SIDE_STICK:
    case VOICE_HAT_CLOSED:
    case VOICE_HAT_PEDAL:
    case VOICE_TOM_HIGH:
    case VOICE_TOM_MID:
    case VOICE_TOM_LOW:
    case VOICE_TOM_FLOOR:
    case VOICE_COWBELL:
    case VOICE_CHOKE:
    case VOICE_CLICK:
    case VOICE_CLICK_ACCENT:
    case VOICE_COUNT:
        break;
    }
    return voice;
}

/* How often a sound is struck there. */
static uint32_t struck(const Figure* const figure, const int64_t tick, const uint8_t sound)
{
    uint32_t count = 0;
    for (uint32_t i = figure_first_from(figure, tick);
         i < figure->stroke_count && figure->strokes[i].tick == tick; ++i) {
        count += sound_of(figure->strokes[i].voice) == sound;
    }
    return count;
}

/* True if all that `a` strikes in `ticks` is struck by `b` too, both repeated. */
static bool strikes_all(const Figure* const a, const Figure* const b, const int64_t ticks)
{
    for (int64_t turn = 0; turn < ticks; turn += a->cycle_ticks) {
        for (uint32_t i = 0; i < a->stroke_count; ++i) {
            const int64_t tick = a->strokes[i].tick;
            const uint8_t sound = sound_of(a->strokes[i].voice);
            if (struck(a, tick, sound) != struck(b, (turn + tick) % b->cycle_ticks, sound)) {
                return false;
            }
        }
    }
    return true;
}

/* So long that both have been played whole times: sixteenths in bars of seven are the same
   as those in bars of four. */
static int64_t meet(const int64_t a, const int64_t b)
{
    int64_t rest = a % b;
    int64_t divisor = b;
    while (rest) {
        const int64_t last = rest;
        rest = divisor % rest;
        divisor = last;
    }
    return a / divisor * b;
}

/* Fills aren't repeated: another length is another fill. */
static bool alike(const Figure* const a, const Figure* const b)
{
    const int64_t ticks = meet(a->cycle_ticks, b->cycle_ticks);
    return (a->kind != FIGURE_TURNAROUND || a->cycle_ticks == b->cycle_ticks) &&
           strikes_all(a, b, ticks) && strikes_all(b, a, ticks);
}

static Bank* bank;

/* The first with the same strokes before an entry; itself, if there is none. */
static uint32_t first_alike(const Library* const library, const FigureKind kind,
                            const uint32_t index)
{
    const Figure* const figures = library->figures[kind];
    uint32_t first = 0;
    while (first < index && !alike(&figures[first], &figures[index])) {
        ++first;
    }
    return first;
}

static void the_same_strokes_have_two_names_only_for_a_reason(void)
{
    const Library* const library = bank_library(bank);
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        for (uint32_t i = 0; i < library->figure_counts[kind]; ++i) {
            const EntryInfo* const entry = bank_entry(bank, (EntryKind)kind, i);
            const uint32_t first = first_alike(library, (FigureKind)kind, i);
            check_case("%s %u, beside %u: say why by fl:differs, or keep one", kind_rows[kind].name,
                       entry->id, library->figures[kind][first].id);
            CHECK(first == i || *entry->differs);
        }
    }
}

static Figure figure_of(const Stroke* const strokes, const uint32_t count, const int64_t ticks)
{
    return (Figure){.cycle_ticks = ticks, .stroke_count = count, .strokes = strokes};
}

enum { Q = TICKS_PER_QUARTER };

static void doubles_are_found_and_others_are_none(void)
{
    static const Stroke once[] = {{0, RIGHT_HAND, VOICE_RIDE, LEVEL_ACCENT, true},
                                  {Q, LEFT_HAND, VOICE_SNARE, LEVEL_ACCENT, true}};
    static const Stroke twice[] = {{0, LEFT_HAND, VOICE_HAT_OPEN, LEVEL_GHOST, true},
                                   {Q, RIGHT_HAND, VOICE_SNARE, LEVEL_NORMAL, true},
                                   {2 * Q, RIGHT_HAND, VOICE_CHINA, LEVEL_ACCENT, true},
                                   {3 * Q, LEFT_HAND, VOICE_SNARE, LEVEL_ACCENT, true}};
    static const Stroke other[] = {{0, RIGHT_HAND, VOICE_RIDE, LEVEL_ACCENT, true},
                                   {Q, LEFT_HAND, VOICE_SNARE, LEVEL_ACCENT, true},
                                   {2 * Q, RIGHT_HAND, VOICE_RIDE, LEVEL_ACCENT, true},
                                   {3 * Q, LEFT_HAND, VOICE_TOM_LOW, LEVEL_ACCENT, true}};
    const Figure a = figure_of(once, 2, 2 * Q);
    const Figure b = figure_of(twice, 4, 4 * Q);
    const Figure c = figure_of(other, 4, 4 * Q);
    const Figure less = figure_of(twice, 3, 4 * Q);
    static const Stroke even[] = {{0, RIGHT_FOOT, VOICE_KICK, LEVEL_NORMAL, true},
                                  {Q, RIGHT_FOOT, VOICE_KICK, LEVEL_NORMAL, true},
                                  {2 * Q, LEFT_FOOT, VOICE_KICK_LEFT, LEVEL_ACCENT, true}};
    const Figure odd = figure_of(once, 2, 3 * Q);
    const Figure in_two = figure_of(even, 2, 2 * Q);
    const Figure in_three = figure_of(even, 3, 3 * Q);
    CHECK(alike(&a, &b) && alike(&b, &a) && alike(&a, &a));
    CHECK(!alike(&a, &c) && !alike(&b, &c));
    CHECK(!alike(&a, &less) && !alike(&less, &b));
    CHECK(!alike(&a, &odd));
    CHECK(alike(&in_two, &in_three) && alike(&in_three, &in_two));
    Figure fill = a, longer = b;
    fill.kind = longer.kind = FIGURE_TURNAROUND;
    CHECK(alike(&fill, &fill) && !alike(&fill, &longer));
}

int main(void)
{
    bank = factory_open();
    RUN(doubles_are_found_and_others_are_none);
    RUN(the_same_strokes_have_two_names_only_for_a_reason);
    bank_free(bank);
    return tests_end();
}
