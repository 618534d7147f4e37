// SPDX-License-Identifier: ISC
/* What the plugin plays the window has: entries that only the session holds, and files
   that another instance wrote.  Listed, edited and written as any other. */
#include "../../ui/desk/asking.h"
#include "kept.h"

enum { MANY = 60, MANY_FIRST = 1100 };

static const char turtle_head[] = "@prefix fl: <urn:fourlimb:terms#> .\n"
                                  "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
                                  "@prefix t: <urn:test:> .\n";

/* A figure of both feet whose left foot is on one sixteenth of the bar. */
static int figure_text(char* const text, const size_t room, const int id, const int step)
{
    char steps[17] = "................";
    steps[step] = 'o';
    return snprintf(text, room,
                    "t:s%d a fl:FeetFigure ; fl:id %d ; rdfs:label \"Session %d\" ; fl:bars 1 ;\n"
                    " fl:line [ fl:limb fl:leftFoot ; fl:voice fl:kick ; fl:grid 4 ;"
                    " fl:steps \"%s\" ] .\n",
                    id, id, id, steps);
}

/* A session that brought its own figures along, so many from MANY_FIRST on, and a bank
   without them. */
static Bench* with_session(Kept* const kept, const int count)
{
    const size_t room = sizeof turtle_head + 512 * (size_t)count;
    char* const text = malloc(room);
    size_t length = (size_t)snprintf(text, room, "%s", turtle_head);
    for (int i = 0; i < count; ++i) {
        length += (size_t)figure_text(text + length, room - length, MANY_FIRST + i, i % 16);
    }
    *kept = (Kept){.host = NULL};
    kept->texts[3] = text; /* ownEntries, in the order of kept_terms */
    Bench* const bench = bench_open();
    bring_back(bench, kept);
    bench_settle(bench);
    return bench;
}

static void close_all(Bench* const bench, Kept* const kept)
{
    bench_close(bench);
    forget(kept);
}

static void an_entry_that_only_the_session_has_is_listed_and_edited(void)
{
    Kept kept;
    Bench* const bench = with_session(&kept, 1);
    bench_pick(bench, CONTROL_FEET, MANY_FIRST);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "o...............");
    const Entry* const entry = listed(bench, ENTRY_FEET, "Session 1100");
    CHECK(entry && entry->id == MANY_FIRST && entry->figure);
    CHECK(view_entry(bench_view(bench), ENTRY_FEET, view_playing(bench_view(bench), ENTRY_FEET)));
    bench_click(bench, LEFT_FOOT, 2.0);
    CHECK_TEXT(bench_note(bench), "");
    CHECK_TEXT(bench_view(bench)->edit.name, "Session 1100");
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "o.......o.......");
    check_case("and saved it is in the bank");
    bench_save(bench, "Brought home");
    CHECK(bench_notes(bench, "Saved as \"Brought home\""));
    CHECK_INT(times(bench_bank(), "\"Brought home\""), 1);
    CHECK(listed(bench, ENTRY_FEET, "Brought home"));
    CHECK(listed(bench, ENTRY_FEET, "Session 1100")); /* the session's, as before */
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "o.......o.......");
    close_all(bench, &kept);
}

/* The bytes of the file that W has written, into the folder that it asks about at first. */
static size_t written(Bench* const bench, char* const bytes, const size_t room)
{
    asking_write(&bench->stage.model, true);
    if (bench_view(bench)->asked.is_open) {
        asking_yes(&bench->stage.model);
    }
    const char* const path = strstr(bench_note(bench), "Written: ");
    FILE* const file = path ? fopen(path + strlen("Written: "), "rb") : NULL;
    const size_t size = file ? fread(bytes, 1, room, file) : 0;
    if (file) {
        fclose(file);
    }
    return size;
}

/* The same figure in the user's bank is the measure. */
static void the_file_of_the_phrase_has_what_the_session_plays(void)
{
    static char here[1 << 16];
    static char there[1 << 16];
    char text[2048];
    Kept kept;
    Bench* bench = with_session(&kept, 1);
    bench_pick(bench, CONTROL_FEET, MANY_FIRST);
    const size_t size = written(bench, here, sizeof here);
    close_all(bench, &kept);
    const size_t length = (size_t)snprintf(text, sizeof text, "%s", turtle_head);
    figure_text(text + length, sizeof text - length, MANY_FIRST, 0);
    bench_write("fourlimb/brought.ttl", text);
    bench = bench_open();
    bench_pick(bench, CONTROL_FEET, MANY_FIRST);
    CHECK(size > 0);
    CHECK_INT(written(bench, there, sizeof there), size);
    CHECK(!memcmp(here, there, size));
    bench_close(bench);
    unlink(bench_path("fourlimb/brought.ttl"));
}

static int session_entries(Bench* const bench)
{
    int count = 0;
    for (int i = 0; i < MANY; ++i) {
        count += view_entry(bench_view(bench), ENTRY_FEET, MANY_FIRST + i) != NULL;
    }
    return count;
}

static void a_session_of_many_entries_is_told_whole(void)
{
    Kept kept;
    Bench* const bench = with_session(&kept, MANY);
    CHECK_INT(session_entries(bench), MANY);
    check_case("and again after one is saved");
    bench_pick(bench, CONTROL_FEET, MANY_FIRST + 5);
    bench_click(bench, LEFT_FOOT, 0.0);
    bench_save(bench, "One of many");
    CHECK_INT(session_entries(bench), MANY);
    CHECK(listed(bench, ENTRY_FEET, "One of many"));
    close_all(bench, &kept);
}

/* Hosts drop what comes too fast: a window asks again for what it has not whole. */
static void what_was_lost_on_the_way_is_asked_for_again(void)
{
    Kept kept;
    Bench* const bench = with_session(&kept, MANY);
    const SessionEntries* const told = &bench->stage.model.entries_told;
    bring_back(bench, &kept); /* another bank of the same, in pieces, one a block */
    bench_run(bench, BENCH_BLOCK);
    bench->is_deaf = true;
    bench_run(bench, BENCH_BLOCK);
    bench->is_deaf = false;
    bench_settle(bench);
    CHECK(!told->pieces.is_whole);
    bench_run(bench, 4 * BENCH_RATE);
    CHECK(told->pieces.is_whole);
    CHECK_INT(session_entries(bench), MANY);
    close_all(bench, &kept);
}

/* Another instance, or a person, writes a file; the host's lane picks what is in it:
   the plugin looks again, and the window with it. */
static void a_file_that_came_later_is_listed_once_it_plays(void)
{
    char text[2048];
    Bench* const bench = bench_open();
    const size_t length = (size_t)snprintf(text, sizeof text, "%s", turtle_head);
    figure_text(text + length, sizeof text - length, 1200, 4);
    bench_write("fourlimb/later.ttl", text);
    CHECK(!listed(bench, ENTRY_FEET, "Session 1200"));
    bench_pick(bench, CONTROL_FEET, 1200);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o...........");
    CHECK(listed(bench, ENTRY_FEET, "Session 1200"));
    bench_close(bench);
    unlink(bench_path("fourlimb/later.ttl"));
}

/* The person's list stays as it is under the hand. */
static void an_open_list_stays_open_when_the_bank_changes(void)
{
    char text[2048];
    Bench* const bench = bench_open();
    const size_t length = (size_t)snprintf(text, sizeof text, "%s", turtle_head);
    figure_text(text + length, sizeof text - length, 1201, 4);
    bench_write("fourlimb/later.ttl", text);
    stage_key(&bench->stage, 'f');
    stage_text(&bench->stage, "session");
    const List* const list = &bench_view(bench)->list;
    CHECK_INT(list->count, 0);
    bench_pick(bench, CONTROL_FEET, 1201);
    CHECK(list->is_open);
    CHECK_TEXT(list->find, "session");
    CHECK_INT(list->count, 2); /* and the heading that says where it was found */
    CHECK_INT(list->selected, 1);
    bench_close(bench);
    unlink(bench_path("fourlimb/later.ttl"));
}

int main(void)
{
    bench_move_in();
    RUN(an_entry_that_only_the_session_has_is_listed_and_edited);
    RUN(the_file_of_the_phrase_has_what_the_session_plays);
    RUN(a_session_of_many_entries_is_told_whole);
    RUN(what_was_lost_on_the_way_is_asked_for_again);
    RUN(a_file_that_came_later_is_listed_once_it_plays);
    RUN(an_open_list_stays_open_when_the_bank_changes);
    bench_move_out();
    return tests_end();
}
