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

/* Software GL draws each pixel by hand, and copies each to the screen: only what
   changed is then a sixth of the work (tests/bench/pane.c).  A graphics card gains
   nothing, so it keeps to the common way. */
static void show_parts_if_by_hand(Pane* const pane)
{
    static const char* const by_hand[] = {"llvmpipe", "softpipe", "Software Rasterizer"};
    const char* const renderer = (const char*)glGetString(GL_RENDERER);
    bool found = false;
    for (size_t i = 0; i < sizeof by_hand / sizeof *by_hand; ++i) {
        found = found || (renderer && strstr(renderer, by_hand[i]));
    }
    if (found && lists(glXQueryExtensionsString(pane->display, DefaultScreen(pane->display)),
                       "GLX_MESA_copy_sub_buffer")) {
        pane->show_part = (PFNGLXCOPYSUBBUFFERMESAPROC)glXGetProcAddressARB(
            (const GLubyte*)"glXCopySubBufferMESA");
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
    show_parts_if_by_hand(pane);
}

/* ---- Damage */

static bool is_empty(const PaneRect rect)
{
    return rect.width <= 0 || rect.height <= 0;
}

static int least(const int a, const int b)
{
    return a < b ? a : b;
}

static int most(const int a, const int b)
{
    return a > b ? a : b;
}

static PaneRect within(const PaneRect rect, const int width, const int height)
{
    const int left = most(rect.x, 0);
    const int top = most(rect.y, 0);
    const int64_t right = (int64_t)rect.x + rect.width;
    const int64_t bottom = (int64_t)rect.y + rect.height;
    return (PaneRect){left, top, (int)(right < width ? right : width) - left,
                      (int)(bottom < height ? bottom : height) - top};
}

/* One rectangle around all: what moves is mostly in one place. */
void pane_damage(Pane* const pane, const PaneRect part)
{
    const PaneRect more = within(part, pane->width, pane->height);
    const PaneRect old = pane->dirty ? pane->damage : (PaneRect){0};
    pane->dirty = true;
    if (is_empty(more)) {
        pane->damage = old;
    } else if (is_empty(old)) {
        pane->damage = more;
    } else {
        const int left = least(old.x, more.x);
        const int top = least(old.y, more.y);
        pane->damage = (PaneRect){left, top, most(old.x + old.width, more.x + more.width) - left,
                                  most(old.y + old.height, more.y + more.height) - top};
    }
}

void pane_damage_all(Pane* const pane)
{
    pane_damage(pane, (PaneRect){0, 0, pane->width, pane->height});
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

static bool upload(Pane* const pane, PaneLayer* const layer, const unsigned char* const pixels,
                   const int width, const int height, const int stride, const PaneRect dirty)
{
    const bool resized = width != layer->width || height != layer->height;
    const PaneRect part = within(resized ? (PaneRect){0, 0, width, height} : dirty, width, height);
    if (is_empty(part)) {
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

/* A quad that one of both doesn't have is empty. */
static void replace_quad(Pane* const pane, const int i, const PaneQuad* const quad)
{
    if (i >= pane->quad_count || !quad || !same_quad(&pane->quads[i], quad)) {
        pane_damage(pane, i < pane->quad_count ? pane->quads[i].place : (PaneRect){0});
        pane_damage(pane, quad ? quad->place : (PaneRect){0});
    }
    if (quad) {
        pane->quads[i] = *quad;
    }
}

void pane_show(Pane* const pane, const PaneQuad* const quads, const int count)
{
    const int shown = least(most(count, 0), PANE_QUADS_MAX);
    for (int i = 0; i < most(shown, pane->quad_count); ++i) {
        replace_quad(pane, i, i < shown ? &quads[i] : NULL);
    }
    pane->quad_count = shown;
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

static void draw_all(const Pane* const pane)
{
    const PaneLayer* const plain = &pane->layers[PANE_PLAIN];
    const PaneRect whole = {0, 0, plain->width, plain->height};
    if (plain->width < pane->width || plain->height < pane->height) {
        glClear(GL_COLOR_BUFFER_BIT);
    }
    cut(plain, whole, whole);
    for (int i = 0; i < pane->quad_count; ++i) {
        draw_quad(pane, &pane->quads[i]);
    }
}

/* Pugl clears all before it calls this.  As this ends with a scissor that lets
   nothing through, that costs nothing, and only what stays bare is cleared. */
void pane_picture_draw(Pane* const pane)
{
    glDisable(GL_SCISSOR_TEST);
    draw_all(pane);
    glEnable(GL_SCISSOR_TEST);
    glScissor(0, 0, 0, 0);
    pane->swap = false;
}

void pane_picture_draw_part(const Pane* const pane)
{
    const PaneRect part = within(pane->damage, pane->width, pane->height);
    if (is_empty(part)) {
        return;
    }
    const int bottom = pane->height - part.y - part.height; /* GL counts from there */
    glEnable(GL_SCISSOR_TEST);
    glScissor(part.x, bottom, part.width, part.height);
    draw_all(pane);
    pane->show_part(pane->display, pane->window, part.x, bottom, part.width, part.height);
    glScissor(0, 0, 0, 0);
}
