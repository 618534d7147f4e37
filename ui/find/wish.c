// SPDX-License-Identifier: ISC
#include "wish.h"

#include "../../plugin/bank/utf8.h"

#include <glib.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define GRID_WORDS(NAME, word, other, steps) [WISH_##NAME] = {word, other},
static const char* const grid_words[WISH_GRID_COUNT][2] = {[WISH_ANY_GRID] = {"", ""},
                                                           WISH_GRIDS(GRID_WORDS)};
#undef GRID_WORDS

WishGrid wish_grid(const char* const word)
{
    for (int grid = WISH_ANY_GRID + 1; grid < WISH_GRID_COUNT; ++grid) {
        for (int i = 0; i < 2; ++i) {
            if (!g_ascii_strcasecmp(word, grid_words[grid][i])) {
                return (WishGrid)grid;
            }
        }
    }
    return WISH_ANY_GRID;
}

const char* wish_grid_word(const WishGrid grid)
{
    return grid_words[grid][0];
}

bool wish_has_tempo(const double tempo)
{
    return tempo >= 20.0 && tempo <= 400.0;
}

bool wish_has_limit(const double strokes)
{
    return strokes >= 1.0 && strokes <= 40.0;
}

/* Not in place: folding may lengthen it. */
void wish_fold(const char* const text, char* const folded, const size_t room)
{
    char* const whole = g_strdup(text);
    utf8_repair(whole);
    char* const wanted = g_utf8_casefold(whole, -1);
    const size_t length = utf8_cut(wanted, strlen(wanted), room - 1);
    memcpy(folded, wanted, length);
    folded[length] = '\0';
    g_free(wanted);
    g_free(whole);
}

/* ---- Words that say more than themselves */

static void note_wrong(Wish* const wish, const char* const word, const char* const number)
{
    snprintf(wish->wrong, sizeof wish->wrong, "%.20s %.20s", word, number);
}

/* All of the word, by the C locale's point. */
static bool is_number(const char* const word, double* const number)
{
    char* end = NULL;
    *number = g_ascii_strtod(word, &end);
    return g_ascii_isdigit(*word) && !*end && strspn(word, "0123456789.") == strlen(word);
}

static bool is_meter(const char* const word, Meter* const meter)
{
    char* end = NULL;
    const long beats = strtol(word, &end, 10);
    const bool slash = g_ascii_isdigit(*word) && *end == '/' && g_ascii_isdigit(end[1]);
    const long unit = slash ? strtol(end + 1, &end, 10) : 0;
    *meter = (Meter){(double)beats, (int32_t)unit};
    return slash && !*end && beats >= 1 && beats <= 64 &&
           (unit == 2 || unit == 4 || unit == 8 || unit == 16);
}

/* At `next`, the number of strokes or the tempo; "" where nothing follows yet, which is wrong
   only if there is something before it: the first word of all may be meant as one. */
static bool take_number(Wish* const wish, const char* const word, const char* const next,
                        const bool first)
{
    const bool under = !g_ascii_strcasecmp(word, "under");
    const bool is_limit = under || !g_ascii_strcasecmp(word, "limit");
    double number = 0.0;
    if ((!is_limit && g_ascii_strcasecmp(word, "at") != 0) || (first && !*next) ||
        (*next && !is_number(next, &number))) {
        return false;
    }
    if (!*next || !(is_limit ? wish_has_limit(number) : wish_has_tempo(number))) {
        note_wrong(wish, word, next);
    } else if (is_limit) { /* a busiest second has whole strokes */
        wish->limit = under ? ceil(number) - 1.0 : floor(number);
        wish->limited = true;
    } else {
        wish->tempo = number;
    }
    return true;
}

static bool take_grid(Wish* const wish, const char* const word, const char* const next)
{
    if (g_ascii_strcasecmp(word, "on") != 0 || !wish_grid(next)) {
        return false;
    }
    wish->grid = wish_grid(next);
    return true;
}

static void take_text(Wish* const wish, const char* const word)
{
    if (wish->word_count < WISH_WORDS_MAX) {
        WishWord* const to = &wish->words[wish->word_count];
        wish_fold(word, to->text, sizeof to->text);
        to->grid = wish_grid(word);
        wish->word_count += *to->text != '\0';
    }
}

/* How many of the words it took. */
static int take(Wish* const wish, const char* const word, const char* const next, const bool first)
{
    Meter meter;
    if (take_number(wish, word, next, first) || take_grid(wish, word, next)) {
        return *next ? 2 : 1;
    }
    const bool in = !g_ascii_strcasecmp(word, "in") && is_meter(next, &meter);
    if (in || is_meter(word, &meter)) {
        wish->meter = meter;
        return in ? 2 : 1;
    }
    take_text(wish, word);
    return 1;
}

void wish_read(Wish* const wish, const char* const typed)
{
    char** const words = g_strsplit_set(typed, " \t\n", -1);
    char** to = words;
    for (char** from = words; *from; ++from) { /* without the empty ones between two spaces */
        char* const word = *from;
        *from = NULL;
        if (*word) {
            *to++ = word;
        } else {
            g_free(word);
        }
    }
    for (char** at = words; *at;) {
        at += take(wish, *at, at[1] ? at[1] : "", at == words);
    }
    g_strfreev(words);
}

/* ---- What it is */

bool wish_is_empty(const Wish* const wish)
{
    return !wish->word_count && !wish->family && !wish->grid &&
           !(wish->meter.beats_per_bar > 0.0) && !wish->limited && !(wish->tempo > 0.0);
}

bool wish_ranks(const Wish* const wish)
{
    return wish->word_count || wish->tempo > 0.0;
}
