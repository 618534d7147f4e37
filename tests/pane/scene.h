// SPDX-License-Identifier: ISC
/* scene.h - a host and a pane with a picture in it. */
#pragma once

#include "host.h"

typedef struct {
    Host host;
    Pane* pane;
    int width, height;
} Scene;

/* A pane with a picture of seed 0 on the screen; false after a failed check. */
bool scene_begin(Scene* scene, int width, int height);
void scene_end(Scene* scene);

/* Uploads host_picture of that seed. */
void scene_put(const Scene* scene, int layer, int seed, PaneRect dirty);

/* How many pixels there aren't that picture's. */
int scene_strangers(const Scene* scene, PaneRect rect, int seed);
