// SPDX-License-Identifier: ISC
#include "chartfile.h"
#include "commands.h"
#include "notationfile.h"

#include <stdio.h>

static int write_asked(const Performance* const performance, const Request* const request)
{
    const Section* const section = request_first(request);
    const int status = request->out ? chartfile_write(performance, section, request->title,
                                                      request->out, request->force)
                                    : DONE;
    return status == DONE && request->notation
               ? notationfile_write(performance, section, request->title, request->notation,
                                    request->force)
               : status;
}

int command_chart(const Request* const request)
{
    const bool is_none = !request->out && !request->notation;
    if (is_none || (request->out && !chartfile_kind(request->out))) {
        fprintf(stderr, "fourlimb: chart draws one groove: --groove NAME --out FILE.pdf, .svg or "
                        ".png\n");
        return ASKED_WRONGLY;
    }
    if (request->notation && !notationfile_kind(request->notation)) {
        fprintf(stderr, "fourlimb: notation is --notation FILE.musicxml, .ly or .pdf\n");
        return ASKED_WRONGLY;
    }
    Performance performance;
    const int status = performance_open(&performance, request->bundle)
                           ? write_asked(&performance, request)
                           : FAILED;
    performance_close(&performance);
    return status;
}
