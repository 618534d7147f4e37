// SPDX-License-Identifier: ISC
/* test_state_harm.c - sessions with something missing, unreadable or damaged, and
   saving while everything else goes on: no harm is done, and what is whole beside
   it is kept. */
#include "sessions.h"

enum { MUTATIONS = 80, ROWS_MOST = 8 };

/* A state as a host's table, to be damaged. */
typedef struct {
    uint32_t key;
    uint32_t type;
    size_t size;
    char* value;
} StateRow;

typedef struct {
    int count;
    StateRow rows[ROWS_MOST];
} StateTable;

static LV2_State_Status store_row(const LV2_State_Handle handle, const uint32_t key,
                                  const void* const value, const size_t size, const uint32_t type,
                                  const uint32_t flags)
{
    StateTable* const table = (StateTable*)handle;
    CHECK_INT(flags, LV2_STATE_IS_POD | LV2_STATE_IS_PORTABLE);
    StateRow* const row = &table->rows[table->count++];
    *row = (StateRow){key, type, size, malloc(size)};
    memcpy(row->value, value, size);
    return LV2_STATE_SUCCESS;
}

static const void* retrieve_row(const LV2_State_Handle handle, const uint32_t key,
                                size_t* const size, uint32_t* const type, uint32_t* const flags)
{
    const StateTable* const table = (const StateTable*)handle;
    for (int i = 0; i < table->count; ++i) {
        if (table->rows[i].key == key) {
            *size = table->rows[i].size;
            *type = table->rows[i].type;
            *flags = LV2_STATE_IS_POD | LV2_STATE_IS_PORTABLE;
            return table->rows[i].value;
        }
    }
    return NULL;
}

static const LV2_State_Interface* state_of(const Keeper* const keeper)
{
    return (const LV2_State_Interface*)lilv_instance_get_extension_data(keeper->instance,
                                                                        LV2_STATE__interface);
}

static void save_table(Keeper* const keeper, StateTable* const table)
{
    table->count = 0;
    CHECK_INT(state_of(keeper)->save(lilv_instance_get_handle(keeper->instance), store_row, table,
                                     LV2_STATE_IS_POD, NULL),
              LV2_STATE_SUCCESS);
}

static void restore_table(Keeper* const keeper, StateTable* const table)
{
    CHECK_INT(state_of(keeper)->restore(lilv_instance_get_handle(keeper->instance), retrieve_row,
                                        table, 0, NULL),
              LV2_STATE_SUCCESS);
}

static void clear_table(StateTable* const table)
{
    for (int i = 0; i < table->count; ++i) {
        free(table->rows[i].value);
    }
    table->count = 0;
}

static StateRow* row_of(Keeper* const keeper, StateTable* const table, const char* const uri)
{
    for (int i = 0; i < table->count; ++i) {
        if (table->rows[i].key == urid(keeper, uri)) {
            return &table->rows[i];
        }
    }
    return NULL;
}

static LV2_State_Status store_none(const LV2_State_Handle handle, const uint32_t key,
                                   const void* const value, const size_t size, const uint32_t type,
                                   const uint32_t flags)
{
    (void)handle;
    (void)key;
    (void)value;
    (void)size;
    (void)type;
    (void)flags;
    return LV2_STATE_SUCCESS;
}

static void a_session_that_names_a_missing_figure_says_so_and_keeps_the_name(void)
{
    StateTable table = {.count = 0};
    write_own(own_bank);
    Keeper* const keeper = keeper_open(NO_WORKER);
    keeper->controls[CONTROL_FEET] = 1023.0f;
    keeper_play(keeper, 1);
    save_table(keeper, &table);
    keeper_close(keeper);
    forget_own();
    Keeper* const other = keeper_open(NO_WORKER);
    StateRow* const own = row_of(other, &table, FL "ownEntries");
    if (CHECK(own)) {
        own->key = 0; /* as if it had been lost */
    }
    for (int i = 0; i < 2; ++i) {
        check_case("restored %d times", i + 1);
        restore_table(other, &table);
        other->controls[CONTROL_FEET] = 1023.0f;
        keeper_run(other, BLOCK);
        CHECK_TEXT(keeper_told_text(other, FL "bankMessages"),
                   "feet figure 1023 \"Salt Gallop\" is not in the bank; the groove's own feet "
                   "play instead\n");
        clear_table(&table);
        save_table(other, &table);
        CHECK(row_of(other, &table, FL "entryNames"));
    }
    check_case("named no more");
    other->controls[CONTROL_FEET] = 1.0f;
    keeper_run(other, BLOCK);
    clear_table(&table);
    save_table(other, &table);
    const StateRow* const names = row_of(other, &table, FL "entryNames");
    CHECK(names && !strstr(names->value, "1023"));
    clear_table(&table);
    keeper_close(other);
}

static void a_draft_that_cannot_be_read_is_kept_for_the_next_save(void)
{
    static char text[] = TTL "<urn:test:f> a fl:FeetFigure ; fl:id 7 ; fl:wheels 3 ; fl:line [ "
                             "fl:limb fl:thirdFoot ; fl:grid 4 ; fl:steps \"O\" ] .";
    Keeper* const keeper = keeper_open(NO_WORKER);
    StateTable table = {.count = 1};
    table.rows[0] = (StateRow){urid(keeper, FL "feetDraft"), urid(keeper, LV2_ATOM__String),
                               sizeof text, strdup(text)};
    restore_table(keeper, &table);
    keeper_run(keeper, BLOCK);
    const char* const told = keeper_told_text(keeper, FL "bankMessages");
    CHECK(told && strstr(told, "is kept") && strstr(told, "thirdFoot"));
    clear_table(&table);
    save_table(keeper, &table);
    const StateRow* const row = row_of(keeper, &table, FL "feetDraft");
    CHECK_TEXT(row ? row->value : NULL, text);
    clear_table(&table);
    keeper_close(keeper);
}

static void entries_that_cannot_be_read_are_kept_for_the_next_save(void)
{
    char text[2048];
    snprintf(text, sizeof text,
             "%s my:newer a fl:FeetFigure ; fl:id 1050 ; rdfs:label \"New\" ; "
             "fl:line [ fl:limb fl:tail ] .\n",
             own_bank);
    Keeper* const keeper = keeper_open(NO_WORKER);
    StateTable table = {.count = 1};
    table.rows[0] = (StateRow){urid(keeper, FL "ownEntries"), urid(keeper, LV2_ATOM__String),
                               strlen(text) + 1, strdup(text)};
    size_t size = 0;
    for (int i = 0; i < 3; ++i) {
        check_case("time %d", i + 1);
        restore_table(keeper, &table);
        keeper->controls[CONTROL_FEET] = 1023.0f;
        keeper_play(keeper, 1);
        CHECK_TEXT(bar_steps(keeper, 0, KICK), "o..o.oo.o..o.ooo");
        clear_table(&table);
        save_table(keeper, &table);
        const StateRow* const row = row_of(keeper, &table, FL "unreadEntries");
        CHECK_TEXT(row ? row->value : NULL, text);
        const StateRow* const own = row_of(keeper, &table, FL "ownEntries");
        CHECK(own && (!size || own->size == size));
        size = own ? own->size : 0;
    }
    clear_table(&table);
    keeper_close(keeper);
}

/* Found by tests/fuzz: the newer text was lost where an older one was kept. */
static void two_texts_that_cannot_be_read_are_both_kept(void)
{
    static const char older[] = "an older text that is no Turtle";
    static const char newer[] = "a newer text that is no Turtle";
    Keeper* const keeper = keeper_open(NO_WORKER);
    const LV2_URID type = urid(keeper, LV2_ATOM__String);
    StateTable table = {.count = 2};
    table.rows[0] = (StateRow){urid(keeper, FL "ownEntries"), type, sizeof newer, strdup(newer)};
    table.rows[1] = (StateRow){urid(keeper, FL "unreadEntries"), type, sizeof older, strdup(older)};
    for (int i = 0; i < 3; ++i) {
        check_case("time %d", i + 1);
        restore_table(keeper, &table);
        clear_table(&table);
        save_table(keeper, &table);
        const StateRow* const row = row_of(keeper, &table, FL "unreadEntries");
        CHECK(row && strstr(row->value, older) && strstr(row->value, newer));
        CHECK_INT(row ? row->size : 0, sizeof older + sizeof newer);
    }
    clear_table(&table);
    keeper_close(keeper);
}

static void restoring_nothing_drops_what_was(void)
{
    StateTable table = {.count = 0};
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    keeper_draft(keeper, FL "feetDraft", feet_text(7, "", "O..."));
    restore_table(keeper, &table);
    keeper_run(keeper, BLOCK);
    CHECK_TEXT(keeper_told_text(keeper, FL "feetDraft"), "");
    save_table(keeper, &table);
    CHECK_INT(table.count, 0);
    keeper_close(keeper);
}

static void damage(StateTable* const table, uint32_t* const state, Keeper* const keeper)
{
    static const char* const types[] = {LV2_ATOM__String, LV2_ATOM__Int, LV2_ATOM__Path,
                                        LV2_ATOM__Chunk};
    StateRow* const row = &table->rows[below(state, (uint32_t)table->count)];
    switch (below(state, 6)) {
    case 0:
        row->size = below(state, (uint32_t)row->size + 1);
        break;
    case 1:
        row->type = urid(keeper, types[below(state, 4)]);
        break;
    case 2:
        row->key = table->rows[below(state, (uint32_t)table->count)].key;
        break;
    default:
        for (uint32_t i = 1 + below(state, 8); row->size && i > 0; --i) {
            row->value[below(state, (uint32_t)row->size)] = (char)below(state, 256);
        }
    }
}

static void copy_table(StateTable* const to, const StateTable* const from)
{
    to->count = from->count;
    for (int i = 0; i < from->count; ++i) {
        to->rows[i] = from->rows[i];
        to->rows[i].value = malloc(from->rows[i].size + 1);
        memcpy(to->rows[i].value, from->rows[i].value, from->rows[i].size);
    }
}

/* Truncated, mutated, of other types, under other keys. */
static void damaged_states_do_no_harm_and_what_is_whole_is_kept(void)
{
    StateTable good = {.count = 0};
    write_own(own_bank);
    Keeper* const keeper = keeper_open(NO_WORKER);
    Keeper* const drafter = keeper_open(WORKER_THREAD);
    keeper_draft(drafter, FL "feetDraft", feet_text(1023, "Draft", "O... .... O... ...."));
    keeper_draft(drafter, FL "turnaroundDraft",
                 TTL "<urn:test:t> a fl:Turnaround ; fl:id 5 ; fl:bars 1 ; fl:line [ fl:limb "
                     "fl:leftHand ; fl:voice fl:cowbell ; fl:grid 1 ; fl:steps \"..oo\" ] .");
    drafter->controls[CONTROL_GROOVE] = 1007.0f;
    keeper_play(drafter, 1);
    save_table(drafter, &good);
    keeper_close(drafter);
    forget_own();
    CHECK_INT(good.count, 4);
    int kept = 0, hurt = 0;
    for (uint32_t seed = 1; seed <= MUTATIONS; ++seed) {
        uint32_t state = seed * 2654435761U + 1U;
        StateTable table, after = {.count = 0};
        copy_table(&table, &good);
        for (uint32_t i = 1 + below(&state, 3); i > 0; --i) {
            damage(&table, &state, keeper);
        }
        check_case("seed %u", seed);
        restore_table(keeper, &table);
        keeper_run(keeper, 64);
        save_table(keeper, &after);
        const StateRow* const before = row_of(keeper, &table, FL "turnaroundDraft");
        const StateRow* const whole = row_of(keeper, &good, FL "turnaroundDraft");
        if (before && before->size == whole->size && before->type == whole->type &&
            !memcmp(before->value, whole->value, whole->size)) {
            const StateRow* const row = row_of(keeper, &after, FL "turnaroundDraft");
            CHECK_TEXT(row ? row->value : NULL, whole->value);
            ++kept;
        } else {
            ++hurt;
        }
        clear_table(&after);
        clear_table(&table);
    }
    check_case("how many");
    CHECK(kept > MUTATIONS / 4);
    CHECK(hurt > MUTATIONS / 10);
    keeper_play(keeper, 1);
    CHECK_INT(keeper->played.wrong, 0);
    clear_table(&good);
    keeper_close(keeper);
}

/* Saving, restoring, working and running at once, as state:threadSafeRestore and
   the threading class of save() allow. */
typedef struct {
    Keeper* keeper;
    StateTable table;
    atomic_bool ends;
} Restorer;

static void* restore_and_save(void* const handle)
{
    Restorer* const restorer = (Restorer*)handle;
    Keeper* const keeper = restorer->keeper;
    while (!atomic_load(&restorer->ends)) {
        state_of(keeper)->restore(lilv_instance_get_handle(keeper->instance), retrieve_row,
                                  &restorer->table, 0, NULL);
        state_of(keeper)->save(lilv_instance_get_handle(keeper->instance), store_none, NULL, 0,
                               NULL);
    }
    return NULL;
}

static void run_work_save_and_restore_may_meet(void)
{
    pthread_t thread;
    Restorer restorer = {.keeper = keeper_open(WORKER_THREAD)};
    Keeper* const keeper = restorer.keeper;
    keeper_draft(keeper, FL "feetDraft", feet_text(7, "", "O..."));
    save_table(keeper, &restorer.table);
    keeper->controls[CONTROL_FEET] = 7.0f;
    keeper_transport(keeper, 1.0f);
    pthread_create(&thread, NULL, restore_and_save, &restorer);
    for (int i = 0; i < 3000; ++i) {
        if (i % 3 == 0) {
            keeper_set(keeper, FL "feetDraft", i % 2 ? "" : feet_text(7, "", "OOOO"));
        }
        keeper_run(keeper, 64);
    }
    atomic_store(&restorer.ends, true);
    pthread_join(thread, NULL);
    keeper_stop(keeper);
    CHECK_INT(sounding(&keeper->played), 0);
    CHECK_INT(keeper->played.wrong, 0);
    CHECK(keeper->played.count > 50);
    clear_table(&restorer.table);
    keeper_close(keeper);
}

int main(void)
{
    char home[512];
    snprintf(home, sizeof home, "%s", fresh_home());
    RUN(a_session_that_names_a_missing_figure_says_so_and_keeps_the_name);
    RUN(a_draft_that_cannot_be_read_is_kept_for_the_next_save);
    RUN(entries_that_cannot_be_read_are_kept_for_the_next_save);
    RUN(two_texts_that_cannot_be_read_are_both_kept);
    RUN(restoring_nothing_drops_what_was);
    RUN(damaged_states_do_no_harm_and_what_is_whole_is_kept);
    RUN(run_work_save_and_restore_may_meet);
    remove_home(home);
    return tests_end();
}
