// SPDX-License-Identifier: ISC
#include "synth.h"

#include <fluidsynth.h>
#include <stdio.h>
#include <stdlib.h>

enum { NOTE_OFF = 0x80, NOTE_ON = 0x90, CHANNELS = 16, DRUM_CHANNEL = 9, DRUM_BANK = 128 };

struct Synth {
    fluid_settings_t* settings;
    fluid_synth_t* synth;
};

/* What it says of a file is said by us; where it only warns, the sound tells. */
static void say_nothing(const int level, const char* const message, void* const data)
{
    (void)level;
    (void)message;
    (void)data;
}

/* A room around the drums, as General MIDI players have; no chorus, which makes
   cymbals waver.  Fast feet under long cymbals need more voices than 256. */
static fluid_settings_t* make_settings(const double rate)
{
    fluid_settings_t* const settings = new_fluid_settings();
    if (settings) {
        fluid_settings_setnum(settings, "synth.sample-rate", rate);
        fluid_settings_setnum(settings, "synth.gain", 1.0);
        fluid_settings_setint(settings, "synth.polyphony", 1024);
        fluid_settings_setint(settings, "synth.chorus.active", 0);
        fluid_settings_setint(settings, "synth.lock-memory", 0);
        fluid_settings_setint(settings, "synth.dynamic-sample-loading", 1);
    }
    return settings;
}

/* True if there is a drum set to play. */
static bool choose_drums(fluid_synth_t* const synth, const int soundfont)
{
    for (int channel = 0; channel < CHANNELS; ++channel) {
        fluid_synth_set_channel_type(synth, channel, CHANNEL_TYPE_DRUM);
        fluid_synth_program_select(synth, channel, soundfont, DRUM_BANK, 0);
    }
    return fluid_synth_get_channel_preset(synth, DRUM_CHANNEL) != NULL;
}

static bool start(Synth* const synth, const char* const soundfont, const double rate,
                  char why[SYNTH_WHY_ROOM])
{
    for (int level = FLUID_PANIC; level < LAST_LOG_LEVEL; ++level) {
        fluid_set_log_function(level, say_nothing, NULL);
    }
    synth->settings = make_settings(rate);
    synth->synth = synth->settings ? new_fluid_synth(synth->settings) : NULL;
    if (!synth->synth || fluid_synth_get_internal_bufsize(synth->synth) != SYNTH_BLOCK) {
        snprintf(why, SYNTH_WHY_ROOM, "the synthesizer would not start at %g Hz", rate);
        return false;
    }
    const int id = fluid_synth_sfload(synth->synth, soundfont, 0);
    if (id == FLUID_FAILED) {
        snprintf(why, SYNTH_WHY_ROOM, "%s is no soundfont that can be loaded (.sf2 or .sf3)",
                 soundfont);
        return false;
    }
    if (!choose_drums(synth->synth, id)) {
        snprintf(why, SYNTH_WHY_ROOM,
                 "%s holds no drums (bank 128, program 0); choose a General MIDI soundfont",
                 soundfont);
        return false;
    }
    return true;
}

Synth* synth_open(const char* const soundfont, const double rate, char why[SYNTH_WHY_ROOM])
{
    Synth* const synth = calloc(1, sizeof(Synth));
    if (!synth) {
        snprintf(why, SYNTH_WHY_ROOM, "there is no memory for a synthesizer");
        return NULL;
    }
    if (!start(synth, soundfont, rate, why)) {
        synth_close(synth);
        return NULL;
    }
    return synth;
}

void synth_close(Synth* const synth)
{
    if (synth) {
        delete_fluid_synth(synth->synth);
        delete_fluid_settings(synth->settings);
        free(synth);
    }
}

void synth_send(Synth* const synth, const uint8_t bytes[3])
{
    const int channel = bytes[0] & 0x0F;
    const int kind = bytes[0] & 0xF0;
    if (kind == NOTE_ON && bytes[2] > 0) {
        fluid_synth_noteon(synth->synth, channel, bytes[1], bytes[2]);
    } else if (kind == NOTE_ON || kind == NOTE_OFF) {
        fluid_synth_noteoff(synth->synth, channel, bytes[1]);
    }
}

void synth_run(Synth* const synth, float samples[2 * SYNTH_BLOCK])
{
    fluid_synth_write_float(synth->synth, SYNTH_BLOCK, samples, 0, 2, samples, 1, 2);
}
