// SPDX-License-Identifier: ISC
/* A dial is said in the same words in the window and in the port's comment (read by lilv, LV2's
   reference); those of the page Feel in README's table too, with what their defaults do. */
#include "../../ui/scene/felt.h"
#include "../desk/own_desk.h"
#include "../help/check.h"
#include "../plugin/bundle.h"
#include "compare.h"

#include <ctype.h>

enum { README_ROOM = 1 << 17, SAID_ROOM = 1024 };

static OwnDesk* own;
static Host* host;
static char readme[README_ROOM];

static void read_readme(void)
{
    FILE* const file = fopen(FOURLIMB_SOURCE "/README.md", "r");
    const size_t size = file ? fread(readme, 1, sizeof readme - 1, file) : 0;
    CHECK(size > 0 && size < sizeof readme - 1);
    if (file) {
        fclose(file);
    }
}

/* Behind the name and a colon. */
static const char* sentence_of(const Control control)
{
    const char* const colon = strstr(dial_of(control)->help, ": ");
    return colon ? colon + 2 : "";
}

static void comment_of(const Control control, char comment[SAID_ROOM])
{
    LilvNode* const property =
        lilv_new_uri(host_world(host), "http://www.w3.org/2000/01/rdf-schema#comment");
    LilvNode* const node = lilv_port_get(
        host_plugin(host),
        lilv_plugin_get_port_by_index(host_plugin(host), (uint32_t)(PORT_FIRST_CONTROL + control)),
        property);
    snprintf(comment, SAID_ROOM, "%s", node ? lilv_node_as_string(node) : "");
    lilv_node_free(node);
    lilv_node_free(property);
}

/* README's row of a dial, to its end; "" if it has none. */
static void row_of(const Control control, char row[SAID_ROOM])
{
    char begin[SAID_ROOM];
    snprintf(begin, sizeof begin, "\n| %s | %s |", dial_of(control)->label, sentence_of(control));
    const char* const found = strstr(readme, begin);
    const size_t size = found ? strcspn(found + 1, "\n") : 0;
    snprintf(row, SAID_ROOM, "%.*s", (int)size, found ? found + 1 : "");
}

static bool is_of_feel(const Control control)
{
    return dial_of(control)->panel == PANEL_FEEL;
}

/* Of these the window says how to walk through them. */
static bool is_walked(const Control control)
{
    return control == CONTROL_GROOVE || control == CONTROL_HANDS || control == CONTROL_FEET;
}

/* What of the help is no word of the window's: its keys. */
static void words_of(const Control control, char words[SAID_ROOM])
{
    static const char* const ends[] = {"; key ", "; Enter ", "; L loops "};
    const char* const help = dial_of(control)->help;
    snprintf(words, SAID_ROOM, "%s", strstr(help, ": ") ? sentence_of(control) : help);
    for (size_t i = 0; i < sizeof ends / sizeof *ends; ++i) {
        char* const end = strstr(words, ends[i]);
        if (end) {
            *end = '\0';
        }
    }
    words[0] = (char)toupper((unsigned char)words[0]);
    snprintf(words + strlen(words), SAID_ROOM - strlen(words), ".");
}

static void a_port_s_comment_begins_with_the_dial_s_words(void)
{
    int seen = 0;
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        char comment[SAID_ROOM], want[SAID_ROOM];
        comment_of((Control)i, comment);
        check_case("%s: \"%s\"", control_rows[i].symbol, comment);
        words_of((Control)i, want);
        seen += !is_walked((Control)i);
        CHECK(is_walked((Control)i) || !strncmp(comment, want, strlen(want)));
    }
    CHECK_INT(seen, CONTROL_COUNT - 3);
}

static void readme_has_a_row_of_each_dial_in_its_words(void)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        char row[SAID_ROOM];
        row_of((Control)i, row);
        check_case("%s: | %s | %s |", control_rows[i].symbol, dial_of((Control)i)->label,
                   sentence_of((Control)i));
        CHECK(!is_of_feel((Control)i) || *row);
    }
}

static void both_have(const Control control, const float value)
{
    char comment[SAID_ROOM], row[SAID_ROOM], felt[FELT_ROOM];
    felt_words(&own->model.view, control, value, felt);
    comment_of(control, comment);
    row_of(control, row);
    check_case("%s at %g: \"%s\"", control_rows[control].symbol, (double)value, felt);
    CHECK(strstr(comment, felt));
    CHECK(strstr(row, felt));
}

static void what_the_default_does_is_said_in_both(void)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        if (is_of_feel((Control)i)) {
            both_have((Control)i, control_rows[i].normal);
        }
    }
}

static void each_word_of_looseness_is_said_in_both(void)
{
    for (float value = control_rows[CONTROL_LOOSENESS].least;
         value <= control_rows[CONTROL_LOOSENESS].most; value += 0.5f) {
        both_have(CONTROL_LOOSENESS, value);
    }
}

/* The window's type is 12 in its second design, and 11 now. */
static void what_a_dial_says_has_room_in_its_line(void)
{
    cairo_surface_t* const surface = cairo_image_surface_create(CAIRO_FORMAT_ARGB32, 8, 8);
    cairo_t* const cairo = cairo_create(surface);
    View* const view = &own->model.view;
    const Geometry g = geometry_of(view);
    view->readouts[READOUT_TEMPO_NOW] = 120.0f;
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        const float normal = view->values[i];
        const float span = control_rows[i].most - control_rows[i].least;
        for (int step = 0; dial_of((Control)i)->kind != DIAL_PICK && step <= 100; ++step) {
            char text[DIAL_HELP_ROOM];
            view->values[i] = control_rows[i].least + span * (float)step / 100.0f;
            dial_help(view, (Control)i, text);
            const Type type = {12.0, false, ALIGN_LEFT, view->palette.ink};
            check_case("\"%s\"", text);
            CHECK(ink_width(cairo, type, text) <= geometry_help(&g, false).room);
        }
        view->values[i] = normal;
    }
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
}

/* Pixels between a dial's cell and the next, beside its value. */
static int ink_beside(cairo_surface_t* const picture, const Box box)
{
    const int right = (int)(box.x + box.width) + 12;
    int ink = 0;
    for (int y = (int)box.y + 15; y < (int)box.y + 32; ++y) {
        ink += compare_pixel(picture, right, y) != compare_pixel(picture, right, (int)box.y + 40);
    }
    return ink;
}

static cairo_surface_t* picture_of_window(void)
{
    cairo_surface_t* const picture = cairo_image_surface_create(CAIRO_FORMAT_RGB24, 960, 540);
    cairo_t* const cairo = cairo_create(picture);
    screen_draw_all(cairo, &own->model.view);
    cairo_destroy(cairo);
    return picture;
}

static void what_a_groove_has_written_stays_in_its_dial_s_cell(void)
{
    static const Control dials[] = {CONTROL_SWING_RATIO, CONTROL_PUSH_HANDS, CONTROL_PUSH_SNARE,
                                    CONTROL_LOOSENESS, CONTROL_TOUCH};
    const View* const view = &own->model.view;
    const Shelf* const grooves = &view->shelves[ENTRY_GROOVE];
    int seen = 0;
    controller_resize(&own->model, 960, 540, 1.0);
    for (int i = 0; i < grooves->count; ++i) {
        own_say(own, CONTROL_GROOVE, (float)grooves->entries[i].id);
        cairo_surface_t* const picture = picture_of_window();
        for (size_t k = 0; k < sizeof dials / sizeof *dials; ++k) {
            Target target;
            double written = 0.0;
            const bool is_written =
                felt_written(view, dials[k], control_rows[dials[k]].normal, &written);
            check_case("%s: %s %g", grooves->entries[i].label, control_rows[dials[k]].symbol,
                       written);
            if (is_written &&
                CHECK(own_find(own, (TargetId){TARGET_DIAL, (int)dials[k]}, &target))) {
                CHECK_INT(ink_beside(picture, target.box), 0);
                ++seen;
            }
        }
        cairo_surface_destroy(picture);
    }
    own_say(own, CONTROL_GROOVE, control_rows[CONTROL_GROOVE].normal);
    CHECK(seen > 20);
}

int main(void)
{
    own = own_desk_open();
    host = bundle_host(48000.0);
    read_readme();
    RUN(a_port_s_comment_begins_with_the_dial_s_words);
    RUN(readme_has_a_row_of_each_dial_in_its_words);
    RUN(what_the_default_does_is_said_in_both);
    RUN(each_word_of_looseness_is_said_in_both);
    RUN(what_a_dial_says_has_room_in_its_line);
    RUN(what_a_groove_has_written_stays_in_its_dial_s_cell);
    host_close(host);
    own_desk_close(own);
    return tests_end();
}
