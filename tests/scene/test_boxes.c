// SPDX-License-Identifier: ISC
/* No name, however long and in whatever script, is drawn outside its box: the
   picture with it is, outside, that with a short name.  Where the fonts here lack a
   script its letters are boxes, which need as much room. */
#include "../../ui/scene/keys.h"
#include "../help/check.h"
#include "compare.h"
#include "stage.h"

#include <stdio.h>
#include <string.h>

/* Sixty letters each, with blanks and without. */
static const char* const names[] = {
    "The very long name of a figure that somebody typed for a joke",
    "Donaudampfschifffahrtsgesellschaftskapitaenswitwenrentenamtes",
    /* Cyrillic */
    "\xD0\x96\xD0\xB5\xD0\xBB\xD0\xB5\xD0\xB7\xD0\xBD\xD0\xBE\xD0\xB4\xD0\xBE\xD1\x80\xD0\xBE"
    "\xD0\xB6\xD0\xBD\xD0\xB0\xD1\x8F \xD1\x81\xD1\x82\xD0\xB0\xD0\xBD\xD1\x86\xD0\xB8\xD1\x8F "
    "\xD0\xBA\xD0\xB0\xD0\xBD\xD0\xB0\xD1\x82\xD0\xBD\xD0\xBE\xD0\xB9 \xD0\xB4\xD0\xBE\xD1\x80"
    "\xD0\xBE\xD0\xB3\xD0\xB8 \xD1\x83 \xD1\x81\xD0\xBE\xD0\xBB\xD1\x8F\xD0\xBD\xD0\xBE\xD0\xB9 "
    "\xD0\xB3\xD0\xBE\xD1\x80\xD1\x8B \xD0\x96\xD0\xA9\xD0\xAE",
    /* Greek, capitals without a blank */
    "\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9"
    "\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9"
    "\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9"
    "\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9"
    "\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9"
    "\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9\xCE\xA9",
    /* Chinese characters, which break anywhere */
    "\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9"
    "\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1"
    "\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93"
    "\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9"
    "\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1"
    "\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93"
    "\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9"
    "\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93\xE5\xA1\xA9\xE9\x81\x93",
    /* Thai, marks over marks: higher than most */
    "\xE0\xB8\x97\xE0\xB8\xB5\xE0\xB9\x88\xE0\xB8\x97\xE0\xB8\xB5\xE0\xB9\x88\xE0\xB8\x97\xE0"
    "\xB8\xB5\xE0\xB9\x88\xE0\xB8\x97\xE0\xB8\xB5\xE0\xB9\x88\xE0\xB8\x97\xE0\xB8\xB5\xE0\xB9\x88",
    /* Hebrew, from right to left */
    "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xD7\xA9\xD7\x9C\xD7\x95"
    "\xD7\x9D \xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xD7\xA9\xD7\x9C",
    "two\nlines\tand a tab",
};

enum { NAMES = sizeof names / sizeof *names, BOXES_MAX = 8 };

typedef struct {
    int count;
    Box boxes[BOXES_MAX];
} Allowed;

static void allow(Allowed* const allowed, const Box box)
{
    allowed->boxes[allowed->count++] = box;
}

static void allow_target(Allowed* const allowed, const Stage* const stage, const TargetId id)
{
    TargetList targets;
    const Geometry g = geometry_of(&stage->model.view);
    targets_of(&stage->model.view, &g, &targets);
    const Target* const target = targets_find(&targets, id);
    if (CHECK(target)) {
        allow(allowed, target->box);
    }
}

static bool is_allowed(const Allowed* const allowed, const int x, const int y)
{
    bool is = false;
    for (int i = 0; i < allowed->count; ++i) {
        const Box box = allowed->boxes[i];
        is = is || (x >= box.x - 2.0 && x < box.x + box.width + 1.0 && y >= box.y - 1.0 &&
                    y < box.y + box.height + 1.0); /* a T begins left of its place */
    }
    return is;
}

static Entry* entry_of(Stage* const stage, const EntryKind shelf, const int32_t id)
{
    for (int i = 0; i < stage->model.view.shelves[shelf].count; ++i) {
        if (stage->model.entries[shelf][i].id == id) {
            return &stage->model.entries[shelf][i];
        }
    }
    return NULL;
}

/* Draws with the short name and with each long one; counts what is outside. */
static void check_names(Stage* const stage, Entry* const entry, const Allowed* const allowed)
{
    const char* const label = entry->label;
    const char* const comment = entry->comment;
    entry->label = entry->comment = "a";
    cairo_surface_t* const before = stage_picture(stage);
    const int width = cairo_image_surface_get_width(before);
    const int height = cairo_image_surface_get_height(before);
    for (int name = 0; name < NAMES; ++name) {
        int outside = 0, inside = 0, at_x = 0, at_y = 0;
        entry->label = entry->comment = names[name];
        cairo_surface_t* const after = stage_picture(stage);
        for (int y = 0; y < height; ++y) {
            const int columns = compare_rows_same(before, after, y) ? 0 : width;
            for (int x = 0; x < columns; ++x) {
                if (compare_pixel(before, x, y) != compare_pixel(after, x, y)) {
                    const bool in = is_allowed(allowed, x, y);
                    inside += in;
                    outside += !in;
                    at_x = in ? at_x : x;
                    at_y = in ? at_y : y;
                }
            }
        }
        check_case("name %d in %d by %d, outside at %d, %d", name, width, height, at_x, at_y);
        CHECK_INT(outside, 0);
        CHECK(inside > 0);
        cairo_surface_destroy(after);
    }
    cairo_surface_destroy(before);
    entry->label = label;
    entry->comment = comment;
}

static const char* const sizes[] = {"playing-dark", "least", "large"};

static void a_figures_name_stays_in_its_card(void)
{
    for (int size = 0; size < 3; ++size) {
        Stage* const stage = stage_play(stage_scene(sizes[size]));
        for (int shelf = ENTRY_HANDS; shelf <= ENTRY_FEET; ++shelf) {
            Allowed allowed = {0};
            const int32_t id = view_playing(&stage->model.view, (EntryKind)shelf);
            allow_target(&allowed, stage, (TargetId){TARGET_CARD, shelf});
            Entry* const entry = entry_of(stage, (EntryKind)shelf, id);
            if (CHECK(entry)) {
                check_names(stage, entry, &allowed);
            }
        }
        stage_end(stage);
    }
}

static void a_figures_name_stays_in_its_card_while_it_waits(void)
{
    Stage* const stage = stage_play(stage_scene("change-waits"));
    Allowed allowed = {0};
    allow_target(&allowed, stage, (TargetId){TARGET_CARD, ENTRY_FEET});
    allow_target(&allowed, stage, (TargetId){TARGET_CARD, ENTRY_GROOVE}); /* what is news of it */
    const int32_t waits = (int32_t)stage->model.view.values[CONTROL_FEET];
    Entry* const entry = entry_of(stage, ENTRY_FEET, waits);
    if (CHECK(entry)) {
        check_names(stage, entry, &allowed);
    }
    stage_end(stage);
}

static void a_grooves_name_stays_in_the_top_row(void)
{
    for (int size = 0; size < 3; ++size) {
        Stage* const stage = stage_play(stage_scene(sizes[size]));
        Allowed allowed = {0};
        allow_target(&allowed, stage, (TargetId){TARGET_CARD, ENTRY_GROOVE});
        const int32_t id = view_playing(&stage->model.view, ENTRY_GROOVE);
        check_names(stage, entry_of(stage, ENTRY_GROOVE, id), &allowed);
        stage_end(stage);
    }
}

/* What is chosen is told of over the lines, and in the top row while it waits. */
static void check_list(const char* const scene, const bool chosen)
{
    Stage* const stage = stage_play(stage_scene(scene));
    const View* const view = &stage->model.view;
    const List* const list = &view->list;
    const Geometry g = geometry_of(view);
    const ListPlaces places = geometry_list(&g);
    for (int line = list->first; line < list->count && line < list->first + 4; ++line) {
        Entry* const entry = &stage->model.entries[list->shelf][list->rows[line].entry];
        const bool is_playing = entry->id == view_playing(view, list->shelf);
        if (list->rows[line].is_heading || (line == list->selected) != chosen) {
            continue;
        }
        Allowed allowed = {0};
        allow_target(&allowed, stage, (TargetId){TARGET_LIST_ROW, line});
        if (chosen) {
            allow(&allowed, (Box){places.comment.x, places.comment.y - 10.0, places.comment_room,
                                  places.told.y - places.comment.y + 14.0});
        }
        if (is_playing || chosen) {
            allow_target(&allowed, stage, (TargetId){TARGET_CARD, ENTRY_GROOVE});
        }
        check_names(stage, entry, &allowed);
    }
    stage_end(stage);
}

static void names_in_a_list_stay_in_their_lines(void)
{
    check_list("feet-list", false);
    check_list("feet-list", true);
    check_list("feet-list-least", false);
    check_list("feet-list-least", true);
    check_list("groove-list-light", false);
    check_list("groove-list-light", true);
}

static void a_turnarounds_and_a_kits_name_stay_in_their_dials(void)
{
    static const struct {
        EntryKind shelf;
        Panel panel;
    } rows[] = {{ENTRY_TURNAROUND, PANEL_FILLS}, {ENTRY_KIT, PANEL_OUTPUT}};
    for (int i = 0; i < 4; ++i) {
        Stage* const stage = stage_play(stage_scene(i / 2 ? "least" : "playing-dark"));
        Allowed allowed = {0};
        stage_click(stage, (TargetId){TARGET_TAB, (int)rows[i % 2].panel});
        allow_target(&allowed, stage, (TargetId){TARGET_CARD, (int)rows[i % 2].shelf});
        const float id = stage->model.view.values[kind_controls[rows[i % 2].shelf]];
        check_names(stage, entry_of(stage, rows[i % 2].shelf, (int32_t)id), &allowed);
        stage_end(stage);
    }
}

/* Pixels that a picture changes outside its window, drawn in a larger one. */
static int outside(const View* const view)
{
    const int width = (int)(view->width + 0.5), height = (int)(view->height + 0.5);
    cairo_surface_t* const surface =
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, width + 60, height + 60);
    cairo_t* const cairo = cairo_create(surface);
    cairo_translate(cairo, 30.0, 30.0);
    screen_draw_all(cairo, view);
    cairo_destroy(cairo);
    cairo_surface_flush(surface);
    int count = 0;
    for (int y = 0; y < height + 60; ++y) {
        for (int x = 0; x < width + 60; ++x) {
            const bool in = x >= 29 && x <= width + 30 && y >= 29 && y <= height + 30;
            count += !in && (compare_pixel(surface, x, y) & 0xFFFFFFU);
        }
    }
    cairo_surface_destroy(surface);
    return count;
}

static void nothing_is_drawn_outside_the_window(void)
{
    for (int i = 0; i < stage_scene_count; ++i) {
        Stage* const stage = stage_play(&stage_scenes[i]);
        check_case("%s", stage_scenes[i].name);
        CHECK_INT(outside(&stage->model.view), 0);
        stage_end(stage);
    }
}

/* 9999 is the most that the readout of bars has room for. */
static void bars_until_all_meet_stay_in_the_window_however_many(void)
{
    static const char* const scenes[] = {"playing-dark", "least"};
    for (int i = 0; i < 2; ++i) {
        Stage* const stage = stage_play(stage_scene(scenes[i]));
        stage->model.view.place.feet_meet = 9999;
        stage->model.view.place.all_meet = 9999;
        check_case("%s", scenes[i]);
        CHECK_INT(outside(&stage->model.view), 0);
        stage_end(stage);
    }
}

/* Keys beside what they do, or over it: neither is cut nor runs into the other. */
static void what_keys_do_is_read_whole(void)
{
    static const char* const scenes[] = {"keys", "keys-least"};
    static const Colour any = {0.0, 0.0, 0.0};
    cairo_surface_t* const surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, 8, 8);
    cairo_t* const cairo = cairo_create(surface);
    for (int i = 0; i < 2; ++i) {
        Stage* const stage = stage_play(stage_scene(scenes[i]));
        const Geometry g = geometry_of(&stage->model.view);
        const KeyList* const keys = &stage->model.view.keys;
        const KeyPlaces places = keys_line(&g, 0); /* every column is as wide */
        CHECK(keys->count > 40);
        for (int line = 0; line < keys->count; ++line) {
            const KeyLine* const key = &keys->lines[line];
            const Type type = {KEYS_TYPE, false, ALIGN_LEFT, any};
            const Type bold = {KEYS_TYPE, true, ALIGN_LEFT, any};
            check_case("%s, %s, %s", scenes[i], key->keys, key->words);
            CHECK(ink_width(cairo, bold, key->keys) <= places.keys_room);
            CHECK(ink_width(cairo, *key->keys ? type : bold, key->words) <=
                  (*key->keys ? places.words_room : places.box.width));
        }
        stage_end(stage);
    }
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
}

int main(void)
{
    RUN(a_figures_name_stays_in_its_card);
    RUN(a_figures_name_stays_in_its_card_while_it_waits);
    RUN(a_grooves_name_stays_in_the_top_row);
    RUN(names_in_a_list_stay_in_their_lines);
    RUN(a_turnarounds_and_a_kits_name_stay_in_their_dials);
    RUN(nothing_is_drawn_outside_the_window);
    RUN(what_keys_do_is_read_whole);
    RUN(bars_until_all_meet_stay_in_the_window_however_many);
    return tests_end();
}
