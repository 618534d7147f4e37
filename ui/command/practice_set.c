// SPDX-License-Identifier: ISC
#include "practice_set.h"

#include "commands.h"
#include "songfile.h"

#include <math.h>
#include <stdio.h>

/* Common practice, no source: four tempi from three fifths of the goal on, two
   minutes each, and the warm-up at three quarters of the first. */
enum { STEPS = 4, SECONDS_EACH = 120 };
static const double first_of_goal = 0.6, warm_up_of_first = 0.75;

int practice_say(const char* const subject, const char* const what, const int status)
{
    fprintf(stderr, "fourlimb: %s%s\n", subject, what);
    return status;
}

int practice_ladder(Practice* const practice)
{
    const Request* const request = practice->request;
    const Section* const section = practice->section;
    const bool climbs = request_preset_value(section, "ladder_step", 0.0) > 0.0;
    const double top =
        request_preset_value(section, climbs ? "ladder_top" : "tempo", practice->picks.tempo);
    const double goal = request->to > 0.0 ? request->to : top;
    const double below = fmax(20.0, 5.0 * floor(goal * first_of_goal / 5.0));
    const double start = request->from > 0.0 ? request->from
                         : climbs            ? fmin(goal, practice->picks.tempo)
                                             : below;
    practice->to = (int)floor(goal + 0.5);
    practice->from = (int)floor(start + 0.5);
    practice->steps = request->steps ? request->steps : STEPS;
    if (practice->from > practice->to) {
        return practice_say("--from", " is a faster tempo than --to: the ladder goes up",
                            ASKED_WRONGLY);
    }
    if (practice->steps > 1 && practice->to - practice->from < practice->steps - 1) {
        return practice_say("--steps", " has more tempi than there are from --from to --to",
                            ASKED_WRONGLY);
    }
    return DONE;
}

static int ladder_tempo(const Practice* const practice, const int step)
{
    const double rise = (double)(practice->to - practice->from) * (step + 1) / practice->steps;
    const double even = practice->steps > 1
                            ? (double)(practice->to - practice->from) * step / (practice->steps - 1)
                            : rise;
    return practice->from + (int)floor(even + 0.5);
}

static void put(Section* const section, const char* const symbol, const float value)
{
    request_put(section->settings, &section->setting_count, symbol, value);
}

void practice_set_up(const Practice* const practice, const LimbSet limbs, const int tempo,
                     const int bars, Section* const section)
{
    *section = *practice->section;
    section->tempo = tempo;
    section->bars = bars;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        put(section, control_rows[CONTROL_RIGHT_HAND + limb].symbol,
            limbs >> limb & 1U ? 1.0f : 0.0f);
    }
    put(section, "clock", 0);
    put(section, "practice_rate", 5); /* full */
    put(section, "liberty", 0);       /* what is written is what is practised */
}

/* The same without what people do to it. */
static void straighten(Section* const section)
{
    put(section, "looseness", 0);
    put(section, "push_hands", 0);
    put(section, "push_snare", 0);
    put(section, "push_feet", 0);
}

/* Whole phrases of two minutes or more, or as many bars as were asked for. */
static int bars_at(const Practice* const practice, const int tempo)
{
    const Meter meter = practice->picks.meter;
    const double seconds = (double)meter.beats_per_bar * 240.0 / meter.beat_unit / tempo;
    const int phrase = (int)practice->picks.selection.phrase_bars;
    if (practice->section->bars) {
        return practice->section->bars;
    }
    return phrase * (int)ceil(SECONDS_EACH / (seconds * phrase));
}

/* Begins the song of the file at hand; writing it, or reel_end, plays it. */
static int begin(Practice* const practice, const LimbSet limbs, const int tempo, const bool exact,
                 ReelSection* const played)
{
    static Section section; /* too large for a stack */
    Performance* const performance = &practice->performance;
    Rendition rendition;
    practice_set_up(practice, limbs, tempo, bars_at(practice, tempo), &section);
    if (exact) {
        straighten(&section);
    }
    performance_begin(performance, practice->title);
    const int status = performance_play(performance, &section, &rendition);
    *played = rendition.first;
    return status;
}

/* Plays the file at hand and keeps its messages alone. */
static int play(Practice* const practice, const LimbSet limbs, const int tempo, const bool exact)
{
    ReelSection played;
    Bytes file = {.bytes = NULL};
    int status = begin(practice, limbs, tempo, exact, &played);
    if (status == DONE && !reel_end(&practice->performance.song, &file)) {
        status = practice_say("there is no memory for the song", "", FAILED);
    }
    bytes_free(&file);
    return status;
}

static int play_exactly(Practice* const practice, const LimbSet limbs, const int tempo)
{
    const int status = play(practice, limbs, tempo, true);
    reel_free(&practice->exact);
    practice->exact = practice->performance.song;
    practice->performance.song = (Reel){.events = NULL};
    return status;
}

/* What the file holds, as it was rendered. */
static void take_facts(Practice* const practice, const ReelSection* const played,
                       RoutineItem* const item)
{
    const Reel* const song = &practice->performance.song;
    const int own = (int)host_get(practice->performance.host, "click_channel");
    const int channel = own ? own : (int)host_get(practice->performance.host, "channel");
    item->click = facts_click(song, played, channel - 1);
    facts_stray(&practice->routine.stray, song, &practice->exact, played);
}

static int make_file(Practice* const practice, const RoutineKind kind, const LimbSet limbs,
                     const int tempo)
{
    char path[PATH_ROOM], name[LIMBSET_ROOM];
    RoutineItem* const item = &practice->routine.items[practice->routine.count];
    const char* const what = practice->routine.title;
    ReelSection played;
    double seconds = 0.0;
    *item = (RoutineItem){.kind = kind, .limbs = limbs, .tempo = tempo};
    limbset_name(limbs, name);
    snprintf(item->name, sizeof item->name, "%02d-%03d-%s.%s", practice->files++, tempo,
             kind == ROUTINE_WARM_UP ? "warm-up" : name, practice->request->as_wav ? "wav" : "mid");
    snprintf(path, sizeof path, "%s/%s", practice->request->out, item->name);
    snprintf(practice->title, sizeof practice->title, "%s, %s, %d", what, name, tempo);
    int status = play_exactly(practice, limbs, tempo);
    status = status == DONE ? begin(practice, limbs, tempo, false, &played) : status;
    if (status != DONE) {
        return status;
    }
    if (!songfile_write(&practice->performance.song, path, practice->request->force,
                        &practice->request->wav, &seconds)) {
        return FAILED;
    }
    take_facts(practice, &played, item);
    item->seconds = (int)ceil(seconds - 1e-3);
    ++practice->routine.count;
    return DONE;
}

int practice_make_files(Practice* const practice)
{
    const int slow = (int)floor(fmax(20.0, practice->from * warm_up_of_first) + 0.5);
    const LimbSet whole = practice->routine.limbs;
    LimbSet parts[LIMBSET_PARTS];
    const int count = limbset_parts(whole, parts);
    int status = make_file(practice, ROUTINE_WARM_UP, whole, slow);
    for (int step = 0; status == DONE && step < practice->steps; ++step) {
        if (step) {
            routine_rest(&practice->routine);
        }
        for (int i = 0; status == DONE && i < count; ++i) {
            status = make_file(practice, ROUTINE_PART, parts[i], ladder_tempo(practice, step));
        }
    }
    return status;
}

/* With every limb silenced on purpose the click alone can be practised by. */
static int find_none(Practice* const practice, const LimbSet asked)
{
    char words[LIMBSET_ROOM];
    if (!asked) {
        const int status = play(practice, 0, practice->to, false);
        return status != DONE || practice->performance.song.event_count
                   ? status
                   : practice_say("every limb is silenced, and so is the click",
                                  ": there is nothing to practise by", ASKED_WRONGLY);
    }
    limbset_words(asked, words);
    fprintf(stderr, "fourlimb: %s has no stroke of the %s; choose another figure or other limbs\n",
            practice->routine.title, words);
    return ASKED_WRONGLY;
}

int practice_find_limbs(Practice* const practice)
{
    LimbSet asked = 0;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        asked |= practice->picks.values[CONTROL_RIGHT_HAND + limb] > 0.0f ? 1U << limb : 0U;
    }
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        const LimbSet alone = 1U << limb & asked;
        const int status = alone ? play(practice, alone, practice->to, false) : DONE;
        if (status != DONE) {
            return status;
        }
        practice->routine.limbs |= practice->performance.song.strokes && alone ? alone : 0U;
    }
    return practice->routine.limbs ? DONE : find_none(practice, asked);
}
