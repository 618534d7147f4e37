// SPDX-License-Identifier: ISC
/* What is wrong in a figure by itself, and beside others of its kind. */
#include "../engine/writing/alike.h"
#include "../engine/writing/at_once.h"
#include "comments.h"
#include "findings.h"

#include <string.h>

/* ---- By itself */

static void check_comment(Findings* const findings, const Figure* const figure,
                          const EntryInfo* const entry)
{
    const bool is_compound = !strcmp(entry->family_uri, "urn:fourlimb:terms#compound");
    const int64_t beat = is_compound ? TICKS_PER_QUARTER / 2 : TICKS_PER_QUARTER;
    const CommentRead read = comment_read(figure, entry->comment, beat);
    if (*read.problem) {
        findings_tell(findings, entry,
                      "there is %s, which its comment promises; change the comment or the strokes",
                      read.problem);
    }
}

static void check_at_once(Findings* const findings, const Figure* const figure,
                          const EntryInfo* const entry)
{
    static const Meter quarters = {4.0, 4};
    char place[64];
    const int64_t torn = at_once_open_and_closed(figure->strokes, figure->stroke_count);
    const int64_t far = at_once_out_of_reach(figure->strokes, figure->stroke_count);
    if (torn >= 0) {
        findings_place(quarters, torn, place, sizeof place);
        findings_tell(findings, entry, "the hat is open and closed at once at %s; keep one", place);
    }
    if (far >= 0) {
        findings_place(quarters, far, place, sizeof place);
        findings_tell(
            findings, entry,
            "no hands can strike all that stands at %s; a limb strikes one voice, and two "
            "hands two",
            place);
    }
}

static bool stands_in(const Groove* const groove, const Figure* const feet)
{
    for (int letter = 0; letter < PARTS_MAX; ++letter) {
        if (groove->parts[letter].feet == feet) {
            return true;
        }
    }
    return false;
}

static void check_use(Findings* const findings, const Figure* const feet,
                      const EntryInfo* const entry)
{
    bool stands = *entry->alone;
    for (uint32_t i = 0; !stands && i < findings->library->groove_count; ++i) {
        stands = stands_in(&findings->library->grooves[i], feet);
    }
    if (!stands) {
        findings_tell(findings, entry,
                      "no groove has these feet; put them into one, or say why by fl:standsAlone");
    }
}

void figures_check(Findings* const findings)
{
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        for (uint32_t i = 0; i < findings->library->figure_counts[kind]; ++i) {
            const Figure* const figure = &findings->library->figures[kind][i];
            const EntryInfo* const entry = bank_entry(findings->bank, (EntryKind)kind, i);
            if (findings_looks_at(findings, entry)) {
                check_comment(findings, figure, entry);
                check_at_once(findings, figure, entry);
                if (kind == FIGURE_FEET) {
                    check_use(findings, figure, entry);
                }
            }
        }
    }
}

/* ---- Beside others */

/* The first of its kind with the same strokes; itself, if none is before it. */
static uint32_t first_alike(const Library* const library, const int kind, const uint32_t index)
{
    const Figure* const figures = library->figures[kind];
    uint32_t first = 0;
    while (first < index && !alike_figures(&figures[first], &figures[index])) {
        ++first;
    }
    return first;
}

void figures_check_same(Findings* const findings)
{
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        for (uint32_t i = 0; i < findings->library->figure_counts[kind]; ++i) {
            const EntryInfo* const entry = bank_entry(findings->bank, (EntryKind)kind, i);
            if (!findings_looks_at(findings, entry) || *entry->differs) {
                continue;
            }
            const uint32_t first = first_alike(findings->library, kind, i);
            if (first < i) {
                findings_tell(findings, entry,
                              "has the strokes of %s, but for accents, sticking and cymbals; keep "
                              "one, or say why by fl:differs",
                              bank_entry(findings->bank, (EntryKind)kind, first)->where);
            }
        }
    }
}
