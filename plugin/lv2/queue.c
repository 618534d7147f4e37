// SPDX-License-Identifier: ISC
#include "queue.h"

#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>

struct Queue {
    uint32_t parcels;
    uint32_t bytes;
    uint32_t stride; /* words of a parcel's place */
    atomic_uint put; /* parcels ever put in */
    atomic_uint taken;
    uint64_t memory[];
};

enum { WORD = sizeof(uint64_t) };

Queue* queue_new(const uint32_t parcels, const uint32_t bytes)
{
    const uint32_t stride = ((uint32_t)sizeof(Parcel) + bytes + 1 + WORD - 1) / WORD;
    Queue* const queue = calloc(1, sizeof(Queue) + (size_t)parcels * stride * WORD);
    if (queue) {
        queue->parcels = parcels;
        queue->bytes = bytes;
        queue->stride = stride;
        atomic_init(&queue->put, 0);
        atomic_init(&queue->taken, 0);
    }
    return queue;
}

void queue_free(Queue* const queue)
{
    free(queue);
}

static Parcel* place(Queue* const queue, const uint32_t index)
{
    return (Parcel*)(void*)&queue->memory[(size_t)(index % queue->parcels) * queue->stride];
}

bool queue_put(Queue* const queue, const uint32_t kind, const int64_t number,
               const void* const bytes, const uint32_t size)
{
    const uint32_t put = atomic_load_explicit(&queue->put, memory_order_relaxed);
    const uint32_t taken = atomic_load_explicit(&queue->taken, memory_order_acquire);
    if (put - taken == queue->parcels || size > queue->bytes) {
        return false;
    }
    Parcel* const parcel = place(queue, put);
    parcel->kind = kind;
    parcel->number = number;
    parcel->size = size;
    memcpy(parcel->bytes, bytes, size);
    parcel->bytes[size] = '\0';
    atomic_store_explicit(&queue->put, put + 1, memory_order_release);
    return true;
}

const Parcel* queue_first(Queue* const queue)
{
    const uint32_t taken = atomic_load_explicit(&queue->taken, memory_order_relaxed);
    const uint32_t put = atomic_load_explicit(&queue->put, memory_order_acquire);
    return put == taken ? NULL : place(queue, taken);
}

void queue_drop(Queue* const queue)
{
    atomic_fetch_add_explicit(&queue->taken, 1, memory_order_release);
}
