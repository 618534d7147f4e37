// SPDX-License-Identifier: ISC
/* What is found, and in which order: the rule is ui/find/match.h's own.  Strokes a second are
   counted anew here, stroke by stroke; what a tuplet is, is arithmetic. */
#include "../../ui/find/found.h"
#include "../bank/factory.h"
#include "../help/check.h"

#include <math.h>

#define Q TICKS_PER_QUARTER

static Playability room;

static Wish wished(const char* const typed)
{
    Wish wish = {.word_count = 0};
    wish_read(&wish, typed);
    return wish;
}

/* Ids in the order in which they are found, with spaces between. */
static const char* order_of(const char* const typed, const AskedEntry* const entries,
                            const int count)
{
    static char order[256];
    Match matches[32];
    const Wish wish = wished(typed);
    const FoundIn in = {entries, count, 0.0, &room};
    const int found = found_list(&wish, &in, matches);
    check_case("typed: %s", typed);
    *order = '\0';
    for (int i = 0; i < found; ++i) {
        const size_t length = strlen(order);
        snprintf(order + length, sizeof order - length, "%s%d", i ? " " : "", (int)matches[i].id);
    }
    return order;
}

#define TEXTS(number, name, group, said)                                                           \
    {                                                                                              \
        .kind = ENTRY_FEET, .id = (number), .label = (name), .family = (group), .comment = (said)  \
    }

/* Ids against the order in which they must come. */
static void a_word_counts_where_it_stands(void)
{
    static const AskedEntry entries[] = {TEXTS(1, "Run", "", "Like a gallop."),
                                         TEXTS(2, "Run", "gallop", ""),
                                         TEXTS(3, "A megallop", "", ""),
                                         TEXTS(4, "Three galloping", "", ""),
                                         TEXTS(5, "Long gallop", "", ""),
                                         TEXTS(6, "Gallop", "", ""),
                                         TEXTS(7, "Run", "", "Not a megallop."),
                                         TEXTS(8, "Run", "", ""),
                                         TEXTS(9, "Gallop, left foot leads", "", "")};
    CHECK_TEXT(order_of("gallop", entries, 9), "6 5 9 4 3 2 1");
    CHECK_TEXT(order_of("GALLOP long", entries, 9), "5");
    CHECK_TEXT(order_of("long gallop", entries, 9), "5");
    CHECK_TEXT(order_of("gallop run", entries, 9), "2 1");
}

static void of_the_same_weakest_word_the_others_decide(void)
{
    static const AskedEntry entries[] = {TEXTS(1, "Run", "", "A double gallop."),
                                         TEXTS(2, "Doubles", "", "A gallop."),
                                         TEXTS(3, "Double", "", "A gallop.")};
    CHECK_TEXT(order_of("double gallop", entries, 3), "3 2 1");
}

static void then_the_tempo_and_then_the_id(void)
{
    static const AskedEntry entries[] = {
        {.label = "Run", .family = "", .comment = "", .id = 1},
        {.label = "Run", .family = "", .comment = "", .id = 2, .tempo_low = 60, .tempo_high = 90},
        {.label = "Run", .family = "", .comment = "", .id = 3, .tempo_low = 200, .tempo_high = 300},
        {.label = "Run", .family = "", .comment = "", .id = 4, .tempo_low = 60, .tempo_high = 170},
        {.label = "Run", .family = "", .comment = "", .id = 9, .tempo_low = 180, .tempo_high = 200},
        {.label = "Run", .family = "", .comment = "", .id = 6, .tempo_low = 60, .tempo_high = 180}};
    CHECK_TEXT(order_of("at 180", entries, 6), "6 9 4 3 2 1");
    CHECK_TEXT(order_of("run at 180", entries, 6), "6 9 4 3 2 1");
    CHECK_TEXT(order_of("run", entries, 6), "1 2 3 4 6 9");
}

/* Without words or a tempo nothing is nearer than other: families stay together. */
static void what_ranks_nothing_leaves_the_order(void)
{
    static const AskedEntry entries[] = {TEXTS(5, "A", "", ""), TEXTS(2, "B", "", ""),
                                         TEXTS(9, "C", "", "")};
    CHECK_TEXT(order_of("", entries, 3), "5 2 9");
}

/* One kick at so many steps of so many in `over` quarters. */
static bool is_on(const WishGrid grid, const int64_t step)
{
    static const Stroke kick = {.limb = RIGHT_FOOT, .voice = VOICE_KICK, .level = LEVEL_NORMAL};
    const Figure figure = {.id = 1,
                           .kind = FIGURE_FEET,
                           .cycle_ticks = 16 * Q,
                           .step_ticks = step,
                           .stroke_count = 1,
                           .strokes = &kick};
    const AskedEntry entry = {.kind = ENTRY_FEET, .figure = &figure};
    return asked_grid(&entry, grid);
}

static void grids_are_steps_in_a_quarter_or_tuplets_of_more(void)
{
    CHECK(is_on(WISH_QUARTERS, Q) && !is_on(WISH_QUARTERS, 2 * Q));
    CHECK(is_on(WISH_EIGHTHS, Q / 2) && !is_on(WISH_EIGHTHS, Q / 4));
    CHECK(is_on(WISH_SIXTEENTHS, Q / 4) && !is_on(WISH_SIXTEENTHS, Q / 2));
    CHECK(is_on(WISH_TRIPLETS, Q / 3) && is_on(WISH_TRIPLETS, 2 * Q / 3));
    CHECK(!is_on(WISH_TRIPLETS, Q / 6) && is_on(WISH_SEXTUPLETS, Q / 6));
    CHECK(!is_on(WISH_SEXTUPLETS, Q / 3)); /* six in two: as many as three in one */
    CHECK(is_on(WISH_QUINTUPLETS, Q / 5) && is_on(WISH_QUINTUPLETS, 4 * Q / 5));
    CHECK(is_on(WISH_SEPTUPLETS, Q / 7) && is_on(WISH_SEPTUPLETS, 4 * Q / 7));
    CHECK(is_on(WISH_THIRTY_SECONDS, Q / 8) && !is_on(WISH_SHUFFLE, Q / 3));
}

/* A shuffle is a triplet without its middle (common practice, no source): in the factory's bank
   feet:shuffle-doubles are, full triplets (feet:triplets) aren't. */
static void a_shuffle_is_thirds_without_the_middle_one_or_a_groove_that_swings(void)
{
    static const Stroke strokes[] = {{0, RIGHT_FOOT, VOICE_KICK, LEVEL_NORMAL, true},
                                     {2 * Q / 3, LEFT_FOOT, VOICE_KICK, LEVEL_NORMAL, true}};
    static const Stroke full[] = {{0, RIGHT_FOOT, VOICE_KICK, LEVEL_NORMAL, true},
                                  {Q / 3, LEFT_FOOT, VOICE_KICK, LEVEL_NORMAL, true},
                                  {2 * Q / 3, RIGHT_FOOT, VOICE_KICK, LEVEL_NORMAL, true}};
    Figure figure = {
        .id = 1, .cycle_ticks = Q, .step_ticks = Q / 3, .stroke_count = 2, .strokes = strokes};
    AskedEntry entry = {.kind = ENTRY_FEET, .figure = &figure};
    CHECK(asked_grid(&entry, WISH_SHUFFLE));
    figure.strokes = full;
    figure.stroke_count = 3;
    CHECK(!asked_grid(&entry, WISH_SHUFFLE));
    Groove groove = {.id = 1, .meter = {4.0, 4}, .feel = {.swing_ratio = 1.5}};
    entry = (AskedEntry){.kind = ENTRY_GROOVE, .groove = &groove};
    CHECK(asked_grid(&entry, WISH_SHUFFLE) && !asked_grid(&entry, WISH_TRIPLETS));
    groove.feel.swing_ratio = (double)NAN;
    CHECK(!asked_grid(&entry, WISH_SHUFFLE));
}

/* ---- Strokes a second, in the factory's bank */

/* Strokes of a limb, laid end to end, that stand within a second from each of them on. */
static int busiest(const Figure* const figure, const uint8_t limb, const double tempo)
{
    const double second = tempo / 60.0 * (double)Q;
    int most = 0;
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        int count = 0;
        for (int64_t turn = 0; (double)turn < second + (double)figure->cycle_ticks;
             turn += figure->cycle_ticks) {
            for (uint32_t j = 0; j < figure->stroke_count; ++j) {
                const Stroke stroke = figure->strokes[j];
                const double after = (double)(stroke.tick + turn - figure->strokes[i].tick);
                const bool again = j && figure->strokes[j - 1].tick == stroke.tick &&
                                   figure->strokes[j - 1].limb == limb;
                count += stroke.limb == limb && !again && after >= 0.0 && after < second;
            }
        }
        most = figure->strokes[i].limb == limb && count > most ? count : most;
    }
    return most;
}

static AskedEntry factory_entry(const Bank* const bank, const EntryKind kind, const uint32_t index)
{
    const EntryInfo* const info = bank_entry(bank, kind, index);
    return (AskedEntry){.kind = kind,
                        .id = (int32_t)info->id,
                        .label = info->label,
                        .family = info->family,
                        .comment = info->comment,
                        .tempo_low = info->tempo_low,
                        .tempo_high = info->tempo_high,
                        .figure = factory_figure(bank, kind, index)};
}

/* Tempi at which no stroke comes a whole second after another. */
static void a_limit_lets_through_what_a_count_does(void)
{
    static const double tempi[] = {71.3, 133.7, 181.9};
    Bank* const bank = factory_open();
    int kept = 0, out = 0;
    for (int kind = ENTRY_HANDS; kind <= ENTRY_FEET; ++kind) {
        const uint8_t right = kind == ENTRY_HANDS ? RIGHT_HAND : RIGHT_FOOT;
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            const AskedEntry entry = factory_entry(bank, (EntryKind)kind, i);
            Wish wish = {.tempo = tempi[i % 3], .limit = 4.0, .limited = true};
            const int a = busiest(entry.figure, right, wish.tempo);
            const int b = busiest(entry.figure, (uint8_t)(right + 1), wish.tempo);
            const AskedRates rates = asked_rates(&entry, wish.tempo, &room);
            const bool wanted = a <= 4 && b <= 4;
            check_case("%s at %g", entry.label, wish.tempo);
            CHECK_NEAR(rates.right, a, 0.0);
            CHECK_NEAR(rates.left, b, 0.0);
            CHECK_INT(match_entry(&wish, &entry, 0.0, &room).found, wanted);
            kept += wanted;
            out += !wanted;
        }
    }
    check_case("%d and %d", kept, out);
    CHECK(kept > 100 && out > 100);
    bank_free(bank);
}

/* Sixteenths at 180 are twelve a second, six of each foot (arithmetic). */
static void the_tempo_is_the_wishes_then_the_callers_then_its_own(void)
{
    Bank* const bank = factory_open();
    AskedEntry entry = factory_entry(bank, ENTRY_FEET, 0);
    for (uint32_t i = 0; entry.id != 50; ++i) {
        entry = factory_entry(bank, ENTRY_FEET, i);
    }
    Wish wish = wished("limit 6 at 180");
    CHECK(match_entry(&wish, &entry, 240.0, &room).found);
    wish = wished("under 6 at 180");
    CHECK(!match_entry(&wish, &entry, 60.0, &room).found);
    wish = wished("limit 6");
    CHECK(match_entry(&wish, &entry, 180.0, &room).found);
    CHECK(!match_entry(&wish, &entry, 240.0, &room).found);
    entry.tempo_low = 160;
    entry.tempo_high = 360; /* whose geometric middle is 240 */
    CHECK_NEAR(match_tempo(&wish, &entry, 0.0), 240.0, 1e-9);
    bank_free(bank);
}

static void what_has_no_strokes_is_within_no_limit(void)
{
    const AskedEntry kit = {.kind = ENTRY_KIT, .label = "Kit", .family = "", .comment = ""};
    Wish wish = wished("limit 40");
    CHECK(!match_entry(&wish, &kit, 120.0, &room).found);
    wish = wished("kit");
    CHECK(match_entry(&wish, &kit, 120.0, &room).found);
}

static void nothing_found_says_what_to_leave_out(void)
{
    static const AskedEntry entries[] = {TEXTS(1, "Long gallop", "", ""),
                                         TEXTS(2, "Long run", "", ""), TEXTS(3, "Run", "", "")};
    const FoundIn in = {entries, 3, 120.0, &room};
    char said[WISH_SAID_ROOM];
    Wish wish = wished("gallop run");
    found_loosen(&wish, &in, said);
    CHECK_TEXT(said, "nothing: without gallop 2, without run 1");
    wish = wished("gallop limit 7");
    found_loosen(&wish, &in, said);
    CHECK_TEXT(said, "nothing: without at most 7 a second 1");
    wish = wished("canter");
    found_loosen(&wish, &in, said);
    CHECK_TEXT(said, "nothing of 3: canter");
    wish = wished("canter trot");
    found_loosen(&wish, &in, said);
    CHECK_TEXT(said, "nothing, whichever one is left out");
}

int main(void)
{
    RUN(a_word_counts_where_it_stands);
    RUN(of_the_same_weakest_word_the_others_decide);
    RUN(then_the_tempo_and_then_the_id);
    RUN(what_ranks_nothing_leaves_the_order);
    RUN(grids_are_steps_in_a_quarter_or_tuplets_of_more);
    RUN(a_shuffle_is_thirds_without_the_middle_one_or_a_groove_that_swings);
    RUN(a_limit_lets_through_what_a_count_does);
    RUN(the_tempo_is_the_wishes_then_the_callers_then_its_own);
    RUN(what_has_no_strokes_is_within_no_limit);
    RUN(nothing_found_says_what_to_leave_out);
    return tests_end();
}
