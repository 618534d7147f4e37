// SPDX-License-Identifier: ISC
/* test_doubles.c - the same strokes under two names: accents, sticking and cymbals aside, and
   both repeated until they meet.  Each but the first says by fl:differs why it stands, and
   whoever adds one must say so too.  Which are the same: writing/test_alike. */
#include "../../plugin/engine/writing/alike.h"
#include "../help/check.h"
#include "factory.h"

static Bank* bank;

/* The first with the same strokes before an entry; itself, if there is none. */
static uint32_t first_alike(const Library* const library, const FigureKind kind,
                            const uint32_t index)
{
    const Figure* const figures = library->figures[kind];
    uint32_t first = 0;
    while (first < index && !alike_figures(&figures[first], &figures[index])) {
        ++first;
    }
    return first;
}

static void the_same_strokes_have_two_names_only_for_a_reason(void)
{
    const Library* const library = bank_library(bank);
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        for (uint32_t i = 0; i < library->figure_counts[kind]; ++i) {
            const EntryInfo* const entry = bank_entry(bank, (EntryKind)kind, i);
            const uint32_t first = first_alike(library, (FigureKind)kind, i);
            check_case("%s %u, beside %u: say why by fl:differs, or keep one", kind_rows[kind].name,
                       entry->id, library->figures[kind][first].id);
            CHECK(first == i || *entry->differs);
        }
    }
}

int main(void)
{
    bank = factory_open();
    RUN(the_same_strokes_have_two_names_only_for_a_reason);
    bank_free(bank);
    return tests_end();
}
