// SPDX-License-Identifier: ISC
/* pad.c - pad SERVER KEY [INPUT OUTPUT]: a drummer's pad on a JACK server.  Strikes a
   key on channel 10 once, into the input whose name ends so (:control), between two
   moves of a pedal, and prints every message that the output (:midi_out) sends in
   between: size, bytes.  Waits until the pedal comes through, however long the machine
   takes. */
#include "../help/wait.h"

#include <jack/jack.h>
#include <jack/midiport.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { HEARD_MAX = 256, MESSAGES = 4, BYTES = 3, PEDAL = 0xB9 };

typedef struct {
    jack_client_t* client;
    jack_port_t* in;
    jack_port_t* out;
    uint8_t key;
    bool is_joined; /* the pedal came through: both wires are there */
    int sent;
    int heard;
    uint8_t bytes[HEARD_MAX][4]; /* size first */
    _Atomic(bool) is_done;       /* the pedal came through after the strike */
} Pad;

/* ---- The audio thread */

static void play(Pad* const pad, void* const out)
{
    const uint8_t messages[MESSAGES][BYTES] = {
        {PEDAL, 4, 0}, {0x99, pad->key, 100}, {0x89, pad->key, 0}, {PEDAL, 4, 1}};
    pad->sent += pad->is_joined && pad->sent < MESSAGES;
    if (pad->sent < MESSAGES) {
        jack_midi_event_write(out, 0, messages[pad->sent], BYTES);
    }
}

static void hear(Pad* const pad, const jack_midi_event_t* const event)
{
    if (event->buffer[0] == PEDAL) {
        pad->is_joined = true;
        atomic_store(&pad->is_done, event->buffer[2] != 0);
    } else if (pad->heard < HEARD_MAX) {
        pad->bytes[pad->heard][0] = (uint8_t)event->size;
        memcpy(pad->bytes[pad->heard++] + 1, event->buffer, event->size < 3 ? event->size : 3);
    }
}

static int process(const jack_nframes_t frames, void* const data)
{
    Pad* const pad = (Pad*)data;
    void* const out = jack_port_get_buffer(pad->out, frames);
    void* const in = jack_port_get_buffer(pad->in, frames);
    const jack_nframes_t count = jack_midi_get_event_count(in);
    jack_midi_clear_buffer(out);
    play(pad, out);
    for (jack_nframes_t i = 0; i < count; ++i) {
        jack_midi_event_t event;
        if (!jack_midi_event_get(&event, in, i)) {
            hear(pad, &event);
        }
    }
    return 0;
}

/* ---- */

static bool join(Pad* const pad, const char* const server)
{
    const jack_options_t options = (jack_options_t)(JackNoStartServer | JackServerName);
    pad->client = jack_client_open("pad", options, NULL, server);
    if (!pad->client) {
        return false;
    }
    const char* const type = JACK_DEFAULT_MIDI_TYPE;
    pad->in = jack_port_register(pad->client, "in", type, JackPortIsInput, 0);
    pad->out = jack_port_register(pad->client, "out", type, JackPortIsOutput, 0);
    return pad->in && pad->out && !jack_set_process_callback(pad->client, process, pad) &&
           !jack_activate(pad->client);
}

/* The first port of the name, or NULL: the host offers none. */
static char* find(const Pad* const pad, const char* const pattern, const unsigned long flags)
{
    const char** const names = jack_get_ports(pad->client, pattern, JACK_DEFAULT_MIDI_TYPE, flags);
    char* const name = names ? strdup(names[0]) : NULL;
    jack_free(names);
    return name;
}

static bool connect(const Pad* const pad, const char* const input, const char* const output)
{
    char pattern[128];
    snprintf(pattern, sizeof pattern, "%s$", input);
    char* const in = find(pad, pattern, JackPortIsInput);
    snprintf(pattern, sizeof pattern, "%s$", output);
    char* const out = find(pad, pattern, JackPortIsOutput);
    const bool good = in && out && !jack_connect(pad->client, jack_port_name(pad->out), in) &&
                      !jack_connect(pad->client, out, jack_port_name(pad->in));
    free(in);
    free(out);
    return good;
}

int main(const int count, char** const arguments)
{
    static Pad pad; /* zero */
    const int key = count == 3 || count == 5 ? atoi(arguments[2]) : -1;
    pad.key = (uint8_t)key;
    if (key < 0 || key > 127 || !join(&pad, arguments[1])) {
        fprintf(stderr, "usage: pad SERVER KEY [INPUT OUTPUT], where the server runs\n");
        return 2;
    }
    const char* const input = count == 5 ? arguments[3] : ":control";
    if (!connect(&pad, input, count == 5 ? arguments[4] : ":midi_out")) {
        fprintf(stderr, "the host offers no MIDI input %s\n", input);
        return 1;
    }
    Wait wait = wait_until("the pedal has come through");
    while (!atomic_load(&pad.is_done) && wait_goes_on(&wait)) {
    }
    jack_client_close(pad.client);
    for (int i = 0; i < pad.heard; ++i) {
        printf("%d %02x %02x %02x\n", pad.bytes[i][0], pad.bytes[i][1], pad.bytes[i][2],
               pad.bytes[i][3]);
    }
    return atomic_load(&pad.is_done) ? 0 : 1;
}
