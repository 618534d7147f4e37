// SPDX-License-Identifier: ISC
#include "host.h"

#include "jobs.h"
#include "uri_table.h"

#include <lv2/atom/atom.h>
#include <lv2/log/log.h>
#include <lv2/time/time.h>
#include <lv2/urid/urid.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { INPUT_ROOM = 65536, OUTPUT_ROOM = INPUT_ROOM, PORTS_MAX = 256 };

/* A sequence with room behind it; atoms stand on multiples of eight. */
typedef union {
    LV2_Atom_Sequence sequence;
    uint64_t room[INPUT_ROOM / 8 + 2];
} Buffer;

struct Host {
    LilvWorld* world;
    const LilvPlugin* plugin;
    LilvInstance* instance;
    UriTable* uris;
    LV2_URID_Map map;
    LV2_URID_Unmap unmap;
    LV2_Log_Log log;
    Jobs jobs;
    LV2_Feature features[4];
    const LV2_Feature* feature_list[5];
    LV2_Atom_Forge forge;
    LV2_Atom_Forge_Frame frame;
    LV2_URID chunk;
    uint32_t room;
    float values[PORTS_MAX];
    Buffer input;
    Buffer midi;
    Buffer notify;
};

/* The format is the plugin's: a literal there, checked there. */
__attribute__((format(printf, 3, 0))) static int print_log(const LV2_Log_Handle handle,
                                                           const LV2_URID type,
                                                           const char* const format,
                                                           va_list arguments)
{
    (void)handle;
    (void)type;
    return vfprintf(stderr, format, arguments);
}

__attribute__((format(printf, 3, 4))) static int
log_printf(const LV2_Log_Handle handle, const LV2_URID type, const char* const format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const int length = print_log(handle, type, format, arguments);
    va_end(arguments);
    return length;
}

static void make_features(Host* const host)
{
    jobs_init(&host->jobs);
    host->map = (LV2_URID_Map){host->uris, uri_table_map};
    host->unmap = (LV2_URID_Unmap){host->uris, uri_table_unmap};
    host->log = (LV2_Log_Log){NULL, log_printf, print_log};
    host->features[0] = (LV2_Feature){LV2_URID__map, &host->map};
    host->features[1] = (LV2_Feature){LV2_URID__unmap, &host->unmap};
    host->features[2] = (LV2_Feature){LV2_LOG__log, &host->log};
    host->features[3] = (LV2_Feature){LV2_WORKER__schedule, &host->jobs.schedule};
    for (int i = 0; i < 4; ++i) {
        host->feature_list[i] = &host->features[i];
    }
}

/* The folder as a URI that ends in a slash, as lilv wants bundles. */
static LilvNode* bundle_node(LilvWorld* const world, const char* const bundle)
{
    char* const whole = realpath(bundle, NULL);
    char* const path = whole ? malloc(strlen(whole) + 2) : NULL;
    LilvNode* node = NULL;
    if (path) {
        sprintf(path, "%s/", whole);
        node = lilv_new_file_uri(world, NULL, path);
    }
    free(path);
    free(whole);
    return node;
}

static bool load_plugin(Host* const host, const char* const bundle)
{
    LilvNode* const node = bundle_node(host->world, bundle);
    if (!node) {
        return false;
    }
    lilv_world_load_bundle(host->world, node);
    lilv_node_free(node);
    const LilvPlugins* const plugins = lilv_world_get_all_plugins(host->world);
    LilvIter* const first = lilv_plugins_begin(plugins);
    host->plugin = lilv_plugins_is_end(plugins, first) ? NULL : lilv_plugins_get(plugins, first);
    return host->plugin && lilv_plugin_get_num_ports(host->plugin) <= PORTS_MAX;
}

static const LilvPort* port_with_symbol(const Host* const host, const char* const symbol)
{
    LilvNode* const node = lilv_new_string(host->world, symbol);
    const LilvPort* const port = lilv_plugin_get_port_by_symbol(host->plugin, node);
    lilv_node_free(node);
    return port;
}

static void connect_atoms(Host* const host, const char* const symbol, void* const buffer)
{
    const LilvPort* const port = port_with_symbol(host, symbol);
    if (port) {
        lilv_instance_connect_port(host->instance, lilv_port_get_index(host->plugin, port), buffer);
    }
}

static void connect_ports(Host* const host)
{
    const uint32_t count = lilv_plugin_get_num_ports(host->plugin);
    host_set_defaults(host);
    for (uint32_t i = 0; i < count; ++i) {
        lilv_instance_connect_port(host->instance, i, &host->values[i]);
    }
    connect_atoms(host, "control", &host->input);
    connect_atoms(host, "midi_out", &host->midi);
    connect_atoms(host, "notify", &host->notify);
}

static void begin_input(Host* const host)
{
    lv2_atom_forge_set_buffer(&host->forge, (uint8_t*)&host->input, INPUT_ROOM);
    lv2_atom_forge_sequence_head(&host->forge, &host->frame, 0);
}

static bool start(Host* const host, const char* const bundle, const double rate,
                  char why[HOST_WHY_ROOM])
{
    host->world = lilv_world_new();
    host->uris = uri_table_new();
    if (!host->world || !host->uris || !load_plugin(host, bundle)) {
        snprintf(why, HOST_WHY_ROOM, "%s: no plugin bundle can be loaded from this folder", bundle);
        return false;
    }
    make_features(host);
    host->instance = lilv_plugin_instantiate(host->plugin, rate, host->feature_list);
    if (!host->instance) {
        snprintf(why, HOST_WHY_ROOM, "%s: the plugin would not start at %g Hz", bundle, rate);
        return false;
    }
    jobs_begin(&host->jobs, host->instance);
    host->room = OUTPUT_ROOM;
    host->chunk = host_urid(host, LV2_ATOM__Chunk);
    lv2_atom_forge_init(&host->forge, &host->map);
    connect_ports(host);
    begin_input(host);
    lilv_instance_activate(host->instance);
    return true;
}

Host* host_open(const char* const bundle, const double rate, char why[HOST_WHY_ROOM])
{
    Host* const host = calloc(1, sizeof(Host));
    if (!host) {
        snprintf(why, HOST_WHY_ROOM, "there is no memory for a plugin");
        return NULL;
    }
    if (!start(host, bundle, rate, why)) {
        host_close(host);
        return NULL;
    }
    return host;
}

void host_close(Host* const host)
{
    if (!host) {
        return;
    }
    if (host->instance) {
        lilv_instance_deactivate(host->instance);
        lilv_instance_free(host->instance);
    }
    lilv_world_free(host->world);
    uri_table_free(host->uris);
    free(host);
}

LV2_URID host_urid(Host* const host, const char* const uri)
{
    return uri_table_map(host->uris, uri);
}

/* False if the port isn't a control that a person sets. */
static bool is_control_input(const Host* const host, const LilvPort* const port)
{
    LilvNode* const control = lilv_new_uri(host->world, LILV_URI_CONTROL_PORT);
    LilvNode* const input = lilv_new_uri(host->world, LILV_URI_INPUT_PORT);
    const bool is =
        lilv_port_is_a(host->plugin, port, control) && lilv_port_is_a(host->plugin, port, input);
    lilv_node_free(control);
    lilv_node_free(input);
    return is;
}

static bool has_property(const Host* const host, const LilvPort* const port, const char* const uri)
{
    LilvNode* const property = lilv_new_uri(host->world, uri);
    const bool has = lilv_port_has_property(host->plugin, port, property);
    lilv_node_free(property);
    return has;
}

bool host_write(Host* const host, const char* const symbol, const float value)
{
    const LilvPort* const port = port_with_symbol(host, symbol);
    if (port) {
        host->values[lilv_port_get_index(host->plugin, port)] = value;
    }
    return port;
}

bool host_set(Host* const host, const char* const symbol, const float value,
              char why[HOST_WHY_ROOM])
{
    const LilvPort* const port = port_with_symbol(host, symbol);
    if (!port || !is_control_input(host, port)) {
        snprintf(why, HOST_WHY_ROOM,
                 "there is no control \"%s\"; `fourlimb list controls` names them", symbol);
        return false;
    }
    LilvNode *least = NULL, *most = NULL;
    lilv_port_get_range(host->plugin, port, NULL, &least, &most);
    const float low = least ? lilv_node_as_float(least) : value;
    const float high = most ? lilv_node_as_float(most) : value;
    lilv_node_free(least);
    lilv_node_free(most);
    const bool whole =
        has_property(host, port, LV2_CORE__integer) || has_property(host, port, LV2_CORE__toggled);
    if (!(value >= low && value <= high) || (whole && floorf(value) < value)) {
        snprintf(why, HOST_WHY_ROOM, "%s can't be %g; it is %sfrom %g to %g", symbol, (double)value,
                 whole ? "a whole number " : "", (double)low, (double)high);
        return false;
    }
    return host_write(host, symbol, value);
}

float host_get(const Host* const host, const char* const symbol)
{
    const LilvPort* const port = port_with_symbol(host, symbol);
    return port ? host->values[lilv_port_get_index(host->plugin, port)] : NAN;
}

void host_set_defaults(Host* const host)
{
    lilv_plugin_get_port_ranges_float(host->plugin, NULL, NULL, host->values);
}

const LilvPlugin* host_plugin(const Host* const host)
{
    return host->plugin;
}

LilvWorld* host_world(const Host* const host)
{
    return host->world;
}

LV2_Atom_Forge* host_input(Host* const host)
{
    return &host->forge;
}

static void add_long(Host* const host, const char* const key, const int64_t value)
{
    lv2_atom_forge_key(&host->forge, host_urid(host, key));
    lv2_atom_forge_long(&host->forge, value);
}

static void add_float(Host* const host, const char* const key, const float value)
{
    lv2_atom_forge_key(&host->forge, host_urid(host, key));
    lv2_atom_forge_float(&host->forge, value);
}

void host_send_position(Host* const host, const HostPosition position)
{
    LV2_Atom_Forge_Frame object;
    lv2_atom_forge_frame_time(&host->forge, 0);
    lv2_atom_forge_object(&host->forge, &object, 0, host_urid(host, LV2_TIME__Position));
    add_long(host, LV2_TIME__frame, position.frame);
    add_float(host, LV2_TIME__speed, position.speed);
    if (position.has_place) {
        add_long(host, LV2_TIME__bar, position.bar);
        add_float(host, LV2_TIME__barBeat, position.bar_beat);
    }
    if (position.beats_per_bar > 0.0f) {
        add_float(host, LV2_TIME__beatsPerBar, position.beats_per_bar);
        lv2_atom_forge_key(&host->forge, host_urid(host, LV2_TIME__beatUnit));
        lv2_atom_forge_int(&host->forge, position.beat_unit);
    }
    if (position.tempo > 0.0f) {
        add_float(host, LV2_TIME__beatsPerMinute, position.tempo);
    }
    lv2_atom_forge_pop(&host->forge, &object);
}

void host_set_room(Host* const host, const uint32_t bytes)
{
    host->room = bytes < OUTPUT_ROOM ? bytes : OUTPUT_ROOM;
}

void host_run(Host* const host, const uint32_t frames)
{
    lv2_atom_forge_pop(&host->forge, &host->frame);
    host->midi.sequence.atom = (LV2_Atom){host->room, host->chunk};
    host->notify.sequence.atom = (LV2_Atom){OUTPUT_ROOM, host->chunk};
    lilv_instance_run(host->instance, frames);
    jobs_do(&host->jobs);
    begin_input(host);
}

const LV2_Atom_Sequence* host_midi(const Host* const host)
{
    return &host->midi.sequence;
}

const LV2_Atom_Sequence* host_notify(const Host* const host)
{
    return &host->notify.sequence;
}

LilvInstance* host_instance(Host* const host)
{
    return host->instance;
}

void host_reset(Host* const host)
{
    lilv_instance_deactivate(host->instance);
    lilv_instance_activate(host->instance);
}
