// SPDX-License-Identifier: ISC
/* Messages that were cut or spoilt, and atoms of others: refused with nothing
   changed, or what is heard makes sense; no byte outside is read. */
#include "talk.h"

#include <math.h>

static Talk talk;
static SeenBar bar, other, untouched; /* too large for a stack */

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
        LV2_Atom* const atom = talk_copy(&talk, cut);
        check_case("cut at %u of %u", cut, size);
        CHECK(!hears_bar(&talk, atom, cut, &untouched));
        CHECK(is_untouched(&untouched, sizeof untouched));
        free(atom);
    }
}

/* Cut with heads that agree: no promise but that nothing outside is read. */
static void a_value_cut_at_any_byte_does_no_harm(void)
{
    talk_bar(&talk, &bar);
    LV2_URID property = 0;
    const LV2_Atom* value = NULL;
    if (!CHECK(decode_message(&talk.buffer.atom, talk.size, &talk.uris, &property, &value))) {
        return;
    }
    for (uint32_t cut = 0; cut <= value->size; ++cut) {
        LV2_Atom* const atom = malloc(sizeof *atom + cut);
        memset(&other, 0xEE, sizeof other);
        memcpy(atom, value, sizeof *atom + cut);
        atom->size = cut;
        const bool heard = decode_bar(atom, &talk.uris, &other);
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
        LV2_Atom* const atom = talk_copy(&talk, talk.size);
        for (uint32_t n = chance_to(&state, 7) + 1; n > 0; --n) {
            /* every other one among the heads, where it hurts */
            const uint32_t range = n % 2 ? talk.size : 200;
            ((uint8_t*)atom)[chance(&state) % (range < talk.size ? range : talk.size)] =
                (uint8_t)chance(&state);
        }
        memset(&other, 0xEE, sizeof other);
        check_case("spoilt bar %d", i);
        if (hears_bar(&talk, atom, talk.size, &other)) {
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
        {4.0, 4, 0, 1, 0, 0, 0, true},
        {256.0, 32, 15, 16, 7, 1, 1, true},
        {4.0, 4, 4, 4, 0, 0, 0, false},
        {4.0, 4, 0, 0, 0, 0, 0, false},
        {4.0, 4, 0, 17, 0, 0, 0, false},
        {4.0, 4, 0, 4, 8, 0, 0, false},
        {4.0, 4, 0, 4, 0, -1, 0, false},
        {4.0, 4, 0, 4, 0, 0, -1, false},
        {0.0, 4, 0, 4, 0, 0, 0, false},
        {-4.0, 4, 0, 4, 0, 0, 0, false},
        {256.5, 4, 0, 4, 0, 0, 0, false},
        {(double)NAN, 4, 0, 4, 0, 0, 0, false},
        {(double)INFINITY, 4, 0, 4, 0, 0, 0, false},
        {4.0, 0, 0, 4, 0, 0, 0, false},
        {4.0, 3, 0, 4, 0, 0, 0, false},
        {4.0, 64, 0, 4, 0, 0, 0, false},
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
        CHECK_INT(hears_bar(&talk, &talk.buffer.atom, talk.size, &other), rows[i].good);
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
        LV2_Atom* const atom = talk_copy(&talk, talk.size);
        for (uint32_t n = chance_to(&state, 7) + 1; n > 0; --n) {
            ((uint8_t*)atom)[chance(&state) % talk.size] = (uint8_t)chance(&state);
        }
        memset(&heard, 0xEE, sizeof heard);
        check_case("spoilt place %d", i);
        if (hears_place(&talk, atom, talk.size, &heard)) {
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
        CHECK(!decode_message(atom, (uint32_t)sizeof *atom + body, &talk.uris, &property, &value) ||
              value);
        decode_look(atom, (uint32_t)sizeof *atom + body, &talk.uris, &property);
        CHECK(!decode_bar(atom, &talk.uris, &other) && is_untouched(&other, sizeof other));
        CHECK(decode_place(atom, &talk.uris, &place) || is_untouched(&place, sizeof place));
        free(atom);
    }
}

int main(void)
{
    talk_open(&talk);
    RUN(a_message_cut_at_any_byte_is_refused);
    RUN(a_value_cut_at_any_byte_does_no_harm);
    RUN(a_spoilt_bar_is_refused_or_makes_sense);
    RUN(a_bar_that_cannot_be_is_refused);
    RUN(a_spoilt_place_is_refused_or_makes_sense);
    RUN(foreign_atoms_are_refused);
    talk_close(&talk);
    return tests_end();
}
