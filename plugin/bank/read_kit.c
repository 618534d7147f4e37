// SPDX-License-Identifier: ISC
#include "entries.h"
#include "names.h"

static void read_key(Subject* const key, Kit* const kit, bool has_key[VOICE_COUNT])
{
    const int voice = field_choice(key, "voice", voice_names, VOICE_COUNT);
    const int64_t note = field_integer(key, "note", 0, 127, -1);
    if (key->failed) {
        return;
    }
    if (has_key[voice]) {
        field_wrong(key, "voice", "fl:%s has two keys", voice_names[voice]);
    }
    kit->notes[voice] = (uint8_t)note;
    has_key[voice] = true;
}

/* Few instruments have a key that stops a cymbal. */
static void add_choke(Kit* const kit, bool has_key[VOICE_COUNT])
{
    if (!has_key[VOICE_CHOKE]) {
        kit->notes[VOICE_CHOKE] = KIT_NO_KEY;
    }
    has_key[VOICE_CHOKE] = true;
}

/* Kit maps from before there was a click have no key for it: the keys that
   General MIDI 2 has (Metronome Click and Metronome Bell). */
static void add_click(Kit* const kit, bool has_key[VOICE_COUNT])
{
    if (!has_key[VOICE_CLICK]) {
        kit->notes[VOICE_CLICK] = 33;
    }
    if (!has_key[VOICE_CLICK_ACCENT]) {
        kit->notes[VOICE_CLICK_ACCENT] = 34;
    }
    has_key[VOICE_CLICK] = has_key[VOICE_CLICK_ACCENT] = true;
}

bool read_kit(Subject* const subject, const EntryReading* const reading, const EntryKind kind,
              const uint32_t id, void* const value)
{
    (void)reading;
    (void)kind;
    Kit* const kit = (Kit*)value;
    bool has_key[VOICE_COUNT] = {false};
    *kit = (Kit){.id = id};
    SordIter* const found =
        turtle_find(subject->turtle, subject->subject, field_property(subject, "key"), NULL);
    for (; !sord_iter_end(found); sord_iter_next(found)) {
        Subject key = {subject->turtle, subject->diagnostics,
                       sord_iter_get_node(found, SORD_OBJECT), false};
        read_key(&key, kit, has_key);
        subject->failed |= key.failed;
    }
    sord_iter_free(found);
    add_click(kit, has_key);
    add_choke(kit, has_key);
    for (int voice = 0; !subject->failed && voice < VOICE_COUNT; ++voice) {
        if (!has_key[voice]) {
            field_wrong(subject, "key", "there is none for fl:%s", voice_names[voice]);
        }
    }
    return !subject->failed;
}
