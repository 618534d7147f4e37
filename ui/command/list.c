// SPDX-License-Identifier: ISC
#include "bundle.h"
#include "commands.h"
#include "host.h"
#include "presets.h"

#include <stdio.h>
#include <string.h>

static void print_tempo(const EntryInfo* const entry)
{
    if (entry->tempo_low && entry->tempo_high) {
        printf("  %3d-%-3d", entry->tempo_low, entry->tempo_high);
    } else {
        printf("  %7s", "");
    }
}

static void print_entry(const EntryInfo* const entry)
{
    printf("  %4u  %-34s", entry->id, entry->label);
    if (entry->difficulty) {
        printf("  %d", entry->difficulty);
        print_tempo(entry);
    }
    if (*entry->comment) {
        printf("  %s", entry->comment);
    }
    putchar('\n');
}

static bool family_was_printed(const Bank* const bank, const EntryKind kind, const uint32_t index)
{
    for (uint32_t i = 0; i < index; ++i) {
        if (!strcmp(bank_entry(bank, kind, i)->family, bank_entry(bank, kind, index)->family)) {
            return true;
        }
    }
    return false;
}

static void print_family(const Bank* const bank, const EntryKind kind, const uint32_t first)
{
    const char* const family = bank_entry(bank, kind, first)->family;
    uint32_t count = 0;
    for (uint32_t i = first; i < bank_count(bank, kind); ++i) {
        count += !strcmp(bank_entry(bank, kind, i)->family, family);
    }
    if (*family) {
        printf(" %s (%u)\n", family, count);
    }
    for (uint32_t i = first; i < bank_count(bank, kind); ++i) {
        if (!strcmp(bank_entry(bank, kind, i)->family, family)) {
            print_entry(bank_entry(bank, kind, i));
        }
    }
}

static void print_kind(const Bank* const bank, const EntryKind kind)
{
    printf("%u %ss", bank_count(bank, kind), kind_rows[kind].word);
    printf("%s\n",
           kind == ENTRY_KIT ? "" : "   (id, name, difficulty 1-5, quarter notes a minute)");
    for (uint32_t i = 0; i < bank_count(bank, kind); ++i) {
        if (!family_was_printed(bank, kind, i)) {
            print_family(bank, kind, i);
        }
    }
}

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

static int list_bank(const char* const bundle, const int kind)
{
    Bank* const bank = bundle_bank(bundle);
    if (!bank) {
        return FAILED;
    }
    for (int i = 0; i < ENTRY_KINDS; ++i) {
        if (kind == -1 || kind == i) {
            print_kind(bank, (EntryKind)i);
        }
    }
    bank_free(bank);
    return DONE;
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
    return controls ? list_controls(bundle) : list_bank(bundle, kind);
}
