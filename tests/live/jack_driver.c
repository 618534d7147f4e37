// SPDX-License-Identifier: ISC
#include "jack_driver.h"

#include "../help/wait.h"

#include <jack/jack.h>
#include <jack/midiport.h>
#include <math.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Some forty messages a bar, and a freewheeling server rolls many bars. */
enum { HEARD_MAX = 65536, ROLLED_MAX = 64, TICKS_PER_BEAT = 1920 };

/* Cycles until what was asked for has gone round: one for the server, one for whoever
   comes before this client, and one for whoever hears of it only then. */
enum { ROUND = 4 };

struct JackDriver {
    jack_client_t* client;
    jack_port_t* in;
    _Atomic(const Tempo*) tempo;
    /* The test writes the moves, then how many there are; the audio thread makes
       them and says how many it has made. */
    const Move* moves;
    _Atomic(size_t) moves_asked;
    _Atomic(size_t) moves_made;
    size_t moved_in; /* the count of stretches when the last move was made */
    /* Written by the audio thread, which raises the counts last. */
    Rolled rolled[ROLLED_MAX];
    Heard heard[HEARD_MAX];
    _Atomic(size_t) rolled_count;
    _Atomic(size_t) heard_count;
    int64_t frames_since; /* since the last stretch began, standing still included */
    _Atomic(int64_t) place;
    _Atomic(int64_t) frames; /* of all cycles */
    _Atomic(size_t) cycles;
    _Atomic(size_t) places_set; /* by a locate, as the timebase master is told */
    bool rolling;
    atomic_bool still;
};

/* ---- The audio thread: no memory, no locks, no files */

static void note_place(JackDriver* const driver, const bool rolls, const int64_t frame,
                       const jack_nframes_t frames)
{
    size_t count = atomic_load(&driver->rolled_count);
    const bool goes_on = driver->rolling && rolls && driver->rolled[count - 1].end == frame;
    if (rolls && !goes_on && count < ROLLED_MAX) {
        driver->rolled[count] = (Rolled){frame, frame};
        driver->frames_since = 0;
        atomic_store(&driver->rolled_count, ++count);
    }
    if (rolls) {
        driver->rolled[count - 1].end = frame + frames;
        atomic_store(&driver->place, frame + frames);
    }
    driver->rolling = rolls;
}

static void hear(JackDriver* const driver, void* const buffer, const jack_nframes_t index)
{
    jack_midi_event_t event;
    const size_t count = atomic_load(&driver->heard_count);
    const size_t stretches = atomic_load(&driver->rolled_count);
    if (jack_midi_event_get(&event, buffer, index) || count == HEARD_MAX) {
        return;
    }
    Heard* const heard = &driver->heard[count];
    const int64_t begin = stretches ? driver->rolled[stretches - 1].begin : 0;
    *heard = (Heard){.stretch = stretches ? stretches - 1 : SIZE_MAX,
                     .frame = begin + driver->frames_since + event.time,
                     .size = event.size};
    memcpy(heard->bytes, event.buffer, event.size < 3 ? event.size : 3);
    atomic_store(&driver->heard_count, count + 1);
}

static void make_move(JackDriver* const driver, const int64_t end)
{
    const size_t made = atomic_load(&driver->moves_made);
    if (made == atomic_load(&driver->moves_asked) || !driver->rolling) {
        return;
    }
    const Move move = driver->moves[made];
    const size_t stretches = atomic_load(&driver->rolled_count);
    if (end <= move.at || stretches == driver->moved_in) {
        return; /* not there yet, or the move before has not yet happened */
    }
    driver->moved_in = stretches;
    if (move.kind == MOVE_STOP) {
        jack_transport_stop(driver->client);
    } else {
        jack_transport_locate(driver->client, (jack_nframes_t)move.to);
    }
    atomic_store(&driver->moves_made, made + 1);
}

static int process(const jack_nframes_t frames, void* const data)
{
    JackDriver* const driver = (JackDriver*)data;
    jack_position_t place;
    const jack_transport_state_t state = jack_transport_query(driver->client, &place);
    void* const buffer = jack_port_get_buffer(driver->in, frames);
    note_place(driver, state == JackTransportRolling, (int64_t)place.frame, frames);
    const jack_nframes_t count = jack_midi_get_event_count(buffer);
    for (jack_nframes_t i = 0; i < count; ++i) {
        hear(driver, buffer, i);
    }
    make_move(driver, (int64_t)place.frame + frames);
    driver->frames_since += frames;
    atomic_store(&driver->still, state == JackTransportStopped);
    atomic_fetch_add(&driver->frames, frames);
    atomic_fetch_add(&driver->cycles, 1);
    return 0;
}

/* Whole ticks, rounded down, as JACK's own words have room for no better. */
static void timebase(const jack_transport_state_t state, const jack_nframes_t frames,
                     jack_position_t* const place, const int is_new, void* const data)
{
    (void)state;
    (void)frames;
    JackDriver* const driver = (JackDriver*)data;
    const Tempo* const tempo = atomic_load(&driver->tempo);
    const double seconds = (double)place->frame / (double)place->frame_rate;
    const double beats = seconds / 60.0 * tempo->quarters_per_minute * tempo->beat_unit / 4.0;
    const int64_t ticks = (int64_t)floor(beats * TICKS_PER_BEAT + 1e-6);
    const int64_t bar_ticks = (int64_t)tempo->beats_per_bar * TICKS_PER_BEAT;
    place->valid = JackPositionBBT;
    place->bar = (int32_t)(ticks / bar_ticks) + 1;
    place->beat = (int32_t)(ticks % bar_ticks / TICKS_PER_BEAT) + 1;
    place->tick = (int32_t)(ticks % TICKS_PER_BEAT);
    place->bar_start_tick = (double)(ticks - ticks % bar_ticks);
    place->beats_per_bar = (float)tempo->beats_per_bar;
    place->beat_type = (float)tempo->beat_unit;
    place->ticks_per_beat = TICKS_PER_BEAT;
    place->beats_per_minute = tempo->quarters_per_minute;
    if (is_new) {
        atomic_fetch_add(&driver->places_set, 1);
    }
}

/* ---- The test's thread */

static void say_nothing(const char* const text)
{
    (void)text;
}

static jack_client_t* join(const char* const server, bool (*const waiting)(void))
{
    const jack_options_t options = (jack_options_t)(JackNoStartServer | JackServerName);
    jack_set_error_function(say_nothing); /* it says so each time it isn't there yet */
    jack_set_info_function(say_nothing);
    jack_client_t* client = jack_client_open("driver", options, NULL, server);
    Wait wait = wait_until("the JACK server answers");
    while (!client && waiting() && wait_goes_on(&wait)) {
        client = jack_client_open("driver", options, NULL, server);
    }
    return client;
}

JackDriver* jack_driver_open(const char* const server, bool (*const waiting)(void))
{
    static const Tempo usual = {120.0, 4.0, 4};
    JackDriver* const driver = calloc(1, sizeof *driver);
    if (!driver) {
        return NULL;
    }
    atomic_store(&driver->tempo, &usual);
    driver->client = join(server, waiting);
    driver->in = driver->client ? jack_port_register(driver->client, "in", JACK_DEFAULT_MIDI_TYPE,
                                                     JackPortIsInput, 0)
                                : NULL;
    if (!driver->in || jack_set_process_callback(driver->client, process, driver) ||
        jack_set_timebase_callback(driver->client, 0, timebase, driver) ||
        jack_activate(driver->client)) {
        jack_driver_close(driver);
        return NULL;
    }
    return driver;
}

void jack_driver_close(JackDriver* const driver)
{
    if (driver && driver->client) {
        jack_client_close(driver->client);
    }
    free(driver);
}

static bool connect_to(JackDriver* const driver, const char* const pattern)
{
    const char** const names =
        jack_get_ports(driver->client, pattern, JACK_DEFAULT_MIDI_TYPE, JackPortIsOutput);
    const bool good =
        names && names[0] && !jack_connect(driver->client, names[0], jack_port_name(driver->in));
    jack_free(names);
    return good;
}

bool jack_driver_listen(JackDriver* const driver, const char* const port,
                        bool (*const waiting)(void))
{
    char pattern[64];
    snprintf(pattern, sizeof pattern, ":%s$", port);
    bool good = connect_to(driver, pattern);
    Wait wait = wait_until("the host has a MIDI port to listen to");
    while (!good && waiting() && wait_goes_on(&wait)) {
        good = connect_to(driver, pattern);
    }
    return good;
}

/* False, after words, if the server stands still. */
static bool goes_round(const JackDriver* const driver)
{
    const size_t end = atomic_load(&driver->cycles) + ROUND;
    Wait wait = wait_until("the JACK server has run some cycles");
    while (atomic_load(&driver->cycles) < end) {
        if (!wait_goes_on(&wait)) {
            return false;
        }
    }
    return true;
}

bool jack_driver_set(JackDriver* const driver, const Tempo* const tempo, const int64_t frame)
{
    const size_t before = atomic_load(&driver->places_set);
    atomic_store(&driver->tempo, tempo);
    bool good = !jack_transport_locate(driver->client, (jack_nframes_t)frame);
    Wait wait = wait_until("the transport has been located");
    while (good && atomic_load(&driver->places_set) == before) {
        good = wait_goes_on(&wait);
    }
    return good && goes_round(driver) && atomic_load(&driver->still);
}

void jack_driver_ask(JackDriver* const driver, const Move* const moves, const size_t count)
{
    driver->moves = moves;
    atomic_store(&driver->moves_asked, count);
}

void jack_driver_start(JackDriver* const driver, const Move* const moves, const size_t count)
{
    driver->moved_in = atomic_load(&driver->rolled_count);
    atomic_store(&driver->moves_asked, 0);
    atomic_store(&driver->moves_made, 0);
    jack_driver_ask(driver, moves, count);
    jack_transport_start(driver->client);
}

bool jack_driver_finish(JackDriver* const driver)
{
    const size_t count = atomic_load(&driver->moves_asked);
    Wait wait = wait_until("the transport has made its moves and stands");
    while (atomic_load(&driver->moves_made) < count || !atomic_load(&driver->still)) {
        if (!wait_goes_on(&wait)) {
            printf("# %zu of %zu moves were made, at frame %lld it %s\n",
                   atomic_load(&driver->moves_made), count, (long long)jack_driver_place(driver),
                   atomic_load(&driver->still) ? "stands" : "rolls");
            return false;
        }
    }
    return goes_round(driver); /* what the stop still lets out comes a cycle later */
}

bool jack_driver_play(JackDriver* const driver, const Move* const moves, const size_t count)
{
    jack_driver_start(driver, moves, count);
    return jack_driver_finish(driver);
}

int64_t jack_driver_place(const JackDriver* const driver)
{
    return atomic_load(&driver->place);
}

int64_t jack_driver_frames(const JackDriver* const driver)
{
    return atomic_load(&driver->frames);
}

bool jack_driver_hurry(JackDriver* const driver, const bool hurry)
{
    return !jack_set_freewheel(driver->client, hurry);
}

size_t jack_driver_rolled(const JackDriver* const driver, const Rolled** const rolled)
{
    *rolled = driver->rolled;
    return atomic_load(&driver->rolled_count);
}

size_t jack_driver_heard(const JackDriver* const driver, const Heard** const heard)
{
    *heard = driver->heard;
    return atomic_load(&driver->heard_count);
}

uint32_t jack_driver_rate(const JackDriver* const driver)
{
    return jack_get_sample_rate(driver->client);
}

uint32_t jack_driver_period(const JackDriver* const driver)
{
    return jack_get_buffer_size(driver->client);
}
