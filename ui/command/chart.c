// SPDX-License-Identifier: ISC
#include "chartfile.h"
#include "commands.h"

#include <stdio.h>

int command_chart(const Request* const request)
{
    if (!chartfile_kind(request->out)) {
        fprintf(stderr, "fourlimb: chart draws one groove: --groove NAME --out FILE.pdf, .svg or "
                        ".png\n");
        return ASKED_WRONGLY;
    }
    Performance performance;
    const int status = performance_open(&performance, request->bundle)
                           ? chartfile_write(&performance, request_first(request), request->title,
                                             request->out, request->force)
                           : FAILED;
    performance_close(&performance);
    return status;
}
