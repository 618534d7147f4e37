// SPDX-License-Identifier: ISC
/* What plugin and window write to each other is heard as it was told, is read by
   LV2's own helpers (lv2/atom/util.h, the specification's reference code) as an
   object, a tuple and vectors, and does no harm when it is cut or spoilt. */
#include "talk.h"

#include <math.h>
#include <stddef.h>

static Talk talk;
static SeenBar bar, other, untouched; /* too large for a stack */

/* A copy that is exactly as large as told, so that a sanitizer sees every byte read
   beyond it. */
static LV2_Atom* exact(const uint32_t size)
{
    LV2_Atom* const copy = malloc(size ? size : 1);
    if (!copy) {
        exit(2);
    }
    memcpy(copy, talk.buffer.bytes, size);
    return copy;
}

/* A value that was heard of lies whole inside the message. */
static void check_inside(const LV2_Atom* const atom, const uint32_t size,
                         const LV2_Atom* const value)
{
    const ptrdiff_t at = (const char*)value - (const char*)atom;
    CHECK(at > 0 && (size_t)at + sizeof *value <= size &&
          value->size <= size - (size_t)at - sizeof *value);
}

static bool hears_bar(const LV2_Atom* const atom, const uint32_t size, SeenBar* const to)
{
    LV2_URID property = 0;
    const LV2_Atom* value = NULL;
    if (!hear_set(atom, size, &talk.uris, &property, &value)) {
        return false;
    }
    check_inside(atom, size, value);
    return property == talk.uris.fl_bar && hear_bar(value, &talk.uris, to);
}

static bool hears_place(const LV2_Atom* const atom, const uint32_t size, SeenPlace* const to)
{
    LV2_URID property = 0;
    const LV2_Atom* value = NULL;
    if (!hear_set(atom, size, &talk.uris, &property, &value)) {
        return false;
    }
    check_inside(atom, size, value);
    return property == talk.uris.fl_place && hear_place(value, &talk.uris, to);
}

static void a_bar_told_is_the_bar_heard(void)
{
    uint32_t state = 1;
    for (int i = 0; i < 500; ++i) {
        check_case("bar %d", i);
        chance_bar(&state, &bar);
        talk_bar(&talk, &bar);
        memset(&other, 0xEE, sizeof other);
        CHECK(hears_bar(&talk.buffer.atom, talk.size, &other));
        CHECK(bars_alike(&bar, &other));
    }
}

static void a_place_told_is_the_place_heard(void)
{
    uint32_t state = 2;
    for (int i = 0; i < 500; ++i) {
        SeenPlace place, heard;
        check_case("place %d", i);
        chance_place(&state, &place);
        talk_place(&talk, &place);
        memset(&heard, 0xEE, sizeof heard);
        CHECK(hears_place(&talk.buffer.atom, talk.size, &heard));
        CHECK(places_alike(&place, &heard));
    }
}

static void fill_up(void)
{
    uint32_t state = 3;
    do {
        chance_bar(&state, &bar);
    } while (bar.count < 10);
    bar.hands_turns.count = bar.feet_turns.count = SEEN_TURNS_MAX;
    for (uint32_t i = bar.count; i < SEEN_STROKES_MAX; ++i) {
        bar.strokes[i] = bar.strokes[i % 10];
    }
    bar.count = SEEN_STROKES_MAX;
}

/* notify.c asks for so many bytes before it begins an event of a sequence. */
static void the_fullest_bar_fits_the_bytes_that_are_kept_for_it(void)
{
    fill_up();
    talk_bar(&talk, &bar);
    const uint32_t event = (uint32_t)sizeof(int64_t); /* its time in a sequence */
    CHECK(talk.size + event <= TELL_BAR_BYTES + TELL_SET_BYTES);
    CHECK(talk.size + event > SEEN_STROKES_MAX * 16);
    CHECK(hears_bar(&talk.buffer.atom, talk.size, &other));
    CHECK(bars_alike(&bar, &other));
}

static void a_get_is_heard_with_its_property_or_without(void)
{
    const LV2_URID properties[] = {0, talk.uris.fl_place, talk.uris.fl_bar};
    for (int i = 0; i < 3; ++i) {
        LV2_URID heard = 999;
        talk_begin(&talk);
        tell_get(&talk.forge, properties[i], &talk.uris);
        talk_end(&talk);
        CHECK(hear_get(&talk.buffer.atom, talk.size, &talk.uris, &heard));
        CHECK_INT(heard, properties[i]);
        LV2_URID property = 0;
        const LV2_Atom* value = NULL;
        CHECK(!hear_set(&talk.buffer.atom, talk.size, &talk.uris, &property, &value));
    }
}

/* ---- LV2's own helpers */

static const LV2_Atom* value_by_lv2(const LV2_URID property)
{
    const LV2_Atom* name = NULL;
    const LV2_Atom* value = NULL;
    const LV2_Atom_Object* const object = (const LV2_Atom_Object*)(const void*)&talk.buffer.atom;
    CHECK_INT(object->atom.type, talk.uris.atom_Object);
    CHECK_INT(object->body.otype, talk.uris.patch_Set);
    CHECK_INT(lv2_atom_total_size(&object->atom), talk.size);
    lv2_atom_object_get(object, talk.uris.patch_property, &name, talk.uris.patch_value, &value, 0);
    CHECK(name && name->type == talk.uris.atom_URID);
    CHECK(name && ((const LV2_Atom_URID*)(const void*)name)->body == property);
    return value;
}

static void check_vector(const LV2_Atom* const atom, const LV2_URID type, const uint32_t element,
                         const uint32_t count)
{
    const LV2_Atom_Vector* const vector = (const LV2_Atom_Vector*)(const void*)atom;
    CHECK_INT(atom->type, talk.uris.atom_Vector);
    CHECK_INT(vector->body.child_type, type);
    CHECK_INT(vector->body.child_size, element);
    CHECK_INT(atom->size, sizeof(LV2_Atom_Vector_Body) + (size_t)count * element);
}

static void lv2s_own_helpers_read_a_bar(void)
{
    uint32_t state = 4;
    for (int i = 0; i < 50; ++i) {
        chance_bar(&state, &bar);
        talk_bar(&talk, &bar);
        const LV2_Atom* const value = value_by_lv2(talk.uris.fl_bar);
        if (!CHECK(value && value->type == talk.uris.atom_Tuple)) {
            return;
        }
        const LV2_Atom* parts[8] = {NULL};
        int count = 0;
        LV2_ATOM_TUPLE_FOREACH((const LV2_Atom_Tuple*)(const void*)value, part)
        {
            parts[count < 7 ? count : 7] = part;
            ++count;
        }
        if (!CHECK_INT(count, 4)) {
            return;
        }
        check_vector(parts[0], talk.uris.atom_Double, sizeof(double), 14);
        check_vector(parts[1], talk.uris.atom_Int, sizeof(int32_t), bar.hands_turns.count);
        check_vector(parts[2], talk.uris.atom_Int, sizeof(int32_t), bar.feet_turns.count);
        check_vector(parts[3], talk.uris.atom_Int, sizeof(int32_t), 4 * bar.count);
        const double* const head =
            (const double*)(const void*)((const char*)parts[0] + sizeof(LV2_Atom_Vector));
        CHECK_NEAR(head[0], (double)bar.bar, 0.0);
        CHECK_NEAR(head[1], bar.meter.beats_per_bar, 0.0);
    }
}

static void lv2s_own_helpers_read_a_place(void)
{
    uint32_t state = 5;
    SeenPlace place;
    chance_place(&state, &place);
    talk_place(&talk, &place);
    const LV2_Atom* const value = value_by_lv2(talk.uris.fl_place);
    if (CHECK(value)) {
        check_vector(value, talk.uris.atom_Double, sizeof(double), 13);
    }
}

/* ---- Cut and spoilt */

static bool is_untouched(const void* const what, const size_t size)
{
    const unsigned char* const bytes = (const unsigned char*)what;
    for (size_t i = 0; i < size; ++i) {
        if (bytes[i] != 0xEE) {
            return false;
        }
    }
    return true;
}

/* As long as the head says, what was cut isn't taken; nothing is changed. */
static void a_message_cut_at_any_byte_is_refused(void)
{
    uint32_t state = 6;
    do {
        chance_bar(&state, &bar);
    } while (bar.count > 40 || bar.count < 8);
    talk_bar(&talk, &bar);
    const uint32_t size = talk.size;
    memset(&untouched, 0xEE, sizeof untouched);
    for (uint32_t cut = 0; cut < size; ++cut) {
        LV2_Atom* const atom = exact(cut);
        check_case("cut at %u of %u", cut, size);
        CHECK(!hears_bar(atom, cut, &untouched));
        CHECK(is_untouched(&untouched, sizeof untouched));
        free(atom);
    }
}

/* Cut with heads that agree: no promise but that nothing outside is read. */
static void a_value_cut_at_any_byte_does_no_harm(void)
{
    talk_bar(&talk, &bar);
    const LV2_Atom* const value = value_by_lv2(talk.uris.fl_bar);
    if (!CHECK(value)) {
        return;
    }
    for (uint32_t cut = 0; cut <= value->size; ++cut) {
        LV2_Atom* const atom = malloc(sizeof *atom + cut);
        memset(&other, 0xEE, sizeof other);
        memcpy(atom, value, sizeof *atom + cut);
        atom->size = cut;
        const bool heard = hear_bar(atom, &talk.uris, &other);
        check_case("cut at %u", cut);
        CHECK(heard || is_untouched(&other, sizeof other));
        CHECK(!heard || (other.count <= bar.count && other.hands_turns.count <= SEEN_TURNS_MAX));
        free(atom);
    }
}

static void check_bar_makes_sense(const SeenBar* const heard)
{
    CHECK(heard->count <= SEEN_STROKES_MAX);
    CHECK(heard->hands_turns.count <= SEEN_TURNS_MAX && heard->feet_turns.count <= SEEN_TURNS_MAX);
    CHECK(heard->phrase_bars >= 1 && heard->phrase_bars <= FORM_BARS_MAX);
    CHECK(heard->in_phrase < heard->phrase_bars && heard->part < PARTS_MAX);
    CHECK(heard->meter.beats_per_bar > 0.0 && heard->meter.beats_per_bar <= 256.0);
    CHECK(heard->meter.beat_unit >= 1 && heard->meter.beat_unit <= 32);
    CHECK(heard->hands_step >= 0 && heard->feet_step >= 0);
    for (uint32_t i = 0; i < heard->count; ++i) {
        CHECK(heard->strokes[i].limb < LIMB_COUNT && heard->strokes[i].voice < VOICE_COUNT &&
              heard->strokes[i].level <= LEVEL_DRAG);
    }
}

/* One to eight bytes turned into others: refused without a change, or it makes sense. */
static void a_spoilt_bar_is_refused_or_makes_sense(void)
{
    uint32_t state = 7;
    int refused = 0;
    int taken = 0;
    for (int i = 0; i < 20000; ++i) {
        if (i % 100 == 0) {
            do {
                chance_bar(&state, &bar);
            } while (bar.count > 24);
            talk_bar(&talk, &bar);
        }
        LV2_Atom* const atom = exact(talk.size);
        for (uint32_t n = chance_to(&state, 7) + 1; n > 0; --n) {
            /* every other one among the heads, where it hurts */
            const uint32_t range = n % 2 ? talk.size : 200;
            ((uint8_t*)atom)[chance(&state) % (range < talk.size ? range : talk.size)] =
                (uint8_t)chance(&state);
        }
        memset(&other, 0xEE, sizeof other);
        check_case("spoilt bar %d", i);
        if (hears_bar(atom, talk.size, &other)) {
            ++taken;
            check_bar_makes_sense(&other);
        } else {
            ++refused;
            CHECK(is_untouched(&other, sizeof other));
        }
        free(atom);
    }
    CHECK(refused > 1000 && taken > 1000); /* else this has tried little */
}

/* Each of these would have the window divide by nothing or read beyond its bars. */
static void a_bar_that_cannot_be_is_refused(void)
{
    static const struct {
        double beats;
        int32_t unit;
        uint32_t in_phrase, phrase_bars;
        uint8_t part;
        int32_t hands_step, feet_step;
        bool good;
    } rows[] = {
        {4.0, 4, 0, 1, 0, 0, 0, true},       {256.0, 32, 15, 16, 7, 1, 1, true},
        {4.0, 4, 4, 4, 0, 0, 0, false},      {4.0, 4, 0, 0, 0, 0, 0, false},
        {4.0, 4, 0, 17, 0, 0, 0, false},     {4.0, 4, 0, 4, 8, 0, 0, false},
        {4.0, 4, 0, 4, 0, -1, 0, false},     {4.0, 4, 0, 4, 0, 0, -1, false},
        {0.0, 4, 0, 4, 0, 0, 0, false},      {-4.0, 4, 0, 4, 0, 0, 0, false},
        {256.5, 4, 0, 4, 0, 0, 0, false},    {NAN, 4, 0, 4, 0, 0, 0, false},
        {INFINITY, 4, 0, 4, 0, 0, 0, false}, {4.0, 0, 0, 4, 0, 0, 0, false},
        {4.0, 3, 0, 4, 0, 0, 0, false},      {4.0, 64, 0, 4, 0, 0, 0, false},
        {4.0, -4, 0, 4, 0, 0, 0, false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        memset(&bar, 0, sizeof bar);
        bar.meter = (Meter){rows[i].beats, rows[i].unit};
        bar.in_phrase = rows[i].in_phrase;
        bar.phrase_bars = rows[i].phrase_bars;
        bar.part = rows[i].part;
        bar.hands_step = rows[i].hands_step;
        bar.feet_step = rows[i].feet_step;
        talk_bar(&talk, &bar);
        memset(&other, 0xEE, sizeof other);
        check_case("row %zu", i);
        CHECK_INT(hears_bar(&talk.buffer.atom, talk.size, &other), rows[i].good);
        CHECK(rows[i].good || is_untouched(&other, sizeof other));
    }
}

static void a_spoilt_place_is_refused_or_makes_sense(void)
{
    uint32_t state = 8;
    for (int i = 0; i < 20000; ++i) {
        SeenPlace place, heard;
        chance_place(&state, &place);
        talk_place(&talk, &place);
        LV2_Atom* const atom = exact(talk.size);
        for (uint32_t n = chance_to(&state, 7) + 1; n > 0; --n) {
            ((uint8_t*)atom)[chance(&state) % talk.size] = (uint8_t)chance(&state);
        }
        memset(&heard, 0xEE, sizeof heard);
        check_case("spoilt place %d", i);
        if (hears_place(atom, talk.size, &heard)) {
            CHECK(heard.phrase_bars >= 1 && heard.phrase_bars <= FORM_BARS_MAX);
            CHECK(heard.tick < 1e15 && heard.tick > -1e15);
        } else {
            CHECK(is_untouched(&heard, sizeof heard));
        }
        free(atom);
    }
}

/* What else a host may hand over: each atom type with a body of chance. */
static void foreign_atoms_are_refused(void)
{
    static const char* const types[] = {LV2_ATOM__Int,    LV2_ATOM__String, LV2_ATOM__Tuple,
                                        LV2_ATOM__Vector, LV2_ATOM__Object, LV2_ATOM__Sequence,
                                        LV2_ATOM__Chunk,  LV2_ATOM__Blank,  "urn:nobody:knows"};
    uint32_t state = 9;
    for (int i = 0; i < 9000; ++i) {
        const uint32_t body = chance_to(&state, 96);
        LV2_Atom* const atom = malloc(sizeof *atom + body);
        *atom = (LV2_Atom){body, uri_table_map(talk.table, types[i % 9])};
        for (uint32_t n = 0; n < body; ++n) {
            /* small numbers, as types and sizes are */
            ((uint8_t*)(atom + 1))[n] = n % 4 ? 0 : (uint8_t)chance_to(&state, 40);
        }
        LV2_URID property = 0;
        const LV2_Atom* value = NULL;
        SeenPlace place;
        memset(&other, 0xEE, sizeof other);
        memset(&place, 0xEE, sizeof place);
        check_case("foreign atom %d", i);
        CHECK(!hear_set(atom, (uint32_t)sizeof *atom + body, &talk.uris, &property, &value) ||
              value);
        hear_get(atom, (uint32_t)sizeof *atom + body, &talk.uris, &property);
        CHECK(!hear_bar(atom, &talk.uris, &other) && is_untouched(&other, sizeof other));
        CHECK(hear_place(atom, &talk.uris, &place) || is_untouched(&place, sizeof place));
        free(atom);
    }
}

/* A bar and a place aren't each other, nor is a Set a Get. */
static void each_message_is_heard_as_itself_alone(void)
{
    LV2_URID property = 0;
    SeenPlace place = {.bar = 3, .phrase_bars = 4};
    talk_bar(&talk, &bar);
    CHECK(!hear_get(&talk.buffer.atom, talk.size, &talk.uris, &property));
    CHECK(!hears_place(&talk.buffer.atom, talk.size, &place));
    talk_place(&talk, &place);
    CHECK(!hears_bar(&talk.buffer.atom, talk.size, &other));
}

/* fields.h promises that new fields may follow: a later plugin tells more. */
static void fields_of_a_later_version_are_passed_over(void)
{
    const double numbers[16] = {7, 100.5, 4, 8, 1000, 1, 1, 1, 0, 0, 0, 2, 3, 99, 98, 97};
    LV2_Atom_Forge_Frame frame;
    SeenPlace place;
    talk_begin(&talk);
    tell_begin_set(&talk.forge, &frame, talk.uris.fl_place, &talk.uris);
    lv2_atom_forge_vector(&talk.forge, sizeof(double), talk.uris.atom_Double, 16, numbers);
    lv2_atom_forge_pop(&talk.forge, &frame);
    talk_end(&talk);
    CHECK(hears_place(&talk.buffer.atom, talk.size, &place));
    CHECK_INT(place.bar, 7);
    CHECK_INT(place.phrase_bars, 8);
    CHECK_INT(place.all_meet, 3);
}

int main(void)
{
    talk_open(&talk);
    RUN(a_bar_told_is_the_bar_heard);
    RUN(a_place_told_is_the_place_heard);
    RUN(the_fullest_bar_fits_the_bytes_that_are_kept_for_it);
    RUN(a_get_is_heard_with_its_property_or_without);
    RUN(lv2s_own_helpers_read_a_bar);
    RUN(lv2s_own_helpers_read_a_place);
    RUN(a_message_cut_at_any_byte_is_refused);
    RUN(a_value_cut_at_any_byte_does_no_harm);
    RUN(a_spoilt_bar_is_refused_or_makes_sense);
    RUN(a_bar_that_cannot_be_is_refused);
    RUN(a_spoilt_place_is_refused_or_makes_sense);
    RUN(foreign_atoms_are_refused);
    RUN(each_message_is_heard_as_itself_alone);
    RUN(fields_of_a_later_version_are_passed_over);
    talk_close(&talk);
    return tests_end();
}
