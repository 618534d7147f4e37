// SPDX-License-Identifier: ISC
#include "../../plugin/bank/save.h"
#include "chartfile.h"
#include "commands.h"
#include "performance.h"
#include "picks.h"
#include "plan.h"
#include "songfile.h"
#include "soundfont.h"

#include <dirent.h>
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* Common practice, no source: four tempi from three fifths of the goal on, two
   minutes each, and the warm-up at three quarters of the first. */
enum { STEPS = 4, SECONDS_EACH = 120, PATH_ROOM = 4096 };
static const double first_of_goal = 0.6, warm_up_of_first = 0.75;

typedef struct {
    const Request* request;
    const Section* section; /* as asked, with what practising adds */
    Performance performance;
    Picks picks;
    Plan plan;
    int from;
    int to;
    int steps;
    bool made_folder;
} Practice;

static int say(const char* const subject, const char* const what, const int status)
{
    fprintf(stderr, "fourlimb: %s%s\n", subject, what);
    return status;
}

/* What the ladder is, from what was said of it and the groove. */
static int plan_ladder(Practice* const practice)
{
    const Request* const request = practice->request;
    const Section* const section = practice->section;
    const bool climbs = request_preset_value(section, "ladder_step", 0.0) > 0.0;
    const double top =
        request_preset_value(section, climbs ? "ladder_top" : "tempo", practice->picks.tempo);
    const double goal = request->to > 0.0 ? request->to : top;
    const double below = fmax(20.0, 5.0 * floor(goal * first_of_goal / 5.0));
    const double start = request->from > 0.0 ? request->from
                         : climbs            ? fmin(goal, practice->picks.tempo)
                                             : below;
    practice->to = (int)floor(goal + 0.5);
    practice->from = (int)floor(start + 0.5);
    practice->steps = request->steps ? request->steps : STEPS;
    if (practice->from > practice->to) {
        return say("--from", " is a faster tempo than --to: the ladder goes up", ASKED_WRONGLY);
    }
    if (practice->steps > 1 && practice->to - practice->from < practice->steps - 1) {
        return say("--steps", " has more tempi than there are from --from to --to", ASKED_WRONGLY);
    }
    return DONE;
}

static int ladder_tempo(const Practice* const practice, const int step)
{
    const double rise = (double)(practice->to - practice->from) * (step + 1) / practice->steps;
    const double even = practice->steps > 1
                            ? (double)(practice->to - practice->from) * step / (practice->steps - 1)
                            : rise;
    return practice->from + (int)floor(even + 0.5);
}

static void add_setting(ControlSetting* const settings, int* const count, const char* const symbol,
                        const int value)
{
    if (*count < SETTINGS_MAX) {
        snprintf(settings[*count].symbol, sizeof settings->symbol, "%s", symbol);
        settings[(*count)++].value = (float)value;
    }
}

/* The section of one file: its limbs win over whatever was asked, as the file's
   name promises them; so does the tempo over the plugin's own clock and slow practice. */
static void set_up(const Practice* const practice, const PlanItem* const item,
                   Section* const section)
{
    const bool hands = item->kind != PLAN_FEET, feet = item->kind != PLAN_HANDS;
    *section = *practice->section;
    section->tempo = item->tempo;
    section->bars = item->bars;
    add_setting(section->settings, &section->setting_count, "right_hand", hands);
    add_setting(section->settings, &section->setting_count, "left_hand", hands);
    add_setting(section->settings, &section->setting_count, "right_foot", feet);
    add_setting(section->settings, &section->setting_count, "left_foot", feet);
    add_setting(section->settings, &section->setting_count, "clock", 0);
    add_setting(section->settings, &section->setting_count, "practice_rate", 5); /* full */
}

/* Whole phrases of two minutes or more, or as many bars as were asked for. */
static int bars_at(const Practice* const practice, const int tempo)
{
    const Meter meter = practice->picks.meter;
    const double seconds = (double)meter.beats_per_bar * 240.0 / meter.beat_unit / tempo;
    const int phrase = (int)practice->picks.choice.phrase_bars;
    if (practice->section->bars) {
        return practice->section->bars;
    }
    return phrase * (int)ceil(SECONDS_EACH / (seconds * phrase));
}

static const char* part_name(const PlanKind kind)
{
    static const char* const names[] = {
        [PLAN_WARM_UP] = "warm-up",   [PLAN_HANDS] = "hands", [PLAN_FEET] = "feet",
        [PLAN_TOGETHER] = "together", [PLAN_BREAK] = "",
    };
    return names[kind];
}

static int make_file(Practice* const practice, const PlanKind kind, const int tempo,
                     const int number)
{
    static Section section; /* too large for a stack */
    char path[PATH_ROOM], title[256];
    PlanItem* const item = &practice->plan.items[practice->plan.count];
    const char* const label = practice->picks.info->label;
    *item = (PlanItem){.kind = kind, .tempo = tempo, .bars = bars_at(practice, tempo)};
    snprintf(item->name, sizeof item->name, "%02d-%03d-%s.%s", number, tempo, part_name(kind),
             practice->request->as_wav ? "wav" : "mid");
    snprintf(path, sizeof path, "%s/%s", practice->request->out, item->name);
    snprintf(title, sizeof title, "%s, %s, %d", label, part_name(kind), tempo);
    set_up(practice, item, &section);
    Rendition rendition;
    performance_begin(&practice->performance, title);
    const int status = performance_play(&practice->performance, &section, &rendition);
    double seconds = 0.0;
    if (status != DONE) {
        return status;
    }
    if (!songfile_write(&practice->performance.song, path, practice->request->force,
                        &practice->request->wav, &seconds)) {
        return FAILED;
    }
    item->seconds = (int)ceil(seconds - 1e-3);
    ++practice->plan.count;
    return DONE;
}

static int make_files(Practice* const practice)
{
    const int slow = (int)floor(fmax(20.0, practice->from * warm_up_of_first) + 0.5);
    int number = 0;
    int status = make_file(practice, PLAN_WARM_UP, slow, number++);
    for (int step = 0; status == DONE && step < practice->steps; ++step) {
        if (step) {
            plan_rest(&practice->plan);
        }
        for (int part = PLAN_HANDS; status == DONE && part <= PLAN_TOGETHER; ++part) {
            status = make_file(practice, (PlanKind)part, ladder_tempo(practice, step), number++);
        }
    }
    return status;
}

static int make_plan(Practice* const practice)
{
    char path[PATH_ROOM], why[SAVE_WHY_ROOM];
    char* text = NULL;
    size_t size = 0;
    FILE* const memory = open_memstream(&text, &size);
    if (!memory) {
        return say("there is no memory for the plan", "", FAILED);
    }
    practice->plan.count_in = (int)host_get(practice->performance.host, "count_in");
    practice->plan.click = (int)host_get(practice->performance.host, "click");
    plan_print(memory, &practice->plan);
    snprintf(path, sizeof path, "%s/plan.md", practice->request->out);
    bool good = fclose(memory) == 0;
    good = good && save_file(path, text, size, practice->request->force, why);
    free(text);
    if (!good) {
        return say(why, "", FAILED);
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
                                        : say(folder,
                                              " is a folder with something in it; "
                                              "choose another name, or add --force",
                                              FAILED);
    }
    fprintf(stderr, "fourlimb: the folder %s can't be made: %s\n", folder, strerror(error));
    return FAILED;
}

static int make_chart(Practice* const practice)
{
    char path[PATH_ROOM];
    snprintf(path, sizeof path, "%s/%s", practice->request->out, practice->plan.chart);
    return chartfile_write(practice->performance.bank, practice->section, NULL, path,
                           practice->request->force);
}

static int make_all(Practice* const practice)
{
    int status = plan_ladder(practice);
    practice->plan.groove = practice->picks.info;
    practice->plan.meter = practice->picks.meter;
    practice->plan.chart = "chart.pdf";
    status = status == DONE ? make_folder(practice) : status;
    status = status == DONE ? make_files(practice) : status;
    status = status == DONE ? make_chart(practice) : status;
    status = status == DONE ? make_plan(practice) : status;
    if (status != DONE && practice->made_folder) {
        rmdir(practice->request->out); /* goes only if nothing is in it */
    }
    return status;
}

/* With click and count-in where nothing else was asked. */
static void add_defaults(Section* const section)
{
    add_setting(section->preset_values, &section->preset_count, "click", 2);
    add_setting(section->preset_values, &section->preset_count, "count_in", 1);
}

static bool asked_well(const Request* const request)
{
    if (!request->out || request->kind || request->section_count > 1) {
        say("practice takes one groove: ",
            "--groove NAME --out FOLDER; `fourlimb --help` says the rest", ASKED_WRONGLY);
        return false;
    }
    if (request->section_count && request->sections[0].tempo > 0.0) {
        say("--tempo: ", "practice has --from and --to in its place", ASKED_WRONGLY);
        return false;
    }
    if (strlen(request->out) > PATH_ROOM - 2 * PLAN_NAME_ROOM) {
        say("--out: ", "the folder's name is too long", ASKED_WRONGLY);
        return false;
    }
    return true;
}

int command_practice(const Request* const request)
{
    static Section section; /* too large for a stack */
    char soundfont[SOUNDFONT_ROOM];
    if (!asked_well(request)) {
        return ASKED_WRONGLY;
    }
    if (request->as_wav && !soundfont_find(request->wav.soundfont, soundfont)) {
        return FAILED;
    }
    section = request->section_count ? request->sections[0] : (Section){.bars = 0};
    add_defaults(&section);
    Practice practice = {.request = request, .section = &section};
    int status = FAILED;
    if (performance_open(&practice.performance, request->bundle)) {
        status = bank_library(practice.performance.bank)->groove_count == 0 ? FAILED
                 : picks_make(practice.performance.bank, &section, &practice.picks)
                     ? make_all(&practice)
                     : ASKED_WRONGLY;
    }
    performance_close(&practice.performance);
    return status;
}
