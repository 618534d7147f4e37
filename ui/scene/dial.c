// SPDX-License-Identifier: ISC
#include "dial.h"

#include "../../plugin/engine/varied/variation.h"
#include "felt.h"

#include <math.h>
#include <pango/pangocairo.h>
#include <stdio.h>
#include <string.h>

static const EntryKind no_shelf = ENTRY_KINDS;

static EntryKind shelf_of(const Control control)
{
    for (int shelf = 0; shelf < ENTRY_KINDS; ++shelf) {
        if (kind_controls[shelf] == control) {
            return (EntryKind)shelf;
        }
    }
    return no_shelf;
}

static void entry_text(const View* const view, const Control control, const int32_t id,
                       char text[DIAL_TEXT_ROOM])
{
    const Entry* const entry = view_entry(view, shelf_of(control), id);
    if (entry) {
        snprintf(text, DIAL_TEXT_ROOM, "%s", entry->label);
    } else {
        snprintf(text, DIAL_TEXT_ROOM, "%d, not in the bank", (int)id);
    }
}

static void ratio_text(const double ratio, char text[DIAL_TEXT_ROOM])
{
    if (ratio < 1.005) {
        snprintf(text, DIAL_TEXT_ROOM, "straight");
    } else if (fabs(ratio - 2.0) < 0.005) {
        snprintf(text, DIAL_TEXT_ROOM, "triplet");
    } else {
        snprintf(text, DIAL_TEXT_ROOM, "%.2f : 1", ratio);
    }
}

/* "13, nobody's": of numbers that no variation has. */
static void varied_text(const uint32_t number, char text[DIAL_TEXT_ROOM])
{
    if (number < VARIATION_COUNT) {
        snprintf(text, DIAL_TEXT_ROOM, "%s", variation_words(number));
    } else {
        snprintf(text, DIAL_TEXT_ROOM, "%u, nobody's", number);
    }
}

static void push_text(const double ms, char text[DIAL_TEXT_ROOM])
{
    if (fabs(ms) < 0.05) {
        snprintf(text, DIAL_TEXT_ROOM, "on the beat");
    } else {
        snprintf(text, DIAL_TEXT_ROOM, "%.3g ms %s", fabs(ms), ms < 0.0 ? "ahead" : "behind");
    }
}

/* One bar, but two bars. */
static const char* unit_of(const Dial* const dial, const double number)
{
    static const char* const words[][2] = {
        {"bars", "bar"}, {"phrases", "phrase"}, {"steps", "step"}, {"beats", "beat"}};
    for (size_t i = 0; i < sizeof words / sizeof *words; ++i) {
        if (!strcmp(dial->unit, words[i][0]) && fabs(fabs(number) - 1.0) < 0.005) {
            return words[i][1];
        }
    }
    return dial->unit;
}

/* The unit of what the groove has written. */
static const char* written_unit(const Dial* const dial)
{
    return dial->form != FORM_NUMBER   ? "the groove's"
           : !strcmp(dial->unit, "ms") ? "ms, the groove's"
                                       : "%, the groove's";
}

void dial_text(const View* const view, const Control control, const float value,
               char text[DIAL_TEXT_ROOM], const char** const unit)
{
    const Dial* const dial = dial_of(control);
    double written = 0.0;
    const bool is_written = felt_written(view, control, value, &written);
    const double number = is_written ? written : (double)value;
    *unit = is_written ? written_unit(dial) : "";
    switch (dial->form) {
    case FORM_NUMBER:
        if (dial->kind == DIAL_SWITCH) {
            snprintf(text, DIAL_TEXT_ROOM, "%s", number > 0.0 ? "on" : "off");
        } else if (dial->zero && fabs(number) < 0.005) {
            snprintf(text, DIAL_TEXT_ROOM, "%s", dial->zero);
        } else {
            snprintf(text, DIAL_TEXT_ROOM, "%.4g", number);
            *unit = is_written ? *unit : unit_of(dial, number);
        }
        break;
    case FORM_WORDS:
        snprintf(text, DIAL_TEXT_ROOM, "%s",
                 dial->words[(int)((double)dial_fit(control, number) -
                                   (double)control_rows[control].least)]);
        break;
    case FORM_RATIO:
        ratio_text(number, text);
        break;
    case FORM_PUSH:
        push_text(number, text);
        break;
    case FORM_ENTRY:
        entry_text(view, control, (int32_t)value, text);
        break;
    case FORM_VARIED:
        varied_text((uint32_t)dial_fit(control, number), text);
        break;
    }
}

void dial_help(const View* const view, const Control control, char text[DIAL_HELP_ROOM])
{
    const float value = view->values[control];
    const char* unit = "";
    char said[DIAL_TEXT_ROOM], felt[FELT_ROOM];
    dial_text(view, control, value, said, &unit);
    felt_words(view, control, value, felt);
    if (*felt) {
        snprintf(text, DIAL_HELP_ROOM, "%s.  %s%s%s: %s", dial_of(control)->help, said,
                 *unit ? " " : "", unit, felt);
    } else {
        snprintf(text, DIAL_HELP_ROOM, "%s", dial_of(control)->help);
    }
}

static bool is_whole(const Dial* const dial)
{
    return dial->fine >= 1.0;
}

float dial_fit(const Control control, const double value)
{
    const ControlRow* const row = &control_rows[control];
    if (isnan(value)) {
        return row->normal;
    }
    const double whole = is_whole(dial_of(control)) ? rint(value) : value;
    return whole < (double)row->least  ? row->least
           : whole > (double)row->most ? row->most
                                       : (float)whole;
}

static char* skip_blanks(char* at)
{
    while (*at == ' ') {
        ++at;
    }
    return at;
}

static bool read_number(const Dial* const dial, const char* const typed, double* const to)
{
    char text[DIAL_TEXT_ROOM];
    char* end = NULL;
    snprintf(text, sizeof text, "%s", typed);
    for (char* at = text; *at; ++at) {
        if (*at == ',') { /* a decimal comma; the host's locale says nothing */
            *at = '.';
        }
    }
    double number = g_ascii_strtod(text, &end);
    if (end == text || !isfinite(number)) {
        return false;
    }
    end = skip_blanks(end);
    if (*end == ':' || *end == '/') {
        const char* const second = end + 1;
        const double by = g_ascii_strtod(second, &end);
        if (end == second || !(by > 0.0)) {
            return false;
        }
        number /= by;
    }
    end = skip_blanks(end);
    *to = number;
    return !*end || !strcmp(end, dial->unit) || !strcmp(end, unit_of(dial, 1.0));
}

bool dial_parse(const Control control, const char* const typed, float* const value,
                char why[DIAL_WHY_ROOM])
{
    const Dial* const dial = dial_of(control);
    const double least = (double)control_rows[control].least;
    const double most = (double)control_rows[control].most;
    double number = 0.0;
    if (read_number(dial, typed, &number) && number >= least && number <= most &&
        (!is_whole(dial) || floor(number) >= number)) {
        *value = (float)number;
        return true;
    }
    snprintf(why, DIAL_WHY_ROOM, "%s: \"%.20s\" is not a %snumber from %g to %g%s%s", dial->label,
             typed, is_whole(dial) ? "whole " : "", least, most, *dial->unit ? " " : "",
             dial->unit);
    return false;
}

float dial_step(const Control control, const float value, const double steps, const bool fine)
{
    const double step = fine ? dial_of(control)->fine : dial_of(control)->step;
    const double wanted = (double)value + steps * step;
    return dial_fit(control, floor(wanted / dial_of(control)->fine + 0.5) * dial_of(control)->fine);
}

double dial_share(const Control control, const float value)
{
    const ControlRow* const row = &control_rows[control];
    const double share = ((double)value - (double)row->least) / (double)(row->most - row->least);
    return share < 0.0 ? 0.0 : share > 1.0 ? 1.0 : share;
}

const char* dial_unused(const View* const view, const Control control)
{
    const bool is_own = view->values[CONTROL_CLOCK] > 0.5f;
    const bool is_ladder = control == CONTROL_LADDER_EVERY || control == CONTROL_LADDER_TOP;
    if (!is_own && (is_ladder || control == CONTROL_LADDER_STEP || control == CONTROL_COUNT_IN)) {
        return "needs own clock";
    }
    if (is_ladder && view->values[CONTROL_LADDER_STEP] <= 0.0f) {
        return "no ladder";
    }
    const bool is_of_fills = control == CONTROL_FILL_EVERY || control == CONTROL_FILL_BEATS ||
                             control == CONTROL_FILL_NOW;
    if (is_of_fills && view->values[CONTROL_TURNAROUND] < -0.5f) {
        return "no fill";
    }
    const float click = view->values[CONTROL_CLICK];
    const bool is_gap = control == CONTROL_GAP_PLAY || control == CONTROL_GAP_REST;
    const bool is_click = control == CONTROL_CLICK_GRID || control == CONTROL_CLICK_LEVEL ||
                          control == CONTROL_CLICK_CHANNEL;
    if ((is_gap || is_click) && click < 0.5f) {
        return "click is off";
    }
    if (is_gap && click < 1.5f) {
        return "not in count-in";
    }
    if (control == CONTROL_SWING_GRID && !(view->values[CONTROL_SWING_RATIO] > 1.0f)) {
        return "no swing set";
    }
    if (control == CONTROL_GAP_PLAY && view->values[CONTROL_GAP_REST] <= 0.0f) {
        return "never rests";
    }
    return NULL;
}
