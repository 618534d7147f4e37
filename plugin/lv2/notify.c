// SPDX-License-Identifier: ISC
#include "notify.h"

#include <string.h>

/* Bytes of one patch:Set less its value's body: event, object, two properties. */
enum { SET_BYTES = 128 };

void notify_init(Notify* const notify, LV2_URID_Map* const map, const char* const bank_messages)
{
    *notify = (Notify){.bank_messages = bank_messages};
    lv2_atom_forge_init(&notify->forge, map);
}

static bool has_room(const LV2_Atom_Forge* const forge, const size_t value_bytes)
{
    return forge->size - forge->offset >= SET_BYTES + value_bytes;
}

static void begin_set(LV2_Atom_Forge* const forge, LV2_Atom_Forge_Frame* const frame,
                      const LV2_URID property, const Uris* const uris)
{
    lv2_atom_forge_frame_time(forge, 0);
    lv2_atom_forge_object(forge, frame, 0, uris->patch_Set);
    lv2_atom_forge_key(forge, uris->patch_property);
    lv2_atom_forge_urid(forge, property);
    lv2_atom_forge_key(forge, uris->patch_value);
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
    if (forge->size > 2 * SET_BYTES && length > forge->size - 2 * SET_BYTES) {
        length = forge->size - 2 * SET_BYTES; /* cut to what the port can ever take */
    }
    if (has_room(forge, length + 1)) {
        LV2_Atom_Forge_Frame frame;
        begin_set(forge, &frame, uris->fl_bankMessages, uris);
        lv2_atom_forge_string(forge, notify->bank_messages, (uint32_t)length);
        lv2_atom_forge_pop(forge, &frame);
        notify->asked = false;
    }
}

void notify_run(Notify* const notify, LV2_Atom_Sequence* const sequence, const uint32_t dropped,
                const Uris* const uris)
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
    if (notify->asked || dropped != notify->told_dropped) {
        tell_dropped(notify, dropped, uris);
    }
    if (notify->asked) {
        tell_bank(notify, uris);
    }
    lv2_atom_forge_pop(&notify->forge, &frame);
}
