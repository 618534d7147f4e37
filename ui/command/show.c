// SPDX-License-Identifier: ISC
#include "bundle.h"
#include "commands.h"
#include "staff.h"

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

/* Whatever --set says, by the control's symbol. */
static bool apply_settings(const Section* const section, float values[CONTROL_COUNT])
{
    for (int i = 0; i < section->setting_count; ++i) {
        int control = 0;
        while (control < CONTROL_COUNT &&
               strcmp(control_rows[control].symbol, section->settings[i].symbol)) {
            ++control;
        }
        if (control == CONTROL_COUNT) {
            fprintf(stderr,
                    "fourlimb: there is no control \"%s\"; `fourlimb list controls` "
                    "names them\n",
                    section->settings[i].symbol);
            return false;
        }
        values[control] = section->settings[i].value;
    }
    return true;
}

static bool read_settings(const Bank* const bank, const Section* const section,
                          Settings* const settings)
{
    float values[CONTROL_COUNT];
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].normal;
    }
    const int64_t ids[] = {
        asked_id(bank, ENTRY_GROOVE, section->groove, 1),
        asked_id(bank, ENTRY_HANDS, section->hands, AS_WRITTEN),
        asked_id(bank, ENTRY_FEET, section->feet, AS_WRITTEN),
        asked_id(bank, ENTRY_TURNAROUND, section->turnaround, AS_WRITTEN),
    };
    const Control controls[] = {CONTROL_GROOVE, CONTROL_HANDS, CONTROL_FEET, CONTROL_TURNAROUND};
    bool good = true;
    for (int i = 0; i < 4; ++i) {
        good = good && ids[i] != -2;
        values[controls[i]] = (float)ids[i];
    }
    good = good && apply_settings(section, values);
    *settings = settings_from_controls(values);
    return good;
}

static bool same_bar(const StrokeList* const a, const StrokeList* const b, const int64_t apart)
{
    bool same = a->count == b->count;
    for (uint32_t i = 0; same && i < a->count; ++i) {
        const Stroke x = a->strokes[i];
        const Stroke y = b->strokes[i];
        same = x.tick + apart == y.tick && x.limb == y.limb && x.voice == y.voice &&
               x.level == y.level;
    }
    return same;
}

static void print_bar(const Choice* const choice, const Meter meter, const int bar)
{
    static StrokeList before, now; /* too large for a stack */
    const Groove* const groove = choice->groove;
    const int64_t ticks = meter_bar_ticks(meter);
    choice_strokes(choice, meter, bar * ticks, (bar + 1) * ticks, &now);
    const bool turns = bar == (int)choice->phrase_bars - 1 && choice->turnaround;
    printf("bar %d, %s%c", bar + 1, turns ? "turnaround in place of " : "",
           'A' + groove->form[bar % (int)groove->form_bars]);
    if (bar > 0 && same_bar(&before, &now, ticks)) {
        printf(": as bar %d\n", bar);
    } else {
        putchar('\n');
        staff_print(stdout, &now, bar * ticks, meter);
    }
    before = now;
}

static void print_groove(const Bank* const bank, const Section* const section,
                         const Settings* const settings)
{
    const Groove* const groove = choice_make(bank_library(bank), settings, 120.0).groove;
    const double tempo = section->tempo > 0.0 ? section->tempo : groove->tempo;
    const Choice choice = choice_make(bank_library(bank), settings, tempo);
    Meter meter = groove->meter;
    if (section->beats) {
        meter = (Meter){section->beats, section->beat_unit};
    }
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_GROOVE); ++i) {
        const EntryInfo* const entry = bank_entry(bank, ENTRY_GROOVE, i);
        if (entry->id == groove->id) {
            printf("%s: %s, %g/%d at %g\n%s\n", entry->label, entry->family, meter.beats_per_bar,
                   meter.beat_unit, groove->tempo, entry->comment);
        }
    }
    printf("signs: . rest, g ghost, o normal, O accent, f flam, d drag\n");
    for (int bar = 0; bar < (int)choice.phrase_bars; ++bar) {
        print_bar(&choice, meter, bar);
    }
}

int command_show(const Request* const request)
{
    char bundle[BUNDLE_PATH_ROOM];
    const Section first = request->section_count ? request->sections[0] : (Section){.bars = 8};
    if (request->section_count > 1 || request->kind || request->out || request->title) {
        fprintf(stderr,
                "fourlimb: show prints one groove: --groove NAME and what is put in its place\n");
        return ASKED_WRONGLY;
    }
    if (!bundle_find(request->bundle, bundle)) {
        return FAILED;
    }
    Bank* const bank = bundle_bank(bundle);
    Settings settings;
    int status = bank && bank_library(bank)->groove_count ? DONE : FAILED;
    if (status == DONE && !read_settings(bank, &first, &settings)) {
        status = ASKED_WRONGLY;
    }
    if (status == DONE) {
        print_groove(bank, &first, &settings);
    }
    bank_free(bank);
    return status;
}
