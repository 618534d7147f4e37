// SPDX-License-Identifier: ISC
#include "fuzz.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

uint32_t fuzz_byte(FuzzInput* const input)
{
    if (!input->left) {
        return 0;
    }
    --input->left;
    return *input->bytes++;
}

uint32_t fuzz_two(FuzzInput* const input)
{
    const uint32_t low = fuzz_byte(input);
    return low | fuzz_byte(input) << 8;
}

uint32_t fuzz_four(FuzzInput* const input)
{
    const uint32_t low = fuzz_two(input);
    return low | fuzz_two(input) << 16;
}

double fuzz_number(FuzzInput* const input)
{
    static const double odd[] = {0.0,  -0.0,  0.5, 1.0,   -1.0,      120.0,    4.0,  1e-300,
                                 1e15, -1e15, 1e9, 1e300, 4294967e3, 9.223e18, 1e-9, 2147483648.0};
    const uint32_t kind = fuzz_byte(input);
    if (kind < 16) {
        return odd[kind];
    }
    if (kind < 18) {
        return kind == 16 ? (double)NAN : (double)INFINITY;
    }
    if (kind < 24) {
        const uint64_t low = fuzz_four(input);
        const uint64_t bits = low | (uint64_t)fuzz_four(input) << 32;
        double number = 0.0;
        memcpy(&number, &bits, sizeof number);
        return number;
    }
    const double number = (double)(int16_t)fuzz_two(input);
    return kind & 1 ? number / 256.0 : number;
}

const uint8_t* fuzz_take(FuzzInput* const input, size_t* const size)
{
    const uint8_t* const taken = input->bytes;
    *size = *size < input->left ? *size : input->left;
    input->bytes += *size;
    input->left -= *size;
    return taken;
}

void fuzz_want(const bool holds, const char* const what, const char* const file, const int line)
{
    if (!holds) {
        printf("# %s:%d: wanted %s\n", file, line, what);
        fflush(stdout);
        abort();
    }
}

/* Bytes of the character that begins here; 0: none does.  RFC 3629, section 4. */
static int character(const uint8_t* const at)
{
    const uint8_t a = at[0];
    const uint8_t least = a == 0xE0 ? 0xA0 : a == 0xF0 ? 0x90 : 0x80;
    const uint8_t most = a == 0xED ? 0x9F : a == 0xF4 ? 0x8F : 0xBF;
    const int length = a < 0x80 ? 1 : a < 0xC2 ? 0 : a < 0xE0 ? 2 : a < 0xF0 ? 3 : a < 0xF5 ? 4 : 0;
    bool good = length < 2 || (at[1] >= least && at[1] <= most);
    for (int i = 2; i < length && good; ++i) {
        good = (at[i] & 0xC0) == 0x80;
    }
    return good ? length : 0;
}

bool fuzz_is_utf8(const char* const text)
{
    const uint8_t* at = (const uint8_t*)text;
    int length = 1;
    while (*at && (length = character(at)) > 0) {
        at += length;
    }
    return length > 0;
}

void fuzz_alone(void)
{
    setenv("XDG_DATA_HOME", "/nowhere/at/all", 1);
    setenv("HOME", "/nowhere/at/all", 1);
}
