// SPDX-License-Identifier: ISC
/* What has the keys is always seen (W3C, WCAG 2.1, success criterion 2.4.7), by a ring of a
   colour that stands out (1.4.11), and nothing is said by colour alone (1.4.1). */
#include "../desk/chance.h"
#include "../../ui/scene/reading.h"
#include "../help/check.h"
#include "compare.h"
#include "stage.h"

#include <math.h>
#include <string.h>

static const int sizes[][2] = {{720, 420}, {960, 540}, {1280, 760}};
enum { SIZES = 3 };

static Stage* stage;
static View* view;

static void begin(const char* const scene)
{
    stage = stage_play(stage_scene(scene));
    view = &stage->model.view;
}

/* Pixels of a box that aren't the same; those that are of a colour there, if one is given. */
static int pixels_other(cairo_surface_t* const a, cairo_surface_t* const b, const Box box,
                        const uint32_t colour)
{
    int other = 0;
    const int bottom = (int)fmin(box.y + box.height, cairo_image_surface_get_height(a));
    const int right = (int)fmin(box.x + box.width, cairo_image_surface_get_width(a));
    for (int y = (int)fmax(box.y, 0.0); y < bottom; ++y) {
        for (int x = (int)fmax(box.x, 0.0); x < right; ++x) {
            const uint32_t pixel = compare_pixel(b, x, y) & 0xFFFFFFU;
            other +=
                compare_pixel(a, x, y) != compare_pixel(b, x, y) && (!colour || pixel == colour);
        }
    }
    return other;
}

/* How much of a box of the picture a change of the view changes. */
static int changed_by(void (*const change)(void), const Box box, const uint32_t colour)
{
    cairo_surface_t* const before = stage_picture(stage);
    change();
    cairo_surface_t* const after = stage_picture(stage);
    const int other = pixels_other(before, after, box, colour);
    cairo_surface_destroy(before);
    cairo_surface_destroy(after);
    return other;
}

static TargetId wanted;

static void focus_wanted(void)
{
    view->focus = wanted;
}

/* A ring two pixels wide, less its corners and where it lies between pixels. */
static void check_ring(const Target* const target)
{
    static const uint32_t accent = 0x4FD0B2; /* palette_dark's */
    const Box box = target->box;
    const Box around = {box.x - 6.0, box.y - 6.0, box.width + 12.0, box.height + 12.0};
    view->focus = (TargetId){TARGET_NONE, 0};
    wanted = target->id;
    check_case("%g wide, panel %d, target %d %d", view->width, (int)view->panel,
               (int)target->id.kind, target->id.index);
    CHECK(changed_by(focus_wanted, around, accent) >= box.width + fmin(box.height, 14.0));
}

static void each_thing_with_the_keys_has_a_ring(void)
{
    begin("playing-dark");
    for (int size = 0; size < SIZES; ++size) {
        controller_resize(&stage->model, sizes[size][0], sizes[size][1], 1.0);
        for (int panel = 0; panel < PANEL_COUNT; ++panel) {
            TargetList targets;
            const bool is_kept = panel == PANEL_SHORTLIST; /* it has no tab */
            if (is_kept) {
                stage_key(stage, 'j');
            } else {
                stage_click(stage, (TargetId){TARGET_TAB, panel});
            }
            const Geometry g = geometry_of(view);
            targets_of(view, &g, &targets);
            for (int i = 0; i < targets.count; ++i) {
                if (targets.targets[i].group < GROUP_LIST) {
                    check_ring(&targets.targets[i]);
                }
            }
            if (is_kept) {
                stage_key(stage, 'j');
            }
        }
    }
    stage_end(stage);
}

static bool is_seen(const TargetId id)
{
    TargetList targets;
    const Geometry g = geometry_of(view);
    targets_of(view, &g, &targets);
    return targets_find(&targets, id);
}

/* Keys of a person who tries them all, and windows of all sizes. */
static void the_focus_never_goes_out_of_sight(void)
{
    static const uint32_t keys[] = {PANE_KEY_TAB,
                                    PANE_KEY_TAB,
                                    PANE_KEY_LEFT,
                                    PANE_KEY_RIGHT,
                                    PANE_KEY_ENTER,
                                    PANE_KEY_UP,
                                    PANE_KEY_DOWN,
                                    PANE_KEY_ESCAPE,
                                    PANE_KEY_DELETE,
                                    'p',
                                    'p',
                                    'd',
                                    'k',
                                    't',
                                    'f',
                                    '5',
                                    'c',
                                    'z'};
    Chance state = {5};
    begin("playing-dark");
    int looked = 0;
    for (int i = 0; i < 3000; ++i) {
        if (chance(&state, 40) == 0) {
            controller_resize(&stage->model, 720 + (int)chance(&state, 900),
                              420 + (int)chance(&state, 600), 1.0);
        }
        stage_key(stage, keys[chance(&state, sizeof keys / sizeof *keys)]);
        if (!view->list.is_open && !view->keys.is_open && !view->reads) {
            ++looked;
            check_case("key %d: %d %d", i, (int)view->focus.kind, view->focus.index);
            CHECK(is_seen(view->focus));
        }
    }
    CHECK(looked > 500);
    stage_end(stage);
}

static void a_panel_that_goes_takes_the_focus_to_the_tab_of_the_next(void)
{
    begin("playing-dark");
    view->focus = (TargetId){TARGET_DIAL, CONTROL_TOUCH};
    stage_key(stage, 'p');
    CHECK(view_target_same(view->focus, (TargetId){TARGET_TAB, PANEL_RHYTHM}));
    stage_end(stage);
}

/* ---- Without colour: as if there were ink and ground alone, and outlines */

static void without_colour(const char* const scene)
{
    begin(scene);
    view->palette.accent = view->palette.ink;
    view->palette.on_accent = view->palette.shade = view->palette.raised = view->palette.ground;
    view->palette.soft = view->palette.ink;
    check_case("%s", scene);
}

static void go_on_a_bar(void)
{
    view->place.bar += 1;
}

static void go_on_a_beat(void)
{
    view->now_tick += TICKS_PER_QUARTER;
}

static void wait(void)
{
    view->place.waiting = true;
    view->place.change_bar = view->place.phrase + 3;
}

static void silence(void)
{
    view->values[CONTROL_LEFT_FOOT] = 0.0f;
}

static void loop(void)
{
    view->values[CONTROL_LOOP_BAR] = (float)(view_shown(view) - view_phrase(view) + 2);
}

static void choose_other(void)
{
    ++view->list.selected;
}

static void focus_tempo(void)
{
    view->focus = (TargetId){TARGET_DIAL, CONTROL_TEMPO};
}

static Box anywhere(void)
{
    return (Box){0.0, 0.0, view->width, view->height};
}

/* Where the bar after the one that plays stands in the form. */
static Box next_of_form(void)
{
    const Geometry g = geometry_of(view);
    const int next = (int)(view_shown(view) - view_phrase(view)) + 1;
    return g.reads ? reading_bar(&g, next, view_phrase_bars(view))
                   : geometry_bar_box(&g, next, view_phrase_bars(view), next - 1);
}

/* The row of the counts, or what is left of the staff. */
static Box counts(void)
{
    const Geometry g = geometry_of(view);
    return (Box){g.staff, g.count_hands - 40.0, g.right - g.staff, 44.0};
}

static Box labels(void)
{
    const Geometry g = geometry_of(view);
    return (Box){g.labels, g.line[3] - 30.0, g.staff - g.labels, 100.0};
}

static Box rows(void)
{
    const Geometry g = geometry_of(view);
    return (Box){g.staff, g.row_top[3], g.right - g.staff, g.row_bottom[3] - g.row_top[3]};
}

static void each_state_is_told_without_colour(void)
{
    static const struct {
        const char* scene;
        void (*change)(void);
        Box (*where)(void);
    } states[] = {
        {"playing-dark", go_on_a_bar, next_of_form},
        {"playing-light", go_on_a_bar, next_of_form},
        {"reading", go_on_a_bar, next_of_form},
        {"playing-dark", go_on_a_beat, counts},
        {"reading", go_on_a_beat, counts},
        {"playing-dark", wait, anywhere},
        {"reading", wait, anywhere},
        {"playing-dark", silence, rows},
        {"playing-dark", silence, labels},
        {"reading", silence, rows},
        {"reading", silence, labels},
        {"playing-dark", loop, next_of_form},
        {"feet-list", choose_other, anywhere},
        {"playing-dark", focus_tempo, anywhere},
    };
    for (size_t i = 0; i < sizeof states / sizeof *states; ++i) {
        without_colour(states[i].scene);
        if (states[i].where == next_of_form && states[i].change == go_on_a_bar) {
            view->bars[2] = view->bars[1]; /* so that nothing but the place differs */
            view->bars[2].bar = view->bars[1].bar + 1;
        }
        check_case("%s, state %zu", states[i].scene, i);
        CHECK(changed_by(states[i].change, states[i].where(), 0) > 40);
        stage_end(stage);
    }
}

int main(void)
{
    RUN(each_thing_with_the_keys_has_a_ring);
    RUN(the_focus_never_goes_out_of_sight);
    RUN(a_panel_that_goes_takes_the_focus_to_the_tab_of_the_next);
    RUN(each_state_is_told_without_colour);
    return tests_end();
}
