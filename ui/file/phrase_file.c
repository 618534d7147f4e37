// SPDX-License-Identifier: ISC
#include "phrase_file.h"

#include "../../plugin/bank/save.h"
#include "smf.h"

#include <glib.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* So fast that no tick of the file is rounded away: see song.h. */
enum { PHRASE_RATE = 192000, NAMES_MOST = 1000 };

typedef struct {
    Engine* engine;
    SmfTrack tracks[2]; /* tempo and meter; drums */
    double ticks_per_frame;
    int64_t frame;
    int64_t end; /* frames */
    uint64_t tick;
} Take;

static void gather(Take* const take)
{
    const MidiList* const out = &take->engine->out;
    for (uint32_t i = 0; i < out->count; ++i) {
        const MidiMessage* const message = &out->messages[i];
        const double frame = (double)take->frame + message->frame;
        const uint64_t tick = (uint64_t)llround(frame * take->ticks_per_frame);
        take->tick = tick > take->tick ? tick : take->tick;
        smf_message(&take->tracks[1], take->tick, message->bytes);
    }
}

static void play(Take* const take)
{
    while (take->frame < take->end) {
        const int64_t left = take->end - take->frame;
        const uint32_t frames = left < SLICE_FRAMES_MAX ? (uint32_t)left : SLICE_FRAMES_MAX;
        engine_begin(take->engine, MIDI_LIST_MAX);
        engine_advance(take->engine, 0, frames);
        gather(take);
        take->frame += frames;
    }
}

static Report report(const Phrase* const phrase, const double speed)
{
    return (Report){
        .has = HAS_FRAME | HAS_SPEED | HAS_BAR | HAS_BAR_BEAT | HAS_BEAT_UNIT | HAS_BEATS_PER_BAR |
               HAS_BEATS_PER_MINUTE,
        .speed = speed,
        .beat_unit = phrase->meter.beat_unit,
        .beats_per_bar = phrase->meter.beats_per_bar,
        .beats_per_minute = phrase->tempo * phrase->meter.beat_unit / 4.0,
    };
}

static void begin(Take* const take, const Phrase* const phrase)
{
    Settings settings = *phrase->settings;
    settings.clock = CLOCK_HOST;
    settings.practice_rate = (Ratio){1, 1};
    settings.enabled = true;
    const Report start = report(phrase, 1.0);
    engine_init(take->engine, phrase->library, PHRASE_RATE);
    engine_set(take->engine, &settings);
    engine_begin(take->engine, MIDI_LIST_MAX);
    engine_report(take->engine, &start, 0);
    smf_text(&take->tracks[0], 0, SMF_TRACK_NAME, phrase->name);
    smf_tempo(&take->tracks[0], 0, phrase->tempo);
    smf_meter(&take->tracks[0], 0, (int)lround(phrase->meter.beats_per_bar),
              phrase->meter.beat_unit);
    smf_text(&take->tracks[1], 0, SMF_TRACK_NAME, phrase->name);
}

/* The transport stops: what sounds is ended there. */
static void end(Take* const take, const Phrase* const phrase)
{
    const Report stop = report(phrase, 0.0);
    engine_begin(take->engine, MIDI_LIST_MAX);
    engine_report(take->engine, &stop, 0);
    gather(take);
    const uint64_t last = (uint64_t)llround((double)take->end * take->ticks_per_frame);
    smf_end(&take->tracks[0], last > take->tick ? last : take->tick);
    smf_end(&take->tracks[1], last > take->tick ? last : take->tick);
}

static bool make(const Phrase* const phrase, SmfBytes* const file)
{
    Take take = {.engine = calloc(1, sizeof(Engine))};
    const double quarters =
        phrase->bars * phrase->meter.beats_per_bar * 4.0 / phrase->meter.beat_unit;
    take.ticks_per_frame = phrase->tempo / 60.0 * SMF_DIVISION / PHRASE_RATE;
    take.end = llround(quarters * SMF_DIVISION / take.ticks_per_frame);
    if (!take.engine) {
        return false;
    }
    begin(&take, phrase);
    play(&take);
    end(&take, phrase);
    const bool good = smf_file(take.tracks, 2, file);
    smf_free(&take.tracks[0].bytes);
    smf_free(&take.tracks[1].bytes);
    free(take.engine);
    return good;
}

/* A name that can be a file's: no slashes, no dot in front. */
static void file_name(const char* const name, char plain[256])
{
    snprintf(plain, 256, "%.200s", *name && *name != '.' ? name : "Fourlimb");
    for (char* letter = plain; *letter; ++letter) {
        if (*letter == '/' || (unsigned char)*letter < ' ') {
            *letter = '-';
        }
    }
}

static bool is_there(const char* const path)
{
    struct stat status;
    return lstat(path, &status) == 0;
}

static bool find_name(const char* const name, char path[PHRASE_PATH_ROOM])
{
    char plain[256];
    const char* const music = g_get_user_special_dir(G_USER_DIRECTORY_MUSIC);
    const char* const folder = music ? music : g_get_home_dir();
    file_name(name, plain);
    for (int i = 1; i < NAMES_MOST; ++i) {
        char number[16] = "";
        if (i > 1) {
            snprintf(number, sizeof number, " %d", i);
        }
        const int length = snprintf(path, PHRASE_PATH_ROOM, "%s/%s%s.mid", folder, plain, number);
        if (length > 0 && length < PHRASE_PATH_ROOM && !is_there(path)) {
            return true;
        }
    }
    return false;
}

bool phrase_file(const Phrase* const phrase, char path[PHRASE_PATH_ROOM], char why[PHRASE_WHY_ROOM])
{
    SmfBytes file = {0};
    if (!make(phrase, &file)) {
        smf_free(&file);
        snprintf(why, PHRASE_WHY_ROOM, "there is no memory for the file");
        return false;
    }
    bool good = find_name(phrase->name, path);
    if (!good) {
        snprintf(why, PHRASE_WHY_ROOM, "the music folder has too many files of this name");
    } else {
        good = save_file(path, file.bytes, file.size, false, why);
    }
    smf_free(&file);
    return good;
}
