// SPDX-License-Identifier: ISC
/* What the plugin says becomes what is shown: from port events recorded of the
   built plugin in a host, in their order, in any order, with some missing. */
#include "../help/check.h"
#include "../talk/talk.h"
#include "recorded.h"

static Recorded* recorded;

static OwnDesk* fresh(void)
{
    static Uris uris;
    OwnDesk* const own = own_desk_open();
    if (!recorded) {
        recorded = record(own);
        uris = own->uris;
    }
    own->uris = uris;
    return own;
}

static void check_same_view(const OwnDesk* const a, const OwnDesk* const b)
{
    const View* const x = &a->model.view;
    const View* const y = &b->model.view;
    CHECK(places_alike(&x->place, &y->place));
    CHECK(!memcmp(x->values, y->values, sizeof x->values));
    CHECK(!memcmp(x->readouts, y->readouts, sizeof x->readouts));
    for (uint32_t bar = 0; bar <= x->place.phrase_bars; ++bar) {
        CHECK_INT(x->has_bar[bar], y->has_bar[bar]);
        CHECK(bars_alike(&x->bars[bar], &y->bars[bar]));
    }
}

/* The last place and the last of each bar among the events: what must be shown. */
static void the_last_word_of_the_plugin_is_shown(void)
{
    OwnDesk* const own = fresh();
    static SeenBar bars[64], bar;
    static bool has[64];
    SeenPlace place = {.bar = 0};
    replay(own, recorded);
    for (int i = 0; i < recorded->count; ++i) {
        LV2_URID property = 0;
        const LV2_Atom* value = NULL;
        const PortEvent* const event = &recorded->events[i];
        if (event->format && decode_message((const LV2_Atom*)event->bytes, event->size, &own->uris,
                                            &property, &value)) {
            decode_place(value, &own->uris, &place);
            if (decode_bar(value, &own->uris, &bar)) {
                bars[bar.bar % 64] = bar;
                has[bar.bar % 64] = true;
            }
        }
    }
    const View* const view = &own->model.view;
    CHECK(view->has_place && places_alike(&view->place, &place));
    CHECK_INT(view->place.phrase_bars, 3);
    CHECK(!view->place.rolling);
    for (int64_t at = place.phrase; at <= place.phrase + 3; ++at) {
        check_case("bar %d", (int)at);
        const SeenBar* const shown = view_bar(view, at);
        CHECK(shown && has[at] && bars_alike(shown, &bars[at]));
    }
    CHECK_NEAR(own_value(own, CONTROL_FEET), 3.0, 0.0);
    CHECK_NEAR(own_value(own, CONTROL_PHRASE_BARS), 3.0, 0.0);
    CHECK_INT(own->writes, 0); /* listening writes nothing */
    own_desk_close(own);
}

/* While it rolls, the bar now playing is there: after the first second, always. */
static void the_bar_now_playing_is_never_missing(void)
{
    OwnDesk* const own = fresh();
    int looked = 0;
    for (int i = 0; i < recorded->count; ++i) {
        replay_one(own, &recorded->events[i]);
        const View* const view = &own->model.view;
        if (recorded->events[i].seconds > 1.2 && view->place.rolling) {
            const SeenBar* const bar = view_bar(view, view_shown(view));
            check_case("at %g s", recorded->events[i].seconds);
            CHECK(bar != NULL);
            ++looked;
        }
    }
    CHECK(looked > 100);
    own_desk_close(own);
}

static void shuffle(int* const order, const int count, uint32_t* const state)
{
    for (int i = 0; i < count; ++i) {
        order[i] = i;
    }
    for (int i = count - 1; i > 0; --i) {
        const int other = (int)(chance(state) % (uint32_t)(i + 1));
        const int kept = order[i];
        order[i] = order[other];
        order[other] = kept;
    }
}

static void check_sane(const View* const view)
{
    CHECK(view->place.phrase_bars <= FORM_BARS_MAX);
    for (int slot = 0; slot < SEEN_BARS; ++slot) {
        CHECK(!view->has_bar[slot] || view->bars[slot].count <= SEEN_STROKES_MAX);
    }
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        CHECK(view->values[i] >= control_rows[i].least && view->values[i] <= control_rows[i].most);
    }
}

static void draw(const OwnDesk* const own)
{
    cairo_surface_t* const surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, 960, 540);
    cairo_t* const cairo = cairo_create(surface);
    screen_draw_all(cairo, &own->model.view);
    CHECK_INT(cairo_status(cairo), CAIRO_STATUS_SUCCESS);
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
}

/* Whatever came before, once all was said again in order it is shown as ever. */
static void after_any_order_the_right_order_is_shown_as_ever(void)
{
    OwnDesk* const wanted = fresh();
    static int order[RECORDED_MAX];
    uint32_t state = 11;
    replay(wanted, recorded);
    for (int round = 0; round < 5; ++round) {
        OwnDesk* const own = fresh();
        check_case("round %d", round);
        shuffle(order, recorded->count, &state);
        for (int i = 0; i < recorded->count; ++i) {
            replay_one(own, &recorded->events[order[i]]);
            if (i % 100 == 0) {
                check_sane(&own->model.view);
                draw(own);
            }
        }
        replay(own, recorded);
        check_same_view(own, wanted);
        own_desk_close(own);
    }
    own_desk_close(wanted);
}

static void with_events_missing_the_rest_is_shown(void)
{
    for (uint32_t left_out = 2; left_out <= 6; ++left_out) {
        OwnDesk* const own = fresh();
        uint32_t state = left_out;
        check_case("one of %u is missing", left_out);
        for (int i = 0; i < recorded->count; ++i) {
            if (chance(&state) % left_out) {
                replay_one(own, &recorded->events[i]);
            }
        }
        check_sane(&own->model.view);
        draw(own);
        CHECK(own->model.view.has_place);
        own_desk_close(own);
    }
}

static void a_message_cut_or_spoilt_does_no_harm(void)
{
    OwnDesk* const own = fresh();
    uint32_t state = 13;
    for (int i = 0; i < recorded->count; ++i) {
        const PortEvent* const event = &recorded->events[i];
        const uint32_t cut = chance(&state) % (event->size + 1);
        uint8_t* const bytes = malloc(event->size + 1);
        memcpy(bytes, event->bytes, event->size);
        bytes[chance(&state) % event->size] = (uint8_t)chance(&state);
        incoming_port_event(&own->model, event->port, event->size, event->format, bytes);
        uint8_t* const shorter = malloc(cut ? cut : 1);
        memcpy(shorter, event->bytes, cut);
        incoming_port_event(&own->model, event->port, cut, event->format, shorter);
        incoming_port_event(&own->model, event->port, cut, event->format + 1, shorter);
        free(shorter);
        free(bytes);
        check_sane(&own->model.view);
    }
    draw(own);
    incoming_port_event(&own->model, PORT_NOTIFY, 0, own->uris.atom_eventTransfer, NULL);
    incoming_port_event(&own->model, PORT_FIRST_CONTROL, sizeof(float), 0, NULL);
    own_desk_close(own);
}

static void ports_that_do_not_exist_change_nothing(void)
{
    OwnDesk* const own = fresh();
    const View before = own->model.view;
    own_port(own, 0, 1.0f);
    own_port(own, PORT_FIRST_READOUT + READOUT_COUNT, 1.0f);
    own_port(own, UINT32_MAX, 1.0f);
    CHECK(!memcmp(before.values, own->model.view.values, sizeof before.values));
    CHECK(!memcmp(before.readouts, own->model.view.readouts, sizeof before.readouts));
    own_desk_close(own);
}

static void odd_values_are_shown_in_range(void)
{
    static const float odd[] = {-1e30f, 1e30f, NAN, INFINITY, -INFINITY, 0.3f, 1e9f, -0.0f};
    OwnDesk* const own = fresh();
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        for (int o = 0; o < 8; ++o) {
            own_say(own, (Control)i, odd[o]);
            check_case("%s at %g", control_rows[i].symbol, (double)odd[o]);
            check_sane(&own->model.view);
        }
        draw(own);
    }
    own_desk_close(own);
}

/* ---- Time */

static void the_place_moves_on_between_two_messages(void)
{
    OwnDesk* const own = fresh();
    Talk* const talk = calloc(1, sizeof *talk);
    const SeenPlace place = {.bar = 4,
                             .tick = 1000.0,
                             .phrase = 4,
                             .phrase_bars = 4,
                             .rolling = true,
                             .ticks_per_second = 50000.0};
    lv2_atom_forge_init(&talk->forge, &(LV2_URID_Map){own->table, uri_table_map});
    LV2_URID_Map map = {own->table, uri_table_map};
    own->uris = talk->uris = uris_map(&map);
    talk_place(talk, &place);
    controller_tick(&own->model, 10.0);
    incoming_port_event(&own->model, PORT_NOTIFY, talk->size, own->uris.atom_eventTransfer,
                        &talk->buffer.atom);
    CHECK_NEAR(own->model.view.now_tick, 1000.0, 0.0);
    controller_tick(&own->model, 10.1);
    CHECK_NEAR(own->model.view.now_tick, 1000.0 + 5000.0, 1e-3);
    controller_tick(&own->model, 10.4);
    CHECK_NEAR(own->model.view.now_tick, 1000.0 + 20000.0, 1e-3);
    controller_tick(&own->model, 60.0); /* the host has gone: it stands still */
    const double stands = own->model.view.now_tick;
    CHECK(stands <= 1000.0 + 50000.0);
    controller_tick(&own->model, 70.0);
    CHECK_NEAR(own->model.view.now_tick, stands, 0.0);
    free(talk);
    own_desk_close(own);
}

static void say(OwnDesk* const own, Talk* const talk)
{
    incoming_port_event(&own->model, PORT_NOTIFY, talk->size, own->uris.atom_eventTransfer,
                        &talk->buffer.atom);
}

/* The plugin tells a phrase and the bar after it, so that the next phrase can begin
   before it is told. */
static void the_bar_after_a_phrase_is_the_first_of_the_next(void)
{
    OwnDesk* const own = fresh();
    Talk* const talk = calloc(1, sizeof *talk);
    LV2_URID_Map map = {own->table, uri_table_map};
    static SeenBar bars[5];
    uint32_t state = 21;
    SeenPlace place = {.phrase_bars = 4, .rolling = true};
    own->uris = talk->uris = uris_map(&map);
    lv2_atom_forge_init(&talk->forge, &map);
    talk_place(talk, &place);
    say(own, talk);
    for (int bar = 0; bar < 5; ++bar) {
        chance_bar(&state, &bars[bar]);
        bars[bar].bar = bar;
        bars[bar].slot = (uint32_t)bar;
        talk_bar(talk, &bars[bar]);
        say(own, talk);
    }
    for (int bar = 0; bar < 5; ++bar) {
        const SeenBar* const shown = view_bar(&own->model.view, bar);
        CHECK(shown && bars_alike(shown, &bars[bar]));
    }
    place.bar = place.phrase = 4;
    talk_place(talk, &place);
    say(own, talk);
    const SeenBar* const first = view_bar(&own->model.view, 4);
    CHECK(first && bars_alike(first, &bars[4]));
    /* A bar not told yet is what the last phrase had in its place. */
    const SeenBar* const second = view_bar(&own->model.view, 5);
    CHECK(second && bars_alike(second, &bars[1]));
    free(talk);
    own_desk_close(own);
}

/* ---- Messages of the bank */

static void say_bank(OwnDesk* const own, const char* const text, const uint32_t length)
{
    Talk* const talk = calloc(1, sizeof *talk);
    LV2_Atom_Forge_Frame frame;
    LV2_URID_Map map = {own->table, uri_table_map};
    own->uris = talk->uris = uris_map(&map);
    lv2_atom_forge_init(&talk->forge, &map);
    talk_begin(talk);
    encode_begin(&talk->forge, &frame, talk->uris.fl_bankMessages, &talk->uris);
    lv2_atom_forge_string(&talk->forge, text, length);
    lv2_atom_forge_pop(&talk->forge, &frame);
    talk_end(talk);
    incoming_port_event(&own->model, PORT_NOTIFY, talk->size, own->uris.atom_eventTransfer,
                        &talk->buffer.atom);
    free(talk);
}

static void the_banks_first_complaint_is_shown(void)
{
    OwnDesk* const own = fresh();
    say_bank(own, "first\nsecond", 12);
    CHECK_TEXT(own->model.view.message, "first");
    say_bank(own, "", 0);
    CHECK_TEXT(own->model.view.message, "");
    own_desk_close(own);
}

/* RFC 3629: a byte 10xxxxxx goes on from a letter begun before. */
static void a_long_complaint_is_cut_between_letters(void)
{
    OwnDesk* const own = fresh();
    for (uint32_t before = 0; before < 4; ++before) {
        char text[2 * MESSAGE_ROOM] = "";
        memset(text, 'a', before);
        for (uint32_t i = before; i + 4 < sizeof text; i += 3) {
            memcpy(text + i, "\xE3\x81\x82", 3);
        }
        say_bank(own, text, (uint32_t)strlen(text));
        const char* const message = own->model.view.message;
        check_case("after %u letters", before);
        CHECK(strlen(message) > MESSAGE_ROOM - 5 && strlen(message) < MESSAGE_ROOM);
        CHECK_INT((strlen(message) - before) % 3, 0);
    }
    own_desk_close(own);
}

static void without_a_bank_nothing_can_be_picked_and_nothing_breaks(void)
{
    OwnDesk* const own = calloc(1, sizeof *own);
    CHECK(controller_open(&own->model, NULL, &own->uris, own_output(own)));
    own_key(own, 'g', 0);
    own_key(own, PANE_KEY_DOWN, 0);
    own_type(own, "xyz");
    draw(own);
    own_key(own, PANE_KEY_ENTER, 0);
    own_click(own, (TargetId){TARGET_CARD_DOWN, ENTRY_FEET});
    draw(own);
    CHECK_INT(own->wrong, 0);
    controller_close(&own->model);
    free(own);
}

/* ---- The window's colours */

static void colours_go_from_the_hosts_to_dark_to_light(void)
{
    OwnDesk* const own = fresh();
    const Colour background = {0.9, 0.9, 0.9};
    const Colour text = {0.1, 0.1, 0.1};
    model_host_colours(&own->model, background, text);
    CHECK_NEAR(own->model.view.palette.ground.red, 0.9, 1e-9);
    own_click(own, (TargetId){TARGET_TAB, PANEL_OUTPUT});
    own_click(own, (TargetId){TARGET_THEME, 0});
    CHECK_NEAR(own->model.view.palette.ground.red, palette_dark.ground.red, 1e-9);
    own_click(own, (TargetId){TARGET_THEME, 0});
    CHECK_NEAR(own->model.view.palette.ground.red, palette_light.ground.red, 1e-9);
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_INT(own->model.view.theme, THEME_HOST);
    own_desk_close(own);
}

int main(void)
{
    RUN(the_last_word_of_the_plugin_is_shown);
    RUN(the_bar_now_playing_is_never_missing);
    RUN(after_any_order_the_right_order_is_shown_as_ever);
    RUN(with_events_missing_the_rest_is_shown);
    RUN(a_message_cut_or_spoilt_does_no_harm);
    RUN(ports_that_do_not_exist_change_nothing);
    RUN(odd_values_are_shown_in_range);
    RUN(the_place_moves_on_between_two_messages);
    RUN(the_bar_after_a_phrase_is_the_first_of_the_next);
    RUN(the_banks_first_complaint_is_shown);
    RUN(a_long_complaint_is_cut_between_letters);
    RUN(without_a_bank_nothing_can_be_picked_and_nothing_breaks);
    RUN(colours_go_from_the_hosts_to_dark_to_light);
    recorded_free(recorded);
    return tests_end();
}
