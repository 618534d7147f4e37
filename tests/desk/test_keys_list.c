// SPDX-License-Identifier: ISC
/* The list of keys in the window: every row of the table of actions, opened, closed and scrolled
   as lists are. */
#include "../../ui/desk/actions.h"
#include "../../ui/scene/keys.h"
#include "../help/check.h"
#include "fresh_desk.h"

static void the_window_lists_every_row_under_its_scope(void)
{
    fresh();
    const KeyList* const keys = &own->model.view.keys;
    const char* heading = "";
    int row = 0;
    for (int i = 0; i < keys->count; ++i) {
        const KeyLine* const line = &keys->lines[i];
        const Action* const action = actions_row(row);
        char text[KEYS_ROOM];
        if (!*line->keys) {
            heading = line->words;
        } else if (CHECK(action)) {
            actions_keys(action, text);
            check_case("row %d", row);
            CHECK_TEXT(line->keys, text);
            CHECK_TEXT(line->words, action->help);
            CHECK_TEXT(heading, actions_scope(action->scope));
            ++row;
        }
    }
    CHECK(row > 30 && !actions_row(row));
}

static void the_list_of_keys_opens_and_goes_away_as_lists_do(void)
{
    static const uint32_t away[] = {'k', '?', PANE_KEY_ESCAPE};
    const KeyList* keys = NULL;
    for (int i = 0; i < 3; ++i) {
        fresh();
        keys = &own->model.view.keys;
        CHECK(own_key(own, i == 1 ? '?' : 'k', 0));
        CHECK(keys->is_open);
        CHECK(own_key(own, away[i], 0));
        CHECK(!keys->is_open);
    }
    own_key(own, 'k', 0);
    own_click(own, (TargetId){TARGET_LIST, 0});
    CHECK(keys->is_open);
    own_click(own, (TargetId){TARGET_DIAL, CONTROL_ENABLED}); /* outside: and it counts */
    CHECK(!keys->is_open);
    CHECK_NEAR(own_value(own, CONTROL_ENABLED), 0.0, 0.0);
    own_key(own, 'k', 0);
    own_key(own, 'f', 0);
    CHECK(!keys->is_open);
    CHECK(list()->is_open);
}

/* To the last line, by keys and by the wheel, at every size, and no further. */
static void the_list_of_keys_scrolls_to_its_end(void)
{
    fresh();
    const KeyList* const keys = &own->model.view.keys;
    own_key(own, 'k', 0);
    for (int i = 0; i < KEY_LINES_MAX; ++i) {
        own_key(own, PANE_KEY_DOWN, 0);
    }
    const Geometry g = geometry_of(&own->model.view);
    CHECK_INT(keys->first, keys->count - keys_seen(&g));
    controller_resize(&own->model, 960, 620, 1.0);
    const Geometry large = geometry_of(&own->model.view);
    CHECK_INT(keys->first, keys->count - keys_seen(&large));
    own_key(own, PANE_KEY_PAGE_UP, 0);
    const int first = keys->first;
    Target target;
    CHECK(own_find(own, (TargetId){TARGET_LIST, 0}, &target));
    const PaneEvent wheel = {
        .kind = PANE_SCROLL, .scroll = -1.0, .x = middle_x(&target), .y = middle_y(&target)};
    controller_input(&own->model, &wheel);
    CHECK(keys->first > first);
}

int main(void)
{
    RUN(the_window_lists_every_row_under_its_scope);
    RUN(the_list_of_keys_opens_and_goes_away_as_lists_do);
    RUN(the_list_of_keys_scrolls_to_its_end);
    own_desk_close(own);
    return tests_end();
}
