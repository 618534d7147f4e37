// SPDX-License-Identifier: ISC
#include "overlay.h"

#include <stdlib.h>
#include <string.h>

/* The bank's figures of a kind with the draft in its place in order of id. */
static bool lay_over(Overlay* const overlay, const FigureKind kind, const Library* const under)
{
    const Figure* const draft = &overlay->drafts.drafts[kind]->figure;
    const uint32_t count = under->figure_counts[kind];
    Figure* const figures = calloc(count + 1, sizeof(Figure));
    if (!figures) {
        return false;
    }
    uint32_t at = 0;
    while (at < count && under->figures[kind][at].id < draft->id) {
        figures[at] = under->figures[kind][at];
        ++at;
    }
    figures[at] = *draft;
    const bool replaces = at < count && under->figures[kind][at].id == draft->id;
    for (uint32_t i = at + replaces; i < count; ++i) {
        figures[i + !replaces] = under->figures[kind][i];
    }
    overlay->figures[kind] = figures;
    overlay->library.figures[kind] = figures;
    overlay->library.figure_counts[kind] = count + !replaces;
    return true;
}

/* Grooves point to the figures of the new lists. */
static bool point_anew(Overlay* const overlay, const Library* const under)
{
    Groove* const grooves = calloc(under->groove_count + 1, sizeof(Groove));
    if (!grooves) {
        return false;
    }
    memcpy(grooves, under->grooves, under->groove_count * sizeof(Groove));
    library_join(&overlay->library, grooves);
    overlay->grooves = grooves;
    overlay->library.grooves = grooves;
    return true;
}

static bool lay_drafts(Overlay* const overlay, const Library* const under)
{
    bool any = false;
    bool good = true;
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        if (overlay->drafts.drafts[kind]) {
            any = true;
            good = good && lay_over(overlay, (FigureKind)kind, under);
        }
    }
    return good && (!any || point_anew(overlay, under));
}

bool overlay_make(Overlay* const overlay, Bank* const bank, const Drafts drafts)
{
    *overlay = (Overlay){.bank = bank_hold(bank), .drafts = drafts, .library = *bank_library(bank)};
    return lay_drafts(overlay, bank_library(bank));
}

void overlay_clear(Overlay* const overlay)
{
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        single_free(overlay->drafts.drafts[kind]);
        free(overlay->figures[kind]);
    }
    free(overlay->grooves);
    bank_free(overlay->bank);
    *overlay = (Overlay){.bank = NULL};
}
