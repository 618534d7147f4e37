// SPDX-License-Identifier: ISC
/* typed.h - values of options as a person types them. */
#pragma once

#include <stdbool.h>

/* Says what was expected; false, so that a reader ends with it. */
bool typed_wrong(const char* option, const char* value, const char* expected);

/* All of the text, in range; else false, and *number may be anything. */
bool typed_number(const char* text, double least, double most, double* number);

/* Likewise; *number stays where it isn't good. */
bool typed_whole(const char* text, int least, int most, int* number);

/* Which of a row's words it is; -1 if none. */
int typed_word(const char* text, const char* const* words, int count);

/* Quarter notes a minute; says what is wrong. */
bool typed_tempo(const char* option, const char* value, double* tempo);
