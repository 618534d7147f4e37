// SPDX-License-Identifier: ISC
#include "playedfile.h"

#include "../file/midifile.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Hours of a drummer who strikes as often as MIDIFILE_NOTES_MAX allows, and controllers. */
enum { PLAYEDFILE_BYTES = 1 << 23 };

static bool refuse(const char* const path, const char* const why)
{
    fprintf(stderr, "fourlimb: %s: %s\n", path, why);
    return false;
}

static bool read_bytes(const char* const path, char* const bytes, size_t* const size)
{
    FILE* const stream = fopen(path, "rb");
    if (!stream) {
        return refuse(path, strerror(errno));
    }
    *size = fread(bytes, 1, PLAYEDFILE_BYTES, stream);
    const int wrong = ferror(stream) ? errno : 0;
    fclose(stream);
    if (wrong) {
        return refuse(path, strerror(wrong));
    }
    return *size < PLAYEDFILE_BYTES || refuse(path, "is larger than 8 MB");
}

/* Tempo by tempo, as both rise: a file may have many of each. */
static void take_notes(PlayedFile* const played, const MidiFile* const file)
{
    double ms = 0.0;
    int64_t tick = 0;
    double tick_ms = file->quarter_ticks ? 500.0 / file->quarter_ticks : 1e3 / file->second_ticks;
    size_t next = 0;
    for (size_t i = 0; i < file->note_count; ++i) {
        const FileNote* const note = &file->notes[i];
        while (file->quarter_ticks && next < file->tempo_count &&
               file->tempi[next].tick <= note->tick) {
            ms += (double)(file->tempi[next].tick - tick) * tick_ms;
            tick = file->tempi[next].tick;
            tick_ms = 60e3 / file->tempi[next++].tempo / file->quarter_ticks;
        }
        ms += (double)(note->tick - tick) * tick_ms;
        tick = note->tick;
        played->notes[played->count++] =
            (ToldPlayed){.ms = ms, .key = note->key, .velocity = note->velocity};
    }
    played->tempo = file->tempo_count && file->quarter_ticks ? file->tempi[0].tempo : 0.0;
}

static Meter meter_of(const MidiFile* const file)
{
    const FileMeter* const first = file->meters;
    return file->meter_count ? (Meter){first->beats, first->beat_unit} : (Meter){4.0, 4};
}

static bool read_file(PlayedFile* const played, const char* const path, char* const bytes)
{
    char why[MIDIFILE_WHY_ROOM];
    size_t size = 0;
    if (!read_bytes(path, bytes, &size)) {
        return false;
    }
    MidiFile* const file = midifile_read(bytes, size, why);
    if (!file) {
        return refuse(path, why);
    }
    played->notes = file->note_count ? malloc(file->note_count * sizeof *played->notes) : NULL;
    const bool good = played->notes;
    if (good) {
        take_notes(played, file);
        played->meter = meter_of(file);
    } else {
        refuse(path, file->note_count ? "there is no memory for it"
                                      : "holds no notes; record what is played into it as MIDI");
    }
    midifile_free(file);
    return good;
}

bool playedfile_read(PlayedFile* const played, const char* const path)
{
    *played = (PlayedFile){.notes = NULL};
    char* const bytes = malloc(PLAYEDFILE_BYTES);
    const bool good =
        bytes ? read_file(played, path, bytes) : refuse(path, "there is no memory for it");
    free(bytes);
    return good;
}

void playedfile_free(PlayedFile* const played)
{
    free(played->notes);
    played->notes = NULL;
}
