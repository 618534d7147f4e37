// SPDX-License-Identifier: ISC
/* test_state.c - sessions saved and restored by lilv as hosts do: what plays is
   the same to the byte, also on a machine without the user's bank. */
#include "../../plugin/bank/session.h"
#include "sessions.h"

enum { ROUNDS = 6 };

static void a_default_session_stores_nothing(void)
{
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    CHECK_INT(properties_of(keeper), 0);
    keeper_play(keeper, 1);
    CHECK_INT(properties_of(keeper), 0);
    keeper_close(keeper);
}

static void random_controls(Keeper* const keeper, uint32_t* const state)
{
    for (uint32_t i = 0; i < CONTROL_COUNT; ++i) {
        const ControlRow row = control_rows[i];
        const float most = row.most > 200.0f ? 100.0f : row.most; /* ids that are there */
        keeper->controls[i] = row.least + (float)below(state, (uint32_t)(most - row.least) + 1);
    }
    keeper->controls[CONTROL_ENABLED] = 1.0f;
    keeper->controls[CONTROL_CLOCK] = 0.0f; /* the own one plays from when it was started */
    keeper->controls[CONTROL_LEVEL] = 80.0f;
    keeper->controls[CONTROL_KIT] = 1.0f + (float)below(state, 2);
}

static void random_drafts(Keeper* const keeper, uint32_t* const state)
{
    char steps[17] = "o...............";
    for (int i = 1; i < 16; ++i) {
        steps[i] = ".goO"[below(state, 4)];
    }
    const uint32_t id = keeper->controls[CONTROL_FEET] > 0.0f
                            ? (uint32_t)keeper->controls[CONTROL_FEET]
                            : 1 + below(state, 200);
    keeper_draft(keeper, FL "feetDraft", feet_text(id, "Draft \xC3\xA9\\\\ \\\"quoted\\\"", steps));
    if (below(state, 2)) {
        keeper_draft(keeper, FL "turnaroundDraft",
                     TTL "<urn:test:t> a fl:Turnaround ; fl:id 5 ; fl:bars 1 ; fl:line [ fl:limb "
                         "fl:leftHand ; fl:voice fl:cowbell ; fl:grid 1 ; fl:steps \"..fd\" ] .");
    }
}

static void any_session_plays_the_same_to_the_byte_when_it_comes_back(void)
{
    static Played before;
    int heard = 0;
    for (uint32_t seed = 1; seed <= ROUNDS; ++seed) {
        uint32_t state = seed * 2654435761U + 1U;
        check_case("seed %u", seed);
        Keeper* const keeper = keeper_open(WORKER_THREAD);
        random_controls(keeper, &state);
        random_drafts(keeper, &state);
        keeper_play(keeper, 4);
        before = keeper->played;
        const char* const folder = folder_make();
        save_session(keeper, folder);
        keeper_close(keeper);
        Keeper* const again = keeper_open(seed % 2 ? WORKER_THREAD : NO_WORKER);
        load_session(again, folder);
        keeper_play(again, 4);
        heard += before.count > 10; /* chance may silence all limbs */
        CHECK(same_events(&again->played, &before));
        keeper_close(again);
        folder_remove(folder);
    }
    check_case("how many");
    CHECK(heard > ROUNDS / 2);
}

/* What it stores is the same again: nothing grows or is lost from save to save. */
static void saved_again_and_again_a_session_stays_the_same(void)
{
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    const char* const folder = folder_make();
    keeper->controls[CONTROL_FEET] = 190.0f;
    keeper_draft(keeper, FL "feetDraft", feet_text(190, "Draft", "O..o"));
    keeper_play(keeper, 1);
    LilvState* first = NULL;
    for (int i = 0; i < 4; ++i) {
        LilvState* const state = lilv_state_new_from_instance(
            host_plugin(keeper->host), keeper->instance, &keeper->map, NULL, NULL, NULL, NULL,
            get_port, keeper, LV2_STATE_IS_POD | LV2_STATE_IS_PORTABLE, keeper->list);
        CHECK_INT(lilv_state_get_num_properties(state), 2); /* a draft and a name */
        CHECK(!first || lilv_state_equals(first, state));
        lilv_state_restore(state, keeper->instance, set_port, keeper, 0, keeper->list);
        keeper_run(keeper, BLOCK);
        if (first) {
            lilv_state_free(state);
        } else {
            first = state;
        }
    }
    lilv_state_free(first);
    keeper_close(keeper);
    folder_remove(folder);
}

static void own_entries_come_back_on_a_machine_without_the_bank(void)
{
    static Played before;
    write_own(own_bank);
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    const char* const folder = folder_make();
    keeper->controls[CONTROL_GROOVE] = 1007.0f;
    keeper_play(keeper, 2);
    before = keeper->played;
    CHECK_TEXT(bar_steps(keeper, 0, KICK), "oooo....oooo....");
    CHECK_TEXT(bar_steps(keeper, 1, KICK), "o..o.oo.o..o.ooo");
    save_session(keeper, folder);
    keeper_close(keeper);
    forget_own();
    Keeper* const other = keeper_open(NO_WORKER);
    load_session(other, folder);
    keeper_play(other, 2);
    CHECK(same_events(&other->played, &before));
    check_case("and saved there without being played, they come back once more");
    save_session(other, folder);
    keeper_close(other);
    Keeper* const third = keeper_open(NO_WORKER);
    load_session(third, folder);
    keeper_look(third);
    keeper_run(third, BLOCK);
    CHECK_TEXT(keeper_told_text(third, FL "bankMessages"), "");
    third->controls[CONTROL_FEET] = 1023.0f;
    keeper_play(third, 2);
    CHECK_TEXT(bar_steps(third, 0, KICK), "o..o.oo.o..o.ooo");
    keeper_close(third);
    folder_remove(folder);
}

/* Its ids are in use here though no file has them. */
static void a_figure_saved_in_a_session_gets_no_id_of_the_sessions(void)
{
    write_own(own_bank);
    Keeper* const keeper = keeper_open(NO_WORKER);
    const char* const folder = folder_make();
    keeper->controls[CONTROL_FEET] = 1023.0f;
    keeper_play(keeper, 1);
    save_session(keeper, folder);
    keeper_close(keeper);
    forget_own();
    Keeper* const other = keeper_open(WORKER_THREAD);
    load_session(other, folder);
    keeper_saves(other, feet_text(0, "New", "oooo .... .... ...."), 1000);
    keeper_play(other, 1);
    CHECK_TEXT(bar_steps(other, 0, KICK), "o..o.oo.o..o.ooo");
    check_case("saved over the session's own, that is what plays");
    keeper_stop(other);
    keeper_saves(other, feet_text(1023, "Its own", "O..."), 1023);
    keeper_play(other, 1);
    CHECK_TEXT(bar_steps(other, 0, KICK), "o...o...o...o...");
    keeper_close(other);
    forget_own();
    folder_remove(folder);
}

/* The session sounds as it was saved; what else has that id is told of. */
static void where_the_bank_has_another_entry_the_sessions_plays(void)
{
    write_own(own_bank);
    Keeper* const keeper = keeper_open(NO_WORKER);
    const char* const folder = folder_make();
    keeper->controls[CONTROL_FEET] = 1023.0f;
    keeper_play(keeper, 1);
    save_session(keeper, folder);
    keeper_close(keeper);
    write_own(TTL "<urn:other> a fl:FeetFigure ; fl:id 1023 ; rdfs:label \"Other\" ;\n"
                  "  fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 1 ; fl:steps "
                  "\"oooo\" ] .\n");
    Keeper* const other = keeper_open(NO_WORKER);
    load_session(other, folder);
    keeper_play(other, 1);
    CHECK_TEXT(bar_steps(other, 0, KICK), "o..o.oo.o..o.ooo");
    keeper_look(other);
    keeper_run(other, BLOCK);
    const char* const told = keeper_told_text(other, FL "bankMessages");
    CHECK(told && strstr(told, "1023 is already that of my:salt-gallop"));
    keeper_close(other);
    forget_own();
    folder_remove(folder);
}

/* ---- Names that no longer fit */

#define NAMES(uri, label) TTL "<" uri "> a fl:FeetFigure ; fl:id 190 ; rdfs:label \"" label "\" .\n"

/* Whether a session is told of that had such a name, and once more after it was saved with a
   figure picked. */
static void check_told(const char* const names, const uint32_t picked, const char* const first,
                       const char* const then)
{
    Session session;
    SessionTexts texts = {.of = {NULL}};
    const Used used = {.ids = {[ENTRY_FEET] = picked}, .settled = true};
    CHECK(session_init(&session, (BankSources){.factory = BUNDLE "/bank"}));
    for (int i = 0; i < TEXTS; ++i) {
        texts.of[i] = strdup(i == TEXT_NAMES ? names : "");
    }
    for (int i = 0; i < 2; ++i) {
        const char* const want = i ? then : first;
        CHECK(session_restore(&session, &texts));
        Snapshot* const snapshot = session_snapshot(&session);
        if (!CHECK(*want ? strstr(snapshot_messages(snapshot), want) != NULL
                         : !*snapshot_messages(snapshot))) {
            printf("# told: %s\n", snapshot_messages(snapshot));
        }
        snapshot_free(snapshot);
        CHECK(session_save(&session, &used, &texts));
    }
    session_texts_clear(&texts);
    session_clear(&session);
}

static void an_id_that_is_another_entry_now_is_told(void)
{
    Bank* const bank = bank_open((BankSources){.factory = BUNDLE "/bank"});
    const EntryInfo* const info = bank_info(bank, ENTRY_FEET, 190);
    char told[256];
    snprintf(told, sizeof told, "feet figure 190 \"Once\" of this session is \"%s\"", info->label);
    check_case("until another is picked");
    check_told(NAMES("urn:fourlimb:feet:once", "Once"), 190, told, told);
    check_told(NAMES("urn:fourlimb:feet:once", "Once"), 191, told, "");
    check_case("by name alone, once");
    char names[512];
    snprintf(names, sizeof names, TTL "<%s> a fl:FeetFigure ; fl:id 190 ; rdfs:label \"Once\" .\n",
             info->uri);
    check_told(names, 190, told, "");
    check_case("the same is no news");
    snprintf(names, sizeof names, TTL "<%s> a fl:FeetFigure ; fl:id 190 ; rdfs:label \"%s\" .\n",
             info->uri, info->label);
    check_told(names, 190, "", "");
    bank_free(bank);
}

int main(void)
{
    char home[512];
    snprintf(home, sizeof home, "%s", fresh_home());
    RUN(a_default_session_stores_nothing);
    RUN(any_session_plays_the_same_to_the_byte_when_it_comes_back);
    RUN(saved_again_and_again_a_session_stays_the_same);
    RUN(own_entries_come_back_on_a_machine_without_the_bank);
    RUN(a_figure_saved_in_a_session_gets_no_id_of_the_sessions);
    RUN(where_the_bank_has_another_entry_the_sessions_plays);
    RUN(an_id_that_is_another_entry_now_is_told);
    remove_home(home);
    return tests_end();
}
