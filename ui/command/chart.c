// SPDX-License-Identifier: ISC
#include "bundle.h"
#include "chartfile.h"
#include "commands.h"

#include <stdio.h>

int command_chart(const Request* const request)
{
    char bundle[BUNDLE_PATH_ROOM];
    if (!chartfile_kind(request->out) || request->section_count > 1 || request->kind) {
        fprintf(stderr, "fourlimb: chart draws one groove: --groove NAME --out FILE.pdf, .svg or "
                        ".png\n");
        return ASKED_WRONGLY;
    }
    if (!bundle_find(request->bundle, bundle)) {
        return FAILED;
    }
    Bank* const bank = bundle_bank(bundle);
    const Section* const first = request_first(request);
    const int status =
        bank && bank_library(bank)->groove_count
            ? chartfile_write(bank, first, request->title, request->out, request->force)
            : FAILED;
    bank_free(bank);
    return status;
}
