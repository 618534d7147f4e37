// SPDX-License-Identifier: ISC
/* pictures FOLDER [NAME] - draws the window's states, or one, as PNG files. */
#include "stage.h"

#include <stdio.h>
#include <string.h>

int main(const int count, char** const words)
{
    int status = 0;
    for (int i = 0; i < stage_scene_count; ++i) {
        char path[4096];
        if (count > 2 && strcmp(words[2], stage_scenes[i].name) != 0) {
            continue;
        }
        snprintf(path, sizeof path, "%s/%s.png", count > 1 ? words[1] : ".", stage_scenes[i].name);
        cairo_surface_t* const surface = stage_draw(&stage_scenes[i]);
        if (cairo_surface_write_to_png(surface, path) != CAIRO_STATUS_SUCCESS) {
            fprintf(stderr, "can't write %s\n", path);
            status = 1;
        }
        cairo_surface_destroy(surface);
    }
    return status;
}
