// SPDX-License-Identifier: ISC
#include "presets.h"

#include "bundle.h"
#include "host.h"

#include <lv2/atom/atom.h>
#include <lv2/presets/presets.h>
#include <lv2/urid/urid.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

static const char label_uri[] = "http://www.w3.org/2000/01/rdf-schema#label";
static const char comment_uri[] = "http://www.w3.org/2000/01/rdf-schema#comment";

enum { PRESETS_MAX = 1024 };

typedef struct {
    LilvNode* uri;
    LilvNode* label;
    LilvNode* comment; /* NULL if none */
    LilvNode* bank;    /* its label; NULL if none */
} Preset;

typedef struct {
    Host* host;
    LilvNodes* nodes;
    Preset* presets;
    size_t count;
} Presets;

static LilvNode* property(const Presets* const all, const LilvNode* const subject,
                          const char* const uri)
{
    LilvNode* const predicate = lilv_new_uri(host_world(all->host), uri);
    LilvNode* const found =
        subject ? lilv_world_get(host_world(all->host), subject, predicate, NULL) : NULL;
    lilv_node_free(predicate);
    return found;
}

static void add(Presets* const all, const LilvNode* const node)
{
    lilv_world_load_resource(host_world(all->host), node);
    LilvNode* const bank = property(all, node, LV2_PRESETS__bank);
    all->presets[all->count++] = (Preset){
        .uri = lilv_node_duplicate(node),
        .label = property(all, node, label_uri),
        .comment = property(all, node, comment_uri),
        .bank = property(all, bank, label_uri),
    };
    lilv_node_free(bank);
}

static const char* text(const LilvNode* const node)
{
    return node ? lilv_node_as_string(node) : "";
}

/* The label without its bank's name, which stands before it for hosts that show all
   presets in one list. */
static const char* name_of(const Preset* const preset)
{
    const char* const label = text(preset->label);
    const char* const bank = text(preset->bank);
    const size_t length = strlen(bank);
    return length && !strncmp(label, bank, length) && !strncmp(label + length, ": ", 2)
               ? label + length + 2
               : label;
}

static int by_bank_then_label(const void* const a, const void* const b)
{
    const Preset* const left = (const Preset*)a;
    const Preset* const right = (const Preset*)b;
    const int banks = strcmp(text(left->bank), text(right->bank));
    return banks ? banks : strcmp(text(left->label), text(right->label));
}

static bool open_presets(Presets* const all, const char* const asked)
{
    char bundle[BUNDLE_PATH_ROOM], why[HOST_WHY_ROOM];
    *all = (Presets){.host = NULL};
    if (!bundle_find(asked, bundle)) {
        return false;
    }
    all->host = host_open(bundle, 48000.0, why);
    if (!all->host) {
        fprintf(stderr, "fourlimb: %s\n", why);
        return false;
    }
    LilvNode* const kind = lilv_new_uri(host_world(all->host), LV2_PRESETS__Preset);
    all->nodes = lilv_plugin_get_related(host_plugin(all->host), kind);
    lilv_node_free(kind);
    all->presets = calloc(PRESETS_MAX, sizeof(Preset));
    LILV_FOREACH(nodes, i, all->nodes)
    {
        if (all->presets && all->count < PRESETS_MAX) {
            add(all, lilv_nodes_get(all->nodes, i));
        }
    }
    if (all->count) {
        qsort(all->presets, all->count, sizeof(Preset), by_bank_then_label);
    }
    return true;
}

static void close_presets(Presets* const all)
{
    for (size_t i = 0; i < all->count; ++i) {
        lilv_node_free(all->presets[i].uri);
        lilv_node_free(all->presets[i].label);
        lilv_node_free(all->presets[i].comment);
        lilv_node_free(all->presets[i].bank);
    }
    free(all->presets);
    lilv_nodes_free(all->nodes);
    host_close(all->host);
}

/* What lilv's callback fills. */
typedef struct {
    Host* host;
    Section* section;
} Filling;

/* A number as Turtle may have it: 1, 1.5 and 1e0 come as different types. */
static bool read_value(Host* const host, const void* const value, const LV2_URID type,
                       float* const number)
{
    if (type == host_urid(host, LV2_ATOM__Float)) {
        memcpy(number, value, sizeof *number);
    } else if (type == host_urid(host, LV2_ATOM__Int)) {
        *number = (float)*(const int32_t*)value;
    } else if (type == host_urid(host, LV2_ATOM__Double)) {
        *number = (float)*(const double*)value;
    } else if (type == host_urid(host, LV2_ATOM__Long)) {
        *number = (float)*(const int64_t*)value;
    } else {
        return false;
    }
    return true;
}

static void take_value(const char* const symbol, void* const context, const void* const value,
                       const uint32_t size, const uint32_t type)
{
    (void)size;
    const Filling* const filling = (const Filling*)context;
    Section* const section = filling->section;
    if (section->preset_count < SETTINGS_MAX) {
        ControlSetting* const setting = &section->preset_values[section->preset_count];
        snprintf(setting->symbol, sizeof setting->symbol, "%s", symbol);
        section->preset_count += read_value(filling->host, value, type, &setting->value);
    }
}

static LV2_URID map_uri(const LV2_URID_Map_Handle handle, const char* const uri)
{
    return host_urid((Host*)handle, uri);
}

static bool fill(const Presets* const all, const Preset* const preset, Section* const section)
{
    LV2_URID_Map map = {all->host, map_uri};
    LilvState* const state = lilv_state_new_from_world(host_world(all->host), &map, preset->uri);
    if (!state) {
        fprintf(stderr, "fourlimb: the preset \"%s\" can't be read\n", text(preset->label));
        return false;
    }
    Filling filling = {all->host, section};
    section->preset_count = 0;
    lilv_state_emit_port_values(state, take_value, &filling);
    lilv_state_free(state);
    return true;
}

static bool resolve(const Presets* const all, Section* const section)
{
    const char* near = NULL;
    for (size_t i = 0; i < all->count; ++i) {
        const char* const name = name_of(&all->presets[i]);
        if (!strcasecmp(name, section->preset) ||
            !strcasecmp(text(all->presets[i].label), section->preset)) {
            return fill(all, &all->presets[i], section);
        }
        near = strncasecmp(name, section->preset, 3) ? near : name;
    }
    fprintf(stderr, "fourlimb: there is no preset called \"%s\"", section->preset);
    if (near) {
        fprintf(stderr, "; near it: \"%s\"", near);
    }
    fprintf(stderr, "; `fourlimb list --presets` names all\n");
    return false;
}

bool presets_resolve(Request* const request)
{
    bool named = false;
    for (int i = 0; i < request->section_count; ++i) {
        named = named || request->sections[i].preset;
    }
    if (!named) {
        return true;
    }
    Presets all;
    bool good = open_presets(&all, request->bundle);
    for (int i = 0; good && i < request->section_count; ++i) {
        good = !request->sections[i].preset || resolve(&all, &request->sections[i]);
    }
    close_presets(&all);
    return good;
}

bool presets_print(const char* const bundle)
{
    Presets all;
    const bool good = open_presets(&all, bundle);
    printf("%zu presets\n", all.count);
    for (size_t i = 0; i < all.count; ++i) {
        const Preset* const preset = &all.presets[i];
        if (!i || strcmp(text(all.presets[i - 1].bank), text(preset->bank))) {
            printf(" %s\n", text(preset->bank));
        }
        printf("  %-28s  %s\n", name_of(preset), text(preset->comment));
    }
    close_presets(&all);
    return good;
}
