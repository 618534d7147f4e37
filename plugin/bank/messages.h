// SPDX-License-Identifier: ISC
/* messages.h - what people are told, a line each, as one text. */
#pragma once

#include "diagnostics.h"

#include <stdbool.h>

typedef struct {
    char* text; /* owned by whoever made it; NULL before the first */
    size_t length;
    bool failed; /* memory ran out: what is there is not all */
} Messages;

/* Adds the three texts. */
void messages_say(Messages* messages, const char* a, const char* b, const char* c);

/* Adds a bank's diagnostics, a line each; makes a text also where there are none. */
void messages_diagnostics(Messages* messages, const Diagnostics* diagnostics);
