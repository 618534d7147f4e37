// SPDX-License-Identifier: ISC
#include "notify.h"

#include "../bank/utf8.h"
#include "worker.h"

#include <string.h>

enum { PIECE_BYTES = 4096 };

void notify_init(Notify* const notify, LV2_URID_Map* const map, Queue* const answers,
                 const double rate)
{
    notify->answers = answers;
    lv2_atom_forge_init(&notify->forge, map);
    preview_feed_init(&notify->preview_feed, rate);
}

/* True if both texts are empty, so that there is no news. */
static bool still_empty(const char* const before, const char* const now)
{
    return !*before && !*now;
}

/* From the beginning. */
static void begin_telling(Telling* const telling)
{
    telling->is_due = true;
    telling->at = 0;
}

void notify_snapshot(Notify* const notify, const Snapshot* const snapshot)
{
    const Snapshot* const before = notify->snapshot;
    notify->is_due = true;
    for (int kind = 0; before && kind < FIGURE_KINDS; ++kind) {
        notify->draft_due[kind] |= !still_empty(snapshot_draft(before, (FigureKind)kind),
                                                snapshot_draft(snapshot, (FigureKind)kind));
    }
    if (before && snapshot_bank(before) != snapshot_bank(snapshot)) {
        ++notify->entries.which;
        begin_telling(&notify->entries);
    }
    if (before && snapshot_kept(before) != snapshot_kept(snapshot)) {
        ++notify->kept.which;
        begin_telling(&notify->kept);
    }
    notify->bank_due |=
        before && !still_empty(snapshot_messages(before), snapshot_messages(snapshot));
    notify->snapshot = snapshot;
    preview_start(&notify->preview_feed.preview); /* its figures are the old snapshot's */
}

void notify_asked(Notify* const notify, const LV2_URID property, const Uris* const uris)
{
    notify->is_due = true;
    preview_feed_ask(&notify->preview_feed, !property, property == uris->fl_noteIn);
    if (!property || property == uris->fl_sessionEntries) {
        begin_telling(&notify->entries);
    }
    if (!property || property == uris->fl_keptSelections) {
        begin_telling(&notify->kept);
    }
    if (property) {
        return;
    }
    notify->dropped_due = true;
    notify->bank_due = true;
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        notify->draft_due[kind] = true;
    }
}

/* False if there is no room now. */
static bool tell_long(Notify* const notify, const LV2_URID property, const int64_t value,
                      const Uris* const uris)
{
    LV2_Atom_Forge* const forge = &notify->forge;
    if (!encode_has_room(forge, sizeof(int64_t))) {
        return false;
    }
    LV2_Atom_Forge_Frame frame;
    encode_begin_event(forge, &frame, property, uris);
    lv2_atom_forge_long(forge, value);
    lv2_atom_forge_pop(forge, &frame);
    return true;
}

/* Bytes of text that the port could take if it were empty. */
static size_t most_text(const LV2_Atom_Forge* const forge)
{
    return forge->size > 2 * ENCODE_HEAD_BYTES ? forge->size - 2 * ENCODE_HEAD_BYTES : 0;
}

static bool tell_text(Notify* const notify, const LV2_URID property, const char* const text,
                      const size_t length, const Uris* const uris)
{
    LV2_Atom_Forge* const forge = &notify->forge;
    if (!encode_has_room(forge, length + 1)) {
        return false;
    }
    LV2_Atom_Forge_Frame frame;
    encode_begin_event(forge, &frame, property, uris);
    lv2_atom_forge_string(forge, text, (uint32_t)length);
    lv2_atom_forge_pop(forge, &frame);
    return true;
}

/* Messages are cut to what the port can ever take. */
static bool tell_message(Notify* const notify, const LV2_URID property, const char* const text,
                         const Uris* const uris)
{
    const size_t most = most_text(&notify->forge);
    const size_t length = strlen(text);
    return tell_text(notify, property, text, most ? utf8_cut(text, length, most) : length, uris);
}

/* Half a draft would be none: one that the port can never take isn't told. */
static bool tell_draft(Notify* const notify, const FigureKind kind, const Uris* const uris)
{
    const char* const text = notify->snapshot ? snapshot_draft(notify->snapshot, kind) : "";
    const size_t length = strlen(text);
    const size_t most = most_text(&notify->forge);
    return (most && length > most) || tell_text(notify, uris->fl_drafts[kind], text, length, uris);
}

/* A piece in a block, so that neither the block nor the host's way to its window is
   filled: what is lost there is asked for again. */
static void tell_next_piece(Notify* const notify, Telling* const telling, const LV2_URID property,
                            const char* const text, const size_t whole, const Uris* const uris)
{
    LV2_Atom_Forge* const forge = &notify->forge;
    const size_t left = whole - telling->at;
    const size_t length = left < PIECE_BYTES ? left : PIECE_BYTES;
    if (!encode_has_room(forge, ENCODE_PIECE_BYTES + length)) {
        return;
    }
    const Piece piece = {telling->which, (int32_t)telling->at, (int32_t)whole, (int32_t)length,
                         text + telling->at};
    LV2_Atom_Forge_Frame frame;
    encode_begin_event(forge, &frame, property, uris);
    encode_piece(forge, &piece, uris);
    lv2_atom_forge_pop(forge, &frame);
    telling->at += (uint32_t)length;
    telling->is_due = telling->at < whole;
}

static void tell_pieces(Notify* const notify, const Uris* const uris)
{
    const Snapshot* const snapshot = notify->snapshot;
    size_t whole = 0; /* stays 0 without a snapshot */
    if (notify->entries.is_due) {
        const char* const text = snapshot ? bank_text(snapshot_bank(snapshot), &whole) : "";
        tell_next_piece(notify, &notify->entries, uris->fl_sessionEntries, text, whole, uris);
    }
    if (notify->kept.is_due) {
        const char* const text = snapshot ? kept_list_text(snapshot_kept(snapshot), &whole) : "";
        tell_next_piece(notify, &notify->kept, uris->fl_keptSelections, text, whole, uris);
    }
}

static bool tell_refusal(Notify* const notify, const Parcel parcel, const Uris* const uris)
{
    char why[ANSWER_BYTES + 1];
    queue_copy(notify->answers, parcel, why);
    why[parcel.size] = '\0';
    return tell_message(notify, uris->fl_refused, why, uris);
}

static bool tell_parcel(Notify* const notify, const Parcel* const parcel, const Uris* const uris)
{
    switch ((Answer)parcel->kind) {
    case ANSWER_SAVED_FIGURE:
        return tell_long(notify, uris->fl_savedFigure, parcel->number, uris);
    case ANSWER_SAVED_KIT:
        return tell_long(notify, uris->fl_savedKit, parcel->number, uris);
    case ANSWER_SAVED_GROOVE:
        return tell_long(notify, uris->fl_savedGroove, parcel->number, uris);
    case ANSWER_DELETED:
        return tell_long(notify, uris->fl_deletedEntry, parcel->number, uris);
    case ANSWER_REFUSED:
        return tell_refusal(notify, *parcel, uris);
    }
    return true;
}

static void tell_answers(Notify* const notify, const Uris* const uris)
{
    Parcel parcel;
    while (queue_first(notify->answers, &parcel) && tell_parcel(notify, &parcel, uris)) {
        queue_drop(notify->answers, parcel);
    }
    if (notify->refused && tell_message(notify, uris->fl_refused, notify->refused, uris)) {
        notify->refused = NULL;
    }
}

static bool has_due(const Notify* const notify)
{
    bool is_due =
        notify->dropped_due || notify->bank_due || notify->entries.is_due || notify->kept.is_due;
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        is_due |= notify->draft_due[kind];
    }
    return is_due;
}

/* Each in its turn as far as there is room. */
static void tell_all(Notify* const notify, const uint32_t dropped, const Uris* const uris)
{
    if ((notify->dropped_due || dropped != notify->told_dropped) &&
        tell_long(notify, uris->fl_droppedStrokes, dropped, uris)) {
        notify->told_dropped = dropped;
        notify->dropped_due = false;
    }
    if (notify->bank_due) {
        const char* const messages = notify->snapshot ? snapshot_messages(notify->snapshot) : "";
        notify->bank_due = !tell_message(notify, uris->fl_bankMessages, messages, uris);
    }
    tell_pieces(notify, uris);
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        if (notify->draft_due[kind]) {
            notify->draft_due[kind] = !tell_draft(notify, (FigureKind)kind, uris);
        }
    }
    tell_answers(notify, uris);
    notify->is_due = has_due(notify);
}

/* As in almost every block that nobody looks on in. */
static bool has_nothing_to_tell(const Notify* const notify, const uint32_t dropped)
{
    return !notify->is_due && !notify->refused && dropped == notify->told_dropped &&
           notify->preview_feed.watched <= 0 && queue_is_empty(notify->answers);
}

void notify_run(Notify* const notify, LV2_Atom_Sequence* const sequence, const Engine* const engine,
                const uint32_t frames, const Uris* const uris)
{
    if (!sequence) {
        return;
    }
    const uint32_t capacity = sequence->atom.size;
    if (capacity < sizeof(LV2_Atom_Sequence)) {
        sequence->atom = (LV2_Atom){0, 0};
        return;
    }
    const uint32_t dropped = engine_dropped(engine) + notify->lost_notes;
    if (has_nothing_to_tell(notify, dropped)) {
        *sequence = (LV2_Atom_Sequence){{sizeof sequence->body, uris->atom_Sequence}, {0, 0}};
        return;
    }
    LV2_Atom_Forge_Frame frame;
    lv2_atom_forge_set_buffer(&notify->forge, (uint8_t*)sequence, capacity);
    lv2_atom_forge_sequence_head(&notify->forge, &frame, 0);
    tell_all(notify, dropped, uris);
    preview_feed_tell(&notify->preview_feed, &notify->forge, engine, frames, uris);
    lv2_atom_forge_pop(&notify->forge, &frame);
}
