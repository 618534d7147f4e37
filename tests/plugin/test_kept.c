// SPDX-License-Identifier: ISC
/* test_kept.c - what an instance keeps, through LV2: said and told, with the session to another
   machine and back, damaged, foreign, while it plays. */
#include "sessions.h"

static void say_kept(Keeper* const keeper, const char* const property, const int32_t slot,
                     const char* const name)
{
    LV2_Atom_Forge* const forge = &keeper->forge;
    LV2_Atom_Forge_Frame object, tuple;
    lv2_atom_forge_frame_time(forge, 0);
    lv2_atom_forge_object(forge, &object, 0, urid(keeper, FL "Message"));
    lv2_atom_forge_key(forge, urid(keeper, property));
    lv2_atom_forge_tuple(forge, &tuple);
    lv2_atom_forge_int(forge, slot);
    lv2_atom_forge_string(forge, name, (uint32_t)strlen(name));
    lv2_atom_forge_pop(forge, &tuple);
    lv2_atom_forge_pop(forge, &object);
}

/* Says it, and waits until it is told. */
static void change_kept(Keeper* const keeper, const char* const property, const int32_t slot,
                        const char* const name)
{
    say_kept(keeper, property, slot, name);
    CHECK(keeper_await(keeper, FL "keptSelections"));
}

/* The text of the piece that was told last. */
static const char* told_piece(Keeper* const keeper)
{
    const LV2_Atom* const value = keeper_told(keeper, FL "keptSelections");
    const LV2_Atom* text = NULL;
    if (value && value->type == urid(keeper, LV2_ATOM__Tuple)) { /* its second of two */
        const LV2_Atom* const numbers = value + 1;
        const char* const bytes = (const char*)numbers;
        text =
            (const LV2_Atom*)(const void*)(bytes + lv2_atom_pad_size(lv2_atom_total_size(numbers)));
    }
    return text && text->type == urid(keeper, LV2_ATOM__String) ? (const char*)(text + 1) : "";
}

static void refused(Keeper* const keeper, const char* const property, const int32_t slot,
                    const char* const why)
{
    say_kept(keeper, property, slot, "");
    CHECK(keeper_await(keeper, FL "refused"));
    const char* const told = keeper_told_text(keeper, FL "refused");
    if (!CHECK(told && strstr(told, why))) {
        printf("# told: %s\n", told ? told : "nothing");
    }
}

/* Kicks of two bars, where the ports pick something else. */
static void check_plays(Keeper* const keeper, const float slot, const char* const first,
                        const char* const second)
{
    keeper->controls[CONTROL_KEPT] = slot;
    keeper->controls[CONTROL_GROOVE] = 1.0f;
    keeper->controls[CONTROL_FEET] = 12.0f;
    keeper_play(keeper, 3);
    CHECK_TEXT(bar_steps(keeper, 0, KICK), first);
    CHECK_TEXT(bar_steps(keeper, 1, KICK), second);
    CHECK_INT(keeper->played.wrong, 0);
}

static void what_is_kept_is_told_and_what_can_not_be_is_refused(void)
{
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    keeper->controls[CONTROL_FEET] = 50.0f;
    change_kept(keeper, FL "keep", 0, "Rolling");
    CHECK(strstr(told_piece(keeper), "\"Rolling\"") && strstr(told_piece(keeper), "fl:slot 1"));
    change_kept(keeper, FL "nameKept", 1, "Running");
    CHECK(strstr(told_piece(keeper), "\"Running\"") && !strstr(told_piece(keeper), "Rolling"));
    refused(keeper, FL "nameKept", 5, "nothing is kept in slot 5");
    refused(keeper, FL "dropKept", 5, "nothing is kept in slot 5");
    refused(keeper, FL "useKept", 5, "nothing is kept in slot 5");
    refused(keeper, FL "keep", 17, "expected a tuple of its slot and name");
    refused(keeper, FL "dropKept", 0, "expected a tuple of its slot and name");
    change_kept(keeper, FL "dropKept", 1, "");
    CHECK_TEXT(told_piece(keeper), "");
    change_kept(keeper, FL "takeBackKept", 0, "");
    CHECK(strstr(told_piece(keeper), "\"Running\""));
    keeper_set(keeper, FL "keep", "a text");
    CHECK(keeper_await(keeper, FL "refused"));
    keeper_close(keeper);
}

static void whoever_looks_on_is_told_what_is_kept(void)
{
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    change_kept(keeper, FL "keep", 3, "There");
    for (int i = 0; i < 9; ++i) {
        keeper_run(keeper, 64);
        CHECK(!keeper_told(keeper, FL "keptSelections")); /* once, and not again by itself */
    }
    keeper_look(keeper);
    CHECK(keeper_await(keeper, FL "keptSelections"));
    CHECK(strstr(told_piece(keeper), "\"There\""));
    keeper_close(keeper);
}

static void without_a_worker_nothing_is_kept_and_that_is_told(void)
{
    Keeper* const keeper = keeper_open(NO_WORKER);
    refused(keeper, FL "keep", 0, "this host has no worker");
    keeper_close(keeper);
}

/* Own groove, own feet, edited feet; saved by lilv as hosts do, and brought to a machine
   without the user's bank. */
static void a_session_takes_what_is_kept_to_another_machine(void)
{
    const char* const folder = folder_make();
    write_own(own_bank);
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    keeper->controls[CONTROL_GROOVE] = 1007.0f;
    keeper_run(keeper, 64);
    change_kept(keeper, FL "keep", 2, "Ostrel");
    keeper_draft(keeper, FL "feetDraft", feet_text(1024, "Edited", "o..o o..o o..o o..o"));
    change_kept(keeper, FL "keep", 16, "Ostrel, edited");
    keeper_draft(keeper, FL "feetDraft", "");
    check_plays(keeper, 2.0f, "oooo....oooo....", "o..o.oo.o..o.ooo");
    save_session(keeper, folder);
    keeper_close(keeper);
    forget_own();
    Keeper* const elsewhere = keeper_open(WORKER_THREAD);
    load_session(elsewhere, folder);
    check_plays(elsewhere, 2.0f, "oooo....oooo....", "o..o.oo.o..o.ooo");
    check_plays(elsewhere, 16.0f, "o..oo..oo..oo..o", "o..o.oo.o..o.ooo");
    keeper_close(elsewhere);
    folder_remove(folder);
}

/* ---- As a host hands it back */

typedef struct {
    uint32_t key;
    uint32_t type;
    size_t size;
    const char* value;
} OneValue;

static const void* retrieve_one(const LV2_State_Handle handle, const uint32_t key,
                                size_t* const size, uint32_t* const type, uint32_t* const flags)
{
    const OneValue* const value = (const OneValue*)handle;
    *size = value->key == key ? value->size : 0;
    *type = value->type;
    *flags = LV2_STATE_IS_POD | LV2_STATE_IS_PORTABLE;
    return value->key == key ? value->value : NULL;
}

static const LV2_State_Interface* kept_state(const Keeper* const keeper)
{
    return (const LV2_State_Interface*)lilv_instance_get_extension_data(keeper->instance,
                                                                        LV2_STATE__interface);
}

static void restore_one(Keeper* const keeper, OneValue* const value)
{
    CHECK_INT(kept_state(keeper)->restore(lilv_instance_get_handle(keeper->instance), retrieve_one,
                                          value, 0, NULL),
              LV2_STATE_SUCCESS);
}

static const char one_kept[] =
    TTL "<urn:fourlimb:mine:kept-4> a fl:KeptSelection ; fl:slot 4 ; rdfs:label \"Four\" ;\n"
        "  fl:setting [ fl:symbol \"feet\" ; fl:value 50.0 ] .\n";

static void what_is_no_text_or_too_long_is_told(void)
{
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    char* const endless = malloc(5 << 20);
    memset(endless, '#', 5 << 20);
    const LV2_URID key = urid(keeper, FL "keptSelections");
    OneValue values[] = {{key, urid(keeper, LV2_ATOM__Int), 4, "\1\2\3\4"},
                         {key, urid(keeper, LV2_ATOM__Tuple), 8, "\0\0\0\0\0\0\0\0"},
                         {key, urid(keeper, LV2_ATOM__String), 5 << 20, endless}};
    for (size_t i = 0; i < sizeof values / sizeof *values; ++i) {
        restore_one(keeper, &values[i]);
        keeper_look(keeper);
        keeper_run(keeper, 64);
        const char* const told = keeper_told_text(keeper, FL "bankMessages");
        check_case("value %zu", i);
        CHECK(told && strstr(told, "what it says is kept holds no selection"));
    }
    OneValue good = {key, urid(keeper, LV2_ATOM__String), sizeof one_kept, one_kept};
    restore_one(keeper, &good);
    keeper_look(keeper);
    keeper_run(keeper, 64);
    CHECK_TEXT(keeper_told_text(keeper, FL "bankMessages"), "");
    free(endless);
    keeper_close(keeper);
}

typedef struct {
    Keeper* keeper;
    OneValue full, empty;
    atomic_bool ends;
} KeptRestorer;

static void* restore_in_turn(void* const handle)
{
    KeptRestorer* const restorer = (KeptRestorer*)handle;
    while (!atomic_load(&restorer->ends)) {
        restore_one(restorer->keeper, &restorer->full);
        restore_one(restorer->keeper, &restorer->empty);
    }
    return NULL;
}

/* Slots come and go under what plays them; a worker keeps and drops all the while. */
static void restoring_keeping_and_playing_may_meet(void)
{
    pthread_t thread;
    KeptRestorer restorer = {.keeper = keeper_open(WORKER_THREAD)};
    Keeper* const keeper = restorer.keeper;
    const LV2_URID key = urid(keeper, FL "keptSelections");
    restorer.full = (OneValue){key, urid(keeper, LV2_ATOM__String), sizeof one_kept, one_kept};
    restorer.empty = (OneValue){key, urid(keeper, LV2_ATOM__String), 1, ""};
    keeper->controls[CONTROL_CHANGE_AT] = 0.0f;
    keeper_transport(keeper, 1.0f);
    pthread_create(&thread, NULL, restore_in_turn, &restorer);
    for (int i = 0; i < 3000; ++i) {
        keeper->controls[CONTROL_KEPT] = (float)(i / 7 % 6);
        if (i % 5 == 0) {
            say_kept(keeper, i % 2 ? FL "keep" : FL "dropKept", 1 + i % 4, "x");
        }
        keeper_run(keeper, 64);
    }
    atomic_store(&restorer.ends, true);
    pthread_join(thread, NULL);
    keeper_stop(keeper);
    CHECK_INT(sounding(&keeper->played), 0);
    CHECK_INT(keeper->played.wrong, 0);
    CHECK(keeper->played.count > 50);
    keeper_close(keeper);
}

int main(void)
{
    char home[512];
    snprintf(home, sizeof home, "%s", fresh_home());
    RUN(what_is_kept_is_told_and_what_can_not_be_is_refused);
    RUN(whoever_looks_on_is_told_what_is_kept);
    RUN(without_a_worker_nothing_is_kept_and_that_is_told);
    RUN(a_session_takes_what_is_kept_to_another_machine);
    RUN(what_is_no_text_or_too_long_is_told);
    RUN(restoring_keeping_and_playing_may_meet);
    remove_home(home);
    return tests_end();
}
