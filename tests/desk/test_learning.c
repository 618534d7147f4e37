// SPDX-License-Identifier: ISC
/* test_learning.c - pads teach the kit map its keys: into the user's bank, one kit however
   fast they are struck, and heard from then on. */
#include "bench.h"

static void send_midi(Bench* const bench, const uint8_t status, const uint8_t a, const uint8_t b)
{
    LV2_Atom_Forge* const forge = host_input(bench->stage.host);
    const uint8_t bytes[] = {status, a, b};
    lv2_atom_forge_frame_time(forge, 0);
    lv2_atom_forge_atom(forge, sizeof bytes, bench->stage.uris.midi_MidiEvent);
    lv2_atom_forge_write(forge, bytes, sizeof bytes);
}

static void play_pad(Bench* const bench, const uint8_t key)
{
    send_midi(bench, 0x99, key, 100);
    send_midi(bench, 0x89, key, 0);
}

static void start_learning(Bench* const bench)
{
    stage_click(&bench->stage, (TargetId){TARGET_TAB, PANEL_OUTPUT});
    bench_item(bench, EDIT_LEARN);
    CHECK(bench_view(bench)->edit.is_learning);
}

static void pads_teach_keys_and_the_kit_is_picked(void)
{
    Bench* const bench = bench_open();
    start_learning(bench);
    CHECK(bench_notes(bench, "Play the pad for the kick"));
    play_pad(bench, 60);
    bench_settle(bench);
    CHECK(bench_notes(bench, "kick is key 60"));
    play_pad(bench, 61); /* the left foot's */
    bench_settle(bench);
    const Entry* const kit = listed(bench, ENTRY_KIT, "My pads");
    if (CHECK(kit)) {
        CHECK(kit->id >= 1000);
        CHECK_INT(control_of(bench, "kit"), kit->id);
    }
    CHECK_INT(times(bench_bank(), "\"My pads\""), 1);
    CHECK_TEXT(bench_bar(bench, 0, 60), "o.......o.......");
    CHECK_TEXT(bench_steps(bench, KICK, 4, 16), "................");
    CHECK_TEXT(bench_steps(bench, SNARE, 4, 16), "....o.......o...");
    check_case("ended, pads teach nothing");
    bench_item(bench, EDIT_LEARN);
    play_pad(bench, 70);
    bench_settle(bench);
    CHECK_TEXT(bench_bar(bench, 0, SNARE), "....o.......o...");
    bench_close(bench);
}

/* Two pads struck at once, before the first is saved: still one kit map. */
static void pads_faster_than_the_disk_teach_one_kit(void)
{
    Bench* const bench = bench_open();
    start_learning(bench);
    for (uint8_t key = 80; key < 100; ++key) {
        play_pad(bench, key);
        if (key % 3 == 0) {
            bench_run(bench, BENCH_BLOCK);
        }
    }
    bench_settle(bench);
    CHECK_INT(bench->refused, 0);
    const char* const file = bench_bank();
    CHECK_INT(times(file, "\"My pads\""), 2); /* that of the test before, and this one */
    CHECK_TEXT(bench_bar(bench, 0, 80), "o.......o.......");
    CHECK_TEXT(bench_steps(bench, 82, 4, 16), "....o.......o...");
    CHECK_TEXT(bench_steps(bench, 84, 4, 16), "o...o...o...o...");
    bench_close(bench);
}

static void learning_leaves_an_edit_open(void)
{
    Bench* const bench = bench_open();
    bench_click(bench, LEFT_FOOT, 1.0);
    bench_click(bench, LEFT_FOOT, 3.0);
    start_learning(bench);
    play_pad(bench, 60);
    bench_settle(bench);
    stage_key(&bench->stage, 'z');
    bench_settle(bench);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o...........");
    bench_close(bench);
}

static void up_and_down_choose_the_voice_that_is_learned(void)
{
    Bench* const bench = bench_open();
    start_learning(bench);
    stage_key(&bench->stage, PANE_KEY_UP);
    stage_key(&bench->stage, PANE_KEY_UP);
    CHECK_INT(bench_view(bench)->edit.learns, VOICE_SNARE);
    stage_key(&bench->stage, PANE_KEY_DOWN);
    stage_key(&bench->stage, PANE_KEY_UP);
    play_pad(bench, 64);
    bench_settle(bench);
    CHECK_TEXT(bench_bar(bench, 0, 64), "....o.......o...");
    CHECK_TEXT(bench_steps(bench, KICK, 4, 16), "o.......o.......");
    bench_close(bench);
}

/* Only the beginnings of notes, as MIDI 1.0 has them: velocity 0 ends one. */
static void nothing_but_beginning_notes_teaches(void)
{
    Bench* const bench = bench_open();
    start_learning(bench);
    send_midi(bench, 0x89, 50, 64);
    send_midi(bench, 0x99, 50, 0);
    send_midi(bench, 0xB9, 4, 90);
    send_midi(bench, 0xA9, 50, 90);
    bench_settle(bench);
    CHECK_INT(bench_view(bench)->edit.learns, VOICE_KICK);
    CHECK_INT(bench->said, 0);
    bench_close(bench);
}

static int told_notes(Bench* const bench)
{
    int count = 0;
    const Uris* const uris = &bench->stage.uris;
    LV2_ATOM_SEQUENCE_FOREACH (host_notify(bench->stage.host), event) {
        const LV2_Atom* note = NULL;
        lv2_atom_object_get((const LV2_Atom_Object*)&event->body, uris->fl_noteIn, &note, 0);
        count += note != NULL;
    }
    return count;
}

static void where_nobody_learns_no_note_is_told(void)
{
    Bench* const bench = bench_open();
    play_pad(bench, 60);
    host_run(bench->stage.host, BENCH_BLOCK);
    CHECK_INT(told_notes(bench), 0);
    start_learning(bench);
    play_pad(bench, 60);
    host_run(bench->stage.host, BENCH_BLOCK);
    CHECK_INT(told_notes(bench), 1);
    bench_item(bench, EDIT_LEARN);
    for (int i = 0; i < 4 * BENCH_RATE / BENCH_BLOCK; ++i) {
        host_run(bench->stage.host, BENCH_BLOCK); /* nobody asks any more */
    }
    play_pad(bench, 60);
    host_run(bench->stage.host, BENCH_BLOCK);
    CHECK_INT(told_notes(bench), 0);
    start_learning(bench); /* what was played before isn't told later */
    bench_run(bench, BENCH_RATE);
    CHECK_INT(bench->said, 0);
    bench_close(bench);
}

int main(void)
{
    bench_move_in();
    RUN(pads_teach_keys_and_the_kit_is_picked);
    RUN(pads_faster_than_the_disk_teach_one_kit);
    RUN(learning_leaves_an_edit_open);
    RUN(up_and_down_choose_the_voice_that_is_learned);
    RUN(nothing_but_beginning_notes_teaches);
    RUN(where_nobody_learns_no_note_is_told);
    bench_move_out();
    return tests_end();
}
