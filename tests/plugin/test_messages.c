// SPDX-License-Identifier: ISC
/* test_messages.c - what plugin and window say to each other is between them.  Hosts show
   every property that a plugin declares (patch:writable and patch:readable, LV2 patch
   specification) in their generic lists, and one warns from its audio thread of every
   patch:Set of a property that it doesn't know to be writable (Ardour 7.3,
   libs/ardour/lv2_plugin.cc).  So nothing is declared and nothing is set. */
#include "../help/check.h"
#include "../../plugin/talk/encode.h"
#include "bundle.h"

#include <lv2/atom/util.h>
#include <lv2/patch/patch.h>

enum { RATE = 48000, BLOCK = 1024, TERMS_ROOM = 1 << 17 };

static Host* host;

static unsigned declared(const char* const direction)
{
    return count_objects(host_world(host), lilv_plugin_get_uri(host_plugin(host)), direction);
}

static void a_generic_list_has_ports_and_nothing_else(void)
{
    CHECK_INT(declared(LV2_PATCH__writable), 0);
    CHECK_INT(declared(LV2_PATCH__readable), 0);
}

/* What one of a host's blocks told. */
typedef struct {
    int all;
    int warned; /* patch:Set of what isn't writable */
} Heard;

static bool is_writable(const LV2_Atom* const property)
{
    const LilvNode* const plugin = lilv_plugin_get_uri(host_plugin(host));
    LilvNodes* const writable = objects(host_world(host), plugin, LV2_PATCH__writable);
    bool is = false;
    LILV_FOREACH(nodes, i, writable)
    {
        const LV2_URID known = host_urid(host, lilv_node_as_uri(lilv_nodes_get(writable, i)));
        is |= property && ((const LV2_Atom_URID*)(const void*)property)->body == known;
    }
    lilv_nodes_free(writable);
    return is;
}

static void take_block(Heard* const heard)
{
    LV2_ATOM_SEQUENCE_FOREACH (host_notify(host), event) {
        const LV2_Atom* property = NULL;
        const LV2_Atom_Object* const object = (const LV2_Atom_Object*)(const void*)&event->body;
        lv2_atom_object_get(object, host_urid(host, LV2_PATCH__property), &property, 0);
        heard->warned +=
            object->body.otype == host_urid(host, LV2_PATCH__Set) && !is_writable(property);
        ++heard->all;
    }
}

static LV2_URID map_for(const LV2_URID_Map_Handle handle, const char* const uri)
{
    return host_urid((Host*)handle, uri);
}

/* Five seconds of a transport that rolls, a window open. */
static void with_a_window_open_no_host_has_anything_to_warn_of(void)
{
    Heard heard = {0};
    LV2_URID_Map map = {host, map_for};
    const Uris uris = uris_map(&map);
    host_send_position(host, (HostPosition){.speed = 1.0f,
                                            .tempo = 120.0f,
                                            .beats_per_bar = 4.0f,
                                            .beat_unit = 4,
                                            .has_place = true});
    for (int i = 0; i < 5 * RATE / BLOCK; ++i) {
        if (i % (RATE / BLOCK) == 0) {
            lv2_atom_forge_frame_time(host_input(host), 0);
            encode_look(host_input(host), i ? uris.fl_place : 0, &uris);
        }
        host_run(host, BLOCK);
        take_block(&heard);
    }
    CHECK(heard.all > 100); /* thirty places a second, and the bars */
    CHECK_INT(heard.warned, 0);
}

static const char* terms(void)
{
    static char text[TERMS_ROOM];
    FILE* const file = fopen(FOURLIMB_SOURCE "/ttl/terms.ttl", "r");
    text[file ? fread(text, 1, sizeof text - 1, file) : 0] = '\0';
    if (file) {
        fclose(file);
    }
    return text;
}

static bool is_explained(const char* const name)
{
    char sentence[96];
    snprintf(sentence, sizeof sentence, "\nfl:%s\n\ta rdf", name);
    return strstr(terms(), sentence);
}

static LV2_URID map_explained(const LV2_URID_Map_Handle handle, const char* const uri)
{
    int* const count = (int*)handle;
    if (!strncmp(uri, FOURLIMB_TERMS, strlen(FOURLIMB_TERMS))) {
        const char* const name = uri + strlen(FOURLIMB_TERMS);
        check_case("fl:%s", name);
        CHECK(is_explained(name));
        ++*count;
    }
    return 1;
}

static void every_word_that_is_spoken_is_explained(void)
{
    int count = 0;
    LV2_URID_Map map = {&count, map_explained};
    uris_map(&map);
    CHECK(count > 0);
    CHECK(!is_explained("noSuchTerm"));
}

int main(void)
{
    host = bundle_host(RATE);
    RUN(a_generic_list_has_ports_and_nothing_else);
    RUN(with_a_window_open_no_host_has_anything_to_warn_of);
    RUN(every_word_that_is_spoken_is_explained);
    host_close(host);
    return tests_end();
}
