// SPDX-License-Identifier: ISC
#include "playwords.h"

#include "../scene/words.h"
#include "playtable.h"

#include <math.h>

static const char* const who[PLAY_STREAMS] = {
    "The right hand", "The left hand", "The right foot",
    "The left foot",  "The two hands", "The two feet",
};

/* Bars and beats from 1, as people count. */
static void print_place(FILE* const out, const Playability* const playability, const int64_t tick)
{
    const int64_t bar = meter_bar_ticks(playability->meter);
    const double beat = (double)(tick % bar) / (double)meter_beat_ticks(playability->meter);
    fprintf(out, "bar %lld, beat %.4g", (long long)(tick / bar) + 1, 1.0 + beat);
}

/* "The two hands have", "The left foot has". */
static void print_who(FILE* const out, const PlayStream stream, const char* const one,
                      const char* const both)
{
    fprintf(out, "%s %s ", who[stream], (int)stream < LIMB_COUNT ? one : both);
}

static void say_too_fast(FILE* const out, const Playability* const playability,
                         const PlayStream stream)
{
    const PlayDemand* const found = &playability->found[stream];
    const double most = playability->limits.rate[stream];
    print_who(out, stream, "has", "have");
    fprintf(out, "%.0f strokes in the second that ends at ", found->rate);
    print_place(out, playability, found->rate_at);
    fprintf(out, "; at %.1f a second (%s) there are %.0f at most.\n", most,
            playtable_rate_source(&playability->limits, stream), ceil(most));
}

static void say_too_long(FILE* const out, const Playability* const playability,
                         const PlayStream stream)
{
    const PlayLimits* const limits = &playability->limits;
    const uint32_t rate = playability_hardest(playability, stream);
    const double minutes = playability_minutes_at(playability, stream, rate);
    print_who(out, stream, "plays", "play");
    fprintf(out,
            "%.1f strokes a second for %.1f minutes in all; so long %.1f can be kept up (%s).\n",
            playability_kept_at(playability, stream, rate), minutes,
            limits->rate[stream] * play_limits_share(limits, minutes),
            playtable_kept_source(limits, stream, minutes));
}

static void say_too_close(FILE* const out, const Playability* const playability,
                          const PlayStream limb)
{
    const PlayDemand* const found = &playability->found[limb];
    const PlayLimits* const limits = &playability->limits;
    if (found->closest_ms < limits->closest_ms[limb] && found->strokes > 1) {
        print_who(out, limb, "has", "");
        fprintf(out, "%.1f ms between two strokes at ", found->closest_ms);
        print_place(out, playability, found->closest_at);
        fprintf(out, "; %.1f is the least (%s).\n", limits->closest_ms[limb],
                playtable_closest_source(limits, limb));
    }
    if (found->burst > limits->burst[limb]) {
        print_who(out, limb, "has", "");
        fprintf(out, "%u strokes in a row, up to ", found->burst);
        print_place(out, playability, found->burst_at);
        fprintf(out, ", that are closer than %.1f a second; %u at most (%s).\n",
                limits->rate[limb] * limits->burst_share[limb], limits->burst[limb],
                playtable_burst_source(limits, limb));
    }
}

static void say_too_far(FILE* const out, const Playability* const playability,
                        const PlayStream limb)
{
    const PlayDemand* const found = &playability->found[limb];
    const PlayMove worst = found->worst;
    print_who(out, limb, "has", "");
    fprintf(out, "%.1f ms from %s to %s at ", worst.has_ms, words_voice((Voice)worst.from),
            words_voice((Voice)worst.to));
    print_place(out, playability, worst.tick);
    fprintf(out, " and needs %.1f (%s); too far %u time%s in all.\n", worst.needs_ms,
            playtable_move_source(&playability->limits, worst), found->moves,
            found->moves == 1 ? "" : "s");
}

static void say_torn(FILE* const out, const Playability* const playability, const PlayStream limb)
{
    const PlayDemand* const found = &playability->found[limb];
    print_who(out, limb, "is", "");
    fprintf(out, "on two voices at once at ");
    print_place(out, playability, found->torn_at);
    fprintf(out, ", %u time%s in all: nobody can.\n", found->torn, found->torn == 1 ? "" : "s");
}

static bool say_faults(FILE* const out, const Playability* const playability,
                       const PlayStream stream)
{
    static const struct {
        uint32_t fault;
        void (*say)(FILE* out, const Playability* playability, PlayStream stream);
    } rows[] = {
        {PLAY_TORN, say_torn},         {PLAY_TOO_FAST, say_too_fast},
        {PLAY_TOO_LONG, say_too_long}, {PLAY_TOO_CLOSE, say_too_close},
        {PLAY_TOO_FAR, say_too_far},
    };
    const uint32_t faults = playability_faults(playability, stream);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        if (faults & rows[i].fault) {
            rows[i].say(out, playability, stream);
        }
    }
    return faults;
}

bool playwords_print(FILE* const out, const Playability* const playability)
{
    bool any = playability->dropped;
    if (any) {
        fprintf(out, "%u strokes were more than can be looked at.\n", playability->dropped);
    }
    for (int stream = 0; stream < PLAY_STREAMS; ++stream) {
        any |= say_faults(out, playability, (PlayStream)stream);
    }
    fputs(any ? "As it is, this is beyond the limits above.\n" : "A person can play this.\n", out);
    return !any;
}
