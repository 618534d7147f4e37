// SPDX-License-Identifier: ISC
#include "in_place.h"

#include "bank.h"
#include "compiled.h"
#include "turtle.h"

#include <stdlib.h>
#include <string.h>

static bool any_is_in(const DescribedList* const found, const char* const name,
                      const DescribedList* const factorys)
{
    for (uint32_t i = 0; i < found->count; ++i) {
        const Described* const row = described_find(factorys, found->rows[i].uri);
        if (row && !strcmp(row->file, name)) {
            return true;
        }
    }
    return false;
}

/* serd wants the whole path. */
static bool describes_any(const char* const path, const char* const name,
                          const DescribedList* const factorys)
{
    Turtle* const turtle = turtle_new();
    Diagnostics diagnostics = {.count = 0};
    Described* rows = NULL;
    DescribedList found = {.count = 0};
    const bool does = turtle && turtle_read(turtle, path, &diagnostics) &&
                      turtle_described(turtle, &rows, &found) && any_is_in(&found, name, factorys);
    free(rows);
    diagnostics_clear(&diagnostics);
    turtle_free(turtle);
    return does;
}

bool in_place_is_meant(const char* const factory, const char* const file)
{
    const char* const slash = strrchr(file, '/');
    Bank* const bank = bank_open((BankSources){.factory = factory});
    char* const path = realpath(file, NULL);
    const bool is =
        bank && path && describes_any(path, slash ? slash + 1 : file, bank_described(bank));
    free(path);
    bank_free(bank);
    return is;
}
