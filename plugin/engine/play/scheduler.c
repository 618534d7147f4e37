// SPDX-License-Identifier: ISC
#include "scheduler.h"

#include <stddef.h>

/* Unless its limb or its key is struck before: so that a file in a notation program shows
   the strokes' own values, and where a sampler heeds the end a cymbal rings until its hand
   is needed elsewhere. */
static const int64_t note_ticks = TICKS_PER_QUARTER;

static uint32_t block_frame(const Stretch stretch, const int64_t frame)
{
    return frame <= stretch.begin ? stretch.offset
                                  : stretch.offset + (uint32_t)(frame - stretch.begin);
}

static bool end_note(Scheduler* const scheduler, const uint32_t index, const uint32_t frame,
                     MidiList* const list)
{
    const SoundingNote note = scheduler->notes[index];
    const uint8_t status = (uint8_t)(MIDI_NOTE_OFF | note.channel);
    if (!midi_list_add(list, frame, status, note.note, MIDI_RELEASE)) {
        return false;
    }
    scheduler->notes[index] = scheduler->notes[--scheduler->count];
    return true;
}

/* The sounding note that ends first, or the count if none ends before `frame`. */
static uint32_t next_to_end(const Scheduler* const scheduler, const int64_t frame)
{
    uint32_t next = scheduler->count;
    int64_t soonest = frame;
    for (uint32_t i = 0; i < scheduler->count; ++i) {
        if (scheduler->notes[i].off_frame < soonest) {
            soonest = scheduler->notes[i].off_frame;
            next = i;
        }
    }
    return next;
}

static void end_notes_before(Scheduler* const scheduler, const int64_t frame, const Stretch stretch,
                             MidiList* const list)
{
    for (;;) {
        const uint32_t next = next_to_end(scheduler, frame);
        if (next == scheduler->count ||
            !end_note(scheduler, next, block_frame(stretch, scheduler->notes[next].off_frame),
                      list)) {
            return;
        }
    }
}

static uint32_t sounding_index(const Scheduler* const scheduler, const uint8_t note,
                               const uint8_t channel)
{
    uint32_t index = 0;
    while (index < scheduler->count &&
           (scheduler->notes[index].note != note || scheduler->notes[index].channel != channel)) {
        ++index;
    }
    return index;
}

static bool has_room(const Scheduler* const scheduler, const MidiList* const list)
{
    const uint32_t owed = scheduler->count + 1;
    return scheduler->count < SOUNDING_MAX && list->count + 1 + owed <= list->room &&
           list->count + 1 + owed <= MIDI_LIST_MAX;
}

static uint8_t key_of(const Hit hit, const Output output)
{
    const bool left_kick = output.split_feet && hit.limb == LEFT_FOOT && hit.voice == VOICE_KICK;
    return output.kit->notes[left_kick ? VOICE_KICK_LEFT : hit.voice];
}

static uint8_t channel_of(const Hit hit, const Output output)
{
    const bool clicks = hit.voice == VOICE_CLICK || hit.voice == VOICE_CLICK_ACCENT;
    return clicks ? output.click_channel : output.channel;
}

/* Two limbs on one key at once are one note, as loud as the louder. */
static void strengthen(const SoundingNote note, const uint8_t velocity, MidiList* const list)
{
    uint8_t* const now = &list->messages[note.message].bytes[2];
    *now = *now < velocity ? velocity : *now;
}

/* What the limb struck before lasts until it strikes again. */
static void end_limb(Scheduler* const scheduler, const uint8_t limb, const int64_t frame,
                     const uint32_t at, MidiList* const list)
{
    for (uint32_t i = scheduler->count; i-- > 0;) {
        const SoundingNote note = scheduler->notes[i];
        if (note.limb == limb && note.on_frame < frame && !end_note(scheduler, i, at, list)) {
            scheduler->notes[i].off_frame = frame; /* as soon as there is room */
        }
    }
}

static void strike(Scheduler* const scheduler, const Hit hit, const Output output,
                   const Clock* const clock, const Stretch stretch, const int64_t frame,
                   MidiList* const list)
{
    const uint8_t note = key_of(hit, output);
    const uint8_t channel = channel_of(hit, output);
    const uint32_t at = block_frame(stretch, frame);
    end_limb(scheduler, hit.limb, frame, at, list);
    if (note == KIT_NO_KEY) {
        return; /* a choke: the cymbal's note has ended */
    }
    const uint32_t index = sounding_index(scheduler, note, channel);
    if (index < scheduler->count && scheduler->notes[index].on_frame == frame) {
        strengthen(scheduler->notes[index], hit.velocity, list);
        return;
    }
    if (index < scheduler->count && !end_note(scheduler, index, at, list)) {
        ++scheduler->dropped;
        return;
    }
    if (!has_room(scheduler, list)) {
        ++scheduler->dropped;
        return;
    }
    const int64_t length = whole_number((double)note_ticks / clock->ticks_per_frame);
    scheduler->notes[scheduler->count++] = (SoundingNote){
        frame, frame + (length > 0 ? length : 1), list->count, note, channel, hit.limb};
    midi_list_add(list, at, (uint8_t)(MIDI_NOTE_ON | channel), note, hit.velocity);
}

void scheduler_play(Scheduler* const scheduler, const HitList* const hits, const Output output,
                    const Clock* const clock, const Stretch stretch, MidiList* const list)
{
    for (uint32_t i = 0; output.kit && i < hits->count; ++i) {
        int64_t frame = clock_frame(clock, hits->hits[i].tick);
        frame = frame >= stretch.end ? stretch.end - 1 : frame;
        frame = frame < stretch.begin ? stretch.begin : frame;
        end_notes_before(scheduler, frame + 1, stretch, list);
        strike(scheduler, hits->hits[i], output, clock, stretch, frame, list);
    }
    end_notes_before(scheduler, stretch.end, stretch, list);
}

void scheduler_silence(Scheduler* const scheduler, const uint32_t frame, MidiList* const list)
{
    for (uint32_t i = 0; i < scheduler->count; ++i) {
        scheduler->notes[i].off_frame = INT64_MIN; /* overdue from here on */
    }
    while (scheduler->count && end_note(scheduler, 0, frame, list)) {
    }
}
