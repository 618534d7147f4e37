// SPDX-License-Identifier: ISC
/* bundle.h - what the built bundle's Turtle says, asked of lilv as a host would,
   and triple by triple where hosts' libraries look away. */
#pragma once

#include "../../ui/command/host.h"

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define LV2_CORE "http://lv2plug.in/ns/lv2core#"
#define LV2_ATOM "http://lv2plug.in/ns/ext/atom#"
#define RDF_VALUE "http://www.w3.org/1999/02/22-rdf-syntax-ns#value"
#define RDFS "http://www.w3.org/2000/01/rdf-schema#"
#define BUNDLE FOURLIMB_BUILD "/lv2/fourlimb.lv2"

enum { TEXT_ROOM = 256, MANY_PORTS = 256 };

/* Ends the program if the plugin can't be loaded: no test means anything then. */
static inline Host* bundle_host(const double rate)
{
    char why[HOST_WHY_ROOM];
    Host* const host = host_open(BUNDLE, rate, why);
    if (!host) {
        printf("# %s\n", why);
        exit(2);
    }
    return host;
}

/* All objects of (subject, property); never NULL to lilv's iteration. */
static inline LilvNodes* objects(LilvWorld* const world, const LilvNode* const subject,
                                 const char* const property)
{
    LilvNode* const node = lilv_new_uri(world, property);
    LilvNodes* const found = lilv_world_find_nodes(world, subject, node, NULL);
    lilv_node_free(node);
    return found;
}

static inline unsigned count_objects(LilvWorld* const world, const LilvNode* const subject,
                                     const char* const property)
{
    LilvNodes* const found = objects(world, subject, property);
    const unsigned count = found ? lilv_nodes_size(found) : 0;
    lilv_nodes_free(found);
    return count;
}

/* The only object as text; "" if there is none, "several" if there are more. */
static inline const char* object_text(LilvWorld* const world, const LilvNode* const subject,
                                      const char* const property, char text[TEXT_ROOM])
{
    LilvNodes* const found = objects(world, subject, property);
    const unsigned count = found ? lilv_nodes_size(found) : 0;
    snprintf(text, TEXT_ROOM, "%s", count > 1 ? "several" : "");
    if (count == 1) {
        snprintf(text, TEXT_ROOM, "%s", lilv_node_as_string(lilv_nodes_get_first(found)));
    }
    lilv_nodes_free(found);
    return text;
}

/* The only object as a number, as exactly as it is written. */
static inline double object_number(LilvWorld* const world, const LilvNode* const subject,
                                   const char* const property)
{
    char text[TEXT_ROOM];
    return strtod(object_text(world, subject, property, text), NULL);
}

/* True if (subject, property, object) is stated. */
static inline bool states(LilvWorld* const world, const LilvNode* const subject,
                          const char* const property, const char* const object)
{
    LilvNode* const p = lilv_new_uri(world, property);
    LilvNode* const o = lilv_new_uri(world, object);
    const bool stated = lilv_world_ask(world, subject, p, o);
    lilv_node_free(p);
    lilv_node_free(o);
    return stated;
}
