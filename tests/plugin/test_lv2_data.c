// SPDX-License-Identifier: ISC
/* test_lv2_data.c - the bundle's Turtle where validators are silent: ports that
   share an index or a symbol, gaps, defaults out of range, files that are not
   there; and that it says what plugin/engine/groove/controls.h says.  The rules are
   those of the LV2 core specification unless another source is named. */
#include "../../plugin/engine/groove/controls.h"
#include "../help/check.h"
#include "bundle.h"

#include <ctype.h>
#include <unistd.h>

static Host* host;
static LilvWorld* world;
static const LilvNode* plugin;

enum { PORTS = PORT_FIRST_READOUT + READOUT_COUNT };

/* Every port as it stands in the Turtle, in no order; lilv's own list has room
   for one port an index only. */
static LilvNodes* ports;

/* Calls `check` on every port that is stated. */
static void for_each_port(void (*const check)(const LilvNode* port))
{
    LILV_FOREACH(nodes, i, ports)
    {
        const LilvNode* const port = lilv_nodes_get(ports, i);
        char symbol[TEXT_ROOM];
        check_case("port %s", object_text(world, port, LV2_CORE "symbol", symbol));
        check(port);
    }
}

static bool is_control(const LilvNode* const port)
{
    return states(world, port, LILV_NS_RDF "type", LV2_CORE "ControlPort");
}

static void indices_run_from_0_without_gap_or_double(void)
{
    int used[MANY_PORTS] = {0};
    LILV_FOREACH(nodes, i, ports)
    {
        const double index = object_number(world, lilv_nodes_get(ports, i), LV2_CORE "index");
        CHECK(index >= 0 && index < MANY_PORTS);
        ++used[(int)index % MANY_PORTS];
    }
    for (unsigned index = 0; index < lilv_nodes_size(ports); ++index) {
        check_case("index %u", index);
        CHECK_INT(used[index], 1);
    }
}

static void check_symbol(const LilvNode* const port)
{
    char symbol[TEXT_ROOM];
    object_text(world, port, LV2_CORE "symbol", symbol);
    CHECK(isalpha((unsigned char)symbol[0]) || symbol[0] == '_');
    for (const char* c = symbol; *c; ++c) {
        CHECK(isalnum((unsigned char)*c) || *c == '_');
    }
}

static void symbols_are_letters_digits_and_underscores(void)
{
    for_each_port(check_symbol);
}

static int ports_with(const char* const property, const char* const text)
{
    int count = 0;
    LILV_FOREACH(nodes, i, ports)
    {
        char found[TEXT_ROOM];
        count += !strcmp(object_text(world, lilv_nodes_get(ports, i), property, found), text);
    }
    return count;
}

static void check_alone(const LilvNode* const port)
{
    char text[TEXT_ROOM];
    CHECK_INT(ports_with(LV2_CORE "symbol", object_text(world, port, LV2_CORE "symbol", text)), 1);
    CHECK_INT(ports_with(LV2_CORE "name", object_text(world, port, LV2_CORE "name", text)), 1);
}

static void no_two_ports_have_the_same_symbol_or_name(void)
{
    for_each_port(check_alone);
}

static void check_one_of_each(const LilvNode* const port)
{
    CHECK_INT(count_objects(world, port, LV2_CORE "index"), 1);
    CHECK_INT(count_objects(world, port, LV2_CORE "symbol"), 1);
    CHECK_INT(count_objects(world, port, LV2_CORE "name"), 1);
    if (is_control(port)) {
        const bool input = states(world, port, LILV_NS_RDF "type", LV2_CORE "InputPort");
        CHECK_INT(count_objects(world, port, LV2_CORE "default"), input ? 1 : 0);
        CHECK_INT(count_objects(world, port, LV2_CORE "minimum"), 1);
        CHECK_INT(count_objects(world, port, LV2_CORE "maximum"), 1);
    }
}

static void every_port_states_each_of_its_facts_once(void)
{
    for_each_port(check_one_of_each);
}

static void check_told(const LilvNode* const port)
{
    char text[TEXT_ROOM];
    CHECK(*object_text(world, port, LV2_CORE "name", text));
    const bool toggle = states(world, port, LV2_CORE "portProperty", LV2_CORE "toggled");
    CHECK(!is_control(port) || toggle || *object_text(world, port, RDFS "comment", text));
}

static void every_port_has_a_name_and_every_control_is_explained(void)
{
    for_each_port(check_told);
}

static void check_range(const LilvNode* const port)
{
    if (!is_control(port)) {
        return;
    }
    const double least = object_number(world, port, LV2_CORE "minimum");
    const double most = object_number(world, port, LV2_CORE "maximum");
    const double normal = object_number(world, port, LV2_CORE "default");
    CHECK(least < most);
    CHECK(normal >= least && normal <= most);
    CHECK(most <= 16777216.0); /* beyond it a float can't count by ones (IEEE 754) */
    if (states(world, port, LV2_CORE "portProperty", LV2_CORE "toggled")) {
        CHECK_NEAR(least, 0.0, 0.0);
        CHECK_NEAR(most, 1.0, 0.0);
    }
}

static void defaults_lie_in_ranges_that_are_ranges(void)
{
    for_each_port(check_range);
}

/* The node of the port with this symbol; NULL if there is none. */
static const LilvNode* port_called(const char* const symbol)
{
    LILV_FOREACH(nodes, i, ports)
    {
        char text[TEXT_ROOM];
        const LilvNode* const port = lilv_nodes_get(ports, i);
        if (!strcmp(object_text(world, port, LV2_CORE "symbol", text), symbol)) {
            return port;
        }
    }
    return NULL;
}

static void check_row(const ControlRow* const row, const int index)
{
    const LilvNode* const port = port_called(row->symbol);
    check_case("control %s", row->symbol);
    if (!CHECK(port)) {
        return;
    }
    CHECK_INT(object_number(world, port, LV2_CORE "index"), PORT_FIRST_CONTROL + index);
    CHECK_NEAR(object_number(world, port, LV2_CORE "minimum"), row->least, 0.0);
    CHECK_NEAR(object_number(world, port, LV2_CORE "default"), row->normal, 0.0);
    if (row->most > 0.0f) {
        CHECK_NEAR(object_number(world, port, LV2_CORE "maximum"), row->most, 0.0);
    }
    CHECK(is_control(port));
    CHECK(states(world, port, LILV_NS_RDF "type", LV2_CORE "InputPort"));
}

static void the_table_in_settings_h_and_the_turtle_agree(void)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        check_row(&control_rows[i], i);
    }
    for (int i = 0; i < READOUT_COUNT; ++i) {
        const LilvNode* const port = port_called(readout_rows[i].symbol);
        check_case("readout %s", readout_rows[i].symbol);
        if (CHECK(port)) {
            CHECK_INT(object_number(world, port, LV2_CORE "index"), PORT_FIRST_READOUT + i);
            CHECK_NEAR(object_number(world, port, LV2_CORE "minimum"), readout_rows[i].least, 0.0);
            CHECK_NEAR(object_number(world, port, LV2_CORE "maximum"), readout_rows[i].most, 0.0);
            CHECK(states(world, port, LILV_NS_RDF "type", LV2_CORE "OutputPort"));
        }
    }
    check_case("how many");
    CHECK_INT(lilv_nodes_size(ports), PORTS);
}

static void check_atom_port(const char* const symbol, const int index, const char* const direction)
{
    const LilvNode* const port = port_called(symbol);
    check_case("port %s", symbol);
    if (CHECK(port)) {
        CHECK_INT(object_number(world, port, LV2_CORE "index"), index);
        CHECK(states(world, port, LILV_NS_RDF "type", direction));
        CHECK(states(world, port, LILV_NS_RDF "type", LV2_ATOM "AtomPort"));
        CHECK(states(world, port, LV2_ATOM "bufferType", LV2_ATOM "Sequence"));
    }
}

static void the_atom_ports_stand_where_settings_h_has_them(void)
{
    check_atom_port("control", PORT_CONTROL, LV2_CORE "InputPort");
    check_atom_port("midi_out", PORT_MIDI_OUT, LV2_CORE "OutputPort");
    check_atom_port("notify", PORT_NOTIFY, LV2_CORE "OutputPort");
}

static void the_control_port_takes_time_positions(void)
{
    const LilvNode* const port = port_called("control");
    CHECK(states(world, port, LV2_ATOM "supports", "http://lv2plug.in/ns/ext/time#Position"));
    CHECK(states(world, port, LV2_CORE "designation", LV2_CORE "control"));
}

static void the_midi_port_gives_midi_and_notify_may_be_left_open(void)
{
    CHECK(states(world, port_called("midi_out"), LV2_ATOM "supports",
                 "http://lv2plug.in/ns/ext/midi#MidiEvent"));
    CHECK(states(world, port_called("notify"), LV2_CORE "portProperty",
                 LV2_CORE "connectionOptional"));
}

static void the_switch_is_what_hosts_bypass_with(void)
{
    CHECK(states(world, port_called("enabled"), LV2_CORE "designation", LV2_CORE "enabled"));
    CHECK(states(world, port_called("enabled"), LV2_CORE "portProperty", LV2_CORE "toggled"));
}

static void nothing_is_required_but_the_map_of_uris(void)
{
    char text[TEXT_ROOM];
    CHECK_TEXT(object_text(world, plugin, LV2_CORE "requiredFeature", text),
               "http://lv2plug.in/ns/ext/urid#map");
    CHECK(states(world, plugin, LV2_CORE "optionalFeature", LV2_CORE "hardRTCapable"));
}

/* The path of a file: URI below the bundle, "" if it isn't one. */
static const char* below_bundle(const LilvNode* const uri, char path[TEXT_ROOM])
{
    char* const whole = lilv_node_get_path(uri, NULL);
    const char* const slash = whole ? strrchr(whole, '/') : NULL;
    snprintf(path, TEXT_ROOM, "%s", slash ? slash + 1 : "");
    lilv_free(whole);
    return path;
}

static void check_files(const char* const property, const char* const name)
{
    LilvNodes* const found = objects(world, plugin, property);
    char path[TEXT_ROOM], full[2 * TEXT_ROOM + sizeof BUNDLE];
    if (CHECK(found && lilv_nodes_size(found) == 1)) {
        CHECK_TEXT(below_bundle(lilv_nodes_get_first(found), path), name);
        snprintf(full, sizeof full, BUNDLE "/%s", path);
        CHECK(access(full, R_OK) == 0);
    }
    lilv_nodes_free(found);
}

static void the_binary_is_named_and_is_there(void)
{
    check_files(LV2_CORE "binary", "fourlimb.so");
}

/* The bank is not among them: hosts would read it at every scan. */
static void one_file_more_is_named_and_it_is_not_the_bank(void)
{
    check_files(RDFS "seeAlso", "groove.ttl");
}

/* True if a file of the bundle speaks of the folder of the bank. */
static bool names_bank(const char* const file_name)
{
    char path[TEXT_ROOM + sizeof BUNDLE], line[4096];
    snprintf(path, sizeof path, BUNDLE "/%s", file_name);
    FILE* const file = fopen(path, "r");
    bool found = !file;
    while (file && fgets(line, sizeof line, file)) {
        found |= strstr(line, "bank/") || strstr(line, "<bank");
    }
    if (file) {
        fclose(file);
    }
    return found;
}

static void neither_manifest_nor_plugin_data_point_into_the_bank(void)
{
    CHECK(!names_bank("manifest.ttl"));
    CHECK(!names_bank("groove.ttl"));
}

static void the_plugin_says_its_name_licence_and_kind(void)
{
    char text[TEXT_ROOM];
    CHECK_TEXT(object_text(world, plugin, "http://usefulinc.com/ns/doap#name", text), "Fourlimb");
    CHECK_TEXT(object_text(world, plugin, "http://usefulinc.com/ns/doap#license", text),
               "http://opensource.org/licenses/isc");
    CHECK(states(world, plugin, LILV_NS_RDF "type", LV2_CORE "MIDIPlugin"));
    CHECK(lilv_plugin_verify(host_plugin(host)));
}

static void open_bundle(void)
{
    host = bundle_host(48000.0);
    world = host_world(host);
    plugin = lilv_plugin_get_uri(host_plugin(host));
    ports = objects(world, plugin, LV2_CORE "port");
}

static void close_bundle(void)
{
    lilv_nodes_free(ports);
    host_close(host);
}

int main(void)
{
    open_bundle();
    RUN(indices_run_from_0_without_gap_or_double);
    RUN(symbols_are_letters_digits_and_underscores);
    RUN(no_two_ports_have_the_same_symbol_or_name);
    RUN(every_port_states_each_of_its_facts_once);
    RUN(every_port_has_a_name_and_every_control_is_explained);
    RUN(defaults_lie_in_ranges_that_are_ranges);
    RUN(the_table_in_settings_h_and_the_turtle_agree);
    RUN(the_atom_ports_stand_where_settings_h_has_them);
    RUN(the_control_port_takes_time_positions);
    RUN(the_midi_port_gives_midi_and_notify_may_be_left_open);
    RUN(the_switch_is_what_hosts_bypass_with);
    RUN(nothing_is_required_but_the_map_of_uris);
    RUN(the_binary_is_named_and_is_there);
    RUN(one_file_more_is_named_and_it_is_not_the_bank);
    RUN(neither_manifest_nor_plugin_data_point_into_the_bank);
    RUN(the_plugin_says_its_name_licence_and_kind);
    close_bundle();
    return tests_end();
}
