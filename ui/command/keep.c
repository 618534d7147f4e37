// SPDX-License-Identifier: ISC
#include "../paper/handout.h"
#include "../../plugin/engine/varied/variation.h"
#include "commands.h"
#include "picks.h"

#include <stdio.h>
#include <string.h>

enum { TITLE_ROOM = 256 };

static void add(char title[TITLE_ROOM], const uint32_t variation)
{
    const size_t length = strlen(title);
    if (variation) {
        snprintf(title + length, TITLE_ROOM - length, ", %s", variation_words(variation));
    }
}

/* "Fog Bell with Gallop, as reverse gallops". */
static void name_it(const Picks* const picks, const Settings* const settings,
                    char title[TITLE_ROOM])
{
    picks_title(picks, title, TITLE_ROOM);
    add(title, settings->variation);
    add(title, settings->variation_then);
}

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
    name_it(&picks, &settings, title);
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
