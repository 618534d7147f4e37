// SPDX-License-Identifier: ISC
#include "target_choice.h"

#include "dial.h"

#include <string.h>

int target_choice_words(const Control control)
{
    return (int)(control_rows[control].most - control_rows[control].least) + 1;
}

/* Words are as wide as their letters ask, roughly, so that all fit. */
double target_choice_edge(const Box box, const Control control, const int word)
{
    const Dial* const dial = dial_of(control);
    double before = 0.0;
    double all = 0.0;
    for (int i = 0; i < target_choice_words(control); ++i) {
        const double wide = 2.4 + (double)strlen(dial->words[i]);
        before += i < word ? wide : 0.0;
        all += wide;
    }
    return box.x + box.width * before / all;
}

int target_choice_at(const Target* const target, const Control control, const double x)
{
    int word = 0;
    while (word + 1 < target_choice_words(control) &&
           x >= target_choice_edge(target->box, control, word + 1)) {
        ++word;
    }
    return word;
}
