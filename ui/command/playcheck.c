// SPDX-License-Identifier: ISC
#include "playcheck.h"

#include "../../plugin/bank/own_limits.h"
#include "../../plugin/engine/groove/ladder.h"
#include "../scene/words.h"
#include "commands.h"
#include "lighter_save.h"
#include "picks.h"
#include "playtable.h"
#include "playwords.h"

#include <stdio.h>

static const double minutes_normal = 4.0;

/* What is asked about, as it is heard. */
typedef struct {
    Picks picks;
    Selection selection;
    double tempo;
    double minutes;
    double begins; /* at this tempo; below `tempo` with a ladder */
    uint32_t bars;
    PlayLimits limits;
} PlayAsked;

bool playcheck_asked(const Request* const request)
{
    return request->section_count || request->minutes > 0.0 || request->lighten.rate ||
           request->save;
}

PlayLimits playcheck_limits(void)
{
    char folder[BANK_FOLDER_ROOM];
    Diagnostics diagnostics = {.count = 0};
    const PlayLimits limits =
        own_limits_read(bank_users_folder(folder) ? folder : NULL, &diagnostics);
    for (size_t i = 0; i < diagnostics.count; ++i) {
        fprintf(stderr, "fourlimb: %s\n", diagnostics.texts[i]);
    }
    diagnostics_clear(&diagnostics);
    return limits;
}

/* What the ladder has come to by the end of the song. */
static double ladder_end(const Settings* const settings, const PlayAsked* const asked,
                         const double rate)
{
    const uint32_t bars = asked->selection.phrase_bars;
    const double ticks = (double)(meter_bar_ticks(asked->picks.meter) * bars);
    const double quarters = ticks / (double)TICKS_PER_QUARTER;
    int64_t phrase = 0;
    for (double left = asked->minutes; left > 0.0; ++phrase) {
        left -= quarters / (ladder_tempo(settings->ladder, phrase) * rate);
    }
    return ladder_tempo(settings->ladder, phrase - 1);
}

/* As asked, else the own clock's, else the groove's; slowed down for practice. */
static void find_tempo(const Section* const section, const Settings* const settings,
                       PlayAsked* const asked)
{
    const bool own = settings->clock == CLOCK_OWN && !(section->tempo > 0.0);
    const double rate = (double)settings->practice_rate.over / settings->practice_rate.under;
    const double tempo = own ? settings->ladder.tempo : asked->picks.tempo;
    asked->begins = tempo * rate;
    asked->tempo = own ? ladder_end(settings, asked, rate) * rate : asked->begins;
}

static int find(const Performance* const performance, const Request* const request,
                PlayAsked* const asked)
{
    const Section* const section = request_first(request);
    const int status = picks_make(performance, section, &asked->picks);
    if (status != DONE) {
        return status;
    }
    const Settings settings = settings_from_controls(asked->picks.values);
    const Library* const library = bank_library(performance->bank);
    asked->minutes = request->minutes > 0.0 ? request->minutes : minutes_normal;
    asked->selection = selection_make(library, &settings, asked->picks.tempo);
    find_tempo(section, &settings, asked);
    asked->selection = selection_make(library, &settings, asked->tempo);
    asked->selection.varied = asked->picks.selection.varied;
    asked->bars = playability_bars(asked->minutes, asked->picks.meter, asked->tempo);
    asked->limits = playcheck_limits();
    return DONE;
}

static void print_head(const PlayAsked* const asked)
{
    char title[256];
    const Meter meter = asked->picks.meter;
    picks_title(&asked->picks, title, sizeof title);
    printf("%s: %s, %g/%d at %g, %g minutes, %u bars\n", title, asked->picks.info->family,
           meter.beats_per_bar, meter.beat_unit, asked->tempo, asked->minutes, asked->bars);
    if (asked->tempo > asked->begins) {
        printf("The tempo ladder goes from %g to %g in that time; all of it is looked at as if it "
               "were at %g.\n",
               asked->begins, asked->tempo, asked->tempo);
    }
    putchar('\n');
}

/* Looks a selection through and says what was found; true if a person can play it. */
static bool look(const PlayAsked* const asked, const Selection* const selection,
                 Playability* const playability)
{
    playability_run(playability, selection, asked->picks.meter, asked->tempo, asked->bars,
                    &asked->limits);
    playtable_print(stdout, playability);
    putchar('\n');
    return playwords_print(stdout, playability);
}

static void print_left_out(const Playability* const before, const Playability* const after)
{
    bool any = false;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        const uint32_t was = before->found[limb].strokes;
        const uint32_t is = after->found[limb].strokes;
        if (is < was) {
            printf("Left out: %u of the %u strokes of the %s.\n", was - is, was,
                   words_limb((Limb)limb));
            any = true;
        }
    }
    if (!any) {
        puts("Nothing had to be left out.");
    }
}

static bool lighten(const PlayAsked* const asked, const LightenWish* const wish,
                    const Playability* const before, Lighter* const lighter)
{
    static Playability after; /* too large for a stack */
    lighter_make(lighter, &asked->selection, asked->picks.meter, asked->tempo, &asked->limits,
                 wish);
    printf("\nLightened to %d strokes a second:\n\n", wish->rate);
    lighter_print(stdout, lighter, asked->picks.meter);
    putchar('\n');
    const bool can = look(asked, &lighter->after, &after);
    print_left_out(before, &after);
    return can;
}

static int answer(const PlayAsked* const asked, const Request* const request,
                  const Bank* const bank)
{
    static Playability before; /* too large for a stack */
    static Lighter lighter;    /* likewise */
    print_head(asked);
    bool good = look(asked, &asked->selection, &before);
    if (request->lighten.rate) {
        good = lighten(asked, &request->lighten, &before, &lighter);
    }
    if (request->save) {
        good = lighter_save(&lighter, bank, request->save) && good;
    }
    puts("Playing hard, fast or long can hurt limbs. The limits are records and estimates, no\n"
         "advice: ask a teacher, or a licensed professional where it hurts.");
    return good ? DONE : FAILED;
}

int playcheck_run(const Request* const request)
{
    Performance performance;
    PlayAsked asked;
    if (request->save && !request->lighten.rate) {
        fprintf(stderr, "fourlimb: --save keeps what --lighten made; name a limit by --lighten\n");
        return ASKED_WRONGLY;
    }
    int status = performance_open(&performance, request->bundle)
                     ? find(&performance, request, &asked)
                     : FAILED;
    if (status == DONE) {
        status = answer(&asked, request, performance.bank);
    }
    performance_close(&performance);
    return status;
}
