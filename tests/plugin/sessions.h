// SPDX-License-Identifier: ISC
/* sessions.h - sessions of a Keeper in a folder, by lilv, and a bank of the user's
   own for them. */
#pragma once

#include "keeper.h"

static inline const char* get_symbol(const uint32_t index)
{
    return control_rows[index].symbol;
}

static inline const void* get_port(const char* const symbol, void* const handle,
                                   uint32_t* const size, uint32_t* const type)
{
    Keeper* const keeper = (Keeper*)handle;
    for (uint32_t i = 0; i < CONTROL_COUNT; ++i) {
        if (!strcmp(symbol, get_symbol(i))) {
            *size = sizeof(float);
            *type = urid(keeper, LV2_ATOM__Float);
            return &keeper->controls[i];
        }
    }
    *size = *type = 0;
    return NULL;
}

static inline void set_port(const char* const symbol, void* const handle, const void* const value,
                            const uint32_t size, const uint32_t type)
{
    Keeper* const keeper = (Keeper*)handle;
    for (uint32_t i = 0; i < CONTROL_COUNT; ++i) {
        if (!strcmp(symbol, get_symbol(i)) && size == sizeof(float) &&
            type == urid(keeper, LV2_ATOM__Float)) {
            memcpy(&keeper->controls[i], value, size);
        }
    }
}

/* A session in a folder, by lilv. */
static inline void save_session(Keeper* const keeper, const char* const folder)
{
    LilvState* const state = lilv_state_new_from_instance(
        host_plugin(keeper->host), keeper->instance, &keeper->map, NULL, NULL, NULL, NULL, get_port,
        keeper, LV2_STATE_IS_POD | LV2_STATE_IS_PORTABLE, keeper->list);
    CHECK_INT(lilv_state_save(host_world(keeper->host), &keeper->map, &keeper->unmap, state, NULL,
                              folder, "state.ttl"),
              0);
    lilv_state_free(state);
}

static inline void load_session(Keeper* const keeper, const char* const folder)
{
    char path[1024];
    snprintf(path, sizeof path, "%s/state.ttl", folder);
    LilvState* const state =
        lilv_state_new_from_file(host_world(keeper->host), &keeper->map, NULL, path);
    if (CHECK(state)) {
        lilv_state_restore(state, keeper->instance, set_port, keeper, 0, keeper->list);
    }
    lilv_state_free(state);
}

static inline unsigned properties_of(Keeper* const keeper)
{
    LilvState* const state = lilv_state_new_from_instance(
        host_plugin(keeper->host), keeper->instance, &keeper->map, NULL, NULL, NULL, NULL, NULL,
        NULL, LV2_STATE_IS_POD | LV2_STATE_IS_PORTABLE, keeper->list);
    const unsigned count = lilv_state_get_num_properties(state);
    lilv_state_free(state);
    return count;
}

static inline const char* folder_make(void)
{
    static char folder[512];
    snprintf(folder, sizeof folder, "%s/session", getenv("XDG_DATA_HOME"));
    mkdir(folder, 0700);
    return folder;
}

static inline void folder_remove(const char* const folder)
{
    char path[1024];
    snprintf(path, sizeof path, "%s/state.ttl", folder);
    remove(path);
    snprintf(path, sizeof path, "%s/manifest.ttl", folder);
    remove(path);
    rmdir(folder);
}

/* Numbers after Marsaglia 2003, xorshift: the same settings on every machine. */
static inline uint32_t below(uint32_t* const state, const uint32_t limit)
{
    *state ^= *state << 13;
    *state ^= *state >> 17;
    *state ^= *state << 5;
    return *state % limit;
}

/* The user's own groove, its own feet, and an own kit map. */
static const char own_bank[] =
    TTL "@prefix my: <urn:fourlimb:mine:> .\n"
        "@prefix hands: <urn:fourlimb:hands:> .\n"
        "my:salt-gallop a fl:FeetFigure ; fl:id 1023 ; rdfs:label \"Salt Gallop\" ; fl:bars 1 ;\n"
        "  fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps "
        "\"O..o .oo. O..o .ooo\" ] .\n"
        "my:brine-run a fl:FeetFigure ; fl:id 1024 ; rdfs:label \"Brine Run\" ; fl:bars 1 ;\n"
        "  fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps "
        "\"oooo .... oooo ....\" ] .\n"
        "my:ostrel a fl:Groove ; fl:id 1007 ; rdfs:label \"Ostrel\" ; fl:tempo 140 ; "
        "fl:beatsPerBar 4 ; fl:beatUnit 4 ; fl:form \"AB\" ; fl:touch 30.5 ;\n"
        "  fl:part [ fl:letter \"A\" ; fl:hands hands:ride-eighths ; fl:feet my:brine-run ] ,\n"
        "    [ fl:letter \"B\" ; fl:feet my:salt-gallop ] .\n";

static inline void write_own(const char* const text)
{
    char path[1024];
    snprintf(path, sizeof path, "%s/fourlimb", getenv("XDG_DATA_HOME"));
    mkdir(path, 0700);
    strcat(path, "/mine.ttl");
    FILE* const file = fopen(path, "w");
    CHECK(file && fputs(text, file) >= 0);
    if (file) {
        fclose(file);
    }
}

static inline void forget_own(void)
{
    remove_files(users_folder());
}
