// SPDX-License-Identifier: ISC
/* Pieces of a long text: told and heard alike, and whatever is cut or spoilt is refused
   or lies within the text it is a piece of. */
#include "talk.h"

static Talk talk;

static const char words[] = "t:a a fl:FeetFigure .";
enum { LENGTH = sizeof words - 1 };

static void talk_piece(const Piece* const piece)
{
    LV2_Atom_Forge_Frame frame;
    talk_begin(&talk);
    encode_begin(&talk.forge, &frame, talk.uris.fl_sessionEntries, &talk.uris);
    encode_piece(&talk.forge, piece, &talk.uris);
    lv2_atom_forge_pop(&talk.forge, &frame);
    talk_end(&talk);
}

static const LV2_Atom* value_told(void)
{
    return talk_value(&talk, talk.uris.fl_sessionEntries);
}

static void a_piece_told_is_the_piece_heard(void)
{
    Piece heard = {0};
    const Piece piece = {7, 4096, 4096 + LENGTH, LENGTH, words};
    talk_piece(&piece);
    CHECK(talk.size <= ENCODE_PIECE_BYTES + LENGTH);
    CHECK(decode_piece(value_told(), &talk.uris, &heard));
    CHECK_INT(heard.which, 7);
    CHECK_INT(heard.at, 4096);
    CHECK_INT(heard.whole, 4096 + LENGTH);
    CHECK_INT(heard.length, LENGTH);
    CHECK(!memcmp(heard.text, words, LENGTH));
    const Piece nothing = {0, 0, 0, 0, ""};
    talk_piece(&nothing);
    CHECK(decode_piece(value_told(), &talk.uris, &heard));
    CHECK_INT(heard.whole, 0);
    CHECK_INT(heard.length, 0);
}

static void a_piece_outside_its_text_is_refused(void)
{
    static const Piece odd[] = {
        {0, -1, 100, LENGTH, words},
        {0, 0, -5, LENGTH, words},
        {0, 0, LENGTH - 1, LENGTH, words},
        {0, 90, 100, LENGTH, words},
        {0, INT32_MAX, 10, LENGTH, words},
        {0, INT32_MAX, INT32_MAX, LENGTH, words},
        {0, 0, 100, 0, ""}, /* nothing of something: it would never end */
    };
    for (size_t i = 0; i < sizeof odd / sizeof *odd; ++i) {
        Piece heard = {.whole = 77};
        check_case("piece %zu", i);
        talk_piece(&odd[i]);
        CHECK(!decode_piece(value_told(), &talk.uris, &heard));
        CHECK_INT(heard.whole, 77);
    }
}

/* Copied to its own end, so that a sanitizer sees a byte too many. */
static void a_cut_or_spoilt_piece_is_refused_or_within_its_text(void)
{
    const Piece piece = {7, 0, LENGTH, LENGTH, words};
    uint32_t state = 11;
    talk_piece(&piece);
    const LV2_Atom* const value = value_told();
    for (uint32_t i = 0; i < 20000; ++i) {
        const uint32_t cut = i <= value->size ? i : chance_to(&state, value->size);
        LV2_Atom* const atom = malloc(sizeof *atom + cut);
        memcpy(atom, value, sizeof *atom + cut);
        atom->size = cut;
        for (uint32_t n = 0; i > value->size && cut && n < 2; ++n) {
            ((uint8_t*)(atom + 1))[chance_to(&state, cut - 1)] = (uint8_t)chance(&state);
        }
        Piece heard;
        if (decode_piece(atom, &talk.uris, &heard)) {
            const char* const end = (const char*)(atom + 1) + cut;
            check_case("spoilt %u", i);
            CHECK(heard.at >= 0 && heard.length >= 0);
            CHECK((int64_t)heard.at + heard.length <= heard.whole);
            CHECK(heard.text + heard.length <= end);
        }
        free(atom);
    }
}

int main(void)
{
    talk_open(&talk);
    RUN(a_piece_told_is_the_piece_heard);
    RUN(a_piece_outside_its_text_is_refused);
    RUN(a_cut_or_spoilt_piece_is_refused_or_within_its_text);
    talk_close(&talk);
    return tests_end();
}
