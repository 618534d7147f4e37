// SPDX-License-Identifier: ISC
/* What is typed to look for: ui/find/wish.h says how it is read.  Case is folded by the Unicode
   Standard (3.13, default caseless matching). */
#include "../../plugin/bank/utf8.h"
#include "../../ui/find/wish.h"
#include "../help/check.h"

#include <string.h>

static Wish wish;

static const Wish* reading(const char* const typed)
{
    check_case("typed: %s", typed);
    wish = (Wish){.word_count = 0};
    wish_read(&wish, typed);
    return &wish;
}

/* The words, with a bar between them. */
static const char* words_of(const char* const typed)
{
    static char all[1024];
    reading(typed);
    *all = '\0';
    for (int i = 0; i < wish.word_count; ++i) {
        strcat(all, i ? "|" : "");
        strcat(all, wish.words[i].text);
    }
    return all;
}

static void words_limit_and_tempo_are_told_apart(void)
{
    CHECK_TEXT(words_of("triplets under 7 at 180 gallop"), "triplets|gallop");
    CHECK_INT(wish.words[0].grid, WISH_TRIPLETS);
    CHECK_INT(wish.words[1].grid, WISH_ANY_GRID);
    CHECK(wish.limited);
    CHECK_NEAR(wish.limit, 6.0, 0.0);
    CHECK_NEAR(wish.tempo, 180.0, 0.0);
    CHECK_TEXT(wish.wrong, "");
}

/* Fewer than seven are six at most; a second has whole strokes. */
static void under_is_fewer_and_limit_is_as_many(void)
{
    CHECK_NEAR(reading("under 7")->limit, 6.0, 0.0);
    CHECK_NEAR(reading("limit 7")->limit, 7.0, 0.0);
    CHECK_NEAR(reading("under 6.5")->limit, 6.0, 0.0);
    CHECK_NEAR(reading("LIMIT 6.5")->limit, 6.0, 0.0);
}

static void meters_are_read_with_in_and_without(void)
{
    static const char* const typed[] = {"7/8", "in 7/8", "gallop in 7/8"};
    for (int i = 0; i < 3; ++i) {
        reading(typed[i]);
        CHECK_NEAR(wish.meter.beats_per_bar, 7.0, 0.0);
        CHECK_INT(wish.meter.beat_unit, 8);
        CHECK_INT(wish.word_count, i == 2);
    }
}

static void on_and_a_grid_keep_all_else_out(void)
{
    CHECK_INT(reading("on 16ths")->grid, WISH_SIXTEENTHS);
    CHECK_INT(wish.word_count, 0);
    CHECK_INT(reading("on Shuffle")->grid, WISH_SHUFFLE);
    CHECK_INT(reading("sixteenths")->grid, WISH_ANY_GRID);
}

static void what_only_looks_like_one_is_text(void)
{
    CHECK_TEXT(words_of("at the gate"), "at|the|gate");
    CHECK_TEXT(words_of("under the pier"), "under|the|pier");
    CHECK_TEXT(words_of("on the run"), "on|the|run");
    CHECK_TEXT(words_of("in fives"), "in|fives");
    CHECK_TEXT(words_of("7/3 4/4/4 /8 3-3-2 7"), "7/3|4/4/4|/8|3-3-2|7");
    CHECK_TEXT(words_of("under"), "under");
    CHECK_TEXT(words_of("at seven"), "at|seven");
    CHECK_TEXT(words_of("limit 7th at 0x20 at 1e2"), "limit|7th|at|0x20|at|1e2");
    CHECK(!wish.limited);
}

/* Whoever types along sees on: "gallop at 18" is on its way to "gallop at 180". */
static void a_number_that_cannot_be_is_told_and_left_out(void)
{
    static const struct {
        const char* typed;
        const char* wrong;
    } rows[] = {{"gallop at 18", "at 18"},     {"gallop at", "at "},
                {"gallop under", "under "},    {"gallop under 99", "under 99"},
                {"gallop limit 0", "limit 0"}, {"gallop at 18000", "at 18000"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        CHECK_TEXT(words_of(rows[i].typed), "gallop");
        CHECK_TEXT(wish.wrong, rows[i].wrong);
        CHECK(!wish.limited && !(wish.tempo > 0.0));
    }
    CHECK_TEXT(words_of("at 20 limit 1"), "");
    CHECK_TEXT(wish.wrong, "");
    CHECK_TEXT(words_of("at 400 limit 40"), "");
    CHECK_TEXT(wish.wrong, "");
}

static void case_is_folded_in_any_script(void)
{
    CHECK_TEXT(words_of("GaLLop"), "gallop");
    CHECK_TEXT(words_of("SALZSTRA\xC3\x9F"
                        "E"),
               "salzstrasse");
    CHECK_TEXT(words_of("\xCE\xA3\xCE\xA4\xCE\x86\xCE\xA3\xCE\x97\xCE\xA3"),
               "\xCF\x83\xCF\x84\xCE\xAC\xCF\x83\xCE\xB7\xCF\x83");
}

/* RFC 3629: no byte of a character alone. */
static void what_is_too_long_or_no_text_harms_nothing(void)
{
    char typed[2048] = "";
    CHECK_TEXT(words_of("\xC3 a\xFF"), "?|a?");
    for (int i = 0; i < 40; ++i) {
        strcat(typed, " word");
    }
    CHECK_INT(reading(typed)->word_count, WISH_WORDS_MAX);
    *typed = '\0';
    for (int i = 0; i < 100; ++i) {
        strcat(typed, "\xC3\xA4");
    }
    reading(typed);
    CHECK_INT(strlen(wish.words[0].text), WISH_WORD_ROOM - 2); /* whole ones: an even number */
    CHECK_TEXT(words_of("  \t gallop \n"), "gallop");
    CHECK(wish_is_empty(reading("   ")));
}

/* RFC 3629, found by tests/fuzz: what is said was cut within a character. */
static void what_it_says_is_cut_between_characters(void)
{
    for (int letters = 1; letters < 20; ++letters) {
        char typed[2048] = "", said[WISH_SAID_ROOM], repaired[WISH_SAID_ROOM];
        for (int i = 0; i < 9 * (letters + 1); ++i) {
            strcat(typed, i % (letters + 1) ? "\xE5\xA1\xA9" : " a"); /* salt, in three bytes */
        }
        wish_say(reading(typed), said);
        memcpy(repaired, said, sizeof repaired);
        utf8_repair(repaired);
        CHECK(strlen(said) < WISH_SAID_ROOM);
        CHECK(!strcmp(said, repaired));
    }
}

static void it_says_what_it_asks_for(void)
{
    char said[WISH_SAID_ROOM];
    wish_say(reading("Gallop on triplets 7/8 under 7 at 180"), said);
    CHECK_TEXT(said, "gallop, on triplets, in 7/8, at most 6 a second at 180");
    wish_say(reading("gallop at 92.5"), said);
    CHECK_TEXT(said, "gallop, at 92.5");
    wish_say(reading(""), said);
    CHECK_TEXT(said, "");
}

/* All but the tempo, which keeps nothing out. */
static void each_thing_can_be_left_out(void)
{
    static const char* const left[] = {"long", "gallop", "on triplets", "in 7/8",
                                       "at most 6 a second"};
    static const char* const kept[] = {"gallop, on triplets, in 7/8, at most 6 a second at 180",
                                       "long, on triplets, in 7/8, at most 6 a second at 180",
                                       "long, gallop, in 7/8, at most 6 a second at 180",
                                       "long, gallop, on triplets, at most 6 a second at 180",
                                       "long, gallop, on triplets, in 7/8, at 180"};
    char said[WISH_SAID_ROOM];
    Wish rest;
    reading("long gallop on triplets in 7/8 under 7 at 180");
    for (int i = 0; i < 5; ++i) {
        CHECK(wish_without(&wish, i, &rest, said));
        CHECK_TEXT(said, left[i]);
        wish_say(&rest, said);
        CHECK_TEXT(said, kept[i]);
    }
    CHECK(!wish_without(&wish, 5, &rest, said));
}

static void every_grid_has_its_word(void)
{
    for (int grid = WISH_ANY_GRID + 1; grid < WISH_GRID_COUNT; ++grid) {
        CHECK_INT(wish_grid(wish_grid_word((WishGrid)grid)), grid);
    }
    CHECK_INT(wish_grid("32nds"), WISH_THIRTY_SECONDS);
    CHECK_INT(wish_grid("nonsense"), WISH_ANY_GRID);
    CHECK_INT(wish_grid(""), WISH_ANY_GRID);
}

int main(void)
{
    RUN(words_limit_and_tempo_are_told_apart);
    RUN(under_is_fewer_and_limit_is_as_many);
    RUN(meters_are_read_with_in_and_without);
    RUN(on_and_a_grid_keep_all_else_out);
    RUN(what_only_looks_like_one_is_text);
    RUN(a_number_that_cannot_be_is_told_and_left_out);
    RUN(case_is_folded_in_any_script);
    RUN(what_is_too_long_or_no_text_harms_nothing);
    RUN(what_it_says_is_cut_between_characters);
    RUN(it_says_what_it_asks_for);
    RUN(each_thing_can_be_left_out);
    RUN(every_grid_has_its_word);
    return tests_end();
}
