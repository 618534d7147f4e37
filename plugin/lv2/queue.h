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
} Parcel;

typedef struct Queue Queue;

/* Of so many bytes for parcels and their heads; NULL if there is no memory. */
Queue* queue_new(uint32_t bytes);
void queue_free(Queue* queue);

/* Copies a parcel in; false if there is no room for it. */
bool queue_put(Queue* queue, uint32_t kind, int64_t number, const void* bytes, uint32_t size);

/* For who takes. */
bool queue_is_empty(const Queue* queue);

/* The head of the oldest parcel; false if there is none.  It stays until queue_drop. */
bool queue_first(const Queue* queue, Parcel* parcel);

/* Copies the oldest parcel's bytes, `parcel.size` of them, as queue_first told it. */
void queue_copy(const Queue* queue, Parcel parcel, char* bytes);

void queue_drop(Queue* queue, Parcel parcel);
