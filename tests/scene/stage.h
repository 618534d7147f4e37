// SPDX-License-Identifier: ISC
/* stage.h - the window's states, played by the real plugin in an offline host and
   drawn to pictures: for the golden pictures and for looking at. */
#pragma once

#include "../../ui/command/host.h"
#include "../../ui/desk/controller.h"
#include "../../ui/desk/incoming.h"
#include "../../ui/scene/screen.h"

typedef struct {
    Host* host;
    Bank* bank;
    Uris uris;
    Model model;
    double seconds;
    int64_t frame;
    float tempo;
    int32_t beat_unit;
    float beats_per_bar;
} Stage;

/* Opens the built bundle; ends the program with a message if that can't be done. */
void stage_open(Stage* stage);
void stage_close(Stage* stage);

/* The host's transport from bar and beat on, rolling or not. */
void stage_roll(Stage* stage, int64_t bar, float beat, float speed);

/* Runs so many seconds, handing everything on to the desk as a host does. */
void stage_run(Stage* stage, double seconds);

/* A key, a click at a target, the pointer over one. */
void stage_key(Stage* stage, uint32_t key);
void stage_text(Stage* stage, const char* text);
void stage_point(Stage* stage, TargetId id);
void stage_click(Stage* stage, TargetId id);

/* A state by name, and how many there are. */
typedef struct {
    const char* name;
    int width; /* real pixels */
    int height;
    double scale;
    void (*play)(Stage* stage);
} StageScene;

extern const StageScene stage_scenes[];
extern const int stage_scene_count;

/* Plays a scene from the beginning; a picture of how it stands; its end. */
Stage* stage_play(const StageScene* scene);
cairo_surface_t* stage_picture(const Stage* stage);
void stage_end(Stage* stage);

/* The scene of this name; ends the program if there is none. */
const StageScene* stage_scene(const char* name);

/* All three. */
cairo_surface_t* stage_draw(const StageScene* scene);
