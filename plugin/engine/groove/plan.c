// SPDX-License-Identifier: ISC
#include "plan.h"

#include <stddef.h>

const Place plan_anywhere = {INT64_MIN, 0};

bool plan_before(const Place a, const Place b)
{
    return a.bar != b.bar ? a.bar < b.bar : a.tick < b.tick;
}

/* How many entries begin at `place` or before it. */
static uint32_t begun(const Plan* const plan, const Place place)
{
    uint32_t count = 0;
    while (count < plan->count && !plan_before(place, plan->entries[count].from)) {
        ++count;
    }
    return count;
}

static void forget_first(Plan* const plan, const uint32_t count)
{
    for (uint32_t i = count; i < plan->count; ++i) {
        plan->entries[i - count] = plan->entries[i];
    }
    plan->count -= count;
}

void plan_put(Plan* const plan, const PlanEntry* const entry)
{
    while (plan->count && !plan_before(plan->entries[plan->count - 1].from, entry->from)) {
        --plan->count;
    }
    if (plan->count == PLAN_MAX) {
        forget_first(plan, 1);
    }
    plan->entries[plan->count++] = *entry;
}

const PlanEntry* plan_at(const Plan* const plan, const Place place)
{
    if (plan->count < 2) { /* as in almost every block */
        return plan->count ? plan->entries : NULL;
    }
    const uint32_t count = begun(plan, place);
    return &plan->entries[count ? count - 1 : 0];
}

const PlanEntry* plan_next(const Plan* const plan, const Place place)
{
    const uint32_t count = begun(plan, place);
    return count < plan->count ? &plan->entries[count] : NULL;
}

void plan_drop_after(Plan* const plan, const Place place)
{
    plan->count = begun(plan, place);
}

void plan_drop_before(Plan* const plan, const Place place)
{
    const uint32_t count = begun(plan, place);
    forget_first(plan, count ? count - 1 : 0);
    plan->entries[0].from = plan_anywhere;
}

void plan_find(Plan* const plan, const Library* const library, const double tempo,
               Varied* const varied)
{
    for (uint32_t i = 0; i < plan->count; ++i) {
        PlanEntry* const entry = &plan->entries[i];
        entry->selection = selection_make(library, &entry->settings, tempo);
        entry->selection.varied = varied;
        entry->selection.groove = entry->ends ? NULL : entry->selection.groove;
        entry->selection.fill_bar = entry->fill_bar;
    }
}
