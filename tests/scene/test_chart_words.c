// SPDX-License-Identifier: ISC
/* What is written on a chart can be read: over every groove of the bank, in both hands, no text
   stands on another, none leaves the page, none is too small. */
#include "../../ui/paper/sheet_fill.h"
#include "../../ui/paper/sheet_words.h"
#include "../../ui/scene/chart.h"
#include "../bank/factory.h"
#include "../help/check.h"
#include "shown_text.h"

/* Points.  Newspapers go down to some 5: common practice, no source. */
static const double least_size = 5.0;

static Sheet sheet;
static Bank* bank;

static void fill(const Groove* const groove, const EntryInfo* const info)
{
    Selection selection = selection_of_groove(groove);
    selection.phrase_bars = groove->form_bars;
    sheet_fill_written(&sheet, &selection, groove->meter, false);
    sheet.title = info->label;
    sheet.comment = info->comment;
    sheet_words_fill(&sheet, bank, &selection, groove->tempo, false);
}

static void draw(const int page)
{
    cairo_surface_t* const surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, 8, 8);
    cairo_t* const cairo = cairo_create(surface);
    shown.count = 0;
    chart_draw_page(cairo, &sheet, page);
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
}

/* Touching is none. */
static bool overlap(const Box a, const Box b)
{
    return a.x + 0.3 < b.x + b.width && b.x + 0.3 < a.x + a.width && a.y + 0.3 < b.y + b.height &&
           b.y + 0.3 < a.y + a.height;
}

static void every_page(void (*const look)(void))
{
    const Library* const library = bank_library(bank);
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        fill(&library->grooves[i], bank_entry(bank, ENTRY_GROOVE, i));
        for (int page = 0; page < chart_pages(&sheet); ++page) {
            draw(page);
            check_case("groove %u, page %d", library->grooves[i].id, page + 1);
            look();
        }
    }
}

static void look_for_overlaps(void)
{
    int overlaps = 0;
    for (int i = 0; i < shown.count; ++i) {
        for (int j = 0; j < i; ++j) {
            if (overlap(shown.texts[i].box, shown.texts[j].box)) {
                printf("# \"%s\" on \"%s\" %g %g %g %g, %g %g %g %g\n", shown.texts[i].text,
                       shown.texts[j].text, shown.texts[i].box.x, shown.texts[i].box.y,
                       shown.texts[i].box.width, shown.texts[i].box.height, shown.texts[j].box.x,
                       shown.texts[j].box.y, shown.texts[j].box.width, shown.texts[j].box.height);
                ++overlaps;
            }
        }
    }
    CHECK_INT(overlaps, 0);
}

static void no_text_stands_on_another(void)
{
    every_page(look_for_overlaps);
}

static void look_for_edges(void)
{
    int outside = 0;
    for (int i = 0; i < shown.count; ++i) {
        const Box box = shown.texts[i].box;
        const bool is_inside = box.x >= 30.0 && box.x + box.width <= CHART_WIDTH - 30.0 &&
                               box.y >= 15.0 && box.y + box.height <= chart_height(&sheet) - 10.0;
        outside += !is_inside;
        if (!is_inside) {
            printf("# \"%s\" at %g, %g\n", shown.texts[i].text, box.x, box.y);
        }
    }
    CHECK_INT(outside, 0);
    CHECK(shown.count > 20);
}

static void no_text_leaves_the_page(void)
{
    every_page(look_for_edges);
}

static void look_for_small(void)
{
    for (int i = 0; i < shown.count; ++i) {
        if (shown.texts[i].size < least_size) {
            CHECK_TEXT(shown.texts[i].text, "of 5 points or more");
        }
        CHECK(!shown.texts[i].is_cut);
    }
}

static void no_text_is_too_small_or_cut(void)
{
    every_page(look_for_small);
}

int main(void)
{
    bank = factory_open();
    RUN(no_text_stands_on_another);
    RUN(no_text_leaves_the_page);
    RUN(no_text_is_too_small_or_cut);
    bank_free(bank);
    return tests_end();
}
