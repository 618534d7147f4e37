// SPDX-License-Identifier: ISC
/* test_even.c - strokes spread evenly among steps: the published table, and an
   integer rule that knows nothing of groups and pairs. */
#include "../../plugin/bank/steps.h"
#include "../data/tsv.h"
#include "../help/check.h"
#include "own_folder.h"

enum { TABLE_ROWS = 22 };

/* Signs as the table writes them: x for any stroke. */
static const char* crosses(const char* const steps)
{
    static char text[EVEN_STEPS_MAX + 1];
    const size_t length = strlen(steps);
    for (size_t i = 0; i <= length && i <= EVEN_STEPS_MAX; ++i) {
        text[i] = steps[i] == 'o' || steps[i] == 'O' ? 'x' : steps[i];
    }
    return text;
}

static const char* even(const int strokes, const int count)
{
    static char steps[EVEN_STEPS_MAX + 1];
    steps_even(strokes, count, steps);
    return steps;
}

static void the_patterns_of_the_published_table_are_exact(void)
{
    Tsv table = tsv_open("euclidean-toussaint.tsv");
    int rows = 0;
    for (; tsv_next(&table); ++rows) {
        const int strokes = tsv_integer(&table, 0);
        const int count = tsv_integer(&table, 1);
        check_case("E(%d,%d)", strokes, count);
        CHECK_TEXT(crosses(even(strokes, count)), table.fields[2]);
    }
    CHECK_INT(rows, TABLE_ROWS);
}

/* Step i is struck when i times k, counted round n, is below k. */
static void by_integer_rule(const int strokes, const int count, char steps[EVEN_STEPS_MAX + 1])
{
    for (int i = 0; i < count; ++i) {
        steps[i] = i * strokes % count < strokes ? 'x' : '.';
    }
    steps[count] = '\0';
}

/* Whether one is the other begun somewhere else. */
static bool same_necklace(const char* const a, const char* const b)
{
    char twice[2 * EVEN_STEPS_MAX + 1];
    snprintf(twice, sizeof twice, "%s%s", a, a);
    return strlen(a) == strlen(b) && strstr(twice, b);
}

static void every_spreading_is_the_integer_rule_s_begun_somewhere(void)
{
    for (int count = 1; count <= EVEN_STEPS_MAX; ++count) {
        for (int strokes = 1; strokes <= count; ++strokes) {
            char want[EVEN_STEPS_MAX + 1];
            by_integer_rule(strokes, count, want);
            const char* const got = crosses(even(strokes, count));
            if (!same_necklace(got, want)) {
                check_case("E(%d,%d), begun anywhere", strokes, count);
                CHECK_TEXT(got, want);
            }
        }
    }
}

static int signs_in(const char* const steps, const char* const signs)
{
    int count = 0;
    for (const char* sign = steps; *sign; ++sign) {
        count += strchr(signs, *sign) != NULL;
    }
    return count;
}

static void every_spreading_has_the_strokes_and_steps_asked_for(void)
{
    for (int count = 1; count <= EVEN_STEPS_MAX; ++count) {
        for (int strokes = 1; strokes <= count; ++strokes) {
            const char* const steps = even(strokes, count);
            check_case("E(%d,%d)", strokes, count);
            CHECK_INT(strlen(steps), count);
            CHECK_INT(signs_in(steps, "oO"), strokes);
            CHECK_INT(signs_in(steps, "."), count - strokes);
        }
    }
}

static void the_first_stroke_stands_first_and_is_accented_alone(void)
{
    for (int count = 1; count <= EVEN_STEPS_MAX; ++count) {
        for (int strokes = 1; strokes <= count; ++strokes) {
            check_case("E(%d,%d)", strokes, count);
            CHECK_INT(even(strokes, count)[0], 'O');
            CHECK_INT(signs_in(even(strokes, count), "O"), 1);
        }
    }
}

/* A user's bank that has the table's rows as feet figures on sixteenths. */
static Bank* bank_of_table(OwnFolder* const own)
{
    static char turtle[TABLE_ROWS * 400];
    size_t length = 0;
    Tsv table = tsv_open("euclidean-toussaint.tsv");
    for (int row = 0; tsv_next(&table) && row < TABLE_ROWS; ++row) {
        length +=
            (size_t)snprintf(turtle + length, sizeof turtle - length,
                             "my:even-%d a fl:FeetFigure ; fl:id %d ; rdfs:label \"E(%s,%s)\" ;\n"
                             "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ;\n"
                             "\t\tfl:strokes %s ; fl:among %s ] .\n",
                             row, ID_FIRST_OWN + row, table.fields[0], table.fields[1],
                             table.fields[0], table.fields[1]);
    }
    own_folder_make(own);
    own_folder_write(own, "even.ttl", turtle);
    return own_bank(own->folder, NULL);
}

/* A figure of one line on sixteenths, as the table writes it. */
static const char* figure_text(const Figure* const figure)
{
    static char text[EVEN_STEPS_MAX + 1];
    const int64_t step = TICKS_PER_QUARTER / 4;
    const int64_t count = figure->cycle_ticks / step;
    memset(text, '.', sizeof text);
    text[count <= EVEN_STEPS_MAX ? count : EVEN_STEPS_MAX] = '\0';
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        text[figure->strokes[i].tick / step % EVEN_STEPS_MAX] = 'x';
    }
    return text;
}

static void figures_of_a_bank_are_spread_as_the_table_says(void)
{
    OwnFolder own;
    Bank* const bank = bank_of_table(&own);
    Tsv table = tsv_open("euclidean-toussaint.tsv");
    CHECK_INT(bank_diagnostics(bank)->count, 0);
    for (uint32_t row = 0; tsv_next(&table); ++row) {
        const Figure* const figure =
            library_figure(bank_library(bank), FIGURE_FEET, ID_FIRST_OWN + row);
        check_case("E(%s,%s)", table.fields[0], table.fields[1]);
        CHECK_TEXT(figure ? figure_text(figure) : NULL, table.fields[2]);
    }
    bank_free(bank);
    own_folder_remove(&own);
}

int main(void)
{
    RUN(the_patterns_of_the_published_table_are_exact);
    RUN(every_spreading_is_the_integer_rule_s_begun_somewhere);
    RUN(every_spreading_has_the_strokes_and_steps_asked_for);
    RUN(the_first_stroke_stands_first_and_is_accented_alone);
    RUN(figures_of_a_bank_are_spread_as_the_table_says);
    return tests_end();
}
