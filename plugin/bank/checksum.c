// SPDX-License-Identifier: ISC
#include "checksum.h"

#include "stamp.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Words, the sum in hexadecimal, and the line's end. */
static const char words[] = "# Saved by Fourlimb. Change what you like: "
                            "a changed file is yours and is never written over. ";
enum { WORDS = sizeof words - 1, SUM_DIGITS = 16, LINE = WORDS + SUM_DIGITS + 1 };

static void make_line(char line[LINE + 1], const char* const text, const size_t size)
{
    snprintf(line, LINE + 1, "%s%016" PRIx64 "\n", words, stamp_bytes(text, size));
}

char* checksum_put(const char* const text)
{
    const size_t size = strlen(text);
    char* const whole = malloc(LINE + size + 1);
    if (whole) {
        make_line(whole, text, size);
        memcpy(whole + LINE, text, size + 1);
    }
    return whole;
}

bool checksum_holds(const char* const text, const size_t size)
{
    char line[LINE + 1];
    if (size < LINE || memcmp(text, words, WORDS) != 0) {
        return false;
    }
    make_line(line, text + LINE, size - LINE);
    return !memcmp(text, line, LINE);
}
