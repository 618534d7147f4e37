// SPDX-License-Identifier: ISC
/* What is wrong in a groove by itself, and in what its meter has. */
#include "../engine/groove/fill.h"
#include "../engine/writing/at_once.h"
#include "../engine/writing/heard.h"
#include "findings.h"

#include <stdio.h>

/* ---- Parts */

/* True if another letter's hands or feet, which are the same, are heard. */
static bool heard_elsewhere(const Groove* const groove, const uint8_t letter, const LimbPair pair)
{
    const Part part = groove->parts[letter];
    for (int other = 0; other < PARTS_MAX; ++other) {
        const Part there = groove->parts[other];
        const bool is_same =
            pair == PAIR_HANDS ? there.hands == part.hands : there.feet == part.feet;
        if (other != letter && is_same && heard_part(groove, (uint8_t)other, pair)) {
            return true;
        }
    }
    return false;
}

static void check_pair(Findings* const findings, const Groove* const groove,
                       const EntryInfo* const entry, const uint8_t letter, const LimbPair pair)
{
    if (!heard_elsewhere(groove, letter, pair)) {
        findings_tell(findings, entry,
                      "the %s of part %c are never heard, since the fill plays over them; give %c "
                      "another bar, or take a shorter fill",
                      pair == PAIR_HANDS ? "hands" : "feet", 'A' + letter, 'A' + letter);
    }
}

static void check_part(Findings* const findings, const Groove* const groove,
                       const EntryInfo* const entry, const uint8_t letter)
{
    const Part part = groove->parts[letter];
    if (!part.hands && !part.feet) {
        return;
    }
    if (!heard_in_form(groove, letter)) {
        findings_tell(findings, entry, "part %c is never heard: it doesn't stand in fl:form",
                      'A' + letter);
        return;
    }
    const bool hands = part.hands && heard_part(groove, letter, PAIR_HANDS);
    const bool feet = part.feet && heard_part(groove, letter, PAIR_FEET);
    if (!hands && !feet) {
        findings_tell(findings, entry,
                      "part %c is never heard, since the fill plays over it; give it another bar, "
                      "or take a shorter fill",
                      'A' + letter);
    } else if (heard_as(groove, letter) >= 0) {
        findings_tell(
            findings, entry,
            "part %c sounds as part %c would in its place, since the fill plays over what "
            "differs; give %c another bar, or take a shorter fill",
            'A' + letter, 'A' + heard_as(groove, letter), 'A' + letter);
    } else if (part.hands && !hands) {
        check_pair(findings, groove, entry, letter, PAIR_HANDS);
    } else if (part.feet && !feet) {
        check_pair(findings, groove, entry, letter, PAIR_FEET);
    }
}

/* ---- Strokes of the phrase */

static void tell_at_once(Findings* const findings, const Groove* const groove,
                         const EntryInfo* const entry, const int64_t torn, const int64_t far)
{
    char place[64];
    if (torn >= 0) {
        findings_place(groove->meter, torn, place, sizeof place);
        findings_tell(findings, entry,
                      "the hat is open and closed at once at %s; take other hands or feet", place);
    }
    if (far >= 0) {
        findings_place(groove->meter, far, place, sizeof place);
        findings_tell(findings, entry, "no hands can strike all that stands at %s", place);
    }
}

static void check_phrase(Findings* const findings, const Groove* const groove,
                         const EntryInfo* const entry)
{
    StrokeList* const list = &findings->room->strokes; /* too large for a stack */
    const Selection selection = selection_of_groove(groove);
    const int64_t end = meter_bar_ticks(groove->meter) * groove->form_bars;
    int64_t torn = -1, far = -1;
    for (int64_t tick = 0; tick < end; tick += TICKS_PER_QUARTER) {
        groove_strokes(&selection, groove->meter, tick, tick + TICKS_PER_QUARTER, list);
        torn = torn < 0 ? at_once_open_and_closed(list->strokes, list->count) : torn;
        far = far < 0 ? at_once_out_of_reach(list->strokes, list->count) : far;
    }
    tell_at_once(findings, groove, entry, torn, far);
}

/* ---- Fills */

static void check_fill(Findings* const findings, const Groove* const groove,
                       const EntryInfo* const entry)
{
    if (!groove->turnaround) {
        findings_tell(findings, entry, "has no fill; name one by fl:turnaround");
    } else if (!fill_fits(groove->turnaround, groove->meter)) {
        const EntryInfo* const fill =
            bank_info(findings->bank, ENTRY_TURNAROUND, groove->turnaround->id);
        findings_tell(findings, entry, "its fill %s doesn't fit a bar of %g/%d; take one that does",
                      fill ? fill->name : "", groove->meter.beats_per_bar, groove->meter.beat_unit);
    }
}

void grooves_check(Findings* const findings)
{
    for (uint32_t i = 0; i < findings->library->groove_count; ++i) {
        const Groove* const groove = &findings->library->grooves[i];
        const EntryInfo* const entry = bank_entry(findings->bank, ENTRY_GROOVE, i);
        if (findings_looks_at(findings, entry)) {
            for (int letter = 0; letter < PARTS_MAX; ++letter) {
                check_part(findings, groove, entry, (uint8_t)letter);
            }
            check_phrase(findings, groove, entry);
            check_fill(findings, groove, entry);
        }
    }
}

/* ---- Meters: told once each, of the first groove that is looked at */

static bool was_told(const Findings* const findings, const uint32_t index)
{
    const Groove* const grooves = findings->library->grooves;
    for (uint32_t i = 0; i < index; ++i) {
        if (meter_equal(grooves[i].meter, grooves[index].meter) &&
            findings_looks_at(findings, bank_entry(findings->bank, ENTRY_GROOVE, i))) {
            return true;
        }
    }
    return false;
}

static uint32_t fitting_fills(const Library* const library, const Meter meter)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < library->figure_counts[FIGURE_TURNAROUND]; ++i) {
        count += fill_fits(&library->figures[FIGURE_TURNAROUND][i], meter);
    }
    return count;
}

void grooves_check_meters(Findings* const findings)
{
    for (uint32_t i = 0; i < findings->library->groove_count; ++i) {
        const EntryInfo* const entry = bank_entry(findings->bank, ENTRY_GROOVE, i);
        const Meter meter = findings->library->grooves[i].meter;
        const uint32_t fills = fitting_fills(findings->library, meter);
        if (findings_looks_at(findings, entry) && fills < BANK_CHECK_FILLS &&
            !was_told(findings, i)) {
            findings_tell(findings, entry,
                          "its meter %g/%d has %u fill%s that fit; write more, %d at least",
                          meter.beats_per_bar, meter.beat_unit, fills, fills == 1 ? "" : "s",
                          BANK_CHECK_FILLS);
        }
    }
}
