// SPDX-License-Identifier: ISC
#include "target_list.h"

void target_list_add(TargetList* const list, const TargetKind kind, const int index,
                     const Group group, const Box box)
{
    if (list->count < TARGETS_MAX) {
        list->targets[list->count++] = (Target){{kind, index}, group, box};
    }
}
