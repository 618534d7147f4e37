// SPDX-License-Identifier: ISC
/* How odd bars are grouped is read off their strokes.  Held against what the bank's own
   comments say of each of them in words, which whoever wrote the groove put there. */
#include "../../ui/paper/sheet_fill.h"
#include "../../ui/notation/beams.h"
#include "../../ui/notation/staff_voices.h"
#include "../bank/factory.h"
#include "../help/check.h"

#include <stdio.h>
#include <string.h>

static Sheet sheet;
static Bank* bank;

static const char* groups_of(const uint32_t id)
{
    static char text[64];
    const Library* const library = bank_library(bank);
    text[0] = '\0';
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        const Groove* const groove = &library->grooves[i];
        if (groove->id == id) {
            Selection selection = selection_of_groove(groove);
            selection.phrase_bars = groove->form_bars;
            sheet_fill(&sheet, &selection, groove->meter);
            for (int k = 0; k < sheet.group_count; ++k) {
                snprintf(text + strlen(text), sizeof text - strlen(text), "%s%d", k ? "+" : "",
                         sheet.groups[k]);
            }
        }
    }
    return text;
}

static void groups_are_those_that_the_comments_tell(void)
{
    static const struct {
        uint32_t id;
        const char* groups;
    } told[] = {
        {140, "2+2+3"},         /* "Seven as two, two and three" */
        {141, "3+2+2"},         /* "Seven with the long group first" */
        {142, "2+2+3"},         /* "A rock bar that lost its last eighth" */
        {146, "3+2"},           /* "Five eighths, three and two" */
        {149, "3+3+3+2"},       /* "three threes and a two" */
        {150, "2+2+3+2+2"},     /* "Eleven with the long group in the middle" */
        {273, "3+3+2+2"},       /* "Ten as three, three, two and two" */
        {274, "3+2+2+3"},       /* "Ten with the long groups outside: three, two, two and three" */
        {275, "2+2+2+2+3"},     /* "Four short groups and a long one" */
        {276, "2+2+2+2+2+3"},   /* "Five short groups and a long one" */
        {277, "3+3+3+2+2"},     /* "Thirteen as three threes and two twos" */
        {278, "2+2+2+2+3+2+2"}, /* "Seven groups, of which the fifth is the long one" */
        {280, "2+2+3+2+2+2+2"}, /* "two, two and three, then four quarters" */
        {281, "2+2+3"},         /* "two, two and a longer three" */
    };
    for (size_t i = 0; i < sizeof told / sizeof *told; ++i) {
        check_case("groove %u", told[i].id);
        CHECK_TEXT(groups_of(told[i].id), told[i].groups);
    }
}

static void quarters_and_beats_of_three_have_none(void)
{
    static const uint32_t ids[] = {1, 130, 144}; /* 4/4, 12/8, 5/4 */
    for (size_t i = 0; i < sizeof ids / sizeof *ids; ++i) {
        check_case("groove %u", ids[i]);
        CHECK_TEXT(groups_of(ids[i]), "");
    }
}

/* The ride's eighths of a bar in 2+2+3+2+2: a beam begins with each group. */
static void beams_go_with_the_groups(void)
{
    static StaffVoices voices; /* too large for a stack */
    char begun[64] = "";
    Limb limb = RIGHT_HAND;
    CHECK_TEXT(groups_of(150), "2+2+3+2+2");
    if (!CHECK(staff_voices_make(&voices, &sheet.rows[0].strokes, sheet.meter, &limb))) {
        return;
    }
    const Rhythm* const rhythm = &voices.voices[0].rhythm;
    for (int i = 0; i < rhythm->count; ++i) {
        const char* const word = beams_word(rhythm, i, 1, &sheet);
        if (word && !strcmp(word, "begin")) {
            snprintf(begun + strlen(begun), sizeof begun - strlen(begun), "%d ",
                     1 + (int)(rhythm->notes[i].tick / meter_beat_ticks(sheet.meter)));
        }
    }
    CHECK_TEXT(begun, "1 3 5 8 10 ");
}

int main(void)
{
    bank = factory_open();
    RUN(groups_are_those_that_the_comments_tell);
    RUN(beams_go_with_the_groups);
    RUN(quarters_and_beats_of_three_have_none);
    bank_free(bank);
    return tests_end();
}
