// SPDX-License-Identifier: ISC
#include "pane_inside.h"

#include <X11/Xutil.h>
#include <X11/keysym.h>

#include <stddef.h>

typedef struct {
    uint32_t from, to;
} Pair;

static uint32_t look_up(const Pair* const pairs, const size_t count, const uint32_t from)
{
    for (size_t i = 0; i < count; ++i) {
        if (pairs[i].from == from) {
            return pairs[i].to;
        }
    }
    return 0;
}
#define LOOK_UP(pairs, from) look_up(pairs, sizeof(pairs) / sizeof *(pairs), from)

/* Keys that have a control code of ASCII. */
static const Pair CODES[] = {
    {0x08, PANE_KEY_BACKSPACE}, {0x09, PANE_KEY_TAB},    {0x0a, PANE_KEY_ENTER},
    {0x0d, PANE_KEY_ENTER},     {0x1b, PANE_KEY_ESCAPE}, {0x7f, PANE_KEY_DELETE},
};

/* Keysyms of keys without a character. */
static const Pair SYMBOLS[] = {
    {XK_ISO_Left_Tab, PANE_KEY_TAB}, /* Shift+Tab */
    {XK_Up, PANE_KEY_UP},
    {XK_Down, PANE_KEY_DOWN},
    {XK_Left, PANE_KEY_LEFT},
    {XK_Right, PANE_KEY_RIGHT},
    {XK_Page_Up, PANE_KEY_PAGE_UP},
    {XK_Page_Down, PANE_KEY_PAGE_DOWN},
    {XK_Home, PANE_KEY_HOME},
    {XK_End, PANE_KEY_END},
    {XK_Insert, PANE_KEY_INSERT},
    {XK_KP_Up, PANE_KEY_UP},
    {XK_KP_Down, PANE_KEY_DOWN},
    {XK_KP_Left, PANE_KEY_LEFT},
    {XK_KP_Right, PANE_KEY_RIGHT},
    {XK_KP_Page_Up, PANE_KEY_PAGE_UP},
    {XK_KP_Page_Down, PANE_KEY_PAGE_DOWN},
    {XK_KP_Home, PANE_KEY_HOME},
    {XK_KP_End, PANE_KEY_END},
    {XK_KP_Insert, PANE_KEY_INSERT},
    {XK_KP_Delete, PANE_KEY_DELETE},
};

/* Keysyms that Control turns into a code some letter has too. */
static const Pair DOUBLED[] = {
    {XK_BackSpace, PANE_KEY_BACKSPACE}, {XK_Tab, PANE_KEY_TAB},        {XK_Return, PANE_KEY_ENTER},
    {XK_KP_Enter, PANE_KEY_ENTER},      {XK_Linefeed, PANE_KEY_ENTER}, {XK_Escape, PANE_KEY_ESCAPE},
};

static PaneEvent key_event(const uint32_t key, const uint32_t modifiers)
{
    return (PaneEvent){.kind = PANE_KEY, .key = key, .modifiers = modifiers};
}

static bool is_upper(const uint32_t c)
{
    return (c >= 'A' && c <= 'Z') || (c >= 0xc0 && c <= 0xde && c != 0xd7); /* Latin-1 */
}

static PaneEvent typed(const uint32_t c, const uint32_t modifiers)
{
    PaneEvent event = key_event(is_upper(c) ? c + 0x20 : c, modifiers);
    event.text = modifiers & (PANE_CONTROL | PANE_ALT | PANE_SUPER) ? 0 : c;
    return event;
}

/* A byte of Latin-1, or the code that Control makes of one. */
static PaneEvent of_character(const uint32_t c, const uint32_t modifiers)
{
    if (modifiers & PANE_CONTROL && c >= 1 && c <= 26) {
        return key_event('a' + c - 1, modifiers);
    }
    const uint32_t named = LOOK_UP(CODES, c);
    if (named || c < 0x20 || (c >= 0x7f && c < 0xa0)) {
        return key_event(named, modifiers);
    }
    return typed(c, modifiers);
}

uint32_t pane_modifiers(const unsigned state)
{
    return (state & ShiftMask ? PANE_SHIFT : 0U) | (state & ControlMask ? PANE_CONTROL : 0U) |
           (state & Mod1Mask ? PANE_ALT : 0U) | (state & Mod4Mask ? PANE_SUPER : 0U);
}

static uint32_t named_by(const KeySym symbol)
{
    if (symbol >= XK_F1 && symbol <= XK_F12) {
        return PANE_KEY_F1 + (uint32_t)(symbol - XK_F1);
    }
    return LOOK_UP(SYMBOLS, (uint32_t)symbol);
}

static PaneEvent key_of(XKeyEvent* const event)
{
    char characters[8];
    KeySym symbol = NoSymbol;
    const int count = XLookupString(event, characters, sizeof characters, &symbol, NULL);
    const uint32_t modifiers = pane_modifiers(event->state);
    const uint32_t named = modifiers & PANE_CONTROL && LOOK_UP(DOUBLED, (uint32_t)symbol)
                               ? LOOK_UP(DOUBLED, (uint32_t)symbol)
                               : named_by(symbol);
    if (named) {
        return key_event(named, modifiers);
    }
    if (count == 1) {
        return of_character((unsigned char)characters[0], modifiers);
    }
    if (symbol >= 0x01000100 && symbol <= 0x0110ffff) { /* X11 protocol, appendix A */
        return typed((uint32_t)(symbol - 0x01000000), modifiers);
    }
    return key_event(0, modifiers);
}

/* The row above the letters: keycodes of X are those of Linux (KEY_1 is 2 in
   linux/input-event-codes.h, KEY_0 is 11) and 8 more, as xkeyboard-config's keycodes/evdev
   and keycodes/xfree86 both have it. */
static uint32_t place_of(const unsigned keycode)
{
    enum { FIRST_KEY = 10, DIGITS = 10 };
    return keycode >= FIRST_KEY && keycode < FIRST_KEY + DIGITS
               ? (uint32_t) "1234567890"[keycode - FIRST_KEY]
               : 0;
}

PaneEvent pane_key_of(XKeyEvent* const event)
{
    PaneEvent told = key_of(event);
    told.place = place_of(event->keycode);
    return told;
}
