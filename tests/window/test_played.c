// SPDX-License-Identifier: ISC
/* The window in a real host: jalv.gtk3 on a JACK server without a sound card, under
   an X server without a screen.  What a person does there by mouse and keys is heard
   in the MIDI that comes out.  Times are worked out from tempo and rate alone. */
#include "person.h"

#include "../help/check.h"
#include "../live/child.h"
#include "../live/stage.h"

#include <math.h>
#include <stdio.h>

enum { ROOM = 64 };

static const Tempo usual = {120.0, 4.0, 4};

/* Tests take no arguments, so what they share stands here. */
static Person person;
static bool here, missing;

/* From where a part of a test listens. */
static size_t since;

static size_t count_of(const uint8_t key)
{
    Heard ons[ROOM];
    return person_heard(&person, since, key, ons, ROOM);
}

static bool has_hats(Person* const who)
{
    (void)who;
    return count_of(HAT) >= 4;
}

/* Frames between the last two hats: eighths. */
static int64_t eighth(void)
{
    Heard ons[2];
    return person_heard(&person, since, HAT, ons, 2) == 2 ? ons[1].frame - ons[0].frame : -1;
}

static void c_starts_the_own_clock_at_120(void)
{
    if (!person_ready(here, missing)) {
        return;
    }
    CHECK_INT(person_messages(&person), 0);
    CHECK(person_clicks_ground(&person));
    CHECK(KEYS("c"));
    CHECK(person_waits(has_hats, &person));
    CHECK_NEAR(eighth(), 0.25 * jack_driver_rate(person.driver), 1);
    CHECK_NEAR(stage_last_value("tempo_now"), 120.0, 0.001);
}

static bool is_200(Person* const who)
{
    (void)who;
    return fabs(stage_last_value("tempo_now") - 200.0) < 0.001;
}

static void a_tempo_that_is_typed_is_the_tempo_heard(void)
{
    if (!person_ready(here, missing)) {
        return;
    }
    CHECK(KEYS("t", "2", "0", "0", "Return"));
    CHECK(person_waits(is_200, &person));
    since = person_messages(&person);
    CHECK(person_waits(has_hats, &person));
    CHECK_NEAR(eighth(), 0.15 * jack_driver_rate(person.driver), 1);
}

/* A kick each quarter, so three eighths without one are silence. */
static bool has_hats_alone(Person* const who)
{
    Heard hats[6];
    Heard kick;
    const size_t count = person_heard(who, since, HAT, hats, 6);
    return count == 6 && (!person_heard(who, since, KICK, &kick, 1) || kick.frame < hats[0].frame);
}

static bool has_kicks(Person* const who)
{
    (void)who;
    return count_of(KICK) >= 3;
}

/* The focus is on the tempo, where figures are typed: to the clock's switch first. */
static void a_limbs_key_silences_it_alone(void)
{
    if (!person_ready(here, missing)) {
        return;
    }
    since = person_messages(&person);
    CHECK(person_waits(has_kicks, &person));
    CHECK(KEYS("Tab", "3"));
    CHECK(person_waits(has_hats_alone, &person));
    since = person_messages(&person);
    CHECK(KEYS("3"));
    CHECK(person_waits(has_kicks, &person));
    CHECK(count_of(HAT) >= 4);
}

static bool is_soft(Person* const who)
{
    Heard on;
    return person_heard(who, since, HAT, &on, 1) && on.bytes[2] < 60;
}

/* 60 pixels down are 60 of 200 of the range from 1 to 127: 76 - 37.8. */
static void a_dial_dragged_down_makes_the_strokes_softer(void)
{
    if (!person_ready(here, missing)) {
        return;
    }
    Heard on;
    CHECK(person_heard(&person, since, HAT, &on, 1));
    CHECK_INT(on.bytes[2], 76);
    since = person_messages(&person);
    CHECK(person_drags(&person, (TargetId){TARGET_DIAL, CONTROL_LEVEL}, 0, 60));
    CHECK(person_waits(is_soft, &person));
    CHECK(person_heard(&person, since, HAT, &on, 1));
    CHECK_NEAR(on.bytes[2], 38, 1);
}

/* For more than three eighths at 200, by the server's own time. */
static bool is_silent(Person* const who)
{
    static size_t before;
    static int64_t heard_at;
    const int64_t now = jack_driver_frames(who->driver);
    if (person_messages(who) != before) {
        before = person_messages(who);
        heard_at = now;
    }
    return now - heard_at > jack_driver_rate(who->driver) / 2;
}

static void c_gives_the_clock_back_to_the_host(void)
{
    if (!person_ready(here, missing)) {
        return;
    }
    CHECK(KEYS("c"));
    CHECK(person_waits(is_silent, &person));
    const Move stop = {3 * (int64_t)jack_driver_rate(person.driver) / 2, MOVE_STOP, 0};
    since = person_messages(&person);
    CHECK(jack_driver_set(person.driver, &usual, 0));
    CHECK(jack_driver_play(person.driver, &stop, 1));
    CHECK(count_of(HAT) >= 5);
    CHECK_NEAR(eighth(), 0.25 * jack_driver_rate(person.driver), 1);
}

static bool host_ended(Person* const who)
{
    (void)who;
    return !stage_host_runs();
}

static void the_host_closed_in_full_swing_ends_in_peace(void)
{
    if (!person_ready(here, missing)) {
        return;
    }
    since = person_messages(&person);
    CHECK(KEYS("c"));
    CHECK(person_waits(has_kicks, &person));
    CHECK(person_closes_the_host(&person));
    CHECK(person_waits(host_ended, &person));
    CHECK_INT(child_last_status(), 0);
}

int main(void)
{
    here = person_arrives(&person, &missing);
    RUN(c_starts_the_own_clock_at_120);
    RUN(a_tempo_that_is_typed_is_the_tempo_heard);
    RUN(a_limbs_key_silences_it_alone);
    RUN(a_dial_dragged_down_makes_the_strokes_softer);
    RUN(c_gives_the_clock_back_to_the_host);
    RUN(the_host_closed_in_full_swing_ends_in_peace);
    person_leaves(&person);
    return tests_end();
}
