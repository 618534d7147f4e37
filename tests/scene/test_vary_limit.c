// SPDX-License-Identifier: ISC
/* Over the rows of variations stands the limit that they are judged by: 8.6 strokes a second of
   one foot, where the user says nothing else (published, its source is in play_limits.c). */
#include "../help/check.h"
#include "shown_text.h"

static Stage* stage;

static void begin(const char* const scene)
{
    stage = stage_play(stage_scene(scene));
}

/* How many of the texts say a limit so. */
static int said(const char* const words)
{
    int count = 0;
    stage_run(stage, 0.05);
    shown_draw(&stage->model.view);
    for (int i = 0; i < shown.count; ++i) {
        const char* const at = strstr(shown.texts[i].text, "limit ");
        count += at && !strcmp(at, words) && !shown.texts[i].is_cut;
    }
    return count;
}

static void the_published_limit_stands_over_the_rows_at_every_size(void)
{
    static const char* const scenes[] = {"vary",
                                         "vary-deep",
                                         "vary-seven-eight",
                                         "vary-waits-least",
                                         "vary-waits-large",
                                         "vary-seven-eight-least",
                                         "vary-not-offered"};
    for (size_t i = 0; i < sizeof scenes / sizeof *scenes; ++i) {
        begin(scenes[i]);
        check_case("%s", scenes[i]);
        CHECK_INT(said("limit 8.6 /s a foot"), 1);
        stage_end(stage);
    }
}

static void the_users_own_limit_stands_there_instead(void)
{
    begin("vary");
    stage->model.limits.rate[RIGHT_FOOT] = stage->model.limits.rate[LEFT_FOOT] = 6.5;
    CHECK_INT(said("limit 6.5 /s a foot"), 1);
    stage->model.limits.rate[RIGHT_FOOT] = 7.0;
    CHECK_INT(said("limit right 7, left 6.5 /s"), 1);
    stage->model.view.left_handed = true; /* the limbs change sides, as the rows' do */
    CHECK_INT(said("limit right 6.5, left 7 /s"), 1);
    stage_end(stage);
}

int main(void)
{
    RUN(the_published_limit_stands_over_the_rows_at_every_size);
    RUN(the_users_own_limit_stands_there_instead);
    return tests_end();
}
