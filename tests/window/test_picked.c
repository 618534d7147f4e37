// SPDX-License-Identifier: ISC
/* Another feet figure, picked by the keys in a real host while it plays: heard from
   the bar line on and not before, and put back by Escape.  What is right is worked
   out by arithmetic from the steps, written here again as bank/feet.ttl has them. */
#include "person.h"

#include "../help/check.h"
#include "../live/child.h"
#include "../live/stage.h"
#include "../live/tab.h"

#include <stdio.h>

enum { ROOM = 256, PATIENCE_MS = 5000 };

static const Tempo tempo = {400.0, 4.0, 4};
static const TabRow mooring = {KICK, 4, "o... o... o... o..."};
static const TabRow signal_bell = {KICK, 4, ".o.. ..oo .o.. ..oo"};

static Person person;
static bool here, missing;

static double quarter(void)
{
    return 60.0 / tempo.quarters_per_minute * jack_driver_rate(person.driver);
}

static int64_t bar_line(const int bar)
{
    return (int64_t)(4.0 * bar * quarter() + 0.5);
}

/* Until the transport has rolled to a frame; false if it takes too long. */
static bool roll_to(const int64_t frame)
{
    for (int waited = 0; waited < PATIENCE_MS; waited += 5) {
        if (jack_driver_place(person.driver) >= frame) {
            return true;
        }
        child_sleep_ms(5);
    }
    return false;
}

/* Whether just these kicks were heard in bars [from, to) since message `since`. */
static bool has_kicks(const size_t since, const TabRow* const row, const int from, const int to)
{
    static Heard heard[ROOM];
    static TabStroke wanted[ROOM];
    const size_t count = person_heard(&person, since, KICK, heard, ROOM);
    const size_t wanted_count =
        tab_strokes(row, 1, quarter(), bar_line(from), bar_line(to), ROOM, wanted);
    size_t met = 0;
    for (size_t i = 0; i < count; ++i) {
        if (heard[i].frame < bar_line(from) || heard[i].frame >= bar_line(to)) {
            continue;
        }
        if (met == wanted_count || heard[i].frame < wanted[met].frame - 1 ||
            heard[i].frame > wanted[met].frame + 1) {
            return false;
        }
        ++met;
    }
    return met == wanted_count;
}

/* The bar of [first, last) from which on `after` is heard and `before` until then,
   -1 if there is none. */
static int turn(const size_t since, const TabRow* const before, const TabRow* const after,
                const int first, const int last)
{
    for (int bar = first; bar < last; ++bar) {
        if (has_kicks(since, before, 0, bar) && has_kicks(since, after, bar, last)) {
            return bar;
        }
    }
    return -1;
}

static int bar_now(void)
{
    return (int)((double)jack_driver_place(person.driver) / (4.0 * quarter()));
}

/* However slow the machine: the keys came in bar `pressed` or later and all were
   there by bar `done`, so the turn is at the next line of one of these. */
static void another_figure_comes_in_at_the_bar_line(void)
{
    if (!person_ready(here, missing)) {
        return;
    }
    const size_t since = person_messages(&person);
    CHECK(person_clicks_ground(&person));
    CHECK(jack_driver_set(person.driver, &tempo, 0));
    static Move stop = {0, MOVE_STOP, 0};
    stop.at = bar_line(5) + 100;
    jack_driver_start(person.driver, &stop, 1);
    CHECK(roll_to(bar_line(1) + (int64_t)quarter()));
    const int pressed = bar_now();
    CHECK(KEYS("f", "s", "i", "g", "Down", "Return"));
    CHECK(jack_driver_finish(person.driver));
    const int at = turn(since, &mooring, &signal_bell, pressed + 1, 5);
    CHECK(at >= 0);
    if (at < 0) {
        printf("# pressed in bar %d; bars of the old %d\n", pressed,
               has_kicks(since, &mooring, 0, 5));
    }
}

/* Down in the list lets the next be heard; Escape is to put back what played. */
static void escape_puts_back_what_played(void)
{
    if (!person_ready(here, missing)) {
        return;
    }
    const size_t since = person_messages(&person);
    CHECK(jack_driver_set(person.driver, &tempo, 0));
    static Move stop = {0, MOVE_STOP, 0};
    stop.at = bar_line(7) + 100;
    jack_driver_start(person.driver, &stop, 1);
    CHECK(roll_to((int64_t)quarter()));
    CHECK(KEYS("f", "m", "o", "o", "Down"));
    CHECK(roll_to(bar_line(2) + (int64_t)quarter()));
    const int pressed = bar_now();
    CHECK(KEYS("Escape", "Escape")); /* the letters, then the list */
    CHECK(jack_driver_finish(person.driver));
    int heard = 0; /* bars of the other */
    for (int bar = 0; bar < pressed; ++bar) {
        heard += has_kicks(since, &mooring, bar, bar + 1);
    }
    CHECK(heard > 0);
    CHECK(has_kicks(since, &signal_bell, 0, 1));
    CHECK(turn(since, &signal_bell, &mooring, 1, pressed + 1) > 0 ||
          has_kicks(since, &mooring, pressed, pressed + 1));
    CHECK(has_kicks(since, &signal_bell, 6, 7));
}

static bool host_ended(Person* const who)
{
    (void)who;
    return !stage_host_runs();
}

/* jalv's own short cut for its menu's Quit, pressed while the window has the keys. */
static void a_short_cut_of_the_host_works_after_a_click(void)
{
    if (!person_ready(here, missing)) {
        return;
    }
    CHECK(person_clicks_ground(&person));
    CHECK(KEYS("ctrl+q"));
    CHECK(person_waits(host_ended, &person));
    CHECK_INT(child_last_status(), 0);
}

int main(void)
{
    here = person_arrives(&person, &missing);
    RUN(another_figure_comes_in_at_the_bar_line);
    RUN(escape_puts_back_what_played);
    RUN(a_short_cut_of_the_host_works_after_a_click);
    person_leaves(&person);
    return tests_end();
}
