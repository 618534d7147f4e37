// SPDX-License-Identifier: ISC
#include "typed.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool typed_wrong(const char* const option, const char* const value, const char* const expected)
{
    fprintf(stderr, "fourlimb: %s %s: expected %s\n", option, value, expected);
    return false;
}

bool typed_number(const char* const text, const double least, const double most,
                  double* const number)
{
    char* end = NULL;
    errno = 0;
    *number = strtod(text, &end);
    return end != text && !*end && !errno && *number >= least && *number <= most;
}

bool typed_whole(const char* const text, const int least, const int most, int* const number)
{
    double read = 0.0;
    const bool good = typed_number(text, least, most, &read) && !(floor(read) < read);
    *number = good ? (int)read : *number;
    return good;
}

int typed_word(const char* const text, const char* const* const words, const int count)
{
    for (int i = 0; i < count; ++i) {
        if (!strcmp(text, words[i])) {
            return i;
        }
    }
    return -1;
}

bool typed_tempo(const char* const option, const char* const value, double* const tempo)
{
    return typed_number(value, 20.0, 400.0, tempo) ||
           typed_wrong(option, value, "quarter notes a minute from 20 to 400");
}
