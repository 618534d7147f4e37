// SPDX-License-Identifier: ISC
/* test_presets.c - every preset of the bundle, loaded as hosts load one (lilv's
   state) and played by the plugin.  What a preset has to be: the LV2 presets
   specification, http://lv2plug.in/ns/ext/presets. */
#include "../../plugin/bank/bank.h"
#include "../../plugin/engine/groove/settings.h"
#include "../help/check.h"
#include "played.h"

#include <lv2/presets/presets.h>
#include <math.h>

#define FL "urn:fourlimb:terms#"

enum { PRESETS_MAX = 256, PRESETS_LEAST = 32, BANKS = 3 };
/* General MIDI 2: the metronome's click and bell. */
enum { KEY_CLICK = 33, KEY_BELL = 34 };

static Host* host;
static Bank* bank;
static LilvNodes* presets;
static Played played; /* too large for a stack */
static float values[CONTROL_COUNT];
static unsigned named; /* ports that the preset at hand sets */

static int index_of(const char* const symbol)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        if (!strcmp(control_rows[i].symbol, symbol)) {
            return i;
        }
    }
    return -1;
}

static float as_float(const void* const value, const uint32_t type)
{
    float number = NAN;
    if (type == host_urid(host, LV2_ATOM__Float)) {
        memcpy(&number, value, sizeof number);
    } else if (type == host_urid(host, LV2_ATOM__Int)) {
        number = (float)*(const int32_t*)value;
    } else if (type == host_urid(host, LV2_ATOM__Double)) {
        number = (float)*(const double*)value;
    }
    return number;
}

static void take_value(const char* const symbol, void* const context, const void* const value,
                       const uint32_t size, const uint32_t type)
{
    (void)context;
    (void)size;
    char why[HOST_WHY_ROOM] = "";
    const int control = index_of(symbol);
    CHECK(host_set(host, symbol, as_float(value, type), why)); /* known, and in range */
    CHECK_TEXT(why, "");
    if (CHECK(control >= 0)) {
        values[control] = as_float(value, type);
        ++named;
    }
}

static LV2_URID map_uri(const LV2_URID_Map_Handle handle, const char* const uri)
{
    return host_urid((Host*)handle, uri);
}

/* Puts the preset into the plugin's ports, as hosts do, over an odd one before. */
static void load(const LilvNode* const preset)
{
    LV2_URID_Map map = {host, map_uri};
    char why[HOST_WHY_ROOM];
    host_set_defaults(host);
    host_set(host, "feet_cycle", 5.0f, why);
    host_set(host, "left_hand", 0.0f, why);
    host_set(host, "clock", 1.0f, why);
    LilvState* const state = lilv_state_new_from_world(host_world(host), &map, preset);
    named = 0;
    if (CHECK(state != NULL)) {
        lilv_state_emit_port_values(state, take_value, NULL);
        CHECK_TEXT(lilv_node_as_uri(lilv_state_get_plugin_uri(state)), "urn:fourlimb:groove");
        lilv_state_free(state);
    }
}

static const char* text_of(const LilvNode* const preset, const char* const property)
{
    static char text[TEXT_ROOM];
    return object_text(host_world(host), preset, property, text);
}

static const EntryInfo* entry_of(const EntryKind kind, const float id)
{
    for (uint32_t i = 0; i < bank_count(bank, kind); ++i) {
        if (bank_entry(bank, kind, i)->id == (uint32_t)id) {
            return bank_entry(bank, kind, i);
        }
    }
    return NULL;
}

static void there_are_32_or_more(void)
{
    CHECK(lilv_nodes_size(presets) >= PRESETS_LEAST);
    CHECK(lilv_nodes_size(presets) <= PRESETS_MAX);
}

static void all_names_differ_and_each_says_what_it_is_for(void)
{
    static char names[PRESETS_MAX][TEXT_ROOM];
    int count = 0;
    LILV_FOREACH(nodes, i, presets)
    {
        const LilvNode* const preset = lilv_nodes_get(presets, i);
        snprintf(names[count], TEXT_ROOM, "%s", text_of(preset, RDFS "label"));
        check_case("%s, \"%s\"", lilv_node_as_uri(preset), names[count]);
        CHECK(*names[count]);
        CHECK(strcmp(names[count], "several"));
        for (int other = 0; other < count; ++other) {
            CHECK(strcmp(names[other], names[count]));
        }
        CHECK(strlen(text_of(preset, RDFS "comment")) > 20);
        count += count < PRESETS_MAX - 1;
    }
}

static void each_is_in_one_of_three_banks_by_use(void)
{
    static const char* const banks[BANKS] = {"Song sketch", "Practice", "Writing"};
    int sizes[BANKS] = {0, 0, 0};
    LILV_FOREACH(nodes, i, presets)
    {
        const LilvNode* const preset = lilv_nodes_get(presets, i);
        LilvNode* const uri = lilv_new_uri(host_world(host), text_of(preset, LV2_PRESETS__bank));
        check_case("%s", lilv_node_as_uri(preset));
        int which = 0;
        while (which < BANKS && (!uri || strcmp(text_of(uri, RDFS "label"), banks[which]) != 0)) {
            ++which;
        }
        lilv_node_free(uri);
        if (CHECK(which < BANKS)) {
            ++sizes[which];
        }
    }
    for (int i = 0; i < BANKS; ++i) {
        check_case("%s", banks[i]);
        CHECK(sizes[i] >= 8);
    }
}

/* Hosts that know no banks show one list in order of the alphabet. */
static void each_name_says_its_bank_first(void)
{
    LILV_FOREACH(nodes, i, presets)
    {
        const LilvNode* const preset = lilv_nodes_get(presets, i);
        char start[TEXT_ROOM];
        check_case("%s", lilv_node_as_uri(preset));
        LilvNode* const uri = lilv_new_uri(host_world(host), text_of(preset, LV2_PRESETS__bank));
        snprintf(start, sizeof start, "%s: ", text_of(uri, RDFS "label"));
        lilv_node_free(uri);
        CHECK(strlen(start) > 2);
        CHECK(!strncmp(text_of(preset, RDFS "label"), start, strlen(start)));
    }
}

static void each_sets_all_that_is_music_and_no_output(void)
{
    LILV_FOREACH(nodes, i, presets)
    {
        load(lilv_nodes_get(presets, i));
        check_case("%s", lilv_node_as_uri(lilv_nodes_get(presets, i)));
        CHECK_INT(named, CONTROL_COUNT -
                             8); /* On, fill now, take, two channels, kit map, left key, through */
        CHECK_NEAR(host_get(host, "enabled"), 1.0, 0.0);
        CHECK_NEAR(host_get(host, "channel"), 10.0, 0.0);
        CHECK(host_get(host, "feet_cycle") < 5.0f || values[CONTROL_FEET_CYCLE] > 4.0f);
    }
}

static void check_range(const EntryInfo* const entry, const double tempo)
{
    if (CHECK(entry != NULL) && entry->tempo_low) {
        check_case("%s at %g", entry->label, tempo);
        CHECK(tempo >= entry->tempo_low);
        CHECK(tempo <= entry->tempo_high);
    }
}

/* The ranges that the bank itself states; on another grid than written they say
   nothing of a figure. */
static void tempi_are_ones_that_the_figures_were_written_for(void)
{
    LILV_FOREACH(nodes, i, presets)
    {
        load(lilv_nodes_get(presets, i));
        const double tempo = (double)values[CONTROL_TEMPO];
        const bool climbs = values[CONTROL_LADDER_STEP] > 0.0f;
        const double tempi[] = {tempo, climbs ? (double)values[CONTROL_LADDER_TOP] : tempo};
        CHECK(tempi[1] >= tempi[0]);
        for (int end = 0; end < 2; ++end) {
            check_range(entry_of(ENTRY_GROOVE, values[CONTROL_GROOVE]), tempi[end]);
            if (values[CONTROL_HANDS] > 0.0f && values[CONTROL_HANDS_GRID] < 1.0f) {
                check_range(entry_of(ENTRY_HANDS, values[CONTROL_HANDS]), tempi[end]);
            }
            if (values[CONTROL_FEET] > 0.0f && values[CONTROL_FEET_GRID] < 1.0f) {
                check_range(entry_of(ENTRY_FEET, values[CONTROL_FEET]), tempi[end]);
            }
        }
    }
}

/* Strokes and clicks among the note-ons. */
static void count_notes(int* const strokes, int* const clicks)
{
    *strokes = *clicks = 0;
    for (size_t i = 0; i < played.count; ++i) {
        const uint8_t key = played.events[i].bytes[1];
        const bool is_click = key == KEY_CLICK || key == KEY_BELL;
        *clicks += is_note_on(played.events[i]) && is_click;
        *strokes += is_note_on(played.events[i]) && !is_click;
    }
}

static int64_t dropped_strokes(void)
{
    LV2_Atom_Forge_Frame object;
    int64_t number = -1;
    lv2_atom_forge_frame_time(host_input(host), 0);
    lv2_atom_forge_object(host_input(host), &object, 0, host_urid(host, FL "Look"));
    lv2_atom_forge_pop(host_input(host), &object);
    run_block(host, &played, BLOCK);
    LV2_ATOM_SEQUENCE_FOREACH (host_notify(host), event) {
        const LV2_Atom* value = NULL;
        const LV2_Atom_Object* const told = (const LV2_Atom_Object*)&event->body;
        lv2_atom_object_get(told, host_urid(host, FL "droppedStrokes"), &value, 0);
        if (value) {
            memcpy(&number, value + 1, sizeof number);
        }
    }
    return number;
}

/* Half a minute: by the host's transport at the preset's tempo, in the groove's
   meter, or with no transport at all where the clock is its own. */
static void play(void)
{
    const Groove* const groove =
        library_groove(bank_library(bank), (uint32_t)values[CONTROL_GROOVE]);
    Transport transport = from_the_top;
    transport.tempo = (double)values[CONTROL_TEMPO];
    transport.beats_per_bar = (float)groove->meter.beats_per_bar;
    transport.beat_unit = groove->meter.beat_unit;
    host_reset(host);
    played = (Played){.frames = 0};
    if (values[CONTROL_CLOCK] < 0.5f) {
        send_transport(host, transport);
    }
    run_frames(host, &played, (int64_t)30 * RATE);
    CHECK_INT(played.lost, 0);
    CHECK_INT(played.wrong, 0);
}

static void each_plays_and_drops_no_stroke(void)
{
    LILV_FOREACH(nodes, i, presets)
    {
        int strokes = 0, clicks = 0;
        load(lilv_nodes_get(presets, i));
        play();
        count_notes(&strokes, &clicks);
        check_case("%s", text_of(lilv_nodes_get(presets, i), RDFS "label"));
        const float limbs = values[CONTROL_RIGHT_HAND] + values[CONTROL_LEFT_HAND] +
                            values[CONTROL_RIGHT_FOOT] + values[CONTROL_LEFT_FOOT];
        CHECK(limbs > 0.0f ? strokes > 20 : strokes == 0 && clicks > 10);
        CHECK_INT(dropped_strokes(), 0);
    }
}

/* Their bank says so: a clock of its own, with the click. */
static void practice_runs_by_itself_with_a_click_and_the_others_follow_the_host(void)
{
    LILV_FOREACH(nodes, i, presets)
    {
        const LilvNode* const preset = lilv_nodes_get(presets, i);
        int strokes = 0, clicks = 0;
        load(preset);
        play();
        count_notes(&strokes, &clicks);
        const bool practises = strstr(text_of(preset, LV2_PRESETS__bank), ":practice") != NULL;
        check_case("%s", text_of(preset, RDFS "label"));
        CHECK_INT(values[CONTROL_CLOCK], practises);
        CHECK(practises ? clicks > 8 : clicks == 0);
    }
}

/* What is practised, and what is written over, is what is written: no feel and no liberty. */
static void practice_and_writing_play_what_is_written(void)
{
    int exact = 0;
    LILV_FOREACH(nodes, i, presets)
    {
        const LilvNode* const preset = lilv_nodes_get(presets, i);
        load(preset);
        const bool sketches = strstr(text_of(preset, LV2_PRESETS__bank), "sketch") != NULL;
        check_case("%s", text_of(preset, RDFS "label"));
        if (!sketches) {
            ++exact;
            CHECK_NEAR(values[CONTROL_LOOSENESS], 0.0, 0.0);
            CHECK_NEAR(values[CONTROL_LIBERTY], 0.0, 0.0);
        }
    }
    CHECK(exact >= 16);
}

int main(void)
{
    host = bundle_host(RATE);
    bank = bank_open((BankSources){.factory = BUNDLE "/bank"});
    LilvNode* const kind = lilv_new_uri(host_world(host), LV2_PRESETS__Preset);
    presets = lilv_plugin_get_related(host_plugin(host), kind);
    LILV_FOREACH(nodes, i, presets)
    {
        lilv_world_load_resource(host_world(host), lilv_nodes_get(presets, i));
    }
    RUN(there_are_32_or_more);
    RUN(all_names_differ_and_each_says_what_it_is_for);
    RUN(each_is_in_one_of_three_banks_by_use);
    RUN(each_name_says_its_bank_first);
    RUN(each_sets_all_that_is_music_and_no_output);
    RUN(tempi_are_ones_that_the_figures_were_written_for);
    RUN(each_plays_and_drops_no_stroke);
    RUN(practice_runs_by_itself_with_a_click_and_the_others_follow_the_host);
    RUN(practice_and_writing_play_what_is_written);
    lilv_node_free(kind);
    lilv_nodes_free(presets);
    bank_free(bank);
    host_close(host);
    return tests_end();
}
