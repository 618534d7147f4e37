// SPDX-License-Identifier: ISC
#include "pane_inside.h"

#include <stdlib.h>
#include <string.h>

bool pane_draw_can(const Pane* const pane)
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

void pane_draw_prepare(Pane* const pane)
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

/* ---- Drawing */

void pane_draw_reshape(const int width, const int height)
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

/* Where there is one buffer only, the swap does nothing (GLX 1.4, 3.3.10). */
void pane_draw(Pane* const pane)
{
    glDisable(GL_SCISSOR_TEST);
    draw_all(pane);
    glFlush();
    glXSwapBuffers(pane->display, pane->window);
    pane->swap = false;
}

void pane_draw_part(const Pane* const pane)
{
    const PaneRect part = pane_within(pane->damage, pane->width, pane->height);
    if (pane_is_empty(part)) {
        return;
    }
    const int bottom = pane->height - part.y - part.height; /* GL counts from there */
    glEnable(GL_SCISSOR_TEST);
    glScissor(part.x, bottom, part.width, part.height);
    draw_all(pane);
    pane->show_part(pane->display, pane->window, part.x, bottom, part.width, part.height);
}
