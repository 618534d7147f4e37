// SPDX-License-Identifier: ISC
#include "queue.h"

#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>

/* A ring: what reaches over its end goes on at its start. */
struct Queue {
    uint32_t room;
    atomic_uint put; /* bytes ever put in, in the ring's own count */
    atomic_uint taken;
    char bytes[];
};

/* The counters go round at a multiple of the room, so that full and empty differ. */
enum { ROUNDS = 2 };

Queue* queue_new(const uint32_t bytes)
{
    Queue* const queue = calloc(1, sizeof(Queue) + bytes);
    if (queue) {
        queue->room = bytes;
        atomic_init(&queue->put, 0);
        atomic_init(&queue->taken, 0);
    }
    return queue;
}

void queue_free(Queue* const queue)
{
    free(queue);
}

static uint32_t further(const Queue* const queue, const uint32_t at, const uint32_t bytes)
{
    return (at + bytes) % (ROUNDS * queue->room);
}

static uint32_t filled(const Queue* const queue, const uint32_t put, const uint32_t taken)
{
    return (put + ROUNDS * queue->room - taken) % (ROUNDS * queue->room);
}

/* The bytes from `at` on that lie in one piece. */
static uint32_t piece(const Queue* const queue, const uint32_t at, const uint32_t size)
{
    const uint32_t to_end = queue->room - at % queue->room;
    return size < to_end ? size : to_end;
}

static void write_at(Queue* const queue, const uint32_t at, const void* const bytes,
                     const uint32_t size)
{
    const uint32_t first = piece(queue, at, size);
    memcpy(queue->bytes + at % queue->room, bytes, first);
    memcpy(queue->bytes, (const char*)bytes + first, size - first);
}

static void read_at(const Queue* const queue, const uint32_t at, void* const bytes,
                    const uint32_t size)
{
    const uint32_t first = piece(queue, at, size);
    memcpy(bytes, queue->bytes + at % queue->room, first);
    memcpy((char*)bytes + first, queue->bytes, size - first);
}

bool queue_put(Queue* const queue, const uint32_t kind, const int64_t number,
               const void* const bytes, const uint32_t size)
{
    const uint32_t put = atomic_load_explicit(&queue->put, memory_order_relaxed);
    const uint32_t taken = atomic_load_explicit(&queue->taken, memory_order_acquire);
    const uint32_t left = queue->room - filled(queue, put, taken);
    const Parcel parcel = {kind, size, number};
    if (left < sizeof parcel || left - sizeof parcel < size) {
        return false;
    }
    write_at(queue, put, &parcel, sizeof parcel);
    write_at(queue, further(queue, put, sizeof parcel), bytes, size);
    atomic_store_explicit(&queue->put, further(queue, put, (uint32_t)sizeof parcel + size),
                          memory_order_release);
    return true;
}

bool queue_is_empty(const Queue* const queue)
{
    return atomic_load_explicit(&queue->put, memory_order_acquire) ==
           atomic_load_explicit(&queue->taken, memory_order_relaxed);
}

bool queue_first(const Queue* const queue, Parcel* const parcel)
{
    if (queue_is_empty(queue)) {
        return false;
    }
    read_at(queue, atomic_load_explicit(&queue->taken, memory_order_relaxed), parcel,
            sizeof *parcel);
    return true;
}

void queue_copy(const Queue* const queue, const Parcel parcel, char* const bytes)
{
    const uint32_t taken = atomic_load_explicit(&queue->taken, memory_order_relaxed);
    read_at(queue, further(queue, taken, sizeof parcel), bytes, parcel.size);
}

void queue_drop(Queue* const queue, const Parcel parcel)
{
    const uint32_t taken = atomic_load_explicit(&queue->taken, memory_order_relaxed);
    atomic_store_explicit(&queue->taken,
                          further(queue, taken, (uint32_t)sizeof parcel + parcel.size),
                          memory_order_release);
}
