// SPDX-License-Identifier: ISC
#include "chart.h"

#include "limb_staff.h"
#include "words.h"

#include <stdio.h>
#include <string.h>

enum { ROWS_A_PAGE = 4, ROWS_AT_MOST = 5 }; /* five are drawn smaller */

static const double margin = 42.0;
static const double staff_left = 62.0; /* from the margin */
static const double first_row = 128.0;
static const double row_height = 160.0;

/* One row too many for a page isn't worth a second one. */
static int rows_a_page(const Sheet* const sheet)
{
    return sheet->count == ROWS_AT_MOST ? ROWS_AT_MOST : ROWS_A_PAGE;
}

int chart_pages(const Sheet* const sheet)
{
    const int rows = rows_a_page(sheet);
    return sheet->count ? (sheet->count + rows - 1) / rows : 1;
}

/* The largest size at which a title fits beside the meter. */
static double title_size(cairo_t* const cairo, const char* const title, const double room)
{
    double size = 22.0;
    while (size > 9.0 &&
           ink_width(cairo, (Type){size, true, ALIGN_LEFT, GREY(0.0)}, title) > room) {
        size -= 1.0;
    }
    return size;
}

static void draw_title(cairo_t* const cairo, const Sheet* const sheet)
{
    char meter[32];
    const double right = CHART_WIDTH - margin;
    snprintf(meter, sizeof meter, "%g/%d", sheet->meter.beats_per_bar, sheet->meter.beat_unit);
    const double wide =
        ink_text(cairo, right, 58.0, (Type){22.0, true, ALIGN_RIGHT, GREY(0.0)}, meter);
    const double size = title_size(cairo, sheet->title, right - margin - wide - 16.0);
    ink_text(cairo, margin, 58.0, (Type){size, true, ALIGN_LEFT, GREY(0.0)}, sheet->title);
}

static void draw_tempo(cairo_t* const cairo, const Sheet* const sheet)
{
    char text[96];
    head_draw(cairo, margin + 4.0, 78.0, VOICE_SNARE, (Mark){GREY(0.0), 1.1, false});
    ink_line(cairo, margin + 8.0, 78.0, margin + 8.0, 64.0, 1.1, (Colour)GREY(0.0));
    snprintf(text, sizeof text, "= %g", sheet->tempo);
    double x = margin + 14.0;
    x += ink_text(cairo, x, 82.0, (Type){12.0, true, ALIGN_LEFT, GREY(0.0)}, text) + 18.0;
    for (const char* letter = sheet->form; *letter; ++letter) {
        const char one[] = {*letter, '\0'};
        x += ink_text(cairo, x, 82.0, (Type){12.0, true, ALIGN_LEFT, GREY(0.0)}, one) + 4.0;
    }
    x += 10.0;
    if (sheet->meet_after > 0 && sheet->meet_after != (uint32_t)sheet->bars) {
        snprintf(text, sizeof text, "%d bar%s; all meet again after %u", sheet->bars,
                 sheet->bars == 1 ? "" : "s", sheet->meet_after);
    } else {
        snprintf(text, sizeof text, "%d bar%s", sheet->bars, sheet->bars == 1 ? "" : "s");
    }
    x += ink_text(cairo, x, 82.0, (Type){9.5, false, ALIGN_LEFT, GREY(0.2)}, text) + 18.0;
    words_swing(text, sizeof text, sheet->swing);
    const double size = title_size(cairo, text, CHART_WIDTH - margin - x);
    ink_text(cairo, x, 82.0, (Type){size < 12.0 ? size : 12.0, true, ALIGN_LEFT, GREY(0.0)}, text);
}

static void draw_head(cairo_t* const cairo, const Sheet* const sheet)
{
    char text[256];
    draw_title(cairo, sheet);
    draw_tempo(cairo, sheet);
    if (*sheet->hands && *sheet->feet) {
        snprintf(text, sizeof text, "Hands: %s.   Feet: %s.", sheet->hands, sheet->feet);
    } else {
        snprintf(text, sizeof text, "%s", sheet->comment);
    }
    ink_text(cairo, margin, 99.0, (Type){9.0, false, ALIGN_LEFT, GREY(0.1)}, text);
    ink_line(cairo, margin, 108.0, CHART_WIDTH - margin, 108.0, 0.8, (Colour)GREY(0.4));
}

static void draw_row_label(cairo_t* const cairo, const SheetBar* const bar, const Meter meter,
                           const double y)
{
    char text[64];
    const char letter[] = {bar->letter, '\0'};
    if (bar->first == bar->last) {
        snprintf(text, sizeof text, "bar %d", bar->first);
    } else {
        snprintf(text, sizeof text, "bars %d\xE2\x80\x93%d", bar->first, bar->last);
    }
    const bool is_whole = bar->has_fill && !bar->fill_begin;
    const Type small = {8.0, false, ALIGN_LEFT, GREY(0.0)};
    double x = 0.0;
    if (!is_whole) {
        x += ink_text(cairo, x, y, (Type){17.0, true, ALIGN_LEFT, GREY(0.0)}, letter) + 3.0;
    }
    ink_text(cairo, x, y - (is_whole ? 9.0 : 0.0), small, text);
    if (bar->has_fill) {
        words_fill(text, sizeof text, bar->fill_begin, bar->fill_end, meter);
        ink_text(cairo, 0.0, y + (is_whole ? 0.0 : 11.0), small, text);
    }
}

static double draw_sign(cairo_t* const cairo, const double x, const double y, const Voice voice,
                        const char* const words)
{
    head_draw(cairo, x + 4.0, y - 3.0, voice, (Mark){GREY(0.0), 0.9, false});
    return x + 14.0 +
           ink_text(cairo, x + 14.0, y, (Type){8.5, false, ALIGN_LEFT, GREY(0.0)}, words) + 14.0;
}

static void draw_legend(cairo_t* const cairo)
{
    const double y = CHART_HEIGHT - 62.0;
    ink_line(cairo, margin, y - 16.0, CHART_WIDTH - margin, y - 16.0, 0.8, (Colour)GREY(0.4));
    double x = draw_sign(cairo, margin, y, VOICE_RIDE, "cymbal");
    x = draw_sign(cairo, x, y, VOICE_HAT_OPEN, "open");
    x = draw_sign(cairo, x, y, VOICE_HAT_HALF_OPEN, "half open");
    x = draw_sign(cairo, x, y, VOICE_RIDE_BELL, "bell");
    x = draw_sign(cairo, x, y, VOICE_COWBELL, "cowbell");
    x = draw_sign(cairo, x, y, VOICE_SNARE, "drum");
    head_brackets(cairo, x + 6.0, y - 3.0, (Mark){GREY(0.0), 1.0, false});
    x = draw_sign(cairo, x + 2.0, y, VOICE_SNARE, " ghost");
    head_accent(cairo, x + 4.0, y - 3.0, (Colour)GREY(0.0));
    ink_text(cairo, x + 12.0, y, (Type){8.5, false, ALIGN_LEFT, GREY(0.0)}, "accent");
    ink_text(cairo, margin, y + 15.0, (Type){8.5, false, ALIGN_LEFT, GREY(0.2)},
             "Right limbs stand up from their line, left limbs hang down; the stem's height is the "
             "level. Written times, without feel.");
    ink_text(cairo, margin, y + 27.0, (Type){8.5, false, ALIGN_LEFT, GREY(0.2)},
             "R, L: which foot; underlined where the figure of the feet starts again.");
}

static void draw_page_number(cairo_t* const cairo, const Sheet* const sheet, const int page)
{
    char text[64];
    if (chart_pages(sheet) > 1) {
        snprintf(text, sizeof text, "%d of %d", page + 1, chart_pages(sheet));
        ink_text(cairo, CHART_WIDTH - margin, CHART_HEIGHT - 26.0,
                 (Type){8.5, false, ALIGN_RIGHT, GREY(0.3)}, text);
    }
}

static void draw_rows(cairo_t* const cairo, const Sheet* const sheet, const int page)
{
    uint8_t voices[LIMB_COUNT];
    memset(voices, VOICE_COUNT, sizeof voices);
    const int rows = rows_a_page(sheet);
    const double scale = (double)ROWS_A_PAGE / rows;
    cairo_save(cairo);
    cairo_translate(cairo, margin, first_row);
    cairo_scale(cairo, scale, scale);
    for (int i = 0; i < rows && page * rows + i < sheet->count; ++i) {
        const int row = page * rows + i;
        const StaffBox place = {staff_left, row_height * i,
                                (CHART_WIDTH - 2.0 * margin) / scale - staff_left};
        draw_row_label(cairo, &sheet->rows[row], sheet->meter, place.y);
        limb_staff_draw(cairo, &sheet->rows[row], sheet->meter, place, voices,
                        row + 1 == sheet->count);
    }
    cairo_restore(cairo);
}

void chart_draw_page(cairo_t* const cairo, const Sheet* const sheet, const int page)
{
    cairo_set_source_rgb(cairo, 1.0, 1.0, 1.0);
    cairo_paint(cairo);
    draw_head(cairo, sheet);
    draw_rows(cairo, sheet, page);
    draw_legend(cairo);
    draw_page_number(cairo, sheet, page);
}
