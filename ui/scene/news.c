// SPDX-License-Identifier: ISC
#include "news.h"

#include "coming.h"
#include "signature.h"
#include "words.h"

#include <stdio.h>

void news_fill(const View* const view, char text[NEWS_ROOM])
{
    char beats[SIGNATURE_ROOM];
    const SeenBar* const bar = view_bar(view, view_shown(view));
    const Entry* const fill =
        bar && bar->fill ? view_entry(view, ENTRY_TURNAROUND, (int32_t)bar->fill) : NULL;
    *text = '\0';
    if (fill) {
        words_fill(beats, sizeof beats, bar->fill_begin, bar->fill_end, bar->meter);
        snprintf(text, NEWS_ROOM, "fill: %s%s", fill->label, beats + sizeof "fill" - 1);
    }
}

void news_words(const View* const view, char text[NEWS_ROOM])
{
    Coming coming;
    char words[COMING_ROOM];
    char place[COMING_ROOM];
    if (coming_of(view, &coming)) {
        coming_words(&coming, words);
        coming_place(&coming, place);
        snprintf(text, NEWS_ROOM, "%.160s%.80s", words, place);
        return;
    }
    const int32_t asked = (int32_t)view->values[CONTROL_GROOVE];
    if (view->has_place && !view_entry(view, ENTRY_GROOVE, asked)) {
        snprintf(text, NEWS_ROOM, "%d is missing: %s", (int)asked, kind_rows[ENTRY_GROOVE].instead);
        return;
    }
    news_fill(view, text);
    if (!*text) {
        signature_mismatch(view, text);
    }
}
