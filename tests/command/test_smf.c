// SPDX-License-Identifier: ISC
/* test_smf.c - the writer of MIDI files against the tables and examples of
   Standard MIDI Files 1.0 in data/smf-golden.tsv. */
#include "../../ui/file/smf.h"
#include "../data/tsv.h"
#include "../help/check.h"

enum { BYTES_MAX = 512, HEX_ROOM = 2 * BYTES_MAX + 1 };

static const char* hex(const uint8_t* const bytes, const size_t size)
{
    static char text[HEX_ROOM];
    for (size_t i = 0; i < size && i < BYTES_MAX; ++i) {
        snprintf(&text[2 * i], 3, "%02X", bytes[i]);
    }
    text[2 * (size < BYTES_MAX ? size : BYTES_MAX)] = '\0';
    return text;
}

/* The row's hex, in storage of its own; the program ends if it is gone. */
static const char* golden(const char* const name)
{
    static char text[HEX_ROOM];
    bool found = false;
    Tsv table = tsv_open("smf-golden.tsv");
    while (tsv_next(&table)) {
        if (!strcmp(table.fields[0], name)) {
            snprintf(text, sizeof text, "%s", table.fields[1]);
            found = true;
        }
    }
    if (!found) {
        printf("# smf-golden.tsv has no %s\n", name);
        exit(2);
    }
    return text;
}

static void quantities_are_those_of_the_standards_table(void)
{
    int rows = 0;
    Tsv table = tsv_open("smf-golden.tsv");
    while (tsv_next(&table)) {
        if (!strncmp(table.fields[0], "vlq_", 4)) {
            uint8_t bytes[4];
            const uint64_t value = strtoull(table.fields[0] + 4, NULL, 16);
            check_case("%s", table.fields[0]);
            CHECK_TEXT(hex(bytes, smf_quantity(value, bytes)), table.fields[1]);
            ++rows;
        }
    }
    check_case("rows");
    CHECK_INT(rows, 12);
}

/* SMF 1.0: the largest is 0FFFFFFF, so that it fits in four bytes. */
static void larger_quantities_are_cut_to_the_largest(void)
{
    uint8_t bytes[4];
    CHECK_TEXT(hex(bytes, smf_quantity(0x10000000, bytes)), "FFFFFF7F");
    CHECK_TEXT(hex(bytes, smf_quantity(UINT64_MAX, bytes)), "FFFFFF7F");
}

/* The event after a delta of 0, which is one byte. */
static const char* event_hex(SmfTrack* const track)
{
    CHECK(track->bytes.size > 1 && track->bytes.bytes[0] == 0);
    const char* const text = hex(track->bytes.bytes + 1, track->bytes.size - 1);
    bytes_free(&track->bytes);
    return text;
}

static void a_meter_is_written_as_in_the_standard(void)
{
    SmfTrack six = {.tick = 0}, four = {.tick = 0};
    smf_meter(&six, 0, 6, 8);
    CHECK_TEXT(event_hex(&six), golden("meta_time_signature_6_8"));
    smf_meter(&four, 0, 4, 4);
    CHECK_TEXT(event_hex(&four), golden("meta_time_signature_4_4"));
}

/* By the rule for the last two bytes: clocks in a click, 24 a quarter, and
   thirty-seconds in a quarter. */
static void a_meter_of_sevens_clicks_every_eighth(void)
{
    SmfTrack seven = {.tick = 0};
    smf_meter(&seven, 0, 7, 8);
    CHECK_TEXT(event_hex(&seven), "FF580407030C08");
}

static void a_tempo_is_written_as_in_the_standard(void)
{
    SmfTrack track = {.tick = 0};
    smf_tempo(&track, 0, 120.0);
    CHECK_TEXT(event_hex(&track), golden("meta_tempo_120"));
}

static void the_end_is_written_as_in_the_standard(void)
{
    SmfTrack track = {.tick = 0};
    smf_end(&track, 0);
    CHECK_TEXT(event_hex(&track), golden("meta_end_of_track"));
}

/* The first track of the second example: the same events by our writer. */
static void the_tempo_track_of_the_example_comes_out_byte_for_byte(void)
{
    static const char chunk[] = "4D54726B00000014"; /* MTrk, 20 bytes */
    SmfTrack track = {.tick = 0};
    smf_meter(&track, 0, 4, 4);
    smf_tempo(&track, 0, 120.0);
    smf_end(&track, 384);
    const char* const whole = golden("format1_file");
    const char* const start = strstr(whole, chunk);
    char want[HEX_ROOM];
    snprintf(want, sizeof want, "%.*s", 40, start ? start + sizeof chunk - 1 : "not found");
    CHECK_TEXT(hex(track.bytes.bytes, track.bytes.size), want);
    bytes_free(&track.bytes);
}

static void messages_have_a_status_each_and_times_between(void)
{
    SmfTrack track = {.tick = 0};
    smf_message(&track, 0, (const uint8_t[]){0x99, 36, 100});
    smf_message(&track, 0x80, (const uint8_t[]){0x89, 36, 64});
    smf_message(&track, 0x80, (const uint8_t[]){0x99, 38, 1});
    CHECK_TEXT(hex(track.bytes.bytes, track.bytes.size), "0099246481008924400099"
                                                         "2601");
    bytes_free(&track.bytes);
}

static void a_text_has_its_kind_and_length(void)
{
    SmfTrack track = {.tick = 0};
    smf_text(&track, 0, SMF_MARKER, "Verse");
    CHECK_TEXT(event_hex(&track), "FF06055665727365"); /* SMF 1.0: FF 06 len text */
    smf_text(&track, 0, SMF_TRACK_NAME, "");
    CHECK_TEXT(event_hex(&track), "FF0300"); /* FF 03 len text */
}

/* For k notes of an n-tuplet: how far the file's tick is from the true place, in
   ticks times n; an integer, so nothing is rounded here. */
static int64_t off_by(const int64_t k, const int64_t n)
{
    const int64_t twice = 2 * k * SMF_DIVISION + n;
    const int64_t tick = twice / (2 * n);
    const int64_t off = tick * n - k * SMF_DIVISION;
    return off < 0 ? -off : off;
}

static void every_tuplet_up_to_16_is_exact_or_within_half_a_tick(void)
{
    for (int64_t n = 1; n <= 16; ++n) {
        for (int64_t k = 0; k < n; ++k) {
            check_case("%d of %d", (int)k, (int)n);
            CHECK(2 * off_by(k, n) <= n);
            CHECK(n == 11 || n == 13 || off_by(k, n) == 0);
        }
    }
}

/* SMF 1.0: bit 15 of the division is clear for ticks in a quarter. */
static void the_division_fits_in_the_header(void)
{
    CHECK(SMF_DIVISION > 0 && SMF_DIVISION <= 32767);
}

static uint32_t big_endian(const uint8_t* const bytes, const int size)
{
    uint32_t value = 0;
    for (int i = 0; i < size; ++i) {
        value = value << 8 | bytes[i];
    }
    return value;
}

/* What stands in a file's header; tracks counted by walking the chunks, -1 if
   their lengths don't lead to the end of the file. */
typedef struct {
    uint32_t length, format, tracks, division;
    int walked;
} Structure;

static Structure structure(const uint8_t* const bytes, const size_t size)
{
    Structure found = {.walked = -1};
    if (size < 14 || memcmp(bytes, "MThd", 4) != 0) {
        return found;
    }
    found.length = big_endian(bytes + 4, 4);
    found.format = big_endian(bytes + 8, 2);
    found.tracks = big_endian(bytes + 10, 2);
    found.division = big_endian(bytes + 12, 2);
    size_t at = 14;
    int walked = 0;
    while (at + 8 <= size && !memcmp(bytes + at, "MTrk", 4)) {
        at += 8 + (size_t)big_endian(bytes + at + 4, 4);
        ++walked;
    }
    found.walked = at == size ? walked : -1;
    return found;
}

static size_t from_hex(const char* const text, uint8_t bytes[BYTES_MAX])
{
    size_t size = 0;
    for (; size < BYTES_MAX && text[2 * size] && text[2 * size + 1]; ++size) {
        const char digits[3] = {text[2 * size], text[2 * size + 1], '\0'};
        bytes[size] = (uint8_t)strtoul(digits, NULL, 16);
    }
    return size;
}

/* The walker above finds in the standard's example what the standard says of it. */
static void the_example_has_four_tracks_of_format_1(void)
{
    uint8_t bytes[BYTES_MAX];
    const Structure found = structure(bytes, from_hex(golden("format1_file"), bytes));
    CHECK_INT(found.length, 6);
    CHECK_INT(found.format, 1);
    CHECK_INT(found.tracks, 4);
    CHECK_INT(found.division, 96);
    CHECK_INT(found.walked, 4);
}

static void a_file_has_a_header_and_chunks_that_lead_to_its_end(void)
{
    SmfTrack tracks[3] = {{.tick = 0}};
    Bytes file = {.bytes = NULL};
    smf_meter(&tracks[0], 0, 4, 4);
    for (uint64_t note = 0; note < 1000; ++note) {
        smf_message(&tracks[1], note * 7777, (const uint8_t[]){0x99, 36, 100});
    }
    for (int i = 0; i < 3; ++i) {
        smf_end(&tracks[i], 8000000);
    }
    CHECK(smf_file(tracks, 3, &file));
    const Structure found = structure(file.bytes, file.size);
    CHECK_INT(found.length, 6);
    CHECK_INT(found.format, 1);
    CHECK_INT(found.tracks, 3);
    CHECK_INT(found.division, SMF_DIVISION);
    CHECK_INT(found.walked, 3);
    for (int i = 0; i < 3; ++i) {
        bytes_free(&tracks[i].bytes);
    }
    bytes_free(&file);
}

int main(void)
{
    RUN(quantities_are_those_of_the_standards_table);
    RUN(larger_quantities_are_cut_to_the_largest);
    RUN(a_meter_is_written_as_in_the_standard);
    RUN(a_meter_of_sevens_clicks_every_eighth);
    RUN(a_tempo_is_written_as_in_the_standard);
    RUN(the_end_is_written_as_in_the_standard);
    RUN(the_tempo_track_of_the_example_comes_out_byte_for_byte);
    RUN(messages_have_a_status_each_and_times_between);
    RUN(a_text_has_its_kind_and_length);
    RUN(every_tuplet_up_to_16_is_exact_or_within_half_a_tick);
    RUN(the_division_fits_in_the_header);
    RUN(the_example_has_four_tracks_of_format_1);
    RUN(a_file_has_a_header_and_chunks_that_lead_to_its_end);
    return tests_end();
}
