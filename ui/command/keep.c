// SPDX-License-Identifier: ISC
#include "../paper/handout.h"
#include "commands.h"
#include "picks.h"

#include <stdio.h>

enum { TITLE_ROOM = 256 };

static int keep(const Performance* const performance, const Request* const request)
{
    Picks picks;
    char title[TITLE_ROOM], path[HANDOUT_PATH_ROOM], why[HANDOUT_WHY_ROOM];
    const Section* const section = request_first(request);
    const int status = picks_make(performance, section, &picks);
    if (status != DONE) {
        return status;
    }
    const Settings settings = settings_from_controls(picks.values);
    picks_title(&picks, title, sizeof title); /* with what the feet are varied by */
    const char* const name = request->title && *request->title ? request->title : title;
    const Handout handout = {.wish = {.bank = performance->bank,
                                      .selection = &picks.selection,
                                      .settings = &settings,
                                      .meter = picks.meter,
                                      .tempo = picks.tempo,
                                      .name = name},
                             .kits = bank_library(performance->bank),
                             .left_handed = section->left_handed,
                             .folder = request->out ? request->out : "."};
    if (!handout_write(&handout, path, why)) {
        fprintf(stderr, "fourlimb: \"%s\" isn't kept: %s\n", name, why);
        return FAILED;
    }
    printf("wrote %s: a file for a bank of one's own, MIDI, a chart, a line of text\n", path);
    return DONE;
}

int command_keep(const Request* const request)
{
    Performance performance;
    const int status =
        performance_open(&performance, request->bundle) ? keep(&performance, request) : FAILED;
    performance_close(&performance);
    return status;
}
