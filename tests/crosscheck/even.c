// SPDX-License-Identifier: ISC
/* even.c - prints every even spreading of k strokes among n steps up to 32, a
   line each: k, n and the steps, x for a stroke. */
#include "../../plugin/bank/steps.h"

#include <stdio.h>

enum { STEPS_MOST = 32 };

static void print_even(const int strokes, const int count)
{
    char steps[EVEN_STEPS_MAX + 1];
    steps_even(strokes, count, steps);
    printf("%d %d ", strokes, count);
    for (const char* sign = steps; *sign; ++sign) {
        putchar(*sign == '.' ? '.' : 'x');
    }
    putchar('\n');
}

int main(void)
{
    for (int count = 1; count <= STEPS_MOST; ++count) {
        for (int strokes = 1; strokes <= count; ++strokes) {
            print_even(strokes, count);
        }
    }
    return 0;
}
