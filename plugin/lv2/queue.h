// SPDX-License-Identifier: ISC
/* queue.h - parcels of bytes from one thread to another without a lock: one
   thread at a time may put, one may take, and neither ever waits. */
#pragma once

#include <stdbool.h>
#include <stdint.h>

typedef struct {
    uint32_t kind; /* the sender's and receiver's business */
    uint32_t size;
    int64_t number;
    char bytes[]; /* with a 0 behind them */
} Parcel;

typedef struct Queue Queue;

/* So many parcels of at most so many bytes; NULL if there is no memory. */
Queue* queue_new(uint32_t parcels, uint32_t bytes);
void queue_free(Queue* queue);

/* Copies a parcel in; false if it is too large or the queue is full. */
bool queue_put(Queue* queue, uint32_t kind, int64_t number, const void* bytes, uint32_t size);

/* The oldest parcel, or NULL; it stays until queue_drop. */
const Parcel* queue_first(Queue* queue);
void queue_drop(Queue* queue);
