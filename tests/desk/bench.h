// SPDX-License-Identifier: ISC
/* bench.h - the desk and the real plugin in the offline host of tests/scene/stage.h,
   with a bank of the user's own in a folder of this test's, a mouse that points at
   beats, and an ear on the MIDI.  4/4 at 120, without feel, the left foot on a key of
   its own: keys are those of General MIDI Level 1's percussion map. */
#pragma once

#include "../../plugin/bank/single.h"
#include "../../plugin/talk/encode.h"
#include "../../ui/window/export.h"
#include "../help/check.h"
#include "../scene/stage.h"
#include "home.h"

#include <lv2/atom/util.h>
#include <lv2/midi/midi.h>

enum { KICK = 36, KICK_LEFT = 35, SNARE = 38, HAT = 42, PEDAL = 44, Q = TICKS_PER_QUARTER };
enum { BENCH_RATE = 48000, BENCH_BLOCK = 240, QUARTER_FRAMES = 24000, NOTES_MAX = 1024 };

typedef struct {
    int64_t frame; /* from where playing began */
    uint8_t key;
    uint8_t velocity;
} Note;

typedef struct {
    Stage stage; /* first: the desk's handle is both */
    int64_t frame;
    int count;
    Note notes[NOTES_MAX];
    int sounding[128];                                              /* begun and not ended */
    void (*say)(void* handle, LV2_URID property, const char* text); /* the stage's */
    int refused;                                                    /* by the plugin */
    char why[256];                                                  /* the last refusal */
    int said;                                                       /* texts that the desk sent */
    bool is_deaf;  /* nothing that the plugin says is handed on */
    int written;   /* files asked for */
    bool straight; /* the last of them */
} Bench;

static inline bool same_notes(const Note* const a, const Note* const b, const int count)
{
    bool same = true;
    for (int i = 0; same && i < count; ++i) {
        same = a[i].frame == b[i].frame && a[i].key == b[i].key && a[i].velocity == b[i].velocity;
    }
    return same;
}

/* ---- The desk's other doors */

static inline void bench_read_bank(void* const handle, const char* const entries)
{
    Bench* const bench = (Bench*)handle;
    Bank* const bank = bank_open_bundle(FOURLIMB_BUILD "/lv2/fourlimb.lv2", entries);
    if (bank && controller_bank(&bench->stage.model, bank)) {
        bank_free(bench->stage.bank);
        bench->stage.bank = bank;
    }
}

static inline void bench_write_file(void* const handle, const bool straight)
{
    Bench* const bench = (Bench*)handle;
    ++bench->written;
    bench->straight = straight;
    export_write(&bench->stage.model, straight);
}

static inline void bench_write_handout(void* const handle)
{
    export_handout(&((Bench*)handle)->stage.model);
}

static inline View* bench_view(Bench* const bench)
{
    return &bench->stage.model.view;
}

/* As if the host had set it: the window is told. */
static inline void bench_set(Bench* const bench, const Control control, const double value)
{
    char why[HOST_WHY_ROOM];
    const float number = (float)value;
    if (!host_set(bench->stage.host, control_rows[control].symbol, number, why)) {
        printf("# %s\n", why);
        exit(2);
    }
    incoming_port_event(&bench->stage.model, (uint32_t)(PORT_FIRST_CONTROL + control),
                        sizeof number, 0, &number);
}

/* ---- Running */

static inline void bench_take_midi(Bench* const bench)
{
    LV2_ATOM_SEQUENCE_FOREACH (host_midi(bench->stage.host), event) {
        const uint8_t* const bytes = (const uint8_t*)(event + 1);
        const bool begins = (bytes[0] & 0xF0) == LV2_MIDI_MSG_NOTE_ON && bytes[2] > 0;
        bench->sounding[bytes[1] & 127] += begins ? 1 : -1;
        if (begins && bench->count < NOTES_MAX) {
            bench->notes[bench->count++] =
                (Note){bench->frame + event->time.frames, bytes[1], bytes[2]};
        }
    }
}

static inline void bench_take_notify(Bench* const bench)
{
    Stage* const stage = &bench->stage;
    LV2_ATOM_SEQUENCE_FOREACH (host_notify(stage->host), event) {
        const LV2_Atom* why = NULL;
        lv2_atom_object_get((const LV2_Atom_Object*)&event->body, stage->uris.fl_refused, &why, 0);
        if (why) {
            ++bench->refused;
            snprintf(bench->why, sizeof bench->why, "%s", (const char*)(why + 1));
        }
        if (!bench->is_deaf) {
            incoming_port_event(&stage->model, PORT_NOTIFY,
                                event->body.size + (uint32_t)sizeof event->body,
                                stage->uris.atom_eventTransfer, &event->body);
        }
    }
    for (uint32_t i = 0; i < READOUT_COUNT; ++i) {
        const float value = host_get(stage->host, readout_rows[i].symbol);
        incoming_port_event(&stage->model, PORT_FIRST_READOUT + i, sizeof value, 0, &value);
    }
}

static inline void bench_run(Bench* const bench, const int64_t frames)
{
    Stage* const stage = &bench->stage;
    for (const int64_t end = bench->frame + frames; bench->frame < end;) {
        if (bench->frame % BENCH_RATE < BENCH_BLOCK) { /* once a second, as the window does */
            LV2_Atom_Forge* const forge = host_input(stage->host);
            lv2_atom_forge_frame_time(forge, 0);
            encode_look(forge, controller_asks(&stage->model), &stage->uris);
        }
        host_run(stage->host, BENCH_BLOCK);
        bench_take_midi(bench);
        bench->frame += BENCH_BLOCK;
        stage->seconds += (double)BENCH_BLOCK / BENCH_RATE;
        controller_tick(&stage->model, stage->seconds);
        bench_take_notify(bench);
    }
}

/* Long enough for the worker and for every bar of a phrase to be told. */
static inline void bench_settle(Bench* const bench)
{
    bench_run(bench, BENCH_RATE / 2);
}

static inline void bench_say(void* const handle, const LV2_URID property, const char* const text)
{
    Bench* const bench = (Bench*)handle;
    ++bench->said;
    bench->say(handle, property, text);
}

/* Standing at bar 0 with the bench's groove and the Edit panel open. */
static inline Bench* bench_open(void)
{
    Bench* const bench = calloc(1, sizeof *bench);
    if (!bench) {
        exit(2);
    }
    stage_open(&bench->stage);
    Model* const model = &bench->stage.model;
    bench->say = model->output.say;
    model->output.say = bench_say;
    model->output.read_bank = bench_read_bank;
    model->output.write_file = bench_write_file;
    model->output.file_folder = export_folder;
    model->output.complete = export_complete;
    model->output.write_handout = bench_write_handout;
    bench_read_bank(bench, "");
    bench->stage.tempo = 120.0f;
    bench_set(bench, CONTROL_GROOVE, GROOVE);
    bench_set(bench, CONTROL_LOOSENESS, 0);
    bench_set(bench, CONTROL_TOUCH, 0);
    bench_set(bench, CONTROL_LIBERTY, 0);
    bench_set(bench, CONTROL_SPLIT_FEET, 1);
    bench_run(bench, BENCH_BLOCK);
    stage_roll(&bench->stage, 0, 0.0f, 0.0f);
    bench_settle(bench);
    stage_click(&bench->stage, (TargetId){TARGET_TAB, PANEL_EDIT});
    return bench;
}

static inline void bench_close(Bench* const bench)
{
    stage_close(&bench->stage);
    free(bench);
}

/* A control as the host sets it, and what comes of it told. */
static inline void bench_pick(Bench* const bench, const Control control, const double value)
{
    bench_set(bench, control, value);
    bench_settle(bench);
}

static inline void bench_stop(Bench* const bench)
{
    stage_roll(&bench->stage, 0, 0.0f, 1.0f);
    bench_run(bench, BENCH_BLOCK);
    stage_roll(&bench->stage, 0, 0.0f, 0.0f);
    bench_settle(bench);
}

/* The transport stands in the first phrase, and a bar of it is looked at. */
static inline void bench_stand(Bench* const bench, const int bar)
{
    bench_stop(bench);
    stage_click(&bench->stage, (TargetId){TARGET_BAR, bar});
}

/* Plays some quarters from a bar line on, as heard from frame 0, and stops at bar 0. */
static inline void bench_play(Bench* const bench, const int64_t bar, const double quarters)
{
    bench->frame = 0;
    bench->count = 0;
    stage_roll(&bench->stage, bar, 0.0f, 1.0f);
    bench_run(bench, (int64_t)(quarters * QUARTER_FRAMES));
    const int count = bench->count;
    bench_stop(bench);
    bench->count = count;
}

/* Which of the steps from the beginning begin a note of the key. */
static inline const char* bench_steps(const Bench* const bench, const uint8_t key, const int grid,
                                      const int count)
{
    static char steps[128];
    memset(steps, '.', sizeof steps);
    steps[count] = '\0';
    for (int i = 0; i < bench->count; ++i) {
        const int64_t step = QUARTER_FRAMES / grid;
        const int64_t at = (bench->notes[i].frame + step / 2) / step;
        const int64_t off = bench->notes[i].frame - at * step;
        if (bench->notes[i].key == key && at < count) {
            steps[at] = off > 1 || off < -1 ? '?' : 'o';
        }
    }
    return steps;
}

/* One bar of 4/4 in sixteenths. */
static inline const char* bench_bar(Bench* const bench, const int64_t bar, const uint8_t key)
{
    bench_play(bench, bar, 4.0);
    return bench_steps(bench, key, 4, 16);
}

/* The velocity of the note that begins on a step of the bar heard last; 0: none. */
static inline int bench_velocity(const Bench* const bench, const uint8_t key, const int sixteenth)
{
    for (int i = 0; i < bench->count; ++i) {
        const int64_t off = bench->notes[i].frame - (int64_t)sixteenth * QUARTER_FRAMES / 4;
        if (bench->notes[i].key == key && off <= 1 && off >= -1) {
            return bench->notes[i].velocity;
        }
    }
    return 0;
}

/* ---- The mouse */

/* A place in a limb's row, quarters from the bar line, in real pixels. */
static inline PaneEvent bench_place(const Bench* const bench, const int limb, const double quarters)
{
    const Model* const model = &bench->stage.model;
    const Geometry g = geometry_of(&model->view);
    const SeenBar* const bar = view_bar(&model->view, view_shown(&model->view));
    const BarSpace space = geometry_bar(&g, bar ? bar->meter : (Meter){4.0, 4});
    const double x = geometry_tick(&g, space, quarters * Q);
    const double y = (g.row_top[limb] + g.row_bottom[limb]) / 2.0;
    return (PaneEvent){.x = model->fit.x + model->fit.scale * x,
                       .y = model->fit.y + model->fit.scale * y,
                       .button = 1};
}

static inline void bench_mouse(Bench* const bench, PaneEvent event, const PaneEventKind kind)
{
    event.kind = kind;
    controller_input(&bench->stage.model, &event);
}

static inline void bench_drag(Bench* const bench, const int limb, const double from,
                              const double to, const double down, const uint32_t modifiers)
{
    PaneEvent event = bench_place(bench, limb, from);
    event.modifiers = modifiers;
    bench_mouse(bench, event, PANE_MOTION);
    bench_mouse(bench, event, PANE_PRESS);
    event.x = bench_place(bench, limb, to).x;
    for (int i = 1; i <= 8; ++i) {
        PaneEvent on_the_way = event;
        on_the_way.y += bench->stage.model.fit.scale * down * i / 8.0;
        bench_mouse(bench, on_the_way, PANE_MOTION);
    }
    event.y += bench->stage.model.fit.scale * down;
    bench_mouse(bench, event, PANE_RELEASE);
    bench_settle(bench);
}

static inline void bench_button(Bench* const bench, const int limb, const double quarters,
                                const int button, const uint32_t modifiers)
{
    PaneEvent event = bench_place(bench, limb, quarters);
    event.button = button;
    event.modifiers = modifiers;
    bench_mouse(bench, event, PANE_MOTION);
    bench_mouse(bench, event, PANE_PRESS);
    bench_mouse(bench, event, PANE_RELEASE);
}

static inline void bench_click(Bench* const bench, const int limb, const double quarters)
{
    bench_button(bench, limb, quarters, 1, 0);
    bench_settle(bench);
}

static inline void bench_item(Bench* const bench, const EditItem item)
{
    stage_click(&bench->stage, (TargetId){TARGET_EDIT, (int)item});
    bench_settle(bench);
}

static inline void bench_hands(Bench* const bench)
{
    while (bench_view(bench)->edit.pair == PAIR_FEET) {
        bench_item(bench, EDIT_PAIR);
    }
}

/* Types a name into its field, over what is there. */
static inline void bench_name(Bench* const bench, const char* const name)
{
    bench_item(bench, EDIT_NAME);
    for (int i = 0; i < TYPED_ROOM; ++i) {
        stage_key(&bench->stage, PANE_KEY_BACKSPACE);
    }
    stage_text(&bench->stage, name);
    stage_key(&bench->stage, PANE_KEY_ENTER);
}

static inline void bench_save(Bench* const bench, const char* const name)
{
    bench_name(bench, name);
    bench_item(bench, EDIT_SAVE);
}

static inline const char* bench_note(Bench* const bench)
{
    return bench_view(bench)->edit.note;
}

static inline bool bench_notes(Bench* const bench, const char* const words)
{
    const bool has = strstr(bench_note(bench), words);
    if (!has) {
        printf("# the note is \"%s\", not \"%s\"\n", bench_note(bench), words);
    }
    return has;
}

/* The entry of the picker with a name; NULL if it lists none. */
static inline const Entry* listed(Bench* const bench, const EntryKind shelf,
                                  const char* const label)
{
    const Shelf* const entries = &bench_view(bench)->shelves[shelf];
    for (int i = 0; i < entries->count; ++i) {
        if (!strcmp(entries->entries[i].label, label)) {
            return &entries->entries[i];
        }
    }
    return NULL;
}

static inline int control_of(Bench* const bench, const char* const symbol)
{
    return (int)host_get(bench->stage.host, symbol);
}
