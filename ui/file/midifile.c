// SPDX-License-Identifier: ISC
#include "midifile.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A stretch of the file that is read from its begin on. */
typedef struct {
    const uint8_t* bytes; /* of the whole file */
    size_t at;
    size_t end;
    const char* wrong; /* the first thing that is; NULL: nothing */
} MidiCursor;

static void fail(MidiCursor* const cursor, const char* const wrong)
{
    cursor->wrong = cursor->wrong ? cursor->wrong : wrong;
}

static uint8_t take_byte(MidiCursor* const cursor)
{
    if (cursor->at >= cursor->end) {
        fail(cursor, "it ends within an event");
        return 0;
    }
    return cursor->bytes[cursor->at++];
}

static uint32_t take_number(MidiCursor* const cursor, const int bytes)
{
    uint32_t number = 0;
    for (int i = 0; i < bytes; ++i) {
        number = number << 8 | take_byte(cursor);
    }
    return number;
}

/* Seven bits a byte, four bytes at most. */
static uint32_t take_quantity(MidiCursor* const cursor)
{
    uint32_t number = 0;
    for (int i = 0; i < 4; ++i) {
        const uint8_t byte = take_byte(cursor);
        number = number << 7 | (byte & 0x7FU);
        if (!(byte & 0x80U)) {
            return number;
        }
    }
    fail(cursor, "a length of more than four bytes");
    return 0;
}

static void skip(MidiCursor* const cursor, const uint32_t bytes)
{
    if (bytes > cursor->end - cursor->at) {
        fail(cursor, "what is said to follow is longer than the rest");
    } else {
        cursor->at += bytes;
    }
}

/* ---- What is kept */

/* Room for one more of `size` bytes; NULL: full, or no memory. */
static void* grown(void** const list, size_t* const count, const size_t most, const size_t size)
{
    if (*count >= most) {
        return NULL;
    }
    if (!(*count & (*count - 1))) { /* full at every power of two */
        void* const larger = realloc(*list, (*count ? *count * 2 : 1) * size);
        if (!larger) {
            return NULL;
        }
        *list = larger;
    }
    return (char*)*list + size * (*count)++;
}

static void keep_note(MidiFile* const file, MidiCursor* const cursor, const FileNote note)
{
    void* list = file->notes;
    FileNote* const place = grown(&list, &file->note_count, MIDIFILE_NOTES_MAX, sizeof *place);
    file->notes = list;
    if (place) {
        *place = note;
    } else {
        fail(cursor, "more notes than can be read");
    }
}

static void keep_tempo(MidiFile* const file, MidiCursor* const cursor, const int64_t tick,
                       const uint32_t microseconds)
{
    void* list = file->tempi;
    FileTempo* const place = grown(&list, &file->tempo_count, MIDIFILE_CHANGES_MAX, sizeof *place);
    file->tempi = list;
    if (place && microseconds) {
        *place = (FileTempo){tick, (uint32_t)file->tempo_count, 6e7 / microseconds};
    } else {
        fail(cursor, place ? "a tempo of no time at all" : "more tempi than can be read");
    }
}

static void keep_meter(MidiFile* const file, MidiCursor* const cursor, const int64_t tick,
                       const uint8_t beats, const uint8_t power)
{
    void* list = file->meters;
    FileMeter* const place = grown(&list, &file->meter_count, MIDIFILE_CHANGES_MAX, sizeof *place);
    file->meters = list;
    if (place && beats && power < 8) {
        *place = (FileMeter){tick, (uint32_t)file->meter_count, beats, 1 << power};
    } else {
        fail(cursor, place ? "a meter that is none" : "more meters than can be read");
    }
}

/* ---- Events */

enum { META_END = 0x2F, META_TEMPO = 0x51, META_METER = 0x58 };

/* True at the end of the track. */
static bool take_meta(MidiFile* const file, MidiCursor* const cursor, const int64_t tick)
{
    const uint8_t kind = take_byte(cursor);
    const uint32_t length = take_quantity(cursor);
    const size_t at = cursor->at;
    skip(cursor, length);
    if (cursor->wrong) {
        return true;
    }
    const uint8_t* const data = cursor->bytes + at;
    if (kind == META_TEMPO && length >= 3) {
        keep_tempo(file, cursor, tick, (uint32_t)data[0] << 16 | (uint32_t)data[1] << 8 | data[2]);
    } else if (kind == META_METER && length >= 2) {
        keep_meter(file, cursor, tick, data[0], data[1]);
    }
    return kind == META_END;
}

static uint8_t take_data(MidiCursor* const cursor)
{
    const uint8_t byte = take_byte(cursor);
    if (byte & 0x80U) {
        fail(cursor, "an event without its data");
    }
    return byte;
}

static void take_channel_event(MidiFile* const file, MidiCursor* const cursor, const int64_t tick,
                               const uint8_t status)
{
    const uint8_t kind = status >> 4;
    const uint8_t first = take_data(cursor);
    const uint8_t second = kind == 0xC || kind == 0xD ? 0 : take_data(cursor);
    if (kind == 0x9 && second && !cursor->wrong) {
        keep_note(file, cursor, (FileNote){tick, status & 0xFU, first, second});
    }
}

/* Running status: a byte without its top bit begins the data of another event like the last
   channel's; system exclusive and meta events end that. */
static void take_track(MidiFile* const file, MidiCursor* const cursor)
{
    int64_t tick = 0;
    uint8_t running = 0;
    bool ended = false;
    while (!ended && !cursor->wrong && cursor->at < cursor->end) {
        tick += take_quantity(cursor);
        const uint8_t status = take_byte(cursor);
        if (status == 0xFF) {
            running = 0;
            ended = take_meta(file, cursor, tick);
        } else if (status == 0xF0 || status == 0xF7) {
            running = 0;
            skip(cursor, take_quantity(cursor));
        } else if (status > 0xF0) {
            fail(cursor, "a message that isn't for files");
        } else if (status & 0x80U) {
            running = status;
            take_channel_event(file, cursor, tick, status);
        } else if (running) {
            --cursor->at;
            take_channel_event(file, cursor, tick, running);
        } else {
            fail(cursor, "data without an event");
        }
        file->end = !cursor->wrong && tick > file->end ? tick : file->end;
    }
}

/* ---- Chunks */

static bool take_division(MidiFile* const file, const uint32_t division)
{
    if (!(division & 0x8000U)) {
        file->quarter_ticks = (int)division;
        return division > 0;
    }
    const int frames = 256 - (int)(division >> 8);
    const bool is_known = frames == 24 || frames == 25 || frames == 29 || frames == 30;
    /* 29 is drop frame: 30000 frames in 1001 seconds. */
    file->second_ticks = (frames == 29 ? 30000.0 / 1001.0 : frames) * (double)(division & 0xFFU);
    return is_known && (division & 0xFFU);
}

static void take_header(MidiFile* const file, MidiCursor* const cursor)
{
    const uint32_t format = take_number(cursor, 2);
    take_number(cursor, 2); /* tracks: those that there are */
    if (!take_division(file, take_number(cursor, 2))) {
        fail(cursor, "its division is none");
    }
    if (format > 1) {
        fail(cursor, "it is of format 2 or another that isn't read; 0 and 1 are");
    }
}

static bool is_called(const MidiCursor* const cursor, const char* const name)
{
    return cursor->end - cursor->at >= 4 && !memcmp(cursor->bytes + cursor->at, name, 4);
}

static void take_chunks(MidiFile* const file, MidiCursor* const cursor)
{
    bool has_header = false;
    if (!is_called(cursor, "MThd")) {
        fail(cursor, "it isn't a Standard MIDI File: it doesn't begin with MThd");
    }
    while (!cursor->wrong && cursor->at < cursor->end) {
        const bool is_header = is_called(cursor, "MThd");
        const bool is_track = is_called(cursor, "MTrk");
        take_number(cursor, 4);
        const uint32_t length = take_number(cursor, 4);
        MidiCursor chunk = *cursor;
        skip(cursor, length);
        chunk.end = cursor->at;
        chunk.wrong = cursor->wrong;
        if (is_header && !has_header) {
            take_header(file, &chunk);
            has_header = true;
        } else if (is_track && !chunk.wrong) {
            take_track(file, &chunk);
        }
        if (chunk.wrong) {
            *cursor = chunk;
        }
    }
}

/* ---- In order */

static int64_t signum(const int64_t a, const int64_t b)
{
    return (a > b) - (a < b);
}

static int by_place(const void* const a, const void* const b)
{
    const FileNote* const one = a;
    const FileNote* const other = b;
    const int64_t tick = signum(one->tick, other->tick);
    const int64_t key = tick ? tick : signum(one->key, other->key);
    return (int)(key ? key : signum(one->channel, other->channel));
}

static int by_tempo_place(const void* const a, const void* const b)
{
    const FileTempo* const one = a;
    const FileTempo* const other = b;
    const int64_t tick = signum(one->tick, other->tick);
    return (int)(tick ? tick : signum(one->order, other->order));
}

static int by_meter_place(const void* const a, const void* const b)
{
    const FileMeter* const one = a;
    const FileMeter* const other = b;
    const int64_t tick = signum(one->tick, other->tick);
    return (int)(tick ? tick : signum(one->order, other->order));
}

static void sort(void* const list, const size_t count, const size_t size,
                 int (*const by)(const void*, const void*))
{
    if (count) {
        qsort(list, count, size, by);
    }
}

MidiFile* midifile_read(const void* const bytes, const size_t size, char why[MIDIFILE_WHY_ROOM])
{
    MidiFile* const file = calloc(1, sizeof *file);
    MidiCursor cursor = {.bytes = bytes, .end = size};
    if (!file) {
        snprintf(why, MIDIFILE_WHY_ROOM, "there is no memory for it");
        return NULL;
    }
    take_chunks(file, &cursor);
    if (cursor.wrong) {
        snprintf(why, MIDIFILE_WHY_ROOM, "byte %zu: %s", cursor.at, cursor.wrong);
        midifile_free(file);
        return NULL;
    }
    sort(file->notes, file->note_count, sizeof *file->notes, by_place);
    sort(file->tempi, file->tempo_count, sizeof *file->tempi, by_tempo_place);
    sort(file->meters, file->meter_count, sizeof *file->meters, by_meter_place);
    return file;
}

void midifile_free(MidiFile* const file)
{
    if (file) {
        free(file->notes);
        free(file->tempi);
        free(file->meters);
        free(file);
    }
}

double midifile_seconds(const MidiFile* const file, const int64_t tick)
{
    double seconds = 0.0;
    double tempo = 120.0;
    int64_t at = 0;
    if (!file->quarter_ticks) {
        return (double)tick / file->second_ticks;
    }
    for (size_t i = 0; i < file->tempo_count && file->tempi[i].tick < tick; ++i) {
        seconds += (double)(file->tempi[i].tick - at) / file->quarter_ticks * 60.0 / tempo;
        at = file->tempi[i].tick;
        tempo = file->tempi[i].tempo;
    }
    return seconds + (double)(tick - at) / file->quarter_ticks * 60.0 / tempo;
}
