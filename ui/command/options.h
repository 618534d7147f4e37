// SPDX-License-Identifier: ISC
/* options.h - the one table of the command line: commands, and the options that each
   takes.  Reading, help, manual page and completion all come from it. */
#pragma once

#include "request.h"

#include <stddef.h>

/* Name, word, what may stand after it, what that can be (as an option's value), what the
   command is for. */
#define COMMANDS(X)                                                                                \
    X(RENDER, render, "", "", "write a groove or a song as a MIDI file, or as sound")              \
    X(SONG, song, "[PLAN.ttl]", "FILE",                                                            \
      "play a song's plan into a file, say what is where in it, or write one to begin from")       \
    X(SHOW, show, "", "", "print a groove limb by limb")                                           \
    X(VARY, vary, "", "", "say what else the feet could do under a groove's hands")                \
    X(CHART, chart, "", "", "draw a groove for a music stand")                                     \
    X(KEEP, keep, "", "",                                                                          \
      "make a folder for a bandmate: a file for a bank of their own, MIDI, a chart, a line")       \
    X(PRACTICE, practice, "", "",                                                                  \
      "fill a folder with a set to practise by: hands, feet, together")                            \
    X(LIST, list, "[KIND] [WORD]...", "grooves|hands|feet|turnarounds|kits|controls",              \
      "say what the bank holds: all, or grooves, hands, feet, turnarounds, kits, controls; words " \
      "are looked for, and may be \"under 7 at 180\", \"on triplets\" and \"in 7/8\" too")         \
    X(LISTEN, listen, "[WRITTEN.mid] PLAYED.mid", "FILE",                                          \
      "say how somebody played a groove: PLAYED.mid is what they played to a click, beside the "   \
      "groove that the options ask for, or beside another file")                                   \
    X(CHECK, check, "[FILE.ttl]", "FILE",                                                          \
      "say what is right and wrong in a file of figures, or in all of your own folder; with "      \
      "--groove, whether a person can play it")

#define COMMAND_NAME(name, word, operand, value, words) COMMAND_##name,
typedef enum { COMMANDS(COMMAND_NAME) COMMAND_COUNT } Command;
#undef COMMAND_NAME

typedef struct {
    const char* name;
    const char* operand; /* "" if nothing but options may follow */
    const char* value;   /* "" likewise */
    const char* words;
} CommandRow;

extern const CommandRow command_rows[COMMAND_COUNT];

/* One name may have two rows, for different commands. */
typedef struct {
    const char* name;  /* without its dashes */
    const char* value; /* a word for it, or those that it can be: "a|b"; NULL if it has none */
    unsigned commands; /* those that take it: 1 << COMMAND_... for each */
    bool (*take)(Request* request, const char* value); /* false, with a message, if it can't */
    const char* words; /* NULL: told of nowhere, as it is refused with what to do */
} OptionRow;

enum { OPTIONS_MAX = 64 }; /* rows, for whoever lists them */

extern const OptionRow option_rows[];
extern const size_t option_count;

/* COMMAND_COUNT if there is none of this name. */
Command options_command(const char* name);
