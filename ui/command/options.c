// SPDX-License-Identifier: ISC
#include "options.h"

#include "listed.h"
#include "section.h"
#include "typed.h"
#include "varied.h"

#include <stdio.h>
#include <string.h>

#define COMMAND_ROW(name, word, operand, value, words) {#word, operand, value, words},
const CommandRow command_rows[COMMAND_COUNT] = {COMMANDS(COMMAND_ROW)};
#undef COMMAND_ROW

/* ---- Of the whole request; section.c has what is of a section, listed.c what is of a list */

static bool take_title(Request* const request, const char* const value)
{
    request->title = value;
    return true;
}

static bool take_variation(Request* const request, const char* const value)
{
    request->variation = value;
    return true;
}

static bool take_out(Request* const request, const char* const value)
{
    request->out = value;
    return true;
}

static bool take_notation(Request* const request, const char* const value)
{
    request->notation = value;
    return true;
}

static bool take_bundle(Request* const request, const char* const value)
{
    request->bundle = value;
    return true;
}

static bool take_force(Request* const request, const char* const value)
{
    (void)value;
    request->force = true;
    return true;
}

static bool take_soundfont(Request* const request, const char* const value)
{
    request->wav.soundfont = value;
    return true;
}

static bool take_rate(Request* const request, const char* const value)
{
    static const char* const words[] = {"44100", "48000", "96000"};
    static const int rates[] = {44100, 48000, 96000};
    const int word = typed_word(value, words, 3);
    request->wav.rate = word < 0 ? request->wav.rate : rates[word];
    return word >= 0 || typed_wrong("--rate", value, "44100, 48000 or 96000");
}

static bool take_bits(Request* const request, const char* const value)
{
    static const char* const words[] = {"16", "24"};
    const int word = typed_word(value, words, 2);
    request->wav.bits = word == 1 ? 24 : 16;
    return word >= 0 || typed_wrong("--bits", value, "16 or 24");
}

static bool take_from(Request* const request, const char* const value)
{
    return typed_tempo("--from", value, &request->from);
}

static bool take_to(Request* const request, const char* const value)
{
    return typed_tempo("--to", value, &request->to);
}

static bool take_steps(Request* const request, const char* const value)
{
    return typed_whole(value, 1, 12, &request->steps) ||
           typed_wrong("--steps", value, "a whole number from 1 to 12");
}

/* As people try it. */
static bool refuse_tempo(Request* const request, const char* const value)
{
    (void)request;
    fprintf(stderr, "fourlimb: --tempo %s: practice has --from and --to in its place\n", value);
    return false;
}

static bool take_minutes(Request* const request, const char* const value)
{
    return typed_number(value, 0.1, 180.0, &request->minutes) ||
           typed_wrong("--minutes", value, "minutes from 0.1 to 180");
}

static bool take_lighten(Request* const request, const char* const value)
{
    return request_lighten(value, &request->lighten) ||
           typed_wrong("--lighten", value,
                       "strokes a second from 1 to 40, or whose: such as 7, right-foot=7, hands=9");
}

static bool take_save(Request* const request, const char* const value)
{
    request->save = value;
    return *value || typed_wrong("--save", value, "a name for the figure");
}

static bool take_wav(Request* const request, const char* const value)
{
    (void)value;
    request->as_wav = true;
    return true;
}

static bool take_midi(Request* const request, const char* const value)
{
    (void)value;
    request->as_wav = false;
    return true;
}

static bool take_new(Request* const request, const char* const value)
{
    request->plan_title = value;
    return *value || typed_wrong("--new", value, "the song's title");
}

static bool take_sections(Request* const request, const char* const value)
{
    request->plan_sections = value;
    return true;
}

static bool take_help(Request* const request, const char* const value)
{
    (void)value;
    request->help = true;
    return true;
}

/* ---- The table */

#define FOR(name) (1U << COMMAND_##name)

enum {
    RENDERED = FOR(RENDER) | FOR(PRACTICE) | FOR(SONG),
    GROOVE =
        FOR(RENDER) | FOR(SHOW) | FOR(CHART) | FOR(PRACTICE) | FOR(CHECK) | FOR(KEEP) | FOR(LISTEN),
    PICKED = GROOVE | FOR(VARY),
    FILES = FOR(RENDER) | FOR(CHART) | FOR(PRACTICE) | FOR(SONG),
    ALL = (1U << COMMAND_COUNT) - 1
};

const OptionRow option_rows[] = {
    {"groove", "NAME", FOR(RENDER), section_groove,
     "begins a section; the options after it speak of that section"},
    {"preset", "NAME", FOR(RENDER), section_preset, "begins one too, with a preset's controls"},
    {"groove", "NAME", PICKED & ~FOR(RENDER), section_groove, "a groove (the bank's first)"},
    {"preset", "NAME", PICKED & ~FOR(RENDER), section_preset, "a preset's controls"},
    {"groove", "NAME", FOR(SONG), section_groove, "with --new: what all sections play at first"},
    {"new", "TITLE", FOR(SONG), take_new, "begins a plan, with --sections"},
    {"sections", "LIST", FOR(SONG), take_sections,
     "of a new plan: \"intro 4, verse 8, turn 1 2/4, verse 8, chorus 8 x2\""},
    {"hands", "NAME", PICKED, section_hands, "other hands than the groove's"},
    {"feet", "NAME", PICKED, section_feet, "other feet than the groove's"},
    {"ride-on", "CYMBAL", GROOVE, section_ride_on,
     "where the hands keep the time: closed, half-open, open, ride, bell, crash, china, floor-tom"},
    {"turnaround", "NAME", GROOVE, section_turnaround, "another turnaround, or none"},
    {"kit", "NAME", RENDERED | FOR(KEEP) | FOR(LISTEN), section_kit, "the kit map (General MIDI)"},
    {"bars", "N", FOR(RENDER), section_bars, "the section's length, 1 to 10000 (8)"},
    {"bars", "N", FOR(PRACTICE), section_bars, "each file's length (two minutes' worth)"},
    {"bars", "N", FOR(LISTEN), section_bars, "how many bars were played (to the last note)"},
    {"tempo", "BPM", PICKED & ~FOR(PRACTICE), section_tempo,
     "quarter notes a minute, 20 to 400 (as the groove is written)"},
    {"tempo", "BPM", FOR(PRACTICE), refuse_tempo, NULL},
    {"from", "BPM", FOR(PRACTICE), take_from, "the ladder of tempi begins here"},
    {"to", "BPM", FOR(PRACTICE), take_to, "and goes up to this (the groove's own tempo)"},
    {"steps", "N", FOR(PRACTICE), take_steps, "in so many tempi, 1 to 12 (4)"},
    {"minutes", "N", FOR(CHECK) | FOR(VARY) | FOR(LIST), take_minutes,
     "the length of the song that a person is to play (4)"},
    {"variation", "NAME", FOR(VARY), take_variation,
     "what is varied once more: a variation of the feet, by name or number"},
    {"variation", "NAME", GROOVE, varied_take,
     "a variation of the feet, by name or number; a second one is made of the first"},
    {"lighten", "[LIMB=]N", FOR(CHECK), take_lighten,
     "leave out strokes until no foot has more than N a second; or which: right-foot, "
     "left-foot, feet, right-hand, left-hand, hands"},
    {"save", "NAME", FOR(CHECK), take_save, "keep what was lightened as figures of your own"},
    {"meter", "B/U", PICKED, section_meter, "such as 7/8 (as the groove is written)"},
    {"meter", "B/U", FOR(LIST), section_meter, "only grooves in it, and figures that fit its bars"},
    {"grid", "GRID", FOR(LIST), listed_grid, "only what is on it: " LISTED_GRIDS},
    {"limit", "N", FOR(LIST), listed_limit,
     "only what asks for N strokes a second of one foot at most; a list of hands: of one hand"},
    {"limit", "N", FOR(VARY), listed_limit,
     "only what asks for N strokes a second of one foot at most"},
    {"tempo", "BPM", FOR(LIST), section_tempo,
     "tell strokes a second and whether a person can play it at this tempo; what is written "
     "for it comes first"},
    {"family", "NAME", FOR(LIST), listed_family, "only entries of this family"},
    {"click", "off|count-in|always", RENDERED, section_click,
     "where a click is heard (in the count-in; practice: always)"},
    {"count-in", "BARS", RENDERED, section_count_in,
     "bars of click first, 0 to 4 (0; practice: 1)"},
    {"count-in", "BARS", FOR(LISTEN), section_count_in,
     "bars in the file before bar 1, 0 to 4 (0)"},
    {"set", "SYMBOL=VALUE", GROOVE | FOR(SONG), section_set,
     "any control of the plugin; `fourlimb list controls` names them"},
    {"left-handed", NULL, FOR(SHOW) | FOR(CHART) | FOR(KEEP) | FOR(LISTEN), section_left_handed,
     "for who plays left-handed: right and left limbs are changed over"},
    {"title", "TEXT", FOR(RENDER) | FOR(CHART), take_title, "the name in the file"},
    {"title", "TEXT", FOR(KEEP), take_title, "what the groove and the folder are called"},
    {"wav", NULL, FOR(PRACTICE), take_wav, "the files are sound"},
    {"midi", NULL, FOR(PRACTICE), take_midi, "the files are MIDI, as without a word"},
    {"out", "FILE", FOR(RENDER), take_out, "the file to write: .mid, or .wav for sound"},
    {"out", "FILE", FOR(SONG), take_out,
     "the file to write: .mid, or .wav for sound; with --new .ttl"},
    {"out", "FILE", FOR(CHART), take_out, "the file to write: .pdf, .svg or .png"},
    {"notation", "FILE", FOR(CHART), take_notation,
     "five lines, into .musicxml for notation programs, .ly for LilyPond, or .pdf by it"},
    {"out", "FOLDER", FOR(PRACTICE), take_out, "the folder to fill"},
    {"out", "FOLDER", FOR(KEEP), take_out, "where the new folder goes (here)"},
    {"force", NULL, FILES, take_force, "in place of what is there already"},
    {"soundfont", "FILE", RENDERED, take_soundfont,
     "for sound: its drums (else a General MIDI one is sought)"},
    {"rate", "44100|48000|96000", RENDERED, take_rate, "of sound: frames a second (44100)"},
    {"bits", "16|24", RENDERED, take_bits, "of sound: bits a sample (16)"},
    {"presets", NULL, FOR(LIST), listed_presets, "the plugin's presets, in place of the bank"},
    {"kits", NULL, FOR(LIST), listed_kits, "the same as the kind kits"},
    {"bundle", "FOLDER", ALL, take_bundle,
     "the plugin to use, in place of the one beside this program"},
    {"help", NULL, ALL, take_help, "say what the command takes"},
};
const size_t option_count = sizeof option_rows / sizeof *option_rows;
_Static_assert(sizeof option_rows / sizeof *option_rows <= OPTIONS_MAX, "raise OPTIONS_MAX");

Command options_command(const char* const name)
{
    int command = 0;
    while (command < COMMAND_COUNT && strcmp(command_rows[command].name, name)) {
        ++command;
    }
    return (Command)command;
}
