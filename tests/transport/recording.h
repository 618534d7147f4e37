// SPDX-License-Identifier: ISC
/* recording.h - reads a recorded host: blocks, and the positions that came in
   them.  The format is told in recorded/README.md. */
#pragma once

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef enum {
    FRAME,
    SPEED,
    BAR,
    BAR_BEAT,
    BEAT,
    BEAT_UNIT,
    BEATS_PER_BAR,
    BEATS_PER_MINUTE,
    FRAMES_PER_SECOND,
    SCALE, /* Ardour's own, of no meaning to others */
    FIELD_COUNT
} Field;

enum { NAME_ROOM = 96, LINE_ROOM = 512 };

/* One position as a host wrote it.  A double holds every number seen. */
typedef struct {
    uint32_t count;
    Field fields[FIELD_COUNT];
    char types[FIELD_COUNT]; /* I, L, F or D */
    double values[FIELD_COUNT];
} Told;

/* Something that happens at a frame since the recording began. */
typedef enum { TOLD_POSITION, TOLD_GET, TOLD_RESET } MomentKind;

typedef struct {
    int64_t at;
    MomentKind kind;
    Told told; /* of a position */
} Moment;

typedef struct {
    char name[NAME_ROOM];
    double rate;
    int64_t frames; /* all blocks together */
    uint32_t* blocks;
    size_t block_count, block_room;
    Moment* moments;
    size_t moment_count, moment_room;
    Told last; /* while reading: what "=" and "+" go on from */
    int64_t last_at;
} Recording;

static inline const char* field_name(const Field field)
{
    static const char* const names[FIELD_COUNT] = {
        "frame",       "speed",          "bar",
        "barBeat",     "beat",           "beatUnit",
        "beatsPerBar", "beatsPerMinute", "framesPerSecond",
        "ardour:scale"};
    return names[field];
}

/* The value of a field, or `absent`. */
static inline double told_value(const Told* const told, const Field field, const double absent)
{
    for (uint32_t i = 0; i < told->count; ++i) {
        if (told->fields[i] == field) {
            return told->values[i];
        }
    }
    return absent;
}

static inline bool grow(void** const items, const size_t count, size_t* const room,
                        const size_t size)
{
    if (count < *room) {
        return true;
    }
    void* const more = realloc(*items, (*room * 2 + 64) * size);
    if (!more) {
        return false;
    }
    *items = more;
    *room = *room * 2 + 64;
    return true;
}

static inline bool add_block(Recording* const recording, const uint32_t frames)
{
    void* blocks = recording->blocks;
    const bool room =
        grow(&blocks, recording->block_count, &recording->block_room, sizeof(uint32_t));
    recording->blocks = (uint32_t*)blocks;
    if (room) {
        recording->blocks[recording->block_count++] = frames;
        recording->frames += frames;
    }
    return room;
}

static inline bool add_moment(Recording* const recording, const MomentKind kind)
{
    void* moments = recording->moments;
    const bool room =
        grow(&moments, recording->moment_count, &recording->moment_room, sizeof(Moment));
    recording->moments = (Moment*)moments;
    if (room) {
        recording->moments[recording->moment_count++] =
            (Moment){recording->frames, kind, recording->last};
    }
    return room;
}

/* "fields frame:Long speed:Float": the type's first letter tells it. */
static inline bool read_fields(Recording* const recording, char* text)
{
    Told* const told = &recording->last;
    told->count = 0;
    for (char* word = strtok(text, " \n"); word; word = strtok(NULL, " \n")) {
        char* const type = strrchr(word, ':');
        int field = 0;
        while (field < FIELD_COUNT &&
               strncmp(word, field_name((Field)field), (size_t)(type - word)) != 0) {
            ++field;
        }
        if (field == FIELD_COUNT || told->count == FIELD_COUNT) {
            return false;
        }
        told->fields[told->count] = (Field)field;
        told->values[told->count] = 0.0;
        told->types[told->count++] = type[1];
    }
    return told->count > 0;
}

static inline void read_values(Recording* const recording, char* text)
{
    Told* const told = &recording->last;
    uint32_t i = 0;
    for (char* word = strtok(text, " \n"); word && i < told->count; word = strtok(NULL, " \n")) {
        if (*word == '+' && !word[1]) {
            told->values[i] += (double)(recording->frames - recording->last_at);
        } else if (*word != '=') {
            told->values[i] = strtod(word, NULL);
        }
        ++i;
    }
    recording->last_at = recording->frames;
}

/* "256 x3 : + 1" */
static inline bool read_run(Recording* const recording, char* const line)
{
    char* const values = strchr(line, ':');
    char* after = NULL;
    const uint32_t frames = (uint32_t)strtoul(line, &after, 10);
    const long times = after[0] == ' ' && after[1] == 'x' ? strtol(after + 2, NULL, 10) : 1;
    bool good = frames > 0 && times > 0;
    for (long i = 0; good && i < times; ++i) {
        char copy[LINE_ROOM];
        if (values) {
            snprintf(copy, sizeof copy, "%s", values + 1);
            read_values(recording, copy);
            good = add_moment(recording, TOLD_POSITION);
        }
        good = good && add_block(recording, frames);
    }
    return good;
}

static inline bool read_line(Recording* const recording, char* const line)
{
    if (*line == '#' || *line == '\n') {
        return true;
    }
    if (!strncmp(line, "rate ", 5)) {
        recording->rate = strtod(line + 5, NULL);
        return recording->rate > 0.0;
    }
    if (!strncmp(line, "fields ", 7)) {
        /* What "+" goes on from outlives the change of fields. */
        const double frame = told_value(&recording->last, FRAME, 0.0);
        const bool good = read_fields(recording, line + 7);
        for (uint32_t i = 0; i < recording->last.count; ++i) {
            recording->last.values[i] = recording->last.fields[i] == FRAME ? frame : 0.0;
        }
        return good;
    }
    if (!strncmp(line, "get", 3)) {
        return add_moment(recording, TOLD_GET);
    }
    if (!strncmp(line, "reset", 5)) {
        return add_moment(recording, TOLD_RESET);
    }
    return read_run(recording, line);
}

static inline void recording_free(Recording* const recording)
{
    free(recording->blocks);
    free(recording->moments);
    *recording = (Recording){.rate = 0.0};
}

/* Reads recorded/NAME.txt; false, with a line printed, if it can't be. */
static inline bool recording_read(const char* const folder, const char* const name,
                                  Recording* const recording)
{
    char text[LINE_ROOM];
    snprintf(text, sizeof text, "%s/%s.txt", folder, name);
    *recording = (Recording){.rate = 0.0};
    snprintf(recording->name, sizeof recording->name, "%s", name);
    FILE* const file = fopen(text, "r");
    bool good = file != NULL;
    while (good && fgets(text, sizeof text, file)) {
        good = read_line(recording, text);
    }
    if (!good || recording->rate <= 0.0 || !recording->block_count) {
        printf("# %s: can't be read as a recording: %s\n", name, file ? text : "no such file");
        good = false;
    }
    if (file) {
        fclose(file);
    }
    return good;
}
