// SPDX-License-Identifier: ISC
#include "inbox.h"

static bool is_before(const InboxEvent a, const InboxEvent b)
{
    return a.frame < b.frame || (a.frame == b.frame && a.at < b.at);
}

static void swap(InboxEvent* const a, InboxEvent* const b)
{
    const InboxEvent old = *a;
    *a = *b;
    *b = old;
}

/* Heapsort: in place, and never worse than n log n whatever a host hands over. */
static void sift(InboxEvent* const events, uint32_t at, const uint32_t count)
{
    for (;;) {
        uint32_t last = 2 * at + 1; /* the later of the two below */
        if (last >= count) {
            return;
        }
        last += last + 1 < count && is_before(events[last], events[last + 1]);
        if (!is_before(events[at], events[last])) {
            return;
        }
        swap(&events[at], &events[last]);
        at = last;
    }
}

static void make_heap(InboxEvent* const events, const uint32_t count)
{
    for (uint32_t at = count / 2; at-- > 0;) {
        sift(events, at, count);
    }
}

static void sort(InboxEvent* const events, const uint32_t count)
{
    make_heap(events, count);
    for (uint32_t end = count; end-- > 1;) {
        swap(&events[0], &events[end]);
        sift(events, 0, end);
    }
}

static bool is_in_order(const Inbox* const inbox)
{
    uint32_t at = 1;
    while (at < inbox->count && is_before(inbox->events[at - 1], inbox->events[at])) {
        ++at;
    }
    return at >= inbox->count;
}

/* Once the hand is full its latest event is on top, and gives way to any earlier one. */
static void take(Inbox* const inbox, const InboxEvent event)
{
    if (inbox->count < INBOX_HAND) {
        inbox->events[inbox->count++] = event;
        if (inbox->count == INBOX_HAND) {
            make_heap(inbox->events, INBOX_HAND);
        }
    } else if (is_before(event, inbox->events[0])) {
        inbox->events[0] = event;
        sift(inbox->events, 0, INBOX_HAND);
    }
}

static void begin(Inbox* const inbox, InputReader* const reader)
{
    InputEvent event;
    inbox->begin = *reader;
    inbox->size = 0;
    while (inbox->size < INBOX_MOST && input_next(reader, &event)) {
        ++inbox->size;
    }
    inbox->left = inbox->size;
}

bool inbox_fill(Inbox* const inbox, InputReader* const reader)
{
    InputEvent event;
    if (!inbox->left && input_is_left(reader)) {
        begin(inbox, reader);
    }
    if (!inbox->left) {
        inbox->count = inbox->next = 0;
        return false;
    }
    const bool is_first = inbox->left == inbox->size;
    InputReader again = inbox->begin;
    inbox->count = inbox->next = 0;
    for (uint32_t at = 0; at < inbox->size && input_next(&again, &event); ++at) {
        const InboxEvent found = {event.frame, event.body, at};
        if (is_first || is_before(inbox->newest, found)) {
            take(inbox, found);
        }
    }
    if (!is_in_order(inbox)) {
        sort(inbox->events, inbox->count);
    }
    inbox->left -= inbox->count;
    if (inbox->count) {
        inbox->newest = inbox->events[inbox->count - 1];
    }
    return inbox->count > 0;
}

bool inbox_next(Inbox* const inbox, InputEvent* const event)
{
    if (inbox->next == inbox->count) {
        return false;
    }
    const InboxEvent next = inbox->events[inbox->next++];
    *event = (InputEvent){next.frame, next.body};
    return true;
}
