// SPDX-License-Identifier: ISC
/* What is kept of a window: what was written is read, what a person put there is taken as far
   as it says something, and nothing else in the folder is touched. */
#include "../../ui/file/own_window.h"
#include "../help/check.h"
#include "../plugin/fresh_home.h"

#include <locale.h>
#include <string.h>
#include <sys/stat.h>

static char path[1024];
static char why[OWN_WINDOW_WHY_ROOM];

static void put(const char* const text)
{
    FILE* const file = fopen(path, "w");
    if (CHECK(file)) {
        fputs(text, file);
        fclose(file);
    }
}

static void without_a_file_nothing_is_said(void)
{
    const OwnWindow own = own_window_read();
    CHECK_TEXT(own.colours, "");
    CHECK(!own.left_handed && !own.still);
    CHECK_NEAR(own.size, 0.0, 0.0);
}

static void what_was_written_is_read(void)
{
    for (int i = 0; i < 8; ++i) {
        OwnWindow own = {"", (i & 1) != 0, 0.8 + 0.2 * i, (i & 2) != 0};
        snprintf(own.colours, sizeof own.colours, "%s", i & 4 ? "dark" : "light");
        check_case("%d", i);
        CHECK(own_window_write(&own, why));
        const OwnWindow read = own_window_read();
        CHECK_TEXT(read.colours, own.colours);
        CHECK_INT(read.left_handed, own.left_handed);
        CHECK_INT(read.still, own.still);
        CHECK_NEAR(read.size, own.size, 1e-9);
    }
}

/* A host may have set a locale in which 1.5 is written 1,5. */
static void a_hosts_locale_changes_nothing(void)
{
    if (!setlocale(LC_NUMERIC, "de_DE.UTF-8")) {
        setlocale(LC_NUMERIC, "C.UTF-8"); /* none here: at least the file is as it must be */
    }
    const OwnWindow own = {"host", false, 1.5, false};
    char line[64] = "";
    CHECK(own_window_write(&own, why));
    FILE* const file = fopen(path, "r");
    while (CHECK(file) && strncmp(line, "size", 4) != 0 && fgets(line, sizeof line, file)) {
    }
    CHECK_TEXT(line, "size 1.5\n");
    fclose(file);
    CHECK_NEAR(own_window_read().size, 1.5, 1e-9);
    setlocale(LC_NUMERIC, "C");
}

static void what_says_nothing_is_passed_over(void)
{
    static const char* const texts[] = {
        "",
        "hands",
        "size nan\nmotion perhaps\nhands both\ncolours a-very-long-word-that-is-none",
        "\n\n\n size\n\t\tleft hands",
        "\x01\x02\xFF\xFE",
        "size -3",
        "size 1e999"};
    for (int i = 0; i < 7; ++i) {
        put(texts[i]);
        const OwnWindow own = own_window_read();
        check_case("text %d", i);
        CHECK(!own.left_handed && !own.still);
        CHECK(own.size >= 0.0 && own.size < 1e9);
        CHECK(strlen(own.colours) < sizeof own.colours);
    }
    put("motion off\nsomething else\nhands left\n");
    CHECK(own_window_read().left_handed && own_window_read().still);
}

static void where_it_can_not_be_written_it_says_why(void)
{
    const OwnWindow own = {"dark", true, 1.0, true};
    remove(path);
    CHECK_INT(mkdir(path, 0700), 0); /* a folder has the name */
    why[0] = '\0';
    CHECK(!own_window_write(&own, why));
    CHECK(*why);
    CHECK_INT(rmdir(path), 0);
}

int main(void)
{
    const char* const home = fresh_home();
    snprintf(path, sizeof path, "%s/fourlimb/window.txt", home);
    RUN(without_a_file_nothing_is_said);
    RUN(what_was_written_is_read);
    RUN(a_hosts_locale_changes_nothing);
    RUN(what_says_nothing_is_passed_over);
    RUN(where_it_can_not_be_written_it_says_why);
    remove_home(home);
    return tests_end();
}
