// SPDX-License-Identifier: ISC
/* person.h - somebody at a host's screen: finds the plugin's window in a running
   host, points, drags and types by xdotool, and knows from a desk of the test's own
   where things stand.  And ears: what the plugin plays, by a JACK client. */
#pragma once

#include "../../ui/desk/controller.h"
#include "../../ui/desk/incoming.h"
#include "../live/jack_driver.h"

#include <X11/Xlib.h>

typedef struct {
    JackDriver* driver; /* NULL: there is no JACK server or no host */
    Display* display;
    Window window;
    int x, y; /* on the screen, when last looked at */
    int width, height;
    Model model; /* as it was opened: where things stand, not what they show */
    Uris uris;
} Person;

/* Starts screen, JACK server and jalv.gtk3 with the plugin and the bank beside this
   file, and finds the window.  False: person_why_not says why; `*missing` if a
   program isn't there, which is no fault of the plugin's. */
bool person_arrives(Person* person, bool* missing);
const char* person_why_not(void);

/* For each test to begin with: whether person_arrives came to something.  If not,
   the test is skipped for what is missing, or fails. */
bool person_ready(bool here, bool missing);

void person_leaves(Person* person);

/* Each false after a failed check.  A click on the ground hands the window the keys. */
bool person_clicks_ground(Person* person);
bool person_drags(Person* person, TargetId id, int right, int down);

/* Keys by their X11 names, ended by NULL. */
bool person_types(const char* const keys[]);
#define KEYS(...) person_types((const char* const[]){__VA_ARGS__, NULL})

/* Closes the host's window, as a window manager asks it to (ICCCM 4.2.8.1). */
bool person_closes_the_host(const Person* person);

/* Until it holds; false, after words, if it never does. */
bool person_waits(bool (*until)(Person* person), Person* person);

enum { KICK = 36, HAT = 42 };

/* Note-ons of a key since message number `from`, the last `room` of them; how many. */
size_t person_heard(const Person* person, size_t from, uint8_t key, Heard* ons, size_t room);

/* How many messages were heard so far. */
size_t person_messages(const Person* person);
