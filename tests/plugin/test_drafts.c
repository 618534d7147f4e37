// SPDX-License-Identifier: ISC
/* test_drafts.c - drafts that a window sends play in place of their figure, through
   a worker of any speed. */
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
    keeper->controls[CONTROL_HANDS] = 40.0f;
    keeper_draft(keeper, FL "handsDraft", /* flams and drags: their grace strokes come first */
                 TTL
                 "<urn:test:h> a fl:HandsFigure ; fl:id 40 ; fl:bars 1 ; fl:line [ fl:limb "
                 "fl:leftHand ; fl:voice fl:snare ; fl:grid 4 ; fl:steps \"f.d. f.g. dof. ..fd\" "
                 "] .");
    for (int round = 0; round < 2; ++round) {
        keeper_stop(keeper);
        keeper->played = (Played){.frames = 0};
        keeper_transport(keeper, 1.0f);
        for (int block = 0; keeper->played.frames < 8 * BAR_FRAMES; ++block) {
            if (round) { /* the same notes, said again and again */
                keeper_set(keeper, FL "turnaroundDraft",
                           block % 2 ? ""
                                     : TTL
                               "<urn:test:t> a fl:Turnaround ; fl:id 1900 ; "
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
    lv2_atom_forge_object(&keeper->forge, &object, 0, urid(keeper, FL "Message"));
    lv2_atom_forge_key(&keeper->forge, urid(keeper, FL "feetDraft"));
    lv2_atom_forge_int(&keeper->forge, 3);
    lv2_atom_forge_pop(&keeper->forge, &object);
    keeper_run(keeper, BLOCK);
    CHECK_TEXT(keeper_told_text(keeper, FL "refused"),
               "the value is not a text; expected an atom:String");
    keeper_close(keeper);
}

static void who_looks_on_is_told_the_drafts_in_force(void)
{
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    keeper_look(keeper);
    keeper_run(keeper, BLOCK);
    CHECK_TEXT(keeper_told_text(keeper, FL "feetDraft"), "");
    char text[2048];
    snprintf(text, sizeof text, "%s", feet_text(7, "", "O..."));
    keeper_draft(keeper, FL "feetDraft", text);
    keeper_look(keeper);
    keeper_run(keeper, BLOCK);
    CHECK_TEXT(keeper_told_text(keeper, FL "feetDraft"), text);
    CHECK_TEXT(keeper_told_text(keeper, FL "handsDraft"), "");
    keeper_close(keeper);
}

/* A worker that hasn't come to it yet, in a host that has no room to schedule it at
   first: blocks go on, and of what was sent the last that fitted plays. */
static void a_worker_that_does_not_come_delays_the_draft_and_nothing_else(void)
{
    Keeper* const keeper = keeper_open(WORKER_BY_HAND);
    keeper_stop(keeper);
    atomic_store(&keeper->full, true);
    int fitted = 0;
    int refused = 0;
    while (refused < 10 && fitted < 1000) {
        const char* const steps = fitted % 2 ? "oo.. oo.. oo.. oo.." : "o.o. o.o. o.o. o.o.";
        keeper_set(keeper, FL "feetDraft",
                   feet_text(own_feet(), "", refused ? "oooo oooo oooo oooo" : steps));
        keeper_run(keeper, 64);
        const char* const told = keeper_told_text(keeper, FL "refused");
        const bool is_refused = told && strstr(told, "send the last again");
        CHECK(is_refused || !refused);
        fitted += !is_refused;
        refused += is_refused;
    }
    CHECK_INT(refused, 10);
    CHECK(fitted >= 8); /* more than a window ever has on its way */
    CHECK_INT(atomic_load(&keeper->jobs), 0);
    atomic_store(&keeper->full, false);
    keeper_run(keeper, 64);
    CHECK_INT(atomic_load(&keeper->jobs), 1);
    CHECK(keeper_await(keeper, FL "feetDraft"));
    keeper_play(keeper, 1);
    CHECK_TEXT(bar_steps(keeper, 0, KICK), fitted % 2 ? "o.o.o.o.o.o.o.o." : "oo..oo..oo..oo..");
    keeper_close(keeper);
}

static void a_slow_worker_is_waited_for_by_nobody(void)
{
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    atomic_store(&keeper->delay_ms, 80);
    keeper_draft(keeper, FL "feetDraft", feet_text(own_feet(), "", "oo.. oo.. oo.. oo.."));
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

int main(void)
{
    char home[512];
    snprintf(home, sizeof home, "%s", fresh_home());
    RUN(a_draft_plays_wherever_its_figure_would);
    RUN(a_dropped_draft_leaves_what_was_before);
    RUN(a_turnaround_and_hands_may_be_drafted_beside_feet);
    RUN(a_draft_takes_effect_with_the_next_strokes_and_disturbs_no_other);
    RUN(drafts_at_any_moment_lose_and_double_nothing);
    RUN(without_a_worker_drafts_are_refused_in_words);
    RUN(what_is_no_draft_is_refused_and_the_one_before_stays);
    RUN(a_value_that_is_no_text_or_too_long_is_refused);
    RUN(who_looks_on_is_told_the_drafts_in_force);
    RUN(a_worker_that_does_not_come_delays_the_draft_and_nothing_else);
    RUN(a_slow_worker_is_waited_for_by_nobody);
    RUN(an_instance_may_end_while_its_worker_is_busy);
    remove_home(home);
    return tests_end();
}
