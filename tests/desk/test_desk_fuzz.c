// SPDX-License-Identifier: ISC
/* A hundred thousand inputs and events by chance, from fixed seeds: nothing breaks
   (run under sanitizers too), nothing out of range is written, every dial taken
   hold of is let go. */
#include "../../ui/desk/options.h"
#include "../help/check.h"
#include "../talk/talk.h"
#include "recorded.h"

enum { STEPS = 100000 };

static OwnDesk* own;
static Recorded* recorded;
static uint32_t state;

static uint32_t any(const uint32_t most)
{
    return chance_to(&state, most);
}

static int written, unasked;

/* A file is written: only where it was asked into which folder, and answered. */
static void write_file(void* const handle, const bool straight)
{
    (void)handle;
    (void)straight;
    ++written;
    unasked += !own->model.view.asked.is_known;
    own->model.view.asked.is_known = false; /* as where it can't be: so it asks again */
}

/* Mostly in the window, sometimes far out or no number at all. */
static double any_place(const double size)
{
    static const double odd[] = {-1e9, 1e9, 1e300, -1.0, 0.0};
    const uint32_t kind = any(60);
    return kind < 5 ? odd[kind] : kind == 5 ? (double)NAN : size * any(1000) / 1000.0;
}

static uint32_t any_key(void)
{
    static const uint32_t odd[] = {0, 8, 27, 0xE4, 0x431, 0x5869, 0xD800, 0x10FFFF, 0x110100};
    const uint32_t kind = any(9);
    return kind < 5   ? PANE_KEY_UP + any(PANE_KEY_F12 - PANE_KEY_UP)
           : kind < 9 ? ' ' + any(94)
                      : odd[any(8)];
}

static void any_input(void)
{
    static const PaneEventKind kinds[] = {PANE_PRESS,     PANE_PRESS,  PANE_RELEASE, PANE_MOTION,
                                          PANE_MOTION,    PANE_MOTION, PANE_SCROLL,  PANE_KEY,
                                          PANE_KEY,       PANE_KEY,    PANE_LEAVE,   PANE_FOCUS_IN,
                                          PANE_FOCUS_OUT, PANE_RESIZE, PANE_CLOSE};
    static const double scrolls[] = {1.0, -1.0, 0.0, 7.5, -1e12, 1e300};
    const uint32_t key = any_key();
    const PaneEvent event = {
        .kind = kinds[any(14)],
        .x = any_place(own->model.view.width * own->model.fit.scale),
        .y = any_place(own->model.view.height * own->model.fit.scale),
        .scroll = scrolls[any(5)],
        .button = any(5) ? 1 : (int)any(3),
        .key = key,
        .text = key < PANE_KEY_UP || any(50) == 0 ? key : 0,
        .modifiers = any(3) ? 0 : any(15),
        .width = (int)any(3000) - 100,
        .height = (int)any(2000) - 100,
    };
    controller_input(&own->model, &event);
}

static void any_event(void)
{
    static const float odd[] = {0.0f, 1.0f, -1.0f, 1e30f, -1e30f, 0.5f, 3.0f, 1999.0f};
    const PortEvent* const event = &recorded->events[any((uint32_t)recorded->count - 1)];
    if (any(2)) {
        incoming_port_event(&own->model, event->port, event->size, event->format, event->bytes);
    } else if (any(1)) {
        uint8_t* const spoilt = malloc(event->size);
        memcpy(spoilt, event->bytes, event->size);
        spoilt[any(event->size - 1)] = (uint8_t)chance(&state);
        spoilt[any(event->size - 1)] = (uint8_t)chance(&state);
        incoming_port_event(&own->model, event->port, event->size, event->format, spoilt);
        free(spoilt);
    } else {
        own_port(own, any(PORT_FIRST_READOUT + READOUT_COUNT + 2),
                 any(20) ? odd[any(7)] : (float)NAN);
    }
}

static void any_size(void)
{
    static const double scales[] = {1.0, 1.5, 2.0, 0.75};
    controller_resize(&own->model, (int)any(2200) - 20, (int)any(1300) - 20, scales[any(3)]);
}

static void draw(void)
{
    cairo_surface_t* const surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, 480, 270);
    cairo_t* const cairo = cairo_create(surface);
    screen_draw_all(cairo, &own->model.view);
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
}

static void check_sane(void)
{
    const View* const view = &own->model.view;
    CHECK_INT(own->wrong, 0);
    CHECK_INT(own->unbalanced, 0);
    CHECK_INT(own->held, view->pressed.kind == TARGET_DIAL);
    CHECK(memchr(view->typed, 0, TYPED_ROOM) && memchr(view->list.find, 0, FIND_ROOM));
    CHECK(view->list.first >= 0 && view->list.count <= LIST_ROWS_MAX);
    CHECK(view->list.selected >= -1 &&
          (view->list.selected < view->list.count || !view->list.is_open));
    CHECK(view->panel < PANEL_COUNT && (view->page == 0 || view->page == 1));
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        CHECK(view->values[i] >= control_rows[i].least && view->values[i] <= control_rows[i].most);
    }
}

static void anything_in_any_order_does_no_harm(void)
{
    double seconds = 0.0;
    own->model.output.write_file = write_file;
    for (int step = 0; step < STEPS; ++step) {
        if (any(4)) {
            any_input();
        } else {
            any_event();
        }
        if (any(300) == 0) {
            any_size();
        }
        seconds += any(100) / 400.0;
        controller_tick(&own->model, seconds);
        check_case("step %d", step);
        check_sane();
        if (step % 500 == 0) {
            draw();
        }
    }
    CHECK(own->writes > 1000 && own->touches > 1000); /* else this has tried little */
    printf("# %d files were asked for and written\n", written);
    CHECK(written > 0);
    CHECK_INT(unasked, 0);
    own_release(own);
    CHECK_INT(own->held, 0);
}

/* After all that the window still does what is asked of it. */
static void after_it_the_window_works_as_ever(void)
{
    const PaneEvent keys = {.kind = PANE_FOCUS_IN};
    controller_resize(&own->model, 960, 540, 1.0);
    options_take(&own->model, THEME_DARK, false, 1.0, false);
    controller_input(&own->model, &keys);
    for (int i = 0; i < 3; ++i) {
        own_key(own, PANE_KEY_ESCAPE, 0);
    }
    own_say(own, CONTROL_TOUCH, 50.0f);
    own_click(own, (TargetId){TARGET_TAB, PANEL_FEEL});
    own_press(own, (TargetId){TARGET_DIAL, CONTROL_TOUCH}, 0);
    own_mouse(own, PANE_MOTION, own->model.drag_x + 20.0, own->model.drag_y, 0);
    own_release(own);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 60.0, 1e-4);
    replay(own, recorded);
    CHECK_INT(own->model.view.place.phrase_bars, 3);
    draw();
}

int main(void)
{
    own = own_desk_open();
    recorded = record(own);
    state = 20261125;
    RUN(anything_in_any_order_does_no_harm);
    RUN(after_it_the_window_works_as_ever);
    recorded_free(recorded);
    own_desk_close(own);
    return tests_end();
}
