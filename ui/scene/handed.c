// SPDX-License-Identifier: ISC
#include "handed.h"

#include <stdio.h>
#include <string.h>

/* Right and left stand beside each other in Limb: right hand, left hand, right foot, left. */
static int other_side(const int limb)
{
    return limb ^ 1;
}

int handed_limb(const View* const view, const int limb)
{
    return view->left_handed ? other_side(limb) : limb;
}

Control handed_switch(const View* const view, const int limb)
{
    return (Control)(CONTROL_RIGHT_HAND + handed_limb(view, limb));
}

FootRate handed_rate(const View* const view, const int foot)
{
    const int own = handed_limb(view, foot);
    return (FootRate){(double)view->readouts[READOUT_RIGHT_FOOT_RATE + own],
                      (double)view->readouts[READOUT_RIGHT_FOOT_GAP + own]};
}

Control handed_name(const View* const view, const Control control)
{
    const bool is_limb = control >= CONTROL_RIGHT_HAND && control <= CONTROL_LEFT_FOOT;
    return is_limb ? handed_switch(view, (int)control - CONTROL_RIGHT_HAND) : control;
}

/* What stands in the place of the word that begins here; NULL: it stays. */
static const char* other_word(const char* const at, size_t* const length)
{
    static const char* const words[][2] = {
        {"right", "left"}, {"left", "right"}, {"Right", "Left"}, {"Left", "Right"}};
    for (size_t i = 0; i < sizeof words / sizeof *words; ++i) {
        *length = strlen(words[i][0]);
        const char after = at[*length && !strncmp(at, words[i][0], *length) ? *length : 0];
        const bool ends = !(after >= 'a' && after <= 'z');
        if (!strncmp(at, words[i][0], *length) && ends) {
            return words[i][1];
        }
    }
    return NULL;
}

void handed_words(const View* const view, const char* const words, char* const text,
                  const size_t room)
{
    size_t used = 0;
    char before = ' ';
    for (const char* at = words; *at && used + 1 < room;) {
        size_t length = 1;
        const bool begins = !((before | 32) >= 'a' && (before | 32) <= 'z');
        const char* const other = view->left_handed && begins ? other_word(at, &length) : NULL;
        length = other ? length : 1;
        const int added = other ? snprintf(text + used, room - used, "%s", other)
                                : snprintf(text + used, room - used, "%c", *at);
        used += (size_t)added < room - used ? (size_t)added : room - used - 1;
        before = at[length - 1];
        at += length;
    }
    text[used] = '\0';
}

void handed_mirror(SeenBar* const bar)
{
    for (uint32_t i = 0; i < bar->count; ++i) {
        bar->strokes[i].limb = (uint8_t)other_side(bar->strokes[i].limb);
    }
}
