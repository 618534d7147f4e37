// SPDX-License-Identifier: ISC
/* test_bank_again.c - the window reads the bank again after something was saved, and
   memory runs out while its lists are made: the old bank and its lists stay.  calloc goes
   to the function here (--wrap, see the Makefile). */
#include "../../ui/desk/controller.h"
#include "../../ui/desk/incoming.h"
#include "../../ui/scene/view.h"
#include "../help/check.h"

#include <stdlib.h>
#include <string.h>

static int calls_left = -1; /* until one fails; -1: none does */

void* __real_calloc(size_t count, size_t size);
void* __wrap_calloc(size_t count, size_t size);
void* __wrap_calloc(const size_t count, const size_t size)
{
    const bool fails = calls_left == 0;
    calls_left -= calls_left >= 0;
    return fails ? NULL : __real_calloc(count, size);
}

static Bank* factory_bank(void)
{
    return bank_open((BankSources){FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank", NULL, NULL});
}

/* Reads every list, as drawing does. */
static size_t read_lists(const Model* const model)
{
    size_t letters = 0;
    for (int shelf = 0; shelf < ENTRY_KINDS; ++shelf) {
        for (int i = 0; i < model->view.shelves[shelf].count; ++i) {
            const Entry* const entry = &model->view.shelves[shelf].entries[i];
            letters += strlen(entry->label) + strlen(entry->comment) + strlen(entry->family);
            letters += entry->figure ? entry->figure->strokes[0].limb : 0;
        }
    }
    return letters;
}

static void where_memory_runs_out_the_old_lists_stay(void)
{
    static const Uris uris;
    Bank* const first = factory_bank();
    Model* const model = calloc(1, sizeof(Model));
    CHECK(model && first && controller_open(model, first, &uris, (ModelOutput){.handle = NULL}));
    const size_t letters = read_lists(model);
    CHECK(letters > 1000);
    for (int at = 0; at < ENTRY_KINDS; ++at) {
        check_case("at list %d", at);
        Bank* const again = factory_bank();
        calls_left = at;
        CHECK(!controller_bank(model, again));
        calls_left = -1;
        bank_free(again); /* as the window does */
        CHECK(model->bank == first);
        CHECK_INT(read_lists(model), letters);
    }
    Bank* const again = factory_bank();
    CHECK(controller_bank(model, again));
    bank_free(first);
    CHECK(model->bank == again);
    CHECK_INT(read_lists(model), letters);
    controller_close(model);
    bank_free(again);
    free(model);
}

int main(void)
{
    RUN(where_memory_runs_out_the_old_lists_stay);
    return tests_end();
}
