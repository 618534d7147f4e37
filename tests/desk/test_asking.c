// SPDX-License-Identifier: ISC
/* The question into which folder: its name is completed by Tab, from what is on the disk. */
#include "own_desk.h"

#include "../../ui/window/export.h"
#include "../help/check.h"

#include <sys/stat.h>
#include <unistd.h>

static char home[256];

static void write_nothing(void* const handle, const bool straight)
{
    (void)handle;
    (void)straight;
}

static void start(void* const handle, char folder[FOLDER_ROOM])
{
    (void)handle;
    snprintf(folder, FOLDER_ROOM, "%s/", home);
}

/* The question stands, with the home folder in it. */
static OwnDesk* ask(void)
{
    OwnDesk* const own = own_desk_open();
    own->model.output.write_file = write_nothing;
    own->model.output.file_folder = start;
    own->model.output.folder_of = export_folder_of;
    own->model.output.complete = export_complete;
    own_type(own, "w");
    CHECK(own->model.view.asked.is_open);
    return own;
}

static void ends_in(const Asking* const asked, const char* const end)
{
    char want[512];
    snprintf(want, sizeof want, "%s/%s", home, end);
    CHECK_TEXT(asked->folder, want);
}

static void tab_completes_the_folder_that_is_asked_for(void)
{
    OwnDesk* const own = ask();
    const Asking* const asked = &own->model.view.asked;
    own_type(own, "dr");
    own_key(own, PANE_KEY_TAB, 0);
    ends_in(asked, "drum takes/");
    CHECK_TEXT(asked->found, "");
    own_desk_close(own);
}

static void what_there_is_to_choose_is_told_until_somebody_types(void)
{
    OwnDesk* const own = ask();
    const Asking* const asked = &own->model.view.asked;
    own_type(own, "s");
    own_key(own, PANE_KEY_TAB, 0);
    ends_in(asked, "song ");
    CHECK_TEXT(asked->found, "song 1  song 2");
    own_type(own, "2");
    CHECK_TEXT(asked->found, "");
    own_key(own, PANE_KEY_TAB, 0);
    ends_in(asked, "song 2/");
    own_key(own, PANE_KEY_TAB, 0);
    CHECK_TEXT(asked->found, "there is no such folder yet");
    own_key(own, PANE_KEY_BACKSPACE, 0);
    CHECK_TEXT(asked->found, "");
    own_desk_close(own);
}

static void the_question_asked_again_has_forgotten_what_was_told(void)
{
    OwnDesk* const own = ask();
    const Asking* const asked = &own->model.view.asked;
    own_type(own, "s");
    own_key(own, PANE_KEY_TAB, 0);
    own_key(own, PANE_KEY_ESCAPE, 0);
    CHECK(!asked->is_open);
    own_type(own, "w");
    CHECK(asked->is_open);
    CHECK_TEXT(asked->found, "");
    own_desk_close(own);
}

static void elsewhere_tab_goes_to_the_next_group(void)
{
    OwnDesk* const own = ask();
    const Asking* const asked = &own->model.view.asked;
    own_key(own, PANE_KEY_ESCAPE, 0);
    const TargetId before = own->model.view.focus;
    own_key(own, PANE_KEY_TAB, 0);
    CHECK(!view_target_same(before, own->model.view.focus));
    ends_in(asked, "");
    own_desk_close(own);
}

static void drop(OwnDesk* const own, const char* const path)
{
    const PaneEvent event = {.kind = PANE_DROP, .path = path};
    controller_input(&own->model, &event);
}

static void what_is_dropped_while_it_asks_names_the_folder(void)
{
    OwnDesk* const own = ask();
    const Asking* const asked = &own->model.view.asked;
    char path[512];
    snprintf(path, sizeof path, "%s/song 1", home);
    drop(own, path);
    ends_in(asked, "song 1/");
    drop(own, "");
    ends_in(asked, "song 1/");
    CHECK_TEXT(asked->found, "what was dropped is no file that can be named here");
    own_desk_close(own);
}

static void what_is_dropped_else_changes_nothing_and_is_told(void)
{
    OwnDesk* const own = ask();
    own_key(own, PANE_KEY_ESCAPE, 0);
    own->model.view.edit.note[0] = '\0';
    drop(own, home);
    CHECK(!own->model.view.asked.is_open);
    ends_in(&own->model.view.asked, "");
    CHECK(strstr(own->model.view.edit.note, "W asks where"));
    CHECK_INT(own->writes, 0);
    own_desk_close(own);
}

static const char* const folders[] = {"drum takes", "song 1", "song 2"};
enum { FOLDERS = sizeof folders / sizeof *folders };

static const char* place(const int i)
{
    static char path[512];
    snprintf(path, sizeof path, "%s/%s", home, folders[i]);
    return path;
}

int main(void)
{
    const char* const temporary = getenv("TMPDIR");
    snprintf(home, sizeof home, "%s/fourlimb-asked-XXXXXX", temporary ? temporary : "/tmp");
    if (!mkdtemp(home)) {
        return 1;
    }
    for (int i = 0; i < FOLDERS; ++i) {
        mkdir(place(i), 0700);
    }
    RUN(tab_completes_the_folder_that_is_asked_for);
    RUN(what_there_is_to_choose_is_told_until_somebody_types);
    RUN(the_question_asked_again_has_forgotten_what_was_told);
    RUN(what_is_dropped_while_it_asks_names_the_folder);
    RUN(what_is_dropped_else_changes_nothing_and_is_told);
    RUN(elsewhere_tab_goes_to_the_next_group);
    for (int i = 0; i < FOLDERS; ++i) {
        rmdir(place(i));
    }
    rmdir(home);
    return tests_end();
}
