// SPDX-License-Identifier: ISC
#include "match.h"

#include "../../plugin/engine/writing/difficulty.h"

#include <glib.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { TEXT_ROOM = 1024 };

/* ---- Words */

/* Whether a letter before or behind makes a text no word of its own. */
static bool is_letter_before(const char* const text, const char* const at)
{
    const char* const before = at > text ? g_utf8_find_prev_char(text, at) : NULL;
    return before && g_unichar_isalnum(g_utf8_get_char(before));
}

static bool is_letter(const char* const at)
{
    return *at && g_unichar_isalnum(g_utf8_get_char(at));
}

/* The next character of a text that isn't at its end.  (GLib's own loses the const.) */
static const char* next_letter(const char* const at)
{
    return at + g_utf8_skip[(unsigned char)*at];
}

/* Where a word stands in a folded text: MATCH_WORD, _BEGIN, _WITHIN or _NOWHERE. */
static MatchPlace place_in(const char* const text, const char* const word)
{
    MatchPlace best = MATCH_NOWHERE;
    for (const char* at = strstr(text, word); at; at = strstr(next_letter(at), word)) {
        const bool ends = !is_letter(at + strlen(word));
        const MatchPlace place = is_letter_before(text, at) ? MATCH_WITHIN
                                 : ends                     ? MATCH_WORD
                                                            : MATCH_BEGIN;
        best = place < best ? place : best;
    }
    return best;
}

/* Words of a folded text: what has letters or figures. */
static int count_words(const char* text)
{
    int words = 0;
    for (bool within = false; *text; text = next_letter(text)) {
        const bool letter = is_letter(text);
        words += letter && !within;
        within = letter;
    }
    return words;
}

static int wish_words(const Wish* const wish)
{
    int words = 0;
    for (int i = 0; i < wish->word_count; ++i) {
        words += count_words(wish->words[i].text);
    }
    return words;
}

/* An entry's texts, folded. */
typedef struct {
    char label[TEXT_ROOM];
    char family[TEXT_ROOM];
    char comment[TEXT_ROOM];
} Folded;

static MatchPlace place_of(const WishWord* const word, const Folded* const texts,
                           const AskedEntry* const entry)
{
    const MatchPlace name = place_in(texts->label, word->text);
    return name < MATCH_NOWHERE                                  ? name
           : strstr(texts->family, word->text)                   ? MATCH_FAMILY
           : word->grid && asked_grid(entry, word->grid)         ? MATCH_GRID
           : place_in(texts->comment, word->text) < MATCH_WITHIN ? MATCH_COMMENT
                                                                 : MATCH_NOWHERE;
}

static void find_words(const Wish* const wish, const AskedEntry* const entry, Match* const match)
{
    Folded texts;
    wish_fold(entry->label, texts.label, sizeof texts.label);
    wish_fold(entry->family, texts.family, sizeof texts.family);
    wish_fold(entry->comment, texts.comment, sizeof texts.comment);
    for (int i = 0; i < wish->word_count; ++i) {
        const MatchPlace place = place_of(&wish->words[i], &texts, entry);
        match->place = place > match->place ? place : match->place;
        match->places += (int)place;
    }
    if (match->place == MATCH_WORD && count_words(texts.label) == wish_words(wish)) {
        match->place = MATCH_NAME;
    }
    match->found = match->place < MATCH_NOWHERE;
}

/* ---- Tempo */

static double off_range(const double tempo, const AskedEntry* const entry)
{
    if (!entry->tempo_low || !entry->tempo_high) {
        return HUGE_VAL;
    }
    const double below = entry->tempo_low / tempo;
    const double above = tempo / entry->tempo_high;
    return fmax(fmax(below, above), 1.0) - 1.0;
}

double match_tempo(const Wish* const wish, const AskedEntry* const entry, const double tempo)
{
    return wish->tempo > 0.0 ? wish->tempo
           : tempo > 0.0     ? tempo
           : entry->groove   ? entry->groove->tempo
                             : difficulty_tempo(entry->tempo_low, entry->tempo_high);
}

/* ---- All of it: what costs least first */

Match match_entry(const Wish* const wish, const AskedEntry* const entry, const double tempo,
                  Playability* const room)
{
    Match match = {.place = MATCH_NAME, .id = entry->id};
    const bool meant = asked_meter(entry, wish->meter) &&
                       (!wish->grid || asked_grid(entry, wish->grid)) &&
                       (!wish->family || !g_ascii_strcasecmp(wish->family, entry->family));
    match.off = wish->tempo > 0.0 ? off_range(wish->tempo, entry) : 0.0;
    if (meant) {
        find_words(wish, entry, &match);
    }
    if (match.found && wish->limited) {
        const double at = match_tempo(wish, entry, tempo);
        const AskedRates rates = asked_rates(entry, at, room);
        match.found = rates.known && fmax(rates.right, rates.left) <= wish->limit;
    }
    return match;
}

/* ---- In order */

static int compare(const double a, const double b)
{
    return (a > b) - (a < b);
}

static int compare_matches(const void* const a, const void* const b)
{
    const Match* const x = (const Match*)a;
    const Match* const y = (const Match*)b;
    const int places = compare(x->place, y->place);
    const int all = compare(x->places, y->places);
    const int off = compare(x->off, y->off);
    return places ? places : all ? all : off ? off : compare(x->id, y->id);
}

void match_sort(const Wish* const wish, Match* const matches, const int count)
{
    if (wish_ranks(wish)) {
        qsort(matches, (size_t)count, sizeof *matches, compare_matches);
    }
}

const char* match_heading(const Wish* const wish, const Match* const match)
{
    static const char* const headings[] = {[MATCH_NAME] = "the name",
                                           [MATCH_WORD] = "in the name",
                                           [MATCH_BEGIN] = "begins a word of the name",
                                           [MATCH_WITHIN] = "within the name",
                                           [MATCH_FAMILY] = "in the family",
                                           [MATCH_GRID] = "on the grid",
                                           [MATCH_COMMENT] = "in what is said of it",
                                           [MATCH_NOWHERE] = ""};
    return wish->word_count   ? headings[match->place]
           : match->off > 0.0 ? "written for other tempi"
                              : "written for this tempo";
}

bool match_same_heading(const Wish* const wish, const Match* const a, const Match* const b)
{
    return !strcmp(match_heading(wish, a), match_heading(wish, b));
}
