// SPDX-License-Identifier: ISC
/* A message written as Turtle by sratom, LV2's own library for that, and read again
   is the same message: so it is made of atoms as the Atom specification has them. */
#include "talk.h"

#include <sratom/sratom.h>

#define SUBJECT "http://example.org/subject"
#define PREDICATE "http://www.w3.org/1999/02/22-rdf-syntax-ns#value"

static Talk talk;
static SeenBar bar, other; /* too large for a stack */

/* The message in the buffer, by way of text; to be freed, as is `text`. */
static LV2_Atom* by_turtle(char** const text)
{
    LV2_URID_Unmap unmap = {talk.table, uri_table_unmap};
    Sratom* const sratom = sratom_new(&talk.map);
    const LV2_Atom* const atom = &talk.buffer.atom;
    const SerdNode subject = serd_node_from_string(SERD_URI, (const uint8_t*)SUBJECT);
    const SerdNode predicate = serd_node_from_string(SERD_URI, (const uint8_t*)PREDICATE);
    *text = sratom_to_turtle(sratom, &unmap, "http://example.org/", &subject, &predicate,
                             atom->type, atom->size, LV2_ATOM_BODY(&talk.buffer.atom));
    LV2_Atom* const read =
        *text ? sratom_from_turtle(sratom, "http://example.org/", &subject, &predicate, *text)
              : NULL;
    sratom_free(sratom);
    return read;
}

static void a_bar_survives_turtle(void)
{
    uint32_t state = 31;
    for (int i = 0; i < 20; ++i) {
        char* text = NULL;
        chance_bar(&state, &bar);
        bar.bar %= 1000000; /* sratom writes more digits in another form */
        talk_bar(&talk, &bar);
        LV2_Atom* const read = by_turtle(&text);
        check_case("bar %d", i);
        CHECK(text && strstr(text, "Message") && strstr(text, "Tuple"));
        CHECK(read && hears_bar(&talk, read, lv2_atom_total_size(read), &other));
        CHECK(bars_alike(&bar, &other));
        free(read);
        free(text);
    }
}

int main(void)
{
    talk_open(&talk);
    RUN(a_bar_survives_turtle);
    talk_close(&talk);
    return tests_end();
}
