// SPDX-License-Identifier: ISC
#include "person.h"

#include "../help/check.h"
#include "../help/wait.h"
#include "../live/child.h"
#include "../live/stage.h"
#include "../pane/xvfb.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { NOTE_ON_10 = 0x99, WORDS_MAX = 24 };

static char why_not[512];

const char* person_why_not(void)
{
    return why_not;
}

/* ---- Finding the window: by its name, as deep in the tree as it may be */

static Window look_for(Display* const display, const Window in)
{
    char* name = NULL;
    const bool named = XFetchName(display, in, &name) && !strcmp(name, "Fourlimb");
    Window root;
    Window parent;
    Window* children = NULL;
    unsigned count = 0;
    Window found = None;
    if (name) {
        XFree(name);
    }
    if (!XQueryTree(display, in, &root, &parent, &children, &count)) {
        return None;
    }
    for (unsigned i = 0; i < count && !found; ++i) {
        found = look_for(display, children[i]);
    }
    XWindowAttributes seen;
    if (!found && named && XGetWindowAttributes(display, in, &seen) &&
        seen.map_state == IsViewable && !count) {
        found = in;
    }
    if (children) {
        XFree(children);
    }
    return found;
}

/* Windows may go while they are looked at. */
static int never_mind(Display* const display, XErrorEvent* const event)
{
    (void)display;
    (void)event;
    return 0;
}

static bool find_window(Person* const person)
{
    Wait wait = wait_until("the host shows the plugin's window");
    do {
        person->window = look_for(person->display, DefaultRootWindow(person->display));
    } while (!person->window && stage_host_runs() && wait_goes_on(&wait));
    return person->window;
}

/* Where it is now: hosts lay out again whenever they like. */
static bool find_place(Person* const person)
{
    Window child;
    XWindowAttributes seen = {0};
    const Window root = DefaultRootWindow(person->display);
    if (!XGetWindowAttributes(person->display, person->window, &seen) ||
        !XTranslateCoordinates(person->display, person->window, root, 0, 0, &person->x, &person->y,
                               &child)) {
        return false;
    }
    if (seen.width != person->width || seen.height != person->height) {
        person->width = seen.width;
        person->height = seen.height;
        controller_resize(&person->model, seen.width, seen.height, 1.0);
    }
    return true;
}

/* ---- Coming and going */

static void write_nothing(void* const handle, const uint32_t port, const float value)
{
    (void)handle;
    (void)port;
    (void)value;
}

/* GTK is to start nothing of its own that would outlive it. */
static void quieten(void)
{
    setenv("NO_AT_BRIDGE", "1", 1);
    setenv("GSETTINGS_BACKEND", "memory", 1);
    setenv("DBUS_SESSION_BUS_ADDRESS", "disabled:", 1);
}

static bool is_installed(const char* const program)
{
    const char* const words[] = {"sh", "-c", "command -v \"$0\"", program, NULL};
    return run_program(words) == 0;
}

static bool has_programs(void)
{
    static const char* const programs[] = {"Xvfb", "jackd", "jalv.gtk3", "xdotool", "stdbuf"};
    for (size_t i = 0; i < sizeof programs / sizeof *programs; ++i) {
        if (!is_installed(programs[i])) {
            snprintf(why_not, sizeof why_not, "%s isn't installed", programs[i]);
            return false;
        }
    }
    return true;
}

bool person_arrives(Person* const person, bool* const missing)
{
    static const char* const host[] = {
        "stdbuf", "-oL", "jalv.gtk3", "--print-controls", "urn:fourlimb:groove", NULL};
    memset(person, 0, sizeof *person);
    *missing = !has_programs();
    if (*missing) {
        return false;
    }
    if (!xvfb_start(NULL, missing)) {
        snprintf(why_not, sizeof why_not, "Xvfb doesn't start");
        return false;
    }
    quieten();
    person->driver = stage_open(FOURLIMB_SOURCE "/tests/window/bank", host);
    *missing = !person->driver && !stage_server_runs();
    person->display = XOpenDisplay(NULL);
    XSetErrorHandler(never_mind);
    const bool good = person->driver && person->display && find_window(person) &&
                      jack_driver_listen(person->driver, "midi_out", stage_host_runs) &&
                      controller_open(&person->model, NULL, &person->uris,
                                      (ModelOutput){.write = write_nothing}) &&
                      find_place(person);
    if (!good) {
        snprintf(why_not, sizeof why_not, "%s; the last word: %s",
                 person->driver ? "no window in jalv.gtk3" : stage_why_not(), stage_last_words());
    }
    return good;
}

bool person_ready(const bool here, const bool missing)
{
    if (!here && missing) {
        test_skip(person_why_not());
    } else if (!here) {
        printf("# %s\n", person_why_not());
        CHECK(here);
    }
    return here;
}

void person_leaves(Person* const person)
{
    controller_close(&person->model);
    if (person->display) {
        XCloseDisplay(person->display);
    }
    stage_close(person->driver);
    xvfb_end();
}

/* ---- Hands */

static bool tool(const char* const words[])
{
    return CHECK_INT(run_program(words), 0);
}

/* Whether the pointer is at that place of the window, with nothing in between. */
static bool points_at(const Person* const person, const int x, const int y)
{
    Window root;
    Window child = None;
    Window in = DefaultRootWindow(person->display);
    int at[4];
    unsigned buttons;
    do { /* down the tree to what is under the pointer */
        if (!XQueryPointer(person->display, in, &root, &child, &at[0], &at[1], &at[2], &at[3],
                           &buttons)) {
            return false;
        }
        in = child ? child : in;
    } while (child);
    return in == person->window && at[2] == x && at[3] == y;
}

static bool go_to(Person* const person, const double x, const double y)
{
    char left[16];
    char top[16];
    Wait wait = wait_until("the pointer is at its place in the plugin's window");
    do {
        if (!CHECK(find_place(person))) {
            return false;
        }
        snprintf(left, sizeof left, "%d", person->x + (int)x);
        snprintf(top, sizeof top, "%d", person->y + (int)y);
        if (!tool((const char* const[]){"xdotool", "mousemove", left, top, NULL})) {
            return false;
        }
    } while (!points_at(person, (int)x, (int)y) && CHECK(wait_goes_on(&wait)));
    return points_at(person, (int)x, (int)y);
}

static bool has_keys(const Person* const person)
{
    Window focus = None;
    int revert;
    XGetInputFocus(person->display, &focus, &revert);
    return focus == person->window;
}

bool person_clicks_ground(Person* const person)
{
    if (!CHECK(find_place(person)) || !go_to(person, person->width - 6, person->height - 6) ||
        !tool((const char* const[]){"xdotool", "click", "1", NULL})) {
        return false;
    }
    Wait wait = wait_until("the plugin's window has the keys");
    while (!has_keys(person) && CHECK(wait_goes_on(&wait))) {
    }
    return has_keys(person);
}

bool person_drags(Person* const person, const TargetId id, const int right, const int down)
{
    TargetList targets;
    char along[16];
    char below[16];
    const Geometry g = geometry_of(&person->model.view);
    targets_of(&person->model.view, &g, &targets);
    const Target* const target = targets_find(&targets, id);
    if (!CHECK(target)) {
        return false;
    }
    const Fit fit = person->model.fit;
    snprintf(along, sizeof along, "%d", right);
    snprintf(below, sizeof below, "%d", down);
    return go_to(person, fit.x + fit.scale * (target->box.x + 0.5 * target->box.width),
                 fit.y + fit.scale * (target->box.y + 0.5 * target->box.height)) &&
           tool((const char* const[]){"xdotool", "mousedown", "1", "mousemove_relative", "--",
                                      along, below, "mouseup", "1", NULL});
}

/* The window's ancestor that is a child of the root. */
static Window top_of(const Person* const person)
{
    Window top = person->window;
    Window root = None;
    Window parent = top;
    while (parent && parent != root) {
        Window* children = NULL;
        unsigned count = 0;
        top = parent;
        if (!XQueryTree(person->display, top, &root, &parent, &children, &count)) {
            return None;
        }
        if (children) {
            XFree(children);
        }
    }
    return top;
}

bool person_closes_the_host(const Person* const person)
{
    const Window top = top_of(person);
    XEvent event = {.xclient = {.type = ClientMessage,
                                .window = top,
                                .message_type = XInternAtom(person->display, "WM_PROTOCOLS", False),
                                .format = 32}};
    event.xclient.data.l[0] = (long)XInternAtom(person->display, "WM_DELETE_WINDOW", False);
    return CHECK(top) && CHECK(XSendEvent(person->display, top, False, NoEventMask, &event)) &&
           CHECK(XSync(person->display, False));
}

bool person_types(const char* const keys[])
{
    const char* words[WORDS_MAX] = {"xdotool", "key"};
    int count = 2;
    while (*keys && count < WORDS_MAX - 1) {
        words[count++] = *keys++;
    }
    words[count] = NULL;
    return tool(words);
}

bool person_waits(bool (*const until)(Person* person), Person* const person)
{
    Wait wait = wait_until("what a person did is seen or heard");
    bool holds = until(person);
    while (!holds && wait_goes_on(&wait)) {
        holds = until(person);
    }
    if (!holds) {
        printf("# the host %s; its last word: %s; %zu messages heard, tempo_now %g\n",
               stage_host_runs() ? "runs" : "has ended", stage_last_words(),
               person_messages(person), stage_last_value("tempo_now"));
    }
    return holds;
}

/* ---- Ears */

size_t person_messages(const Person* const person)
{
    const Heard* heard;
    return jack_driver_heard(person->driver, &heard);
}

size_t person_heard(const Person* const person, const size_t from, const uint8_t key,
                    Heard* const ons, const size_t room)
{
    const Heard* heard;
    const size_t end = jack_driver_heard(person->driver, &heard);
    size_t count = 0;
    for (size_t i = from; i < end; ++i) {
        if (heard[i].bytes[0] == NOTE_ON_10 && heard[i].bytes[1] == key && heard[i].bytes[2] > 0) {
            if (count == room) {
                memmove(ons, ons + 1, (room - 1) * sizeof *ons);
                --count;
            }
            ons[count++] = heard[i];
        }
    }
    return count;
}
