// SPDX-License-Identifier: ISC
/* What a person wants of the window: how large, whether it moves, and that it is kept.  Sizes
   from 0.8 to 2.5 are what the window promises; that text can be had at twice its size is
   success criterion 1.4.4 of W3C's Web Content Accessibility Guidelines 2.1. */
#include "../../ui/desk/options.h"
#include "../help/check.h"
#include "fresh_desk.h"

static int kept;

static void keep(void* const handle)
{
    (void)handle;
    ++kept;
}

static View* begin(void)
{
    fresh();
    kept = 0;
    own->model.output.keep = keep;
    controller_resize(&own->model, 2400, 1350, 1.0);
    return &own->model.view;
}

static void up(const OptionItem item, const int times)
{
    focus(TARGET_OPTION, (int)item);
    for (int i = 0; i < times; ++i) {
        own_key(own, PANE_KEY_UP, 0);
    }
}

static void the_size_goes_from_0_8_to_2_5_in_tenths(void)
{
    const View* const view = begin();
    CHECK_NEAR(view->text, 1.0, 0.0);
    up(OPTION_TEXT, 1);
    CHECK_NEAR(view->text, 1.1, 1e-12);
    up(OPTION_TEXT, 40);
    CHECK_NEAR(view->text, 2.5, 1e-12);
    for (int i = 0; i < 40; ++i) {
        own_key(own, PANE_KEY_DOWN, 0);
    }
    CHECK_NEAR(view->text, 0.8, 1e-12);
    CHECK_INT(own->writes, 0);
}

/* Real pixels to a logical one: everything is so many times larger. */
static void all_is_so_many_times_as_large(void)
{
    static const double sizes[] = {0.8, 1.0, 1.3, 2.0, 2.5};
    begin();
    for (int i = 0; i < 5; ++i) {
        options_take(&own->model, THEME_DARK, false, sizes[i], false);
        check_case("%g", sizes[i]);
        CHECK_NEAR(own->model.fit.scale, sizes[i], 1e-9);
        CHECK_NEAR(own->model.view.width * sizes[i], 2400.0, 1e-6);
    }
}

/* 960 by 540 has room for 960 / 720 or 540 / 420, whichever is less: 1.286 times. */
static void it_is_as_large_as_the_window_has_room(void)
{
    begin();
    controller_resize(&own->model, 960, 540, 1.0);
    options_take(&own->model, THEME_DARK, false, 2.5, false);
    CHECK_NEAR(own->model.fit.scale, 540.0 / 420.0, 1e-9);
    CHECK(own->model.view.width >= LEAST_WIDTH && own->model.view.height >= LEAST_HEIGHT - 1e-9);
}

static void a_click_falls_where_it_is_seen_at_every_size(void)
{
    begin();
    options_take(&own->model, THEME_DARK, false, 1.7, false);
    own_click(own, (TargetId){TARGET_DIAL, CONTROL_ENABLED});
    CHECK_NEAR(own_value(own, CONTROL_ENABLED), 0.0, 0.0);
}

static void what_can_not_be_is_as_at_first(void)
{
    static const double wrong[] = {0.0, -1.0, 0.79, (double)NAN};
    const View* const view = begin();
    for (int i = 0; i < 4; ++i) {
        options_take(&own->model, THEME_COUNT, false, wrong[i], false);
        CHECK_NEAR(view->text, 1.0, 0.0);
        CHECK_INT(view->theme, THEME_HOST);
    }
    options_take(&own->model, THEME_LIGHT, true, 99.0, true);
    CHECK_NEAR(view->text, 2.5, 1e-12);
    CHECK(view->left_handed && view->still);
    CHECK_INT(kept, 0); /* taking isn't keeping */
}

static void each_change_is_kept_once(void)
{
    begin();
    up(OPTION_TEXT, 1);
    CHECK_INT(kept, 1);
    up(OPTION_HANDED, 1);
    CHECK_INT(kept, 2);
    up(OPTION_MOTION, 1);
    CHECK_INT(kept, 3);
    focus(TARGET_THEME, 0);
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_INT(kept, 4);
    CHECK_INT(own->model.view.theme, THEME_DARK);
}

/* ---- Motion */

static void roll(View* const view)
{
    view->has_place = view->has_bar[0] = view->place.rolling = true;
    view->place.phrase_bars = 1;
    view->place.ticks_per_second = 2.0 * TICKS_PER_QUARTER;
    view->bars[0].meter = (Meter){4.0, 4};
    view->bars[0].count = 1;
    view->bars[0].strokes[0] = (SeenStroke){.felt = TICKS_PER_QUARTER, .velocity = 90};
}

/* Where it stands at so many beats: the boxes of what moves. */
static int moving_at(View* const view, const double beats, Moving moving[MOVING_MAX])
{
    view->now_tick = beats * TICKS_PER_QUARTER;
    return screen_moving(view, moving);
}

static bool same_boxes(const Moving* const a, const Moving* const b, const int count)
{
    bool same = true;
    for (int i = 0; same && i < count; ++i) {
        same = fabs(a[i].box.x - b[i].box.x) < 1e-9 && fabs(a[i].box.y - b[i].box.y) < 1e-9 &&
               a[i].is_lit == b[i].is_lit;
    }
    return same;
}

/* From one beat to the next all stays as it is, also over a stroke; the beat tells the place. */
static void without_motion_it_changes_once_a_beat(void)
{
    Moving first[MOVING_MAX], later[MOVING_MAX];
    View* const view = begin();
    roll(view);
    const int moves = moving_at(view, 1.0, first);
    CHECK(moving_at(view, 1.05, later) == moves && !same_boxes(first, later, moves));
    up(OPTION_MOTION, 1);
    CHECK(view->still);
    const int count = moving_at(view, 1.0, first);
    CHECK(count > 0);
    for (int i = 1; i < 20; ++i) {
        check_case("beat %g", 1.0 + i / 20.0);
        CHECK_INT(moving_at(view, 1.0 + i / 20.0, later), count);
        CHECK(same_boxes(first, later, count));
    }
    moving_at(view, 2.0, later);
    CHECK(!same_boxes(first, later, count));
}

int main(void)
{
    RUN(the_size_goes_from_0_8_to_2_5_in_tenths);
    RUN(all_is_so_many_times_as_large);
    RUN(it_is_as_large_as_the_window_has_room);
    RUN(a_click_falls_where_it_is_seen_at_every_size);
    RUN(what_can_not_be_is_as_at_first);
    RUN(each_change_is_kept_once);
    RUN(without_motion_it_changes_once_a_beat);
    own_desk_close(own);
    return tests_end();
}
