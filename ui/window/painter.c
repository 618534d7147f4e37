// SPDX-License-Identifier: ISC
#include "painter.h"

#include "../scene/screen.h"

#include <math.h>
#include <stddef.h>

void painter_free(Painter* const painter)
{
    for (int layer = 0; layer < PANE_LAYERS; ++layer) {
        if (painter->layers[layer]) {
            cairo_surface_destroy(painter->layers[layer]);
        }
        painter->layers[layer] = NULL;
    }
    painter->width = painter->height = 0;
}

static bool has_surfaces(Painter* const painter, const int width, const int height)
{
    if (painter->width == width && painter->height == height) {
        return true;
    }
    painter_free(painter);
    bool good = true;
    for (int layer = 0; layer < PANE_LAYERS; ++layer) {
        painter->layers[layer] = cairo_image_surface_create(CAIRO_FORMAT_ARGB32, width, height);
        good = good && cairo_surface_status(painter->layers[layer]) == CAIRO_STATUS_SUCCESS;
    }
    if (!good) {
        painter_free(painter);
        return false;
    }
    painter->width = width;
    painter->height = height;
    return true;
}

/* The ground all over, so that the margins of a window under the least size are
   part of it. */
static void paint(cairo_surface_t* const surface, const Model* const model, const bool lit)
{
    cairo_t* const cairo = cairo_create(surface);
    ink_source(cairo, model->view.palette.ground);
    cairo_paint(cairo);
    cairo_translate(cairo, model->fit.x, model->fit.y);
    cairo_scale(cairo, model->fit.scale, model->fit.scale);
    screen_draw(cairo, &model->view, lit);
    cairo_destroy(cairo);
    cairo_surface_flush(surface);
}

static bool repaint(Painter* const painter, const Model* const model, Pane* const pane)
{
    bool good = true;
    const PaneRect whole = {0, 0, painter->width, painter->height};
    for (int layer = 0; layer < PANE_LAYERS; ++layer) {
        cairo_surface_t* const surface = painter->layers[layer];
        paint(surface, model, layer == PANE_LIT);
        good = pane_upload(pane, layer, cairo_image_surface_get_data(surface), painter->width,
                           painter->height, cairo_image_surface_get_stride(surface), whole) &&
               good;
    }
    return good;
}

static PaneRect real(const Model* const model, const Box box)
{
    const Fit fit = model->fit;
    const int left = (int)lround(fit.x + fit.scale * box.x);
    const int top = (int)lround(fit.y + fit.scale * box.y);
    const int right = (int)lround(fit.x + fit.scale * (box.x + box.width));
    const int bottom = (int)lround(fit.y + fit.scale * (box.y + box.height));
    return (PaneRect){left, top, right > left ? right - left : 1, bottom > top ? bottom - top : 1};
}

static void move(const Model* const model, Pane* const pane)
{
    Moving moving[MOVING_MAX];
    PaneQuad quads[MOVING_MAX];
    const int count = screen_moving(&model->view, moving);
    const Colour accent = model->view.palette.accent;
    for (int i = 0; i < count; ++i) {
        const PaneRect place = real(model, moving[i].box);
        quads[i] = (PaneQuad){.place = place,
                              .layer = moving[i].is_lit ? PANE_LIT : PANE_COLOUR,
                              .source = place,
                              .red = (float)accent.red,
                              .green = (float)accent.green,
                              .blue = (float)accent.blue,
                              .alpha = 1.0f};
    }
    pane_show(pane, quads, count);
}

bool painter_show(Painter* const painter, Model* const model, Pane* const pane, const int width,
                  const int height)
{
    if (!has_surfaces(painter, width, height)) {
        return false;
    }
    if (model->is_dirty) {
        model->is_dirty = false;
        if (!repaint(painter, model, pane)) {
            return false;
        }
    }
    move(model, pane);
    return true;
}
