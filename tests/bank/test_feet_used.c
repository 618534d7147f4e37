// SPDX-License-Identifier: ISC
/* test_feet_used.c - every feet figure stands in at least one groove, in a bar of its form,
   or has a reason why none does: what is in no groove is not heard by who walks through
   them. */
#include "../help/check.h"
#include "factory.h"

static Bank* bank;

typedef struct {
    uint32_t id;
    const char* reason;
} Alone;

/* Feet in no groove, and why; the last row is none. */
static const Alone alone[] = {{0, "none"}};

static const char* reason_of(const uint32_t id)
{
    for (size_t i = 0; i < sizeof alone / sizeof *alone; ++i) {
        if (alone[i].id == id) {
            return alone[i].reason;
        }
    }
    return NULL;
}

static bool stands_in(const Groove* const groove, const Figure* const feet)
{
    for (uint32_t bar = 0; bar < groove->form_bars; ++bar) {
        if (groove->parts[groove->form[bar]].feet == feet) {
            return true;
        }
    }
    return false;
}

static uint32_t grooves_with(const Library* const library, const Figure* const feet)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        count += stands_in(&library->grooves[i], feet);
    }
    return count;
}

static void every_feet_figure_stands_in_a_groove_or_has_a_reason(void)
{
    const Library* const library = bank_library(bank);
    for (uint32_t i = 0; i < library->figure_counts[FIGURE_FEET]; ++i) {
        const Figure* const feet = &library->figures[FIGURE_FEET][i];
        const bool used = grooves_with(library, feet) > 0;
        check_case("feet %u%s", feet->id, used ? " is used: take it off the list" : "");
        CHECK_INT(used, !reason_of(feet->id));
    }
}

static void feet_that_no_bar_plays_are_found(void)
{
    static const Figure feet = {.id = 1, .kind = FIGURE_FEET};
    static const Figure others = {.id = 2, .kind = FIGURE_FEET};
    const Groove groove = {
        .form_bars = 2, .form = {0, 0}, .parts = {{NULL, &feet}, {NULL, &others}}};
    CHECK(stands_in(&groove, &feet));
    CHECK(!stands_in(&groove, &others)); /* in a part, but in no bar */
}

int main(void)
{
    bank = factory_open();
    RUN(feet_that_no_bar_plays_are_found);
    RUN(every_feet_figure_stands_in_a_groove_or_has_a_reason);
    bank_free(bank);
    return tests_end();
}
