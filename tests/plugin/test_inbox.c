// SPDX-License-Identifier: ISC
/* test_inbox.c - a block's input comes in order of time, whatever order a host wrote it in:
   compared with the C library's qsort, with the place as written where frames are the
   same.  Hosts that merge sources by appending them were met; as many events as here not. */
#include "../../plugin/lv2/inbox.h"
#include "../help/check.h"

#include <lv2/midi/midi.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { EVENTS_MOST = 9000, SEQUENCE = 1, MIDI = 2 };

typedef struct {
    LV2_Atom_Event event;
    uint64_t number; /* what tells it from the others */
} Written;

typedef struct {
    LV2_Atom_Sequence sequence;
    Written events[EVENTS_MOST];
} Buffer;

typedef enum { IN_ORDER, BACKWARD, BY_CHANCE, TWO_SOURCES, ALL_AT_ONCE, SHAPES } Shape;

static Buffer buffer;
static Inbox inbox;

static int64_t frame_of(const Shape shape, const uint32_t i, const uint32_t count)
{
    switch (shape) {
    case IN_ORDER:
        return i / 3;
    case BACKWARD:
        return count - i;
    case BY_CHANCE:
        return rand() % 64 - 8; /* also outside the block */
    case TWO_SOURCES:
        return i % (count / 2 + 1);
    case ALL_AT_ONCE:
    case SHAPES:
        break;
    }
    return 0;
}

static void write_events(const Shape shape, const uint32_t count)
{
    buffer.sequence.atom =
        (LV2_Atom){(uint32_t)(sizeof buffer.sequence.body + count * sizeof(Written)), SEQUENCE};
    for (uint32_t i = 0; i < count; ++i) {
        buffer.events[i] = (Written){.number = i};
        buffer.events[i].event.time.frames = frame_of(shape, i, count);
        buffer.events[i].event.body = (LV2_Atom){sizeof(uint64_t), MIDI};
    }
}

static int by_frame(const void* const a, const void* const b)
{
    const Written* const left = (const Written*)a;
    const Written* const right = (const Written*)b;
    const int64_t apart = left->event.time.frames - right->event.time.frames;
    return apart ? (apart > 0) - (apart < 0)
                 : (left->number > right->number) - (left->number < right->number);
}

/* Each 4096 of them are put in order, and follow each other. */
static void check_order(const Shape shape, const uint32_t count)
{
    static Written wanted[EVENTS_MOST];
    const Uris uris = {.atom_Sequence = SEQUENCE};
    write_events(shape, count);
    memcpy(wanted, buffer.events, count * sizeof *wanted);
    for (uint32_t from = 0; from < count; from += INBOX_MOST) {
        const uint32_t left = count - from;
        qsort(wanted + from, left < INBOX_MOST ? left : INBOX_MOST, sizeof *wanted, by_frame);
    }
    InputReader reader = input_reader(&buffer.sequence, &uris);
    InputEvent event;
    uint32_t met = 0;
    uint32_t wrong = 0;
    while (inbox_fill(&inbox, &reader)) {
        for (; inbox_next(&inbox, &event); ++met) {
            uint64_t number = 0;
            memcpy(&number, event.body + 1, sizeof number);
            wrong += met >= count || number != wanted[met].number ||
                     event.frame != wanted[met].event.time.frames;
        }
    }
    CHECK_INT(met, count);
    CHECK_INT(wrong, 0);
}

static void events_come_in_order_of_time_however_many_there_are(void)
{
    static const uint32_t counts[] = {0, 1, 2, 255, 256, 257, 512, 1000, 4096, 4097, 9000};
    for (int shape = 0; shape < SHAPES; ++shape) {
        for (size_t i = 0; i < sizeof counts / sizeof *counts; ++i) {
            check_case("shape %d, %u events", shape, counts[i]);
            check_order((Shape)shape, counts[i]);
        }
    }
}

int main(void)
{
    RUN(events_come_in_order_of_time_however_many_there_are);
    return tests_end();
}
