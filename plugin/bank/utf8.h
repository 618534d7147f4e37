// SPDX-License-Identifier: ISC
/* utf8.h - text between whole characters, as RFC 3629 has them. */
#pragma once

#include <stddef.h>

/* The bytes of a text, `most` or so many fewer that no character is cut. */
size_t utf8_cut(const char* text, size_t length, size_t most);

/* Puts a question mark in place of every byte that is of no character. */
void utf8_repair(char* text);
