// SPDX-License-Identifier: ISC
#include "stage.h"

#include "../../plugin/talk/encode.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { RATE = 48000, BLOCK = 256 };

static void write_port(void* const handle, const uint32_t port, const float value)
{
    char why[HOST_WHY_ROOM];
    Stage* const stage = (Stage*)handle;
    if (port >= PORT_FIRST_CONTROL && port < PORT_FIRST_READOUT &&
        !host_set(stage->host, control_rows[port - PORT_FIRST_CONTROL].symbol, value, why)) {
        fprintf(stderr, "the window wrote what the plugin refuses: %s\n", why);
        exit(1);
    }
}

static void say_text(void* const handle, const LV2_URID property, const char* const text)
{
    Stage* const stage = (Stage*)handle;
    LV2_Atom_Forge* const forge = host_input(stage->host);
    LV2_Atom_Forge_Frame frame;
    lv2_atom_forge_frame_time(forge, 0);
    encode_begin(forge, &frame, property, &stage->uris);
    lv2_atom_forge_string(forge, text, (uint32_t)strlen(text));
    lv2_atom_forge_pop(forge, &frame);
}

static void say_kept(void* const handle, const LV2_URID property, const KeptWord* const word)
{
    Stage* const stage = (Stage*)handle;
    LV2_Atom_Forge* const forge = host_input(stage->host);
    LV2_Atom_Forge_Frame frame;
    lv2_atom_forge_frame_time(forge, 0);
    encode_begin(forge, &frame, property, &stage->uris);
    encode_kept(forge, word);
    lv2_atom_forge_pop(forge, &frame);
}

static LV2_URID map_in_host(LV2_URID_Map_Handle handle, const char* const uri)
{
    return host_urid((Host*)handle, uri);
}

void stage_open(Stage* const stage)
{
    char why[HOST_WHY_ROOM];
    memset(stage, 0, sizeof *stage);
    stage->host = host_open(FOURLIMB_BUILD "/lv2/fourlimb.lv2", RATE, why);
    stage->bank = bank_open((BankSources){FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank", NULL, NULL});
    if (!stage->host || !stage->bank) {
        fprintf(stderr, "the stage can't be opened: %s\n", why);
        exit(1);
    }
    LV2_URID_Map map = {stage->host, map_in_host};
    stage->uris = uris_map(&map);
    stage->tempo = 126.0f;
    stage->beats_per_bar = 4.0f;
    stage->beat_unit = 4;
    controller_open(
        &stage->model, stage->bank, &stage->uris,
        (ModelOutput){.handle = stage, .write = write_port, .say = say_text, .say_kept = say_kept});
    controller_input(&stage->model, &(PaneEvent){.kind = PANE_FOCUS_IN});
}

void stage_close(Stage* const stage)
{
    controller_close(&stage->model);
    bank_free(stage->bank);
    host_close(stage->host);
}

void stage_roll(Stage* const stage, const int64_t bar, const float beat, const float speed)
{
    const double beats = (double)bar * (double)stage->beats_per_bar + (double)beat;
    const double quarters = beats * 4.0 / stage->beat_unit; /* what most hosts' tempo counts */
    stage->frame = (int64_t)(quarters * 60.0 / (double)stage->tempo * RATE);
    host_send_position(stage->host, (HostPosition){.frame = stage->frame,
                                                   .speed = speed,
                                                   .tempo = stage->tempo,
                                                   .beats_per_bar = stage->beats_per_bar,
                                                   .beat_unit = stage->beat_unit,
                                                   .has_place = true,
                                                   .bar = bar,
                                                   .bar_beat = beat});
    controller_tick(&stage->model, stage->seconds);
}

static void hand_on(Stage* const stage)
{
    const LV2_Atom_Sequence* const notify = host_notify(stage->host);
    LV2_ATOM_SEQUENCE_FOREACH (notify, event) {
        incoming_port_event(&stage->model, PORT_NOTIFY,
                            event->body.size + (uint32_t)sizeof event->body,
                            stage->uris.atom_eventTransfer, &event->body);
    }
    for (uint32_t i = 0; i < READOUT_COUNT; ++i) {
        const float value = host_get(stage->host, readout_rows[i].symbol);
        incoming_port_event(&stage->model, PORT_FIRST_READOUT + i, sizeof value, 0, &value);
    }
}

void stage_run(Stage* const stage, const double seconds)
{
    const double end = stage->seconds + seconds;
    int blocks = 0;
    while (stage->seconds < end) {
        if (blocks++ % 100 == 0) {
            LV2_Atom_Forge* const forge = host_input(stage->host);
            lv2_atom_forge_frame_time(forge, 0);
            encode_look(forge, controller_asks(&stage->model), &stage->uris);
        }
        host_run(stage->host, BLOCK);
        stage->seconds += (double)BLOCK / RATE;
        controller_tick(&stage->model, stage->seconds);
        hand_on(stage);
    }
}

void stage_key(Stage* const stage, const uint32_t key)
{
    const uint32_t text = key < PANE_KEY_UP ? key : 0;
    controller_input(&stage->model, &(PaneEvent){.kind = PANE_KEY, .key = key, .text = text});
}

void stage_text(Stage* const stage, const char* text)
{
    for (; *text; ++text) {
        stage_key(stage, (uint32_t)*text);
    }
}

static PaneEvent at_target(const Stage* const stage, const TargetId id, const PaneEventKind kind)
{
    TargetList targets;
    const Geometry g = geometry_of(&stage->model.view);
    targets_of(&stage->model.view, &g, &targets);
    const Target* const target = targets_find(&targets, id);
    if (!target) {
        fprintf(stderr, "no target %d %d\n", (int)id.kind, id.index);
        exit(1);
    }
    const Fit fit = stage->model.fit;
    return (PaneEvent){.kind = kind,
                       .x = fit.x + fit.scale * (target->box.x + 0.5 * target->box.width),
                       .y = fit.y + fit.scale * (target->box.y + 0.5 * target->box.height),
                       .button = 1};
}

void stage_point(Stage* const stage, const TargetId id)
{
    const PaneEvent event = at_target(stage, id, PANE_MOTION);
    controller_input(&stage->model, &event);
}

void stage_click(Stage* const stage, const TargetId id)
{
    PaneEvent event = at_target(stage, id, PANE_PRESS);
    controller_input(&stage->model, &event);
    event.kind = PANE_RELEASE;
    controller_input(&stage->model, &event);
}

Stage* stage_play(const StageScene* const scene)
{
    Stage* const stage = calloc(1, sizeof *stage);
    if (!stage) {
        exit(1);
    }
    stage_open(stage);
    controller_resize(&stage->model, scene->width, scene->height, scene->scale);
    scene->play(stage);
    return stage;
}

void stage_end(Stage* const stage)
{
    stage_close(stage);
    free(stage);
}

cairo_surface_t* stage_picture(const Stage* const stage)
{
    const Fit fit = stage->model.fit;
    const int width = (int)(2.0 * fit.x + fit.scale * fit.width + 0.5);
    const int height = (int)(2.0 * fit.y + fit.scale * fit.height + 0.5);
    cairo_surface_t* const surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height);
    cairo_t* const cairo = cairo_create(surface);
    cairo_translate(cairo, fit.x, fit.y);
    cairo_scale(cairo, fit.scale, fit.scale);
    screen_draw_all(cairo, &stage->model.view);
    cairo_destroy(cairo);
    return surface;
}

cairo_surface_t* stage_draw(const StageScene* const scene)
{
    Stage* const stage = stage_play(scene);
    cairo_surface_t* const surface = stage_picture(stage);
    stage_end(stage);
    return surface;
}

const StageScene* stage_scene(const char* const name)
{
    for (int i = 0; i < stage_scene_count; ++i) {
        if (!strcmp(stage_scenes[i].name, name)) {
            return &stage_scenes[i];
        }
    }
    fprintf(stderr, "there is no scene \"%s\"\n", name);
    exit(1);
}
