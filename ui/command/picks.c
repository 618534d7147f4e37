// SPDX-License-Identifier: ISC
#include "picks.h"

#include <stdio.h>
#include <string.h>

/* The id of what was typed, `none` if nothing was; -2 with a message if there
   is no such entry. */
static int64_t asked_id(const Bank* const bank, const EntryKind kind, const char* const asked,
                        const int64_t none)
{
    if (!asked) {
        return none;
    }
    if (kind == ENTRY_TURNAROUND && !strcmp(asked, "none")) {
        return TURNAROUND_NONE;
    }
    const EntryInfo* const entry = bundle_entry(bank, kind, asked);
    return entry ? (int64_t)entry->id : -2;
}

/* Whatever --set or a preset says, by the control's symbol. */
static bool apply_settings(const ControlSetting* const settings, const int count,
                           float values[CONTROL_COUNT])
{
    for (int i = 0; i < count; ++i) {
        int control = 0;
        while (control < CONTROL_COUNT &&
               strcmp(control_rows[control].symbol, settings[i].symbol)) {
            ++control;
        }
        if (control == CONTROL_COUNT) {
            fprintf(stderr,
                    "fourlimb: there is no control \"%s\"; `fourlimb list controls` "
                    "names them\n",
                    settings[i].symbol);
            return false;
        }
        values[control] = settings[i].value;
    }
    return true;
}

static bool read_values(const Bank* const bank, const Section* const section,
                        float values[CONTROL_COUNT])
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].normal;
    }
    bool good = apply_settings(section->preset_values, section->preset_count, values);
    const Control controls[] = {CONTROL_GROOVE, CONTROL_HANDS, CONTROL_FEET, CONTROL_TURNAROUND};
    const int64_t ids[] = {
        asked_id(bank, ENTRY_GROOVE, section->groove, (int64_t)values[CONTROL_GROOVE]),
        asked_id(bank, ENTRY_HANDS, section->hands, (int64_t)values[CONTROL_HANDS]),
        asked_id(bank, ENTRY_FEET, section->feet, (int64_t)values[CONTROL_FEET]),
        asked_id(bank, ENTRY_TURNAROUND, section->turnaround, (int64_t)values[CONTROL_TURNAROUND]),
    };
    for (int i = 0; i < 4; ++i) {
        good = good && ids[i] != -2;
        values[controls[i]] = (float)ids[i];
    }
    return good && apply_settings(section->settings, section->setting_count, values);
}

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

void picks_title(const Picks* const picks, char* const title, const size_t room)
{
    const EntryInfo* const hands = picks->hands;
    const EntryInfo* const feet = picks->feet;
    snprintf(title, room, "%s%s%s%s%s", picks->info->label, hands || feet ? " with " : "",
             hands ? hands->label : "", hands && feet ? " and " : "", feet ? feet->label : "");
}

bool picks_make(const Bank* const bank, const Section* const section, Picks* const picks)
{
    if (!read_values(bank, section, picks->values)) {
        return false;
    }
    const Settings settings = settings_from_controls(picks->values);
    const Library* const library = bank_library(bank);
    const Groove* const groove = selection_make(library, &settings, 120.0).groove;
    picks->tempo = section->tempo > 0.0 ? section->tempo
                                        : request_preset_value(section, "tempo", groove->tempo);
    picks->selection = selection_make(library, &settings, picks->tempo);
    picks->info = groove_info(bank, groove);
    picks->hands = picks->selection.hands ? bank_info(bank, ENTRY_HANDS, settings.hands) : NULL;
    picks->feet = picks->selection.feet ? bank_info(bank, ENTRY_FEET, settings.feet) : NULL;
    picks->turnaround = settings.turnaround > 0
                            ? bank_info(bank, ENTRY_TURNAROUND, (uint32_t)settings.turnaround)
                            : NULL;
    picks->meter = section->beats ? (Meter){section->beats, section->beat_unit} : groove->meter;
    picks->as_written = is_as_written(&settings, picks);
    return true;
}
