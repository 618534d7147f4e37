// SPDX-License-Identifier: ISC
/* midi_file.h - the notes that a Standard MIDI File begins, by the file format's own words
   (Standard MIDI Files 1.0, The International MIDI Association, 1988): chunks, variable-length
   quantities, running status. */
#pragma once

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

enum { FILE_NOTES_MAX = 4096 };

typedef struct {
    int division; /* ticks in a quarter note */
    int count;
    struct {
        uint32_t tick;
        uint8_t key;
    } notes[FILE_NOTES_MAX];
} MidiFile;

static inline uint32_t midi_big(const uint8_t* const bytes, const int count)
{
    uint32_t value = 0;
    for (int i = 0; i < count; ++i) {
        value = value << 8 | bytes[i];
    }
    return value;
}

static inline uint32_t midi_variable(const uint8_t** const at, const uint8_t* const end)
{
    uint32_t value = 0;
    while (*at < end) {
        const uint8_t byte = *(*at)++;
        value = value << 7 | (byte & 0x7FU);
        if (!(byte & 0x80U)) {
            break;
        }
    }
    return value;
}

static inline void midi_track(MidiFile* const file, const uint8_t* at, const uint8_t* const end)
{
    uint32_t tick = 0;
    uint8_t status = 0;
    while (at < end) {
        tick += midi_variable(&at, end);
        if (at < end && (*at & 0x80U)) {
            status = *at++;
        }
        if (status == 0xFF || status == 0xF0 || status == 0xF7) {
            at += status == 0xFF;
            const uint32_t length = midi_variable(&at, end);
            at += length;
            continue;
        }
        const int bytes = (status & 0xE0) == 0xC0 ? 1 : 2;
        if ((status & 0xF0) == 0x90 && at + 1 < end && at[1] && file->count < FILE_NOTES_MAX) {
            file->notes[file->count].tick = tick;
            file->notes[file->count++].key = at[0];
        }
        at += bytes;
    }
}

/* False if there is no such file. */
static inline bool midi_file_read(MidiFile* const file, const char* const path)
{
    static uint8_t bytes[1 << 18];
    FILE* const stream = fopen(path, "rb");
    const size_t size = stream ? fread(bytes, 1, sizeof bytes, stream) : 0;
    if (stream) {
        fclose(stream);
    }
    memset(file, 0, sizeof *file);
    for (size_t at = 0; at + 8 <= size;) {
        const uint32_t length = midi_big(bytes + at + 4, 4);
        if (!memcmp(bytes + at, "MThd", 4)) {
            file->division = (int)midi_big(bytes + at + 12, 2);
        } else if (!memcmp(bytes + at, "MTrk", 4) && at + 8 + length <= size) {
            midi_track(file, bytes + at + 8, bytes + at + 8 + length);
        }
        at += 8 + length;
    }
    return size > 0;
}

/* Which steps of a quarter note's parts begin a note of the key. */
static inline const char* midi_file_steps(const MidiFile* const file, const uint8_t key,
                                          const int grid, const int first, const int count)
{
    static char steps[256];
    memset(steps, '.', sizeof steps);
    steps[count] = '\0';
    for (int i = 0; i < file->count; ++i) {
        const int step = (int)(file->notes[i].tick * (uint32_t)grid) / file->division;
        if (file->notes[i].key == key && step >= first && step < first + count) {
            steps[step - first] = 'o';
        }
    }
    return steps;
}
