// SPDX-License-Identifier: ISC
#include "commands.h"
#include "heardwords.h"
#include "picks.h"
#include "written_bars.h"

#include <math.h>
#include <stdio.h>

enum {
    LISTEN_BARS = 16,     /* of a phrase at most: 64 strokes a bar have room */
    LISTEN_FILE_BARS = 4, /* of a file, which knows no form */
    LISTEN_BARS_MOST = 10000
};

/* Of a flam or drag: its grace strokes, and as much again. */
static const double grace_ms = 120.0;

typedef struct {
    Picks picks;
    WrittenSource source;
    PlayedFile written; /* none, where a groove is */
    PlayedFile played;
    uint32_t bars;
    uint32_t phrase_bars;
    uint32_t next; /* the first note that no phrase has had */
    double shift_ms;
    Heard heard;
    const char* names[LIMB_COUNT];
} Listening;

/* ---- A phrase */

static bool is_paired(const int32_t* const pairs, const uint32_t count, const int32_t note)
{
    uint32_t i = 0;
    while (i < count && pairs[i] != note) {
        ++i;
    }
    return i < count;
}

/* Grace strokes are written with their main stroke, and no fault: so many before note `main`. */
static void pardon(const Listening* const listening, const WrittenBars* const bars,
                   const uint32_t index, const int32_t* const pairs, Told* const told)
{
    const WrittenSource* const source = &listening->source;
    const Kit* const kit = source->selection->kit;
    const ToldPlayed* const played = listening->played.notes + listening->next;
    const Stroke stroke = bars->strokes[index].stroke;
    ToldLimb* const limb = &told->limbs[stroke.limb];
    int left = stroke.level == LEVEL_DRAG ? 2 : 1;
    for (int32_t j = pairs[index] - 1; j >= 0 && left && limb->extra; --j) {
        if (played[pairs[index]].ms - played[j].ms > grace_ms) {
            return;
        }
        if (pads_of_key(kit, source->split, played[j].key) ==
                pads_of_stroke(kit, source->split, stroke) &&
            !is_paired(pairs, bars->count, j)) {
            --limb->extra;
            --left;
        }
    }
}

static void pardon_graces(const Listening* const listening, const WrittenBars* const bars,
                          const int32_t* const pairs, Told* const told)
{
    for (uint32_t i = 0; i < bars->count; ++i) {
        if (bars->strokes[i].stroke.level >= LEVEL_FLAM && pairs[i] != PAIRING_NONE) {
            pardon(listening, bars, i, pairs, told);
        }
    }
}

static uint32_t notes_until(const Listening* const listening, const double ms)
{
    uint32_t end = listening->next;
    while (end < listening->played.count && listening->played.notes[end].ms < ms) {
        ++end;
    }
    return end - listening->next;
}

static uint32_t tell(const Listening* const listening, const WrittenBars* const bars,
                     Told* const told, int32_t* const pairs)
{
    static ToldRoom room; /* too large for a stack */
    const uint32_t notes = notes_until(listening, bars->until_ms + listening->shift_ms);
    const ToldTask task = {.written = bars->strokes,
                           .written_count = bars->count,
                           .played = listening->played.notes + listening->next,
                           .played_count = notes,
                           .kit = listening->source.selection->kit,
                           .split = listening->source.split};
    told_make(told, &task, listening->shift_ms, pairs, &room);
    return notes;
}

static void hear_phrase(Listening* const listening, const uint32_t first, const uint32_t last)
{
    static WrittenBars bars; /* likewise */
    static int32_t pairs[TOLD_MOST];
    Told told;
    written_bars_take(&bars, &listening->source, first, last);
    if (!first) { /* where all strokes lie, before it is known which are this phrase's */
        tell(listening, &bars, &told, NULL);
        listening->shift_ms = told.shift_ms;
    }
    const uint32_t notes = tell(listening, &bars, &told, pairs);
    pardon_graces(listening, &bars, pairs, &told);
    heard_add(&listening->heard, &told,
              told_is_clean(&told, HEARDWORDS_SPREAD_MS, HEARDWORDS_MISSES), bars.strokes,
              bars.count, listening->played.notes + listening->next, pairs);
    printf(first < last ? "phrase %u, bars %u to %u: " : "phrase %u, bar %u: ",
           listening->heard.phrases, first + 1, last + 1);
    heardwords_phrase(stdout, &told, listening->names);
    listening->shift_ms = told.shift_ms;
    listening->next += notes;
}

/* ---- The whole */

static void say_elsewhere(const Listening* const listening, const Told* const told)
{
    const HeardCount count = heardwords_count(told);
    printf("This is hardly what is written: %u of %u strokes are missed, %u notes are too\n"
           "many, or they fall anywhere. Check the groove, --tempo (%g here",
           count.missed, count.written, count.extra, listening->picks.tempo);
    if (listening->played.tempo > 0.0) {
        printf("; the played file says %.4g", listening->played.tempo);
    }
    puts("),\n--count-in (bar 1 begins where the file does), --meter and --kit.");
}

static void hear(Listening* const listening)
{
    for (uint32_t bar = 0; bar < listening->bars; bar += listening->phrase_bars) {
        const uint32_t end = bar + listening->phrase_bars;
        hear_phrase(listening, bar, (end < listening->bars ? end : listening->bars) - 1);
    }
    const Told told = heard_tell(&listening->heard);
    printf("clean: %u of %u phrases (missed or extra at most %d in 32, spread at most %g ms, for "
           "each limb)\n\n",
           listening->heard.clean, listening->heard.phrases, HEARDWORDS_MISSES,
           HEARDWORDS_SPREAD_MS);
    heardwords_table(stdout, &told, listening->names);
    putchar('\n');
    if (listening->next < listening->played.count) {
        printf("%u notes after the last bar aren't looked at.\n",
               listening->played.count - listening->next);
    }
    if (heardwords_elsewhere(&told)) {
        say_elsewhere(listening, &told);
    }
    heardwords_most(stdout, &told, listening->names);
    puts("Playing hard, fast or long can hurt limbs: stop before it hurts. These are figures, no\n"
         "advice: a teacher, or a licensed professional where it hurts, comes first.");
}

/* A last stroke on the first beat after the end makes no bar. */
static uint32_t count_bars(const Listening* const listening, const Section* const section)
{
    const PlayedFile* const played = &listening->played;
    const double beat_ms = listening->source.bar_ms / listening->source.meter.beats_per_bar;
    const double last = played->notes[played->count - 1].ms - listening->source.first_ms - beat_ms;
    const double bars = floor(last / listening->source.bar_ms) + 1.0;
    return section->bars             ? (uint32_t)section->bars
           : bars < 1.0              ? 1
           : bars > LISTEN_BARS_MOST ? LISTEN_BARS_MOST
                                     : (uint32_t)bars;
}

static uint32_t phrase_bars(const Listening* const listening)
{
    const uint32_t bars =
        listening->source.file ? LISTEN_FILE_BARS : listening->picks.selection.phrase_bars;
    return bars < LISTEN_BARS ? bars : LISTEN_BARS;
}

static void begin(Listening* const listening, const Section* const section)
{
    Picks* const picks = &listening->picks;
    WrittenSource* const source = &listening->source;
    const Settings settings = settings_from_controls(picks->values);
    const Kit* const kit = picks->selection.kit;
    const bool of_file = listening->written.notes;
    if (of_file) {
        picks->meter = listening->written.meter;
        picks->tempo = listening->written.tempo > 0.0 ? listening->written.tempo : 120.0;
    }
    *source = (WrittenSource){
        .selection = &picks->selection,
        .file = of_file ? &listening->written : NULL,
        .meter = picks->meter,
        .bar_ms = 60e3 / picks->tempo * picks->meter.beats_per_bar * 4.0 / picks->meter.beat_unit,
        .split =
            of_file ? kit->notes[VOICE_KICK] != kit->notes[VOICE_KICK_LEFT] : settings.split_feet,
        .left_handed = section->left_handed && !of_file,
    };
    source->first_ms = of_file ? 0.0 : (double)settings.count_in * source->bar_ms;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        listening->names[limb] = written_bars_row(source, (Limb)limb);
    }
    listening->bars = count_bars(listening, section);
    listening->phrase_bars = phrase_bars(listening);
}

static void say_what(const Listening* const listening, const Request* const request)
{
    const Picks* const picks = &listening->picks;
    char title[256];
    picks_title(picks, title, sizeof title);
    printf("%s beside %s, %g/%d at %g: %u bars\n",
           listening->source.file ? request->looked_for[0] : request->operand,
           listening->source.file ? request->operand : title, picks->meter.beats_per_bar,
           picks->meter.beat_unit, picks->tempo, listening->bars);
    if (listening->source.file) {
        puts("A file names no limbs: what is told is told of drums, four bars at once.");
    }
}

static int listen(const Performance* const performance, const Request* const request)
{
    static Listening listening; /* too large for a stack */
    const char* const played =
        request->looked_for_count ? request->looked_for[0] : request->operand;
    const Section* const section = request_first(request);
    int status = picks_make(performance, section, &listening.picks);
    if (status == DONE && request->looked_for_count &&
        !playedfile_read(&listening.written, request->operand)) {
        status = FAILED;
    }
    if (status == DONE && !playedfile_read(&listening.played, played)) {
        status = FAILED;
    }
    if (status == DONE) {
        begin(&listening, section);
        say_what(&listening, request);
        hear(&listening);
    }
    playedfile_free(&listening.written);
    playedfile_free(&listening.played);
    return status;
}

/* What says what a written file says. */
static bool asks_for_groove(const Section* const section)
{
    return section->groove || section->preset || section->hands || section->feet ||
           section->turnaround || section->tempo > 0.0 || section->beats || section->setting_count;
}

int command_listen(const Request* const request)
{
    if (!request->operand) {
        fprintf(stderr, "fourlimb: listen needs a MIDI file of what was played; `fourlimb listen "
                        "--help` has an example\n");
        return ASKED_WRONGLY;
    }
    if (request->looked_for_count && asks_for_groove(request_first(request))) {
        fprintf(stderr, "fourlimb: listen takes a written file or a groove with its tempo, not "
                        "both\n");
        return ASKED_WRONGLY;
    }
    Performance performance;
    const int status =
        performance_open(&performance, request->bundle) ? listen(&performance, request) : FAILED;
    performance_close(&performance);
    return status;
}
