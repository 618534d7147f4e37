// SPDX-License-Identifier: ISC
#include "preview_feed.h"

static const double watch_seconds = 3.0;
static const double places_a_second = 30.0;

enum { FRAMES_A_STEP = 512 }; /* of looking ahead */

void preview_feed_init(PreviewFeed* const preview_feed, const double rate)
{
    preview_feed->rate = rate;
    preview_feed->watched = 0;
    preview_feed->note_count = 0;
    preview_feed->learns = false;
    preview_start(&preview_feed->preview);
}

void preview_feed_ask(PreviewFeed* const preview_feed, const bool all, const bool learns)
{
    if (all || preview_feed->watched <= 0) {
        preview_start(&preview_feed->preview);
        preview_feed->since_place = INT64_MAX / 2;
        preview_feed->told_place = (SeenPlace){.bar = INT64_MIN};
    }
    preview_feed->watched = (int64_t)(watch_seconds * preview_feed->rate);
    preview_feed->learns = learns;
}

/* More at once than there is room for are used up untold: none is to sound. */
bool preview_feed_midi(PreviewFeed* const preview_feed, const uint8_t* const bytes,
                       const uint32_t size)
{
    if (!preview_feed->learns || preview_feed->watched <= 0 ||
        through_incoming(bytes, size) != INCOMING_BEGINS) {
        return false;
    }
    if (preview_feed->note_count < PREVIEW_FEED_NOTES) {
        preview_feed->notes[preview_feed->note_count++] = bytes[1];
    }
    return true;
}

/* Thirty times a second at most, and only where it has changed. */
static void tell_new_place(PreviewFeed* const preview_feed, LV2_Atom_Forge* const forge,
                           const Engine* const engine, const Uris* const uris)
{
    if ((double)preview_feed->since_place * places_a_second < preview_feed->rate ||
        !encode_has_room(forge, sizeof(SeenPlace) * 4)) {
        return;
    }
    const SeenPlace place = preview_place(&preview_feed->preview, engine);
    preview_feed->since_place = 0;
    if (!encode_places_alike(&place, &preview_feed->told_place)) {
        LV2_Atom_Forge_Frame frame;
        encode_begin_event(forge, &frame, uris->fl_place, uris);
        encode_place(forge, &place, uris);
        lv2_atom_forge_pop(forge, &frame);
        preview_feed->told_place = place;
        preview_told(&preview_feed->preview, &place);
    }
}

/* A bar is of a phrase: which that is must be told first. */
static bool has_told_phrase(PreviewFeed* const preview_feed, LV2_Atom_Forge* const forge,
                            const Engine* const engine, const Uris* const uris)
{
    const SeenPlace* const told = &preview_feed->told_place;
    for (int tries = 0; tries < 2; ++tries) {
        const SeenPlace now = preview_place(&preview_feed->preview, engine);
        if (told->bar != INT64_MIN && told->phrase == now.phrase &&
            told->phrase_bars == now.phrase_bars) {
            return true;
        }
        preview_feed->since_place = INT64_MAX / 2;
        tell_new_place(preview_feed, forge, engine, uris);
    }
    return false;
}

static void tell_next_bar(PreviewFeed* const preview_feed, LV2_Atom_Forge* const forge,
                          const Engine* const engine, const Uris* const uris)
{
    if (!preview_feed->preview.is_ready || !has_told_phrase(preview_feed, forge, engine, uris) ||
        !encode_has_room(forge, ENCODE_BAR_BYTES)) {
        return;
    }
    LV2_Atom_Forge_Frame frame;
    encode_begin_event(forge, &frame, uris->fl_bar, uris);
    encode_bar(forge, preview_fetch(&preview_feed->preview), uris);
    lv2_atom_forge_pop(forge, &frame);
}

static void tell_notes(PreviewFeed* const preview_feed, LV2_Atom_Forge* const forge,
                       const Uris* const uris)
{
    uint32_t told = 0;
    while (told < preview_feed->note_count && encode_has_room(forge, sizeof(int64_t))) {
        LV2_Atom_Forge_Frame frame;
        encode_begin_event(forge, &frame, uris->fl_noteIn, uris);
        lv2_atom_forge_long(forge, preview_feed->notes[told++]);
        lv2_atom_forge_pop(forge, &frame);
    }
    for (uint32_t i = told; i < preview_feed->note_count; ++i) {
        preview_feed->notes[i - told] = preview_feed->notes[i];
    }
    preview_feed->note_count -= told;
}

void preview_feed_tell(PreviewFeed* const preview_feed, LV2_Atom_Forge* const forge,
                       const Engine* const engine, const uint32_t frames, const Uris* const uris)
{
    if (preview_feed->watched <= 0) {
        return;
    }
    preview_feed->watched -= frames;
    preview_feed->since_place += frames;
    tell_new_place(preview_feed, forge, engine, uris);
    tell_notes(preview_feed, forge, uris);
    tell_next_bar(preview_feed, forge, engine, uris); /* that had no room last time */
    for (uint32_t done = 0; done < frames; done += FRAMES_A_STEP) {
        preview_step(&preview_feed->preview, engine);
        tell_next_bar(preview_feed, forge, engine, uris);
    }
}
