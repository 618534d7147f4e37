// SPDX-License-Identifier: ISC
#include "songfile.h"

#include "outfile.h"
#include "soundfont.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>

SongFile songfile_kind(const char* const path)
{
    const char* const slash = strrchr(path, '/');
    const char* const dot = strrchr(slash ? slash : path, '.');
    if (!dot || !strcasecmp(dot, ".mid") || !strcasecmp(dot, ".midi")) {
        return SONGFILE_MIDI;
    }
    return strcasecmp(dot, ".wav") ? SONGFILE_NONE : SONGFILE_WAV;
}

static bool complain(const char* const why)
{
    fprintf(stderr, "fourlimb: %s\n", why);
    return false;
}

static void print_strokes(const Reel* const song, const char* const path)
{
    printf("wrote %s: %u strokes in %d %s%s", path, song->strokes, song->phrases, song->counted,
           song->phrases == 1 ? "" : "s");
}

static bool write_midi(const Reel* const song, const Bytes* const file, const char* const path,
                       const bool force)
{
    char why[SAVE_WHY_ROOM];
    if (!outfile_save(path, file->bytes, file->size, force, why)) {
        return complain(why);
    }
    print_strokes(song, path);
    putchar('\n');
    return true;
}

static bool write_wav(const Reel* const song, const char* const path, const bool force,
                      WavForm form, double* const length)
{
    char soundfont[SOUNDFONT_ROOM];
    char why[WAV_WHY_ROOM];
    WavReport report;
    if (!soundfont_find(form.soundfont, soundfont)) {
        return false;
    }
    form.soundfont = soundfont;
    if (!wav_save(song, path, force, &form, &report, why)) {
        return complain(why);
    }
    *length = report.seconds;
    print_strokes(song, path);
    printf("\n  %.1f s, %d Hz, %d bits, peak %.1f dB below full scale", report.seconds, form.rate,
           form.bits, -report.peak);
    if (report.lowered > 0.0) {
        printf(" (all %.1f dB softer, so that it fits)", report.lowered);
    }
    printf(", by %s\n", soundfont);
    return true;
}

bool songfile_write(Reel* const song, const char* const path, const bool force,
                    const WavForm* const form, double* const seconds)
{
    Bytes file = {.bytes = NULL};
    bool good = reel_end(song, &file);
    double length = song->seconds;
    if (!good) {
        complain("there is no memory for the file");
    } else if (songfile_kind(path) == SONGFILE_WAV) {
        good = write_wav(song, path, force, *form, &length);
    } else {
        good = write_midi(song, &file, path, force);
    }
    bytes_free(&file);
    if (seconds) {
        *seconds = length;
    }
    return good;
}
