// SPDX-License-Identifier: ISC
#include "verdict.h"

#include "../../plugin/engine/writing/playability.h"

#include <stdio.h>
#include <string.h>

static void add(char said[VERDICT_ROOM], const char* const words)
{
    const size_t length = strlen(said);
    snprintf(said + length, VERDICT_ROOM - length, "%s%s", length ? ", " : "", words);
}

void verdict_say(const uint32_t faults, const double minutes, char said[VERDICT_ROOM])
{
    char long_words[48];
    snprintf(long_words, sizeof long_words, "too fast for %g minute%s", minutes,
             minutes > 1.0 || minutes < 1.0 ? "s" : "");
    *said = '\0';
    if (faults & PLAY_TOO_FAST) { /* for a second: for minutes, too */
        add(said, "too fast");
    } else if (faults & PLAY_TOO_LONG) {
        add(said, long_words);
    }
    if (faults & PLAY_TOO_CLOSE) {
        add(said, "strokes of a limb too close");
    }
    if (faults & PLAY_TOO_FAR) {
        add(said, "too far for a hand");
    }
    if (faults & PLAY_TORN) {
        add(said, "one limb in two places");
    }
    if (!faults) {
        add(said, "playable");
    }
}
