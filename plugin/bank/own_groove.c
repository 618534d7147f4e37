// SPDX-License-Identifier: ISC
#include "own_groove.h"

#include "utf8.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- Figures */

typedef struct {
    Regrid regrid;
    bool is_mirrored;
} Laying;

static bool is_laid_anew(const Figure* const figure, const Laying laying)
{
    const Layout layout = layout_make(figure, laying.regrid);
    const bool is_as_written = !layout.regridded && layout.cycle == layout.written && !layout.shift;
    return !is_as_written ||
           (laying.is_mirrored && figure_mirrored(figure, RIGHT_FOOT) != RIGHT_FOOT);
}

/* What it is then, with strokes of its own. */
static bool lay(GrooveUse* const use, const Figure* const figure, const Laying laying,
                StrokeList* const list)
{
    const Layout layout = layout_make(figure, laying.regrid);
    list->count = list->dropped = 0;
    layout_strokes(&layout, 0, layout_ticks(&layout), 0, list);
    for (uint32_t i = 0; laying.is_mirrored && i < list->count; ++i) {
        list->strokes[i].limb = figure_mirrored(figure, list->strokes[i].limb);
    }
    strokes_sort(list->strokes, list->count);
    use->figure.cycle_ticks = layout_ticks(&layout);
    use->figure.step_ticks = layout.step;
    use->figure.bars = layout.bars;
    use->figure.stroke_count = list->count;
    use->figure.strokes = list->strokes;
    return list->count && !list->dropped;
}

static bool take_strokes(GrooveUse* const use)
{
    const uint32_t count = use->figure.stroke_count;
    use->strokes = count ? calloc(count, sizeof *use->strokes) : NULL;
    if (use->strokes) {
        memcpy(use->strokes, use->figure.strokes, count * sizeof *use->strokes);
    }
    use->figure.strokes = use->strokes;
    return use->strokes;
}

static bool fill_in(GrooveUse* const use, const Figure* const figure, const Laying laying)
{
    StrokeList* const list = use->is_made ? malloc(sizeof *list) : NULL; /* too large for a stack */
    const bool good =
        (!use->is_made || (list && lay(use, figure, laying, list))) && take_strokes(use);
    if (good) {
        figure_note(&use->figure);
    }
    free(list);
    return good;
}

/* The place of the use that plays a figure, a new one if none does; 0 for NULL.  False if there
   is no memory, or more strokes than a bar can have. */
static bool use_figure(OwnGroove* const own, const Figure* const figure, const Laying laying,
                       uint8_t* const place)
{
    *place = 0;
    for (int i = 0; figure && i < own->count; ++i) {
        if (own->uses[i].kind == figure->kind && own->uses[i].from == figure->id) {
            *place = (uint8_t)(i + 1);
        }
    }
    if (!figure || *place) {
        return true;
    }
    GrooveUse* const use = &own->uses[own->count++];
    *use =
        (GrooveUse){.kind = figure->kind, .from = figure->id, .figure = *figure, .id = figure->id};
    use->is_made = is_laid_anew(figure, laying);
    *place = (uint8_t)own->count;
    return fill_in(use, figure, laying);
}

/* ---- What it is made of */

static Part part_of(const Selection* const selection, const Part written)
{
    Part part = written;
    if (selection->hands) { /* as bar_part has it */
        part.hands = selection->hands;
        part.ride_on = RIDE_ON_AS_WRITTEN;
    }
    part.ride_on = selection->ride_on ? selection->ride_on : part.ride_on;
    part.feet = selection->feet ? selection->feet : part.feet;
    return part;
}

static bool take_parts(OwnGroove* const own, const Selection* const selection)
{
    const Groove* const written = selection->groove;
    Groove* const groove = &own->groove;
    const Laying hands = {selection->hands_regrid, false};
    const Laying feet = {selection->feet_regrid, selection->left_foot_leads};
    bool good = true;
    groove->form_bars =
        selection->phrase_bars < FORM_BARS_MAX ? selection->phrase_bars : FORM_BARS_MAX;
    for (uint32_t bar = 0; good && bar < groove->form_bars; ++bar) {
        const uint8_t letter = written->form[bar % written->form_bars];
        const Part part = part_of(selection, written->parts[letter]);
        groove->form[bar] = letter;
        groove->parts[letter].ride_on = part.ride_on;
        good = use_figure(own, part.hands, hands, &own->hands[letter]) &&
               use_figure(own, part.feet, feet, &own->feet[letter]);
    }
    const Laying fill = {{0}, selection->left_foot_leads};
    return good && use_figure(own, selection->turnaround, fill, &own->fill);
}

/* What the controls say, where that is another than what they are at first. */
static double said(const double value, const Control control, const double scale)
{
    const double normal = (double)control_rows[control].normal * scale;
    return value < normal || value > normal ? value : (double)NAN;
}

static WrittenFeel feel_of(const Selection* const selection)
{
    const Feel* const feel = &selection->feel;
    const bool swings = selection->swing.ratio > 1.0;
    return (WrittenFeel){
        .swing_ratio = swings ? selection->swing.ratio : (double)NAN,
        .swing_sixteenths = swings && selection->swing.pair_ticks < TICKS_PER_QUARTER,
        .looseness_ms = said(feel->looseness_ms, CONTROL_LOOSENESS, 1.0),
        .touch = said(feel->touch, CONTROL_TOUCH, 0.01),
        .push_hands_ms = said(feel->push_hands_ms, CONTROL_PUSH_HANDS, 1.0),
        .push_snare_ms = said(feel->push_snare_ms, CONTROL_PUSH_SNARE, 1.0),
        .push_feet_ms = said(feel->push_feet_ms, CONTROL_PUSH_FEET, 1.0),
        .liberty = said(feel->liberty, CONTROL_LIBERTY, 0.01),
    };
}

/* A groove of the bank has no words for these: they stay as the controls have them. */
static void say_left(OwnGroove* const own, const Selection* const selection)
{
    bool rolls = false;
    for (int i = 0; i < own->count; ++i) {
        rolls = rolls || (!own->uses[i].figure.bars && own->uses[i].kind != FIGURE_TURNAROUND);
    }
    const char* const words[] = {
        selection->fill_every ? "how often a fill comes" : NULL,
        selection->fill_beats ? "the fill's length" : NULL,
        selection->crash > CRASH_NEVER ? "where crashes come" : NULL,
        rolls && selection->realign != REALIGN_PHRASE ? "where figures start again" : NULL,
    };
    for (size_t i = 0; i < sizeof words / sizeof *words; ++i) {
        const size_t length = strlen(own->left);
        if (words[i]) {
            snprintf(own->left + length, sizeof own->left - length, "%s%s", length ? ", " : "",
                     words[i]);
        }
    }
}

bool own_groove_make(OwnGroove* const own, const Selection* const selection, const Meter meter,
                     const double tempo)
{
    *own = (OwnGroove){.count = 0};
    if (!selection->groove || !take_parts(own, selection)) {
        own_groove_free(own);
        return false;
    }
    own->from = selection->groove->id;
    own->groove.meter = meter;
    own->groove.tempo = rint(tempo < 20.0 ? 20.0 : tempo > 400.0 ? 400.0 : tempo);
    own->groove.feel = feel_of(selection);
    own->groove.crash_start = selection->groove->crash_start && selection->crash != CRASH_NEVER;
    say_left(own, selection);
    return true;
}

void own_groove_free(OwnGroove* const own)
{
    for (int i = 0; i < own->count; ++i) {
        free(own->uses[i].strokes);
        own->uses[i].strokes = NULL;
    }
    own->count = 0;
}

/* ---- As texts */

char* own_groove_figure(const OwnGroove* const own, const int index, const Bank* const bank,
                        const char* const label)
{
    char comment[256];
    const GrooveUse* const use = &own->uses[index];
    const EntryInfo* const from = bank_info(bank, (EntryKind)use->kind, use->from);
    EntryInfo info = from ? *from : (EntryInfo){.family_uri = ""};
    snprintf(comment, sizeof comment, "%.120s, as it is played in a groove.",
             from ? from->label : "A figure");
    utf8_repair(comment); /* where it was cut */
    info.id = 0;
    info.uri = "";
    info.differs = info.alone = "";
    info.label = label;
    if (use->is_made) {
        info.comment = comment;
    }
    return write_figure(&use->figure, &info);
}

/* The bank's figure for a use; false if it hasn't it. */
static bool find(const OwnGroove* const own, const Bank* const bank, const uint8_t place,
                 const Figure** const figure)
{
    const GrooveUse* const use = place ? &own->uses[place - 1] : NULL;
    *figure = use ? library_figure(bank_library(bank), use->kind, use->id) : NULL;
    return !use || *figure;
}

char* own_groove_text(const OwnGroove* const own, const Bank* const bank, const uint32_t id,
                      const char* const label)
{
    Groove groove = own->groove;
    const EntryInfo* const before = bank_info(bank, ENTRY_GROOVE, id ? id : own->from);
    char comment[160];
    snprintf(comment, sizeof comment, "Made of %.120s.", before ? before->label : "another");
    utf8_repair(comment);
    const EntryInfo info = {.id = id,
                            .uri = id && before ? before->uri : "",
                            .label = label,
                            .comment = id && before ? before->comment : comment,
                            .family_uri = before ? before->family_uri : ""};
    bool has_all = find(own, bank, own->fill, &groove.turnaround);
    for (int i = 0; i < PARTS_MAX; ++i) {
        has_all = has_all && find(own, bank, own->hands[i], &groove.parts[i].hands) &&
                  find(own, bank, own->feet[i], &groove.parts[i].feet);
    }
    return has_all ? write_entry_of(bank, ENTRY_GROOVE, &groove, &info) : NULL;
}
