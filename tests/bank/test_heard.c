// SPDX-License-Identifier: ISC
/* test_heard.c - what grooves are made of is heard, and can be played: no part stands only
   where a fill takes its place, or sounds as another would there, and the hat is not open and
   closed at once. */
#include "../help/check.h"
#include "factory.h"

/* ---- Parts */

enum { STROKES_ROOM = 4096 };

/* A phrase's strokes, as the engine plays them: it alone knows where a fill takes over. */
typedef struct {
    Stroke strokes[STROKES_ROOM];
    uint32_t count;
} Heard;

static void listen_to(const Groove* const groove, Heard* const heard)
{
    static StrokeList list;
    const Selection selection = plain_choice(groove, groove->form_bars);
    const int64_t bar = meter_bar_ticks(groove->meter);
    heard->count = 0;
    for (uint32_t at = 0; at < groove->form_bars; ++at) {
        groove_strokes(&selection, groove->meter, at * bar, (at + 1) * bar, &list);
        for (uint32_t i = 0; i < list.count && heard->count < STROKES_ROOM; ++i) {
            heard->strokes[heard->count++] = list.strokes[i];
        }
    }
}

static bool same_stroke(const Stroke a, const Stroke b)
{
    return a.tick == b.tick && a.limb == b.limb && a.voice == b.voice && a.level == b.level;
}

static bool sound_alike(const Groove* const a, const Groove* const b)
{
    static Heard of_a, of_b;
    listen_to(a, &of_a);
    listen_to(b, &of_b);
    bool alike = of_a.count == of_b.count;
    for (uint32_t i = 0; alike && i < of_a.count; ++i) {
        alike = same_stroke(of_a.strokes[i], of_b.strokes[i]);
    }
    return alike;
}

static bool is_empty(const Part part)
{
    return !part.hands && !part.feet;
}

/* True if nobody hears which of the letters is played where that one stands. */
static bool letter_is_idle(const Groove* const groove, const uint8_t letter)
{
    for (uint8_t other = 0; other < PARTS_MAX; ++other) {
        Groove changed = *groove;
        changed.parts[letter] = groove->parts[other];
        if (other != letter && !is_empty(groove->parts[other]) && sound_alike(groove, &changed)) {
            return true;
        }
    }
    Groove silent = *groove;
    silent.parts[letter] = (Part){.hands = NULL};
    return sound_alike(groove, &silent);
}

/* True if a figure may rest in all parts, and nobody hears that. */
static bool figure_is_idle(const Groove* const groove, const Figure* const figure)
{
    Groove silent = *groove;
    for (int letter = 0; letter < PARTS_MAX; ++letter) {
        Part* const part = &silent.parts[letter];
        part->hands = part->hands == figure ? NULL : part->hands;
        part->feet = part->feet == figure ? NULL : part->feet;
    }
    return figure && sound_alike(groove, &silent);
}

/* The first letter that is not heard, or of which hands or feet are not, or 0. */
static char unheard_letter(const Groove* const groove)
{
    for (uint8_t letter = 0; letter < PARTS_MAX; ++letter) {
        const Part part = groove->parts[letter];
        if (!is_empty(part) &&
            (letter_is_idle(groove, letter) || figure_is_idle(groove, part.hands) ||
             figure_is_idle(groove, part.feet))) {
            return (char)('A' + letter);
        }
    }
    return '\0';
}

static Bank* bank;

static void every_part_of_a_groove_is_heard(void)
{
    const Library* const library = bank_library(bank);
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        const char letter[] = {unheard_letter(&library->grooves[i]), '\0'};
        check_case("groove %u: part that nobody hears", library->grooves[i].id);
        CHECK_TEXT(letter, "");
    }
}

static Figure figure_of(const FigureKind kind, const Stroke* const stroke)
{
    Figure figure = {.id = 1,
                     .kind = kind,
                     .cycle_ticks = 4 * (int64_t)TICKS_PER_QUARTER,
                     .step_ticks = TICKS_PER_QUARTER,
                     .bars = 1,
                     .stroke_count = 1,
                     .strokes = stroke};
    figure_note(&figure);
    return figure;
}

static void a_part_that_nobody_hears_is_found(void)
{
    static const Stroke hat = {0, RIGHT_HAND, VOICE_HAT_CLOSED, LEVEL_ACCENT, true};
    static const Stroke bell = {0, RIGHT_HAND, VOICE_RIDE_BELL, LEVEL_ACCENT, true};
    static const Stroke kick = {0, RIGHT_FOOT, VOICE_KICK, LEVEL_ACCENT, true};
    static const Stroke late = {TICKS_PER_QUARTER, RIGHT_FOOT, VOICE_KICK, LEVEL_ACCENT, true};
    const Figure hats = figure_of(FIGURE_HANDS, &hat), bells = figure_of(FIGURE_HANDS, &bell);
    const Figure one = figure_of(FIGURE_FEET, &kick), two = figure_of(FIGURE_FEET, &late);
    const Figure hands_fill = figure_of(FIGURE_TURNAROUND, &bell);
    const Figure feet_fill = figure_of(FIGURE_TURNAROUND, &kick);
    Groove groove = plain_groove(&hats, &one);
    groove.form_bars = 2;
    groove.form[1] = 1;
    groove.parts[1] = (Part){.hands = &hats, .feet = &two};
    const char* const none = "";
    char found[2] = {0};
#define UNHEARD (found[0] = unheard_letter(&groove), found)
    CHECK_TEXT(UNHEARD, none);
    groove.turnaround = &hands_fill; /* for the hands: the feet go on */
    CHECK_TEXT(UNHEARD, none);
    groove.parts[1].hands = &bells;
    CHECK_TEXT(UNHEARD, "B");
    groove.form_bars = 3; /* a bar more, which the fill plays over in place of the second */
    CHECK_TEXT(UNHEARD, none);
    groove.form_bars = 2;
    groove.turnaround = &feet_fill; /* for both */
    groove.parts[1] = (Part){.hands = &hats, .feet = &two};
    CHECK_TEXT(UNHEARD, "B");
    groove.turnaround = NULL;
    CHECK_TEXT(UNHEARD, none);
    groove.form[1] = 0; /* a letter that the form lacks */
    CHECK_TEXT(UNHEARD, "B");
    groove.form[1] = 1;
    groove.parts[1] = groove.parts[0]; /* and one that is another's twin */
    CHECK_TEXT(UNHEARD, "A");
#undef UNHEARD
}

/* ---- The hat */

static bool is_open(const uint8_t voice)
{
    return voice == VOICE_HAT_OPEN || voice == VOICE_HAT_HALF_OPEN;
}

static bool is_shut(const uint8_t voice)
{
    return voice == VOICE_HAT_CLOSED || voice == VOICE_HAT_PEDAL;
}

/* The tick at which the hat is open and closed, or -1. */
static int64_t open_and_closed(const Stroke* const strokes, const uint32_t count)
{
    for (uint32_t a = 0; a < count; ++a) {
        for (uint32_t b = 0; b < count; ++b) {
            if (strokes[a].tick == strokes[b].tick && is_open(strokes[a].voice) &&
                is_shut(strokes[b].voice)) {
                return strokes[a].tick;
            }
        }
    }
    return -1;
}

static StrokeList list;

static void check_groove(const Groove* const groove)
{
    const Selection selection = plain_choice(groove, groove->form_bars);
    const int64_t bar = meter_bar_ticks(groove->meter);
    bool closes = false;
    for (uint32_t at = 0; at < groove->form_bars; ++at) {
        list.count = 0;
        groove_strokes(&selection, groove->meter, at * bar, (at + 1) * bar, &list);
        check_case("groove %u, bar %u", groove->id, at + 1);
        CHECK(list.count && !list.dropped);
        closes |= open_and_closed(list.strokes, list.count) >= 0;
    }
    check_case("groove %u", groove->id);
    CHECK(!closes);
}

static void nothing_opens_and_closes_the_hat_at_once(void)
{
    const Library* const library = bank_library(bank);
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        for (uint32_t i = 0; i < library->figure_counts[kind]; ++i) {
            const Figure* const figure = &library->figures[kind][i];
            check_case("%s %u", kind_rows[kind].name, figure->id);
            CHECK_INT(open_and_closed(figure->strokes, figure->stroke_count), -1);
        }
    }
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        check_groove(&library->grooves[i]);
    }
}

static void a_hat_that_is_open_and_closed_is_found(void)
{
    Stroke strokes[] = {{0, RIGHT_HAND, VOICE_HAT_CLOSED, LEVEL_ACCENT, true},
                        {TICKS_PER_QUARTER, RIGHT_HAND, VOICE_HAT_HALF_OPEN, LEVEL_ACCENT, true},
                        {TICKS_PER_QUARTER, LEFT_FOOT, VOICE_HAT_PEDAL, LEVEL_NORMAL, true}};
    CHECK_INT(open_and_closed(strokes, 3), TICKS_PER_QUARTER);
    CHECK_INT(open_and_closed(strokes, 2), -1);
    strokes[2].voice = VOICE_KICK;
    CHECK_INT(open_and_closed(strokes, 3), -1);
}

int main(void)
{
    bank = factory_open();
    RUN(a_part_that_nobody_hears_is_found);
    RUN(every_part_of_a_groove_is_heard);
    RUN(a_hat_that_is_open_and_closed_is_found);
    RUN(nothing_opens_and_closes_the_hat_at_once);
    bank_free(bank);
    return tests_end();
}
