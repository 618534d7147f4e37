// SPDX-License-Identifier: ISC
/* test_utf8.c - texts cut and repaired, as GLib has UTF-8. */
#include "../../plugin/bank/single.h"
#include "../../plugin/bank/utf8.h"
#include "../help/check.h"

#include <glib.h>
#include <string.h>

/* Of one to four bytes each. */
static const char text[] = "a\xC3\xA9z\xE2\x99\xAF\xF0\x9D\x84\x9E!";

static void a_cut_text_has_all_the_characters_that_fit(void)
{
    const size_t length = strlen(text);
    for (size_t most = 0; most <= length + 2; ++most) {
        const size_t size = utf8_cut(text, length, most);
        const char* const next = text + size + g_utf8_skip[(unsigned char)text[size]];
        CHECK(size <= most && g_utf8_validate(text, (gssize)size, NULL));
        CHECK(size == length || (size_t)(next - text) > most);
    }
}

static void bytes_of_no_character_are_repaired_and_others_stay(void)
{
    GRand* const chance = g_rand_new_with_seed(1);
    for (int round = 0; round < 200000; ++round) {
        char bytes[9] = "", repaired[9];
        for (int i = 0; i < 8; ++i) {
            const gint32 high = g_rand_int_range(chance, 0x70, 0x100);
            bytes[i] = (char)(i % 3 ? high : 0xE0 + high % 0x18);
        }
        memcpy(repaired, bytes, sizeof bytes);
        utf8_repair(repaired);
        CHECK(g_utf8_validate(repaired, -1, NULL));
        CHECK(!g_utf8_validate(bytes, -1, NULL) || !strcmp(bytes, repaired));
    }
    g_rand_free(chance);
}

/* Found by tests/fuzz: serd takes a letter that is begun and not gone on with. */
static void what_is_told_of_an_entry_has_whole_letters(void)
{
    static const char entry[] =
        "@prefix fl: <urn:fourlimb:terms#> .\n"
        "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
        "<urn:test:g> a fl:FeetFigure ; rdfs:label \"a\xCC\xC5z\" ; rdfs:comment \"\xCC\xC5\" ;\n"
        " fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"O.o.\" ] .\n";
    char why[SINGLE_WHY_ROOM] = "";
    Single* const single = single_read("entry", entry, sizeof entry - 1, why);
    CHECK_TEXT(why, "");
    CHECK(single && g_utf8_validate(single->info.label, -1, NULL));
    CHECK(single && g_utf8_validate(single->info.comment, -1, NULL));
    single_free(single);
}

int main(void)
{
    RUN(a_cut_text_has_all_the_characters_that_fit);
    RUN(bytes_of_no_character_are_repaired_and_others_stay);
    RUN(what_is_told_of_an_entry_has_whole_letters);
    return tests_end();
}
