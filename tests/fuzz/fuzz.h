// SPDX-License-Identifier: ISC
/* fuzz.h - for programs that are fed by chance, with guidance by what of the code an input
   reaches: by clang's libFuzzer (https://llvm.org/docs/LibFuzzer.html), which calls the two
   functions below, or by replay.c with inputs that are kept.  What takes long is made once;
   each input begins as the first did, so that it can be told again alone. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* libFuzzer's names for them: what is done once, and with each input. */
int LLVMFuzzerInitialize(int* count, char*** arguments);
int LLVMFuzzerTestOneInput(const uint8_t* bytes, size_t size);

/* An input as it is used up: behind its end all is 0. */
typedef struct {
    const uint8_t* bytes;
    size_t left;
} FuzzInput;

uint32_t fuzz_byte(FuzzInput* input);
uint32_t fuzz_two(FuzzInput* input);
uint32_t fuzz_four(FuzzInput* input);

/* Small, large, odd, or no number at all. */
double fuzz_number(FuzzInput* input);

/* So many bytes, or as many as are left, told in *size. */
const uint8_t* fuzz_take(FuzzInput* input, size_t* size);

/* What must hold: says so and aborts where it doesn't, which either feeder sees. */
#define FUZZ_WANT(condition) fuzz_want(condition, #condition, __FILE__, __LINE__)
void fuzz_want(bool holds, const char* what, const char* file, int line);

/* True if it is UTF-8 (RFC 3629). */
bool fuzz_is_utf8(const char* text);

/* No bank of whoever runs this. */
void fuzz_alone(void);
