// SPDX-License-Identifier: ISC
#include "encode.h"

#include "fields.h"

void encode_begin(LV2_Atom_Forge* const forge, LV2_Atom_Forge_Frame* const frame,
                  const LV2_URID property, const Uris* const uris)
{
    lv2_atom_forge_object(forge, frame, 0, uris->fl_Message);
    lv2_atom_forge_key(forge, property);
}

bool encode_has_room(const LV2_Atom_Forge* const forge, const size_t value_bytes)
{
    return forge->size - forge->offset >= ENCODE_HEAD_BYTES + value_bytes;
}

void encode_begin_event(LV2_Atom_Forge* const forge, LV2_Atom_Forge_Frame* const frame,
                        const LV2_URID property, const Uris* const uris)
{
    lv2_atom_forge_frame_time(forge, 0);
    encode_begin(forge, frame, property, uris);
}

static void encode_numbers(LV2_Atom_Forge* const forge, const double* const numbers,
                           const uint32_t count, const Uris* const uris)
{
    lv2_atom_forge_vector(forge, sizeof(double), uris->atom_Double, count, numbers);
}

static void encode_integers(LV2_Atom_Forge* const forge, const int32_t* const numbers,
                            const uint32_t count, const Uris* const uris)
{
    lv2_atom_forge_vector(forge, sizeof(int32_t), uris->atom_Int, count, numbers);
}

static void encode_strokes(LV2_Atom_Forge* const forge, const SeenBar* const bar,
                           const Uris* const uris)
{
    LV2_Atom_Forge_Frame frame;
    lv2_atom_forge_vector_head(forge, &frame, sizeof(int32_t), uris->atom_Int);
    for (uint32_t i = 0; i < bar->count; ++i) {
        const SeenStroke stroke = bar->strokes[i];
        lv2_atom_forge_int(forge, stroke.written);
        lv2_atom_forge_int(forge, stroke.felt);
        lv2_atom_forge_int(forge, stroke.limb | stroke.voice << PACK_VOICE |
                                      stroke.level << PACK_LEVEL | stroke.is_grace << PACK_GRACE);
        lv2_atom_forge_int(forge, stroke.velocity | stroke.free << PACK_FREE);
    }
    lv2_atom_forge_pop(forge, &frame);
}

#define AS_NUMBER(type, field) (double)from->field,

void encode_bar(LV2_Atom_Forge* const forge, const SeenBar* const from, const Uris* const uris)
{
    LV2_Atom_Forge_Frame frame;
    const double head[] = {BAR_FIELDS(AS_NUMBER)};
    lv2_atom_forge_tuple(forge, &frame);
    encode_numbers(forge, head, BAR_FIELD_COUNT, uris);
    encode_integers(forge, from->hands_turns.ticks, from->hands_turns.count, uris);
    encode_integers(forge, from->feet_turns.ticks, from->feet_turns.count, uris);
    encode_strokes(forge, from, uris);
    encode_integers(forge, from->clicks.ticks, from->clicks.count, uris);
    lv2_atom_forge_pop(forge, &frame);
}

void encode_place(LV2_Atom_Forge* const forge, const SeenPlace* const from, const Uris* const uris)
{
    const double fields[] = {PLACE_FIELDS(AS_NUMBER)};
    encode_numbers(forge, fields, PLACE_FIELD_COUNT, uris);
}

void encode_section(LV2_Atom_Forge* const forge, const ToldSection* const from,
                    const Uris* const uris)
{
    LV2_Atom_Forge_Frame frame;
    const double place[] = {SECTION_FIELDS(AS_NUMBER)};
    lv2_atom_forge_object(forge, &frame, 0, uris->fl_ToldSection);
    lv2_atom_forge_key(forge, uris->fl_sectionPlace);
    encode_numbers(forge, place, SECTION_FIELD_COUNT, uris);
    lv2_atom_forge_key(forge, uris->fl_sectionControls);
    lv2_atom_forge_vector(forge, sizeof(float), uris->atom_Float, CONTROL_COUNT, from->controls);
    lv2_atom_forge_pop(forge, &frame);
}

#define FIELD_ALIKE(type, field) &&!(a->field < b->field) && !(a->field > b->field)

bool encode_places_alike(const SeenPlace* const a, const SeenPlace* const b)
{
    return true PLACE_FIELDS(FIELD_ALIKE);
}

void encode_piece(LV2_Atom_Forge* const forge, const Piece* const piece, const Uris* const uris)
{
    const int32_t numbers[] = {piece->which, piece->at, piece->whole};
    LV2_Atom_Forge_Frame frame;
    lv2_atom_forge_tuple(forge, &frame);
    encode_integers(forge, numbers, 3, uris);
    lv2_atom_forge_string(forge, piece->text, (uint32_t)piece->length);
    lv2_atom_forge_pop(forge, &frame);
}

void encode_kept(LV2_Atom_Forge* const forge, const KeptWord* const word)
{
    LV2_Atom_Forge_Frame frame;
    lv2_atom_forge_tuple(forge, &frame);
    lv2_atom_forge_int(forge, word->slot);
    lv2_atom_forge_string(forge, word->name, (uint32_t)word->length);
    lv2_atom_forge_pop(forge, &frame);
}

void encode_look(LV2_Atom_Forge* const forge, const LV2_URID wanted, const Uris* const uris)
{
    LV2_Atom_Forge_Frame frame;
    lv2_atom_forge_object(forge, &frame, 0, uris->fl_Look);
    if (wanted) {
        lv2_atom_forge_key(forge, uris->fl_wants);
        lv2_atom_forge_urid(forge, wanted);
    }
    lv2_atom_forge_pop(forge, &frame);
}
