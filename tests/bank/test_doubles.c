// SPDX-License-Identifier: ISC
/* test_doubles.c - the same strokes under two names: accents, sticking and cymbals aside, and
   the shorter repeated.  Each such group is listed with the reason for which it stands, and
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

/* Repeated: only where the one's length is so many of the other's. */
static bool alike(const Figure* const a, const Figure* const b)
{
    const bool a_is_longer = a->cycle_ticks > b->cycle_ticks;
    const Figure* const longer = a_is_longer ? a : b;
    const Figure* const shorter = a_is_longer ? b : a;
    return longer->cycle_ticks % shorter->cycle_ticks == 0 &&
           strikes_all(longer, shorter, longer->cycle_ticks) &&
           strikes_all(shorter, longer, longer->cycle_ticks);
}

/* The group that an entry begins, as "hands 1 2 7"; "" if it is alone or stands in an
   earlier one's. */
static const char* group_of(const Library* const library, const FigureKind kind,
                            const uint32_t first)
{
    static char group[GROUP_ROOM];
    const Figure* const figures = library->figures[kind];
    size_t length =
        (size_t)snprintf(group, sizeof group, "%s %u", kind_rows[kind].name, figures[first].id);
    bool any = false;
    for (uint32_t i = 0; i < library->figure_counts[kind]; ++i) {
        if (i == first || !alike(&figures[first], &figures[i])) {
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
#define STICKING "other feet, or another one first, or other accents: what is practised is which"
#define ACCENTS "the accents make another beat of it"
#define METER "of another meter, where it stands in bars, or rolls over them"

static const Allowed allowed[] = {
    {"hands 1 2 7 9 10 14 15 25 100 115", CYMBAL},
    {"hands 3 4 8 11 18 116", CYMBAL},
    {"hands 6 101", CYMBAL},
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
    {"feet 40 41 42 45 121 286 336 390 391", STICKING},
    {"feet 50 51 56 57 120 122 280 282 285 300 301 302 392", STICKING},
    {"feet 71 190 192 194", STICKING},
    {"feet 73 191", STICKING},
    {"feet 74 393", STICKING},
    {"feet 123 281", STICKING},
    {"feet 124 152 153 154", STICKING},
    {"feet 125 130 131 132 133 134 281 283 287", STICKING},
    {"feet 138 394", STICKING},
    {"feet 160 161", STICKING},
    {"feet 210 211 212 216 220", STICKING},
    {"feet 230 231", STICKING},
    {"feet 232 235", STICKING},
    {"feet 242 243", STICKING},
    {"feet 252 253 254 284 334 371", STICKING},
    {"feet 259 367", METER},
    {"feet 261 353", METER},
    {"feet 291 445", ACCENTS},
    {"feet 321 332", METER},
    {"turnaround 30 50", METER}};
enum { ALLOWED = sizeof allowed / sizeof *allowed };

static Bank* bank;

static void the_same_strokes_have_two_names_only_for_a_reason(void)
{
    const Library* const library = bank_library(bank);
    bool seen[ALLOWED] = {false};
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        for (uint32_t i = 0; i < library->figure_counts[kind]; ++i) {
            const char* const group = group_of(library, (FigureKind)kind, i);
            bool found = !*group;
            for (size_t row = 0; row < ALLOWED; ++row) {
                if (!strcmp(group, allowed[row].group)) {
                    found = seen[row] = true;
                    CHECK(*allowed[row].reason);
                }
            }
            check_case("say why, or keep one");
            CHECK_TEXT(found ? "" : group, "");
        }
    }
    for (size_t row = 0; row < ALLOWED; ++row) {
        check_case("%s is no group any more: take it off the list", allowed[row].group);
        CHECK(seen[row]);
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
    const Figure odd = figure_of(once, 2, 3 * Q);
    CHECK(alike(&a, &b) && alike(&b, &a) && alike(&a, &a));
    CHECK(!alike(&a, &c) && !alike(&b, &c));
    CHECK(!alike(&a, &less) && !alike(&less, &b));
    CHECK(!alike(&a, &odd));
}

int main(void)
{
    bank = factory_open();
    RUN(doubles_are_found_and_others_are_none);
    RUN(the_same_strokes_have_two_names_only_for_a_reason);
    bank_free(bank);
    return tests_end();
}
