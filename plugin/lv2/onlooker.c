// SPDX-License-Identifier: ISC
#include "onlooker.h"

static const double watch_seconds = 3.0;
static const double places_a_second = 30.0;

enum { FRAMES_A_STEP = 512 }; /* of looking ahead */

void onlooker_init(Onlooker* const onlooker, const double rate)
{
    onlooker->rate = rate;
    onlooker->watched = 0;
    onlooker->note_count = 0;
    onlooker->learns = false;
    outlook_start(&onlooker->outlook);
}

void onlooker_ask(Onlooker* const onlooker, const bool all, const bool learns)
{
    if (all || onlooker->watched <= 0) {
        outlook_start(&onlooker->outlook);
        onlooker->since_place = INT64_MAX / 2;
        onlooker->told_place = (SeenPlace){.bar = INT64_MIN};
    }
    onlooker->watched = (int64_t)(watch_seconds * onlooker->rate);
    onlooker->learns = learns;
}

/* More at once than there is room for are used up untold: none is to sound. */
bool onlooker_midi(Onlooker* const onlooker, const uint8_t* const bytes, const uint32_t size)
{
    const bool begins = through_incoming(bytes, size) == INCOMING_BEGINS;
    if (!begins || !onlooker->learns || onlooker->watched <= 0) {
        return false;
    }
    if (onlooker->note_count < ONLOOKER_NOTES) {
        onlooker->notes[onlooker->note_count++] = bytes[1];
    }
    return true;
}

/* Thirty times a second at most, and only where it has changed. */
static void tell_new_place(Onlooker* const onlooker, LV2_Atom_Forge* const forge,
                           const Engine* const engine, const Uris* const uris)
{
    if ((double)onlooker->since_place * places_a_second < onlooker->rate ||
        !tell_has_room(forge, sizeof(SeenPlace) * 4)) {
        return;
    }
    const SeenPlace place = outlook_place(&onlooker->outlook, engine);
    onlooker->since_place = 0;
    if (!tell_places_alike(&place, &onlooker->told_place)) {
        LV2_Atom_Forge_Frame frame;
        tell_begin_event(forge, &frame, uris->fl_place, uris);
        tell_place(forge, &place, uris);
        lv2_atom_forge_pop(forge, &frame);
        onlooker->told_place = place;
    }
}

/* A bar is of a phrase: which that is must be told first. */
static bool has_told_phrase(Onlooker* const onlooker, LV2_Atom_Forge* const forge,
                            const Engine* const engine, const Uris* const uris)
{
    const SeenPlace* const told = &onlooker->told_place;
    for (int tries = 0; tries < 2; ++tries) {
        const SeenPlace now = outlook_place(&onlooker->outlook, engine);
        if (told->bar != INT64_MIN && told->phrase == now.phrase &&
            told->phrase_bars == now.phrase_bars) {
            return true;
        }
        onlooker->since_place = INT64_MAX / 2;
        tell_new_place(onlooker, forge, engine, uris);
    }
    return false;
}

static void tell_next_bar(Onlooker* const onlooker, LV2_Atom_Forge* const forge,
                          const Engine* const engine, const Uris* const uris)
{
    if (!onlooker->outlook.is_ready || !has_told_phrase(onlooker, forge, engine, uris) ||
        !tell_has_room(forge, TELL_BAR_BYTES)) {
        return;
    }
    LV2_Atom_Forge_Frame frame;
    tell_begin_event(forge, &frame, uris->fl_bar, uris);
    tell_bar(forge, outlook_fetch(&onlooker->outlook), uris);
    lv2_atom_forge_pop(forge, &frame);
}

static void tell_notes(Onlooker* const onlooker, LV2_Atom_Forge* const forge,
                       const Uris* const uris)
{
    uint32_t told = 0;
    while (told < onlooker->note_count && tell_has_room(forge, sizeof(int64_t))) {
        LV2_Atom_Forge_Frame frame;
        tell_begin_event(forge, &frame, uris->fl_noteIn, uris);
        lv2_atom_forge_long(forge, onlooker->notes[told++]);
        lv2_atom_forge_pop(forge, &frame);
    }
    for (uint32_t i = told; i < onlooker->note_count; ++i) {
        onlooker->notes[i - told] = onlooker->notes[i];
    }
    onlooker->note_count -= told;
}

void onlooker_tell(Onlooker* const onlooker, LV2_Atom_Forge* const forge,
                   const Engine* const engine, const uint32_t frames, const Uris* const uris)
{
    if (onlooker->watched <= 0) {
        return;
    }
    onlooker->watched -= frames;
    onlooker->since_place += frames;
    tell_new_place(onlooker, forge, engine, uris);
    tell_notes(onlooker, forge, uris);
    tell_next_bar(onlooker, forge, engine, uris); /* that had no room last time */
    for (uint32_t done = 0; done < frames; done += FRAMES_A_STEP) {
        outlook_step(&onlooker->outlook, engine);
        tell_next_bar(onlooker, forge, engine, uris);
    }
}
