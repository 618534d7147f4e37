// SPDX-License-Identifier: ISC
/* check.h - tests read as sentences: a test function's name is the claim, and a
   failure prints what was got and what was wanted.

     static void a_shuffle_is_the_triplet_without_its_middle(void)
     {
         CHECK_INT(tick, 960960);
     }
     int main(void) { RUN(a_shuffle_is_the_triplet_without_its_middle); return tests_end(); }
*/
#pragma once

#include <stdbool.h>
#include <stdint.h>

/* Runs one test and prints its line: "ok - a shuffle is ..." */
#define RUN(test) test_run(#test, test)

#define CHECK(condition) check_true(condition, #condition, __FILE__, __LINE__)
#define CHECK_INT(got, want) check_int((int64_t)(got), (int64_t)(want), #got, __FILE__, __LINE__)
#define CHECK_NEAR(got, want, slack)                                                               \
    check_near((double)(got), (double)(want), (double)(slack), #got, __FILE__, __LINE__)
#define CHECK_TEXT(got, want) check_text(got, want, #got, __FILE__, __LINE__)

/* Each returns whether it held; only the first few failures of a test print. */
bool check_true(bool condition, const char* what, const char* file, int line);
bool check_int(int64_t got, int64_t want, const char* what, const char* file, int line);
bool check_near(double got, double want, double slack, const char* what, const char* file,
                int line);
bool check_text(const char* got, const char* want, const char* what, const char* file, int line);

/* Says which case of many the checks that follow are about; printf-like. */
void check_case(const char* format, ...) __attribute__((format(printf, 1, 2)));

/* The test can't run here: printed with the reason, counted apart. */
void test_skip(const char* reason);

void test_run(const char* name, void (*test)(void));

/* Prints "N passed, N failed" (and skipped); the exit status for main. */
int tests_end(void);
