// SPDX-License-Identifier: ISC
/* A file that somebody drags here and drops: the target's side of XDND 5
   (freedesktop.org), one kind of data, text/uri-list (RFC 2483).  A program that drags
   goes down from the root to the first window that says XdndAware (seen of GTK 3 and Qt 5), which
   in a host is the host's own; past that only one comes that looks for the innermost.  Whatever
   it sends is checked, and its own end is no error of ours (pane_guard). */
#include "pane_inside.h"

#include <X11/Xatom.h>

#include <stdio.h>
#include <string.h>

enum { VERSION = 5, LEAST_VERSION = 3, TYPES_MOST = 256, LIST_LONGS_MOST = 16384, ENTER_TYPES = 3 };

static const char* const names[PANE_DROP_ATOMS] = {
    [PANE_DROP_AWARE] = "XdndAware",        [PANE_DROP_ENTER] = "XdndEnter",
    [PANE_DROP_POSITION] = "XdndPosition",  [PANE_DROP_STATUS] = "XdndStatus",
    [PANE_DROP_LEAVE] = "XdndLeave",        [PANE_DROP_DROP] = "XdndDrop",
    [PANE_DROP_FINISHED] = "XdndFinished",  [PANE_DROP_SELECTION] = "XdndSelection",
    [PANE_DROP_TYPES] = "XdndTypeList",     [PANE_DROP_COPY] = "XdndActionCopy",
    [PANE_DROP_URI_LIST] = "text/uri-list",
};

void pane_drop_prepare(Pane* const pane)
{
    const Atom version = VERSION; /* Xlib wants longs for 32 bits */
    for (int i = 0; i < PANE_DROP_ATOMS; ++i) {
        pane->drop.atoms[i] = XInternAtom(pane->display, names[i], False);
    }
    XChangeProperty(pane->display, pane->window, pane->drop.atoms[PANE_DROP_AWARE], XA_ATOM, 32,
                    PropModeReplace, (const unsigned char*)&version, 1);
}

/* ---- To the program that drags */

static void answer(const Pane* const pane, const PaneDropAtom message, const bool accepts)
{
    const PaneDrop* const drop = &pane->drop;
    XEvent event = {.xclient = {.type = ClientMessage,
                                .window = drop->source,
                                .message_type = drop->atoms[message],
                                .format = 32}};
    const long action = accepts ? (long)drop->atoms[PANE_DROP_COPY] : 0;
    event.xclient.data.l[0] = (long)pane->window;
    event.xclient.data.l[1] = accepts;
    event.xclient.data.l[message == PANE_DROP_STATUS ? 4 : 2] = action;
    XSendEvent(pane->display, drop->source, False, NoEventMask, &event);
}

static void finish(Pane* const pane, const bool accepts)
{
    answer(pane, PANE_DROP_FINISHED, accepts);
    pane->drop.source = None;
    pane->drop.has_list = false;
}

/* ---- From it */

/* Up to three types stand in the message itself, more in a list on its window. */
static bool lists_uris(const Pane* const pane, const XClientMessageEvent* const event)
{
    const PaneDrop* const drop = &pane->drop;
    const Atom wanted = drop->atoms[PANE_DROP_URI_LIST];
    if (!(event->data.l[1] & 1)) {
        bool has = false;
        for (int i = 0; i < ENTER_TYPES; ++i) {
            has = has || (Atom)event->data.l[2 + i] == wanted;
        }
        return has;
    }
    Atom type = None;
    int format = 0;
    unsigned long count = 0;
    unsigned long rest = 0;
    unsigned char* list = NULL;
    bool has = false;
    if (XGetWindowProperty(pane->display, drop->source, drop->atoms[PANE_DROP_TYPES], 0, TYPES_MOST,
                           False, XA_ATOM, &type, &format, &count, &rest, &list) == Success &&
        list && type == XA_ATOM && format == 32) {
        for (unsigned long i = 0; i < count; ++i) {
            Atom atom = None;
            memcpy(&atom, list + i * sizeof atom, sizeof atom);
            has = has || atom == wanted;
        }
    }
    if (list) {
        XFree(list);
    }
    return has;
}

static void enter(Pane* const pane, const XClientMessageEvent* const event)
{
    PaneDrop* const drop = &pane->drop;
    const long version = (event->data.l[1] >> 24) & 255;
    drop->source = (Window)event->data.l[0];
    drop->has_list = version >= LEAST_VERSION && lists_uris(pane, event);
}

static void take_drop(Pane* const pane, const XClientMessageEvent* const event)
{
    PaneDrop* const drop = &pane->drop;
    if (!drop->has_list) {
        finish(pane, false);
        return;
    }
    XConvertSelection(pane->display, drop->atoms[PANE_DROP_SELECTION],
                      drop->atoms[PANE_DROP_URI_LIST], drop->atoms[PANE_DROP_URI_LIST],
                      pane->window, (Time)event->data.l[2]);
}

void pane_drop_message(Pane* const pane, const XClientMessageEvent* const event)
{
    PaneDrop* const drop = &pane->drop;
    const Atom kind = event->message_type;
    if (event->format != 32) {
        return;
    }
    if (kind == drop->atoms[PANE_DROP_ENTER]) {
        enter(pane, event);
    } else if (!drop->source || (Window)event->data.l[0] != drop->source) {
        return; /* of nobody who has entered */
    } else if (kind == drop->atoms[PANE_DROP_POSITION]) {
        answer(pane, PANE_DROP_STATUS, drop->has_list);
    } else if (kind == drop->atoms[PANE_DROP_LEAVE]) {
        drop->source = None;
    } else if (kind == drop->atoms[PANE_DROP_DROP]) {
        take_drop(pane, event);
    }
}

/* ---- What was dropped */

static int hex(const char c)
{
    return c >= '0' && c <= '9'   ? c - '0'
           : c >= 'a' && c <= 'f' ? c - 'a' + 10
           : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                  : -1;
}

/* RFC 8089: file:///path, file://localhost/path or file:/path, up to the line's end; false if
   it is no file of this machine, or has no room. */
static bool decode(const char* uri, char path[PANE_PATH_ROOM])
{
    size_t length = 0;
    if (strncmp(uri, "file:", 5) != 0) {
        return false;
    }
    uri += 5;
    uri += !strncmp(uri, "//localhost/", 12) ? 11 : !strncmp(uri, "///", 3) ? 2 : 0;
    if (uri[0] != '/' || uri[1] == '/') {
        return false;
    }
    for (; *uri && *uri != '\r' && *uri != '\n'; ++uri) {
        const int high = *uri == '%' ? hex(uri[1]) : -1;
        const int low = high >= 0 ? hex(uri[2]) : -1;
        const unsigned char byte =
            low >= 0 ? (unsigned char)(high * 16 + low) : (unsigned char)*uri;
        const char c = (char)byte;
        if (!c || length + 1 >= PANE_PATH_ROOM) {
            return false;
        }
        path[length++] = c;
        uri += low >= 0 ? 2 : 0;
    }
    path[length] = '\0';
    return length > 0;
}

/* The first line that is a file; those with # are comments. */
static bool first_file(const char* list, char path[PANE_PATH_ROOM])
{
    while (*list) {
        if (*list != '#' && decode(list, path)) {
            return true;
        }
        list += strcspn(list, "\n");
        list += *list != '\0';
    }
    path[0] = '\0';
    return false;
}

const char* pane_drop_selection(Pane* const pane, const XSelectionEvent* const event)
{
    PaneDrop* const drop = &pane->drop;
    Atom type = None;
    int format = 0;
    unsigned long count = 0;
    unsigned long rest = 0;
    unsigned char* list = NULL;
    if (!drop->source || event->selection != drop->atoms[PANE_DROP_SELECTION]) {
        return NULL;
    }
    /* Xlib puts a zero behind what it hands over */
    const bool came =
        event->property != None &&
        XGetWindowProperty(pane->display, pane->window, event->property, 0, LIST_LONGS_MOST, True,
                           AnyPropertyType, &type, &format, &count, &rest, &list) == Success &&
        list && format == 8 && type == drop->atoms[PANE_DROP_URI_LIST];
    const bool is_file = came && first_file((const char*)list, drop->path);
    if (list) {
        XFree(list);
    }
    finish(pane, is_file);
    return is_file ? drop->path : came ? "" : NULL;
}
