// SPDX-License-Identifier: ISC
/* test_doubles.c - the same strokes under two names: accents, sticking and cymbals aside, and
   both repeated until they meet.  Each such group is listed with the reason for which it stands, and
   whoever adds one must give theirs. */
#include "../help/check.h"
#include "factory.h"

enum { GROUP_ROOM = 256 };

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
    case VOICE_CLICK:
    case VOICE_CLICK_ACCENT:
    case VOICE_COUNT:
        break;
    }
    return voice;
}

/* What counts as the same stroke: that it sounds alike, or that the same limb does it too. */
typedef enum { BY_SOUND, BY_LIMB } Sameness;

static bool same(const Stroke a, const Stroke b, const Sameness sameness)
{
    return sound_of(a.voice) == sound_of(b.voice) && (sameness == BY_SOUND || a.limb == b.limb);
}

/* How often there is such a stroke at a tick. */
static uint32_t struck(const Figure* const figure, const int64_t tick, const Stroke stroke,
                       const Sameness sameness)
{
    uint32_t count = 0;
    for (uint32_t i = figure_first_from(figure, tick);
         i < figure->stroke_count && figure->strokes[i].tick == tick; ++i) {
        count += same(figure->strokes[i], stroke, sameness);
    }
    return count;
}

/* True if all that `a` strikes in `ticks` is struck by `b` too, both repeated. */
static bool strikes_all(const Figure* const a, const Figure* const b, const int64_t ticks,
                        const Sameness sameness)
{
    for (int64_t turn = 0; turn < ticks; turn += a->cycle_ticks) {
        for (uint32_t i = 0; i < a->stroke_count; ++i) {
            const Stroke stroke = a->strokes[i];
            if (struck(a, stroke.tick, stroke, sameness) !=
                struck(b, (turn + stroke.tick) % b->cycle_ticks, stroke, sameness)) {
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

static bool alike(const Figure* const a, const Figure* const b, const Sameness sameness)
{
    const int64_t ticks = meet(a->cycle_ticks, b->cycle_ticks);
    return strikes_all(a, b, ticks, sameness) && strikes_all(b, a, ticks, sameness);
}

/* The group that an entry begins, as "hands 1 2 7"; "" if it is alone or stands in an
   earlier one's. */
static const char* group_of(const Library* const library, const FigureKind kind,
                            const uint32_t first, const Sameness sameness)
{
    static char group[GROUP_ROOM];
    const Figure* const figures = library->figures[kind];
    size_t length =
        (size_t)snprintf(group, sizeof group, "%s %u", kind_rows[kind].name, figures[first].id);
    bool any = false;
    for (uint32_t i = 0; i < library->figure_counts[kind]; ++i) {
        if (i == first || !alike(&figures[first], &figures[i], sameness)) {
            continue;
        }
        if (i < first) {
            return "";
        }
        any = true;
        length += (size_t)snprintf(group + length, sizeof group - length, " %u", figures[i].id);
    }
    return any ? group : "";
}

typedef struct {
    const char* group;
    const char* reason;
} Allowed;

#define CYMBAL "another cymbal, or the same one opened: until a control moves the hand"
#define STICKING "other feet, or another one first: what is practised is which"
#define SINGLES "running singles are practised for where their accents are; one plays them even"
#define ACCENTS "the accents make another beat of it"
#define METER "of another meter, where it stands in bars, or rolls over them"
#define LENGTH "a fill is as long as it is: others last longer, or grow, or have accents"
#define GRACES "flams and drags, or a longer one: what is practised is which"

static const Allowed allowed[] = {
    {"hands 1 2 7 9 10 14 15 25 100 115", CYMBAL},
    {"hands 3 4 8 11 18 116", CYMBAL},
    {"hands 6 101", CYMBAL},
    {"hands 12 384", "open hats between the beats make another beat of it"},
    {"hands 19 102", CYMBAL},
    {"hands 40 47", CYMBAL},
    {"hands 41 42 43 46", CYMBAL},
    {"hands 56 57", CYMBAL},
    {"hands 65 66 67 69 70", CYMBAL},
    {"hands 90 91", CYMBAL},
    {"hands 92 173", METER},
    {"hands 120 121", ACCENTS},
    {"hands 125 131", CYMBAL},
    {"hands 127 128", CYMBAL},
    {"hands 142 256 257 258", ACCENTS},
    {"feet 40 41 42 45 121 286", STICKING},
    {"feet 50 51 56 120 122 252 253 254 259 261 280 282 284 285 300 301 302", STICKING},
    {"feet 71 190 192 194", STICKING},
    {"feet 73 191", STICKING},
    {"feet 74 393", STICKING},
    {"feet 124 152 153 154", STICKING},
    {"feet 123 125 130 131 132 133 134 281 283 287", STICKING},
    {"feet 138 394", STICKING},
    {"feet 160 161", STICKING},
    {"feet 210 211 212 216 220", STICKING},
    {"feet 230 231", STICKING},
    {"feet 232 235", STICKING},
    {"feet 242 243", STICKING},
    {"feet 291 445", STICKING},
    {"feet 321 332", METER},
    {"feet 454 465 467", ACCENTS},
    {"turnaround 1 41", METER},
    {"turnaround 30 33 50 62 83", LENGTH},
    {"turnaround 32 79", GRACES},
    {"turnaround 34 65 109", LENGTH},
    {"turnaround 52 61", GRACES}};

/* Of the feet: the same strokes of the same foot, but for how loud. */
static const Allowed allowed_accents[] = {{"feet 321 332", METER},
                                          {"feet 41 45", SINGLES},
                                          {"feet 50 56 253 259 261 300 301 302", SINGLES},
                                          {"feet 152 154", SINGLES},
                                          {"feet 454 465 467", ACCENTS}};
enum {
    ALLOWED = sizeof allowed / sizeof *allowed,
    ALLOWED_ACCENTS = sizeof allowed_accents / sizeof *allowed_accents
};

static Bank* bank;

/* Every group of a kind is on the list; marks which rows of it were seen. */
static void check_kind(const FigureKind kind, const Sameness sameness, const Allowed* const rows,
                       const size_t count, bool* const seen)
{
    const Library* const library = bank_library(bank);
    for (uint32_t i = 0; i < library->figure_counts[kind]; ++i) {
        const char* const group = group_of(library, kind, i, sameness);
        bool found = !*group;
        for (size_t row = 0; row < count; ++row) {
            if (!strcmp(group, rows[row].group)) {
                found = seen[row] = true;
                CHECK(*rows[row].reason);
            }
        }
        check_case("say why, or keep one");
        CHECK_TEXT(found ? "" : group, "");
    }
}

static void check_seen(const Allowed* const rows, const size_t count, const bool* const seen)
{
    for (size_t row = 0; row < count; ++row) {
        check_case("%s is no group any more: take it off the list", rows[row].group);
        CHECK(seen[row]);
    }
}

static void the_same_strokes_have_two_names_only_for_a_reason(void)
{
    bool seen[ALLOWED] = {false};
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        check_kind((FigureKind)kind, BY_SOUND, allowed, ALLOWED, seen);
    }
    check_seen(allowed, ALLOWED, seen);
}

static void feet_that_differ_in_accents_alone_are_about_accents(void)
{
    bool seen[ALLOWED_ACCENTS] = {false};
    check_kind(FIGURE_FEET, BY_LIMB, allowed_accents, ALLOWED_ACCENTS, seen);
    check_seen(allowed_accents, ALLOWED_ACCENTS, seen);
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
    CHECK(alike(&a, &b, BY_SOUND) && alike(&b, &a, BY_SOUND) && alike(&a, &a, BY_SOUND));
    CHECK(!alike(&a, &c, BY_SOUND) && !alike(&b, &c, BY_SOUND));
    CHECK(!alike(&a, &less, BY_SOUND) && !alike(&less, &b, BY_SOUND));
    CHECK(!alike(&a, &odd, BY_SOUND));
    CHECK(alike(&in_two, &in_three, BY_SOUND) && alike(&in_three, &in_two, BY_SOUND));
    CHECK(!alike(&in_two, &in_three, BY_LIMB) && alike(&in_two, &in_two, BY_LIMB));
}

int main(void)
{
    bank = factory_open();
    RUN(doubles_are_found_and_others_are_none);
    RUN(feet_that_differ_in_accents_alone_are_about_accents);
    RUN(the_same_strokes_have_two_names_only_for_a_reason);
    bank_free(bank);
    return tests_end();
}
