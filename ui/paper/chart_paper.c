// SPDX-License-Identifier: ISC
#include "chart_paper.h"

#include "../scene/chart.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <stddef.h>
#include <string.h>

enum { PNG_SCALE = 2 }; /* pixels a point */

static cairo_status_t append(void* const handle, const unsigned char* const data,
                             const unsigned size)
{
    Bytes* const file = (Bytes*)handle;
    bytes_append(file, data, size);
    return file->failed ? CAIRO_STATUS_NO_MEMORY : CAIRO_STATUS_SUCCESS;
}

/* All pages under each other, for files that have but one. */
static void draw_tall(cairo_t* const cairo, const Sheet* const sheet)
{
    for (int page = 0; page < chart_pages(sheet); ++page) {
        cairo_save(cairo);
        cairo_translate(cairo, 0.0, (double)page * chart_height(sheet));
        cairo_rectangle(cairo, 0.0, 0.0, CHART_WIDTH, chart_height(sheet));
        cairo_clip(cairo);
        chart_draw_page(cairo, sheet, page);
        cairo_restore(cairo);
    }
}

static void draw_pages(cairo_t* const cairo, const Sheet* const sheet)
{
    for (int page = 0; page < chart_pages(sheet); ++page) {
        chart_draw_page(cairo, sheet, page);
        cairo_show_page(cairo);
    }
}

static cairo_status_t finish(cairo_t* const cairo, cairo_surface_t* const surface)
{
    cairo_destroy(cairo);
    cairo_surface_finish(surface);
    const cairo_status_t status = cairo_surface_status(surface);
    cairo_surface_destroy(surface);
    return status;
}

static cairo_status_t make_pdf(const Sheet* const sheet, Bytes* const file)
{
    cairo_surface_t* const surface =
        cairo_pdf_surface_create_for_stream(append, file, CHART_WIDTH, chart_height(sheet));
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, sheet->title);
    cairo_t* const cairo = cairo_create(surface);
    draw_pages(cairo, sheet);
    return finish(cairo, surface);
}

static cairo_status_t make_svg(const Sheet* const sheet, Bytes* const file)
{
    cairo_surface_t* const surface = cairo_svg_surface_create_for_stream(
        append, file, CHART_WIDTH, (double)chart_height(sheet) * chart_pages(sheet));
    cairo_t* const cairo = cairo_create(surface);
    draw_tall(cairo, sheet);
    return finish(cairo, surface);
}

static cairo_status_t make_png(const Sheet* const sheet, Bytes* const file)
{
    cairo_surface_t* const surface =
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, PNG_SCALE * CHART_WIDTH,
                                   PNG_SCALE * chart_height(sheet) * chart_pages(sheet));
    cairo_t* const cairo = cairo_create(surface);
    cairo_scale(cairo, PNG_SCALE, PNG_SCALE);
    draw_tall(cairo, sheet);
    cairo_status_t status = cairo_surface_write_to_png_stream(surface, append, file);
    const cairo_status_t drawn = finish(cairo, surface);
    return status == CAIRO_STATUS_SUCCESS ? drawn : status;
}

typedef cairo_status_t (*Maker)(const Sheet* sheet, Bytes* file);

static Maker maker_of(const char* const path)
{
    const char* const dot = path ? strrchr(path, '.') : NULL;
    return !dot                   ? NULL
           : !strcmp(dot, ".pdf") ? make_pdf
           : !strcmp(dot, ".svg") ? make_svg
           : !strcmp(dot, ".png") ? make_png
                                  : NULL;
}

bool chart_paper_kind(const char* const path)
{
    return maker_of(path);
}

const char* chart_paper_make(const Sheet* const sheet, const char* const path, Bytes* const file)
{
    const cairo_status_t status = maker_of(path)(sheet, file);
    return status == CAIRO_STATUS_SUCCESS ? NULL : cairo_status_to_string(status);
}
