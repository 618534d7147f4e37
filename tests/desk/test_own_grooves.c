// SPDX-License-Identifier: ISC
/* Own grooves and own entries by keys alone: what plays is saved as a groove, with figures that
   were edited; it is in the list, in another session and on the command line; what is one's
   own is deleted, and can be had again.  And the walk: edit, save, save the groove, write it.
   Files are read back: MIDI by its format, the rest by the command line. */
#include "kept.h"
#include "midi_file.h"

static Bench* bench;
static View* view;

static void begin(void)
{
    bench = bench_open();
    view = bench_view(bench);
}

static void key(const uint32_t key)
{
    stage_key(&bench->stage, key);
}

static void keys(const uint32_t which, const int count)
{
    for (int i = 0; i < count; ++i) {
        key(which);
    }
}

static void type(const char* const words)
{
    stage_text(&bench->stage, words);
}

/* Over what is proposed. */
static void answer(const char* const words)
{
    keys(PANE_KEY_BACKSPACE, TYPED_ROOM);
    type(words);
    key(PANE_KEY_ENTER);
    for (int i = 0; i < 6; ++i) {
        bench_settle(bench);
    }
}

/* What a command prints, with this home. */
static const char* told(const char* const words)
{
    static char text[1 << 16];
    char command[2048];
    snprintf(command, sizeof command, "%s/fourlimb %s 2>&1", FOURLIMB_BUILD, words);
    FILE* const stream = popen(command, "r");
    const size_t size = stream ? fread(text, 1, sizeof text - 1, stream) : 0;
    text[size] = '\0';
    if (stream) {
        pclose(stream);
    }
    return text;
}

static bool tells(const char* const words, const char* const expected)
{
    const bool has = strstr(told(words), expected);
    if (!has) {
        printf("# fourlimb %s tells \"%.600s\", not \"%s\"\n", words, told(words), expected);
    }
    return has;
}

static int32_t id_of(const EntryKind kind, const char* const label)
{
    const Entry* const entry = listed(bench, kind, label);
    return entry ? entry->id : 0;
}

/* ---- Grooves */

static void what_is_picked_and_laid_out_becomes_a_groove(void)
{
    begin();
    bench_pick(bench, CONTROL_FEET, THREE);
    bench_pick(bench, CONTROL_TURNAROUND, 1001);
    bench_pick(bench, CONTROL_HANDS_GRID, 3);
    bench_play(bench, 0, 16.0);
    static Note before[NOTES_MAX];
    const int count = bench->count;
    memcpy(before, bench->notes, sizeof before);
    key('u');
    CHECK(view->asked.is_open);
    CHECK_TEXT(view->asked.name, "Bench"); /* its own: as it is called */
    CHECK_INT(times(bench_bank(), "fl:Groove"), 1);
    answer("Wharf");
    CHECK(bench_notes(bench, "Saved the groove \"Wharf\", with hands \"Hats, Wharf\""));
    const Entry* const entry = listed(bench, ENTRY_GROOVE, "Wharf");
    CHECK(entry && entry->is_own);
    CHECK_INT(control_of(bench, "groove"), entry ? entry->id : -1);
    CHECK_INT(control_of(bench, "feet"), 0);
    CHECK_INT(control_of(bench, "hands_grid"), 0);
    bench_play(bench, 0, 16.0);
    CHECK_INT(bench->count, count);
    CHECK(same_notes(before, bench->notes, count));
    bench_close(bench);
    check_case("in another session, and on the command line");
    begin();
    CHECK(listed(bench, ENTRY_GROOVE, "Wharf"));
    CHECK(tells("list grooves", "Wharf"));
    /* every second step of threes */
    CHECK(tells("show --groove Wharf",
                "closed hat      o.......o... ....o....... o.......o... ....o......."));
    bench_close(bench);
}

static void an_edit_is_saved_with_it_under_its_name(void)
{
    begin();
    bench_click(bench, LEFT_FOOT, 1.0);
    bench_name(bench, "One bar and left");
    key(PANE_KEY_ESCAPE);
    key('u');
    answer("Jetty");
    CHECK(bench_notes(bench, "Saved the groove \"Jetty\", with feet \"One bar and left\""));
    CHECK_INT(view->drafted[FIGURE_FEET], 0);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o...........");
    CHECK(id_of(ENTRY_FEET, "One bar and left") >= 1000);
    CHECK(tells("show --groove Jetty", "left foot, kick             .. o. .. .."));
    check_case("the older groove plays what it did");
    bench_pick(bench, CONTROL_GROOVE, GROOVE);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "................");
    bench_close(bench);
}

static void a_name_of_the_factorys_is_not_taken(void)
{
    char name[TYPED_ROOM];
    begin();
    const Entry* const first = view_entry(view, ENTRY_GROOVE, 1);
    snprintf(name, sizeof name, "%s", first ? first->label : "");
    const int before = times(bench_bank(), "fl:Groove");
    key('u');
    answer(name);
    CHECK(view->asked.is_open);
    CHECK_TEXT(view->asked.why, "that name is the factory's");
    answer("");
    CHECK_TEXT(view->asked.why, "it has no name");
    key(PANE_KEY_ESCAPE);
    CHECK(bench_notes(bench, "Nothing is saved"));
    CHECK_INT(times(bench_bank(), "fl:Groove"), before);
    bench_close(bench);
}

/* What is kept plays: that, and not what the ports pick; with the edit that it was kept with. */
static void what_is_kept_becomes_a_groove_too(void)
{
    begin();
    bench_pick(bench, CONTROL_FEET, ONE);
    bench_click(bench, LEFT_FOOT, 3.0);
    model_focus(&bench->stage.model, (TargetId){TARGET_TAB, PANEL_FEEL});
    key('s');
    bench_settle(bench);
    bench_item(bench, EDIT_DROP);
    bench_pick(bench, CONTROL_FEET, THREE);
    bench_pick(bench, CONTROL_KEPT, 1);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "............o...");
    key('u');
    answer("Groin");
    CHECK(bench_notes(bench, "Saved the groove \"Groin\", with feet \"One bar, Groin\""));
    CHECK_INT(control_of(bench, "kept"), 0);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "............o...");
    CHECK(tells("show --groove Groin", "left foot, kick             .. .. .. o."));
    bench_close(bench);
}

static void a_variation_is_told_as_not_in_it(void)
{
    begin();
    bench_pick(bench, CONTROL_VARIATION, 3);
    key('u');
    answer("Weir foot");
    CHECK(bench_notes(bench, "not in it: the feet's variation"));
    bench_close(bench);
}

/* Under its name again it goes over it; the older is kept. */
static void saved_again_it_is_the_same_groove(void)
{
    begin();
    key('u');
    answer("Mole");
    const int32_t id = id_of(ENTRY_GROOVE, "Mole");
    bench_pick(bench, CONTROL_FEET, TWO);
    key('u');
    CHECK_TEXT(view->asked.name, "Mole");
    key(PANE_KEY_ENTER);
    bench_run(bench, 2 * BENCH_RATE);
    CHECK_INT(id_of(ENTRY_GROOVE, "Mole"), id);
    char bak[64];
    snprintf(bak, sizeof bak, "fourlimb/groove-%d.ttl.bak", (int)id);
    CHECK(strstr(bench_read(bak), "urn:test:one"));
    bench_close(bench);
}

/* ---- Deleting */

static void walk_to(const EntryKind kind, const char* const label)
{
    key(kind == ENTRY_FEET ? 'f' : 'g');
    type(label);
    const int32_t id = id_of(kind, label);
    for (int i = 0; i < 8 && (int32_t)view->values[kind_controls[kind]] != id; ++i) {
        key(PANE_KEY_DOWN);
    }
}

static void what_is_ones_own_is_deleted_from_the_list(void)
{
    begin();
    bench_click(bench, LEFT_FOOT, 1.0);
    bench_save(bench, "Spit");
    bench_pick(bench, CONTROL_FEET, 0);
    const int32_t id = id_of(ENTRY_FEET, "Spit");
    char file[64];
    char aside[80];
    snprintf(file, sizeof file, "fourlimb/feet-%d.ttl", (int)id);
    snprintf(aside, sizeof aside, "%s.deleted", file);
    walk_to(ENTRY_FEET, "Spit");
    key(PANE_KEY_DELETE);
    CHECK(view->asked.is_open);
    check_case("Esc leaves it");
    key(PANE_KEY_ESCAPE);
    bench_settle(bench);
    CHECK(*bench_read(file) && view->list.is_open);
    check_case("Enter deletes it");
    key(PANE_KEY_DELETE);
    key(PANE_KEY_ENTER);
    bench_run(bench, 2 * BENCH_RATE);
    CHECK(bench_notes(bench, "Deleted \"Spit\""));
    CHECK(!*bench_read(file));
    CHECK(strstr(bench_read(aside), "\"Spit\""));
    CHECK(!listed(bench, ENTRY_FEET, "Spit"));
    CHECK_INT(control_of(bench, "feet"), 0); /* as it was before the list */
    key(PANE_KEY_ESCAPE);
    key(PANE_KEY_ESCAPE);
    bench_close(bench);
}

static void the_factorys_stays_and_so_does_what_a_groove_plays(void)
{
    begin();
    key('f');
    key(PANE_KEY_END);
    while (!(view->values[CONTROL_FEET] > 0.0f && view->values[CONTROL_FEET] < 1000.0f)) {
        key(PANE_KEY_UP);
    }
    key(PANE_KEY_DELETE);
    CHECK(!view->asked.is_open);
    CHECK(bench_notes(bench, "is the factory's: only your own can be deleted"));
    key(PANE_KEY_ESCAPE);
    check_case("a groove plays it");
    const int32_t id = id_of(ENTRY_FEET, "One bar and left"); /* saved above */
    walk_to(ENTRY_FEET, "One bar and left");
    key(PANE_KEY_DELETE);
    key(PANE_KEY_ENTER);
    bench_run(bench, 2 * BENCH_RATE);
    CHECK(bench_notes(bench, "your groove \"Jetty\" plays it"));
    CHECK_INT(id_of(ENTRY_FEET, "One bar and left"), id);
    bench_close(bench);
}

static void the_figure_that_is_edited_is_deleted_by_shift_delete(void)
{
    begin();
    bench_click(bench, LEFT_FOOT, 2.0);
    bench_save(bench, "Bar of sand");
    const int32_t id = id_of(ENTRY_FEET, "Bar of sand");
    bench_pick(bench, CONTROL_FEET, id);
    key('e');
    key('e');
    while (view->edit.kind != FIGURE_FEET) {
        key('e');
    }
    key(PANE_KEY_ENTER);
    bench_settle(bench);
    const PaneEvent shifted = {.kind = PANE_KEY, .key = PANE_KEY_DELETE, .modifiers = PANE_SHIFT};
    controller_input(&bench->stage.model, &shifted);
    CHECK(view->asked.is_open);
    key(PANE_KEY_ENTER);
    bench_run(bench, 2 * BENCH_RATE);
    CHECK(bench_notes(bench, "Deleted \"Bar of sand\""));
    CHECK_INT(control_of(bench, "feet"), 0);
    CHECK_INT(view->drafted[FIGURE_FEET], 0);
    CHECK_TEXT(bench_bar(bench, 0, KICK), "o.......o.......");
    bench_close(bench);
}

/* A session that was kept with it has a copy; a pick of it without one plays as the groove has
   it. */
static void a_session_that_plays_what_was_deleted_has_its_copy(void)
{
    Kept session;
    begin();
    bench_click(bench, LEFT_FOOT, 2.0);
    bench_save(bench, "Skerry");
    const int32_t id = id_of(ENTRY_FEET, "Skerry");
    bench_item(bench, EDIT_DROP); /* of the groove's own bars */
    bench_pick(bench, CONTROL_FEET, id);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "........o.......");
    keep(bench, &session);
    walk_to(ENTRY_FEET, "Skerry");
    key(PANE_KEY_DELETE);
    key(PANE_KEY_ENTER);
    bench_run(bench, 2 * BENCH_RATE);
    key(PANE_KEY_ESCAPE);
    key(PANE_KEY_ESCAPE);
    CHECK(bench_notes(bench, "Deleted \"Skerry\""));
    bench_pick(bench, CONTROL_FEET, id); /* an old pick */
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "................");
    bench_close(bench);
    check_case("the session");
    begin();
    bench_pick(bench, CONTROL_FEET, id);
    bring_back(bench, &session);
    bench_settle(bench);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "........o.......");
    CHECK(listed(bench, ENTRY_FEET, "Skerry"));
    forget(&session);
    bench_close(bench);
}

/* ---- The walk */

static void edited_saved_and_written_by_keys_alone(void)
{
    static MidiFile file;
    begin();
    key('e');
    key(PANE_KEY_TAB); /* the left foot */
    keys(PANE_KEY_RIGHT, 3);
    keys(PANE_KEY_UP, 2);
    keys(PANE_KEY_RIGHT, 4);
    key('o');
    bench_settle(bench);
    key('s');
    answer("Groyne feet");
    CHECK(bench_notes(bench, "Saved as \"Groyne feet\""));
    key('u');
    answer("Groyne");
    CHECK(bench_notes(bench, "Saved the groove \"Groyne\""));
    key(PANE_KEY_ESCAPE);
    key('w');
    CHECK(view->asked.is_open);
    keys(PANE_KEY_BACKSPACE, 200);
    type(bench_home());
    key(PANE_KEY_ENTER);
    bench_settle(bench);
    if (CHECK(midi_file_read(&file, bench_path("Groyne.mid")))) {
        CHECK_TEXT(midi_file_steps(&file, KICK_LEFT, 4, 0, 16), "...o...o........");
        CHECK_TEXT(midi_file_steps(&file, KICK_LEFT, 4, 48, 16), "...o...o........");
        CHECK_TEXT(midi_file_steps(&file, KICK, 4, 16, 16), "o.......o.......");
    }
    CHECK(tells("show --groove Groyne", "left foot, kick             ...o ...O .... ...."));
    char chart[1200];
    snprintf(chart, sizeof chart, "chart --groove Groyne --out '%s'", bench_path("groyne.svg"));
    told(chart);
    CHECK(strstr(bench_read("groyne.svg"), "<svg"));
    bench_close(bench);
}

int main(void)
{
    bench_move_in();
    RUN(what_is_picked_and_laid_out_becomes_a_groove);
    RUN(an_edit_is_saved_with_it_under_its_name);
    RUN(a_name_of_the_factorys_is_not_taken);
    RUN(what_is_kept_becomes_a_groove_too);
    RUN(a_variation_is_told_as_not_in_it);
    RUN(saved_again_it_is_the_same_groove);
    RUN(what_is_ones_own_is_deleted_from_the_list);
    RUN(the_factorys_stays_and_so_does_what_a_groove_plays);
    RUN(the_figure_that_is_edited_is_deleted_by_shift_delete);
    RUN(a_session_that_plays_what_was_deleted_has_its_copy);
    RUN(edited_saved_and_written_by_keys_alone);
    bench_move_out();
    return tests_end();
}
