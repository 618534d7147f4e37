// SPDX-License-Identifier: ISC
/* input.h - a pane with the keys and the pointer, and a person in xdotool, who moves them
   through the X server's XTEST extension. */
#pragma once

#include "host.h"
#include "xvfb.h"

#include "../help/check.h"
#include "../live/child.h"

#include <stdlib.h>

enum { WORDS_MAX = 16 };

typedef struct {
    Host host;
    Pane* pane;
} Stage;

/* xdotool with up to 14 words. */
#define TOOL(...) tool((const char* const[WORDS_MAX]){"xdotool", __VA_ARGS__})

static inline bool tool(const char* const words[WORDS_MAX])
{
    return CHECK_INT(run_program(words), 0);
}

/* A pane with the keys and the pointer at 100, 50. */
static inline bool begin(Stage* const stage)
{
    *stage = (Stage){0};
    if (!host_start(&stage->host)) {
        return false;
    }
    stage->pane = host_open(&stage->host, 300, 200);
    if (!stage->pane || !TOOL("mousemove", "100", "50")) {
        return false;
    }
    const bool keys = CHECK(pane_take_focus(stage->pane)) &&
                      CHECK(host_wait(&stage->host, stage->pane, PANE_FOCUS_IN, 1)) &&
                      host_settle(&stage->host, stage->pane);
    host_forget(&stage->host);
    return keys;
}

static inline void end(Stage* const stage)
{
    pane_close(stage->pane);
    host_end(&stage->host);
}

static inline const PaneEvent* wait_for(Stage* const stage, const PaneEventKind kind)
{
    const PaneEvent* const event = host_wait(&stage->host, stage->pane, kind, 1);
    CHECK(event);
    return event;
}

typedef struct {
    const char* name;
    void (*test)(void);
} Test;

#define TEST(name)                                                                                 \
    {                                                                                              \
#name, name                                                                                \
    }

/* All, or the one whose number is given (cures.sh does). */
static inline int input_tests(const int count, char** const arguments, const Test* const tests,
                              const int number)
{
    const int only = count > 1 ? atoi(arguments[1]) : 0;
    child_guard(NULL);
    if (xvfb_open()) {
        for (int i = 0; i < number; ++i) {
            if (!only || only == i + 1) {
                test_run(tests[i].name, tests[i].test);
            }
        }
        xvfb_end();
    }
    return tests_end();
}
