// SPDX-License-Identifier: ISC
/* The reader of MIDI files against the two worked example files and the table of lengths of
   Standard MIDI Files 1.0 (data/smf-golden.tsv), against what our writer writes (which midicsv
   and mido read elsewhere), and against files that are broken in every place. */
#include "../../ui/file/midifile.h"
#include "../../ui/file/smf.h"
#include "../data/tsv.h"
#include "../help/check.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ROOM = 1024 };

typedef struct {
    uint8_t bytes[ROOM];
    size_t size;
} Piece;

static void add_hex(Piece* const piece, const char* hex)
{
    for (; hex[0] && hex[1] && piece->size < ROOM; hex += 2) {
        const char digits[] = {hex[0], hex[1], '\0'};
        piece->bytes[piece->size++] = (uint8_t)strtoul(digits, NULL, 16);
    }
}

static Piece of_hex(const char* const hex)
{
    Piece piece = {.size = 0};
    add_hex(&piece, hex);
    return piece;
}

static Piece golden(const char* const name)
{
    Piece piece = {.size = 0};
    Tsv table = tsv_open("smf-golden.tsv");
    while (tsv_next(&table)) {
        if (!strcmp(table.fields[0], name)) {
            piece = of_hex(table.fields[1]);
        }
    }
    return piece;
}

/* One track of these events after a header of format 0 with 96 ticks a quarter. */
static Piece track_of(const char* const events)
{
    Piece piece = of_hex("4D546864000000060000000100604D54726B");
    char length[9];
    snprintf(length, sizeof length, "%08X", (unsigned)(strlen(events) / 2));
    add_hex(&piece, length);
    add_hex(&piece, events);
    return piece;
}

static MidiFile* read_piece(const Piece* const piece, char why[MIDIFILE_WHY_ROOM])
{
    why[0] = '\0';
    MidiFile* const file = midifile_read(piece->bytes, piece->size, why);
    if (!file) {
        printf("# %s\n", why);
    }
    return file;
}

/* The standard's example, as it tells it in words: C and middle C at once, forte; G at 96 and
   E at 192 ticks, in 4/4 at 120; all end at 384. */
static void look_at_example(const char* const name, const int channel_of_g)
{
    char why[MIDIFILE_WHY_ROOM];
    const Piece piece = golden(name);
    check_case("%s", name);
    MidiFile* const file = read_piece(&piece, why);
    if (!CHECK(file) || !CHECK_INT(file->note_count, 4)) {
        midifile_free(file);
        return;
    }
    static const int keys[] = {48, 60, 67, 76};
    static const int ticks[] = {0, 0, 96, 192};
    for (int i = 0; i < 4; ++i) {
        CHECK_INT(file->notes[i].key, keys[i]);
        CHECK_INT(file->notes[i].tick, ticks[i]);
    }
    CHECK_INT(file->notes[2].channel, channel_of_g);
    CHECK_INT(file->quarter_ticks, 96);
    CHECK_INT(file->meters[0].beats, 4);
    CHECK_INT(file->meters[0].beat_unit, 4);
    CHECK(file->tempi[0].tempo > 119.99 && file->tempi[0].tempo < 120.01);
    CHECK_INT(file->end, 384);
    CHECK(midifile_seconds(file, 384) > 1.999 && midifile_seconds(file, 384) < 2.001);
    midifile_free(file);
}

static void the_standards_examples_are_read(void)
{
    look_at_example("format0_file", 1);
    look_at_example("format1_file", 1);
}

/* Each of the table's lengths before a note. */
static void lengths_are_those_of_the_standards_table(void)
{
    Tsv table = tsv_open("smf-golden.tsv");
    while (tsv_next(&table)) {
        char why[MIDIFILE_WHY_ROOM];
        char events[64];
        if (!strncmp(table.fields[0], "vlq_", 4)) {
            snprintf(events, sizeof events, "%s99264000FF2F00", table.fields[1]);
            const Piece piece = track_of(events);
            check_case("%s", table.fields[0]);
            MidiFile* const file = read_piece(&piece, why);
            if (CHECK(file)) {
                CHECK_INT(file->notes[0].tick, strtol(table.fields[0] + 4, NULL, 16));
            }
            midifile_free(file);
        }
    }
}

static void what_our_writer_writes_is_read(void)
{
    char why[MIDIFILE_WHY_ROOM];
    Bytes bytes = {.bytes = NULL};
    SmfTrack track = {.tick = 0};
    smf_tempo(&track, 0, 150.0);
    smf_meter(&track, 0, 7, 8);
    for (uint64_t i = 0; i < 100; ++i) {
        smf_message(&track, i * 1260, (const uint8_t[]){0x99, (uint8_t)(36 + i % 3), 100});
        smf_message(&track, i * 1260 + 600, (const uint8_t[]){0x89, (uint8_t)(36 + i % 3), 64});
    }
    smf_end(&track, 126000);
    CHECK(smf_file(&track, 1, &bytes));
    MidiFile* const file = midifile_read(bytes.bytes, bytes.size, why);
    if (CHECK(file) && CHECK_INT(file->note_count, 100)) {
        CHECK_INT(file->notes[99].tick, 99 * 1260);
        CHECK_INT(file->notes[98].key, 38);
        CHECK_INT(file->meters[0].beats, 7);
        CHECK_INT(file->meters[0].beat_unit, 8);
        /* a quarter is 10,080 ticks and 0.4 s */
        CHECK(midifile_seconds(file, 126000) > 4.999 && midifile_seconds(file, 126000) < 5.001);
    }
    midifile_free(file);
    bytes_free(&bytes);
    bytes_free(&track.bytes);
}

typedef struct {
    const char* what;
    const char* events;
    const char* reason; /* NULL: it is read */
    int notes;
} Odd;

/* By the standard: running status holds over delta times and ends with meta and exclusive
   messages; what isn't known is passed over by its length; velocity 0 ends a note. */
static const Odd odds[] = {
    {"running status", "009926400025400A2740", NULL, 3},
    {"a note of velocity 0", "0099264000260000FF2F00", NULL, 1},
    {"an unknown meta event", "00FF7F03AABBCC0099264000FF2F00", NULL, 1},
    {"an exclusive message", "00F0037E7FF70099264000FF2F00", NULL, 1},
    {"what follows the end", "00FF2F000099264000", NULL, 0},
    {"running status after a meta event", "0099264000FF010000254000", "data without an event", 0},
    {"data first", "00264000", "data without an event", 0},
    {"a status within data", "009926900000", "an event without its data", 0},
    {"a clock", "00F800FF2F00", "a message that isn't for files", 0},
    {"a tempo of 0", "00FF510300000000FF2F00", "a tempo of no time at all", 0},
    {"a meter of 0 beats", "00FF58040002180800FF2F00", "a meter that is none", 0},
    {"a length of five bytes", "8080808000FF2F00", "a length of more than four bytes", 0},
    {"a meta event that is too long", "00FF7F7F00", "longer than the rest", 0},
};

static void odd_events_are_read_or_refused_by_the_standard(void)
{
    for (size_t i = 0; i < sizeof odds / sizeof *odds; ++i) {
        char why[MIDIFILE_WHY_ROOM] = "";
        const Piece piece = track_of(odds[i].events);
        MidiFile* const file = midifile_read(piece.bytes, piece.size, why);
        check_case("%s", odds[i].what);
        CHECK_INT(file != NULL, odds[i].reason == NULL);
        if (file) {
            CHECK_INT(file->note_count, odds[i].notes);
        } else if (odds[i].reason && !strstr(why, odds[i].reason)) {
            CHECK_TEXT(why, odds[i].reason);
        }
        midifile_free(file);
    }
}

/* "MThd longer than 6" and unknown chunks are to be honoured; tempi of two tracks, and what is
   at once: the later in the file. */
static void longer_headers_and_other_chunks_are_passed_over(void)
{
    char why[MIDIFILE_WHY_ROOM];
    const Piece piece = of_hex("4D546864000000080001000200600000"
                               "584659490000000212344D54726B0000000800992640"
                               "00FF2F00"
                               "4D54726B0000001200FF5103"
                               "07A12000FF510303D09000FF2F00");
    MidiFile* const file = read_piece(&piece, why);
    if (CHECK(file) && CHECK_INT(file->tempo_count, 2)) {
        CHECK_INT(file->note_count, 1);
        CHECK(file->tempi[1].tempo > 239.9 && file->tempi[1].tempo < 240.1);
        CHECK(midifile_seconds(file, 96) > 0.249 && midifile_seconds(file, 96) < 0.251);
    }
    midifile_free(file);
}

/* 30 frames of 80 ticks a second: E250 (the standard's example). */
static void ticks_of_a_second_are_read(void)
{
    char why[MIDIFILE_WHY_ROOM];
    const Piece piece = of_hex("4D5468640000000600000001E250"
                               "4D54726B0000000A92E0"
                               "0099264000FF2F00");
    MidiFile* const file = read_piece(&piece, why);
    if (CHECK(file)) {
        CHECK_INT(file->quarter_ticks, 0);
        CHECK(midifile_seconds(file, 2400) > 0.9999 && midifile_seconds(file, 2400) < 1.0001);
    }
    midifile_free(file);
}

static void every_beginning_of_a_file_is_refused_or_read(void)
{
    const Piece whole = golden("format1_file");
    int read = 0;
    for (size_t size = 0; size < whole.size; ++size) {
        char why[MIDIFILE_WHY_ROOM] = "";
        uint8_t* const exact = malloc(size ? size : 1); /* so that a byte too far is found */
        memcpy(exact, whole.bytes, size);
        MidiFile* const file = midifile_read(exact, size, why);
        read += file != NULL;
        CHECK((file != NULL) != (why[0] != '\0'));
        midifile_free(file);
        free(exact);
    }
    CHECK_INT(read, 4); /* after the header, and after each track but the last */
}

int main(void)
{
    RUN(the_standards_examples_are_read);
    RUN(lengths_are_those_of_the_standards_table);
    RUN(what_our_writer_writes_is_read);
    RUN(odd_events_are_read_or_refused_by_the_standard);
    RUN(longer_headers_and_other_chunks_are_passed_over);
    RUN(ticks_of_a_second_are_read);
    RUN(every_beginning_of_a_file_is_refused_or_read);
    return tests_end();
}
