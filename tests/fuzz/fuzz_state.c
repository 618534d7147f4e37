// SPDX-License-Identifier: ISC
/* fuzz_state.c - whatever a host hands back as an instance's state: what is told of it is UTF-8,
   what is kept of it comes back as it was kept, and drafts stay as they came.  A byte that is 0xFF ends one value and begins the next. */
#include "../../plugin/lv2/state.h"
#include "../../ui/command/uri_table.h"
#include "fuzz.h"

#include <stdlib.h>
#include <string.h>

enum { KEYS = TEXTS };

typedef struct {
    LV2_URID type;
    size_t size;
    char* bytes; /* owned, as long as it is; NULL: there is none */
} Value;

static UriTable* table;
static Uris uris;
static Worker kept; /* holds the bank */
static LV2_Worker_Schedule no_schedule;

static const char bundle[] = FOURLIMB_BUILD "/lv2/fourlimb.lv2";

int LLVMFuzzerInitialize(int* const count, char*** const arguments)
{
    (void)count;
    (void)arguments;
    fuzz_alone();
    table = uri_table_new();
    LV2_URID_Map map = {table, uri_table_map};
    uris = uris_map(&map);
    FUZZ_WANT(worker_init(&kept, bundle, &no_schedule));
    return 0;
}

static LV2_URID key_of(const int key)
{
    const LV2_URID others[] = {[TEXT_OWN - FIGURE_KINDS] = uris.fl_ownEntries,
                               [TEXT_UNREAD - FIGURE_KINDS] = uris.fl_unreadEntries,
                               [TEXT_NAMES - FIGURE_KINDS] = uris.fl_entryNames,
                               [TEXT_KEPT - FIGURE_KINDS] = uris.fl_keptSelections,
                               [TEXT_KEPT_UNREAD - FIGURE_KINDS] = uris.fl_unreadKept};
    return key < FIGURE_KINDS ? uris.fl_drafts[key] : others[key - FIGURE_KINDS];
}

static int which(const LV2_URID urid)
{
    int key = 0;
    while (key < KEYS && key_of(key) != urid) {
        ++key;
    }
    FUZZ_WANT(key < KEYS);
    return key;
}

static void put(Value* const value, const void* const bytes, const size_t size, const LV2_URID type)
{
    free(value->bytes);
    *value = (Value){type, size, malloc(size + !size)};
    memcpy(value->bytes, bytes, size);
}

static LV2_State_Status store(const LV2_State_Handle handle, const uint32_t key,
                              const void* const bytes, const size_t size, const uint32_t type,
                              const uint32_t flags)
{
    (void)flags;
    FUZZ_WANT(size > 1 && !((const char*)bytes)[size - 1] &&
              strlen((const char*)bytes) == size - 1);
    put(&((Value*)handle)[which(key)], bytes, size, type);
    return LV2_STATE_SUCCESS;
}

static const void* retrieve(const LV2_State_Handle handle, const uint32_t key, size_t* const size,
                            uint32_t* const type, uint32_t* const flags)
{
    const Value* const value = &((const Value*)handle)[which(key)];
    *size = value->size;
    *type = value->type;
    *flags = 0;
    return value->bytes;
}

static void clear(Value values[KEYS])
{
    for (int i = 0; i < KEYS; ++i) {
        free(values[i].bytes);
        values[i] = (Value){0, 0, NULL};
    }
}

static void cut(FuzzInput* const input, Value values[KEYS])
{
    const uint32_t lies = fuzz_byte(input);
    for (int i = 0; i < KEYS && input->left; ++i) {
        const uint8_t* const end = memchr(input->bytes, 0xFF, input->left);
        size_t size = end ? (size_t)(end - input->bytes) : input->left;
        const uint8_t* const bytes = fuzz_take(input, &size);
        fuzz_byte(input);
        if (size) {
            put(&values[i], bytes, size, lies & 1U << i ? uris.atom_Tuple : uris.atom_String);
        }
    }
}

/* A new instance with the state; what it tells, and what it keeps. */
static void pass(Value from[KEYS], Value to[KEYS])
{
    Worker worker;
    FUZZ_WANT(worker_init(&worker, bundle, &no_schedule));
    FUZZ_WANT(state_restore(&worker, &uris, retrieve, from) == LV2_STATE_SUCCESS);
    Snapshot* const snapshot = worker_take(&worker);
    FUZZ_WANT(fuzz_is_utf8(snapshot_messages(snapshot)));
    FUZZ_WANT(state_save(&worker, &uris, store, to) == LV2_STATE_SUCCESS);
    snapshot_free(snapshot);
    worker_clear(&worker);
}

static bool is_same(const Value* const a, const Value* const b)
{
    return a->size == b->size && (!a->size || !memcmp(a->bytes, b->bytes, a->size));
}

int LLVMFuzzerTestOneInput(const uint8_t* const bytes, const size_t size)
{
    FuzzInput input = {bytes, size};
    Value given[KEYS] = {{0}}, first[KEYS] = {{0}}, second[KEYS] = {{0}}, third[KEYS] = {{0}};
    cut(&input, given);
    pass(given, first);
    pass(first, second); /* what couldn't be read is tried once more */
    pass(second, third);
    for (int i = 0; i < KEYS; ++i) {
        FUZZ_WANT(is_same(&second[i], &third[i]));
    }
    for (int i = 0; i < FIGURE_KINDS; ++i) { /* drafts stay as they came, be they good or bad */
        const size_t length =
            given[i].type == uris.atom_String ? strnlen(given[i].bytes, given[i].size) : 0;
        FUZZ_WANT(length ? first[i].size == length + 1 &&
                               !memcmp(first[i].bytes, given[i].bytes, length)
                         : !first[i].bytes);
    }
    clear(given);
    clear(first);
    clear(second);
    clear(third);
    return 0;
}
