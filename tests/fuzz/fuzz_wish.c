// SPDX-License-Identifier: ISC
/* fuzz_wish.c - whatever is typed to look for: what is read keeps the ranges of wish.h, is text,
   says itself, comes apart into as many things as it has, and matches what it names. */
#include "../../ui/find/match.h"
#include "fuzz.h"

#include <string.h>

enum { TYPED_BYTES = 4096 };

int LLVMFuzzerInitialize(int* const count, char*** const arguments)
{
    (void)count;
    (void)arguments;
    fuzz_alone();
    return 0;
}

static void check_wish(const Wish* const wish)
{
    FUZZ_WANT(wish->word_count >= 0 && wish->word_count <= WISH_WORDS_MAX);
    for (int i = 0; i < wish->word_count; ++i) {
        FUZZ_WANT(*wish->words[i].text && fuzz_is_utf8(wish->words[i].text));
        FUZZ_WANT((int)wish->words[i].grid >= 0 && wish->words[i].grid < WISH_GRID_COUNT);
    }
    FUZZ_WANT(!(wish->tempo > 0.0) || wish_has_tempo(wish->tempo));
    FUZZ_WANT(wish->limit >= 0.0 && wish->limit <= 40.0);
    FUZZ_WANT(wish->meter.beats_per_bar >= 0.0 && wish->meter.beats_per_bar <= 64.0);
    FUZZ_WANT(fuzz_is_utf8(wish->wrong));
}

/* Until nothing is left of it. */
static void check_said(const Wish* const wish)
{
    char said[WISH_SAID_ROOM];
    Wish rest;
    int things = 0;
    wish_say(wish, said);
    FUZZ_WANT(fuzz_is_utf8(said));
    FUZZ_WANT(wish_is_empty(wish) == !*said);
    while (wish_without(wish, things, &rest, said)) {
        FUZZ_WANT(*said && fuzz_is_utf8(said));
        check_wish(&rest);
        ++things;
    }
    FUZZ_WANT(things == wish->word_count + (wish->grid != WISH_ANY_GRID) +
                            (wish->meter.beats_per_bar > 0.0) + wish->limited);
}

/* An entry with its words for a name has them all there; but for letters whose folded case has
   another case (GLib 2.74 folds both cases of Cherokee into each other). */
static void check_match(const Wish* const wish)
{
    char label[WISH_WORDS_MAX * (WISH_WORD_ROOM + 1) + 1] = "";
    char again[sizeof label];
    static Playability room;
    Wish words = {.word_count = wish->word_count};
    memcpy(words.words, wish->words, sizeof words.words);
    for (int i = 0; i < wish->word_count; ++i) {
        strcat(label, wish->words[i].text);
        strcat(label, " ");
    }
    wish_fold(label, again, sizeof again);
    if (strcmp(label, again) != 0) {
        return;
    }
    const AskedEntry entry = {.label = label, .family = "", .comment = "", .kind = ENTRY_KIT};
    const Match match = match_entry(&words, &entry, 120.0, &room);
    FUZZ_WANT(match.found && match.place <= MATCH_WITHIN);
}

int LLVMFuzzerTestOneInput(const uint8_t* const bytes, const size_t size)
{
    char typed[TYPED_BYTES + 1];
    Wish wish = {.word_count = 0};
    const size_t length = size < TYPED_BYTES ? size : TYPED_BYTES;
    memcpy(typed, bytes, length);
    typed[length] = '\0';
    wish_read(&wish, typed);
    check_wish(&wish);
    check_said(&wish);
    check_match(&wish);
    return 0;
}
