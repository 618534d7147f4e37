// SPDX-License-Identifier: ISC
#include "bundle.h"
#include "commands.h"
#include "host.h"
#include "listing.h"
#include "presets.h"

#include <stdio.h>
#include <string.h>

static const double minutes_normal = 4.0;

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

/* "kits" and so on; -1 if it is none of them: all kinds. */
static int asked_kind(const char* const word)
{
    for (int kind = 0; word && kind < ENTRY_KINDS; ++kind) {
        if (!strcmp(word, kind_rows[kind].plural)) {
            return kind;
        }
    }
    return -1;
}

/* What is looked for, of options and words alike; the first may be a kind. */
static bool read_wish(const Request* const request, const bool has_kind, Wish* const wish)
{
    char typed[LOOKED_FOR_MAX * WISH_WORD_ROOM] = "";
    const Section* const first = request_first(request);
    const char* const operand = request->operand && !has_kind ? request->operand : "";
    size_t length = (size_t)snprintf(typed, sizeof typed, "%s", operand);
    for (int i = 0; i < request->looked_for_count && length < sizeof typed; ++i) {
        length +=
            (size_t)snprintf(typed + length, sizeof typed - length, " %s", request->looked_for[i]);
    }
    *wish = (Wish){.family = request->family, .grid = request->grid, .tempo = first->tempo};
    wish->meter = (Meter){first->beats, first->beat_unit};
    wish->limit = request->limit;
    wish->limited = request->limit;
    wish_read(wish, typed);
    if (*wish->wrong) {
        fprintf(stderr,
                "fourlimb: list %s: expected strokes a second from 1 to 40 after under and limit, "
                "and quarter notes a minute from 20 to 400 after at\n",
                wish->wrong);
    }
    return !*wish->wrong;
}

/* What the bank isn't asked for takes no words. */
static bool takes_no_words(const Request* const request, const bool controls)
{
    if (request->presets && request->operand) {
        fprintf(stderr, "fourlimb: list takes a kind or --presets, not both\n");
    } else if (controls && request->looked_for_count) {
        fprintf(stderr, "fourlimb: list controls: expected nothing after it\n");
    } else {
        return true;
    }
    return false;
}

int command_list(const Request* const request)
{
    char bundle[BUNDLE_PATH_ROOM];
    Wish wish;
    const bool controls = request->operand && !strcmp(request->operand, "controls");
    const int kind = asked_kind(request->operand);
    if (!takes_no_words(request, controls) || !read_wish(request, controls || kind >= 0, &wish)) {
        return ASKED_WRONGLY;
    }
    if (!bundle_find(request->bundle, bundle)) {
        return FAILED;
    }
    if (request->presets) {
        return presets_print(bundle) ? DONE : FAILED;
    }
    const double minutes = request->minutes > 0.0 ? request->minutes : minutes_normal;
    const ListingAsked asked = {&wish, kind, minutes};
    return controls ? list_controls(bundle) : listing_print(bundle, &asked);
}
