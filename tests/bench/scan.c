// SPDX-License-Identifier: ISC
/* scan.c - what a host pays to find a plugin through lilv: reading the bundle's manifest, and
   the plugin's own data, in milliseconds of the process's own time, the medians of many.
   Usage: scan BUNDLE/ [TIMES] */
#include <lilv/lilv.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { TIMES_MOST = 101 };

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return (double)time.tv_sec * 1e3 + (double)time.tv_nsec * 1e-6;
}

typedef struct {
    double manifest;
    double data;
    uint32_t ports;
} Scan;

/* The name of a plugin is in its own data, so that asking for it has that read. */
static Scan scan(const char* const bundle)
{
    LilvWorld* const world = lilv_world_new();
    LilvNode* const node = lilv_new_file_uri(world, NULL, bundle);
    const double begin = now();
    lilv_world_load_bundle(world, node);
    const double loaded = now();
    const LilvPlugins* const plugins = lilv_world_get_all_plugins(world);
    const LilvPlugin* const plugin = lilv_plugins_get(plugins, lilv_plugins_begin(plugins));
    Scan found = {.manifest = loaded - begin};
    if (plugin) {
        lilv_node_free(lilv_plugin_get_name(plugin));
        found.ports = lilv_plugin_get_num_ports(plugin);
    }
    found.data = now() - loaded;
    lilv_node_free(node);
    lilv_world_free(world);
    return found;
}

static int by_size(const void* const a, const void* const b)
{
    const double left = *(const double*)a;
    const double right = *(const double*)b;
    return (left > right) - (left < right);
}

static double median(double* const times, const size_t count)
{
    qsort(times, count, sizeof *times, by_size);
    return times[count / 2];
}

int main(const int count, char** const arguments)
{
    static double manifest[TIMES_MOST], data[TIMES_MOST];
    const long asked = count > 2 ? strtol(arguments[2], NULL, 10) : TIMES_MOST;
    const size_t times = asked > 0 && asked < TIMES_MOST ? (size_t)asked : TIMES_MOST;
    uint32_t ports = 0;
    for (size_t i = 0; count > 1 && i < times; ++i) {
        const Scan found = scan(arguments[1]);
        manifest[i] = found.manifest;
        data[i] = found.data;
        ports = found.ports;
    }
    if (!ports) {
        fprintf(stderr, "usage: scan BUNDLE/ [TIMES]\n");
        return 2;
    }
    printf("manifest %.2f ms   plugin %.2f ms   ports %u\n", median(manifest, times),
           median(data, times), ports);
    return 0;
}
