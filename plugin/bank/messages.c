// SPDX-License-Identifier: ISC
#include "messages.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void messages_say(Messages* const messages, const char* const a, const char* const b,
                  const char* const c)
{
    const size_t more = strlen(a) + strlen(b) + strlen(c);
    char* const grown =
        messages->failed ? NULL : realloc(messages->text, messages->length + more + 1);
    if (!grown) {
        messages->failed = true;
        return;
    }
    messages->text = grown;
    snprintf(grown + messages->length, more + 1, "%s%s%s", a, b, c);
    messages->length += more;
}

void messages_diagnostics(Messages* const messages, const Diagnostics* const diagnostics)
{
    char more[64];
    messages_say(messages, "", "", "");
    for (size_t i = 0; i < diagnostics->count; ++i) {
        messages_say(messages, diagnostics->texts[i], "\n", "");
    }
    if (diagnostics->unkept) {
        snprintf(more, sizeof more, "and %zu more\n", diagnostics->unkept);
        messages_say(messages, more, "", "");
    }
}
