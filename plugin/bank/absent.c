// SPDX-License-Identifier: ISC
#include "absent.h"

#include <stdio.h>
#include <string.h>

bool absent_is(const Bank* const bank, const EntryName* const row)
{
    const EntryInfo* const info = bank_info(bank, row->kind, row->id);
    return !info || (info->id == row->id && strcmp(info->uri, row->uri) != 0);
}

/* Hands that left may be others on another cymbal. */
static void say_left(Messages* const messages, const Bank* const bank, const EntryName* const row,
                     const char* const label)
{
#define WORDS(NAME, name, words, brief) words,
    static const char* const words[] = {VOICES(WORDS)};
#undef WORDS
    const RideOn ride_on = row->kind == ENTRY_HANDS ? library_ride_on(bank_library(bank), row->id)
                                                    : RIDE_ON_AS_WRITTEN;
    char place[64] = "\" plays in its place\n";
    if (ride_on) {
        snprintf(place, sizeof place, "\" plays in its place, on the %s\n",
                 words[ride_on_voice(ride_on)]);
    }
    messages_say(messages, "left the factory's bank; \"", label, place);
}

/* A name that an owner changed is told too: only they know that it is the same. */
static void say_row(Messages* const messages, const Bank* const bank, const EntryName* const row)
{
    char who[64];
    const EntryInfo* const info = bank_info(bank, row->kind, row->id);
    if (info && info->id == row->id && !absent_is(bank, row) && !strcmp(info->label, row->label)) {
        return;
    }
    snprintf(who, sizeof who, "%s %u \"", kind_rows[row->kind].word, row->id);
    messages_say(messages, who, row->label, "\" ");
    if (info && info->id != row->id) {
        say_left(messages, bank, row, info->label);
    } else if (info) {
        messages_say(messages, "of this session is \"", info->label,
                     "\" in the bank now, and that plays; pick another if it isn't the same\n");
    } else {
        messages_say(messages, "is not in the bank; ", kind_rows[row->kind].instead, "\n");
    }
}

void absent_say(Messages* const messages, const Bank* const bank, const char* const names)
{
    EntryNames entry_names = {.count = 0};
    entry_names_read(&entry_names, names);
    for (int i = 0; i < entry_names.count; ++i) {
        say_row(messages, bank, &entry_names.rows[i]);
    }
    entry_names_clear(&entry_names);
}
