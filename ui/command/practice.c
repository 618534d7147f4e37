// SPDX-License-Identifier: ISC
#include "outfile.h"
#include "chartfile.h"
#include "commands.h"
#include "practice_set.h"
#include "soundfont.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static int make_plan(Practice* const practice)
{
    char path[PATH_ROOM], why[SAVE_WHY_ROOM];
    char* text = NULL;
    size_t size = 0;
    FILE* const memory = open_memstream(&text, &size);
    if (!memory) {
        return practice_say("there is no memory for the plan", "", FAILED);
    }
    routine_print(memory, &practice->routine);
    snprintf(path, sizeof path, "%s/plan.md", practice->request->out);
    bool good = fclose(memory) == 0;
    good = good && outfile_save(path, text, size, practice->request->force, why);
    free(text);
    if (!good) {
        return practice_say(why, "", FAILED);
    }
    printf("wrote %s: read it first\n", path);
    return DONE;
}

static bool is_empty(const char* const folder)
{
    DIR* const open = opendir(folder);
    int entries = 0;
    for (struct dirent* entry = open ? readdir(open) : NULL; entry; entry = readdir(open)) {
        entries += strcmp(entry->d_name, ".") && strcmp(entry->d_name, "..");
    }
    if (open) {
        closedir(open);
    }
    return open && !entries;
}

static int make_folder(Practice* const practice)
{
    const char* const folder = practice->request->out;
    practice->made_folder = mkdir(folder, 0777) == 0;
    if (practice->made_folder || (errno == EEXIST && is_empty(folder))) {
        return DONE;
    }
    const int error = errno;
    struct stat there;
    if (stat(folder, &there) == 0 && S_ISDIR(there.st_mode)) {
        return practice->request->force ? DONE
                                        : practice_say(folder,
                                                       " is a folder with something in it; "
                                                       "choose another name, or add --force",
                                                       FAILED);
    }
    fprintf(stderr, "fourlimb: the folder %s can't be made: %s\n", folder, strerror(error));
    return FAILED;
}

/* At the tempo that all this is for. */
static int make_chart(Practice* const practice)
{
    static Section section; /* too large for a stack */
    char path[PATH_ROOM];
    practice_set_up(practice, practice->routine.limbs, practice->to, 0, &section);
    snprintf(path, sizeof path, "%s/%s", practice->request->out, practice->routine.chart);
    return chartfile_write(&practice->performance, &section, practice->routine.title, path,
                           practice->request->force);
}

static int make_all(Practice* const practice)
{
    int status = practice_ladder(practice);
    picks_title(&practice->picks, practice->what, sizeof practice->what);
    practice->routine.picks = &practice->picks;
    practice->routine.title = practice->what;
    practice->routine.chart = "chart.pdf";
    status = status == DONE ? practice_find_limbs(practice) : status;
    status = status == DONE ? make_folder(practice) : status;
    status = status == DONE ? practice_make_files(practice) : status;
    status = status == DONE ? make_chart(practice) : status;
    status = status == DONE ? make_plan(practice) : status;
    if (status != DONE && practice->made_folder) {
        rmdir(practice->request->out); /* goes only if nothing is in it */
    }
    return status;
}

/* With click and count-in where nothing else was asked: a preset asks by what it has
   moved from where the control was at first. */
static void add_default(Section* const section, const Control control, const float value)
{
    const float normal = control_rows[control].normal;
    const char* const symbol = control_rows[control].symbol;
    const double preset = request_preset_value(section, symbol, (double)normal);
    if (!(preset > (double)normal || preset < (double)normal)) {
        request_put(section->preset_values, &section->preset_count, symbol, value);
    }
}

/* The ladder of tempi is said by options of its own: nothing typed is undone without a
   word. */
static bool leaves_the_ladder_alone(const Section* const section)
{
    static const char* const symbols[] = {"clock",       "tempo",        "practice_rate",
                                          "ladder_step", "ladder_every", "ladder_top"};
    for (size_t i = 0; i < sizeof symbols / sizeof *symbols; ++i) {
        if (request_find(section->settings, section->setting_count, symbols[i])) {
            fprintf(stderr, "fourlimb: --set %s: a set has --from, --to and --steps in its place\n",
                    symbols[i]);
            return false;
        }
    }
    return true;
}

static bool asked_well(const Request* const request)
{
    if (!request->out) {
        practice_say("practice takes one groove: ",
                     "--groove NAME --out FOLDER; `fourlimb practice --help` says the rest",
                     ASKED_WRONGLY);
        return false;
    }
    if (!leaves_the_ladder_alone(request_first(request))) {
        return false;
    }
    if (strlen(request->out) > PATH_ROOM - 2 * ROUTINE_NAME_ROOM) {
        practice_say("--out: ", "the folder's name is too long", ASKED_WRONGLY);
        return false;
    }
    return true;
}

int command_practice(const Request* const request)
{
    static Section section; /* too large for a stack, and so is the plan */
    static Practice practice;
    char soundfont[SOUNDFONT_ROOM];
    if (!asked_well(request)) {
        return ASKED_WRONGLY;
    }
    if (request->as_wav && !soundfont_find(request->wav.soundfont, soundfont)) {
        return FAILED;
    }
    section = *request_first(request);
    add_default(&section, CONTROL_CLICK, CLICK_ALWAYS);
    add_default(&section, CONTROL_COUNT_IN, 1);
    practice.request = request;
    practice.section = &section;
    int status = performance_open(&practice.performance, request->bundle)
                     ? picks_make(&practice.performance, &section, &practice.picks)
                     : FAILED;
    status = status == DONE ? make_all(&practice) : status;
    reel_free(&practice.exact);
    performance_close(&practice.performance);
    return status;
}
