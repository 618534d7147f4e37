// SPDX-License-Identifier: ISC
#include "check.h"

#include <inttypes.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { SHOWN_MAX = 5 };

/* A test program is one thread and ends soon: its tally may be a variable. */
static struct {
    int passed, failed, skipped;
    int failures; /* of the test going on */
    bool skip;
    char context[256];
} tally;

static bool fail(const char* const file, const int line)
{
    const bool show = ++tally.failures <= SHOWN_MAX;
    if (show) {
        printf("# %s:%d: %s%s", file, line, tally.context, *tally.context ? ": " : "");
    }
    return show;
}

bool check_true(const bool condition, const char* const what, const char* const file,
                const int line)
{
    if (!condition && fail(file, line)) {
        printf("%s: got false, want true\n", what);
    }
    return condition;
}

bool check_int(const int64_t got, const int64_t want, const char* const what,
               const char* const file, const int line)
{
    if (got != want && fail(file, line)) {
        printf("%s: got %" PRId64 ", want %" PRId64 "\n", what, got, want);
    }
    return got == want;
}

bool check_near(const double got, const double want, const double slack, const char* const what,
                const char* const file, const int line)
{
    const bool good = fabs(got - want) <= slack;
    if (!good && fail(file, line)) {
        printf("%s: got %.9g, want %.9g within %g\n", what, got, want, slack);
    }
    return good;
}

bool check_text(const char* const got, const char* const want, const char* const what,
                const char* const file, const int line)
{
    const bool good = got && want && !strcmp(got, want);
    if (!good && fail(file, line)) {
        printf("%s:\n# got:  %s\n# want: %s\n", what, got ? got : "(none)", want ? want : "(none)");
    }
    return good;
}

void check_case(const char* const format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(tally.context, sizeof tally.context, format, arguments);
    va_end(arguments);
}

void test_skip(const char* const reason)
{
    printf("# skipped: %s\n", reason);
    tally.skip = true;
}

static void print_sentence(const char* const name)
{
    for (const char* c = name; *c; ++c) {
        putchar(*c == '_' ? ' ' : *c);
    }
    putchar('\n');
}

void test_run(const char* const name, void (*const test)(void))
{
    setvbuf(stdout, NULL, _IOLBF, 0); /* what was said is kept if the test breaks off */
    tally.failures = 0;
    tally.skip = false;
    tally.context[0] = '\0';
    test();
    if (tally.failures > SHOWN_MAX) {
        printf("# ... and %d more\n", tally.failures - SHOWN_MAX);
    }
    if (tally.failures) {
        ++tally.failed;
    } else if (tally.skip) {
        ++tally.skipped;
    } else {
        ++tally.passed;
    }
    printf("%s - ", tally.failures ? "not ok" : tally.skip ? "skip" : "ok");
    print_sentence(name);
    fflush(stdout);
}

int tests_end(void)
{
    printf("%d passed, %d failed, %d skipped\n", tally.passed, tally.failed, tally.skipped);
    return tally.failed ? 1 : 0;
}
