// SPDX-License-Identifier: ISC
#include "bundle.h"

#include "../../plugin/bank/entry_asked.h"

#include <lilv/lilv.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static bool has_manifest(const char* const folder)
{
    char path[BUNDLE_PATH_ROOM];
    const int length = snprintf(path, sizeof path, "%s/manifest.ttl", folder);
    return length > 0 && length < BUNDLE_PATH_ROOM && access(path, R_OK) == 0;
}

static bool try_folder(const char* const base, const char* const rest, char path[BUNDLE_PATH_ROOM])
{
    const int length = snprintf(path, BUNDLE_PATH_ROOM, "%s%s", base, rest);
    return length > 0 && length < BUNDLE_PATH_ROOM && has_manifest(path);
}

/* The folder that this program lies in, or "." */
static void program_folder(char folder[BUNDLE_PATH_ROOM])
{
    const ssize_t length = readlink("/proc/self/exe", folder, BUNDLE_PATH_ROOM - 1);
    folder[length > 0 ? length : 0] = '\0';
    char* const slash = strrchr(folder, '/');
    if (slash) {
        *slash = '\0';
    } else {
        snprintf(folder, BUNDLE_PATH_ROOM, ".");
    }
}

/* Wherever hosts find it: in LV2_PATH, or the folders that this system's lilv knows,
   which no two distributions name alike. */
static bool find_as_hosts_do(char path[BUNDLE_PATH_ROOM])
{
    LilvWorld* const world = lilv_world_new();
    if (!world) {
        return false;
    }
    lilv_world_load_all(world);
    LilvNode* const uri = lilv_new_uri(world, "urn:fourlimb:groove");
    const LilvPlugin* const plugin =
        lilv_plugins_get_by_uri(lilv_world_get_all_plugins(world), uri);
    char* const folder =
        plugin ? lilv_node_get_path(lilv_plugin_get_bundle_uri(plugin), NULL) : NULL;
    const bool found = folder && try_folder(folder, "", path);
    lilv_free(folder);
    lilv_node_free(uri);
    lilv_world_free(world);
    return found;
}

bool bundle_find(const char* const asked, char path[BUNDLE_PATH_ROOM])
{
    if (asked) {
        if (try_folder(asked, "", path)) {
            return true;
        }
        fprintf(stderr, "fourlimb: %s is not a plugin bundle: it has no manifest.ttl\n", asked);
        return false;
    }
    char folder[BUNDLE_PATH_ROOM];
    program_folder(folder);
    const char* const home = getenv("HOME");
    if (try_folder(folder, "/lv2/fourlimb.lv2", path) ||
        try_folder(folder, "/../lib/lv2/fourlimb.lv2", path) ||
        (home && try_folder(home, "/.lv2/fourlimb.lv2", path)) || find_as_hosts_do(path)) {
        return true;
    }
    fprintf(stderr, "fourlimb: the plugin is not beside this program nor in the LV2 folders; "
                    "run `make install`, or name its folder by --bundle\n");
    return false;
}

Bank* bundle_bank(const char* const bundle)
{
    Bank* const bank = bank_open_bundle(bundle, "");
    if (!bank) {
        fprintf(stderr, "fourlimb: there is no memory for the bank\n");
        return NULL;
    }
    const Diagnostics* const diagnostics = bank_diagnostics(bank);
    for (size_t i = 0; i < diagnostics->count; ++i) {
        fprintf(stderr, "fourlimb: %s\n", diagnostics->texts[i]);
    }
    if (diagnostics->unkept) {
        fprintf(stderr, "fourlimb: and %zu complaints more\n", diagnostics->unkept);
    }
    return bank;
}

const EntryInfo* bundle_entry(const Bank* const bank, const EntryKind kind, const char* const asked)
{
    enum { NEAR_ROOM = 512 };
    char near[NEAR_ROOM];
    const EntryInfo* const found = entry_asked(bank, kind, asked);
    if (!found) {
        entry_asked_near(bank, kind, asked, near, sizeof near);
        fprintf(stderr, "fourlimb: there is no %s called \"%s\"%s; `fourlimb list` names all\n",
                kind_rows[kind].word, asked, near);
    }
    return found;
}
