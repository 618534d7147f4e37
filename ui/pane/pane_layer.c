// SPDX-License-Identifier: ISC
/* The two pictures, as textures. */
#include "pane_inside.h"

static int room_for(const Pane* const pane, const int length)
{
    int room = pane->any_size ? length : 1;
    while (room < length) {
        room *= 2;
    }
    return room;
}

static bool make_room(const Pane* const pane, PaneLayer* const layer, const int width,
                      const int height)
{
    const int across = room_for(pane, width);
    const int down = room_for(pane, height);
    if (layer->name && across == layer->room_width && down == layer->room_height) {
        glBindTexture(GL_TEXTURE_2D, layer->name);
        return true;
    }
    GLuint name = 0;
    glGenTextures(1, &name);
    glBindTexture(GL_TEXTURE_2D, name);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
    while (glGetError() != GL_NO_ERROR) {
    }
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, across, down, 0, GL_BGRA, GL_UNSIGNED_INT_8_8_8_8_REV,
                 NULL);
    if (glGetError() != GL_NO_ERROR) {
        glDeleteTextures(1, &name);
        return false;
    }
    glDeleteTextures(1, &layer->name);
    *layer = (PaneLayer){.name = name, .room_width = across, .room_height = down};
    return true;
}

static bool upload(Pane* const pane, PaneLayer* const layer, const unsigned char* const pixels,
                   const int width, const int height, const int stride, const PaneRect dirty)
{
    const bool resized = width != layer->width || height != layer->height;
    const PaneRect part =
        pane_within(resized ? (PaneRect){0, 0, width, height} : dirty, width, height);
    if (pane_is_empty(part)) {
        return true;
    }
    if (!make_room(pane, layer, width, height)) {
        return false;
    }
    layer->width = width;
    layer->height = height;
    glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
    glPixelStorei(GL_UNPACK_ROW_LENGTH, stride / 4);
    glTexSubImage2D(GL_TEXTURE_2D, 0, part.x, part.y, part.width, part.height, GL_BGRA,
                    GL_UNSIGNED_INT_8_8_8_8_REV,
                    pixels + (ptrdiff_t)part.y * stride + (ptrdiff_t)part.x * 4);
    if (resized || layer == &pane->layers[PANE_LIT]) {
        pane_damage_all(pane);
    } else {
        pane_damage(pane, part);
    }
    return true;
}

bool pane_upload(Pane* const pane, const int layer, const unsigned char* const pixels,
                 const int width, const int height, const int stride, const PaneRect dirty)
{
    if (layer < 0 || layer >= PANE_LAYERS || width < 1 || height < 1 || width > pane->largest ||
        height > pane->largest) {
        return false;
    }
    const PaneHost host = pane_guard_enter(pane);
    const bool done = pane_make_current(pane) &&
                      upload(pane, &pane->layers[layer], pixels, width, height, stride, dirty);
    pane_guard_leave(pane, &host);
    return done;
}

int pane_largest(const Pane* const pane)
{
    return pane->largest;
}

void pane_layer_delete(Pane* const pane)
{
    for (int i = 0; i < PANE_LAYERS; ++i) {
        glDeleteTextures(1, &pane->layers[i].name);
        pane->layers[i] = (PaneLayer){0};
    }
}
