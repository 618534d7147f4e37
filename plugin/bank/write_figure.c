// SPDX-License-Identifier: ISC
#include "write_figure.h"

#include "limb_lines.h"
#include "names.h"
#include "turtle_writer.h"

#include <stdlib.h>
#include <string.h>

static void write_text(TurtleWriter* const writer, const char* const term, const char* const text)
{
    if (text && *text) {
        turtle_writer_text(writer, term, text);
    }
}

static void write_integer(TurtleWriter* const writer, const char* const term, const int64_t value)
{
    if (value) {
        turtle_writer_integer(writer, term, value);
    }
}

/* What every entry has, in the order that presets/ has it in. */
static void write_info(TurtleWriter* const writer, const EntryInfo* const info,
                       const char* const class_name)
{
    turtle_writer_entry(writer, info->uri && *info->uri ? info->uri : FL_MINE "new", class_name);
    write_integer(writer, "id", info->id);
    write_text(writer, RDFS_NS "label", info->label);
    write_text(writer, RDFS_NS "comment", info->comment);
    if (info->family_uri && *info->family_uri) {
        turtle_writer_uri(writer, "family", info->family_uri);
    }
    write_integer(writer, "tempoLow", info->tempo_low);
    write_integer(writer, "tempoHigh", info->tempo_high);
    write_text(writer, "differs", info->differs);
    write_text(writer, "standsAlone", info->alone);
}

static void write_line(TurtleWriter* const writer, const LimbLine* const line)
{
    turtle_writer_open(writer, "line");
    turtle_writer_term(writer, "limb", limb_names[line->limb]);
    turtle_writer_term(writer, "voice", voice_names[line->voice]);
    turtle_writer_integer(writer, "grid", line->grid);
    if (line->over != 1) {
        turtle_writer_integer(writer, "over", line->over);
    }
    turtle_writer_text(writer, "steps", line->steps);
    turtle_writer_close(writer);
}

/* Writes a kind's value; the bank has those that it names. */
typedef void (*EntryWriter)(TurtleWriter* writer, const Bank* bank, EntryKind kind,
                            const void* value, const EntryInfo* info);

static void put_figure(TurtleWriter* const writer, const Bank* const bank, const EntryKind kind,
                       const void* const value, const EntryInfo* const info)
{
    (void)bank;
    const Figure* const figure = (const Figure*)value;
    LimbLines lines;
    if (!limb_lines(figure, &lines)) {
        writer->failed = true;
        return;
    }
    write_info(writer, info, kind_rows[kind].class_name);
    write_integer(writer, "bars", figure->bars);
    for (int i = 0; i < lines.count; ++i) {
        write_line(writer, &lines.lines[i]);
    }
    limb_lines_free(&lines);
}

static void put_kit(TurtleWriter* const writer, const Bank* const bank, const EntryKind kind,
                    const void* const value, const EntryInfo* const info)
{
    (void)bank;
    const Kit* const kit = (const Kit*)value;
    write_info(writer, info, kind_rows[kind].class_name);
    for (int voice = 0; voice < VOICE_COUNT; ++voice) {
        if (kit->notes[voice] == KIT_NO_KEY) {
            continue;
        }
        turtle_writer_open(writer, "key");
        turtle_writer_term(writer, "voice", voice_names[voice]);
        turtle_writer_integer(writer, "note", kit->notes[voice]);
        turtle_writer_close(writer);
    }
}

static void put_decimal(TurtleWriter* const writer, const char* const term, const double value)
{
    if (value >= -1000.0 && value <= 1000.0) { /* not a number: not written */
        turtle_writer_decimal(writer, term, value);
    }
}

static void put_feel(TurtleWriter* const writer, const WrittenFeel* const feel)
{
    put_decimal(writer, "swing", feel->swing_ratio);
    if (feel->swing_sixteenths) {
        turtle_writer_true(writer, "swingSixteenths");
    }
    put_decimal(writer, "looseness", feel->looseness_ms);
    put_decimal(writer, "touch", feel->touch * 100.0);
    put_decimal(writer, "pushHands", feel->push_hands_ms);
    put_decimal(writer, "pushSnare", feel->push_snare_ms);
    put_decimal(writer, "pushFeet", feel->push_feet_ms);
    put_decimal(writer, "liberty", feel->liberty * 100.0);
}

static void put_reference(TurtleWriter* const writer, const char* const term,
                          const Bank* const bank, const Figure* const figure)
{
    if (figure) {
        turtle_writer_uri(writer, term, bank_info(bank, (EntryKind)figure->kind, figure->id)->uri);
    }
}

static void put_parts(TurtleWriter* const writer, const Bank* const bank,
                      const Groove* const groove)
{
    for (int i = 0; i < PARTS_MAX; ++i) {
        const Part part = groove->parts[i];
        if (part.hands || part.feet) {
            const char letter[] = {(char)('A' + i), '\0'};
            turtle_writer_open(writer, "part");
            turtle_writer_text(writer, "letter", letter);
            put_reference(writer, "hands", bank, part.hands);
            put_reference(writer, "feet", bank, part.feet);
            if (part.ride_on) {
                turtle_writer_term(writer, "rideOn", voice_names[ride_on_voice(part.ride_on)]);
            }
            turtle_writer_close(writer);
        }
    }
}

static void put_groove(TurtleWriter* const writer, const Bank* const bank, const EntryKind kind,
                       const void* const value, const EntryInfo* const info)
{
    const Groove* const groove = (const Groove*)value;
    char form[FORM_BARS_MAX + 1] = "";
    for (uint32_t bar = 0; bar < groove->form_bars; ++bar) {
        form[bar] = (char)('A' + groove->form[bar]);
    }
    write_info(writer, info, kind_rows[kind].class_name);
    turtle_writer_integer(writer, "tempo", (int64_t)groove->tempo);
    turtle_writer_integer(writer, "beatsPerBar", (int64_t)groove->meter.beats_per_bar);
    turtle_writer_integer(writer, "beatUnit", groove->meter.beat_unit);
    put_feel(writer, &groove->feel);
    turtle_writer_text(writer, "form", form);
    put_parts(writer, bank, groove);
    put_reference(writer, "turnaround", bank, groove->turnaround);
    if (groove->crash_start) {
        turtle_writer_true(writer, "crashStart");
    }
}

/* Picks without repetition, which also says what is written already. */
typedef struct {
    EntryPick* picks;
    size_t count;
    size_t room;
    bool failed;
} PickList;

static void pick(PickList* const picks, const EntryKind kind, const uint32_t id)
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

static void pick_own(PickList* const picks, const Figure* const figure)
{
    if (figure && figure->id >= ID_FIRST_OWN) {
        pick(picks, (EntryKind)figure->kind, figure->id);
    }
}

static void pick_figures(PickList* const picks, const Groove* const groove)
{
    for (int i = 0; groove && i < PARTS_MAX; ++i) {
        pick_own(picks, groove->parts[i].hands);
        pick_own(picks, groove->parts[i].feet);
    }
    if (groove) {
        pick_own(picks, groove->turnaround);
    }
}

#define WRITER(NAME, name, class, Type, type, ...) [ENTRY_##NAME] = put_##type,
static const EntryWriter writers[ENTRY_KINDS] = {ENTRY_KIND_ROWS(WRITER)};
#undef WRITER

char* write_entry_of(const Bank* const bank, const EntryKind kind, const void* const value,
                     const EntryInfo* const info)
{
    TurtleWriter writer;
    if (turtle_writer_begin(&writer)) {
        writers[kind](&writer, bank, kind, value, info);
    }
    return turtle_writer_end(&writer);
}

char* write_entry(const EntryKind kind, const void* const value, const EntryInfo* const info)
{
    return write_entry_of(NULL, kind, value, info);
}

char* write_figure(const Figure* const figure, const EntryInfo* const info)
{
    return write_entry((EntryKind)figure->kind, figure, info);
}

static void put_entry(TurtleWriter* const writer, const Bank* const bank, const EntryPick entry)
{
    const EntryInfo* const info = bank_info(bank, entry.kind, entry.id);
    if (info) {
        writers[entry.kind](writer, bank, entry.kind, bank_value(bank, entry.kind, entry.id), info);
    }
}

static bool any_there(const Bank* const bank, const PickList* const picks)
{
    bool any = false;
    for (size_t i = 0; i < picks->count; ++i) {
        any |= bank_info(bank, picks->picks[i].kind, picks->picks[i].id) != NULL;
    }
    return any;
}

char* write_entries(const Bank* const bank, const EntryPick* const picks, const size_t count)
{
    PickList all = {.count = 0};
    for (size_t i = 0; i < count; ++i) {
        pick(&all, picks[i].kind, picks[i].id);
        if (picks[i].kind == ENTRY_GROOVE) {
            pick_figures(&all, library_groove(bank_library(bank), picks[i].id));
        }
    }
    char* text = NULL;
    TurtleWriter writer;
    if (!all.failed && !any_there(bank, &all)) {
        text = strdup("");
    } else if (!all.failed && turtle_writer_begin(&writer)) {
        for (size_t i = 0; i < all.count; ++i) {
            put_entry(&writer, bank, all.picks[i]);
        }
        text = turtle_writer_end(&writer);
    }
    free(all.picks);
    return text;
}
