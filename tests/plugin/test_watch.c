// SPDX-License-Identifier: ISC
/* What the plugin tells a window that looks on: the phrase and the place, for as
   long as somebody asks, whatever the block and however little room there is. */
#include "../../plugin/talk/decode.h"
#include "../../plugin/talk/encode.h"
#include "../help/check.h"
#include "raw.h"

enum { PHRASE = 16 };

typedef struct {
    int places;
    int bars;
    int count[PHRASE + 1]; /* by place in the phrase; the last is the bar after */
    int64_t dropped;       /* as told last, -1: not told */
    int messages;          /* of the bank */
    int wrong;             /* no message that can be heard, out of order or room */
    SeenPlace place;       /* as told last */
    SeenBar bar;           /* likewise */
} Told;

static Host* host;
static Raw* raw;
static Uris uris;
static Played played; /* too large for a stack */
static Told told;
static int64_t frames_run;
static uint32_t midi_room = RAW_ROOM;

static void forge_begin(LV2_Atom_Forge* const forge, LV2_Atom_Forge_Frame* const frame)
{
    lv2_atom_forge_init(forge, &raw->map);
    lv2_atom_forge_set_buffer(forge, (uint8_t*)&raw->input, RAW_ROOM);
    lv2_atom_forge_sequence_head(forge, frame, 0);
}

/* Nothing for the next run. */
static void quiet(void)
{
    raw_forge(raw, false);
}

static void ask(const LV2_URID property)
{
    LV2_Atom_Forge forge;
    LV2_Atom_Forge_Frame frame;
    forge_begin(&forge, &frame);
    lv2_atom_forge_frame_time(&forge, 0);
    encode_look(&forge, property, &uris);
    lv2_atom_forge_pop(&forge, &frame);
}

static void take_told(const LV2_Atom* const atom)
{
    LV2_URID property = 0;
    const LV2_Atom* value = NULL;
    const uint32_t size = (uint32_t)sizeof *atom + atom->size;
    if (!decode_message(atom, size, &uris, &property, &value)) {
        ++told.wrong;
    } else if (property == uris.fl_place) {
        told.wrong += !decode_place(value, &uris, &told.place);
        ++told.places;
    } else if (property == uris.fl_bar) {
        told.wrong += !decode_bar(value, &uris, &told.bar);
        ++told.bars;
        const int64_t at = told.bar.bar - told.place.phrase;
        told.wrong += at < 0 || at > PHRASE; /* its phrase is told first */
        ++told.count[at < 0 || at > PHRASE ? 0 : at];
    } else if (property == uris.fl_droppedStrokes) {
        memcpy(&told.dropped, value + 1, sizeof told.dropped);
    } else if (property == uris.fl_bankMessages) {
        ++told.messages;
    }
}

/* A block with so much room on notify, head included. */
static void run(const uint32_t frames, const uint32_t room)
{
    const LV2_URID chunk = uri_table_map(raw->uris, LV2_ATOM__Chunk);
    raw->midi.sequence.atom = (LV2_Atom){midi_room, chunk};
    memset(&raw->notify, 0x5A, sizeof raw->notify);
    raw->notify.sequence.atom = (LV2_Atom){room, chunk};
    lilv_instance_run(raw->instance, frames);
    quiet();
    frames_run += frames;
    const LV2_Atom* const atom = &raw->notify.sequence.atom;
    told.wrong += atom->size > room;
    const uint8_t* const bytes = (const uint8_t*)&raw->notify;
    for (uint32_t at = room < 8 ? 8 : room; at < room + 64 && at < sizeof raw->notify; ++at) {
        told.wrong += bytes[at] != 0x5A; /* nothing is written beyond the room */
    }
    if (atom->size < sizeof(LV2_Atom_Sequence_Body)) {
        return;
    }
    LV2_ATOM_SEQUENCE_FOREACH (&raw->notify.sequence, event) {
        told.wrong += event->time.frames < 0 || event->time.frames > frames;
        take_told(&event->body);
    }
}

static void run_seconds(const double seconds, const uint32_t block, const uint32_t room)
{
    for (const int64_t end = frames_run + (int64_t)(seconds * RATE); frames_run < end;) {
        run(block, room);
    }
}

static void forget(void)
{
    told = (Told){.dropped = -1};
}

/* Rolling from bar 0, nobody looking on yet. */
static void begin(void)
{
    lilv_instance_deactivate(raw->instance);
    lilv_instance_activate(raw->instance);
    raw_set_defaults(raw);
    raw->controls[CONTROL_PHRASE_BARS] = PHRASE;
    run_seconds(4.0, 512, RAW_ROOM); /* whoever looked on before has gone */
    raw_forge(raw, true);
    run(512, RAW_ROOM);
    forget();
}

static bool has_whole_phrase(void)
{
    int bar = 0;
    while (bar <= PHRASE && told.count[bar]) {
        ++bar;
    }
    return bar > PHRASE;
}

static bool seen[128]; /* bars told, by number */

static bool has_seen_phrase(void)
{
    bool all = true;
    for (uint32_t bar = 0; bar <= told.place.phrase_bars; ++bar) {
        all = all && seen[(told.place.phrase + bar) % 128];
    }
    return all;
}

static void note_seconds(const double seconds, const uint32_t block, const bool until_seen)
{
    const int64_t end = frames_run + (int64_t)(seconds * RATE);
    while (frames_run < end && !(until_seen && has_seen_phrase())) {
        const int before = told.bars;
        const SeenPlace* const place = &told.place;
        run(block, RAW_ROOM);
        if (told.bars > before) {
            seen[told.bar.bar % 128] = true;
            CHECK(told.bar.bar >= place->phrase &&
                  told.bar.bar <= place->phrase + place->phrase_bars);
        }
    }
}

/* Over the ends of phrases: no bar is told before the place has said its phrase,
   else a window could not tell where it belongs; and none is left out.  Blocks this
   short tell one bar at most. */
static void each_phrase_is_told_before_its_bars(void)
{
    static const int phrases[] = {1, 2, 3, 15, 16};
    static const uint32_t blocks[] = {64, 512, 1024};
    for (int i = 0; i < 15; ++i) {
        const uint32_t block = blocks[i / 5];
        begin();
        memset(seen, 0, sizeof seen);
        raw->controls[CONTROL_PHRASE_BARS] = (float)phrases[i % 5];
        raw->controls[CONTROL_CHANGE_AT] = (float)CHANGE_AT_BAR;
        run_seconds(2.0 * phrases[i % 5] + 2.5, block, RAW_ROOM); /* 2 s a bar */
        ask(0);
        note_seconds(2.0, block, false);
        ask(uris.fl_place);
        note_seconds(2.0, block, false);
        note_seconds(1.0, block, true);
        check_case("phrase of %d, blocks of %u", phrases[i % 5], block);
        CHECK(has_seen_phrase());
        CHECK_INT(told.wrong, 0);
    }
}

static void nobody_who_does_not_ask_is_told(void)
{
    begin();
    run_seconds(2.0, 512, RAW_ROOM);
    CHECK_INT(told.places + told.bars + told.messages + told.wrong, 0);
    CHECK_INT(told.dropped, -1);
}

static void the_whole_phrase_is_told_within_a_second_at_any_block(void)
{
    static const uint32_t blocks[] = {64, 128, 512, 1000, 1024, 2048, 4096, 8192};
    for (size_t i = 0; i < sizeof blocks / sizeof *blocks; ++i) {
        begin();
        check_case("blocks of %u frames", blocks[i]);
        const int64_t from = frames_run;
        ask(0);
        while (!has_whole_phrase() && frames_run - from < 10 * (int64_t)RATE) {
            run(blocks[i], RAW_ROOM);
        }
        CHECK(frames_run - from <= RATE + blocks[i]); /* and the block that it ends in */
        CHECK_INT(told.wrong, 0);
    }
}

static void the_place_is_told_about_thirty_times_a_second(void)
{
    static const uint32_t blocks[] = {64, 256, 512, 1024};
    for (size_t i = 0; i < sizeof blocks / sizeof *blocks; ++i) {
        begin();
        ask(0);
        run_seconds(1.5, blocks[i], RAW_ROOM); /* bars bring places of their own */
        forget();
        run_seconds(1.0, blocks[i], RAW_ROOM);
        check_case("blocks of %u frames", blocks[i]);
        CHECK(told.places >= 22 && told.places <= 31);
        CHECK_INT(told.wrong, 0);
    }
}

static void the_place_told_is_where_the_frames_are(void)
{
    begin();
    ask(0);
    const int64_t start = frames_run - 512;
    for (int i = 0; i < 200; ++i) {
        const int before = told.places;
        run(512, RAW_ROOM);
        if (told.places > before) {
            const double quarters = (double)(frames_run - start) / QUARTER_FRAMES;
            CHECK_NEAR((double)told.place.bar * 4.0 + told.place.tick / (double)TICKS_PER_QUARTER,
                       quarters, 1e-6);
        }
    }
    CHECK(told.places > 10);
}

static void telling_ends_three_seconds_after_the_last_question(void)
{
    begin();
    ask(0);
    run_seconds(2.0, 512, RAW_ROOM);
    ask(uris.fl_place);
    run_seconds(2.9, 512, RAW_ROOM);
    forget();
    run_seconds(0.08, 512, RAW_ROOM);
    CHECK(told.places > 0);
    run_seconds(0.1, 512, RAW_ROOM);
    forget();
    run_seconds(2.0, 512, RAW_ROOM);
    CHECK_INT(told.places + told.bars, 0);
}

static void a_question_that_goes_on_brings_no_bar_twice(void)
{
    begin();
    ask(0);
    run_seconds(1.5, 512, RAW_ROOM);
    CHECK(has_whole_phrase());
    forget();
    for (int i = 0; i < 4; ++i) {
        ask(uris.fl_place);
        run_seconds(1.0, 512, RAW_ROOM);
    }
    CHECK_INT(told.bars, 0);
}

static void a_second_onlooker_is_told_everything_again(void)
{
    begin();
    ask(0);
    run_seconds(1.5, 512, RAW_ROOM);
    forget();
    ask(0);
    run_seconds(1.5, 512, RAW_ROOM);
    CHECK(has_whole_phrase());
    CHECK_INT(told.messages, 1);
    CHECK(told.places > 0);
}

static void one_who_comes_back_is_told_everything_again(void)
{
    begin();
    ask(0);
    run_seconds(6.0, 512, RAW_ROOM);
    forget();
    ask(uris.fl_place); /* as a window does whose first question was lost */
    run_seconds(1.5, 512, RAW_ROOM);
    CHECK(has_whole_phrase());
}

/* Standing still, nothing changes and nothing is told. */
static void a_place_that_stands_still_is_told_once(void)
{
    lilv_instance_deactivate(raw->instance);
    lilv_instance_activate(raw->instance);
    raw_set_defaults(raw);
    run_seconds(4.0, 512, RAW_ROOM);
    forget();
    ask(0);
    run_seconds(1.5, 512, RAW_ROOM);
    CHECK(told.places >= 1);
    forget();
    run_seconds(1.0, 512, RAW_ROOM);
    CHECK_INT(told.places, 0);
}

static void a_change_is_told_as_a_coming_bar(void)
{
    begin();
    ask(0);
    run_seconds(1.5, 512, RAW_ROOM);
    forget();
    raw->controls[CONTROL_FEET] = 3.0f;
    raw->controls[CONTROL_CHANGE_AT] = (float)CHANGE_AT_PHRASE;
    run_seconds(1.2, 512, RAW_ROOM);
    CHECK(told.place.waiting);
    CHECK_INT(told.place.change_bar, PHRASE);
    CHECK(told.count[PHRASE] > 0);
    CHECK_INT(told.wrong, 0);
}

/* A host that gives almost nothing, and later enough. */
static void what_finds_no_room_is_told_when_there_is_some(void)
{
    static const uint32_t rooms[] = {0, 8, 15, 16, 17, 24, 100, 200, 1024, 6000};
    for (size_t i = 0; i < sizeof rooms / sizeof *rooms; ++i) {
        begin();
        check_case("room for %u bytes", rooms[i]);
        ask(0);
        run_seconds(1.0, 512, rooms[i]);
        CHECK_INT(told.wrong, 0);
        CHECK(rooms[i] < 1024 || told.places > 20);
        ask(uris.fl_place);
        run_seconds(1.5, 512, RAW_ROOM);
        CHECK(has_whole_phrase());
        CHECK_INT(told.messages, 1);
        CHECK_INT(told.dropped, 0);
        CHECK(told.places > 0);
        CHECK_INT(told.wrong, 0);
    }
}

/* The room that the bundle asks of hosts (rsz:minimumSize) is enough for a bar. */
static void the_room_that_the_bundle_asks_for_takes_a_bar(void)
{
    LilvNode* const asks =
        lilv_new_uri(host_world(host), "http://lv2plug.in/ns/ext/resize-port#minimumSize");
    LilvNode* const asked = lilv_port_get(
        host_plugin(host), lilv_plugin_get_port_by_index(host_plugin(host), PORT_NOTIFY), asks);
    if (CHECK(asked && lilv_node_is_int(asked))) {
        begin();
        ask(0);
        run_seconds(1.5, 512, (uint32_t)lilv_node_as_int(asked));
        CHECK(has_whole_phrase());
        CHECK_INT(told.wrong, 0);
    }
    lilv_node_free(asked);
    lilv_node_free(asks);
}

static void dropped_strokes_are_told_as_soon_as_there_are_more(void)
{
    begin();
    midi_room = sizeof(LV2_Atom_Sequence_Body) + 24; /* of one message */
    run_seconds(2.0, 512, RAW_ROOM);
    midi_room = RAW_ROOM;
    CHECK(told.dropped > 0);
}

int main(void)
{
    host = bundle_host(RATE);
    raw = raw_open(host);
    uris = uris_map(&raw->map);
    raw_play(raw, &played, 512);
    quiet();
    RUN(nobody_who_does_not_ask_is_told);
    RUN(the_whole_phrase_is_told_within_a_second_at_any_block);
    RUN(each_phrase_is_told_before_its_bars);
    RUN(the_place_is_told_about_thirty_times_a_second);
    RUN(the_place_told_is_where_the_frames_are);
    RUN(telling_ends_three_seconds_after_the_last_question);
    RUN(a_question_that_goes_on_brings_no_bar_twice);
    RUN(a_second_onlooker_is_told_everything_again);
    RUN(one_who_comes_back_is_told_everything_again);
    RUN(a_place_that_stands_still_is_told_once);
    RUN(a_change_is_told_as_a_coming_bar);
    RUN(what_finds_no_room_is_told_when_there_is_some);
    RUN(the_room_that_the_bundle_asks_for_takes_a_bar);
    RUN(dropped_strokes_are_told_as_soon_as_there_are_more);
    raw_close(raw);
    host_close(host);
    return tests_end();
}
