// SPDX-License-Identifier: ISC
#include "kinds.h"

#define ROW(NAME, name, class, Type, type, control, alone, word, plural, title, instead)           \
    [ENTRY_##NAME] = {#name, #class, word, plural, title, instead},
const KindRow kind_rows[ENTRY_KINDS] = {ENTRY_KIND_ROWS(ROW)};
#undef ROW
