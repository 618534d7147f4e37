// SPDX-License-Identifier: ISC
#include "bank_check.h"

#include "../bank/entry_facts.h"
#include "findings.h"

#include <stdlib.h>

static void check_tempi(Findings* const findings)
{
    char warning[ENTRY_WARNING_ROOM];
    for (int kind = ENTRY_HANDS; kind <= ENTRY_GROOVE; ++kind) {
        for (uint32_t i = 0; i < bank_count(findings->bank, (EntryKind)kind); ++i) {
            const EntryInfo* const entry = bank_entry(findings->bank, (EntryKind)kind, i);
            if (!findings_looks_at(findings, entry)) {
                continue;
            }
            entry_warning(findings->bank, (EntryKind)kind, i, &findings->check->limits,
                          findings->room, warning);
            if (*warning) {
                findings_tell(findings, entry, "%s; change fl:tempoHigh or the strokes", warning);
            }
        }
    }
}

int bank_check(const BankCheck* const check)
{
    Playability* const room = malloc(sizeof *room); /* too large for a stack */
    Findings findings = {check, check->bank, bank_library(check->bank), room, 0};
    if (!room) {
        return -1;
    }
    figures_check(&findings);
    figures_check_same(&findings);
    check_tempi(&findings);
    grooves_check(&findings);
    grooves_check_meters(&findings);
    free(room);
    return findings.count;
}
