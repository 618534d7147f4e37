// SPDX-License-Identifier: ISC
/* The chart: rows are what the engine plays, and every groove of the bank fits the
   page.  Noteheads follow Weinberg, "Guidelines for Drumset Notation", Percussive
   Notes, June 1994: x for cymbals, filled ovals for drums. */
#include "../../ui/paper/sheet_fill.h"
#include "../../ui/scene/chart.h"
#include "../../ui/scene/chart_edge.h"
#include "../../ui/scene/limb_staff.h"
#include "../../ui/scene/words.h"
#include "../bank/factory.h"
#include "../help/check.h"

#include <string.h>

enum { MARGIN = 30 }; /* points that stay white around the page */

static Sheet sheet;
static Bank* bank;

static void fill(const Groove* const groove)
{
    const Selection selection = plain_choice(groove, groove->form_bars);
    sheet = (Sheet){.title = "A title", .comment = "A comment", .fill = "", .tempo = 120.0};
    sheet_fill(&sheet, &selection, groove->meter);
}

static void every_bar_of_the_phrase_stands_in_one_row(void)
{
    const Library* const library = bank_library(bank);
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        fill(&library->grooves[i]);
        check_case("groove %u", library->grooves[i].id);
        int next = 1;
        for (int row = 0; row < sheet.count; ++row) {
            CHECK_INT(sheet.rows[row].first, next);
            next = sheet.rows[row].last + 1;
        }
        CHECK_INT(next - 1, library->grooves[i].form_bars);
    }
}

/* Counted by hand: AAAB of one figure each makes two rows, and a crash on the
   first bar makes that one a row of its own. */
static void bars_that_are_alike_are_one_row(void)
{
    static const Stroke strokes[] = {{0, RIGHT_HAND, VOICE_RIDE, LEVEL_NORMAL, true}};
    static const Stroke others[] = {{0, RIGHT_HAND, VOICE_CHINA, LEVEL_NORMAL, true}};
    const int64_t bar = 4 * TICKS_PER_QUARTER;
    const Figure a = {.id = 1,
                      .cycle_ticks = bar,
                      .step_ticks = bar,
                      .bars = 1,
                      .stroke_count = 1,
                      .strokes = strokes};
    Figure b = a;
    b.strokes = others;
    Groove groove = {.id = 1,
                     .meter = {4.0, 4},
                     .tempo = 120.0,
                     .form_bars = 4,
                     .form = {0, 0, 0, 1},
                     .parts = {{.hands = &a}, {.hands = &b}}};
    fill(&groove);
    CHECK_INT(sheet.count, 2);
    CHECK_INT(sheet.rows[0].last, 3);
    CHECK_TEXT(sheet.form, "AAAB");
    groove.crash_start = true;
    fill(&groove);
    CHECK_INT(sheet.count, 3);
    CHECK_INT(sheet.rows[0].last, 1);
    CHECK_INT(sheet.rows[0].strokes.strokes[0].voice, VOICE_CRASH);
}

/* ISO 216: A5 is half of A4, 148 by 210 mm: 420 by 595 points. */
static void one_row_takes_half_a_page(void)
{
    static const Stroke strokes[] = {{0, RIGHT_HAND, VOICE_RIDE, LEVEL_NORMAL, true}};
    const int64_t bar = 4 * TICKS_PER_QUARTER;
    const Figure ride = {.id = 1,
                         .cycle_ticks = bar,
                         .step_ticks = bar,
                         .bars = 1,
                         .stroke_count = 1,
                         .strokes = strokes};
    const Groove groove = {
        .id = 1, .meter = {4.0, 4}, .tempo = 120.0, .form_bars = 4, .parts = {{.hands = &ride}}};
    fill(&groove);
    CHECK_INT(sheet.count, 1);
    CHECK_INT(chart_height(&sheet), 420);
    fill(&bank_library(bank)->grooves[0]);
    CHECK_INT(chart_height(&sheet), 842);
}

/* Pixels that aren't white, inside or outside the margins. */
static int count_ink(cairo_surface_t* const surface, const bool inside)
{
    int ink = 0;
    cairo_surface_flush(surface);
    const unsigned char* const data = cairo_image_surface_get_data(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    const int height = cairo_image_surface_get_height(surface);
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < CHART_WIDTH; ++x) {
            const bool is_inside = x >= MARGIN && x < CHART_WIDTH - MARGIN && y >= MARGIN / 2 &&
                                   y < height - MARGIN / 2;
            const unsigned char* const pixel = data + y * stride + 4 * x;
            ink += is_inside == inside && pixel[0] < 250;
        }
    }
    return ink;
}

static void every_groove_of_the_bank_fits_its_pages(void)
{
    const Library* const library = bank_library(bank);
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        fill(&library->grooves[i]);
        for (int page = 0; page < chart_pages(&sheet); ++page) {
            cairo_surface_t* const surface =
                cairo_image_surface_create(CAIRO_FORMAT_RGB24, CHART_WIDTH, chart_height(&sheet));
            cairo_t* const cairo = cairo_create(surface);
            chart_draw_page(cairo, &sheet, page);
            check_case("groove %u, page %d", library->grooves[i].id, page + 1);
            CHECK_INT(cairo_status(cairo), CAIRO_STATUS_SUCCESS);
            CHECK_INT(count_ink(surface, false), 0);
            CHECK(count_ink(surface, true) > 5000);
            cairo_destroy(cairo);
            cairo_surface_destroy(surface);
        }
    }
}

/* The lowest ink above the line over the key. */
static double filled_share(void)
{
    cairo_surface_t* const surface =
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, CHART_WIDTH, chart_height(&sheet));
    cairo_t* const cairo = cairo_create(surface);
    chart_draw_page(cairo, &sheet, 0);
    cairo_surface_flush(surface);
    const int end = chart_height(&sheet) - (int)chart_edge_foot(&sheet) - 4;
    const unsigned char* const data = cairo_image_surface_get_data(surface);
    int last = 0;
    for (int y = 0; y < end; ++y) {
        const unsigned char* const row = data + y * cairo_image_surface_get_stride(surface);
        for (int x = 0; x < CHART_WIDTH; ++x) {
            last = row[4 * x] < 250 ? y : last;
        }
    }
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
    return (double)last / chart_height(&sheet);
}

static void no_first_page_is_half_empty(void)
{
    const Library* const library = bank_library(bank);
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        fill(&library->grooves[i]);
        check_case("groove %u", library->grooves[i].id);
        CHECK(filled_share() > 0.5);
    }
}

/* A cross leaves the middle of its upper edge white, an oval doesn't. */
static bool is_inked(const Voice voice, const int dx, const int dy)
{
    cairo_surface_t* const surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, 200, 200);
    cairo_t* const cairo = cairo_create(surface);
    cairo_set_source_rgb(cairo, 1.0, 1.0, 1.0);
    cairo_paint(cairo);
    cairo_scale(cairo, 10.0, 10.0);
    head_draw(cairo, 10.0, 10.0, voice, (Mark){GREY(0.0), 1.0, false});
    cairo_surface_flush(surface);
    const unsigned char* const pixel = cairo_image_surface_get_data(surface) +
                                       (100 + dy) * cairo_image_surface_get_stride(surface) +
                                       4 * (100 + dx);
    const bool inked = pixel[0] < 128;
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
    return inked;
}

static void cymbals_are_crosses_and_drums_are_filled(void)
{
    static const Voice cymbals[] = {VOICE_HAT_CLOSED, VOICE_HAT_OPEN, VOICE_RIDE,     VOICE_CRASH,
                                    VOICE_CHINA,      VOICE_SPLASH,   VOICE_HAT_PEDAL};
    static const Voice drums[] = {VOICE_KICK, VOICE_SNARE, VOICE_TOM_HIGH, VOICE_TOM_FLOOR};
    for (size_t i = 0; i < sizeof cymbals / sizeof *cymbals; ++i) {
        check_case("%s", words_voice(cymbals[i]));
        CHECK(is_inked(cymbals[i], 0, 0) && !is_inked(cymbals[i], 18, 0));
    }
    for (size_t i = 0; i < sizeof drums / sizeof *drums; ++i) {
        check_case("%s", words_voice(drums[i]));
        CHECK(is_inked(drums[i], 0, 0) && is_inked(drums[i], 18, 0));
    }
}

int main(void)
{
    bank = factory_open();
    RUN(every_bar_of_the_phrase_stands_in_one_row);
    RUN(bars_that_are_alike_are_one_row);
    RUN(every_groove_of_the_bank_fits_its_pages);
    RUN(one_row_takes_half_a_page);
    RUN(no_first_page_is_half_empty);
    RUN(cymbals_are_crosses_and_drums_are_filled);
    bank_free(bank);
    return tests_end();
}
