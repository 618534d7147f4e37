// SPDX-License-Identifier: ISC
/* Each key has one row where it has its meaning: a second one would never be reached. */
#include "../../ui/desk/actions.h"
#include "../help/check.h"

#include <stddef.h>

static bool share_shift(const Action* const a, const Action* const b)
{
    return a->shift == b->shift || a->shift == ANY_SHIFT || b->shift == ANY_SHIFT;
}

static void no_key_has_two_rows_of_a_scope(void)
{
    const Action* a = NULL;
    for (int i = 0; (a = actions_row(i)); ++i) {
        const Action* b = NULL;
        for (int j = i + 1; (b = actions_row(j)); ++j) {
            for (int k = 0; k < ACTION_KEYS_MAX && a->scope == b->scope && share_shift(a, b); ++k) {
                for (int l = 0; l < ACTION_KEYS_MAX && a->keys[k].key; ++l) {
                    check_case("\"%s\" and \"%s\"", a->help, b->help);
                    CHECK(a->keys[k].key != b->keys[l].key);
                }
            }
        }
    }
}

int main(void)
{
    RUN(no_key_has_two_rows_of_a_scope);
    return tests_end();
}
