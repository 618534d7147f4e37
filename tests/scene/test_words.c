// SPDX-License-Identifier: ISC
/* Words never lie over each other and never leave the window: in every state of scenes.c at
   every size.  Letters by the box of their ink, as Pango has it. */
#include "../help/check.h"
#include "shown_text.h"

static const struct {
    int width, height;
} sizes[] = {{720, 420}, {860, 530}, {960, 540}, {1280, 760}, {1600, 1000}, {3840, 2160}};

/* A hair: letters that touch are still read. */
static const double hair = 0.6;

static bool overlap(const Box a, const Box b)
{
    return a.x + a.width > b.x + hair && b.x + b.width > a.x + hair &&
           a.y + a.height > b.y + hair && b.y + b.height > a.y + hair;
}

static void check_apart(void)
{
    for (int i = 0; i < shown.count; ++i) {
        for (int j = i + 1; j < shown.count; ++j) {
            const ShownText* const a = &shown.texts[i];
            const ShownText* const b = &shown.texts[j];
            if (overlap(a->box, b->box)) {
                printf("# \"%s\" at %.0f, %.0f over \"%s\" at %.0f, %.0f\n", a->text, a->box.x,
                       a->box.y, b->text, b->box.x, b->box.y);
                CHECK(false);
            }
        }
    }
}

static void check_inside(const View* const view)
{
    for (int i = 0; i < shown.count; ++i) {
        const Box box = shown.texts[i].box;
        const bool is_in = box.x >= -0.5 && box.y >= -0.5 &&
                           box.x + box.width <= view->width + 0.5 &&
                           box.y + box.height <= view->height + 0.5;
        if (!is_in) {
            printf("# \"%s\" at %.0f, %.0f leaves\n", shown.texts[i].text, box.x, box.y);
        }
        CHECK(is_in);
    }
}

static void in_every_state(void (*const check)(const View* view))
{
    for (int scene = 0; scene < stage_scene_count; ++scene) {
        Stage* const stage = stage_play(&stage_scenes[scene]);
        for (size_t i = 0; i < sizeof sizes / sizeof *sizes; ++i) {
            controller_resize(&stage->model, sizes[i].width, sizes[i].height, 1.0);
            shown_draw(&stage->model.view);
            check_case("%s, %d by %d", stage_scenes[scene].name, sizes[i].width, sizes[i].height);
            CHECK(shown.count > 3 && shown.count < SHOWN_TEXTS_MAX);
            check(&stage->model.view);
        }
        stage_end(stage);
    }
}

static void apart(const View* const view)
{
    (void)view;
    check_apart();
}

static void no_word_lies_over_another(void)
{
    in_every_state(apart);
}

static void no_word_leaves_the_window(void)
{
    in_every_state(check_inside);
}

int main(void)
{
    RUN(no_word_lies_over_another);
    RUN(no_word_leaves_the_window);
    return tests_end();
}
