// SPDX-License-Identifier: ISC
/* What a window says of what is kept: said and heard alike; cut, spoilt or of no slot it is
   refused with nothing changed. */
#include "talk.h"

static Talk talk;

static const char name[] = "Gallop, doubled";
enum { LENGTH = sizeof name - 1 };

static void talk_word(const KeptWord* const word)
{
    LV2_Atom_Forge_Frame frame;
    talk_begin(&talk);
    encode_begin(&talk.forge, &frame, talk.uris.fl_keep, &talk.uris);
    encode_kept(&talk.forge, word);
    lv2_atom_forge_pop(&talk.forge, &frame);
    talk_end(&talk);
}

static const LV2_Atom* value_told(void)
{
    return talk_value(&talk, talk.uris.fl_keep);
}

static void what_is_said_is_heard(void)
{
    const KeptWord words[] = {{0, LENGTH, name}, {16, 0, ""}, {7, 1, "x"}};
    for (size_t i = 0; i < sizeof words / sizeof *words; ++i) {
        KeptWord heard = {-1, -1, NULL};
        talk_word(&words[i]);
        CHECK(talk.size <= ENCODE_HEAD_BYTES + 64 + LENGTH);
        CHECK(decode_kept(value_told(), &talk.uris, &heard));
        CHECK_INT(heard.slot, words[i].slot);
        CHECK_INT(heard.length, words[i].length);
        CHECK(!memcmp(heard.name, words[i].name, (size_t)words[i].length));
    }
}

static void a_slot_that_is_none_and_a_name_without_end_are_refused(void)
{
    char novel[KEPT_WORD_MOST + 2];
    memset(novel, 'x', sizeof novel);
    const KeptWord odd[] = {
        {-1, LENGTH, name}, {17, LENGTH, name}, {INT32_MAX, 0, ""}, {1, KEPT_WORD_MOST + 1, novel}};
    for (size_t i = 0; i < sizeof odd / sizeof *odd; ++i) {
        KeptWord heard = {77, 77, NULL};
        check_case("word %zu", i);
        talk_word(&odd[i]);
        CHECK(!decode_kept(value_told(), &talk.uris, &heard));
        CHECK_INT(heard.slot, 77);
    }
}

static void another_value_is_refused(void)
{
    KeptWord heard = {77, 77, NULL};
    LV2_Atom_Forge_Frame frame, tuple;
    talk_begin(&talk);
    encode_begin(&talk.forge, &frame, talk.uris.fl_keep, &talk.uris);
    lv2_atom_forge_string(&talk.forge, name, LENGTH);
    lv2_atom_forge_pop(&talk.forge, &frame);
    talk_end(&talk);
    CHECK(!decode_kept(value_told(), &talk.uris, &heard));
    for (int swapped = 0; swapped < 2; ++swapped) { /* a name for a slot, a slot as a float */
        talk_begin(&talk);
        encode_begin(&talk.forge, &frame, talk.uris.fl_keep, &talk.uris);
        lv2_atom_forge_tuple(&talk.forge, &tuple);
        if (swapped) {
            lv2_atom_forge_string(&talk.forge, name, LENGTH);
        } else {
            lv2_atom_forge_float(&talk.forge, 3.0f);
        }
        lv2_atom_forge_string(&talk.forge, name, LENGTH);
        lv2_atom_forge_pop(&talk.forge, &tuple);
        lv2_atom_forge_pop(&talk.forge, &frame);
        talk_end(&talk);
        CHECK(!decode_kept(value_told(), &talk.uris, &heard));
    }
    CHECK_INT(heard.slot, 77);
}

/* Copied to its own end, so that a sanitizer sees a byte too many. */
static void a_cut_or_spoilt_word_is_refused_or_makes_sense(void)
{
    const KeptWord word = {7, LENGTH, name};
    uint32_t state = 15;
    talk_word(&word);
    const LV2_Atom* const value = value_told();
    for (uint32_t i = 0; i < 20000; ++i) {
        const uint32_t cut = i <= value->size ? i : chance_to(&state, value->size);
        LV2_Atom* const atom = malloc(sizeof *atom + cut);
        memcpy(atom, value, sizeof *atom + cut);
        atom->size = cut;
        for (uint32_t n = i > value->size ? chance_to(&state, 4) : 0; cut && n > 0; --n) {
            ((uint8_t*)(atom + 1))[chance(&state) % cut] = (uint8_t)chance(&state);
        }
        KeptWord heard = {77, 77, NULL};
        check_case("word %u", i);
        if (decode_kept(atom, &talk.uris, &heard)) {
            const ptrdiff_t at = heard.name - (const char*)(atom + 1);
            CHECK(heard.slot >= 0 && heard.slot <= KEPT_MAX && heard.length <= KEPT_WORD_MOST);
            CHECK(at >= 0 && at + heard.length <= (ptrdiff_t)cut);
        } else {
            CHECK_INT(heard.slot, 77);
        }
        free(atom);
    }
}

int main(void)
{
    talk_open(&talk);
    RUN(what_is_said_is_heard);
    RUN(a_slot_that_is_none_and_a_name_without_end_are_refused);
    RUN(another_value_is_refused);
    RUN(a_cut_or_spoilt_word_is_refused_or_makes_sense);
    talk_close(&talk);
    return tests_end();
}
