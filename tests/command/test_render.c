// SPDX-License-Identifier: ISC
/* test_render.c - a rendered file, as midicsv reads it, against the same groove
   taken from the plugin at another sample rate: the same notes at the same places
   in the music, within what frames and ticks are rounded to. */
#include "../help/check.h"
#include "../plugin/played.h"

#include <math.h>
#include <unistd.h>

enum { NOTES_MAX = 4096, TICKS = 10080, COMMAND_ROOM = 2048 };

typedef struct {
    double tick; /* of a file, TICKS in a quarter note */
    int key;
    int velocity;
} Note;

typedef struct {
    Note notes[NOTES_MAX];
    size_t count;
} Notes;

/* What is rendered, and at which quarter notes a minute in which meter. */
typedef struct {
    const char* groove; /* id */
    int bars;
    double tempo;
    int beats;
    int beat_unit;
} Request;

static Notes of_file, of_host; /* too large for a stack */

static void add(Notes* const notes, const Note note)
{
    if (CHECK(notes->count < NOTES_MAX)) {
        notes->notes[notes->count++] = note;
    }
}

static int by_key_then_tick(const void* const a, const void* const b)
{
    const Note* const left = (const Note*)a;
    const Note* const right = (const Note*)b;
    if (left->key != right->key) {
        return left->key - right->key;
    }
    return (left->tick > right->tick) - (left->tick < right->tick);
}

static double bar_quarters(const Request request)
{
    return 4.0 * request.beats / request.beat_unit;
}

/* midicsv's lines: track, time, Note_on_c, channel, key, velocity. */
static void read_csv(FILE* const csv, const double end)
{
    char line[512];
    of_file.count = 0;
    while (csv && fgets(line, sizeof line, csv)) {
        long tick = 0;
        int key = 0, velocity = 0;
        if (sscanf(line, "%*d, %ld, Note_on_c, %*d, %d, %d", &tick, &key, &velocity) == 3 &&
            velocity > 0 && (double)tick < end) {
            add(&of_file, (Note){(double)tick, key, velocity});
        }
    }
}

/* A bar more than is compared: the last bar has the next one's early strokes. */
static void render(const Request request)
{
    char path[512], command[COMMAND_ROOM];
    const char* const temporary = getenv("TMPDIR");
    snprintf(path, sizeof path, "%s/fourlimb-render-XXXXXX",
             temporary && *temporary ? temporary : "/tmp");
    const int file = mkstemp(path);
    CHECK(file >= 0 && close(file) == 0);
    snprintf(command, sizeof command,
             FOURLIMB_BUILD "/fourlimb render --groove %s --bars %d --tempo %.17g --meter %d/%d "
                            "--out %s --force >/dev/null && midicsv %s",
             request.groove, request.bars + 1, request.tempo, request.beats, request.beat_unit,
             path, path);
    FILE* const csv = popen(command, "r");
    read_csv(csv, request.bars * bar_quarters(request) * TICKS - 0.5);
    CHECK(csv && pclose(csv) == 0);
    unlink(path);
}

static void play(const Request request, const uint32_t block)
{
    static Played played;
    Host* const host = bundle_host(RATE);
    const double tempo = (double)(float)request.tempo; /* as a host tells it */
    const double ticks_per_frame = tempo / 60.0 * TICKS / RATE;
    const double frames = request.bars * bar_quarters(request) * 60.0 / tempo * RATE;
    Transport transport = {1.0f, request.tempo, (float)request.beats, request.beat_unit, 0, 0};
    host_set_defaults(host); /* with feel: the same take at any rate */
    CHECK(host_set(host, "groove", strtof(request.groove, NULL), (char[HOST_WHY_ROOM]){""}));
    played = (Played){.frames = 0};
    send_transport(host, transport);
    while ((double)played.frames < frames) {
        run_block(host, &played, block);
    }
    of_host.count = 0;
    for (size_t i = 0; i < played.count; ++i) {
        const Event event = played.events[i];
        if (is_note_on(event) && (double)event.frame < frames - 0.5) {
            add(&of_host,
                (Note){(double)event.frame * ticks_per_frame, event.bytes[1], event.bytes[2]});
        }
    }
    CHECK_INT(played.lost, 0);
    host_close(host);
}

/* Half a frame of ours, half a frame of the renderer's at 192000, half a tick. */
static double rounding(const Request request)
{
    const double ticks_per_second = request.tempo / 60.0 * TICKS;
    return 0.5 * ticks_per_second / RATE + 0.5 * ticks_per_second / 192000.0 + 0.5 + 1e-6;
}

static void check_request(const Request request, const uint32_t block)
{
    render(request);
    play(request, block);
    check_case("groove %s in %d/%d at %g", request.groove, request.beats, request.beat_unit,
               request.tempo);
    CHECK(of_file.count > 0);
    CHECK_INT(of_file.count, of_host.count);
    qsort(of_file.notes, of_file.count, sizeof(Note), by_key_then_tick);
    qsort(of_host.notes, of_host.count, sizeof(Note), by_key_then_tick);
    for (size_t i = 0; i < of_file.count && i < of_host.count; ++i) {
        CHECK_NEAR(of_file.notes[i].tick, of_host.notes[i].tick, rounding(request));
        CHECK_INT(of_file.notes[i].key, of_host.notes[i].key);
        CHECK_INT(of_file.notes[i].velocity, of_host.notes[i].velocity);
    }
}

/* True, with a reason printed, if the reader isn't installed. */
static bool lacks_midicsv(void)
{
    FILE* const found = popen("command -v midicsv", "r");
    const int byte = found ? fgetc(found) : EOF;
    if (found) {
        pclose(found);
    }
    if (byte == EOF) {
        test_skip("midicsv is not installed");
    }
    return byte == EOF;
}

static void a_rendered_groove_is_what_the_plugin_plays_at_another_rate(void)
{
    if (!lacks_midicsv()) {
        check_request((Request){"1", 16, 160.0, 4, 4}, 441);
        check_request((Request){"140", 9, 144.0, 7, 8}, 1024);
        check_request((Request){"17", 8, 110.0, 4, 4}, 64);
    }
}

static void so_it_is_at_tempi_that_no_frame_fits(void)
{
    if (!lacks_midicsv()) {
        check_request((Request){"21", 12, 133.7, 4, 4}, 333);
        check_request((Request){"131", 6, 399.9, 12, 8}, 256);
        check_request((Request){"29", 4, 20.0, 4, 4}, 4096);
    }
}

static void so_it_is_in_a_meter_that_the_groove_was_not_written_for(void)
{
    if (!lacks_midicsv()) {
        check_request((Request){"1", 9, 97.0, 5, 4}, 512);
        check_request((Request){"160", 16, 180.0, 7, 8}, 512);
    }
}

int main(void)
{
    RUN(a_rendered_groove_is_what_the_plugin_plays_at_another_rate);
    RUN(so_it_is_at_tempi_that_no_frame_fits);
    RUN(so_it_is_in_a_meter_that_the_groove_was_not_written_for);
    return tests_end();
}
