// SPDX-License-Identifier: ISC
#include "commands.h"
#include "performance.h"
#include "songfile.h"

#include <stdio.h>

/* General MIDI's is the one map that soundfonts know. */
enum { KIT_GENERAL_MIDI = 1 };

static void warn_of_kit(const Performance* const performance, const Request* const request)
{
    if (songfile_kind(request->out) == SONGFILE_WAV &&
        (int)host_get(performance->host, "kit") != KIT_GENERAL_MIDI) {
        fprintf(stderr, "fourlimb: the kit map isn't General MIDI: a General MIDI soundfont plays "
                        "other drums for its keys\n");
    }
}

static void tell(const Rendition* const played)
{
    const ReelSection* const first = &played->first;
    printf("  %-28s %3d bars of %d/%d at %g", first->label, first->bars, first->beats,
           first->beat_unit, first->tempo);
    if (played->last_tempo > first->tempo) {
        printf(" to %g", played->last_tempo);
    }
    puts(first->count_in ? ", counted in" : "");
}

static int play_all(Performance* const performance, const Request* const request)
{
    performance_begin(performance, request->title ? request->title : "Fourlimb");
    const Section* const sections = request_first(request);
    for (int i = 0; i < request->section_count || i == 0; ++i) {
        Rendition played;
        const int status = performance_play(performance, &sections[i], &played);
        if (status != DONE) {
            return status;
        }
        tell(&played);
        warn_of_kit(performance, request);
    }
    return songfile_write(&performance->song, request->out, request->force, &request->wav, NULL)
               ? DONE
               : FAILED;
}

int command_render(const Request* const request)
{
    if (!request->out) {
        fprintf(stderr, "fourlimb: render needs --out FILE.mid or FILE.wav; `fourlimb render "
                        "--help` has examples\n");
        return ASKED_WRONGLY;
    }
    if (songfile_kind(request->out) == SONGFILE_NONE) {
        fprintf(stderr, "fourlimb: --out %s: expected a name that ends in .mid or .wav\n",
                request->out);
        return ASKED_WRONGLY;
    }
    Performance performance;
    const int status =
        performance_open(&performance, request->bundle) ? play_all(&performance, request) : FAILED;
    performance_close(&performance);
    return status;
}
