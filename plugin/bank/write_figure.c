// SPDX-License-Identifier: ISC
#include "write_figure.h"

#include "lines.h"
#include "names.h"
#include "pen.h"

#include <stdlib.h>
#include <string.h>

static void write_text(Pen* const pen, const char* const term, const char* const text)
{
    if (text && *text) {
        pen_text(pen, term, text);
    }
}

static void write_integer(Pen* const pen, const char* const term, const int64_t value)
{
    if (value) {
        pen_integer(pen, term, value);
    }
}

/* What every entry has, in the order that presets/ has it in. */
static void write_info(Pen* const pen, const EntryInfo* const info, const char* const class_name)
{
    pen_entry(pen, info->uri && *info->uri ? info->uri : FL_MINE "new", class_name);
    write_integer(pen, "id", info->id);
    write_text(pen, RDFS_NS "label", info->label);
    write_text(pen, RDFS_NS "comment", info->comment);
    if (info->family_uri && *info->family_uri) {
        pen_uri(pen, "family", info->family_uri);
    }
    write_integer(pen, "difficulty", info->difficulty);
    write_integer(pen, "tempoLow", info->tempo_low);
    write_integer(pen, "tempoHigh", info->tempo_high);
}

static void write_line(Pen* const pen, const FigureLine* const line)
{
    pen_open(pen, "line");
    pen_term(pen, "limb", limb_names[line->limb]);
    pen_term(pen, "voice", voice_names[line->voice]);
    pen_integer(pen, "grid", line->grid);
    if (line->over != 1) {
        pen_integer(pen, "over", line->over);
    }
    pen_text(pen, "steps", line->steps);
    pen_close(pen);
}

static void put_figure(Pen* const pen, const Figure* const figure, const EntryInfo* const info)
{
    FigureLines lines;
    if (!figure_lines(figure, &lines)) {
        pen->failed = true;
        return;
    }
    write_info(pen, info, figure_class_names[figure->kind]);
    write_integer(pen, "bars", figure->bars);
    for (int i = 0; i < lines.count; ++i) {
        write_line(pen, &lines.lines[i]);
    }
    figure_lines_free(&lines);
}

static void put_kit(Pen* const pen, const Kit* const kit, const EntryInfo* const info)
{
    write_info(pen, info, "Kit");
    for (int voice = 0; voice < VOICE_COUNT; ++voice) {
        pen_open(pen, "key");
        pen_term(pen, "voice", voice_names[voice]);
        pen_integer(pen, "note", kit->notes[voice]);
        pen_close(pen);
    }
}

static void put_decimal(Pen* const pen, const char* const term, const double value)
{
    if (value >= -1000.0 && value <= 1000.0) { /* not a number: not written */
        pen_decimal(pen, term, value);
    }
}

static void put_feel(Pen* const pen, const WrittenFeel* const feel)
{
    put_decimal(pen, "swing", feel->swing_ratio);
    if (feel->swing_sixteenths) {
        pen_true(pen, "swingSixteenths");
    }
    put_decimal(pen, "looseness", feel->looseness_ms);
    put_decimal(pen, "touch", feel->touch * 100.0);
    put_decimal(pen, "pushHands", feel->push_hands_ms);
    put_decimal(pen, "pushSnare", feel->push_snare_ms);
    put_decimal(pen, "pushFeet", feel->push_feet_ms);
}

static void put_reference(Pen* const pen, const char* const term, const Bank* const bank,
                          const Figure* const figure)
{
    if (figure) {
        pen_uri(pen, term, bank_info(bank, (EntryKind)figure->kind, figure->id)->uri);
    }
}

static void put_parts(Pen* const pen, const Bank* const bank, const Groove* const groove)
{
    for (int i = 0; i < PARTS_MAX; ++i) {
        const Part part = groove->parts[i];
        if (part.hands || part.feet) {
            const char letter[] = {(char)('A' + i), '\0'};
            pen_open(pen, "part");
            pen_text(pen, "letter", letter);
            put_reference(pen, "hands", bank, part.hands);
            put_reference(pen, "feet", bank, part.feet);
            pen_close(pen);
        }
    }
}

static void put_groove(Pen* const pen, const Bank* const bank, const Groove* const groove,
                       const EntryInfo* const info)
{
    char form[FORM_BARS_MAX + 1] = "";
    for (uint32_t bar = 0; bar < groove->form_bars; ++bar) {
        form[bar] = (char)('A' + groove->form[bar]);
    }
    write_info(pen, info, "Groove");
    pen_integer(pen, "tempo", (int64_t)groove->tempo);
    pen_integer(pen, "beatsPerBar", (int64_t)groove->meter.beats_per_bar);
    pen_integer(pen, "beatUnit", groove->meter.beat_unit);
    put_feel(pen, &groove->feel);
    pen_text(pen, "form", form);
    put_parts(pen, bank, groove);
    put_reference(pen, "turnaround", bank, groove->turnaround);
    if (groove->crash_start) {
        pen_true(pen, "crashStart");
    }
}

char* write_figure(const Figure* const figure, const EntryInfo* const info)
{
    Pen pen;
    if (pen_begin(&pen)) {
        put_figure(&pen, figure, info);
    }
    return pen_end(&pen);
}

char* write_kit(const Kit* const kit, const EntryInfo* const info)
{
    Pen pen;
    if (pen_begin(&pen)) {
        put_kit(&pen, kit, info);
    }
    return pen_end(&pen);
}

/* Picks without repetition, which also says what is written already. */
typedef struct {
    EntryPick* picks;
    size_t count;
    size_t room;
    bool failed;
} Picks;

static void pick(Picks* const picks, const EntryKind kind, const uint32_t id)
{
    for (size_t i = 0; i < picks->count; ++i) {
        if (picks->picks[i].kind == kind && picks->picks[i].id == id) {
            return;
        }
    }
    if (picks->count == picks->room) {
        const size_t room = picks->room ? 2 * picks->room : 32;
        EntryPick* const grown = realloc(picks->picks, room * sizeof *grown);
        if (!grown) {
            picks->failed = true;
            return;
        }
        picks->picks = grown;
        picks->room = room;
    }
    picks->picks[picks->count++] = (EntryPick){kind, id};
}

static void pick_own(Picks* const picks, const Figure* const figure)
{
    if (figure && figure->id >= ID_FIRST_OWN) {
        pick(picks, (EntryKind)figure->kind, figure->id);
    }
}

static void pick_figures(Picks* const picks, const Groove* const groove)
{
    for (int i = 0; groove && i < PARTS_MAX; ++i) {
        pick_own(picks, groove->parts[i].hands);
        pick_own(picks, groove->parts[i].feet);
    }
    if (groove) {
        pick_own(picks, groove->turnaround);
    }
}

static void put_entry(Pen* const pen, const Bank* const bank, const EntryPick entry)
{
    const Library* const library = bank_library(bank);
    const EntryInfo* const info = bank_info(bank, entry.kind, entry.id);
    if (!info) {
        return;
    }
    switch (entry.kind) {
    case ENTRY_HANDS:
    case ENTRY_FEET:
    case ENTRY_TURNAROUND:
        put_figure(pen, library_figure(library, (FigureKind)entry.kind, entry.id), info);
        break;
    case ENTRY_GROOVE:
        put_groove(pen, bank, library_groove(library, entry.id), info);
        break;
    case ENTRY_KIT:
        put_kit(pen, library_kit(library, entry.id), info);
        break;
    case ENTRY_KINDS:
        break;
    }
}

static bool any_there(const Bank* const bank, const Picks* const picks)
{
    bool any = false;
    for (size_t i = 0; i < picks->count; ++i) {
        any |= bank_info(bank, picks->picks[i].kind, picks->picks[i].id) != NULL;
    }
    return any;
}

char* write_entries(const Bank* const bank, const EntryPick* const picks, const size_t count)
{
    Picks all = {.count = 0};
    for (size_t i = 0; i < count; ++i) {
        pick(&all, picks[i].kind, picks[i].id);
        if (picks[i].kind == ENTRY_GROOVE) {
            pick_figures(&all, library_groove(bank_library(bank), picks[i].id));
        }
    }
    char* text = NULL;
    Pen pen;
    if (!all.failed && !any_there(bank, &all)) {
        text = strdup("");
    } else if (!all.failed && pen_begin(&pen)) {
        for (size_t i = 0; i < all.count; ++i) {
            put_entry(&pen, bank, all.picks[i]);
        }
        text = pen_end(&pen);
    }
    free(all.picks);
    return text;
}
