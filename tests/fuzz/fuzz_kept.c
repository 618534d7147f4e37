// SPDX-License-Identifier: ISC
/* fuzz_kept.c - whatever a window says of what is kept, between whatever a host saves
   and restores: slots stay in their places, what is told is UTF-8, and what is
   saved is read again without a word. */
#include "../../plugin/engine/groove/selection.h"
#include "../../plugin/lv2/state.h"
#include "../../plugin/talk/decode.h"
#include "../../plugin/talk/encode.h"
#include "../../ui/command/uri_table.h"
#include "fuzz.h"

#include <stdlib.h>
#include <string.h>

enum { KEPT_ACTS_MOST = 64 };

static struct {
    UriTable* table;
    LV2_URID_Map map;
    Uris uris;
    Worker worker;
    Worker holds; /* the bank */
    char* kept;   /* as saved last */
} host;

static LV2_Worker_Status never_schedule(const LV2_Worker_Schedule_Handle handle,
                                        const uint32_t size, const void* const data)
{
    (void)handle;
    (void)size;
    (void)data;
    return LV2_WORKER_SUCCESS;
}

static const LV2_Worker_Schedule schedule = {NULL, never_schedule};
static const char bundle[] = FOURLIMB_BUILD "/lv2/fourlimb.lv2";

int LLVMFuzzerInitialize(int* const count, char*** const arguments)
{
    (void)count;
    (void)arguments;
    fuzz_alone();
    host.table = uri_table_new();
    host.map = (LV2_URID_Map){host.table, uri_table_map};
    host.uris = uris_map(&host.map);
    FUZZ_WANT(worker_init(&host.holds, bundle, &schedule));
    return 0;
}

static LV2_State_Status store(const LV2_State_Handle handle, const uint32_t key,
                              const void* const bytes, const size_t size, const uint32_t type,
                              const uint32_t flags)
{
    (void)handle;
    (void)size;
    (void)type;
    (void)flags;
    if (key == host.uris.fl_keptSelections) {
        free(host.kept);
        host.kept = strdup((const char*)bytes);
    }
    return LV2_STATE_SUCCESS;
}

static const void* retrieve(const LV2_State_Handle handle, const uint32_t key, size_t* const size,
                            uint32_t* const type, uint32_t* const flags)
{
    (void)handle;
    const bool is_it = host.kept && key == host.uris.fl_keptSelections;
    *size = is_it ? strlen(host.kept) + 1 : 0;
    *type = host.uris.atom_String;
    *flags = 0;
    return is_it ? host.kept : NULL;
}

/* A word as the wire has it, cut or whole: what decode.h takes of it goes to the worker. */
static void say(FuzzInput* const input)
{
    union {
        LV2_Atom atom;
        uint8_t bytes[1024];
        uint64_t align;
    } message = {{0, 0}};
    LV2_Atom_Forge forge;
    char name[KEPT_WORD_MOST + 16];
    const int32_t slot = (int32_t)fuzz_byte(input) - 4;
    const uint32_t verb = fuzz_byte(input);
    size_t size = fuzz_byte(input) % sizeof name;
    const uint8_t* const bytes = fuzz_take(input, &size);
    memcpy(name, bytes, size);
    lv2_atom_forge_init(&forge, &host.map);
    lv2_atom_forge_set_buffer(&forge, message.bytes, sizeof message);
    encode_kept(&forge, &(KeptWord){slot, (int32_t)size, name});
    if (verb & 0x80U) { /* something of it is another */
        message.bytes[fuzz_byte(input) % forge.offset] = (uint8_t)fuzz_byte(input);
        message.atom.size = forge.offset - (uint32_t)sizeof message.atom;
    }
    KeptWord word;
    KeptAsk ask = {.slot = 0};
    const char* why = NULL;
    if (decode_kept(&message.atom, &host.uris, &word)) {
        FUZZ_WANT(word.slot >= 0 && word.slot <= KEPT_MAX && word.length <= KEPT_WORD_MOST);
        ask.slot = (uint32_t)word.slot;
        memcpy(ask.name, word.name,
               (size_t)word.length < KEPT_NAME_ROOM ? (size_t)word.length : KEPT_NAME_ROOM - 1U);
        for (int i = 0; i < CONTROL_COUNT; ++i) {
            ask.values[i] = (float)fuzz_number(input);
        }
        worker_ask(&host.worker, (Ask)(ASK_KEEP + verb % 5U), &ask, sizeof ask, &why);
    }
}

/* What everybody may do at any time. */
static void act(FuzzInput* const input)
{
    switch (fuzz_byte(input) % 8U) {
    case 0:
        FUZZ_WANT(state_save(&host.worker, &host.uris, store, NULL) == LV2_STATE_SUCCESS);
        break;
    case 1:
        FUZZ_WANT(state_restore(&host.worker, &host.uris, retrieve, NULL) == LV2_STATE_SUCCESS);
        break;
    case 2:
        worker_run(&host.worker);
        break;
    default:
        say(input);
    }
    Snapshot* const snapshot = worker_take(&host.worker);
    if (snapshot) {
        float values[CONTROL_COUNT];
        size_t length = 0;
        FUZZ_WANT(fuzz_is_utf8(snapshot_messages(snapshot)));
        FUZZ_WANT(fuzz_is_utf8(kept_list_text(snapshot_kept(snapshot), &length)));
        for (int i = 0; i < CONTROL_COUNT; ++i) {
            values[i] = (float)fuzz_number(input);
        }
        const Settings settings = snapshot_settings(snapshot, values);
        FUZZ_WANT(selection_make(snapshot_library(snapshot), &settings, 120.0).groove);
        snapshot_free(snapshot);
    }
}

/* What was saved says nothing wrong of itself. */
static void check_again(void)
{
    KeptList* const list = kept_list_read(host.holds.session.plain, host.kept ? host.kept : "");
    size_t length = 0;
    FUZZ_WANT(list && !*kept_list_said(list));
    FUZZ_WANT(!host.kept || !strcmp(kept_list_text(list, &length), host.kept));
    kept_list_free(list);
}

int LLVMFuzzerTestOneInput(const uint8_t* const bytes, const size_t size)
{
    FuzzInput input = {bytes, size};
    FUZZ_WANT(worker_init(&host.worker, bundle, &schedule));
    snapshot_free(worker_take(&host.worker));
    for (int acts = 0; input.left && acts < KEPT_ACTS_MOST; ++acts) {
        act(&input);
    }
    worker_run(&host.worker);
    FUZZ_WANT(state_save(&host.worker, &host.uris, store, NULL) == LV2_STATE_SUCCESS);
    check_again();
    worker_clear(&host.worker);
    free(host.kept);
    host.kept = NULL;
    return 0;
}
