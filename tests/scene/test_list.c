// SPDX-License-Identifier: ISC
/* An open list: names whole, columns under their heads, and of grooves what presets/ has
   written of them, read here by a reader of its own. */
#include "../help/check.h"
#include "shown_text.h"

#include <stdlib.h>

static const struct {
    int width, height;
} sizes[] = {{720, 420}, {860, 530}, {960, 540}, {1280, 760}};
enum { SIZES = sizeof sizes / sizeof *sizes };

/* Draws the list line by line down to its end. */
static void through_list(Stage* const stage, const EntryKind kind,
                         void (*const check)(const View* view))
{
    View* const view = &stage->model.view;
    stage_key(stage, PANE_KEY_ESCAPE);
    stage->model.view.focus = (TargetId){TARGET_CARD, (int)kind};
    stage_key(stage, PANE_KEY_ENTER);
    if (!CHECK(view->list.is_open && view->list.shelf == kind)) {
        return;
    }
    stage_key(stage, PANE_KEY_HOME);
    int last = -1;
    while (view->list.selected != last) {
        last = view->list.selected;
        shown_draw(view);
        check(view);
        stage_key(stage, PANE_KEY_PAGE_DOWN);
    }
    stage_key(stage, PANE_KEY_ESCAPE);
}

/* Found by tests/fuzz: a division by no height was made a whole number. */
static void a_list_that_is_closed_has_no_rows(void)
{
    for (int i = 0; i < SIZES; ++i) {
        const View view = {.width = sizes[i].width, .height = sizes[i].height};
        const Geometry g = geometry_of(&view);
        check_case("%d x %d", sizes[i].width, sizes[i].height);
        CHECK_INT(geometry_list_rows(&g), 0);
    }
}

static int lines_seen;

static void check_names(const View* const view)
{
    const List* const list = &view->list;
    const Geometry g = geometry_of(view);
    for (int i = 0; i < geometry_list_rows(&g) && list->first + i < list->count; ++i) {
        const ListRow row = list->rows[list->first + i];
        const Entry* const entry = &view->shelves[list->shelf].entries[row.entry];
        bool whole = row.is_heading;
        for (int k = 0; k < shown.count; ++k) {
            whole = whole || (!strcmp(shown.texts[k].text, entry->label) &&
                              !shown.texts[k].is_cut && shown.texts[k].box.y > g.list_rows);
        }
        check_case("\"%s\", %g by %g", entry->label, view->width, view->height);
        CHECK(whole);
        ++lines_seen;
    }
}

static void every_name_is_read_whole_at_every_size(void)
{
    Stage* const stage = stage_play(stage_scene("standing"));
    for (int size = 0; size < SIZES; ++size) {
        controller_resize(&stage->model, sizes[size].width, sizes[size].height, 1.0);
        for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
            through_list(stage, (EntryKind)kind, check_names);
        }
    }
    CHECK(lines_seen > 2000);
    stage_end(stage);
}

/* ---- Against the file */

typedef struct {
    char label[80];
    char meter[16];
    char tempo[16];
    char length[16];
} Written;

static struct {
    int count;
    Written grooves[400];
} written;

static bool value_of(const char* const line, const char* const property, char* const value,
                     const size_t room)
{
    const char* const at = strstr(line, property);
    if (!at) {
        return false;
    }
    const char* from = at + strlen(property);
    from += strspn(from, " \"");
    const size_t length = strcspn(from, "\";\n");
    snprintf(value, room, "%.*s", (int)length, from);
    while (*value && value[strlen(value) - 1] == ' ') {
        value[strlen(value) - 1] = '\0';
    }
    return true;
}

/* A groove begins with its label; its form says its length: "AAAB", or "A". */
static void read_grooves(void)
{
    FILE* const file = fopen(FOURLIMB_SOURCE "/presets/grooves.ttl", "r");
    char line[1024];
    char value[80];
    char low[16] = "", beats[16] = "";
    Written* now = NULL;
    while (file && fgets(line, sizeof line, file) && written.count < 400) {
        if (value_of(line, "rdfs:label", value, sizeof value)) {
            now = &written.grooves[written.count++];
            snprintf(now->label, sizeof now->label, "%s", value);
        } else if (now && value_of(line, "fl:tempoLow", low, sizeof low)) {
            continue;
        } else if (now && value_of(line, "fl:tempoHigh", value, sizeof value)) {
            snprintf(now->tempo, sizeof now->tempo, "%.7s-%.7s", low, value);
        } else if (now && value_of(line, "fl:beatsPerBar", beats, sizeof beats)) {
            continue;
        } else if (now && value_of(line, "fl:beatUnit", value, sizeof value)) {
            snprintf(now->meter, sizeof now->meter, "%.7s/%.7s", beats, value);
        } else if (now && value_of(line, "fl:form", value, sizeof value)) {
            const int bars = (int)strlen(value);
            snprintf(now->length, sizeof now->length, "%d bar%s", bars, bars == 1 ? "" : "s");
        }
    }
    if (file) {
        fclose(file);
    }
}

/* A text whose right end is the column's, on the line of the name. */
static bool stands(const char* const text, const double right, const double base)
{
    for (int i = 0; i < shown.count; ++i) {
        const Box box = shown.texts[i].box;
        const double end = box.x + box.width;
        if (!strcmp(shown.texts[i].text, text) && end > right - 4.0 && end < right + 4.0 &&
            box.y < base && box.y + box.height > base - 12.0) {
            return true;
        }
    }
    return false;
}

static int compared;

static void check_columns(const View* const view)
{
    const Geometry g = geometry_of(view);
    const ListColumns columns = geometry_columns(&g, ENTRY_GROOVE);
    for (int i = 0; i < written.count; ++i) {
        const Written* const want = &written.grooves[i];
        for (int k = 0; k < shown.count; ++k) {
            const ShownText* const name = &shown.texts[k];
            if (strcmp(name->text, want->label) != 0 || name->box.y < g.list_rows) {
                continue;
            }
            const double base = name->box.y + name->box.height;
            check_case("%s: %s, %s, %s", want->label, want->meter, want->tempo, want->length);
            CHECK(stands(want->meter, columns.meter, base));
            CHECK(stands(want->tempo, columns.tempo, base));
            CHECK(stands(want->length, columns.length, base));
            ++compared;
        }
    }
    CHECK(stands("meter", columns.meter, g.list_rows));
    CHECK(stands("tempo", columns.tempo, g.list_rows));
    CHECK(stands("length", columns.length, g.list_rows));
    CHECK(shown_find("name") && shown_find("difficulty"));
}

static void meter_tempo_and_length_stand_as_presets_have_them(void)
{
    Stage* const stage = stage_play(stage_scene("standing"));
    read_grooves();
    for (int size = 0; size < SIZES; ++size) {
        controller_resize(&stage->model, sizes[size].width, sizes[size].height, 1.0);
        through_list(stage, ENTRY_GROOVE, check_columns);
    }
    CHECK(compared >= SIZES * written.count && written.count > 100);
    stage_end(stage);
}

int main(void)
{
    RUN(a_list_that_is_closed_has_no_rows);
    RUN(every_name_is_read_whole_at_every_size);
    RUN(meter_tempo_and_length_stand_as_presets_have_them);
    return tests_end();
}
