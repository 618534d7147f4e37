// SPDX-License-Identifier: ISC
/* same_notes.h - checks that two players heard the same, note by note. */
#pragma once

#include "../help/check.h"
#include "player.h"

enum { NOTE_TEXT_ROOM = 64 };

static inline void note_text(const Player* const player, const size_t index,
                             char text[NOTE_TEXT_ROOM])
{
    if (index >= player->count) {
        snprintf(text, NOTE_TEXT_ROOM, "no more notes");
        return;
    }
    const Note note = player->notes[index];
    snprintf(text, NOTE_TEXT_ROOM, "%02x %u %u at frame %" PRId64, note.bytes[0], note.bytes[1],
             note.bytes[2], note.frame);
}

static inline void check_same_notes(const Player* const got, const Player* const want)
{
    for (size_t i = 0; i < got->count || i < want->count; ++i) {
        char got_text[NOTE_TEXT_ROOM], want_text[NOTE_TEXT_ROOM];
        note_text(got, i, got_text);
        note_text(want, i, want_text);
        if (!CHECK_TEXT(got_text, want_text)) {
            return;
        }
    }
}
