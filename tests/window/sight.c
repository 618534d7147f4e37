// SPDX-License-Identifier: ISC
/* What is seen of a rig's window, and what ought to be. */
#include "rig.h"

#include "../../ui/scene/screen.h"

#include <X11/Xutil.h>
#include <stdio.h>
#include <stdlib.h>

static cairo_surface_t* surface_of(XImage* const image)
{
    cairo_surface_t* const surface =
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, image->width, image->height);
    unsigned char* const data = cairo_image_surface_get_data(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    for (int y = 0; y < image->height; ++y) {
        uint32_t* const row = (uint32_t*)(void*)(data + (ptrdiff_t)y * stride);
        for (int x = 0; x < image->width; ++x) {
            row[x] = (uint32_t)XGetPixel(image, x, y) & 0xffffffU;
        }
    }
    cairo_surface_mark_dirty(surface);
    return surface;
}

cairo_surface_t* rig_picture(const Rig* const rig)
{
    XWindowAttributes seen;
    const Window window = (Window)rig->widget;
    if (!XGetWindowAttributes(rig->display, window, &seen)) {
        return NULL;
    }
    XImage* const image = XGetImage(rig->display, window, 0, 0, (unsigned)seen.width,
                                    (unsigned)seen.height, AllPlanes, ZPixmap);
    cairo_surface_t* const surface = image ? surface_of(image) : NULL;
    if (image) {
        XDestroyImage(image);
    }
    return surface;
}

cairo_surface_t* rig_wanted(Rig* const rig)
{
    const Fit fit = rig->mirror.fit;
    cairo_surface_t* const surface =
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, (int)(fit.width * fit.scale + 0.5),
                                   (int)(fit.height * fit.scale + 0.5));
    cairo_t* const cairo = cairo_create(surface);
    controller_tick(&rig->mirror, rig_now());
    cairo_translate(cairo, fit.x, fit.y);
    cairo_scale(cairo, fit.scale, fit.scale);
    screen_draw_all(cairo, &rig->mirror.view);
    cairo_destroy(cairo);
    cairo_surface_flush(surface);
    return surface;
}

static bool is_far(const uint32_t a, const uint32_t b, const int slack)
{
    for (int shift = 0; shift < 24; shift += 8) {
        if (abs((int)(a >> shift & 255U) - (int)(b >> shift & 255U)) > slack) {
            return true;
        }
    }
    return false;
}

int rig_difference(cairo_surface_t* const a, cairo_surface_t* const b, const int slack)
{
    const int width = cairo_image_surface_get_width(a);
    const int height = cairo_image_surface_get_height(a);
    const int stride = cairo_image_surface_get_stride(a);
    int count = 0;
    if (width != cairo_image_surface_get_width(b) || height != cairo_image_surface_get_height(b)) {
        return -1;
    }
    for (int y = 0; y < height; ++y) {
        const ptrdiff_t at = (ptrdiff_t)y * stride;
        const uint32_t* const left =
            (const uint32_t*)(const void*)(cairo_image_surface_get_data(a) + at);
        const uint32_t* const right =
            (const uint32_t*)(const void*)(cairo_image_surface_get_data(b) + at);
        for (int x = 0; x < width; ++x) {
            count += is_far(left[x], right[x], slack);
        }
    }
    return count;
}

void rig_find(const Rig* const rig, const TargetId id, int* const x, int* const y)
{
    TargetList targets;
    const View* const view = &rig->mirror.view;
    const Geometry g = geometry_of(view);
    targets_of(view, &g, &targets);
    const Target* const target = targets_find(&targets, id);
    if (!target) {
        printf("# there is no target %d %d\n", (int)id.kind, id.index);
        exit(1);
    }
    const Fit fit = rig->mirror.fit;
    Window inside;
    int left = 0;
    int top = 0;
    XTranslateCoordinates(rig->display, (Window)rig->widget, DefaultRootWindow(rig->display), 0, 0,
                          &left, &top, &inside);
    *x = left + (int)(fit.x + fit.scale * (target->box.x + 0.5 * target->box.width));
    *y = top + (int)(fit.y + fit.scale * (target->box.y + 0.5 * target->box.height));
}
