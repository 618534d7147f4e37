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

static void sort(InboxEvent* const events, const uint32_t count)
{
    for (uint32_t at = count / 2; at-- > 0;) {
        sift(events, at, count);
    }
    for (uint32_t end = count; end-- > 1;) {
        swap(&events[0], &events[end]);
        sift(events, 0, end);
    }
}

bool inbox_fill(Inbox* const inbox, InputReader* const reader)
{
    InputEvent event;
    bool in_order = true;
    inbox->count = inbox->next = 0;
    while (inbox->count < INBOX_MOST && input_next(reader, &event)) {
        const uint32_t at = inbox->count++;
        in_order = in_order && (!at || inbox->events[at - 1].frame <= event.frame);
        inbox->events[at] = (InboxEvent){event.frame, event.body, at};
    }
    if (!in_order) {
        sort(inbox->events, inbox->count);
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
