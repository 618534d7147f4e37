// SPDX-License-Identifier: ISC
/* What can be pointed at, as a table of sizes and states: everything lies in the
   window, nothing lies over its neighbour, a click in the middle reaches it, and
   Tab comes to all of it.  The checks are plain geometry. */
#include "../desk/own_desk.h"
#include "../help/check.h"

static OwnDesk* own;

static const struct {
    int width, height;
} sizes[] = {{720, 420}, {860, 500}, {859, 499},  {860, 529},
             {860, 530}, {960, 540}, {1280, 760}, {2000, 1200}};

enum { SIZES = sizeof sizes / sizeof *sizes };

static void state(const int size, const int panel, const int page, const int bars)
{
    View* const view = &own->model.view;
    controller_resize(&own->model, sizes[size].width, sizes[size].height, 1.0);
    view->panel = (Panel)panel;
    view->page = page;
    view->place.phrase_bars = (uint32_t)bars;
    check_case("%d by %d, panel %d, row %d, %d bars, list %s", sizes[size].width,
               sizes[size].height, panel, page, bars, view->list.is_open ? "open" : "closed");
}

/* In every state: with no list and with each list. */
static void in_every_state(void (*const check)(const TargetList* targets))
{
    static const int phrases[] = {1, 3, 8, 9, 16};
    static TargetList targets;
    for (int size = 0; size < SIZES; ++size) {
        for (int list = -1; list < ENTRY_KINDS; ++list) {
            for (int panel = 0; panel < PANEL_COUNT; ++panel) {
                for (int more = 0; more < 5; ++more) {
                    own->model.view.list.is_open = false;
                    state(size, panel, more % 2, phrases[more]);
                    if (list >= 0) {
                        static const EntryKind by_key[] = {ENTRY_HANDS, ENTRY_FEET, ENTRY_GROOVE};
                        own_key(own, (uint32_t) "hfg"[list % 3], 0);
                        own->model.view.list.shelf = by_key[list % 3];
                    }
                    const Geometry g = geometry_of(&own->model.view);
                    targets_of(&own->model.view, &g, &targets);
                    check(&targets);
                    if (list >= 0) {
                        own_key(own, PANE_KEY_ESCAPE, 0);
                    }
                }
            }
        }
    }
}

static void check_inside(const TargetList* const targets)
{
    for (int i = 0; i < targets->count; ++i) {
        const Box box = targets->targets[i].box;
        const View* const view = &own->model.view;
        const bool in = box.x >= 0.0 && box.y >= 0.0 && box.x + box.width <= view->width &&
                        box.y + box.height <= view->height && box.width >= 4.0 && box.height >= 4.0;
        if (!in) {
            check_case("target %d %d at %g, %g in %g by %g", (int)targets->targets[i].id.kind,
                       targets->targets[i].id.index, box.x, box.y, view->width, view->height);
        }
        CHECK(in);
    }
    CHECK(targets->count < TARGETS_MAX);
}

/* What a hand at a drum kit can hit; ours.  (24 is what success criterion 2.5.8 of WCAG 2.2
   asks of targets that stand alone.) */
static void check_size(const TargetList* const targets)
{
    static const double least = 16.0;
    for (int i = 0; i < targets->count; ++i) {
        const Target* const target = &targets->targets[i];
        const bool is_large = target->box.width >= least && target->box.height >= least;
        if (!is_large) {
            check_case("target %d %d, %g by %g, in %g by %g, list %d", (int)target->id.kind,
                       target->id.index, target->box.width, target->box.height,
                       own->model.view.width, own->model.view.height, own->model.view.list.is_open);
        }
        CHECK(is_large);
    }
}

static void every_target_is_large_enough_to_hit(void)
{
    in_every_state(check_size);
}

static void every_target_lies_in_the_window(void)
{
    in_every_state(check_inside);
}

/* Triangles lie in their card, lines and the field in their list. */
static bool is_parent(const Target* const target)
{
    return target->id.kind == TARGET_LIST || target->id.kind == TARGET_CARD;
}

static bool overlap(const Box a, const Box b)
{
    const double hair = 1e-6;
    return a.x + a.width > b.x + hair && b.x + b.width > a.x + hair &&
           a.y + a.height > b.y + hair && b.y + b.height > a.y + hair;
}

static bool contains(const Box outer, const Box inner)
{
    return inner.x >= outer.x && inner.y >= outer.y &&
           inner.x + inner.width <= outer.x + outer.width &&
           inner.y + inner.height <= outer.y + outer.height;
}

static void check_apart(const TargetList* const targets)
{
    for (int i = 0; i < targets->count; ++i) {
        for (int j = i + 1; j < targets->count; ++j) {
            const Target* const a = &targets->targets[i];
            const Target* const b = &targets->targets[j];
            const bool is_nested = is_parent(a) && contains(a->box, b->box);
            if (!is_nested && overlap(a->box, b->box)) {
                check_case("targets %d %d and %d %d of %g by %g", (int)a->id.kind, a->id.index,
                           (int)b->id.kind, b->id.index, own->model.view.width,
                           own->model.view.height);
                CHECK(false);
            }
        }
    }
}

static void no_target_lies_over_its_neighbour(void)
{
    in_every_state(check_apart);
}

static void check_hit(const TargetList* const targets)
{
    for (int i = 0; i < targets->count; ++i) {
        const Target* const target = &targets->targets[i];
        const Target* const hit = targets_at(targets, middle_x(target), middle_y(target));
        const bool is_whole_list = target->id.kind == TARGET_LIST;
        CHECK(hit && (is_whole_list || view_target_same(hit->id, target->id)));
        const Target* const corner = targets_at(targets, target->box.x, target->box.y);
        CHECK(corner && (is_parent(target) || view_target_same(corner->id, target->id)));
    }
    CHECK(!targets_at(targets, -1.0, -1.0));
    CHECK(!targets_at(targets, own->model.view.width + 1.0, 10.0));
}

static void the_middle_of_each_target_hits_it(void)
{
    in_every_state(check_hit);
}

static void check_once(const TargetList* const targets)
{
    for (int i = 0; i < targets->count; ++i) {
        for (int j = i + 1; j < targets->count; ++j) {
            CHECK(!view_target_same(targets->targets[i].id, targets->targets[j].id));
        }
    }
}

static void no_target_is_there_twice(void)
{
    in_every_state(check_once);
}

static int group_of_focus(void)
{
    Target target;
    own_find(own, own->model.view.focus, &target);
    return (int)target.group;
}

/* Rows are there while a figure is edited, bars where the page leaves them their place. */
static bool is_there(const int group)
{
    TargetList targets;
    bool is = false;
    model_targets(&own->model, &targets);
    for (int i = 0; i < targets.count; ++i) {
        is = is || (int)targets.targets[i].group == group;
    }
    return is;
}

/* Tab, or Shift and Tab, from a target on: each group that is there once, and back. */
static void check_round(const TargetId from, const uint32_t modifiers)
{
    const int groups = GROUP_LIST;
    bool seen[GROUP_LIST] = {false};
    own->model.view.focus = from;
    const int begin = group_of_focus();
    int there = 0;
    for (int group = 0; group < groups; ++group) {
        there += is_there(group);
    }
    for (int i = 0; i < there; ++i) {
        own_key(own, PANE_KEY_TAB, modifiers);
        const int group = group_of_focus();
        if (CHECK(group < groups)) {
            CHECK(!seen[group]);
            seen[group] = true;
        }
    }
    CHECK_INT(group_of_focus(), begin);
}

static void tab_from_anywhere_comes_to_every_group_and_back(void)
{
    static TargetList targets;
    for (int size = 0; size < SIZES; ++size) {
        for (int panel = 0; panel < PANEL_COUNT; ++panel) {
            state(size, panel, 0, 8);
            const Geometry g = geometry_of(&own->model.view);
            targets_of(&own->model.view, &g, &targets);
            for (int i = 0; i < targets.count; ++i) {
                if (targets.targets[i].group != GROUP_NONE) {
                    check_round(targets.targets[i].id, 0);
                    check_round(targets.targets[i].id, PANE_SHIFT);
                }
            }
        }
    }
}

static void tab_finds_its_way_from_a_dial_that_is_out_of_sight(void)
{
    state(3, PANEL_FEEL, 0, 8);
    own->model.view.focus = (TargetId){TARGET_DIAL, CONTROL_LADDER_STEP};
    own_key(own, PANE_KEY_TAB, 0);
    CHECK(group_of_focus() != GROUP_NONE);
}

/* Right from a group's first target comes to its last, Left goes back. */
static void check_within(const TargetList* const targets, const int group)
{
    int first = -1, last = -1;
    for (int i = 0; i < targets->count; ++i) {
        if ((int)targets->targets[i].group == group) {
            first = first < 0 ? i : first;
            last = i;
        }
    }
    own->model.view.focus = targets->targets[first].id;
    for (int i = 0; i < last - first; ++i) {
        own_key(own, PANE_KEY_RIGHT, 0);
    }
    CHECK(view_target_same(own->model.view.focus, targets->targets[last].id));
    own_key(own, PANE_KEY_RIGHT, 0);
    CHECK(view_target_same(own->model.view.focus, targets->targets[last].id));
    for (int i = 0; i < last - first; ++i) {
        own_key(own, PANE_KEY_LEFT, 0);
    }
    CHECK(view_target_same(own->model.view.focus, targets->targets[first].id));
}

static void right_and_left_walk_a_whole_group(void)
{
    static TargetList targets;
    for (int size = 0; size < SIZES; ++size) {
        for (int panel = 0; panel < PANEL_COUNT; ++panel) {
            state(size, panel, 0, 8);
            const Geometry g = geometry_of(&own->model.view);
            targets_of(&own->model.view, &g, &targets);
            for (int group = GROUP_LIMBS; group <= GROUP_PANEL; ++group) {
                const bool is_row = group == GROUP_ROW || group == GROUP_ROW_LEFT;
                if (!is_row && is_there(group)) { /* in rows they are steps */
                    check_within(&targets, group);
                }
            }
            check_within(&targets, GROUP_TOP);
        }
    }
}

/* A window under the least size is scaled down as a whole. */
static void a_click_in_a_window_under_the_least_size_hits_the_same(void)
{
    controller_resize(&own->model, 360, 210, 1.0);
    CHECK_NEAR(own->model.fit.width, 720.0, 1e-9);
    CHECK_NEAR(own->model.fit.scale, 0.5, 1e-9);
    const float before = own_value(own, CONTROL_ENABLED);
    own_click(own, (TargetId){TARGET_DIAL, CONTROL_ENABLED});
    CHECK(own_value(own, CONTROL_ENABLED) < before);
    own_click(own, (TargetId){TARGET_DIAL, CONTROL_ENABLED});
    controller_resize(&own->model, 960, 540, 1.0);
}

int main(void)
{
    own = own_desk_open();
    RUN(every_target_lies_in_the_window);
    RUN(every_target_is_large_enough_to_hit);
    RUN(no_target_lies_over_its_neighbour);
    RUN(the_middle_of_each_target_hits_it);
    RUN(no_target_is_there_twice);
    RUN(tab_from_anywhere_comes_to_every_group_and_back);
    RUN(tab_finds_its_way_from_a_dial_that_is_out_of_sight);
    RUN(right_and_left_walk_a_whole_group);
    RUN(a_click_in_a_window_under_the_least_size_hits_the_same);
    own_desk_close(own);
    return tests_end();
}
