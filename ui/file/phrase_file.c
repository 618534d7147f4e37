// SPDX-License-Identifier: ISC
#include "phrase_file.h"

#include "../../plugin/bank/save.h"
#include "../../plugin/bank/utf8.h"
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
enum { NAMES_MOST = 1000, NAME_MOST = 180, NAME_ROOM = PHRASE_NAME_ROOM };

typedef struct {
    Engine* engine;
    SmfTrack tracks[2]; /* tempo and meter; drums */
    Timeline time;
    uint64_t tick;
} Recording;

static void gather(Recording* const recording)
{
    const MidiList* const out = &recording->engine->out;
    for (uint32_t i = 0; i < out->count; ++i) {
        const MidiMessage* const message = &out->messages[i];
        const bool begins = (message->bytes[0] & 0xF0) == MIDI_NOTE_ON;
        const uint64_t tick = timeline_tick(&recording->time, message->frame, begins);
        recording->tick = tick > recording->tick ? tick : recording->tick;
        smf_message(&recording->tracks[1], recording->tick, message->bytes);
    }
}

static void play(Recording* const recording, const int64_t frames)
{
    for (int64_t done = 0; done < frames; done += SLICE_FRAMES_MAX) {
        const int64_t left = frames - done;
        const int64_t slice = left < SLICE_FRAMES_MAX ? left : SLICE_FRAMES_MAX;
        engine_begin(recording->engine, MIDI_LIST_MAX);
        engine_advance(recording->engine, 0, (uint32_t)slice);
        gather(recording);
        timeline_advance(&recording->time, slice);
    }
}

static Settings settings_of(const Phrase* const phrase)
{
    Settings settings = *phrase->settings;
    if (phrase->straight) {
        Feel* const feel = &settings.feel;
        feel->looseness_ms = feel->touch = feel->liberty = 0.0;
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
    entry.from.bar = entry.origin = phrase->bars;
    entry.settings.click.when = CLICK_OFF;
    entry.ends = true;
    engine_plan_put(engine, &entry);
}

static void begin(Recording* const recording, const Phrase* const phrase, const char* const name)
{
    const double tempo = (double)(float)phrase->tempo;
    engine_init(recording->engine, phrase->library, TIMELINE_RATE);
    tell_plan(recording->engine, phrase, tempo);
    engine_begin(recording->engine, MIDI_LIST_MAX);
    engine_locate(recording->engine, phrase->meter, tempo, 0);
    timeline_tempo(&recording->time, tempo);
    smf_text(&recording->tracks[0], 0, SMF_TRACK_NAME, name);
    smf_tempo(&recording->tracks[0], 0, phrase->tempo);
    smf_meter(&recording->tracks[0], 0, (int)lround(phrase->meter.beats_per_bar),
              phrase->meter.beat_unit);
    smf_text(&recording->tracks[1], 0, SMF_TRACK_NAME, name);
}

/* The transport stops: what sounds is ended there. */
static void end(Recording* const recording)
{
    engine_begin(recording->engine, MIDI_LIST_MAX);
    engine_stop(recording->engine, 0);
    gather(recording);
    smf_end(&recording->tracks[0], (uint64_t)recording->time.end);
    smf_end(&recording->tracks[1], (uint64_t)recording->time.end);
}

static bool make(const Phrase* const phrase, const char* const name, Bytes* const file)
{
    Recording recording = {.engine = calloc(1, sizeof(Engine))};
    const double quarters =
        phrase->bars * phrase->meter.beats_per_bar * 4.0 / phrase->meter.beat_unit;
    recording.time.end = llround(quarters * SMF_DIVISION);
    if (!recording.engine) {
        return false;
    }
    begin(&recording, phrase, name);
    play(&recording, timeline_frames_to(&recording.time, recording.time.end));
    play(&recording, timeline_late_frames(phrase->tempo));
    end(&recording);
    const bool good = smf_file(recording.tracks, 2, file);
    bytes_free(&recording.tracks[0].bytes);
    bytes_free(&recording.tracks[1].bytes);
    free(recording.engine);
    return good;
}

/* The phrase's name, cut between two letters to what a file can be called. */
static void name_of(const Phrase* const phrase, char name[NAME_ROOM])
{
    const char* const whole = *phrase->name ? phrase->name : "Fourlimb";
    const size_t length = utf8_cut(whole, strlen(whole), NAME_MOST);
    snprintf(name, NAME_ROOM, "%.*s%s", (int)length, whole, phrase->straight ? ", straight" : "");
}

static void make_plain(const char* const name, char plain[NAME_ROOM])
{
    snprintf(plain, NAME_ROOM, "%s", name);
    for (char* letter = plain; *letter; ++letter) {
        const bool is_hidden = letter == plain && *letter == '.';
        if (*letter == '/' || (unsigned char)*letter < ' ' || *letter == 0x7F || is_hidden) {
            *letter = '-';
        }
    }
}

void phrase_file_name(const char* const name, char plain[PHRASE_NAME_ROOM])
{
    char cut[NAME_ROOM];
    const char* const whole = *name ? name : "Fourlimb";
    snprintf(cut, sizeof cut, "%.*s", (int)utf8_cut(whole, strlen(whole), NAME_MOST), whole);
    make_plain(cut, plain);
}

static bool is_there(const char* const path)
{
    struct stat status;
    return lstat(path, &status) == 0;
}

const char* phrase_folder(void)
{
    const char* const music = g_get_user_special_dir(G_USER_DIRECTORY_MUSIC);
    return music ? music : g_get_home_dir();
}

void phrase_file_place(const char* const wanted, char folder[PHRASE_PATH_ROOM])
{
    const bool is_home = wanted && wanted[0] == '~' && (wanted[1] == '/' || !wanted[1]);
    snprintf(folder, PHRASE_PATH_ROOM, "%s%s", is_home ? g_get_home_dir() : "",
             is_home             ? wanted + 1
             : wanted && *wanted ? wanted
                                 : phrase_folder());
}

static bool find_name(const char* const name, const char* const wanted, char path[PHRASE_PATH_ROOM])
{
    char plain[NAME_ROOM];
    char folder[PHRASE_PATH_ROOM];
    phrase_file_place(wanted, folder);
    make_plain(name, plain);
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
    Bytes file = {0};
    name_of(phrase, name);
    if (!(phrase->tempo >= (double)TEMPO_LEAST && phrase->tempo <= (double)TEMPO_MOST)) {
        snprintf(why, PHRASE_WHY_ROOM,
                 "its tempo is %g; set one from %d to %d quarter notes a minute", phrase->tempo,
                 TEMPO_LEAST, TEMPO_MOST);
        return false;
    }
    if (!make(phrase, name, &file)) {
        bytes_free(&file);
        snprintf(why, PHRASE_WHY_ROOM, "there is no memory for the file");
        return false;
    }
    bool good = find_name(name, phrase->folder, path);
    if (!good) {
        snprintf(why, PHRASE_WHY_ROOM, "the music folder has too many files of this name");
    } else {
        good = save_file(path, file.bytes, file.size, false, why);
    }
    bytes_free(&file);
    return good;
}
