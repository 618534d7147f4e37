// SPDX-License-Identifier: ISC
/* test_parameters.c - what can be set and told by patch messages is declared as the
   LV2 patch and parameters specifications ask, and explained in ttl/terms.ttl. */
#include "../help/check.h"
#include "bundle.h"

#define PATCH "http://lv2plug.in/ns/ext/patch#"
#define FL "urn:fourlimb:terms#"

enum { TERMS_ROOM = 1 << 17 };

static Host* host;

typedef struct {
    const char* name;
    const char* direction; /* of patch: */
    const char* range;     /* of atom: */
} Parameter;

static const Parameter parameters[] = {
    {"handsDraft", "writable", "String"},
    {"feetDraft", "writable", "String"},
    {"turnaroundDraft", "writable", "String"},
    {"saveFigure", "writable", "String"},
    {"saveKit", "writable", "String"},
    {"savedFigure", "readable", "Long"},
    {"savedKit", "readable", "Long"},
    {"refused", "readable", "String"},
    {"bankMessages", "readable", "String"},
    {"droppedStrokes", "readable", "Long"},
    {"bar", "readable", "Tuple"},
    {"place", "readable", "Vector"},
    {"noteIn", "readable", "Long"},
    {"sessionEntries", "readable", "Tuple"},
};

enum { PARAMETERS = sizeof parameters / sizeof *parameters };

static bool is_explained(const char* const name)
{
    static char terms[TERMS_ROOM];
    char sentence[64];
    FILE* const file = fopen(FOURLIMB_SOURCE "/ttl/terms.ttl", "r");
    terms[file ? fread(terms, 1, sizeof terms - 1, file) : 0] = '\0';
    if (file) {
        fclose(file);
    }
    snprintf(sentence, sizeof sentence, "\nfl:%s\n\ta rdf:Property", name);
    return strstr(terms, sentence);
}

static void every_parameter_is_declared_with_label_and_range(void)
{
    LilvWorld* const world = host_world(host);
    const LilvNode* const plugin = lilv_plugin_get_uri(host_plugin(host));
    for (int i = 0; i < PARAMETERS; ++i) {
        char uri[128], direction[128], text[TEXT_ROOM];
        check_case("%s", parameters[i].name);
        snprintf(uri, sizeof uri, FL "%s", parameters[i].name);
        snprintf(direction, sizeof direction, PATCH "%s", parameters[i].direction);
        CHECK(states(world, plugin, direction, uri));
        LilvNode* const node = lilv_new_uri(world, uri);
        CHECK(*object_text(world, node, RDFS "label", text));
        char range[128];
        snprintf(range, sizeof range, LV2_ATOM "%s", parameters[i].range);
        CHECK_TEXT(object_text(world, node, RDFS "range", text), range);
        CHECK(states(world, node, LILV_NS_RDF "type", LV2_CORE "Parameter"));
        CHECK(is_explained(parameters[i].name));
        lilv_node_free(node);
    }
}

static void there_are_no_others(void)
{
    const LilvNode* const plugin = lilv_plugin_get_uri(host_plugin(host));
    CHECK_INT(count_objects(host_world(host), plugin, PATCH "writable"), 5);
    CHECK_INT(count_objects(host_world(host), plugin, PATCH "readable"), 9);
}

static void what_is_only_asked_for_is_explained(void)
{
    CHECK(is_explained("learning"));
}

static void what_a_session_keeps_is_explained(void)
{
    CHECK(is_explained("ownEntries"));
    CHECK(is_explained("unreadEntries"));
    CHECK(is_explained("entryNames"));
    CHECK(!is_explained("noSuchTerm"));
}

int main(void)
{
    host = bundle_host(48000.0);
    RUN(every_parameter_is_declared_with_label_and_range);
    RUN(there_are_no_others);
    RUN(what_is_only_asked_for_is_explained);
    RUN(what_a_session_keeps_is_explained);
    host_close(host);
    return tests_end();
}
