// SPDX-License-Identifier: ISC
/* test_check_command.c - what `fourlimb check` and `fourlimb list` say of a
   user's own files, run as a person runs them. */
#include "../../plugin/bank/bounds.h"
#include "../../ui/command/commands.h"
#include "../help/check.h"
#include "own_folder.h"

#include <sys/resource.h>
#include <sys/wait.h>

enum { SAID_ROOM = 65536 };

static OwnFolder own;
static char said[SAID_ROOM];

/* Runs the built program with arguments; the exit status.  What it printed, to
   either output, is in `said`. */
static int run(const char* const arguments)
{
    char command[4096];
    snprintf(command, sizeof command, "XDG_DATA_HOME='%s' '%s/fourlimb' %s 2>&1", own.root,
             FOURLIMB_BUILD, arguments);
    FILE* const output = popen(command, "r");
    if (!output) {
        perror(command);
        exit(2);
    }
    said[fread(said, 1, SAID_ROOM - 1, output)] = '\0';
    const int status = pclose(output);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static int run_check(const char* const path)
{
    char arguments[OWN_PATH_ROOM + 16];
    snprintf(arguments, sizeof arguments, "check '%s'", path);
    return run(arguments);
}

/* The line of what was said that holds a text, or "". */
static const char* line_with(const char* const text)
{
    static char line[1024];
    const char* at = strstr(said, text);
    line[0] = '\0';
    if (at) {
        while (at > said && at[-1] != '\n') {
            --at;
        }
        snprintf(line, sizeof line, "%.*s", (int)strcspn(at, "\n"), at);
    }
    return line;
}

/* A figure of four lines: its id and its steps, which stand on the third. */
#define FEET(name, id, steps)                                                                      \
    "my:" name " a fl:FeetFigure ; fl:id " id " ;\n"                                               \
    "\trdfs:label \"The " name "\" ;\n"                                                            \
    "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"" steps "\" ]\n" \
    "\t.\n"

/* What to write after the prefixes, and where the mistake must be told. */
typedef struct {
    const char* what;
    const char* turtle;
    const char* line;  /* file and line */
    const char* names; /* a word that the message must hold */
} Mistake;

static const Mistake mistakes[] = {
    {"a sign that is no step", FEET("good", "1001", "O...") FEET("bad", "1002", "O..?"),
     "mine.ttl:12", "'?'"},
    {"an id of the factory's", FEET("bad", "77", "O..."), "mine.ttl:6", "77"},
    {"an id used twice", FEET("good", "1001", "O...") FEET("bad", "1001", "O.o."),
     "mine.ttl:", "1001"},
    {"nothing but rests", FEET("bad", "1001", "...."), "mine.ttl:", "my:bad"},
    {"an unclosed text", FEET("good", "1001", "O...") "my:bad rdfs:label \"open\n .\n",
     "mine.ttl:10", ""},
};

static void what_is_wrong_is_told_with_file_and_line(void)
{
    for (size_t i = 0; i < sizeof mistakes / sizeof *mistakes; ++i) {
        own_folder_make(&own);
        const int status = run_check(own_folder_write(&own, "mine.ttl", mistakes[i].turtle));
        const char* const line = line_with(mistakes[i].line);
        check_case("%s, of which was said: %s", mistakes[i].what, said);
        CHECK_INT(status, FAILED);
        CHECK(strstr(line, "wrong") == line && *line);
        CHECK(strstr(line, mistakes[i].names) != NULL);
        own_folder_remove(&own);
    }
}

static void what_is_right_is_told_beside_what_is_wrong(void)
{
    own_folder_make(&own);
    run_check(own_folder_write(&own, "mine.ttl",
                               FEET("good", "1001", "O...") FEET("bad", "1002", "O..?")));
    CHECK(strstr(line_with("The good"), "right") == line_with("The good"));
    CHECK(strstr(line_with("The good"), "1001") != NULL);
    CHECK_TEXT(line_with("The bad"), "");
    own_folder_remove(&own);
}

static void a_right_file_is_told_as_right_and_nothing_as_wrong(void)
{
    own_folder_make(&own);
    const char* const path =
        own_folder_write(&own, "mine.ttl", FEET("one", "1001", "O...") FEET("two", "1002", "O.o."));
    CHECK_INT(run_check(path), DONE);
    CHECK(*line_with("The one") && *line_with("The two"));
    CHECK_TEXT(line_with("wrong"), "");
    own_folder_remove(&own);
}

static void the_factory_s_entries_are_not_told(void)
{
    own_folder_make(&own);
    run_check(own_folder_write(&own, "mine.ttl", FEET("one", "1001", "O...")));
    int rights = 0, others = 0;
    for (const char* line = said; *line; line += strcspn(line, "\n") + 1) {
        rights += !strncmp(line, "right: ", 7);
        others += strncmp(line, "right: ", 7) && strncmp(line, "note: mine.ttl:", 15);
    }
    CHECK_INT(rights, 1);
    CHECK_INT(others, 0); /* what a musician would note of it, as its strokes are the factory's */
    own_folder_remove(&own);
}

static void a_file_that_is_not_there_is_wrong(void)
{
    own_folder_make(&own);
    CHECK_INT(run_check("/no/such/file.ttl"), FAILED);
    CHECK(strstr(said, "/no/such/file.ttl") != NULL);
    own_folder_remove(&own);
}

static void without_a_file_all_of_one_s_own_folder_is_checked(void)
{
    own_folder_make(&own);
    CHECK_INT(run("check"), DONE);
    own_folder_write(&own, "mine.ttl", FEET("one", "1001", "O..."));
    CHECK_INT(run("check"), DONE);
    CHECK(*line_with("right: feet figure my:one"));
    own_folder_write(&own, "other.ttl", FEET("bad", "1002", "O..?"));
    CHECK_INT(run("check"), FAILED);
    CHECK(*line_with("wrong: other.ttl:8"));
    own_folder_remove(&own);
}

/* A text of a comment repeated. */
static char* long_text(const char* const line, const size_t size)
{
    char* const text = calloc(size + 1, 1);
    for (size_t i = 0; text && i < size; ++i) {
        text[i] = line[i % strlen(line)];
    }
    if (!text) {
        exit(2);
    }
    return text;
}

static void a_file_beyond_what_a_bank_reads_is_told_by_its_name(void)
{
    char* const text = long_text("# on and on\n", FILE_BYTES_MOST);
    own_folder_make(&own);
    CHECK_INT(run_check(own_folder_write(&own, "large.ttl", text)), FAILED);
    CHECK(*line_with("wrong: large.ttl: is left out: a file has 4 MB at most"));
    run("list kits");
    CHECK(*line_with("large.ttl: is left out: a file has 4 MB at most"));
    CHECK_INT(run("check"), FAILED);
    CHECK(*line_with("wrong: large.ttl: is left out: a file has 4 MB at most"));
    own_folder_remove(&own);
    free(text);
}

/* With as little stack as a system may be set to. */
static void a_file_nested_too_deep_is_told_and_nothing_crashes(void)
{
    char* const deep = long_text("(", 300000);
    char* const text = calloc(300100, 1);
    snprintf(text, 300100, "my:deep my:deep %s", deep);
    own_folder_make(&own);
    struct rlimit before;
    getrlimit(RLIMIT_STACK, &before);
    const struct rlimit small = {256 * 1024, before.rlim_max};
    const char* const path = own_folder_write(&own, "deep.ttl", text);
    setrlimit(RLIMIT_STACK, &small);
    CHECK_INT(run_check(path), FAILED);
    CHECK(*line_with("wrong: deep.ttl:6: nested more than 16 brackets deep"));
    CHECK_INT(run("list kits"), DONE);
    CHECK(*line_with("deep.ttl:6: nested more than 16 brackets deep"));
    setrlimit(RLIMIT_STACK, &before);
    own_folder_remove(&own);
    free(text);
    free(deep);
}

static void the_list_shows_what_is_the_user_s_own(void)
{
    own_folder_make(&own);
    own_folder_write(&own, "mine.ttl", FEET("one", "1001", "O..."));
    CHECK_INT(run("list feet"), DONE);
    CHECK(strstr(line_with("The one"), "1001") != NULL);
    own_folder_remove(&own);
}

static void the_list_tells_what_is_wrong_in_the_user_s_files(void)
{
    own_folder_make(&own);
    own_folder_write(&own, "mine.ttl", FEET("bad", "1001", "O..?"));
    run("list");
    CHECK(*line_with("mine.ttl:8"));
    own_folder_remove(&own);
}

int main(void)
{
    RUN(what_is_wrong_is_told_with_file_and_line);
    RUN(what_is_right_is_told_beside_what_is_wrong);
    RUN(a_right_file_is_told_as_right_and_nothing_as_wrong);
    RUN(the_factory_s_entries_are_not_told);
    RUN(a_file_that_is_not_there_is_wrong);
    RUN(without_a_file_all_of_one_s_own_folder_is_checked);
    RUN(a_file_beyond_what_a_bank_reads_is_told_by_its_name);
    RUN(a_file_nested_too_deep_is_told_and_nothing_crashes);
    RUN(the_list_shows_what_is_the_user_s_own);
    RUN(the_list_tells_what_is_wrong_in_the_user_s_files);
    return tests_end();
}
