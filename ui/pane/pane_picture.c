// SPDX-License-Identifier: ISC
#include "pane_inside.h"

#include <stdlib.h>
#include <string.h>

bool pane_picture_is_own(const Pane* const pane)
{
    return pane->context && glXGetCurrentContext() == pane->context &&
           glXGetCurrentDrawable() == pane->window;
}

/* ---- Once */

/* Whether `list`, names between spaces, has the name. */
static bool lists(const char* list, const char* const name)
{
    const size_t length = strlen(name);
    for (const char* at = list ? strstr(list, name) : NULL; at; at = strstr(at + length, name)) {
        if ((at == list || at[-1] == ' ') && (at[length] == ' ' || at[length] == '\0')) {
            return true;
        }
    }
    return false;
}

/* A swap must not wait for the screen: the host's thread has other things to do.
   The SGI extension can't say "never", so it isn't asked. */
static void dont_wait_for_the_screen(const Pane* const pane)
{
    const char* const extensions =
        glXQueryExtensionsString(pane->display, DefaultScreen(pane->display));
    if (lists(extensions, "GLX_EXT_swap_control")) {
        void (*const set)(Display*, GLXDrawable, int) = (void (*)(
            Display*, GLXDrawable, int))glXGetProcAddressARB((const GLubyte*)"glXSwapIntervalEXT");
        set(pane->display, pane->window, 0);
    } else if (lists(extensions, "GLX_MESA_swap_control")) {
        int (*const set)(unsigned) =
            (int (*)(unsigned))glXGetProcAddressARB((const GLubyte*)"glXSwapIntervalMESA");
        set(0);
    }
}

void pane_picture_prepare(Pane* const pane)
{
    const char* const version = (const char*)glGetString(GL_VERSION);
    pane->any_size =
        (version && strtol(version, NULL, 10) >= 2) ||
        lists((const char*)glGetString(GL_EXTENSIONS), "GL_ARB_texture_non_power_of_two");
    glGetIntegerv(GL_MAX_TEXTURE_SIZE, &pane->largest);
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_DITHER);
    glDepthMask(GL_FALSE);
    glClearColor(0, 0, 0, 1);
    glTexEnvi(GL_TEXTURE_ENV, GL_TEXTURE_ENV_MODE, GL_REPLACE);
    glBlendFunc(GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
    dont_wait_for_the_screen(pane);
}

/* ---- Pictures */

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

static PaneRect within(const PaneRect rect, const int width, const int height)
{
    const int left = rect.x > 0 ? rect.x : 0;
    const int top = rect.y > 0 ? rect.y : 0;
    const int64_t right = (int64_t)rect.x + rect.width;
    const int64_t bottom = (int64_t)rect.y + rect.height;
    return (PaneRect){left, top, (int)(right < width ? right : width) - left,
                      (int)(bottom < height ? bottom : height) - top};
}

static bool upload(Pane* const pane, PaneLayer* const layer, const unsigned char* const pixels,
                   const int width, const int height, const int stride, const PaneRect dirty)
{
    const bool resized = width != layer->width || height != layer->height;
    const PaneRect part = within(resized ? (PaneRect){0, 0, width, height} : dirty, width, height);
    if (part.width <= 0 || part.height <= 0) {
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
    pane->dirty = true;
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

void pane_picture_delete(Pane* const pane)
{
    for (int i = 0; i < PANE_LAYERS; ++i) {
        glDeleteTextures(1, &pane->layers[i].name);
        pane->layers[i] = (PaneLayer){0};
    }
}

/* ---- What is shown */

static bool same_rect(const PaneRect a, const PaneRect b)
{
    return a.x == b.x && a.y == b.y && a.width == b.width && a.height == b.height;
}

static bool same_number(const float a, const float b)
{
    return a <= b && a >= b;
}

static bool same_quad(const PaneQuad* const a, const PaneQuad* const b)
{
    return same_rect(a->place, b->place) && a->layer == b->layer &&
           same_rect(a->source, b->source) && same_number(a->red, b->red) &&
           same_number(a->green, b->green) && same_number(a->blue, b->blue) &&
           same_number(a->alpha, b->alpha);
}

void pane_show(Pane* const pane, const PaneQuad* const quads, const int count)
{
    const int least = count > 0 ? count : 0;
    const int shown = least < PANE_QUADS_MAX ? least : PANE_QUADS_MAX;
    bool same = shown == pane->quad_count;
    for (int i = 0; i < shown; ++i) {
        same = same && same_quad(&pane->quads[i], &quads[i]);
        pane->quads[i] = quads[i];
    }
    pane->quad_count = shown;
    pane->dirty = pane->dirty || !same;
}

void pane_picture_reshape(const int width, const int height)
{
    glViewport(0, 0, width, height);
    glMatrixMode(GL_PROJECTION);
    glLoadIdentity();
    glOrtho(0, width, height, 0, -1, 1);
    glMatrixMode(GL_MODELVIEW);
    glLoadIdentity();
}

static void corners(const PaneRect place)
{
    glVertex2i(place.x, place.y);
    glVertex2i(place.x + place.width, place.y);
    glVertex2i(place.x + place.width, place.y + place.height);
    glVertex2i(place.x, place.y + place.height);
}

static void cut(const PaneLayer* const layer, const PaneRect place, const PaneRect source)
{
    if (!layer->name) {
        return;
    }
    const double left = (double)source.x / layer->room_width;
    const double top = (double)source.y / layer->room_height;
    const double right = (double)(source.x + source.width) / layer->room_width;
    const double bottom = (double)(source.y + source.height) / layer->room_height;
    glEnable(GL_TEXTURE_2D);
    glBindTexture(GL_TEXTURE_2D, layer->name);
    glBegin(GL_QUADS);
    glTexCoord2d(left, top);
    glVertex2i(place.x, place.y);
    glTexCoord2d(right, top);
    glVertex2i(place.x + place.width, place.y);
    glTexCoord2d(right, bottom);
    glVertex2i(place.x + place.width, place.y + place.height);
    glTexCoord2d(left, bottom);
    glVertex2i(place.x, place.y + place.height);
    glEnd();
    glDisable(GL_TEXTURE_2D);
}

static void draw_quad(const Pane* const pane, const PaneQuad* const quad)
{
    const bool opaque = quad->layer == PANE_PLAIN || (quad->layer < 0 && quad->alpha >= 1);
    if (!opaque) {
        glEnable(GL_BLEND);
    }
    if (quad->layer >= 0 && quad->layer < PANE_LAYERS) {
        cut(&pane->layers[quad->layer], quad->place, quad->source);
    } else {
        glColor4f(quad->red * quad->alpha, quad->green * quad->alpha, quad->blue * quad->alpha,
                  quad->alpha);
        glBegin(GL_QUADS);
        corners(quad->place);
        glEnd();
    }
    glDisable(GL_BLEND);
}

/* Pugl clears all before it calls this.  As this ends with a scissor that lets
   nothing through, that costs nothing, and only what stays bare is cleared. */
void pane_picture_draw(const Pane* const pane)
{
    const PaneLayer* const plain = &pane->layers[PANE_PLAIN];
    const PaneRect whole = {0, 0, plain->width, plain->height};
    glDisable(GL_SCISSOR_TEST);
    if (plain->width < pane->width || plain->height < pane->height) {
        glClear(GL_COLOR_BUFFER_BIT);
    }
    cut(plain, whole, whole);
    for (int i = 0; i < pane->quad_count; ++i) {
        draw_quad(pane, &pane->quads[i]);
    }
    glEnable(GL_SCISSOR_TEST);
    glScissor(0, 0, 0, 0);
}
