// SPDX-License-Identifier: ISC
/* kept.h - what a host keeps of a bench's plugin and brings back, maybe to another. */
#pragma once

#include "bench.h"

#include <lv2/state/state.h>

static const char* const kept_terms[] = {"handsDraft",     "feetDraft",     "turnaroundDraft",
                                         "ownEntries",     "unreadEntries", "entryNames",
                                         "keptSelections", "unreadKept"};
enum { TERMS = sizeof kept_terms / sizeof *kept_terms };

/* What a host keeps, by name: another host numbers otherwise. */
typedef struct {
    Host* host;
    char* texts[TERMS];
} Kept;

static inline int term_of(const Kept* const kept, const uint32_t key)
{
    for (int i = 0; i < TERMS; ++i) {
        char uri[128];
        snprintf(uri, sizeof uri, FOURLIMB_TERMS "%s", kept_terms[i]);
        if (host_urid(kept->host, uri) == key) {
            return i;
        }
    }
    return -1;
}

static inline LV2_State_Status store(const LV2_State_Handle handle, const uint32_t key,
                                     const void* const value, const size_t size,
                                     const uint32_t type, const uint32_t flags)
{
    Kept* const kept = (Kept*)handle;
    const int term = term_of(kept, key);
    (void)size;
    (void)type;
    (void)flags;
    CHECK(term >= 0);
    if (term >= 0) {
        free(kept->texts[term]);
        kept->texts[term] = strdup((const char*)value);
    }
    return LV2_STATE_SUCCESS;
}

static inline const void* retrieve(const LV2_State_Handle handle, const uint32_t key,
                                   size_t* const size, uint32_t* const type, uint32_t* const flags)
{
    const Kept* const kept = (const Kept*)handle;
    const int term = term_of(kept, key);
    const char* const text = term < 0 ? NULL : kept->texts[term];
    *size = text ? strlen(text) + 1 : 0;
    *type = host_urid(kept->host, LV2_ATOM__String);
    *flags = LV2_STATE_IS_POD | LV2_STATE_IS_PORTABLE;
    return text;
}

static inline const LV2_State_Interface* state_of(Host* const host)
{
    return (const LV2_State_Interface*)lilv_instance_get_extension_data(host_instance(host),
                                                                        LV2_STATE__interface);
}

static inline void keep(Bench* const bench, Kept* const kept)
{
    *kept = (Kept){.host = bench->stage.host};
    CHECK_INT(state_of(kept->host)
                  ->save(lilv_instance_get_handle(host_instance(kept->host)), store, kept, 0, NULL),
              LV2_STATE_SUCCESS);
}

static inline void bring_back(Bench* const bench, Kept* const kept)
{
    kept->host = bench->stage.host;
    CHECK_INT(
        state_of(kept->host)
            ->restore(lilv_instance_get_handle(host_instance(kept->host)), retrieve, kept, 0, NULL),
        LV2_STATE_SUCCESS);
}

static inline void forget(Kept* const kept)
{
    for (int i = 0; i < TERMS; ++i) {
        free(kept->texts[i]);
    }
}
