// SPDX-License-Identifier: ISC
/* test_published_metal.c - grooves of metal and of odd meters play what is published of their
   kind.  Each row has what its source says, in words or counts, of one voice in one bar; what
   the source leaves open isn't looked at.  The sources are teachers' pages and an
   encyclopedia's: each is one customary form, not the only one. */
#include "../data/tsv.h"
#include "../help/check.h"
#include "factory.h"

#include <ctype.h>

static Bank* bank;

/* What a source calls by one name. */
typedef enum { KICK, SNARE, CYMBAL, FLOOR_TOM, HIGH_TOM } Sound;

static const char* const sound_words[] = {"kick", "snare", "cymbal", "floor tom", "high tom"};

static bool is_cymbal(const Voice voice)
{
    return (voice >= VOICE_HAT_CLOSED && voice <= VOICE_HAT_OPEN) || voice == VOICE_RIDE ||
           voice == VOICE_RIDE_BELL || voice == VOICE_CRASH || voice == VOICE_CRASH_2 ||
           voice == VOICE_CHINA;
}

static bool sounds(const Voice voice, const Sound sound)
{
    switch (sound) {
    case KICK:
        return voice == VOICE_KICK || voice == VOICE_KICK_LEFT;
    case SNARE:
        return voice == VOICE_SNARE;
    case CYMBAL:
        return is_cymbal(voice);
    case FLOOR_TOM:
        return voice == VOICE_TOM_FLOOR;
    case HIGH_TOM:
        return voice == VOICE_TOM_HIGH;
    }
    return false;
}

/* ---- What the sources say */

#define BLAST "Wikipedia, \"Blast beat\", section Characteristics"
#define CONSTANT "drumscore.com, \"Constant eighth note blast beat\""
#define REVERSE "drumscore.com, \"Reverse subdivided 8th note blast beat\""
#define HALF_TIME "drumscore.com, \"Groove development: extreme metal blast beat to half time\""
#define TRIPLET "drumscore.com, \"Constant triplet blast beat\""
#define ROLL "Wikipedia, \"Gravity roll\""
#define ICONIC "Pearson 2019, drumeo.com, \"5 iconic beats every metal drummer should know\""
#define SIXTEENTH_332 "drumscore.com, \"One bar 16th note 3 3 2 multi rhythmed double kick groove\""
#define DELAYED_332 "drumscore.com, \"One bar delayed 3 3 2 multi rhythmed double kick groove\""
#define FOUR_OVER_THREE "drumscore.com, \"Four sixteenth double kicks over three eighth notes\""
#define THRASH "verytime.online, \"How to play thrash metal on drums\""
#define GALLOP "drumscore.com, \"Galloping 1 + a double kick\""
#define FLOOR "drumscore.com, \"Galloping floor tom groove\""
#define SINGLES "drumscore.com, \"Sixteen beat single stroke tom orchestration groove\""
#define SEVEN_FOUR "icanplaydrums.com, \"7/4 beats\""
#define AKSAK "Wikipedia (fr), \"Aksak\""
#define JURJUNA "adufes.com 2021, \"Jurjuna\""
#define DANCES "eliznik.org.uk, \"Bulgarian dance rhythms\""
#define FOUR_SEVEN "drumscore.com, \"Groove development: 4/4 to 7/8\""
#define SIX_SIXTEENTHS "drumscore.com, \"7/8 groove construction: six sixteenth note double kick\""

/* R, L: that hand or foot, x: either, a dot: none, ?: left open by the source. */
typedef struct {
    uint32_t groove;
    char letter;
    int bar; /* of the part, from 0 */
    int grid;
    Sound sound;
    const char* steps;
    const char* source;
} Row;

static const Row rows[] = {
    /* Single strokes between cymbal and snare, the kick with the cymbal. */
    {230, 'A', 0, 4, CYMBAL, "R.R. R.R. R.R. R.R.", BLAST},
    {230, 'A', 0, 4, SNARE, ".L.L .L.L .L.L .L.L", BLAST},
    {230, 'A', 0, 4, KICK, "x.x. x.x. x.x. x.x.", BLAST},
    /* Sixteenths of one hand on the snare, eighths of the other on the hats, the feet match. */
    {231, 'A', 0, 4, SNARE, "LLLL LLLL LLLL LLLL", ROLL},
    {231, 'A', 0, 2, CYMBAL, "RR RR RR RR", ROLL},
    {231, 'A', 0, 4, KICK, "xxxx xxxx xxxx xxxx", ROLL},
    /* A quarter first; then snares on e and a over a running kick; the second bar half-time. */
    {232, 'A', 0, 4, KICK, "x... xxxx xxxx xxxx", HALF_TIME},
    {232, 'A', 0, 4, SNARE, "???? .x.x .x.x .x.x", HALF_TIME},
    {232, 'A', 1, 1, SNARE, "..x.", HALF_TIME},
    /* Snare, kick and cymbal in triplets, the feet by turns; then the ride in quarters. */
    {233, 'A', 0, 3, SNARE, "xxx xxx xxx xxx", TRIPLET},
    {233, 'A', 0, 3, CYMBAL, "xxx xxx xxx xxx", TRIPLET},
    {233, 'A', 0, 3, KICK, "RLR LRL RLR LRL", TRIPLET},
    {233, 'B', 0, 1, CYMBAL, "xxxx", TRIPLET},
    {233, 'B', 0, 3, SNARE, "xxx xxx xxx xxx", TRIPLET},
    /* Both hands on the eighths, kicks on e and a. */
    {237, 'A', 0, 2, SNARE, "xx xx xx xx", REVERSE},
    {237, 'A', 0, 2, CYMBAL, "xx xx xx xx", REVERSE},
    {237, 'A', 0, 4, KICK, ".x.x .x.x .x.x .x.x", REVERSE},
    /* All together in eighths, on two feet; the right hand in quarters; and the hands together
       over sixteenths of the feet. */
    {238, 'A', 0, 2, SNARE, "xx xx xx xx", CONSTANT},
    {238, 'A', 0, 2, CYMBAL, "xx xx xx xx", CONSTANT},
    {238, 'A', 0, 2, KICK, "RL RL RL RL", CONSTANT},
    {238, 'B', 0, 1, CYMBAL, "xxxx", CONSTANT},
    {238, 'B', 0, 2, SNARE, "xx xx xx xx", CONSTANT},
    {238, 'C', 0, 2, SNARE, "xx xx xx xx", ICONIC},
    {238, 'C', 0, 2, CYMBAL, "xx xx xx xx", ICONIC},
    {238, 'C', 0, 4, KICK, "xxxx xxxx xxxx xxxx", ICONIC},
    /* Four sixteenths and an eighth of rest, each four begun by the right foot, half-time. */
    {239, 'A', 0, 4, KICK, "RLRL ..RL RL.. RLRL", FOUR_OVER_THREE},
    {239, 'A', 0, 1, SNARE, "..x.", FOUR_OVER_THREE},
    /* Snares in sixteenths of three, three and two, twice, over a ride in eighths and the
       double kick in sixteenths. */
    {243, 'A', 0, 4, SNARE, "L..L ..L. L..L ..L.", SIXTEENTH_332},
    {243, 'A', 0, 2, CYMBAL, "RR RR RR RR", SIXTEENTH_332},
    {243, 'A', 0, 4, KICK, "RLRL RLRL RLRL RLRL", SIXTEENTH_332},
    /* Three, three and two eighths, an eighth late. */
    {244, 'A', 0, 2, SNARE, ".x .. x. .x", DELAYED_332},
    {244, 'A', 0, 4, KICK, "RLRL RLRL RLRL RLRL", DELAYED_332},
    /* Two eighths of the kick on one and three, snare on two and four, hats in eighths. */
    {251, 'A', 0, 2, KICK, "xx .. xx ..", THRASH},
    {251, 'A', 0, 1, SNARE, ".x.x", THRASH},
    {251, 'A', 0, 2, CYMBAL, "xx xx xx xx", THRASH},
    /* Sixteenths without their e's, right, right, left; common time with eighths, half-time
       with quarters, double-time with eighths of the right hand. */
    {255, 'A', 0, 4, KICK, "R.RL R.RL R.RL R.RL", GALLOP},
    {255, 'A', 0, 1, SNARE, ".x.x", GALLOP},
    {255, 'A', 0, 2, CYMBAL, "RR RR RR RR", GALLOP},
    {255, 'B', 0, 1, SNARE, "..x.", GALLOP},
    {255, 'B', 0, 1, CYMBAL, "RRRR", GALLOP},
    {255, 'C', 0, 2, SNARE, ".x .x .x .x", GALLOP},
    {255, 'C', 0, 2, CYMBAL, "RR RR RR RR", GALLOP},
    /* The same rhythm on the floor tom, a double of the right before each snare of the left. */
    {258, 'A', 0, 4, FLOOR_TOM, "x.RR ..xx x.RR ..xx", FLOOR},
    {258, 'A', 0, 4, SNARE, ".... L... .... L...", FLOOR},
    {258, 'A', 0, 1, KICK, "xxxx", FLOOR},
    {258, 'B', 0, 4, FLOOR_TOM, "x.xx x.RR ..xx x.xx", FLOOR},
    {258, 'B', 0, 1, SNARE, "..L.", FLOOR},
    /* Single strokes, floor tom right, high tom left, snares of the right on two and four. */
    {259, 'A', 0, 4, FLOOR_TOM, "R.R. ..R. R.R. ..R.", SINGLES},
    {259, 'A', 0, 4, HIGH_TOM, ".L.L .L.L .L.L .L.L", SINGLES},
    {259, 'A', 0, 1, SNARE, ".R.R", SINGLES},
    /* The snare twice, on the last two beats. */
    {269, 'A', 0, 1, SNARE, "?????xx", SEVEN_FOUR},
    /* The heads of the groups. */
    {271, 'A', 0, 2, CYMBAL, "x. x. x. x..", AKSAK},
    {272, 'A', 0, 2, CYMBAL, "x?? x? x? x?", AKSAK},
    {274, 'A', 0, 2, CYMBAL, "x.. x. x. x..", JURJUNA},
    {274, 'A', 0, 2, KICK, "x.. x. x. x..", JURJUNA},
    {275, 'A', 0, 4, KICK, "x... x... x... x... x...??", AKSAK},
    {276, 'A', 0, 2, CYMBAL, "x. x. x. x. x. x..", AKSAK},
    {276, 'A', 0, 2, KICK, "x. x. x. x. x. x..", AKSAK},
    {278, 'A', 0, 2, CYMBAL, "x. x. x. x. x.. x. x.", AKSAK},
    {281, 'A', 0, 4, CYMBAL, "x. x. x..", DANCES},
    /* 4/4 and the same less an eighth, counted on in quarters; sixteenths added on the a of two
       and of three in both, in the first also on the e and the a of four. */
    {279, 'A', 0, 4, KICK, "?... ...x ?..x .x.x ?... ...x ?..x ..", FOUR_SEVEN},
    {279, 'A', 0, 2, CYMBAL, "xx xx xx xx xx xx xx x", FOUR_SEVEN},
    /* Three eighths at the bar's beginning, doubled by the left foot. */
    {282, 'A', 0, 4, KICK, "RLRLRL ?? ?? ?? ??", SIX_SIXTEENTHS},
    {282, 'B', 0, 4, KICK, "?? ?? ?? ?? RLRLRL", SIX_SIXTEENTHS},
};
enum { ROWS = sizeof rows / sizeof *rows };

/* ---- What is played */

static const Groove* groove_of(const uint32_t id)
{
    const Library* const library = bank_library(bank);
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        if (library->grooves[i].id == id) {
            return &library->grooves[i];
        }
    }
    printf("# groove %u is not in the bank\n", id);
    exit(2);
}

/* A bar of one part as if the phrase had no other. */
static const StrokeList* bar_of(const Groove* const groove, const char letter, const int bar)
{
    static StrokeList list;
    Groove alone = plain_groove(NULL, NULL);
    alone.parts[0] = groove->parts[letter - 'A'];
    alone.meter = groove->meter;
    const Selection selection = plain_choice(&alone, 64);
    const int64_t ticks = meter_bar_ticks(groove->meter);
    groove_strokes(&selection, groove->meter, bar * ticks, (bar + 1) * ticks, &list);
    for (uint32_t i = 0; i < list.count; ++i) {
        list.strokes[i].tick -= bar * ticks;
    }
    return &list;
}

/* Which limb has a sound at a tick, R or L; a dot if none, 2 if both. */
static char played_at(const StrokeList* const list, const int64_t tick, const Sound sound)
{
    char limb = '.';
    for (uint32_t i = 0; i < list->count; ++i) {
        if (list->strokes[i].tick == tick && sounds((Voice)list->strokes[i].voice, sound)) {
            limb = limb == '.' ? sticking_letter(list->strokes[i].limb) : '2';
        }
    }
    return limb;
}

static bool agrees(const char said, const char played)
{
    return said == '?' || said == played || (said == 'x' && (played == 'R' || played == 'L'));
}

static bool is_between(const StrokeList* const list, const int64_t step, const Sound sound)
{
    for (uint32_t i = 0; i < list->count; ++i) {
        if (list->strokes[i].tick % step && sounds((Voice)list->strokes[i].voice, sound)) {
            return true;
        }
    }
    return false;
}

/* "" or what differs: "the cymbal at step 3 is R, not ." */
static const char* difference(const StrokeList* const list, const int64_t bar_ticks,
                              const Row* const row)
{
    static char text[96];
    const int64_t step = TICKS_PER_QUARTER / row->grid;
    int64_t tick = 0;
    for (const char* said = row->steps; *said; ++said) {
        const char played = played_at(list, tick, row->sound);
        if (*said != ' ' && !agrees(*said, played)) {
            snprintf(text, sizeof text, "the %s at step %d is %c, not %c", sound_words[row->sound],
                     (int)(tick / step), played, *said);
            return text;
        }
        tick += *said == ' ' ? 0 : step;
    }
    if (tick != bar_ticks) {
        return "the row isn't a bar long";
    }
    return is_between(list, step, row->sound) ? "there are strokes between the steps" : "";
}

static void grooves_play_what_their_sources_say(void)
{
    for (size_t i = 0; i < ROWS; ++i) {
        const Groove* const groove = groove_of(rows[i].groove);
        check_case("groove %u %c, %s", rows[i].groove, rows[i].letter, rows[i].source);
        CHECK_TEXT(difference(bar_of(groove, rows[i].letter, rows[i].bar),
                              meter_bar_ticks(groove->meter), &rows[i]),
                   "");
    }
}

/* drumlessons.com, "Heavy metal blast beats": skank beats are slower traditional blasts. */
static void the_blast_is_the_skank_twice_as_fast(void)
{
    const Groove* const groove = groove_of(234);
    const StrokeList skank = *bar_of(groove, 'A', 0);
    const StrokeList* const blast = bar_of(groove, 'A', 1);
    CHECK_INT(blast->count, 2 * skank.count);
    for (uint32_t i = 0; i < skank.count && i < blast->count; ++i) {
        CHECK_INT(2 * blast->strokes[i].tick, skank.strokes[i].tick);
        CHECK_INT(blast->strokes[i].voice, skank.strokes[i].voice);
        CHECK_INT(blast->strokes[i].limb, skank.strokes[i].limb);
    }
}

/* ---- Cycles over the bar */

static bool same_bars(const Groove* const groove, const char letter, const int bar)
{
    const StrokeList first = *bar_of(groove, letter, 0);
    const StrokeList* const later = bar_of(groove, letter, bar);
    bool same = first.count == later->count;
    for (uint32_t i = 0; same && i < first.count; ++i) {
        same = first.strokes[i].tick == later->strokes[i].tick &&
               first.strokes[i].limb == later->strokes[i].limb;
    }
    return same;
}

static int bars_until_same(const Groove* const groove, const char letter)
{
    int bar = 1;
    while (bar < 60 && !same_bars(groove, letter, bar)) {
        ++bar;
    }
    return bar;
}

/* The bars of data/polymeter-realignment.tsv; 0 if it has no such row. */
static int bars_by_arithmetic(const int bar_units, const int figure_units)
{
    int bars = 0;
    Tsv table = tsv_open("polymeter-realignment.tsv");
    while (tsv_next(&table)) {
        if ((int)tsv_number(&table, 0) == bar_units && (int)tsv_number(&table, 1) == figure_units) {
            bars = (int)tsv_number(&table, 3);
        }
    }
    return bars;
}

/* Three beats against four come round after three bars also by modernmetalacademy.com,
   "Cheating the polymeter", where the fourth bar is filled otherwise. */
static void cycles_meet_the_bar_line_when_arithmetic_says(void)
{
    static const struct {
        uint32_t groove;
        char letter;
        int bar_units, figure_units; /* sixteenths */
    } cycles[] = {{239, 'A', 16, 6},
                  {240, 'A', 16, 12},
                  {241, 'A', 16, 10},
                  {268, 'A', 20, 3},
                  {270, 'B', 28, 8}};
    for (size_t i = 0; i < sizeof cycles / sizeof *cycles; ++i) {
        check_case("groove %u", cycles[i].groove);
        const int bars = bars_by_arithmetic(cycles[i].bar_units, cycles[i].figure_units);
        CHECK(bars > 1);
        CHECK_INT(bars_until_same(groove_of(cycles[i].groove), cycles[i].letter), bars);
    }
}

/* ---- The reader, before what is wrong */

static void a_stroke_too_many_too_few_or_of_another_limb_is_found(void)
{
    static StrokeList list = {
        .count = 2,
        .strokes = {{0, RIGHT_FOOT, VOICE_KICK, LEVEL_NORMAL, true},
                    {TICKS_PER_QUARTER, LEFT_FOOT, VOICE_KICK, LEVEL_NORMAL, true}}};
    static const char* const cases[][2] = {
        {"RL", ""},
        {"xx", ""},
        {"x?", ""},
        {"R.", "the kick at step 1 is L, not ."},
        {"LL", "the kick at step 0 is R, not L"},
        {"RL.", "the row isn't a bar long"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; ++i) {
        const Row row = {1, 'A', 0, 1, KICK, cases[i][0], ""};
        check_case("%s", cases[i][0]);
        CHECK_TEXT(difference(&list, 2 * TICKS_PER_QUARTER, &row), cases[i][1]);
    }
    list.strokes[1].tick = TICKS_PER_QUARTER / 2;
    CHECK_TEXT(difference(&list, 2 * TICKS_PER_QUARTER, &(Row){1, 'A', 0, 1, KICK, "R.", ""}),
               "there are strokes between the steps");
    CHECK_TEXT(difference(&list, 2 * TICKS_PER_QUARTER, &(Row){1, 'A', 0, 1, SNARE, "..", ""}), "");
}

int main(void)
{
    bank = factory_open();
    RUN(a_stroke_too_many_too_few_or_of_another_limb_is_found);
    RUN(grooves_play_what_their_sources_say);
    RUN(the_blast_is_the_skank_twice_as_fast);
    RUN(cycles_meet_the_bar_line_when_arithmetic_says);
    bank_free(bank);
    return tests_end();
}
