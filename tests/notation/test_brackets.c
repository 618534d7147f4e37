// SPDX-License-Identifier: ISC
/* Numbers over tuplets, over every groove of the bank: arithmetic says which strokes need one
   (those off all halvings of the beat), and that a tuplet's strokes divide it as its number
   says. */
#include "../../ui/paper/sheet_fill.h"
#include "../bank/factory.h"
#include "../help/check.h"

#include <stdio.h>
#include <string.h>

static Sheet sheet;
static Bank* bank;

static void fill(const Groove* const groove)
{
    Selection selection = selection_of_groove(groove);
    selection.phrase_bars = groove->form_bars;
    const Selection straight = sheet_fill_straight(&selection);
    sheet_fill(&sheet, &straight, groove->meter);
}

/* The innermost of the pair around a tick; NULL: there is none. */
static const SheetTuplet* around(const SheetBar* const bar, const Stroke stroke)
{
    const SheetTuplet* found = NULL;
    const int pair = limb_is_foot(stroke.limb) ? PAIR_FEET : PAIR_HANDS;
    for (int i = 0; i < bar->tuplet_count; ++i) {
        const SheetTuplet* const tuplet = &bar->tuplets[i];
        if (tuplet->pair == pair && stroke.tick >= tuplet->begin && stroke.tick < tuplet->end &&
            (!found || tuplet->depth >= found->depth)) {
            found = tuplet;
        }
    }
    return found;
}

/* Whether `ticks` is a whole number of some halving of `whole`, to the 256th. */
static bool is_halving(const int64_t ticks, const int64_t whole)
{
    return ticks * 256 % whole == 0;
}

static void look(const SheetBar* const bar)
{
    int bare = 0;
    int off = 0;
    for (uint32_t i = 0; i < bar->strokes.count; ++i) {
        const Stroke stroke = bar->strokes.strokes[i];
        const SheetTuplet* const tuplet = around(bar, stroke);
        bare += !tuplet && !is_halving(stroke.tick, 4 * TICKS_PER_QUARTER);
        off += tuplet && !is_halving((stroke.tick - tuplet->begin) * tuplet->actual,
                                     tuplet->end - tuplet->begin);
    }
    CHECK_INT(bare, 0);
    CHECK_INT(off, 0);
}

static void every_stroke_off_the_halvings_stands_in_a_tuplet_that_explains_it(void)
{
    const Library* const library = bank_library(bank);
    int tuplets = 0;
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        fill(&library->grooves[i]);
        for (int row = 0; row < sheet.count; ++row) {
            check_case("groove %u, bar %d", library->grooves[i].id, sheet.rows[row].first);
            look(&sheet.rows[row]);
            tuplets += sheet.rows[row].tuplet_count;
        }
    }
    check_case("all of the bank");
    CHECK(tuplets > 100);
}

static const char* numbers_of(const int row)
{
    static char text[128];
    text[0] = '\0';
    for (int i = 0; i < sheet.rows[row].tuplet_count; ++i) {
        const SheetTuplet* const tuplet = &sheet.rows[row].tuplets[i];
        snprintf(text + strlen(text), sizeof text - strlen(text),
                 tuplet->is_long ? "%d:%d " : "%d ", tuplet->actual, tuplet->normal);
    }
    return text;
}

/* "Five strokes to the beat, foot to foot ...; once five to the whole bar." */
static void fives_to_the_beat_and_to_the_bar_are_numbered(void)
{
    const Library* const library = bank_library(bank);
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        if (library->grooves[i].id == 29) {
            fill(&library->grooves[i]);
        }
    }
    CHECK_TEXT(numbers_of(0), "5 5 5 5 ");
    CHECK_TEXT(numbers_of(3), "5:4 ");
}

int main(void)
{
    bank = factory_open();
    RUN(every_stroke_off_the_halvings_stands_in_a_tuplet_that_explains_it);
    RUN(fives_to_the_beat_and_to_the_bar_are_numbered);
    bank_free(bank);
    return tests_end();
}
