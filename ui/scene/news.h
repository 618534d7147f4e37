// SPDX-License-Identifier: ISC
/* news.h - what is to be said of the groove now, in one line. */
#pragma once

#include "view.h"

enum { NEWS_ROOM = 256 };

/* The fill of the bar shown: "fill: Toms and a breath, 2 beats"; "" if it has none. */
void news_fill(const View* view, char text[NEWS_ROOM]);

/* What waits for its line; else that the groove is missing; else the fill of the bar shown; else what becomes of the groove in
   a meter that isn't its own; "" if there is nothing. */
void news_words(const View* view, char text[NEWS_ROOM]);
