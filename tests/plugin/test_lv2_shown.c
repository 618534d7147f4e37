// SPDX-License-Identifier: ISC
/* test_lv2_shown.c - what hosts show of the plugin and offer to it by what its Turtle
   says: maker, homepage, class, groups, MIDI in. */
#include "../help/check.h"
#include "bundle.h"

#include <unistd.h>

static Host* host;
static LilvWorld* world;
static const LilvNode* plugin;
static LilvNodes* ports;

/* LV2 atom and MIDI specifications: a host offers MIDI to a port that says it
   supports midi:MidiEvent; LV2 core: the control port is the one so designated. */
static void hosts_are_told_that_midi_can_be_played_in(void)
{
    int inputs = 0;
    LILV_FOREACH(nodes, i, ports)
    {
        const LilvNode* const port = lilv_nodes_get(ports, i);
        if (states(world, port, LILV_NS_RDF "type", LV2_CORE "InputPort") &&
            states(world, port, LILV_NS_RDF "type", LV2_ATOM "AtomPort")) {
            ++inputs;
            CHECK(states(world, port, LV2_ATOM "supports",
                         "http://lv2plug.in/ns/ext/midi#MidiEvent"));
            CHECK(
                states(world, port, LV2_ATOM "supports", "http://lv2plug.in/ns/ext/time#Position"));
            CHECK(states(world, port, LV2_CORE "designation", LV2_CORE "control"));
        }
    }
    CHECK_INT(inputs, 1);
}

/* What lilv tells every host: lilv_plugin_get_author_name and its neighbours. */
static void hosts_can_name_the_maker_a_homepage_and_the_licence(void)
{
    const LilvPlugin* const it = host_plugin(host);
    LilvNode* const maker = lilv_plugin_get_author_name(it);
    LilvNode* const page = lilv_plugin_get_author_homepage(it);
    LilvNode* const project = lilv_plugin_get_project(it);
    CHECK(maker && lilv_node_is_string(maker) && *lilv_node_as_string(maker));
    if (CHECK(page && lilv_node_is_uri(page))) {
        char* const path = lilv_file_uri_parse(lilv_node_as_uri(page), NULL);
        CHECK(path && access(path, R_OK) == 0);
        lilv_free(path);
    }
    CHECK(project && states(world, project, LILV_NS_RDF "type", LILV_NS_DOAP "Project"));
    CHECK_INT(count_objects(world, plugin, LILV_NS_DOAP "license"), 1);
    lilv_node_free(project);
    lilv_node_free(page);
    lilv_node_free(maker);
}

/* LV2 core: the class that hosts sort what only makes MIDI under. */
static void hosts_sort_it_under_midi_plugins(void)
{
    CHECK(states(world, plugin, LILV_NS_RDF "type", LV2_CORE "MIDIPlugin"));
    CHECK_INT(count_objects(world, plugin, LILV_NS_RDF "type"), 2); /* and lv2:Plugin */
}

/* Which group the port with an index is in; "" for none. */
static const char* group_at(const unsigned index, char group[TEXT_ROOM])
{
    group[0] = '\0';
    LILV_FOREACH(nodes, i, ports)
    {
        const LilvNode* const port = lilv_nodes_get(ports, i);
        if ((unsigned)object_number(world, port, LV2_CORE "index") == index) {
            object_text(world, port, "http://lv2plug.in/ns/ext/port-groups#group", group);
        }
    }
    return group;
}

/* jalv 1.6.6 shows groups in the order of their URIs, others in that of their ports:
   both are to be the same, each group in one piece. */
static void groups_stand_in_the_order_of_their_names_and_of_their_ports(void)
{
    char before[TEXT_ROOM] = "", group[TEXT_ROOM];
    int groups = 0;
    for (unsigned index = 0; index < lilv_nodes_size(ports); ++index) {
        if (*group_at(index, group) && strcmp(group, before) != 0) {
            check_case("port %u", index);
            CHECK(strcmp(before, group) < 0);
            snprintf(before, sizeof before, "%s", group);
            ++groups;
        }
    }
    CHECK(groups >= 6);
}

int main(void)
{
    host = bundle_host(48000.0);
    world = host_world(host);
    plugin = lilv_plugin_get_uri(host_plugin(host));
    LilvNode* const port = lilv_new_uri(world, LV2_CORE "port");
    ports = lilv_world_find_nodes(world, plugin, port, NULL);
    RUN(hosts_are_told_that_midi_can_be_played_in);
    RUN(hosts_can_name_the_maker_a_homepage_and_the_licence);
    RUN(hosts_sort_it_under_midi_plugins);
    RUN(groups_stand_in_the_order_of_their_names_and_of_their_ports);
    lilv_nodes_free(ports);
    lilv_node_free(port);
    host_close(host);
    return tests_end();
}
