// SPDX-License-Identifier: ISC
/* What a host hands over as a text need not be one: nothing is shown but UTF-8 (RFC 3629), as
   what draws it takes nothing else.  Found by tests/fuzz. */
#include "../help/check.h"
#include "../talk/talk.h"
#include "fresh_desk.h"

static void tell(const LV2_URID property, const char* const text)
{
    Talk* const talk = calloc(1, sizeof *talk);
    LV2_Atom_Forge_Frame frame;
    LV2_URID_Map map = {own->table, uri_table_map};
    talk->uris = own->uris;
    lv2_atom_forge_init(&talk->forge, &map);
    talk_begin(talk);
    encode_begin(&talk->forge, &frame, property, &talk->uris);
    lv2_atom_forge_string(&talk->forge, text, (uint32_t)strlen(text));
    lv2_atom_forge_pop(&talk->forge, &frame);
    talk_end(talk);
    incoming_port_event(&own->model, PORT_NOTIFY, talk->size, own->uris.atom_eventTransfer,
                        &talk->buffer.atom);
    free(talk);
}

static void a_complaint_of_broken_letters_has_question_marks_in_their_place(void)
{
    fresh();
    tell(own->uris.fl_bankMessages, "a\xFF"
                                    "b\xC3");
    CHECK_TEXT(own->model.view.message, "a?b?");
}

static void so_has_a_refusal(void)
{
    fresh();
    tell(own->uris.fl_refused, "\x80 is \xC3\xA4");
    CHECK_TEXT(own->model.view.edit.note, "? is \xC3\xA4");
}

int main(void)
{
    RUN(a_complaint_of_broken_letters_has_question_marks_in_their_place);
    RUN(so_has_a_refusal);
    return tests_end();
}
