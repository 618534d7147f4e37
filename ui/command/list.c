// SPDX-License-Identifier: ISC
#include "bundle.h"
#include "commands.h"
#include "host.h"
#include "listing.h"
#include "presets.h"

#include <stdio.h>
#include <string.h>

static void print_control(const Host* const host, const LilvPort* const port)
{
    const LilvPlugin* const plugin = host_plugin(host);
    LilvNode *normal = NULL, *least = NULL, *most = NULL;
    lilv_port_get_range(plugin, port, &normal, &least, &most);
    LilvNode* const name = lilv_port_get_name(plugin, port);
    printf("  %-15s %-31s %g to %g", lilv_node_as_string(lilv_port_get_symbol(plugin, port)),
           lilv_node_as_string(name), (double)lilv_node_as_float(least),
           (double)lilv_node_as_float(most));
    if (normal) {
        printf(", at first %g\n", (double)lilv_node_as_float(normal));
    } else {
        printf(", told by the plugin\n");
    }
    lilv_node_free(name);
    lilv_node_free(normal);
    lilv_node_free(least);
    lilv_node_free(most);
}

static int list_controls(const char* const bundle)
{
    char why[HOST_WHY_ROOM];
    Host* const host = host_open(bundle, 48000.0, why);
    if (!host) {
        fprintf(stderr, "fourlimb: %s\n", why);
        return FAILED;
    }
    LilvNode* const control = lilv_new_uri(host_world(host), LILV_URI_CONTROL_PORT);
    const uint32_t count = lilv_plugin_get_num_ports(host_plugin(host));
    for (uint32_t i = 0; i < count; ++i) {
        const LilvPort* const port = lilv_plugin_get_port_by_index(host_plugin(host), i);
        if (lilv_port_is_a(host_plugin(host), port, control)) {
            print_control(host, port);
        }
    }
    lilv_node_free(control);
    host_close(host);
    return DONE;
}

/* "kits" and so on; -1 for all kinds, -2 for none of them. */
static int asked_kind(const char* const word)
{
    for (int kind = 0; word && kind < ENTRY_KINDS; ++kind) {
        if (!strcmp(word, kind_rows[kind].plural)) {
            return kind;
        }
    }
    return word ? -2 : -1;
}

int command_list(const Request* const request)
{
    char bundle[BUNDLE_PATH_ROOM];
    const bool controls = request->operand && !strcmp(request->operand, "controls");
    const int kind = asked_kind(request->operand);
    if (!controls && kind == -2) {
        fprintf(stderr,
                "fourlimb: list %s: expected grooves, hands, feet, turnarounds, kits or "
                "controls, or nothing for all the bank\n",
                request->operand);
        return ASKED_WRONGLY;
    }
    if (request->presets && request->operand) {
        fprintf(stderr, "fourlimb: list takes a kind or --presets, not both\n");
        return ASKED_WRONGLY;
    }
    if (!bundle_find(request->bundle, bundle)) {
        return FAILED;
    }
    if (request->presets) {
        return presets_print(bundle) ? DONE : FAILED;
    }
    return controls ? list_controls(bundle) : listing_print(bundle, request, kind);
}
