// SPDX-License-Identifier: ISC
/* Every text of every state, at sizes from the least to four times the first and upright, small
   and large: no two lie over each other, none leaves the window, and names are whole where there
   is a list to find them in.  Boxes are of the ink, as Pango measures it. */
#include "../help/check.h"
#include "scenes.h"
#include "shown_text.h"

static const struct {
    int width;
    int height;
    double text;
} sizes[] = {
    {720, 420, 1.0},   {860, 530, 1.0},   {960, 540, 1.0},   {1280, 760, 1.0},
    {1280, 760, 0.8},  {1280, 760, 1.5},  {1280, 760, 2.5},  {900, 1400, 1.0},
    {1080, 1920, 1.0}, {1920, 1080, 1.0}, {3840, 2160, 1.0}, {3840, 2160, 2.5},
};
enum { SIZES = sizeof sizes / sizeof *sizes };

static double shared(const double from, const double to, const double other_from,
                     const double other_to)
{
    const double begin = from > other_from ? from : other_from;
    const double end = to < other_to ? to : other_to;
    return end - begin;
}

/* A hair of antialiasing isn't an overlap. */
static bool overlap(const Box a, const Box b)
{
    const double hair = 0.6;
    return shared(a.x, a.x + a.width, b.x, b.x + b.width) > hair &&
           shared(a.y, a.y + a.height, b.y, b.y + b.height) > hair;
}

static void check_apart(const char* const name)
{
    for (int i = 0; i < shown.count; ++i) {
        for (int j = i + 1; j < shown.count; ++j) {
            const ShownText* const a = &shown.texts[i];
            const ShownText* const b = &shown.texts[j];
            if (overlap(a->box, b->box)) {
                check_case("%s: \"%.40s\" at %.0f, %.0f and \"%.40s\" at %.0f, %.0f", name, a->text,
                           a->box.x, a->box.y, b->text, b->box.x, b->box.y);
                CHECK(false);
            }
        }
    }
}

static void check_inside(const char* const name, const View* const view)
{
    for (int i = 0; i < shown.count; ++i) {
        const Box box = shown.texts[i].box;
        check_case("%s: \"%.60s\" at %.1f, %.1f, %.1f by %.1f", name, shown.texts[i].text, box.x,
                   box.y, box.width, box.height);
        CHECK(box.x > -0.6 && box.y > -0.6 && box.x + box.width < view->width + 0.6 &&
              box.y + box.height < view->height + 0.6);
    }
}

/* A name in an open list, which nothing else would tell: what is kept is named whole as it is
   played. */
static void check_names(const char* const name, const View* const view)
{
    const Geometry g = geometry_of(view);
    for (int i = 0; g.list && !g.kept && i < shown.count; ++i) {
        const ShownText* const text = &shown.texts[i];
        check_case("%s: \"%.60s\"", name, text->text);
        CHECK(text->box.y < g.list_rows ||
              text->box.x > geometry_columns(&g, view->list.shelf).meter || !text->is_cut);
    }
}

static void at_size(Stage* const stage, const int size)
{
    stage->model.view.text = sizes[size].text;
    controller_resize(&stage->model, sizes[size].width, sizes[size].height, 1.0);
    stage_run(stage, 0.02);
    shown_draw(&stage->model.view);
}

static void in_every_state_texts_stand_apart_and_inside(void)
{
    for (int scene = 0; scene < stage_scene_count; ++scene) {
        Stage* const stage = stage_play(&stage_scenes[scene]);
        for (int size = 0; size < SIZES; ++size) {
            char name[96];
            snprintf(name, sizeof name, "%s, %d by %d, text %g", stage_scenes[scene].name,
                     sizes[size].width, sizes[size].height, sizes[size].text);
            at_size(stage, size);
            CHECK(shown.count > 3 && shown.count < SHOWN_TEXTS_MAX);
            check_apart(name);
            check_inside(name, &stage->model.view);
            check_names(name, &stage->model.view);
        }
        stage_end(stage);
    }
}

/* Pages and states, both rows of a small window's. */
static void on_every_page_texts_stand_apart_and_inside(void)
{
    static const char* const scenes[] = {"playing-light", "standing",    "sixteen-bars", "fill",
                                         "own",           "left-handed", "change-waits"};
    for (size_t scene = 0; scene < sizeof scenes / sizeof *scenes; ++scene) {
        Stage* const stage = stage_play(stage_scene(scenes[scene]));
        for (int at = 0; at < 2 * PANEL_COUNT * SIZES; ++at) {
            char name[96];
            const int size = at / 2 / PANEL_COUNT;
            stage->model.view.panel = (Panel)(at / 2 % PANEL_COUNT);
            stage->model.view.page = at % 2;
            snprintf(name, sizeof name, "%s, %s, row %d, %d by %d, text %g", scenes[scene],
                     page_rows[stage->model.view.panel].words, at % 2, sizes[size].width,
                     sizes[size].height, sizes[size].text);
            at_size(stage, size);
            check_apart(name);
            check_inside(name, &stage->model.view);
        }
        stage_end(stage);
    }
}

/* All that the factory's bank has, in the type that a line falls back to. */
static void every_name_length_and_tempo_of_the_bank_is_whole_in_its_list(void)
{
    cairo_surface_t* const surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, 8, 8);
    cairo_t* const cairo = cairo_create(surface);
    Stage* const stage = stage_play(stage_scene("feet-list"));
    View* const view = &stage->model.view;
    int names = 0;
    for (int size = 0; size < SIZES; ++size) {
        at_size(stage, size);
        for (int shelf = 0; shelf < ENTRY_KINDS; ++shelf) {
            const Geometry g = geometry_of(view);
            const ListColumns columns = geometry_columns(&g, (EntryKind)shelf);
            const Type least = {11.0, false, ALIGN_LEFT, view->palette.ink};
            const Type tempo = {12.0, false, ALIGN_LEFT, view->palette.ink};
            const double room = columns.name_room;
            for (int i = 0; i < view->shelves[shelf].count; ++i) {
                const Entry* const entry = &view->shelves[shelf].entries[i];
                const char* const label = entry->label;
                check_case("%s in %g by %g", label, view->width, view->height);
                CHECK(ink_width(cairo, (Type){11.0, true, ALIGN_LEFT, view->palette.ink}, label) <=
                      room);
                check_case("%s, %s, %s", label, entry->tempo, entry->length);
                CHECK(ink_width(cairo, least, entry->length) <= columns.length_room);
                CHECK(columns.tempo + columns.length_room < columns.length);
                CHECK(columns.meter + ink_width(cairo, tempo, entry->tempo) < columns.tempo);
                ++names;
            }
        }
    }
    CHECK(names > 700 * SIZES);
    stage_end(stage);
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
}

int main(void)
{
    RUN(on_every_page_texts_stand_apart_and_inside);
    RUN(every_name_length_and_tempo_of_the_bank_is_whole_in_its_list);
    RUN(in_every_state_texts_stand_apart_and_inside);
    return tests_end();
}
