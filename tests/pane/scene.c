// SPDX-License-Identifier: ISC
#include "scene.h"

#include "../help/check.h"

#include <stdlib.h>

void scene_put(const Scene* const scene, const int layer, const int seed, const PaneRect dirty)
{
    uint32_t* const picture = host_picture(scene->width, scene->height, seed);
    CHECK(pane_upload(scene->pane, layer, (const unsigned char*)picture, scene->width,
                      scene->height, 4 * scene->width, dirty));
    free(picture);
}

bool scene_begin(Scene* const scene, const int width, const int height)
{
    *scene = (Scene){.width = width, .height = height};
    if (!host_start(&scene->host)) {
        return false;
    }
    scene->pane = host_open(&scene->host, width, height);
    if (!scene->pane) {
        return false;
    }
    scene_put(scene, PANE_PLAIN, 0, (PaneRect){0});
    return CHECK(host_settle(&scene->host, scene->pane));
}

void scene_end(Scene* const scene)
{
    pane_close(scene->pane);
    host_end(&scene->host);
}

int scene_strangers(const Scene* const scene, const PaneRect rect, const int seed)
{
    return host_strangers(&scene->host, scene->pane, rect, seed);
}
