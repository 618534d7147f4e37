// SPDX-License-Identifier: ISC
/* What plugin and window write to each other is heard as it was told, is read by
   LV2's own helpers (lv2/atom/util.h, the specification's reference code) as an
   object, a tuple and vectors. */
#include "../../plugin/talk/fields.h"
#include "talk.h"

static Talk talk;
static SeenBar bar, other; /* too large for a stack */

static void a_bar_told_is_the_bar_heard(void)
{
    uint32_t state = 1;
    for (int i = 0; i < 500; ++i) {
        check_case("bar %d", i);
        chance_bar(&state, &bar);
        talk_bar(&talk, &bar);
        memset(&other, 0xEE, sizeof other);
        CHECK(hears_bar(&talk, &talk.buffer.atom, talk.size, &other));
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
        CHECK(hears_place(&talk, &talk.buffer.atom, talk.size, &heard));
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
    bar.clicks.count = SEEN_CLICKS_MAX;
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
    CHECK(talk.size + event <= ENCODE_BAR_BYTES + ENCODE_HEAD_BYTES);
    CHECK(talk.size + event > SEEN_STROKES_MAX * 16);
    CHECK(hears_bar(&talk, &talk.buffer.atom, talk.size, &other));
    CHECK(bars_alike(&bar, &other));
}

static void a_look_is_heard_with_what_it_wants_or_without(void)
{
    const LV2_URID properties[] = {0, talk.uris.fl_place, talk.uris.fl_bar};
    for (int i = 0; i < 3; ++i) {
        LV2_URID heard = 999;
        talk_begin(&talk);
        encode_look(&talk.forge, properties[i], &talk.uris);
        talk_end(&talk);
        CHECK(decode_look(&talk.buffer.atom, talk.size, &talk.uris, &heard));
        CHECK_INT(heard, properties[i]);
        LV2_URID property = 0;
        const LV2_Atom* value = NULL;
        CHECK(!decode_message(&talk.buffer.atom, talk.size, &talk.uris, &property, &value));
    }
}

/* ---- LV2's own helpers */

static const LV2_Atom* value_by_lv2(const LV2_URID property)
{
    const LV2_Atom* value = NULL;
    const LV2_Atom_Object* const object = (const LV2_Atom_Object*)(const void*)&talk.buffer.atom;
    CHECK_INT(object->atom.type, talk.uris.atom_Object);
    CHECK_INT(object->body.otype, talk.uris.fl_Message);
    CHECK_INT(lv2_atom_total_size(&object->atom), talk.size);
    lv2_atom_object_get(object, property, &value, 0);
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
        uint8_t* const at = talk.buffer.bytes + ((const uint8_t*)value - talk.buffer.bytes);
        LV2_Atom_Tuple* const tuple = (LV2_Atom_Tuple*)(void*)at; /* LV2's macro asks for it */
        LV2_ATOM_TUPLE_FOREACH(tuple, part)
        {
            parts[count < 7 ? count : 7] = part;
            ++count;
        }
        if (!CHECK_INT(count, 5)) {
            return;
        }
        check_vector(parts[0], talk.uris.atom_Double, sizeof(double), BAR_FIELD_COUNT);
        check_vector(parts[1], talk.uris.atom_Int, sizeof(int32_t), bar.hands_turns.count);
        check_vector(parts[2], talk.uris.atom_Int, sizeof(int32_t), bar.feet_turns.count);
        check_vector(parts[3], talk.uris.atom_Int, sizeof(int32_t), 4 * bar.count);
        check_vector(parts[4], talk.uris.atom_Int, sizeof(int32_t), bar.clicks.count);
        const double* const head =
            (const double*)(const void*)((const char*)parts[0] + sizeof(LV2_Atom_Vector));
        CHECK_NEAR(head[0], (double)bar.bar, 0.0);
        CHECK_NEAR(head[2], bar.meter.beats_per_bar, 0.0);
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
        check_vector(value, talk.uris.atom_Double, sizeof(double), PLACE_FIELD_COUNT);
    }
}

/* A bar and a place aren't each other, nor is a message a look. */
static void each_message_is_heard_as_itself_alone(void)
{
    LV2_URID property = 0;
    SeenPlace place = {.bar = 3, .phrase_bars = 4};
    talk_bar(&talk, &bar);
    CHECK(!decode_look(&talk.buffer.atom, talk.size, &talk.uris, &property));
    CHECK(!hears_place(&talk, &talk.buffer.atom, talk.size, &place));
    talk_place(&talk, &place);
    CHECK(!hears_bar(&talk, &talk.buffer.atom, talk.size, &other));
}

/* fields.h promises that new fields may follow: a later plugin tells more. */
static void fields_of_a_later_version_are_passed_over(void)
{
    double numbers[PLACE_FIELD_COUNT + 3] = {7, 100.5, 4, 8};
    LV2_Atom_Forge_Frame frame;
    SeenPlace place;
    numbers[PLACE_FIELD_COUNT - 2] = 3;
    numbers[PLACE_FIELD_COUNT - 1] = 1;
    numbers[PLACE_FIELD_COUNT] = numbers[PLACE_FIELD_COUNT + 1] = 99;
    talk_begin(&talk);
    encode_begin(&talk.forge, &frame, talk.uris.fl_place, &talk.uris);
    lv2_atom_forge_vector(&talk.forge, sizeof(double), talk.uris.atom_Double, PLACE_FIELD_COUNT + 3,
                          numbers);
    lv2_atom_forge_pop(&talk.forge, &frame);
    talk_end(&talk);
    CHECK(hears_place(&talk, &talk.buffer.atom, talk.size, &place));
    CHECK_INT(place.bar, 7);
    CHECK_INT(place.phrase_bars, 8);
    CHECK_INT(place.all_meet, 3);
    CHECK(place.late);
}

int main(void)
{
    talk_open(&talk);
    RUN(a_bar_told_is_the_bar_heard);
    RUN(a_place_told_is_the_place_heard);
    RUN(the_fullest_bar_fits_the_bytes_that_are_kept_for_it);
    RUN(a_look_is_heard_with_what_it_wants_or_without);
    RUN(lv2s_own_helpers_read_a_bar);
    RUN(lv2s_own_helpers_read_a_place);
    RUN(each_message_is_heard_as_itself_alone);
    RUN(fields_of_a_later_version_are_passed_over);
    talk_close(&talk);
    return tests_end();
}
