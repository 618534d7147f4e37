// SPDX-License-Identifier: ISC
/* test_queue.c - parcels come out as they went in, in order, however full the queue is and
   wherever in it they lie; two threads at once see the same. */
#include "../../plugin/lv2/queue.h"
#include "../help/check.h"

#include <pthread.h>
#include <sched.h>
#include <stdlib.h>
#include <string.h>

enum { ROOM = 4096, LONGEST = ROOM - (int)sizeof(Parcel), PARCELS = 20000 };

/* What parcel number n is. */
static uint32_t size_of(const int64_t n)
{
    return (uint32_t)(n * 2654435761) % (n % 7 ? 200U : LONGEST + 1U);
}

static char byte_of(const int64_t n, const uint32_t at)
{
    return (char)(n * 31 + at * 7);
}

static bool put(Queue* const queue, const int64_t n)
{
    char bytes[LONGEST];
    for (uint32_t i = 0; i < size_of(n); ++i) {
        bytes[i] = byte_of(n, i);
    }
    return queue_put(queue, (uint32_t)n % 5, n, bytes, size_of(n));
}

/* True if the oldest parcel is number n, byte for byte. */
static bool is_next(const Queue* const queue, const Parcel parcel, const int64_t n)
{
    char bytes[LONGEST + 1];
    bool same = parcel.number == n && parcel.kind == (uint32_t)n % 5 && parcel.size == size_of(n);
    bytes[LONGEST] = 'x';
    if (same) {
        queue_copy(queue, parcel, bytes);
    }
    for (uint32_t i = 0; same && i < parcel.size; ++i) {
        same = bytes[i] == byte_of(n, i);
    }
    return same && bytes[LONGEST] == 'x';
}

static void parcels_come_out_as_they_went_in(void)
{
    Queue* const queue = queue_new(ROOM);
    int64_t in = 0;
    int64_t out = 0;
    int wrong = 0;
    int full = 0;
    Parcel parcel;
    while (queue && out < PARCELS) {
        while (in < PARCELS && in - out < 1 + in % 30 && put(queue, in)) {
            ++in;
        }
        full += in - out < 1 + in % 30;
        for (int some = 1 + (int)(out % 4); some > 0 && queue_first(queue, &parcel); --some) {
            wrong += !is_next(queue, parcel, out++);
            queue_drop(queue, parcel);
        }
    }
    CHECK_INT(in, PARCELS);
    CHECK_INT(wrong, 0);
    CHECK(full > 100);
    CHECK(queue && !queue_first(queue, &parcel));
    queue_free(queue);
}

static void the_longest_fits_wherever_the_queue_begins_and_a_longer_one_never(void)
{
    static const char bytes[ROOM];
    Queue* const queue = queue_new(ROOM);
    Parcel parcel;
    for (uint32_t i = 0; queue && i < 3 * ROOM; i += 7) {
        check_case("turn %u", i);
        CHECK(!queue_put(queue, 0, 0, bytes, LONGEST + 1));
        CHECK(!queue_put(queue, 0, 0, bytes, UINT32_MAX));
        CHECK(queue_put(queue, 1, 2, bytes, LONGEST));
        CHECK(!queue_put(queue, 0, 0, bytes, 0)); /* full */
        CHECK(queue_first(queue, &parcel) && parcel.size == LONGEST);
        queue_drop(queue, parcel);
        CHECK(queue_put(queue, 1, 2, bytes, i % 13)); /* begin elsewhere */
        CHECK(queue_first(queue, &parcel));
        queue_drop(queue, parcel);
    }
    queue_free(queue);
}

static void* put_all(void* const context)
{
    for (int64_t n = 0; n < PARCELS;) {
        n += put((Queue*)context, n);
        sched_yield();
    }
    return NULL;
}

static void one_thread_puts_while_another_takes(void)
{
    Queue* const queue = queue_new(ROOM);
    pthread_t thread;
    int wrong = 0;
    if (!CHECK(queue) || !CHECK(!pthread_create(&thread, NULL, put_all, queue))) {
        return;
    }
    for (int64_t out = 0; out < PARCELS;) {
        Parcel parcel;
        if (queue_first(queue, &parcel)) {
            wrong += !is_next(queue, parcel, out++);
            queue_drop(queue, parcel);
        } else {
            sched_yield();
        }
    }
    pthread_join(thread, NULL);
    CHECK_INT(wrong, 0);
    queue_free(queue);
}

int main(void)
{
    RUN(parcels_come_out_as_they_went_in);
    RUN(the_longest_fits_wherever_the_queue_begins_and_a_longer_one_never);
    RUN(one_thread_puts_while_another_takes);
    return tests_end();
}
