// SPDX-License-Identifier: ISC
#include "phrase_file.h"

#include "../../plugin/bank/save.h"
#include "smf.h"
#include "timeline.h"

#include <glib.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* Names of files have 255 bytes at most: ", straight 999.mid" and a part's ending have to
   fit behind. */
enum { NAMES_MOST = 1000, NAME_MOST = 180, NAME_ROOM = 256 };

/* What is no tempo: as report.h has it. */
static const double least_tempo = 1.0;
static const double most_tempo = 2000.0;

typedef struct {
    Engine* engine;
    SmfTrack tracks[2]; /* tempo and meter; drums */
    Timeline time;
    uint64_t tick;
} Take;

static void gather(Take* const take)
{
    const MidiList* const out = &take->engine->out;
    for (uint32_t i = 0; i < out->count; ++i) {
        const MidiMessage* const message = &out->messages[i];
        const bool begins = (message->bytes[0] & 0xF0) == MIDI_NOTE_ON;
        const uint64_t tick = timeline_tick(&take->time, message->frame, begins);
        take->tick = tick > take->tick ? tick : take->tick;
        smf_message(&take->tracks[1], take->tick, message->bytes);
    }
}

static void play(Take* const take, const int64_t frames)
{
    for (int64_t done = 0; done < frames; done += SLICE_FRAMES_MAX) {
        const int64_t left = frames - done;
        const int64_t slice = left < SLICE_FRAMES_MAX ? left : SLICE_FRAMES_MAX;
        engine_begin(take->engine, MIDI_LIST_MAX);
        engine_advance(take->engine, 0, (uint32_t)slice);
        gather(take);
        timeline_advance(&take->time, slice);
    }
}

static Settings settings_of(const Phrase* const phrase)
{
    Settings settings = *phrase->settings;
    if (phrase->straight) {
        Feel* const feel = &settings.feel;
        feel->looseness_ms = feel->touch = 0.0;
        feel->push_hands_ms = feel->push_snare_ms = feel->push_feet_ms = 0.0;
    }
    settings.clock = CLOCK_HOST;
    settings.practice_rate = (Ratio){1, 1};
    settings.enabled = true;
    return settings;
}

/* The phrase, and nothing of the bar after it. */
static void tell_plan(Engine* const engine, const Phrase* const phrase, const double tempo)
{
    PlanEntry entry = {.meter = phrase->meter, .tempo = tempo, .settings = settings_of(phrase)};
    engine_plan_put(engine, &entry);
    entry.bar = entry.origin = phrase->bars;
    entry.settings.click.when = CLICK_OFF;
    entry.ends = true;
    engine_plan_put(engine, &entry);
}

static void begin(Take* const take, const Phrase* const phrase, const char* const name)
{
    const double tempo = (double)(float)phrase->tempo;
    engine_init(take->engine, phrase->library, TIMELINE_RATE);
    tell_plan(take->engine, phrase, tempo);
    engine_begin(take->engine, MIDI_LIST_MAX);
    engine_locate(take->engine, phrase->meter, tempo, 0);
    timeline_tempo(&take->time, tempo);
    smf_text(&take->tracks[0], 0, SMF_TRACK_NAME, name);
    smf_tempo(&take->tracks[0], 0, phrase->tempo);
    smf_meter(&take->tracks[0], 0, (int)lround(phrase->meter.beats_per_bar),
              phrase->meter.beat_unit);
    smf_text(&take->tracks[1], 0, SMF_TRACK_NAME, name);
}

/* The transport stops: what sounds is ended there. */
static void end(Take* const take)
{
    engine_begin(take->engine, MIDI_LIST_MAX);
    engine_report(take->engine, &(Report){.has = HAS_SPEED, .speed = 0.0}, 0);
    gather(take);
    smf_end(&take->tracks[0], (uint64_t)take->time.end);
    smf_end(&take->tracks[1], (uint64_t)take->time.end);
}

static bool make(const Phrase* const phrase, const char* const name, SmfBytes* const file)
{
    Take take = {.engine = calloc(1, sizeof(Engine))};
    const double quarters =
        phrase->bars * phrase->meter.beats_per_bar * 4.0 / phrase->meter.beat_unit;
    take.time.end = llround(quarters * SMF_DIVISION);
    if (!take.engine) {
        return false;
    }
    begin(&take, phrase, name);
    play(&take, timeline_frames_to(&take.time, take.time.end));
    play(&take, timeline_late_frames(phrase->tempo));
    end(&take);
    const bool good = smf_file(take.tracks, 2, file);
    smf_free(&take.tracks[0].bytes);
    smf_free(&take.tracks[1].bytes);
    free(take.engine);
    return good;
}

/* The phrase's name, cut between two letters to what a file can be called. */
static void name_of(const Phrase* const phrase, char name[NAME_ROOM])
{
    const char* const whole = *phrase->name ? phrase->name : "Fourlimb";
    size_t length = strlen(whole);
    if (length > NAME_MOST) {
        for (length = NAME_MOST; ((unsigned char)whole[length] & 0xC0) == 0x80;) {
            --length;
        }
    }
    snprintf(name, NAME_ROOM, "%.*s%s", (int)length, whole, phrase->straight ? ", straight" : "");
}

/* A name that can be a file's: no slashes, no dot in front. */
static void file_name(const char* const name, char plain[NAME_ROOM])
{
    snprintf(plain, NAME_ROOM, "%s", name);
    for (char* letter = plain; *letter; ++letter) {
        const bool is_hidden = letter == plain && *letter == '.';
        if (*letter == '/' || (unsigned char)*letter < ' ' || *letter == 0x7F || is_hidden) {
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
    char plain[NAME_ROOM];
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
    char name[NAME_ROOM];
    SmfBytes file = {0};
    name_of(phrase, name);
    if (!(phrase->tempo >= least_tempo && phrase->tempo <= most_tempo)) {
        snprintf(why, PHRASE_WHY_ROOM,
                 "its tempo is %g; set one from %g to %g quarter notes a minute", phrase->tempo,
                 least_tempo, most_tempo);
        return false;
    }
    if (!make(phrase, name, &file)) {
        smf_free(&file);
        snprintf(why, PHRASE_WHY_ROOM, "there is no memory for the file");
        return false;
    }
    bool good = find_name(name, path);
    if (!good) {
        snprintf(why, PHRASE_WHY_ROOM, "the music folder has too many files of this name");
    } else {
        good = save_file(path, file.bytes, file.size, false, why);
    }
    smf_free(&file);
    return good;
}
