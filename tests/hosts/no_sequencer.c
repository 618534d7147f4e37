// SPDX-License-Identifier: ISC
/* no_sequencer.c - for LD_PRELOAD: an ALSA sequencer where nothing ever happens, for a host
   that won't start without one, on machines without /dev/snd/seq.  What needs no sequencer
   is libasound's own. */
#include <errno.h>
#include <poll.h>
#include <stddef.h>
#include <unistd.h>

static int never[2] = {-1, -1}; /* a pipe that nobody writes into */

int snd_seq_open(void** handle, const char* name, int streams, int mode);
int snd_seq_open(void** const handle, const char* const name, const int streams, const int mode)
{
    (void)name;
    (void)streams;
    (void)mode;
    if (never[0] < 0 && pipe(never)) {
        return -errno;
    }
    *handle = never;
    return 0;
}

int snd_seq_poll_descriptors(void* handle, struct pollfd* slots, unsigned room, short events);
int snd_seq_poll_descriptors(void* const handle, struct pollfd* const slots, const unsigned room,
                             const short events)
{
    (void)handle;
    (void)events;
    if (room) {
        *slots = (struct pollfd){.fd = never[0], .events = POLLIN};
    }
    return room > 0;
}

/* Arguments don't matter: the caller clears them away. */
#define ANSWERS(name, answer)                                                                      \
    int name(void);                                                                                \
    int name(void)                                                                                 \
    {                                                                                              \
        return answer;                                                                             \
    }

ANSWERS(snd_seq_poll_descriptors_count, 1)
ANSWERS(snd_seq_client_id, 128)
ANSWERS(snd_seq_close, 0)
ANSWERS(snd_seq_alloc_queue, 0)
ANSWERS(snd_seq_free_queue, 0)
ANSWERS(snd_seq_control_queue, 0)
ANSWERS(snd_seq_create_simple_port, 0)
ANSWERS(snd_seq_delete_simple_port, 0)
ANSWERS(snd_seq_drain_output, 0)
ANSWERS(snd_seq_drop_input, 0)
ANSWERS(snd_seq_drop_output, 0)
ANSWERS(snd_seq_event_input, -EAGAIN)
ANSWERS(snd_seq_event_input_pending, 0)
ANSWERS(snd_seq_event_output, 0)
ANSWERS(snd_seq_event_output_direct, 0)
ANSWERS(snd_seq_get_any_client_info, -ENOENT)
ANSWERS(snd_seq_get_any_port_info, -ENOENT)
ANSWERS(snd_seq_get_port_info, 0)
ANSWERS(snd_seq_set_port_info, 0)
ANSWERS(snd_seq_get_queue_status, 0)
ANSWERS(snd_seq_get_queue_tempo, 0)
ANSWERS(snd_seq_set_queue_tempo, 0)
ANSWERS(snd_seq_set_queue_timer, 0)
ANSWERS(snd_seq_query_next_client, -ENOENT)
ANSWERS(snd_seq_query_next_port, -ENOENT)
ANSWERS(snd_seq_query_port_subscribers, -ENOENT)
ANSWERS(snd_seq_remove_events, 0)
ANSWERS(snd_seq_set_client_name, 0)
ANSWERS(snd_seq_subscribe_port, 0)
ANSWERS(snd_seq_unsubscribe_port, 0)
