// SPDX-License-Identifier: ISC
#include "notify.h"

#include <string.h>

static const double watch_seconds = 3.0;
static const double places_a_second = 30.0;

enum { FRAMES_A_STEP = 512 }; /* of looking ahead */

void notify_init(Notify* const notify, LV2_URID_Map* const map, const char* const bank_messages,
                 const double rate)
{
    notify->bank_messages = bank_messages;
    notify->told_dropped = 0;
    notify->asked = false;
    notify->rate = rate;
    notify->watched = 0;
    lv2_atom_forge_init(&notify->forge, map);
    outlook_start(&notify->outlook);
}

void notify_ask(Notify* const notify, const LV2_URID property)
{
    if (!property) {
        notify->asked = true;
    }
    if (!property || notify->watched <= 0) { /* a new onlooker knows nothing yet */
        outlook_start(&notify->outlook);
        notify->since_place = INT64_MAX / 2;
        notify->told_place = (SeenPlace){.bar = INT64_MIN};
    }
    notify->watched = (int64_t)(watch_seconds * notify->rate);
}

static bool has_room(const LV2_Atom_Forge* const forge, const size_t value_bytes)
{
    return forge->size - forge->offset >= TELL_SET_BYTES + value_bytes;
}

static void begin_set(LV2_Atom_Forge* const forge, LV2_Atom_Forge_Frame* const frame,
                      const LV2_URID property, const Uris* const uris)
{
    lv2_atom_forge_frame_time(forge, 0);
    tell_begin_set(forge, frame, property, uris);
}

static void tell_dropped(Notify* const notify, const uint32_t dropped, const Uris* const uris)
{
    LV2_Atom_Forge* const forge = &notify->forge;
    if (has_room(forge, sizeof(int64_t))) {
        LV2_Atom_Forge_Frame frame;
        begin_set(forge, &frame, uris->fl_droppedStrokes, uris);
        lv2_atom_forge_long(forge, dropped);
        lv2_atom_forge_pop(forge, &frame);
        notify->told_dropped = dropped;
    }
}

static void tell_bank(Notify* const notify, const Uris* const uris)
{
    LV2_Atom_Forge* const forge = &notify->forge;
    size_t length = strlen(notify->bank_messages);
    if (forge->size > 2 * TELL_SET_BYTES && length > forge->size - 2 * TELL_SET_BYTES) {
        length = forge->size - 2 * TELL_SET_BYTES; /* cut to what the port can ever take */
    }
    if (has_room(forge, length + 1)) {
        LV2_Atom_Forge_Frame frame;
        begin_set(forge, &frame, uris->fl_bankMessages, uris);
        lv2_atom_forge_string(forge, notify->bank_messages, (uint32_t)length);
        lv2_atom_forge_pop(forge, &frame);
        notify->asked = false;
    }
}

static bool places_alike(const SeenPlace* const a, const SeenPlace* const b)
{
    return a->bar == b->bar && !(a->tick < b->tick) && !(a->tick > b->tick) &&
           a->rolling == b->rolling && a->waiting == b->waiting &&
           a->host_has_tempo == b->host_has_tempo && a->host_has_place == b->host_has_place &&
           a->phrase == b->phrase && a->phrase_bars == b->phrase_bars &&
           a->change_bar == b->change_bar && a->change_tick == b->change_tick &&
           a->feet_meet == b->feet_meet && a->all_meet == b->all_meet;
}

/* Thirty times a second at most, and only where it has changed. */
static void tell_new_place(Notify* const notify, const Engine* const engine, const Uris* const uris)
{
    LV2_Atom_Forge* const forge = &notify->forge;
    if ((double)notify->since_place * places_a_second < notify->rate ||
        !has_room(forge, sizeof(SeenPlace) * 4)) {
        return;
    }
    const SeenPlace place = outlook_place(&notify->outlook, engine);
    notify->since_place = 0;
    if (!places_alike(&place, &notify->told_place)) {
        LV2_Atom_Forge_Frame frame;
        begin_set(forge, &frame, uris->fl_place, uris);
        tell_place(forge, &place, uris);
        lv2_atom_forge_pop(forge, &frame);
        notify->told_place = place;
    }
}

/* A bar is of a phrase: which that is must be told first. */
static bool has_told_phrase(Notify* const notify, const Engine* const engine,
                            const Uris* const uris)
{
    const SeenPlace* const told = &notify->told_place;
    for (int tries = 0; tries < 2; ++tries) {
        const SeenPlace now = outlook_place(&notify->outlook, engine);
        if (told->bar != INT64_MIN && told->phrase == now.phrase &&
            told->phrase_bars == now.phrase_bars) {
            return true;
        }
        notify->since_place = INT64_MAX / 2;
        tell_new_place(notify, engine, uris);
    }
    return false;
}

static void tell_next_bar(Notify* const notify, const Engine* const engine, const Uris* const uris)
{
    LV2_Atom_Forge* const forge = &notify->forge;
    if (!notify->outlook.is_ready || !has_told_phrase(notify, engine, uris) ||
        !has_room(forge, TELL_BAR_BYTES)) {
        return;
    }
    LV2_Atom_Forge_Frame frame;
    begin_set(forge, &frame, uris->fl_bar, uris);
    tell_bar(forge, outlook_fetch(&notify->outlook), uris);
    lv2_atom_forge_pop(forge, &frame);
}

static void tell_onlooker(Notify* const notify, const Engine* const engine, const uint32_t frames,
                          const Uris* const uris)
{
    notify->watched -= frames;
    notify->since_place += frames;
    tell_new_place(notify, engine, uris);
    tell_next_bar(notify, engine, uris); /* that had no room last time */
    for (uint32_t done = 0; done < frames; done += FRAMES_A_STEP) {
        outlook_step(&notify->outlook, engine);
        tell_next_bar(notify, engine, uris);
    }
}

void notify_run(Notify* const notify, LV2_Atom_Sequence* const sequence, const Engine* const engine,
                const uint32_t frames, const Uris* const uris)
{
    if (!sequence) {
        return;
    }
    const uint32_t capacity = sequence->atom.size;
    if (capacity < sizeof(LV2_Atom_Sequence)) {
        sequence->atom = (LV2_Atom){0, 0};
        return;
    }
    LV2_Atom_Forge_Frame frame;
    lv2_atom_forge_set_buffer(&notify->forge, (uint8_t*)sequence, capacity);
    lv2_atom_forge_sequence_head(&notify->forge, &frame, 0);
    const uint32_t dropped = engine_dropped(engine);
    if (notify->asked || dropped != notify->told_dropped) {
        tell_dropped(notify, dropped, uris);
    }
    if (notify->asked) {
        tell_bank(notify, uris);
    }
    if (notify->watched > 0) {
        tell_onlooker(notify, engine, frames, uris);
    }
    lv2_atom_forge_pop(&notify->forge, &frame);
}
