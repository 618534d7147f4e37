// SPDX-License-Identifier: ISC
#include "picks.h"

#include "commands.h"

#include <stdio.h>
#include <string.h>

/* The groove alone, in its meter, with all limbs: else its comment speaks of what
   isn't there. */
static bool is_as_written(const Settings* const settings, const Picks* const picks)
{
    float normal[CONTROL_COUNT];
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        normal[i] = control_rows[i].normal;
    }
    Settings written = settings_from_controls(normal);
    const Groove* const groove = picks->selection.groove;
    written.groove = settings->groove;
    bool is = settings_play_alike(settings, &written) && !(settings->swing_ratio > 1.0) &&
              meter_equal(picks->meter, groove->meter);
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        is = is && settings->limbs[limb];
    }
    return is;
}

/* The groove in words; the choice has one. */
static const EntryInfo* groove_info(const Bank* const bank, const Groove* const groove)
{
    uint32_t index = 0;
    while (index + 1 < bank_count(bank, ENTRY_GROOVE) &&
           bank_entry(bank, ENTRY_GROOVE, index)->id != groove->id) {
        ++index;
    }
    return bank_entry(bank, ENTRY_GROOVE, index);
}

/* ", thinned, then as gallops, growing". */
static void add_varied(const Selection* const selection, char* const title, const size_t room)
{
    const uint32_t numbers[] = {selection->variation, selection->variation_then};
    for (int i = 0; i < 2; ++i) {
        const size_t length = strlen(title);
        snprintf(title + length, room - length, "%s%s", numbers[i] ? i ? ", then " : ", " : "",
                 numbers[i] ? variation_words(numbers[i]) : "");
    }
    const size_t length = strlen(title);
    snprintf(title + length, room - length, "%s", selection->grow_every ? ", growing" : "");
}

void picks_title(const Picks* const picks, char* const title, const size_t room)
{
    const EntryInfo* const hands = picks->hands;
    const EntryInfo* const feet = picks->feet;
    snprintf(title, room, "%s%s%s%s%s", picks->info->label, hands || feet ? " with " : "",
             hands ? hands->label : "", hands && feet ? " and " : "", feet ? feet->label : "");
    add_varied(&picks->selection, title, room);
}

/* Why a step of the variations is heard in no bar of the form; VARY_NONE: in one it is. */
static VaryReason silent_step(const Picks* const picks, const int step)
{
    const Selection* const selection = &picks->selection;
    VaryReason reason = VARY_NONE;
    for (uint32_t bar = 0; bar < selection->groove->form_bars; ++bar) {
        const BarParts parts = groove_bar(selection, picks->meter, bar);
        reason = (VaryReason)parts.varied.reasons[step];
        if (reason == VARY_NONE) {
            break;
        }
    }
    return reason;
}

static void warn(const Picks* const picks)
{
    const uint32_t numbers[] = {picks->selection.variation, picks->selection.variation_then};
    for (int step = 0; step < 2; ++step) {
        const VaryReason reason = numbers[step] ? silent_step(picks, step) : VARY_NONE;
        if (reason != VARY_NONE) {
            fprintf(stderr, "fourlimb: \"%s\" isn't heard here: %s\n",
                    variation_words(numbers[step]), variation_reason(reason));
        }
    }
}

int picks_make(const Performance* const performance, const Section* const section,
               Picks* const picks)
{
    static Varied varied; /* too large for a stack */
    const Bank* const bank = performance->bank;
    varied_forget(&varied); /* another bank's */
    if (!bank_library(bank)->groove_count) {
        fprintf(stderr, "fourlimb: the bank holds no groove\n");
        return FAILED;
    }
    if (!performance_set(performance, section)) {
        return ASKED_WRONGLY;
    }
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        picks->values[i] = host_get(performance->host, control_rows[i].symbol);
    }
    const Settings settings = settings_from_controls(picks->values);
    const Library* const library = bank_library(bank);
    const Groove* const groove = selection_make(library, &settings, 120.0).groove;
    picks->tempo = section->tempo > 0.0 ? section->tempo
                                        : request_preset_value(section, "tempo", groove->tempo);
    picks->selection = selection_make(library, &settings, picks->tempo);
    picks->selection.varied = &varied;
    picks->info = groove_info(bank, groove);
    picks->hands = picks->selection.hands ? bank_info(bank, ENTRY_HANDS, settings.hands) : NULL;
    picks->feet = picks->selection.feet ? bank_info(bank, ENTRY_FEET, settings.feet) : NULL;
    picks->turnaround = settings.turnaround > 0
                            ? bank_info(bank, ENTRY_TURNAROUND, (uint32_t)settings.turnaround)
                            : NULL;
    picks->meter = section->beats ? (Meter){section->beats, section->beat_unit} : groove->meter;
    picks->as_written = is_as_written(&settings, picks);
    warn(picks);
    return DONE;
}
