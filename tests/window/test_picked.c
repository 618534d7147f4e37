// SPDX-License-Identifier: ISC
/* Another feet figure, picked by the keys in a real host while it plays: heard from
   the bar line on and not before, and put back by Escape.  What is right is worked
   out by arithmetic from the steps, written here again as bank/feet.ttl has them. */
#include "person.h"

#include "../help/check.h"
#include "../help/wait.h"
#include "../live/child.h"
#include "../live/stage.h"
#include "../live/tab.h"

#include <stdio.h>

/* Kicks and bars of all that a slow machine may roll meanwhile. */
enum { ROOM = 8192, BARS_MAX = 1000 };

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

/* Until the transport has rolled to a frame. */
static bool roll_to(const int64_t frame)
{
    Wait wait = wait_until("the transport has rolled on");
    while (jack_driver_place(person.driver) < frame) {
        if (!wait_goes_on(&wait)) {
            return false;
        }
    }
    return true;
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

/* The first bar of [from, to) that has other kicks than these; `to` if none has. */
static int end_of(const size_t since, const TabRow* const row, const int from, const int to)
{
    int bar = from;
    while (bar < to && has_kicks(since, row, bar, bar + 1)) {
        ++bar;
    }
    return bar;
}

static int bar_now(void)
{
    return (int)((double)jack_driver_place(person.driver) / (4.0 * quarter()));
}

/* Rolls on until a whole bar from `first` on has just these kicks: its number, -1 after
   words if none ever has. */
static int wait_for_bar(const size_t since, const TabRow* const row, const int first)
{
    Wait wait = wait_until("a bar has the kicks of the other figure");
    for (int bar = first; bar < BARS_MAX && CHECK(roll_to(bar_line(bar + 1) + 1000)); ++bar) {
        if (has_kicks(since, row, bar, bar + 1)) {
            return bar;
        }
        if (!wait_goes_on(&wait)) {
            break;
        }
    }
    return -1;
}

static size_t start(void)
{
    const size_t since = person_messages(&person);
    CHECK(jack_driver_set(person.driver, &tempo, 0));
    jack_driver_start(person.driver, NULL, 0);
    return since;
}

/* Stops in the first bar that hasn't begun yet; its number. */
static int stop(void)
{
    static Move move = {0, MOVE_STOP, 0};
    const int last = bar_now() + 1;
    move.at = bar_line(last) + 100;
    jack_driver_ask(person.driver, &move, 1);
    CHECK(jack_driver_finish(person.driver));
    return last;
}

/* However slow the machine: the keys came in bar `pressed` or later, and the turn is at
   the next bar line of one of these; it rolls until it has been heard. */
static void another_figure_comes_in_at_the_bar_line(void)
{
    if (!person_ready(here, missing)) {
        return;
    }
    CHECK(person_clicks_ground(&person));
    const size_t since = start();
    CHECK(roll_to(bar_line(1) + (int64_t)quarter()));
    const int pressed = bar_now();
    CHECK(KEYS("f", "s", "i", "g", "Down", "Return"));
    const int heard = wait_for_bar(since, &signal_bell, pressed + 1);
    const int end = stop();
    CHECK(heard >= 0);
    const int turn = end_of(since, &mooring, 0, end);
    CHECK(turn > pressed);
    CHECK_INT(end_of(since, &signal_bell, turn, end), end);
}

/* Down in the list lets the next be heard; Escape is to put back what played. */
static void escape_puts_back_what_played(void)
{
    if (!person_ready(here, missing)) {
        return;
    }
    const size_t since = start();
    CHECK(roll_to((int64_t)quarter()));
    CHECK(KEYS("f", "m", "o", "o", "Down"));
    const int other = wait_for_bar(since, &mooring, 1);
    const int pressed = bar_now();
    CHECK(KEYS("Escape", "Escape")); /* the letters, then the list */
    const int back = wait_for_bar(since, &signal_bell, pressed + 1);
    const int end = stop();
    CHECK(other > 0 && back > pressed);
    const int first = end_of(since, &signal_bell, 0, end);
    CHECK(first > 0 && first <= other);
    const int second = end_of(since, &mooring, first, end);
    CHECK(second > pressed);
    CHECK_INT(end_of(since, &signal_bell, second, end), end);
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
