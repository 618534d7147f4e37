// SPDX-License-Identifier: ISC
#include "block.h"

#include "../bank/utf8.h"
#include "../talk/decode.h"
#include "pass.h"

#include <string.h>

enum { UNSETTLED_FRAMES = 128 };

void block_take_snapshot(Plugin* const plugin)
{
    Snapshot* const snapshot = worker_take(&plugin->worker);
    if (snapshot) {
        notify_snapshot(&plugin->notify, snapshot);
        engine_use(&plugin->engine, snapshot_library(snapshot));
        plugin->kept_moved |= snapshot_kept(snapshot) != snapshot_kept(plugin->snapshot);
        worker_leave(&plugin->worker, plugin->snapshot);
        plugin->snapshot = snapshot;
    }
}

/* Those that differ from the defaults: a default session needs no names. */
static void remember_ids(Plugin* const plugin)
{
    Used used = {.settled = false};
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        const int32_t id = settings_pick(plugin->ports.values, (EntryKind)kind);
        const int32_t normal = (int32_t)control_rows[kind_controls[kind]].normal;
        used.ids[kind] = id > 0 && id != normal ? (uint32_t)id : 0;
    }
    worker_use(&plugin->worker, &used, plugin->snapshot);
}

/* Of a block in which it begins to roll, too. */
static void ask_for_fill(Plugin* const plugin)
{
    plugin->wants_fill = plugin->wants_fill && !engine_fill_now(&plugin->engine);
}

static void take_controls(Plugin* const plugin)
{
    const float* const values = plugin->ports.values;
    const bool wanted = values[CONTROL_FILL_NOW] > 0.0f;
    plugin->wants_fill = false; /* it is for one block */
    if (ports_take(&plugin->ports) || plugin->kept_moved) {
        const Settings settings = snapshot_settings(plugin->snapshot, values);
        plugin->kept_moved = false;
        engine_set(&plugin->engine, &settings);
        remember_ids(plugin);
        plugin->wants_fill = !wanted && values[CONTROL_FILL_NOW] > 0.0f;
        ask_for_fill(plugin);
    }
}

/* Plays up to frame `end` in slices, so that any block size is bounded work. */
static uint32_t play(Plugin* const plugin, const MidiOutput output, uint32_t done,
                     const uint32_t end)
{
    if (done < end && engine_wait(&plugin->engine, end - done)) {
        return end;
    }
    while (done < end) {
        const uint32_t left = end - done;
        const uint32_t frames = left < SLICE_FRAMES_MAX ? left : SLICE_FRAMES_MAX;
        engine_begin(&plugin->engine, midi_output_room(output));
        engine_advance(&plugin->engine, done, frames);
        midi_output_write(output, &plugin->engine.out, &plugin->through, &plugin->uris);
        done += frames;
    }
    return done;
}

/* A block in which nothing stirred tells what the one before did. */
static void tell_readouts(Plugin* const plugin)
{
    if (plugin->readouts_of != plugin->engine.stirs) {
        plugin->readouts_of = plugin->engine.stirs;
        engine_readouts(&plugin->engine, plugin->readouts);
    }
    ports_tell(&plugin->ports, plugin->readouts);
}

/* What is asked for by a property, or ASKS. */
static Ask ask_of(const LV2_URID property, const Uris* const uris)
{
    int ask = 0;
    while (ask < FIGURE_KINDS && uris->fl_drafts[ask] != property) {
        ++ask;
    }
    return ask < FIGURE_KINDS                 ? (Ask)ask
           : property == uris->fl_saveFigure  ? ASK_SAVE_FIGURE
           : property == uris->fl_saveKit     ? ASK_SAVE_KIT
           : property == uris->fl_saveGroove  ? ASK_SAVE_GROOVE
           : property == uris->fl_deleteEntry ? ASK_DELETE
                                              : ASKS;
}

/* What becomes of what is kept, by a property, or ASKS. */
static Ask ask_of_kept(const LV2_URID property, const Uris* const uris)
{
    return property == uris->fl_keep           ? ASK_KEEP
           : property == uris->fl_nameKept     ? ASK_NAME_KEPT
           : property == uris->fl_dropKept     ? ASK_DROP_KEPT
           : property == uris->fl_takeBackKept ? ASK_TAKE_BACK_KEPT
           : property == uris->fl_useKept      ? ASK_USE_KEPT
                                               : ASKS;
}

/* Nothing is dropped, named or used without saying which. */
static bool word_fits(const Ask ask, const KeptWord* const word)
{
    return word->slot || ask == ASK_KEEP || ask == ASK_TAKE_BACK_KEPT;
}

static void take_kept(Plugin* const plugin, const Ask ask, const LV2_Atom* const value)
{
    KeptWord word;
    KeptAsk asked = {.slot = 0};
    const char* why = "the value is not of a kept selection; expected a tuple of its slot and name";
    if (decode_kept(value, &plugin->uris, &word) && word_fits(ask, &word)) {
        const size_t length = utf8_cut(word.name, (size_t)word.length, KEPT_NAME_ROOM - 1);
        asked.slot = (uint32_t)word.slot;
        memcpy(asked.name, word.name, length);
        memcpy(asked.values, plugin->ports.values, sizeof asked.values);
        if (worker_ask(&plugin->worker, ask, &asked, sizeof asked, &why)) {
            return;
        }
    }
    plugin->notify.refused = why;
}

static void take_set(Plugin* const plugin, const LV2_URID property, const LV2_Atom* const value)
{
    const Ask ask = ask_of(property, &plugin->uris);
    const Ask of_kept = ask_of_kept(property, &plugin->uris);
    if (of_kept != ASKS) {
        take_kept(plugin, of_kept, value);
    }
    const char* why = "the value is not a text; expected an atom:String";
    if (ask != ASKS &&
        (value->type != plugin->uris.atom_String ||
         !worker_ask(&plugin->worker, ask, (const char*)(value + 1), value->size, &why))) {
        plugin->notify.refused = why;
    }
}

/* Notes that keys are learned from are used up; all else goes through, if it may. */
static void take_midi(Plugin* const plugin, const MidiOutput output, const LV2_Atom* const message,
                      const uint32_t frame)
{
    const bool is_used = preview_feed_midi(&plugin->notify.preview_feed,
                                           (const uint8_t*)(message + 1), message->size);
    const bool passes = engine_settings(&plugin->engine)->through && !is_used;
    pass_midi(&plugin->through, output, message, frame, passes, &plugin->uris);
}

/* Sections of a song from a host that knows them; a new song starts from the ports. */
static void take_section(Plugin* const plugin, const ToldSection* const section)
{
    const PlanEntry entry = {.from = {section->bar, section->tick},
                             .origin = section->origin,
                             .meter = section->meter,
                             .tempo = section->tempo,
                             .ends = section->ends,
                             .settings = settings_from_controls(section->controls)};
    if (section->begins) {
        const Settings settings = snapshot_settings(plugin->snapshot, plugin->ports.values);
        engine_plan_clear(&plugin->engine);
        engine_set(&plugin->engine, &settings);
    }
    engine_plan_put(&plugin->engine, &entry);
}

static void take_report(Plugin* const plugin, const MidiOutput output, const Report* const report,
                        const uint32_t frame)
{
    const uint32_t stirs = plugin->engine.stirs;
    engine_begin(&plugin->engine, midi_output_room(output));
    engine_report(&plugin->engine, report, frame);
    plugin->unsettled += plugin->engine.stirs != stirs;
    midi_output_write(output, &plugin->engine.out, &plugin->through, &plugin->uris);
}

/* What a window or our own command says. */
static void take_message(Plugin* const plugin, const LV2_Atom* const message)
{
    const uint32_t size = (uint32_t)sizeof *message + message->size;
    const LV2_Atom* value = NULL;
    LV2_URID property = 0;
    ToldSection section;
    if (decode_section(message, size, &plugin->uris, &section)) {
        take_section(plugin, &section);
    } else if (decode_look(message, size, &plugin->uris, &property)) {
        notify_asked(&plugin->notify, property, &plugin->uris);
    } else if (decode_message(message, size, &plugin->uris, &property, &value)) {
        take_set(plugin, property, value);
    }
}

static void take_event(Plugin* const plugin, const MidiOutput output, const InputEvent event,
                       const uint32_t frame)
{
    Report report;
    if (event.body->type == plugin->uris.midi_MidiEvent) {
        take_midi(plugin, output, event.body, frame);
    } else if (input_report(event.body, &plugin->uris, &report)) {
        take_report(plugin, output, &report, frame);
    } else {
        take_message(plugin, event.body);
    }
}

/* A host that tells another place or tempo again and again within a few frames would have
   each drawn: after one, and one in each 128 frames, only the last of a block is. */
static uint32_t play_between(Plugin* const plugin, const MidiOutput output, const uint32_t done,
                             const uint32_t at, const uint32_t frames)
{
    if (at <= done || plugin->unsettled <= 1 + frames / UNSETTLED_FRAMES) {
        return play(plugin, output, done, at);
    }
    engine_hold(&plugin->engine, at - done);
    return at;
}

/* Plays from one event to the next; frames that make no sense are brought into the
   block, and none goes back. */
static uint32_t play_inbox(Plugin* const plugin, const MidiOutput output, uint32_t done,
                           const uint32_t frames)
{
    InputEvent event;
    while (inbox_next(&plugin->inbox, &event)) {
        const int64_t last = frames;
        const int64_t at = event.frame < done ? done : event.frame > last ? last : event.frame;
        done = play_between(plugin, output, done, (uint32_t)at, frames);
        take_event(plugin, output, event, done < frames || !frames ? done : frames - 1);
    }
    return done;
}

void block_run(Plugin* const plugin, const uint32_t frames)
{
    const MidiOutput output = midi_output(plugin->ports.midi_out, &plugin->uris);
    block_take_snapshot(plugin);
    take_controls(plugin);
    InputReader reader = input_reader(plugin->ports.control, &plugin->uris);
    uint32_t done = 0;
    plugin->unsettled = 0;
    if (pass_is_late(&plugin->through)) {
        pass_late(&plugin->through, output, &plugin->uris);
    }
    while (!inbox_is_empty(&plugin->inbox, &reader) && inbox_fill(&plugin->inbox, &reader)) {
        done = play_inbox(plugin, output, done, frames);
    }
    play(plugin, output, done, frames);
    ask_for_fill(plugin);
    tell_readouts(plugin);
    plugin->notify.lost_notes = plugin->through.dropped;
    notify_run(&plugin->notify, plugin->ports.notify_out, &plugin->engine, frames, &plugin->uris);
    worker_wake(&plugin->worker);
}
