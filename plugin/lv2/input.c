// SPDX-License-Identifier: ISC
#include "input.h"

#include <stddef.h>
#include <string.h>

InputReader input_reader(const LV2_Atom_Sequence* const sequence, const Uris* const uris)
{
    const bool good = sequence && sequence->atom.type == uris->atom_Sequence &&
                      sequence->atom.size >= sizeof(LV2_Atom_Sequence_Body);
    return (InputReader){good ? sequence : NULL, sizeof(LV2_Atom_Sequence_Body)};
}

static uint32_t padded(const uint32_t size)
{
    return (size + 7U) & ~7U;
}

bool input_next(InputReader* const reader, InputEvent* const event)
{
    const uint32_t end = reader->sequence ? reader->sequence->atom.size : 0;
    if (end < reader->at || end - reader->at < sizeof(LV2_Atom_Event)) {
        return false;
    }
    const char* const bytes = (const char*)&reader->sequence->body + reader->at;
    const LV2_Atom_Event* const found = (const LV2_Atom_Event*)(const void*)bytes;
    const uint32_t room = end - reader->at - (uint32_t)sizeof(LV2_Atom_Event);
    if (found->body.size > room) {
        return false;
    }
    *event = (InputEvent){found->time.frames, &found->body};
    reader->at += (uint32_t)sizeof(LV2_Atom_Event) + padded(found->body.size);
    return true;
}

/* The atom's number, whatever numeric type a host chose. */
static bool number(const LV2_Atom* const atom, const Uris* const uris, double* const value)
{
    const void* const body = atom + 1;
    if (atom->type == uris->atom_Float && atom->size >= sizeof(float)) {
        float number32 = 0.0f;
        memcpy(&number32, body, sizeof number32);
        *value = (double)number32;
    } else if (atom->type == uris->atom_Double && atom->size >= sizeof(double)) {
        memcpy(value, body, sizeof *value);
    } else if (atom->type == uris->atom_Long && atom->size >= sizeof(int64_t)) {
        int64_t number64 = 0;
        memcpy(&number64, body, sizeof number64);
        *value = (double)number64;
    } else if ((atom->type == uris->atom_Int || atom->type == uris->atom_Bool) &&
               atom->size >= sizeof(int32_t)) {
        int32_t number32 = 0;
        memcpy(&number32, body, sizeof number32);
        *value = (double)number32;
    } else {
        return false;
    }
    return true;
}

/* A double as a whole number; wild ones become one that report_clean drops. */
static int64_t whole(const double value)
{
    return value > -9.1e15 && value < 9.1e15 ? (int64_t)value : INT64_MAX / 2;
}

static void take_field(const LV2_URID key, const double value, const Uris* const uris,
                       Report* const report)
{
    if (key == uris->time_frame) {
        report->has |= HAS_FRAME;
        report->frame = whole(value);
    } else if (key == uris->time_speed) {
        report->has |= HAS_SPEED;
        report->speed = value;
    } else if (key == uris->time_bar) {
        report->has |= HAS_BAR;
        report->bar = whole(value);
    } else if (key == uris->time_barBeat) {
        report->has |= HAS_BAR_BEAT;
        report->bar_beat = value;
    } else if (key == uris->time_beat) {
        report->has |= HAS_BEAT;
        report->beat = value;
    } else if (key == uris->time_beatUnit) {
        report->has |= HAS_BEAT_UNIT;
        report->beat_unit = value >= 1.0 && value <= 1024.0 ? (int32_t)value : 0;
    } else if (key == uris->time_beatsPerBar) {
        report->has |= HAS_BEATS_PER_BAR;
        report->beats_per_bar = value;
    } else if (key == uris->time_beatsPerMinute) {
        report->has |= HAS_BEATS_PER_MINUTE;
        report->beats_per_minute = value;
    }
}

/* The type of an object, or 0 if it isn't one. */
static LV2_URID object_type(const LV2_Atom* const body, const Uris* const uris)
{
    const bool is_object = body->type == uris->atom_Object || body->type == uris->atom_Blank;
    if (!is_object || body->size < sizeof(LV2_Atom_Object_Body)) {
        return 0;
    }
    return ((const LV2_Atom_Object*)(const void*)body)->body.otype;
}

/* Steps through an object's properties; NULL at the end, or where sizes stop making
   sense.  *at is sizeof(LV2_Atom_Object_Body) at first. */
static const LV2_Atom_Property_Body* next_property(const LV2_Atom* const body, uint32_t* const at)
{
    if (body->size < *at || body->size - *at < sizeof(LV2_Atom_Property_Body)) {
        return NULL;
    }
    const char* const bytes = (const char*)(body + 1) + *at;
    const LV2_Atom_Property_Body* const property =
        (const LV2_Atom_Property_Body*)(const void*)bytes;
    const uint32_t room = body->size - *at - (uint32_t)sizeof(LV2_Atom_Property_Body);
    if (property->value.size > room) {
        return NULL;
    }
    *at += (uint32_t)sizeof(LV2_Atom_Property_Body) + padded(property->value.size);
    return property;
}

bool input_report(const LV2_Atom* const body, const Uris* const uris, Report* const report)
{
    if (object_type(body, uris) != uris->time_Position) {
        return false;
    }
    *report = (Report){.has = 0};
    uint32_t at = sizeof(LV2_Atom_Object_Body);
    for (const LV2_Atom_Property_Body* property; (property = next_property(body, &at));) {
        double value = 0.0;
        if (number(&property->value, uris, &value)) {
            take_field(property->key, value, uris, report);
        }
    }
    return true;
}
