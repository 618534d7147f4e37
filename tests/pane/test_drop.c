// SPDX-License-Identifier: ISC
/* A file dropped on the window: this program drags, on a connection of its own, as XDND 5
   (freedesktop.org) has it; lists of files as RFC 2483 and RFC 8089 write them. */
#include "input.h"

#include "../help/wait.h"

#include <X11/Xatom.h>
#include <string.h>

typedef struct {
    Display* display;
    Window window; /* the source's */
    Stage* stage;
} Source;

static Atom atom(const Source* const source, const char* const name)
{
    return XInternAtom(source->display, name, False);
}

static void say(const Source* const source, const char* const kind, const long second,
                const long third, const long fourth, const long fifth)
{
    const Window target = (Window)pane_window(source->stage->pane);
    XEvent event = {.xclient = {.type = ClientMessage,
                                .window = target,
                                .message_type = atom(source, kind),
                                .format = 32}};
    event.xclient.data.l[0] = (long)source->window;
    event.xclient.data.l[1] = second;
    event.xclient.data.l[2] = third;
    event.xclient.data.l[3] = fourth;
    event.xclient.data.l[4] = fifth;
    XSendEvent(source->display, target, False, NoEventMask, &event);
    XSync(source->display, False);
}

/* The pane's answer of that kind. */
static bool hears(Source* const source, const char* const kind, XClientMessageEvent* const answer)
{
    Wait wait = wait_until("the pane answers");
    XEvent event;
    do {
        pane_poll(source->stage->pane);
        XSync(source->display, False);
        while (XCheckTypedEvent(source->display, ClientMessage, &event)) {
            if (event.xclient.message_type == atom(source, kind)) {
                *answer = event.xclient;
                return true;
            }
        }
    } while (CHECK(wait_goes_on(&wait)));
    return false;
}

/* What the pane asks for is `list`, NULL: nothing. */
static bool serves(Source* const source, const char* const list)
{
    Wait wait = wait_until("the pane asks what it is");
    XEvent event;
    do {
        pane_poll(source->stage->pane);
        XSync(source->display, False);
    } while (!XCheckTypedEvent(source->display, SelectionRequest, &event) &&
             CHECK(wait_goes_on(&wait)));
    const XSelectionRequestEvent* const asked = &event.xselectionrequest;
    XEvent answer = {.xselection = {.type = SelectionNotify,
                                    .requestor = asked->requestor,
                                    .selection = asked->selection,
                                    .target = asked->target,
                                    .property = list ? asked->property : None,
                                    .time = asked->time}};
    if (list) {
        XChangeProperty(source->display, asked->requestor, asked->property, asked->target, 8,
                        PropModeReplace, (const unsigned char*)list, (int)strlen(list));
    }
    XSendEvent(source->display, asked->requestor, False, NoEventMask, &answer);
    XSync(source->display, False);
    return CHECK_INT(asked->target, atom(source, "text/uri-list")) && CHECK_INT(asked->time, 77);
}

static bool opens(Source* const source, Stage* const stage)
{
    *source = (Source){.stage = stage};
    if (!begin(stage)) {
        return false;
    }
    source->display = XOpenDisplay(NULL);
    if (!CHECK(source->display)) {
        return false;
    }
    source->window = XCreateSimpleWindow(source->display, DefaultRootWindow(source->display), 0, 0,
                                         10, 10, 0, 0, 0);
    XSetSelectionOwner(source->display, atom(source, "XdndSelection"), source->window, CurrentTime);
    XSync(source->display, False);
    return true;
}

static void ends(Source* const source)
{
    XCloseDisplay(source->display);
    end(source->stage);
}

static void enters(const Source* const source, const char* const type)
{
    say(source, "XdndEnter", 5L << 24, (long)atom(source, type), 0, 0);
}

/* Drags and drops; the path that the window was told, NULL if none. */
static const char* drops(Source* const source, const char* const list, const bool want)
{
    XClientMessageEvent answer = {0};
    host_forget(&source->stage->host);
    enters(source, "text/uri-list");
    say(source, "XdndPosition", 0, 100L << 16 | 50, 76, (long)atom(source, "XdndActionCopy"));
    CHECK(hears(source, "XdndStatus", &answer));
    CHECK_INT(answer.data.l[0], pane_window(source->stage->pane));
    CHECK_INT(answer.data.l[1] & 1, 1);
    CHECK_INT(answer.data.l[4], atom(source, "XdndActionCopy"));
    say(source, "XdndDrop", 0, 77, 0, 0);
    CHECK(serves(source, list) && hears(source, "XdndFinished", &answer));
    CHECK_INT(answer.data.l[1] & 1, want);
    CHECK_INT(answer.data.l[2], want ? (long)atom(source, "XdndActionCopy") : 0);
    host_settle(&source->stage->host, source->stage->pane);
    const Host* const host = &source->stage->host;
    for (int i = 0; i < host->count; ++i) {
        if (host->events[i].kind == PANE_DROP) {
            return host->events[i].path;
        }
    }
    return NULL;
}

static bool said(void)
{
    Stage stage;
    Source source;
    unsigned char* version = NULL;
    Atom type = None;
    int format = 0;
    unsigned long count = 0;
    unsigned long rest = 0;
    if (!opens(&source, &stage)) {
        return false;
    }
    XGetWindowProperty(source.display, (Window)pane_window(stage.pane), atom(&source, "XdndAware"),
                       0, 1, False, XA_ATOM, &type, &format, &count, &rest, &version);
    const bool held = CHECK_INT(count, 1) && CHECK_INT(*(long*)(void*)version, 5);
    XFree(version);
    ends(&source);
    return held;
}

static void the_window_says_that_it_takes_files(void)
{
    CHECK_INT(apart(said), 1);
}

typedef struct {
    const char* list;
    const char* path; /* "": no file */
} Row;

static const Row rows[] = {
    {"file:///tmp/a.ttl\r\n", "/tmp/a.ttl"},
    {"file://localhost/tmp/a%20b.ttl\r\n", "/tmp/a b.ttl"},
    {"file:/tmp/plain", "/tmp/plain"},
    {"# a comment\r\nfile:///tmp/t%c3%A4kt\r\nfile:///tmp/second\r\n", "/tmp/t\xC3\xA4kt"},
    {"file:///tmp/100%\r\n", "/tmp/100%"},
    {"https://example.org/x\r\nfile:///tmp/last\r\n", "/tmp/last"},
    {"https://example.org/x\r\n", ""},
    {"file://elsewhere/tmp/a\r\n", ""},
    {"file:///tmp/zero%00byte\r\n", ""},
    {"file:", ""},
    {"", ""},
};

static bool told(void)
{
    Stage stage;
    Source source;
    bool held = opens(&source, &stage);
    for (size_t i = 0; held && i < sizeof rows / sizeof *rows; ++i) {
        check_case("%s", rows[i].list);
        const char* const path = drops(&source, rows[i].list, *rows[i].path != '\0');
        held = CHECK(path) && CHECK_TEXT(path, rows[i].path);
    }
    ends(&source);
    return held;
}

static void a_file_that_is_dropped_is_told_by_its_path(void)
{
    CHECK_INT(apart(told), 1);
}

static bool refused(void)
{
    Stage stage;
    Source source;
    XClientMessageEvent answer = {0};
    if (!opens(&source, &stage)) {
        return false;
    }
    enters(&source, "image/png");
    say(&source, "XdndPosition", 0, 0, 76, 0);
    bool held = hears(&source, "XdndStatus", &answer) && CHECK_INT(answer.data.l[1] & 1, 0);
    say(&source, "XdndDrop", 0, 77, 0, 0);
    held = held && hears(&source, "XdndFinished", &answer) && CHECK_INT(answer.data.l[1] & 1, 0);
    held = held && !drops(&source, NULL, false); /* the source has nothing after all */
    ends(&source);
    return held;
}

static void what_is_no_file_is_refused(void)
{
    CHECK_INT(apart(refused), 1);
}

/* Messages of nobody who has entered, of windows that are gone, of no sense. */
static bool harmless(void)
{
    Stage stage;
    Source source;
    if (!opens(&source, &stage)) {
        return false;
    }
    const Window real = source.window;
    say(&source, "XdndDrop", 0, 77, 0, 0);
    say(&source, "XdndPosition", 0, 0, 0, 0);
    for (long i = 0; i < 40; ++i) {
        source.window = (Window)(i * 7919);
        say(&source, "XdndEnter", i << 24 | (i & 1), (long)atom(&source, "text/uri-list"), -1, -1);
        say(&source, i & 2 ? "XdndPosition" : "XdndLeave", -1, -1, -1, -1);
        say(&source, "XdndDrop", -1, -1, -1, -1);
        pane_poll(stage.pane);
    }
    source.window = real;
    host_settle(&stage.host, stage.pane);
    XSync(source.display, True); /* what it asked of those */
    const char* const path = drops(&source, "file:///tmp/after\r\n", true);
    const bool held = CHECK(path) && CHECK_TEXT(path, "/tmp/after");
    ends(&source);
    return held;
}

static void messages_without_sense_do_no_harm(void)
{
    CHECK_INT(apart(harmless), 1);
}

int main(const int count, char** const arguments)
{
    static const Test tests[] = {
        TEST(the_window_says_that_it_takes_files),
        TEST(a_file_that_is_dropped_is_told_by_its_path),
        TEST(what_is_no_file_is_refused),
        TEST(messages_without_sense_do_no_harm),
    };
    return input_tests(count, arguments, tests, sizeof tests / sizeof *tests);
}
