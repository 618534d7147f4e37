// SPDX-License-Identifier: ISC
/* instances.c - what a thousand instances cost in one process: the first, and each further one,
   in milliseconds of its own time, in bytes held and, run for a while, in bytes resident.
   Usage: instances PLUGIN.so BUNDLE */
#include "../../ui/command/uri_table.h"

#include <dlfcn.h>
#include <lv2/core/lv2.h>
#include <malloc.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { INSTANCES = 1000, BLOCKS = 50, PAGE = 4096 };

typedef struct {
    LV2_Handle handle;
    double ms;
    size_t bytes;
} Instance;

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return (double)time.tv_sec * 1e3 + (double)time.tv_nsec * 1e-6;
}

/* Large blocks lie outside the heap. */
static size_t held(void)
{
    const struct mallinfo2 info = mallinfo2();
    return info.uordblks + info.hblkhd;
}

static size_t resident(void)
{
    char line[128] = "";
    char* end = line;
    FILE* const file = fopen("/proc/self/statm", "r");
    if (file && fgets(line, sizeof line, file)) {
        strtoul(line, &end, 10); /* all there is room for; then what is in memory */
    }
    if (file) {
        fclose(file);
    }
    return strtoul(end, NULL, 10) * PAGE;
}

static Instance make(const LV2_Descriptor* const plugin, const char* const bundle,
                     const LV2_Feature* const* const features)
{
    const size_t before = held();
    const double begin = now();
    const LV2_Handle handle = plugin->instantiate(plugin, 48000.0, bundle, features);
    return (Instance){handle, now() - begin, held() - before};
}

static int by_ms(const void* const a, const void* const b)
{
    const double left = ((const Instance*)a)->ms;
    const double right = ((const Instance*)b)->ms;
    return (left > right) - (left < right);
}

int main(const int argc, char** const argv)
{
    void* const library = argc == 3 ? dlopen(argv[1], RTLD_NOW) : NULL;
    LV2_Descriptor_Function descriptor = NULL;
    *(void**)&descriptor = library ? dlsym(library, "lv2_descriptor") : NULL;
    if (!descriptor) {
        fprintf(stderr, "usage: instances PLUGIN.so BUNDLE\n");
        return 2;
    }
    UriTable* const uris = uri_table_new();
    LV2_URID_Map map = {uris, uri_table_map};
    const LV2_Feature feature = {LV2_URID__map, &map};
    const LV2_Feature* const features[] = {&feature, NULL};
    const LV2_Descriptor* const plugin = descriptor(0);
    static Instance all[INSTANCES];
    size_t before = 0;
    for (int i = 0; i < INSTANCES; ++i) {
        all[i] = make(plugin, argv[2], features);
        if (!all[i].handle) {
            return 1;
        }
        for (int block = 0; block < BLOCKS; ++block) {
            plugin->run(all[i].handle, 64);
        }
        before = i ? before : resident();
    }
    const Instance last = all[INSTANCES - 1];
    printf("  the first %.2f ms, %zu bytes", all[0].ms, all[0].bytes);
    const size_t each = (resident() - before) / (INSTANCES - 1);
    qsort(all + 1, INSTANCES - 1, sizeof *all, by_ms);
    printf("   each further one of %d: %.3f ms (median), %zu bytes, %zu of them resident\n",
           INSTANCES, all[INSTANCES / 2].ms, last.bytes, each);
    for (int i = 0; i < INSTANCES; ++i) {
        plugin->cleanup(all[i].handle);
    }
    uri_table_free(uris);
    dlclose(library);
    return 0;
}
