// SPDX-License-Identifier: ISC
/* compare.h - two pictures, and where they differ.  Antialiasing may differ by
   shades and a tile by a few pixels; a stroke or a word that moved is more. */
#pragma once

#include <cairo.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum {
    COMPARE_SHADES = 48, /* of 255 a channel */
    COMPARE_TILE = 32,   /* pixels each way */
    COMPARE_PIXELS = 16, /* of a tile's 1024 that may differ more */
};

typedef struct {
    bool same_size;
    int pixels; /* that differ, in all */
    int tiles;  /* with more than may */
    int x, y;   /* the worst tile */
    int worst;  /* pixels that differ in it */
} Compared;

static inline uint32_t compare_pixel(cairo_surface_t* const surface, const int x, const int y)
{
    const unsigned char* const rows = cairo_image_surface_get_data(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    return ((const uint32_t*)(const void*)(rows + (ptrdiff_t)y * stride))[x];
}

static inline bool compare_rows_same(cairo_surface_t* const a, cairo_surface_t* const b,
                                     const int y)
{
    const int stride = cairo_image_surface_get_stride(a);
    const size_t at = (size_t)y * (size_t)stride;
    return !memcmp(cairo_image_surface_get_data(a) + at, cairo_image_surface_get_data(b) + at,
                   (size_t)stride);
}

static inline bool compare_differs(const uint32_t a, const uint32_t b, const int shades)
{
    for (int shift = 0; shift < 24; shift += 8) {
        const int apart = (int)(a >> shift & 255U) - (int)(b >> shift & 255U);
        if (apart > shades || -apart > shades) {
            return true;
        }
    }
    return false;
}

static inline Compared compare_pictures(cairo_surface_t* const a, cairo_surface_t* const b)
{
    const int width = cairo_image_surface_get_width(a);
    const int height = cairo_image_surface_get_height(a);
    Compared found = {.same_size = width == cairo_image_surface_get_width(b) &&
                                   height == cairo_image_surface_get_height(b)};
    for (int top = 0; found.same_size && top < height; top += COMPARE_TILE) {
        for (int left = 0; left < width; left += COMPARE_TILE) {
            int count = 0;
            for (int y = top; y < top + COMPARE_TILE && y < height; ++y) {
                for (int x = left; x < left + COMPARE_TILE && x < width; ++x) {
                    count += compare_differs(compare_pixel(a, x, y), compare_pixel(b, x, y),
                                             COMPARE_SHADES);
                }
            }
            found.pixels += count;
            found.tiles += count > COMPARE_PIXELS;
            if (count > found.worst) {
                found.worst = count;
                found.x = left;
                found.y = top;
            }
        }
    }
    return found;
}

static inline bool compare_alike(const Compared difference)
{
    return difference.same_size && difference.tiles == 0;
}
