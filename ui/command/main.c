// SPDX-License-Identifier: ISC
/* main.c - the command line: help, version, and the choice of a command. */
#include "commands.h"
#include "presets.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>

static const char help[] =
    "fourlimb plays drum grooves, limb by limb, through the Fourlimb plugin.\n"
    "\n"
    "  fourlimb render --groove NAME --out FILE.mid   write a groove as a MIDI file,\n"
    "  fourlimb render --groove NAME --out FILE.wav   or as sound\n"
    "  fourlimb show --groove NAME                    print a groove limb by limb\n"
    "  fourlimb chart --groove NAME --out FILE.pdf    draw it for a music stand (.pdf .svg .png)\n"
    "  fourlimb practice --groove NAME --out FOLDER   a set to practise by: hands, feet, together\n"
    "  fourlimb list [KIND]                           say what the bank holds\n"
    "  fourlimb list --presets                        and which presets the plugin has\n"
    "  fourlimb check [FILE.ttl]                      say what is right and wrong in a file of\n"
    "                                                 figures, or in all of your own folder\n"
    "  fourlimb --help, fourlimb --version\n"
    "\n"
    "Rendering\n"
    "  --groove NAME      begins a section; the options after it speak of that section\n"
    "  --preset NAME      begins one too, with a preset's controls\n"
    "  --bars N           its length (8)\n"
    "  --tempo BPM        quarter notes a minute, 20 to 400 (as the groove is written)\n"
    "  --meter B/U        such as 7/8 (as the groove is written)\n"
    "  --hands NAME  --feet NAME  --turnaround NAME|none  --kit NAME\n"
    "  --set SYMBOL=VALUE any control of the plugin; `fourlimb list controls` names them\n"
    "  --click off|count-in|always  --count-in BARS\n"
    "  --title TEXT       the song's name in the file\n"
    "  --out FILE         the file to write; one that is there stays, unless --force\n"
    "  --soundfont FILE   for .wav: its drums (else a General MIDI one is sought)\n"
    "  --rate 44100|48000|96000  --bits 16|24   of the .wav (44100, 16)\n"
    "  --bundle FOLDER    the plugin to use, in place of the one beside this program\n"
    "\n"
    "Practising\n"
    "  --from BPM  --to BPM  --steps N   the ladder of tempi (up to the groove's own, in 4)\n"
    "  --bars N           of each file (two minutes' worth)\n"
    "  --wav, --midi      kind of the files (MIDI); --out names the folder\n"
    "\n"
    "Your own figures: Turtle files in ~/.local/share/fourlimb (or $XDG_DATA_HOME/fourlimb).\n"
    "A NAME is a label in any case, an id, or a name from the Turtle such as feet:gallop.\n"
    "KIND is grooves, hands, feet, turnarounds, kits (also --kits) or controls.\n"
    "\n"
    "Examples\n"
    "  fourlimb render --groove \"Lower Station\" --bars 8 --tempo 180 --out part.mid\n"
    "  fourlimb render --groove 1 --feet gallop --set right_hand=0 --set left_hand=0 \\\n"
    "      --out feet-only.mid\n"
    "  fourlimb render --groove \"Lower Station\" --bars 16 --groove 3 --bars 4 --tempo 92 \\\n"
    "      --out song.mid\n"
    "  fourlimb show --groove 1 --feet herta\n"
    "\n"
    "Playing loud hurts hearing and playing long hurts limbs: see the cautions in README.md.\n";

typedef struct {
    const char* name;
    int (*run)(const Request* request);
} Command;

static const Command commands[] = {
    {"render", command_render}, {"list", command_list},   {"show", command_show},
    {"chart", command_chart},   {"check", command_check}, {"practice", command_practice},
};

/* Options that only one command has. */
static bool fits(const Request* const request, const Command* const command)
{
    const bool of_practice =
        request->from > 0.0 || request->to > 0.0 || request->steps > 0 || request->says_kind;
    if (of_practice && strcmp(command->name, "practice")) {
        fprintf(stderr, "fourlimb: --from, --to, --steps, --wav and --midi are for "
                        "`fourlimb practice`\n");
        return false;
    }
    if (request->presets && strcmp(command->name, "list")) {
        fprintf(stderr, "fourlimb: --presets is for `fourlimb list`; one is chosen by "
                        "--preset NAME\n");
        return false;
    }
    return true;
}

int main(const int count, char** const arguments)
{
    signal(SIGXFSZ, SIG_IGN); /* a file over the limit is an error to tell, not an end */
    const char* const name = count > 1 ? arguments[1] : "--help";
    if (!strcmp(name, "--help") || !strcmp(name, "help") || !strcmp(name, "-h")) {
        fputs(help, stdout);
        return count > 1 ? DONE : ASKED_WRONGLY;
    }
    if (!strcmp(name, "--version")) {
        puts("fourlimb " FOURLIMB_VERSION);
        return DONE;
    }
    if (count > 2 && !strcmp(arguments[2], "--help")) {
        fputs(help, stdout);
        return DONE;
    }
    for (size_t i = 0; i < sizeof commands / sizeof *commands; ++i) {
        if (!strcmp(name, commands[i].name)) {
            static Request request; /* too large for a stack */
            return request_read(&request, count - 2, arguments + 2) &&
                           fits(&request, &commands[i]) && presets_resolve(&request)
                       ? commands[i].run(&request)
                       : ASKED_WRONGLY;
        }
    }
    fprintf(stderr, "fourlimb: there is no command \"%s\"; `fourlimb --help` names them\n", name);
    return ASKED_WRONGLY;
}
