// SPDX-License-Identifier: ISC
/* fuzz_midi.c - whatever bytes are called a MIDI file: what is read is in order and in range, and
   time goes on; what isn't has a reason. */
#include "../../ui/file/midifile.h"
#include "fuzz.h"

#include <math.h>

int LLVMFuzzerInitialize(int* const count, char*** const arguments)
{
    (void)count;
    (void)arguments;
    fuzz_alone();
    return 0;
}

static void check_notes(const MidiFile* const file)
{
    FUZZ_WANT(file->note_count <= MIDIFILE_NOTES_MAX);
    for (size_t i = 0; i < file->note_count; ++i) {
        const FileNote note = file->notes[i];
        FUZZ_WANT(note.tick >= 0 && note.tick <= file->end);
        FUZZ_WANT(!i || note.tick >= file->notes[i - 1].tick);
        FUZZ_WANT(note.key < 128 && note.velocity > 0 && note.velocity < 128 && note.channel < 16);
    }
}

static void check_changes(const MidiFile* const file)
{
    double last = 0.0;
    for (size_t i = 0; i < file->tempo_count; ++i) {
        const double seconds = midifile_seconds(file, file->tempi[i].tick);
        FUZZ_WANT(file->tempi[i].tempo > 0.0 && isfinite(seconds) && seconds >= last);
        FUZZ_WANT(!i || file->tempi[i].tick >= file->tempi[i - 1].tick);
        last = seconds;
    }
    for (size_t i = 0; i < file->meter_count; ++i) {
        const int unit = file->meters[i].beat_unit;
        FUZZ_WANT(file->meters[i].beats > 0 && file->meters[i].beats < 256);
        FUZZ_WANT(unit > 0 && unit <= 128 && !(unit & (unit - 1)));
    }
}

int LLVMFuzzerTestOneInput(const uint8_t* const bytes, const size_t size)
{
    char why[MIDIFILE_WHY_ROOM] = "";
    MidiFile* const file = midifile_read(bytes, size, why);
    FUZZ_WANT(file || *why);
    if (file) {
        FUZZ_WANT(file->quarter_ticks > 0 || file->second_ticks > 0.0);
        check_notes(file);
        check_changes(file);
    }
    midifile_free(file);
    return 0;
}
