// SPDX-License-Identifier: ISC
#include "entries.h"

#include <string.h>

static Meter read_meter(Subject* const subject)
{
    const int64_t beats = field_integer(subject, "beatsPerBar", 1, 64, 0);
    const int64_t unit = field_integer(subject, "beatUnit", 2, 16, 0);
    if (unit & (unit - 1)) {
        field_wrong(subject, "beatUnit", "expected 2, 4, 8 or 16");
    }
    return (Meter){(double)beats, (int32_t)unit};
}

/* The figure that a property points to, or NULL with a diagnostic. */
static const Figure* read_reference(Subject* const subject, const char* const term,
                                    const EntryReading* const reading, const EntryKind kind,
                                    const bool required)
{
    const SordNode* const node = field_node(subject, term, required);
    if (!node) {
        return NULL;
    }
    const void* const figure =
        entries_named(reading, kind, (const char*)sord_node_get_string(node));
    if (!figure) {
        field_wrong(subject, term, "%s is not in the bank, or is wrong there",
                    turtle_name(subject->turtle, node));
    }
    return (const Figure*)figure;
}

/* 0 for A and so on, or -1 with a diagnostic. */
static int read_letter(Subject* const part)
{
    const char* const letter = field_text(part, "letter");
    if (!letter) {
        return -1;
    }
    if (letter[0] < 'A' || letter[0] >= 'A' + PARTS_MAX || letter[1]) {
        field_wrong(part, "letter", "\"%s\": expected one letter from A to %c", letter,
                    'A' + PARTS_MAX - 1);
        return -1;
    }
    return letter[0] - 'A';
}

/* The part's own, else that of hands which left the bank. */
static RideOn read_part_ride_on(Subject* const part, const EntryReading* const reading)
{
    const RideOn own = read_ride_on(part);
    const SordNode* const hands = field_node(part, "hands", false);
    return own || !hands ? own : entries_ride_on(reading, (const char*)sord_node_get_string(hands));
}

static void read_part(Subject* const part, const EntryReading* const reading, Groove* const groove,
                      bool has_part[PARTS_MAX])
{
    const int letter = read_letter(part);
    const Figure* const hands = read_reference(part, "hands", reading, ENTRY_HANDS, false);
    const Figure* const feet = read_reference(part, "feet", reading, ENTRY_FEET, false);
    const RideOn ride_on = read_part_ride_on(part, reading);
    if (letter < 0 || part->failed) {
        return;
    }
    if (has_part[letter]) {
        field_wrong(part, "letter", "%c has two parts", 'A' + letter);
    }
    if (!hands && !feet) {
        field_wrong(part, NULL, "part %c: has neither fl:hands nor fl:feet", 'A' + letter);
    }
    groove->parts[letter] = (Part){hands, feet, ride_on};
    has_part[letter] = true;
}

static void read_parts(Subject* const subject, const EntryReading* const reading,
                       Groove* const groove, bool has_part[PARTS_MAX])
{
    SordIter* const found =
        turtle_find(subject->turtle, subject->subject, field_property(subject, "part"), NULL);
    for (; !sord_iter_end(found); sord_iter_next(found)) {
        Subject part = {subject->turtle, subject->diagnostics,
                        sord_iter_get_node(found, SORD_OBJECT), false};
        read_part(&part, reading, groove, has_part);
        subject->failed |= part.failed;
    }
    sord_iter_free(found);
}

static void read_form(Subject* const subject, const bool has_part[PARTS_MAX], Groove* const groove)
{
    const char* const form = field_text(subject, "form");
    const size_t bars = form ? strlen(form) : 0;
    if (form && (bars < 1 || bars > FORM_BARS_MAX)) {
        field_wrong(subject, "form", "\"%s\": expected 1 to %d letters", form, FORM_BARS_MAX);
    }
    for (size_t i = 0; !subject->failed && i < bars; ++i) {
        const int letter = form[i] - 'A';
        if (letter < 0 || letter >= PARTS_MAX || !has_part[letter]) {
            field_wrong(subject, "form", "\"%s\": there is no fl:part for '%c'", form, form[i]);
            return;
        }
        groove->form[i] = (uint8_t)letter;
    }
    groove->form_bars = (uint32_t)bars;
}

static WrittenFeel read_feel(Subject* const subject)
{
    return (WrittenFeel){
        .swing_ratio = field_decimal(subject, "swing", 1.0, 3.0),
        .swing_sixteenths = field_boolean(subject, "swingSixteenths"),
        .looseness_ms = field_decimal(subject, "looseness", 0.0, 30.0),
        .touch = field_decimal(subject, "touch", 0.0, 100.0) / 100.0,
        .push_hands_ms = field_decimal(subject, "pushHands", -50.0, 50.0),
        .push_snare_ms = field_decimal(subject, "pushSnare", -50.0, 50.0),
        .push_feet_ms = field_decimal(subject, "pushFeet", -50.0, 50.0),
        .liberty = field_decimal(subject, "liberty", 0.0, 100.0) / 100.0,
    };
}

bool read_groove(Subject* const subject, const EntryReading* const reading, const EntryKind kind,
                 const uint32_t id, void* const value)
{
    (void)kind;
    Groove* const groove = (Groove*)value;
    bool has_part[PARTS_MAX] = {false};
    *groove = (Groove){.id = id};
    groove->meter = read_meter(subject);
    groove->tempo = (double)field_integer(subject, "tempo", 20, 400, 0);
    groove->feel = read_feel(subject);
    groove->crash_start = field_boolean(subject, "crashStart");
    groove->turnaround = read_reference(subject, "turnaround", reading, ENTRY_TURNAROUND, false);
    read_parts(subject, reading, groove, has_part);
    read_form(subject, has_part, groove);
    return !subject->failed;
}
