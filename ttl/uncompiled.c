// SPDX-License-Identifier: ISC
/* uncompiled.c - for the programs that the build runs before it has read the bank. */
#include "../plugin/bank/compiled.h"

const Compiled compiled_factory = {.contents = 0};
