// SPDX-License-Identifier: ISC
/* test_drafts.c - drafts sent by patch:Set play in place of their figure, through
   a worker of any speed, and figures are saved into the user's bank. */
#include "keeper.h"

/* The default groove's feet, which no control names. */
static uint32_t own_feet(void)
{
    Bank* const bank = bank_open((BankSources){.factory = BUNDLE "/bank"});
    const uint32_t id = bank_library(bank)->grooves[0].parts[0].feet->id;
    bank_free(bank);
    return id;
}

static void a_draft_plays_wherever_its_figure_would(void)
{
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    keeper_draft(keeper, FL "feetDraft", feet_text(own_feet(), "", "O... ..o. ...o ...."));
    keeper_play(keeper, 2);
    CHECK_TEXT(bar_steps(keeper, 0, KICK), "o.....o....o....");
    CHECK_INT(keeper->played.wrong, 0);
    check_case("picked by its control too");
    keeper->controls[CONTROL_FEET] = (float)own_feet();
    keeper_play(keeper, 2);
    CHECK_TEXT(bar_steps(keeper, 1, KICK), "o.....o....o....");
    check_case("another figure is another");
    keeper->controls[CONTROL_FEET] = 1.0f; /* "O . O ." in quarters */
    keeper_play(keeper, 1);
    CHECK_TEXT(bar_steps(keeper, 0, KICK), "o.......o.......");
    keeper_close(keeper);
}

static void a_dropped_draft_leaves_what_was_before(void)
{
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    static Played before;
    keeper_play(keeper, 4);
    before = keeper->played;
    keeper_draft(keeper, FL "feetDraft", feet_text(own_feet(), "", "OOOO OOOO OOOO OOOO"));
    keeper_play(keeper, 4);
    CHECK(!same_events(&keeper->played, &before));
    keeper_draft(keeper, FL "feetDraft", "");
    CHECK_TEXT(keeper_told_text(keeper, FL "feetDraft"), "");
    keeper_play(keeper, 4);
    CHECK(same_events(&keeper->played, &before));
    keeper_close(keeper);
}

static void a_turnaround_and_hands_may_be_drafted_beside_feet(void)
{
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    keeper->controls[CONTROL_PHRASE_BARS] = 2.0f;
    keeper->controls[CONTROL_TURNAROUND] = 5.0f;
    keeper->controls[CONTROL_HANDS] = 40.0f;
    keeper_draft(keeper, FL "feetDraft", feet_text(own_feet(), "", "O... .... .... ...."));
    keeper_draft(keeper, FL "turnaroundDraft",
                 TTL "<urn:test:t> a fl:Turnaround ; fl:id 5 ; fl:bars 1 ; fl:line [ fl:limb "
                     "fl:leftHand ; fl:voice fl:cowbell ; fl:grid 1 ; fl:steps \"..oo\" ] .");
    keeper_draft(keeper, FL "handsDraft",
                 TTL "<urn:test:h> a fl:HandsFigure ; fl:id 40 ; fl:bars 1 ; fl:line [ fl:limb "
                     "fl:leftHand ; fl:voice fl:splash ; fl:grid 1 ; fl:steps \"oo..\" ] .");
    keeper_play(keeper, 2);
    CHECK_TEXT(bar_steps(keeper, 0, 55), "o...o...........");
    CHECK_TEXT(bar_steps(keeper, 0, KICK), "o...............");
    CHECK_TEXT(bar_steps(keeper, 1, 56), "........o...o...");
    CHECK_TEXT(bar_steps(keeper, 1, KICK), "o...............");
    keeper_close(keeper);
}

/* Told by hand when the worker may work: at a known place in the bar. */
static void a_draft_takes_effect_with_the_next_strokes_and_disturbs_no_other(void)
{
    static Played before;
    Keeper* const keeper = keeper_open(WORKER_BY_HAND);
    keeper->controls[CONTROL_FEET] = (float)own_feet();
    keeper_play(keeper, 2);
    before = keeper->played;
    keeper_stop(keeper);
    keeper->played = (Played){.frames = 0};
    keeper_transport(keeper, 1.0f);
    keeper_run_frames(keeper, BAR_FRAMES / 2);
    keeper_set(keeper, FL "feetDraft", feet_text(own_feet(), "", "oooo oooo oooo oooo"));
    keeper_run(keeper, 64);
    CHECK_INT(atomic_exchange(&keeper->jobs, 0), 1);
    keeper_work(keeper);
    keeper_run_frames(keeper, 2 * BAR_FRAMES - keeper->played.frames);
    char half[9];
    snprintf(half, sizeof half, "%.8s", bar_steps(keeper, 0, KICK) + 8);
    CHECK_TEXT(half + 1, "ooooooo"); /* from the sixteenth after 3 on */
    CHECK_TEXT(bar_steps(keeper, 1, KICK), "oooooooooooooooo");
    CHECK_INT(keeper->played.wrong, 0);
    size_t others = 0, others_before = 0;
    for (size_t i = 0; i < keeper->played.count; ++i) {
        others += keeper->played.events[i].bytes[1] != KICK;
    }
    for (size_t i = 0; i < before.count; ++i) {
        others_before += before.events[i].bytes[1] != KICK;
    }
    CHECK_INT(others, others_before);
    keeper_stop(keeper);
    CHECK_INT(sounding(&keeper->played), 0);
    keeper_close(keeper);
}

/* Drafts may come at any moment, with feel: no stroke of the other limbs is lost
   or doubled, whatever was drawn ahead of it. */
static void drafts_at_any_moment_lose_and_double_nothing(void)
{
    static Played before;
    Keeper* const keeper = keeper_open(WORKER_BY_HAND);
    keeper->controls[CONTROL_LOOSENESS] = 14.0f;
    keeper->controls[CONTROL_TOUCH] = 50.0f;
    for (int round = 0; round < 2; ++round) {
        keeper_stop(keeper);
        keeper->played = (Played){.frames = 0};
        keeper_transport(keeper, 1.0f);
        for (int block = 0; keeper->played.frames < 8 * BAR_FRAMES; ++block) {
            if (round) { /* the same notes, said again and again */
                keeper_set(keeper, FL "turnaroundDraft",
                           block % 2 ? ""
                                     : TTL
                               "<urn:test:t> a fl:Turnaround ; fl:id 19000 ; "
                               "fl:line [ fl:limb fl:leftHand ; fl:voice fl:cowbell ; fl:grid 1 ; "
                               "fl:steps \"..oo\" ] .");
            }
            keeper_run(keeper, 333);
            if (atomic_exchange(&keeper->jobs, 0)) {
                keeper_work(keeper);
            }
        }
        if (!round) {
            before = keeper->played;
        }
    }
    CHECK_INT(keeper->played.count, before.count);
    CHECK(same_events(&keeper->played, &before));
    keeper_close(keeper);
}

static void without_a_worker_drafts_are_refused_in_words(void)
{
    Keeper* const keeper = keeper_open(NO_WORKER);
    static Played before;
    keeper_play(keeper, 1);
    before = keeper->played;
    keeper_set(keeper, FL "feetDraft", feet_text(own_feet(), "", "OOOO OOOO OOOO OOOO"));
    keeper_run(keeper, BLOCK);
    const char* const told = keeper_told_text(keeper, FL "refused");
    CHECK(told && strstr(told, "no worker"));
    keeper_play(keeper, 1);
    CHECK(same_events(&keeper->played, &before));
    keeper_close(keeper);
}

static void check_refused(Keeper* const keeper, const char* const property, const char* const text,
                          const char* const why)
{
    keeper_set(keeper, property, text);
    CHECK(keeper_await(keeper, FL "refused"));
    const char* const told = keeper_told_text(keeper, FL "refused");
    if (!CHECK(told && strstr(told, why))) {
        printf("# told: %s\n", told ? told : "nothing");
    }
}

static void what_is_no_draft_is_refused_and_the_one_before_stays(void)
{
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    keeper_draft(keeper, FL "feetDraft", feet_text(own_feet(), "", "O... ..o. ...o ...."));
    check_refused(keeper, FL "feetDraft", "this is not Turtle", "not Turtle");
    check_refused(keeper, FL "feetDraft", feet_text(own_feet(), "", "O.x."), "'x' is not a step");
    check_refused(keeper, FL "feetDraft", feet_text(0, "", "O..."), "has no fl:id");
    check_refused(keeper, FL "handsDraft", feet_text(1, "", "O..."), "expected a hands figure");
    keeper_play(keeper, 1);
    CHECK_TEXT(bar_steps(keeper, 0, KICK), "o.....o....o....");
    keeper_close(keeper);
}

static void a_value_that_is_no_text_or_too_long_is_refused(void)
{
    static char long_text[40000];
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    memset(long_text, '#', sizeof long_text - 1);
    check_refused(keeper, FL "feetDraft", long_text, "longer than");
    LV2_Atom_Forge_Frame object;
    lv2_atom_forge_frame_time(&keeper->forge, 0);
    lv2_atom_forge_object(&keeper->forge, &object, 0, urid(keeper, LV2_PATCH__Set));
    lv2_atom_forge_key(&keeper->forge, urid(keeper, LV2_PATCH__property));
    lv2_atom_forge_urid(&keeper->forge, urid(keeper, FL "feetDraft"));
    lv2_atom_forge_key(&keeper->forge, urid(keeper, LV2_PATCH__value));
    lv2_atom_forge_int(&keeper->forge, 3);
    lv2_atom_forge_pop(&keeper->forge, &object);
    keeper_run(keeper, BLOCK);
    CHECK_TEXT(keeper_told_text(keeper, FL "refused"),
               "the value is not a text; expected an atom:String");
    keeper_close(keeper);
}

static void patch_get_is_answered_with_the_drafts_in_force(void)
{
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    keeper_get(keeper);
    keeper_run(keeper, BLOCK);
    CHECK_TEXT(keeper_told_text(keeper, FL "feetDraft"), "");
    char text[2048];
    snprintf(text, sizeof text, "%s", feet_text(7, "", "O..."));
    keeper_draft(keeper, FL "feetDraft", text);
    keeper_get(keeper);
    keeper_run(keeper, BLOCK);
    CHECK_TEXT(keeper_told_text(keeper, FL "feetDraft"), text);
    CHECK_TEXT(keeper_told_text(keeper, FL "handsDraft"), "");
    keeper_close(keeper);
}

/* A worker that takes 60 ms a job, and hosts whose worker is full for a while. */
static void a_slow_worker_delays_the_draft_and_nothing_else(void)
{
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    struct timespec begin, end;
    atomic_store(&keeper->delay_ms, 60);
    atomic_store(&keeper->full, true);
    keeper_stop(keeper);
    clock_gettime(CLOCK_MONOTONIC, &begin);
    for (int i = 0; i < 30; ++i) {
        keeper_set(
            keeper, FL "feetDraft",
            feet_text(own_feet(), "", i == 7 ? "oo.. oo.. oo.. oo.." : "o.o. o.o. o.o. o.o."));
        keeper_run(keeper, 64);
    }
    clock_gettime(CLOCK_MONOTONIC, &end);
    const char* const told = keeper_told_text(keeper, FL "refused");
    CHECK(told && strstr(told, "send the last again")); /* there is room for eight */
    CHECK(end.tv_sec * 1000 + end.tv_nsec / 1000000 - begin.tv_sec * 1000 -
              begin.tv_nsec / 1000000 <
          2000);
    atomic_store(&keeper->full, false);
    CHECK(keeper_await(keeper, FL "feetDraft"));
    keeper_play(keeper, 1);
    CHECK_TEXT(bar_steps(keeper, 0, KICK), "oo..oo..oo..oo..");
    keeper_close(keeper);
}

static void an_instance_may_end_while_its_worker_is_busy(void)
{
    for (int i = 0; i < 20; ++i) {
        Keeper* const keeper = keeper_open(WORKER_THREAD);
        for (int draft = 0; draft < 4; ++draft) {
            keeper_set(keeper, FL "feetDraft", feet_text(7, "", "O..."));
            keeper_run(keeper, 64);
        }
        keeper_close(keeper);
    }
}

static void a_saved_figure_has_an_id_that_its_control_picks_at_once(void)
{
    const char* const home = fresh_home();
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    keeper_stop(keeper);
    keeper_set(keeper, FL "saveFigure", feet_text(190, "Salt Gallop", "O..o .oo. O..o .oo."));
    CHECK(keeper_await(keeper, FL "savedFigure"));
    CHECK_INT(keeper_told_long(keeper, FL "savedFigure"), 10000);
    keeper->controls[CONTROL_FEET] = 10000.0f;
    keeper_play(keeper, 1);
    CHECK_TEXT(bar_steps(keeper, 0, KICK), "o..o.oo.o..o.oo.");
    check_case("saved again over the same id");
    keeper_stop(keeper);
    keeper_set(keeper, FL "saveFigure", feet_text(10000, "Salt Gallop", "oooo .... .... ...."));
    CHECK(keeper_await(keeper, FL "savedFigure"));
    CHECK_INT(keeper_told_long(keeper, FL "savedFigure"), 10000);
    keeper_play(keeper, 1);
    CHECK_TEXT(bar_steps(keeper, 0, KICK), "oooo............");
    keeper_close(keeper);
    check_case("another instance has it from the file");
    Keeper* const other = keeper_open(NO_WORKER);
    other->controls[CONTROL_FEET] = 10000.0f;
    keeper_play(other, 1);
    CHECK_TEXT(bar_steps(other, 0, KICK), "oooo............");
    keeper_close(other);
    remove_home(home);
}

static void a_saved_kit_map_is_picked_at_once(void)
{
    const char* const home = fresh_home();
    Bank* const bank = bank_open((BankSources){.factory = BUNDLE "/bank"});
    Kit kit = *library_kit(bank_library(bank), 1);
    kit.notes[VOICE_KICK] = 20;
    char* const text = write_kit(&kit, &(EntryInfo){.label = "Attic"});
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    check_refused(keeper, FL "saveFigure", text, "fl:saveKit");
    keeper_set(keeper, FL "saveKit", text);
    CHECK(keeper_await(keeper, FL "savedKit"));
    CHECK_INT(keeper_told_long(keeper, FL "savedKit"), 10000);
    keeper->controls[CONTROL_KIT] = 10000.0f;
    keeper_play(keeper, 1);
    CHECK(begins(&keeper->played, 0, 20));
    CHECK(!begins(&keeper->played, 0, KICK));
    keeper_close(keeper);
    free(text);
    bank_free(bank);
    remove_home(home);
}

static void what_cannot_be_saved_is_told_with_what_to_do(void)
{
    char path[1024];
    const char* const home = fresh_home();
    snprintf(path, sizeof path, "%s/fourlimb", home);
    fclose(fopen(path, "w")); /* a file where the folder should be */
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    check_refused(keeper, FL "saveFigure", feet_text(0, "Salt Gallop", "O..."), "move it away");
    check_refused(keeper, FL "saveFigure", feet_text(0, "", "O..."), "has no name");
    keeper_close(keeper);
    remove(path);
    remove_home(home);
}

/* Instances of one host share a process: their locks must hold among threads. */
static void instances_that_save_at_once_lose_nothing(void)
{
    enum { INSTANCES = 4, EACH = 8 };
    const char* const home = fresh_home();
    Keeper* keepers[INSTANCES];
    int64_t sum = 0;
    for (int i = 0; i < INSTANCES; ++i) {
        keepers[i] = keeper_open(WORKER_THREAD);
        for (int figure = 0; figure < EACH; ++figure) {
            keeper_set(keepers[i], FL "saveFigure", feet_text(0, "Salt Gallop", "O..."));
        }
        keeper_run(keepers[i], 64);
    }
    for (int i = 0; i < INSTANCES; ++i) {
        for (int figure = 0; figure < EACH;) {
            keeper_run(keepers[i], 64);
            LV2_ATOM_SEQUENCE_FOREACH (&keepers[i]->notify.sequence, event) {
                const LV2_Atom* value = NULL;
                lv2_atom_object_get((const LV2_Atom_Object*)&event->body,
                                    urid(keepers[i], LV2_PATCH__value), &value, 0);
                if (value && value->type == urid(keepers[i], LV2_ATOM__Long)) {
                    sum += ((const LV2_Atom_Long*)value)->body;
                    ++figure;
                } else if (value && keeper_told(keepers[i], FL "refused")) {
                    CHECK_TEXT(keeper_told_text(keepers[i], FL "refused"), NULL);
                    ++figure;
                }
            }
            pause_ms(1);
        }
    }
    for (int i = 0; i < INSTANCES; ++i) {
        keeper_close(keepers[i]);
    }
    const int64_t count = INSTANCES * EACH;
    CHECK_INT(sum, count * 10000 + count * (count - 1) / 2);
    char users[BANK_FOLDER_ROOM];
    bank_users_folder(users);
    Bank* const bank = bank_open((BankSources){BUNDLE "/bank", users, NULL});
    CHECK(bank_info(bank, ENTRY_FEET, 10000 + (uint32_t)count - 1));
    bank_free(bank);
    remove_home(home);
}

int main(void)
{
    const char* const home = strdup(fresh_home());
    RUN(a_draft_plays_wherever_its_figure_would);
    RUN(a_dropped_draft_leaves_what_was_before);
    RUN(a_turnaround_and_hands_may_be_drafted_beside_feet);
    RUN(a_draft_takes_effect_with_the_next_strokes_and_disturbs_no_other);
    RUN(drafts_at_any_moment_lose_and_double_nothing);
    RUN(without_a_worker_drafts_are_refused_in_words);
    RUN(what_is_no_draft_is_refused_and_the_one_before_stays);
    RUN(a_value_that_is_no_text_or_too_long_is_refused);
    RUN(patch_get_is_answered_with_the_drafts_in_force);
    RUN(a_slow_worker_delays_the_draft_and_nothing_else);
    RUN(an_instance_may_end_while_its_worker_is_busy);
    RUN(a_saved_figure_has_an_id_that_its_control_picks_at_once);
    RUN(a_saved_kit_map_is_picked_at_once);
    RUN(what_cannot_be_saved_is_told_with_what_to_do);
    RUN(instances_that_save_at_once_lose_nothing);
    remove_home(home);
    return tests_end();
}
