// SPDX-License-Identifier: ISC
#include "plan.h"

#include <stddef.h>

static void forget_first(Plan* const plan)
{
    for (uint32_t i = 1; i < plan->count; ++i) {
        plan->entries[i - 1] = plan->entries[i];
    }
    --plan->count;
}

void plan_put(Plan* const plan, const PlanEntry* const entry)
{
    while (plan->count && plan->entries[plan->count - 1].bar >= entry->bar) {
        --plan->count;
    }
    if (plan->count == PLAN_MAX) {
        forget_first(plan);
    }
    plan->entries[plan->count++] = *entry;
}

const PlanEntry* plan_at(const Plan* const plan, const int64_t bar)
{
    uint32_t found = 0;
    while (found + 1 < plan->count && plan->entries[found + 1].bar <= bar) {
        ++found;
    }
    return plan->count ? &plan->entries[found] : NULL;
}

const PlanEntry* plan_next(const Plan* const plan, const int64_t bar)
{
    uint32_t next = 0;
    while (next < plan->count && plan->entries[next].bar <= bar) {
        ++next;
    }
    return next < plan->count ? &plan->entries[next] : NULL;
}
