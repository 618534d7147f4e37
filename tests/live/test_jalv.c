// SPDX-License-Identifier: ISC
/* test_jalv.c - the plugin in a real host: jalv on a JACK server of its own with
   no sound card, a JACK client as timebase master, and what comes out of the
   plugin's port compared with strokes worked out from the tempo alone.  Needs
   jackd2 and jalv; skips where the server can't be started, and fails where the
   plugin can't be. */
#include "../help/check.h"
#include "jack_driver.h"
#include "stage.h"
#include "tab.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    STROKES_MAX = 16384, /* more than a freewheeling server rolls */
    NOTE_ON_10 = 0x99,   /* General MIDI has its drums on channel 10 */
    NOTE_OFF_10 = 0x89,
    KICK = 36,
    SNARE = 38,
    HAT = 42,
    TOM_FLOOR = 43,
    CRASH = 49,
    TOM_HIGH = 50,
};

/* What bank/two_bars.ttl says: hands in the first bar, toms in the second, and
   the kick in threes over both. */
static const TabRow in_four[] = {
    {CRASH, 4, "O... .... .... .... .... .... .... ...."},
    {HAT, 4, "..o. O.o. O.o. O.o. .... .... .... ...."},
    {SNARE, 4, ".... O..g .g.. O... .... .... .... ...."},
    {TOM_HIGH, 3, "... ... ... ... O.o O.o ... ..."},
    {TOM_FLOOR, 4, ".... .... .... .... .... .... oooo OOOO"},
    {KICK, 4, "o..o ..o. .o.. o..o ..o. .o.. o..o ..o."},
};

/* The same cut short by bars of 7/8: hands lose their end, the fill, whose end stands on the
   line, its beginning; its triplets are off the second bar's grid. */
static const TabRow in_seven[] = {
    {CRASH, 4, "O... .... .... .. .... .... .... .."},
    {HAT, 4, "..o. O.o. O.o. O. .... .... .... .."},
    {SNARE, 4, ".... O..g .g.. O. .... .... .... .."},
    {TOM_HIGH, 6, "...... ...... ...... ... .o.O.. .o.... ...... ..."},
    {TOM_FLOOR, 4, ".... .... .... .. .. .... oooo OOOO"},
    {KICK, 4, "o..o ..o. .o.. o. .o.. o..o ..o. .o"},
};

typedef struct {
    const TabRow* rows;
    size_t row_count;
    Tempo tempo;
} Song;

static const Song four = {in_four, sizeof in_four / sizeof *in_four, {150.0, 4.0, 4}};
static const Song four_uneven = {in_four, sizeof in_four / sizeof *in_four, {133.7, 4.0, 4}};
static const Song seven = {in_seven, sizeof in_seven / sizeof *in_seven, {201.3, 7.0, 8}};

/* Tests take no arguments, so what they share stands here. */
static JackDriver* driver;
static bool listening;

/* ---- Playing and comparing */

static bool ready(void)
{
    if (!listening) {
        test_skip(driver ? "there is nothing to listen to" : stage_why_not());
    }
    return listening;
}

/* Frames in a quarter note of the tempo as jalv tells it: in 32 bits, so 133.7 is
   133.699997, a fifth of a frame off after some four hundred quarter notes. */
static double quarter_frames(const Song* const song)
{
    const float told = (float)song->tempo.quarters_per_minute;
    return 60.0 / (double)told * jack_driver_rate(driver);
}

static int64_t at_quarter(const Song* const song, const double quarters)
{
    return (int64_t)(quarters * quarter_frames(song));
}

/* Plays from `begin` with these moves; returns the first new stretch's number. */
static size_t play(const Song* const song, const int64_t begin, const Move* const moves,
                   const size_t count)
{
    const Rolled* rolled;
    const size_t first = jack_driver_rolled(driver, &rolled);
    CHECK(jack_driver_set(driver, &song->tempo, begin));
    CHECK(jack_driver_play(driver, moves, count));
    CHECK_INT(jack_driver_rolled(driver, &rolled) - first, count);
    return first;
}

static int by_place(const void* const a, const void* const b)
{
    const Heard* const left = (const Heard*)a;
    const Heard* const right = (const Heard*)b;
    return left->frame != right->frame ? (left->frame < right->frame ? -1 : 1)
                                       : left->bytes[1] - right->bytes[1];
}

static size_t heard_note_ons(const size_t stretch, Heard* const ons)
{
    const Heard* heard;
    const size_t heard_count = jack_driver_heard(driver, &heard);
    size_t count = 0;
    for (size_t i = 0; i < heard_count && count < STROKES_MAX; ++i) {
        if (heard[i].stretch == stretch && heard[i].bytes[0] == NOTE_ON_10) {
            ons[count++] = heard[i];
        }
    }
    qsort(ons, count, sizeof *ons, by_place);
    return count;
}

/* Ghosts softer than normal strokes, and those softer than accents. */
static void check_levels(const Heard* const ons, const TabStroke* const strokes, const size_t count)
{
    int softest[128];
    int loudest[128] = {0};
    const int g = 'g', o = 'o', O = 'O';
    softest[g] = softest[o] = softest[O] = 128;
    for (size_t i = 0; i < count; ++i) {
        const int velocity = ons[i].bytes[2];
        const unsigned char level = (unsigned char)strokes[i].level;
        softest[level] = velocity < softest[level] ? velocity : softest[level];
        loudest[level] = velocity > loudest[level] ? velocity : loudest[level];
    }
    CHECK(loudest[g] < softest[o] && loudest[o] < softest[O] && loudest[O] < 128);
    CHECK(softest[g] > 0);
}

/* Every stroke of the stretch at its frame, and no other. */
static void check_strokes(const Song* const song, const size_t stretch)
{
    static TabStroke want[STROKES_MAX];
    static Heard got[STROKES_MAX];
    const Rolled* rolled;
    if (!CHECK(jack_driver_rolled(driver, &rolled) > stretch)) {
        return;
    }
    const size_t want_count =
        tab_strokes(song->rows, song->row_count, quarter_frames(song), rolled[stretch].begin,
                    rolled[stretch].end, STROKES_MAX, want);
    const size_t got_count = heard_note_ons(stretch, got);
    CHECK(want_count > 0 && want_count <= STROKES_MAX);
    CHECK_INT(got_count, want_count);
    const size_t count = got_count < want_count ? got_count : want_count;
    for (size_t i = 0; i < count; ++i) {
        check_case("stroke %zu of stretch %zu", i, stretch);
        CHECK_INT(got[i].frame, want[i].frame);
        CHECK_INT(got[i].bytes[1], want[i].key);
    }
    check_case("stretch %zu", stretch);
    check_levels(got, want, count);
}

/* One message against those before it; `begun` has the frame where each key that
   sounds was struck, -1 for the rest. */
static void check_message(const Heard* const heard, const int64_t quarter, const int64_t end,
                          int64_t begun[128])
{
    const uint8_t key = heard->bytes[1] & 127;
    const bool begins = heard->bytes[0] == NOTE_ON_10 && heard->bytes[2] > 0;
    check_case("stretch %zu, key %d at frame %lld", heard->stretch, key, (long long)heard->frame);
    CHECK_INT(heard->size, 3);
    if (begins) {
        CHECK(begun[key] < 0);
        CHECK(heard->frame < end);
    } else if (CHECK_INT(heard->bytes[0], NOTE_OFF_10) && CHECK(begun[key] >= 0)) {
        CHECK(heard->frame <= end);
        CHECK(heard->frame - begun[key] <= quarter);
    }
    begun[key] = begins ? heard->frame : -1;
}

/* Every message is a note of channel 10, every note that begins ends within a
   quarter note and before it is struck again, and none outlasts the stretch.
   Returns how many were cut off by its end. */
static int check_ends(const Song* const song, const size_t stretch)
{
    const Heard* heard;
    const Rolled* rolled;
    const size_t count = jack_driver_heard(driver, &heard);
    const size_t rolled_count = jack_driver_rolled(driver, &rolled);
    const int64_t quarter = at_quarter(song, 1.0);
    int64_t begun[128];
    memset(begun, -1, sizeof begun);
    int cut = 0;
    for (size_t i = 0; i < count && stretch < rolled_count; ++i) {
        if (heard[i].stretch == stretch) {
            check_message(&heard[i], quarter, rolled[stretch].end, begun);
            cut += heard[i].frame == rolled[stretch].end;
        }
    }
    for (int key = 0; key < 128; ++key) {
        check_case("stretch %zu, key %d", stretch, key);
        CHECK_INT(begun[key], -1);
    }
    return cut;
}

static void check_stretch(const Song* const song, const size_t stretch)
{
    check_case("stretch %zu", stretch);
    check_strokes(song, stretch);
    check_ends(song, stretch);
}

/* ---- The tests */

static void jalv_loads_the_plugin_and_gives_it_a_port(void)
{
    if (!driver) {
        test_skip(stage_why_not());
        CHECK(!stage_server_runs());
        return;
    }
    listening = CHECK(jack_driver_listen(driver, "midi_out", stage_host_runs));
    if (!listening) {
        printf("# the last it said: %s\n", stage_last_words());
    }
}

static void jalv_plays_the_groove_from_bar_one_to_the_sample(void)
{
    if (ready()) {
        const Move moves[] = {{at_quarter(&four, 4.6), MOVE_STOP, 0}};
        check_stretch(&four, play(&four, 0, moves, 1));
    }
}

static void a_locate_while_rolling_goes_on_from_there(void)
{
    if (ready()) {
        const Move moves[] = {{at_quarter(&four, 1.2), MOVE_LOCATE, at_quarter(&four, 18.1) + 7},
                              {at_quarter(&four, 20.4), MOVE_LOCATE, at_quarter(&four, 0.2)},
                              {at_quarter(&four, 0.9), MOVE_STOP, 0}};
        const size_t first = play(&four, 0, moves, 3);
        check_stretch(&four, first);
        check_stretch(&four, first + 1);
        check_stretch(&four, first + 2);
    }
}

/* The stop is asked for in the cycle where a kick begins, and comes a cycle or
   two later, while the kick still sounds. */
static void stop_ends_every_sounding_note(void)
{
    if (ready()) {
        const Move moves[] = {{at_quarter(&four, 0.75), MOVE_STOP, 0}};
        const size_t stretch = play(&four, 0, moves, 1);
        check_strokes(&four, stretch);
        CHECK(check_ends(&four, stretch) > 0);
    }
}

static void a_locate_ends_every_sounding_note(void)
{
    if (ready()) {
        const Move moves[] = {{at_quarter(&four, 0.75), MOVE_LOCATE, at_quarter(&four, 40.1)},
                              {at_quarter(&four, 40.2), MOVE_STOP, 0}};
        CHECK(check_ends(&four, play(&four, 0, moves, 2)) > 0);
    }
}

static void a_restart_plays_the_same_strokes_again(void)
{
    if (ready()) {
        const Move moves[] = {{at_quarter(&four, 1.2), MOVE_STOP, 0}};
        static Heard once[STROKES_MAX], again[STROKES_MAX];
        const size_t count = heard_note_ons(play(&four, 0, moves, 1), once);
        CHECK(count > 0);
        CHECK_INT(heard_note_ons(play(&four, 0, moves, 1), again), count);
        for (size_t i = 0; i < count; ++i) {
            CHECK_INT(again[i].frame, once[i].frame);
            CHECK(!memcmp(again[i].bytes, once[i].bytes, sizeof once[i].bytes));
        }
    }
}

/* As fast as the machine can: many bars, so that an error that grows is seen. */
static void play_in_a_hurry(const Song* const song, const double quarters)
{
    const Move moves[] = {{at_quarter(song, quarters), MOVE_STOP, 0}};
    CHECK(jack_driver_hurry(driver, true));
    check_stretch(song, play(song, 0, moves, 1));
    CHECK(jack_driver_hurry(driver, false));
}

static void a_freewheeling_server_gets_the_same_strokes(void)
{
    if (ready()) {
        play_in_a_hurry(&four, 200.1);
    }
}

static void a_tempo_of_no_whole_frames_stays_exact(void)
{
    if (ready()) {
        play_in_a_hurry(&four_uneven, 200.1);
    }
}

/* Frame and place are both rounded down there: bar 4, beat 3.9995. */
static void a_locate_to_a_bar_line_plays_its_first_stroke(void)
{
    if (ready()) {
        const Song* const song = &four_uneven;
        const int64_t bar_line = at_quarter(song, 20.0);
        const Move moves[] = {{at_quarter(song, 1.1), MOVE_LOCATE, bar_line},
                              {at_quarter(song, 28.1), MOVE_STOP, 0}};
        CHECK(jack_driver_hurry(driver, true));
        const size_t first = play(song, 0, moves, 2);
        CHECK(jack_driver_hurry(driver, false));
        check_stretch(song, first);
        check_stretch(song, first + 1);
        static Heard ons[STROKES_MAX];
        CHECK(heard_note_ons(first + 1, ons) > 0);
        CHECK_INT(ons[0].frame, bar_line);
    }
}

static void bars_of_seven_eighths_cut_the_figures_short(void)
{
    if (ready()) {
        play_in_a_hurry(&seven, 175.1);
    }
}

static void nothing_comes_before_the_first_start(void)
{
    const Heard* heard;
    const size_t count = ready() ? jack_driver_heard(driver, &heard) : 0;
    for (size_t i = 0; i < count; ++i) {
        CHECK(heard[i].stretch != SIZE_MAX);
    }
}

int main(void)
{
    const char* const host[] = {"jalv", "-i", "urn:fourlimb:groove", NULL};
    driver = stage_open(FOURLIMB_SOURCE "/tests/live/bank", host);
    RUN(jalv_loads_the_plugin_and_gives_it_a_port);
    RUN(jalv_plays_the_groove_from_bar_one_to_the_sample);
    RUN(a_locate_while_rolling_goes_on_from_there);
    RUN(stop_ends_every_sounding_note);
    RUN(a_locate_ends_every_sounding_note);
    RUN(a_restart_plays_the_same_strokes_again);
    RUN(a_freewheeling_server_gets_the_same_strokes);
    RUN(a_tempo_of_no_whole_frames_stays_exact);
    RUN(a_locate_to_a_bar_line_plays_its_first_stroke);
    RUN(bars_of_seven_eighths_cut_the_figures_short);
    RUN(nothing_comes_before_the_first_start);
    stage_close(driver);
    return tests_end();
}
