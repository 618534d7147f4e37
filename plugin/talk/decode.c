// SPDX-License-Identifier: ISC
#include "decode.h"

#include "fields.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

static const int64_t most_bars = 1000000; /* its ticks fit, in any meter */

static uint32_t padded(const uint32_t size)
{
    return (size + 7U) & ~7U;
}

/* A walk through the bytes of a body. */
typedef struct {
    const char* bytes;
    uint32_t size;
    uint32_t at;
} Walk;

/* The next whole atom with `before` bytes in front of it; NULL at the end. */
static const LV2_Atom* walk_on(Walk* const walk, const uint32_t before)
{
    const uint32_t head = before + (uint32_t)sizeof(LV2_Atom);
    if (walk->at > walk->size || walk->size - walk->at < head) {
        return NULL;
    }
    const LV2_Atom* const atom = (const LV2_Atom*)(const void*)(walk->bytes + walk->at + before);
    if (atom->size > walk->size - walk->at - head) {
        return NULL;
    }
    walk->at += head + padded(atom->size);
    return atom;
}

static bool as_urid(const LV2_Atom* const atom, const Uris* const uris, LV2_URID* const urid)
{
    if (atom->type != uris->atom_URID || atom->size < sizeof *urid) {
        return false;
    }
    memcpy(urid, atom + 1, sizeof *urid);
    return true;
}

/* True, and a walk through its properties, if it is an object of the type. */
static bool walk_object(const LV2_Atom* const message, const uint32_t size, const Uris* const uris,
                        const LV2_URID type, Walk* const walk)
{
    if (size < sizeof *message || message->size > size - sizeof *message ||
        (message->type != uris->atom_Object && message->type != uris->atom_Blank) ||
        message->size < sizeof(LV2_Atom_Object_Body) ||
        ((const LV2_Atom_Object*)(const void*)message)->body.otype != type) {
        return false;
    }
    *walk = (Walk){(const char*)(message + 1), message->size, sizeof(LV2_Atom_Object_Body)};
    return true;
}

/* The next property's value, and its key; NULL at the end. */
static const LV2_Atom* walk_properties(Walk* const walk, LV2_URID* const key)
{
    const char* const at = walk->bytes + walk->at;
    const LV2_Atom* const atom = walk_on(walk, offsetof(LV2_Atom_Property_Body, value));
    *key = atom ? ((const LV2_Atom_Property_Body*)(const void*)at)->key : 0;
    return atom;
}

bool decode_message(const LV2_Atom* const message, const uint32_t size, const Uris* const uris,
                    LV2_URID* const property, const LV2_Atom** const value)
{
    Walk walk;
    return walk_object(message, size, uris, uris->fl_Message, &walk) &&
           (*value = walk_properties(&walk, property));
}

bool decode_look(const LV2_Atom* const message, const uint32_t size, const Uris* const uris,
                 LV2_URID* const wanted)
{
    Walk walk;
    LV2_URID key = 0;
    *wanted = 0;
    if (!walk_object(message, size, uris, uris->fl_Look, &walk)) {
        return false;
    }
    const LV2_Atom* const atom = walk_properties(&walk, &key);
    return !atom || (key == uris->fl_wants && as_urid(atom, uris, wanted));
}

/* The elements of a vector of this type and element size. */
static const char* elements_of(const LV2_Atom* const atom, const Uris* const uris,
                               const LV2_URID type, const uint32_t element, uint32_t* const count)
{
    if (!atom || atom->type != uris->atom_Vector || atom->size < sizeof(LV2_Atom_Vector_Body)) {
        return NULL;
    }
    const LV2_Atom_Vector_Body* const body = (const LV2_Atom_Vector_Body*)(const void*)(atom + 1);
    if (body->child_type != type || body->child_size != element) {
        return NULL;
    }
    *count = (atom->size - (uint32_t)sizeof *body) / element;
    return (const char*)(body + 1);
}

/* The numbers of a vector; those missing, or not a number, are 0. */
static bool numbers_of(const LV2_Atom* const atom, const Uris* const uris, double* const numbers,
                       const uint32_t wanted)
{
    uint32_t count = 0;
    const char* const bytes = elements_of(atom, uris, uris->atom_Double, sizeof(double), &count);
    if (!bytes) {
        return false;
    }
    for (uint32_t i = 0; i < wanted; ++i) {
        numbers[i] = 0.0;
        if (i < count) {
            memcpy(&numbers[i], bytes + i * sizeof(double), sizeof(double));
        }
        if (!(fabs(numbers[i]) < 1e15)) {
            numbers[i] = 0.0;
        }
    }
    return true;
}

/* A double outside a type's range has no defined value in it. */
static int64_t as_int64_t(const double number)
{
    return (int64_t)number;
}

static int32_t as_int32_t(const double number)
{
    return number > 2e9 ? 2000000000 : number < -2e9 ? -2000000000 : (int32_t)number;
}

static uint32_t as_uint32_t(const double number)
{
    return number < 0.0 ? 0U : (uint32_t)as_int32_t(number);
}

static uint8_t as_uint8_t(const double number)
{
    return number < 0.0 ? 0U : number > 255.0 ? 255U : (uint8_t)as_int32_t(number);
}

static bool as_bool(const double number)
{
    return number > 0.0;
}

static double as_double(const double number)
{
    return number;
}

#define TAKE_NUMBER(type, field) to->field = as_##type(*number++);

bool decode_place(const LV2_Atom* const value, const Uris* const uris, SeenPlace* const to)
{
    double numbers[PLACE_FIELD_COUNT];
    const double* number = numbers;
    if (!numbers_of(value, uris, numbers, PLACE_FIELD_COUNT)) {
        return false;
    }
    PLACE_FIELDS(TAKE_NUMBER)
    if (to->phrase_bars < 1 || to->phrase_bars > FORM_BARS_MAX) {
        to->phrase_bars = 1;
    }
    return true;
}

/* Whole numbers, at most `room`; how many. */
static uint32_t decode_integers(const LV2_Atom* const atom, const Uris* const uris,
                                int32_t* const numbers, const uint32_t room)
{
    uint32_t count = 0;
    const char* const bytes = elements_of(atom, uris, uris->atom_Int, sizeof(int32_t), &count);
    const uint32_t kept = !bytes ? 0 : count < room ? count : room;
    if (kept) {
        memcpy(numbers, bytes, kept * sizeof(int32_t));
    }
    return kept;
}

static void decode_turns(const LV2_Atom* const atom, const Uris* const uris, SeenTurns* const turns)
{
    turns->count = decode_integers(atom, uris, turns->ticks, SEEN_TURNS_MAX);
}

static void decode_strokes(const LV2_Atom* const atom, const Uris* const uris, SeenBar* const bar)
{
    uint32_t count = 0;
    const char* const bytes = elements_of(atom, uris, uris->atom_Int, sizeof(int32_t), &count);
    bar->count = 0;
    for (uint32_t i = 0; bytes && i + STROKE_NUMBERS <= count; i += STROKE_NUMBERS) {
        int32_t numbers[STROKE_NUMBERS];
        memcpy(numbers, bytes + i * sizeof(int32_t), sizeof numbers);
        const uint32_t packed = (uint32_t)numbers[2];
        const SeenStroke stroke = {
            .written = numbers[0],
            .felt = numbers[1],
            .limb = packed & PACK_MASK,
            .voice = packed >> PACK_VOICE & PACK_MASK,
            .level = packed >> PACK_LEVEL & PACK_MASK,
            .velocity = (uint8_t)(numbers[3] & PACK_MASK),
            .is_grace = packed >> PACK_GRACE & PACK_MASK,
            .free = (uint32_t)numbers[3] >> PACK_FREE & PACK_MASK,
        };
        if (stroke.limb < LIMB_COUNT && stroke.voice < VOICE_COUNT && stroke.level <= LEVEL_DRAG &&
            bar->count < SEEN_STROKES_MAX) {
            bar->strokes[bar->count++] = stroke;
        }
    }
}

/* As of a host's reports: shorter bars would be work without end. */
static bool meter_makes_sense(const Meter meter)
{
    const int32_t unit = meter.beat_unit;
    return meter.beats_per_bar >= 0.5 && meter.beats_per_bar <= 256.0 && unit >= 1 && unit <= 32 &&
           !(unit & (unit - 1));
}

/* A fill reaches from somewhere in the bar to a line; at most four bars of 256 beats. */
static bool fill_makes_sense(const SeenBar* const bar)
{
    return !bar->fill || (bar->fill_begin >= 0 && bar->fill_end > bar->fill_begin &&
                          bar->fill_begin < meter_bar_ticks(bar->meter) && bar->fill_step > 0);
}

static bool bar_makes_sense(const SeenBar* const bar)
{
    return meter_makes_sense(bar->meter) && bar->phrase_bars >= 1 &&
           bar->phrase_bars <= FORM_BARS_MAX && bar->in_phrase < bar->phrase_bars &&
           bar->part < PARTS_MAX && bar->slot < SEEN_BARS && bar->hands_step >= 0 &&
           bar->feet_step >= 0 && fill_makes_sense(bar);
}

bool decode_bar(const LV2_Atom* const value, const Uris* const uris, SeenBar* const bar)
{
    double numbers[BAR_FIELD_COUNT];
    const double* number = numbers;
    if (value->type != uris->atom_Tuple) {
        return false;
    }
    Walk walk = {(const char*)(value + 1), value->size, 0};
    SeenBar heard = {.count = 0};
    SeenBar* const to = &heard;
    if (!numbers_of(walk_on(&walk, 0), uris, numbers, BAR_FIELD_COUNT)) {
        return false;
    }
    BAR_FIELDS(TAKE_NUMBER)
    if (!bar_makes_sense(to)) {
        return false;
    }
    decode_turns(walk_on(&walk, 0), uris, &heard.hands_turns);
    decode_turns(walk_on(&walk, 0), uris, &heard.feet_turns);
    decode_strokes(walk_on(&walk, 0), uris, &heard);
    heard.clicks.count =
        decode_integers(walk_on(&walk, 0), uris, heard.clicks.ticks, SEEN_CLICKS_MAX);
    *bar = heard;
    return true;
}

/* The values of the control ports; those missing are at their defaults. */
static void decode_controls(const LV2_Atom* const atom, const Uris* const uris,
                            float values[CONTROL_COUNT])
{
    uint32_t count = 0;
    const char* const bytes = elements_of(atom, uris, uris->atom_Float, sizeof(float), &count);
    for (uint32_t i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].normal;
        if (bytes && i < count) {
            memcpy(&values[i], bytes + i * sizeof(float), sizeof(float));
        }
    }
}

static bool section_makes_sense(const ToldSection* const section)
{
    return meter_makes_sense(section->meter) && section->tempo >= 1.0 && section->tempo <= 2000.0 &&
           section->bar >= 0 && section->bar < most_bars && section->origin >= 0 &&
           section->origin < most_bars && section->tick >= 0 &&
           section->tick < meter_bar_ticks(section->meter);
}

bool decode_section(const LV2_Atom* const message, const uint32_t size, const Uris* const uris,
                    ToldSection* const to)
{
    Walk walk;
    const LV2_Atom *place = NULL, *controls = NULL;
    double numbers[SECTION_FIELD_COUNT] = {0.0};
    const double* number = numbers;
    LV2_URID key = 0;
    if (!walk_object(message, size, uris, uris->fl_ToldSection, &walk)) {
        return false;
    }
    for (const LV2_Atom* atom; (atom = walk_properties(&walk, &key));) {
        place = key == uris->fl_sectionPlace ? atom : place;
        controls = key == uris->fl_sectionControls ? atom : controls;
    }
    if (!numbers_of(place, uris, numbers, SECTION_FIELD_COUNT)) {
        return false;
    }
    SECTION_FIELDS(TAKE_NUMBER)
    decode_controls(controls, uris, to->controls);
    return section_makes_sense(to);
}

bool decode_kept(const LV2_Atom* const value, const Uris* const uris, KeptWord* const word)
{
    if (value->type != uris->atom_Tuple) {
        return false;
    }
    Walk walk = {(const char*)(value + 1), value->size, 0};
    const LV2_Atom* const slot = walk_on(&walk, 0);
    const LV2_Atom* const name = walk_on(&walk, 0);
    int32_t number = -1;
    if (!slot || slot->type != uris->atom_Int || slot->size != sizeof number || !name ||
        name->type != uris->atom_String || !name->size) {
        return false;
    }
    memcpy(&number, slot + 1, sizeof number);
    const char* const bytes = (const char*)(name + 1);
    const size_t length = strnlen(bytes, name->size);
    if (number < 0 || number > KEPT_MAX || length > KEPT_WORD_MOST) {
        return false;
    }
    *word = (KeptWord){number, (int32_t)length, bytes};
    return true;
}

bool decode_piece(const LV2_Atom* const value, const Uris* const uris, Piece* const piece)
{
    int32_t numbers[3];
    if (value->type != uris->atom_Tuple) {
        return false;
    }
    Walk walk = {(const char*)(value + 1), value->size, 0};
    const uint32_t count = decode_integers(walk_on(&walk, 0), uris, numbers, 3);
    const LV2_Atom* const text = walk_on(&walk, 0);
    if (count != 3 || !text || text->type != uris->atom_String || !text->size) {
        return false;
    }
    const char* const bytes = (const char*)(text + 1);
    const int64_t length = (int64_t)strnlen(bytes, text->size);
    const int32_t at = numbers[1];
    const int32_t whole = numbers[2];
    if (at < 0 || whole < 0 || at + length > whole || (!length && whole)) {
        return false;
    }
    *piece = (Piece){numbers[0], at, whole, (int32_t)length, bytes};
    return true;
}
