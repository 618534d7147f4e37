// SPDX-License-Identifier: ISC
#include "request.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool wrong(const char* const option, const char* const value, const char* const expected)
{
    fprintf(stderr, "fourlimb: %s %s: expected %s\n", option, value, expected);
    return false;
}

static bool read_number(const char* const text, const double least, const double most,
                        double* const number)
{
    char* end = NULL;
    errno = 0;
    *number = strtod(text, &end);
    return end != text && !*end && !errno && *number >= least && *number <= most;
}

static bool take_bars(Section* const section, const char* const value)
{
    double bars = 0.0;
    if (!read_number(value, 1.0, 10000.0, &bars) || floor(bars) < bars) {
        return wrong("--bars", value, "a whole number from 1 to 10000");
    }
    section->bars = (int)bars;
    return true;
}

static bool take_tempo(Section* const section, const char* const value)
{
    return read_number(value, 20.0, 400.0, &section->tempo) ||
           wrong("--tempo", value, "quarter notes a minute from 20 to 400");
}

static bool take_meter(Section* const section, const char* const value)
{
    char* end = NULL;
    const long beats = strtol(value, &end, 10);
    const bool slash = end != value && *end == '/';
    const long unit = slash ? strtol(end + 1, &end, 10) : 0;
    if (!slash || *end || beats < 1 || beats > 64 ||
        (unit != 2 && unit != 4 && unit != 8 && unit != 16)) {
        return wrong("--meter", value, "beats and beat unit, such as 4/4, 7/8 or 12/8");
    }
    section->beats = (int)beats;
    section->beat_unit = (int)unit;
    return true;
}

const Section* request_first(const Request* const request)
{
    static const Section empty = {.bars = 0};
    return request->section_count ? &request->sections[0] : &empty;
}

bool request_put(ControlSetting settings[SETTINGS_MAX], int* const count, const char* const symbol,
                 const float value)
{
    int at = 0;
    while (at < *count && strcmp(settings[at].symbol, symbol)) {
        ++at;
    }
    if (at == SETTINGS_MAX) {
        return false;
    }
    *count = at < *count ? *count : at + 1;
    snprintf(settings[at].symbol, sizeof settings[at].symbol, "%s", symbol);
    settings[at].value = value;
    return true;
}

const float* request_find(const ControlSetting* const settings, const int count,
                          const char* const symbol)
{
    for (int i = 0; i < count; ++i) {
        if (!strcmp(settings[i].symbol, symbol)) {
            return &settings[i].value;
        }
    }
    return NULL;
}

static bool put(Section* const section, const char* const option, const char* const value,
                const char* const symbol, const double number)
{
    return request_put(section->settings, &section->setting_count, symbol, (float)number) ||
           wrong(option, value, "fewer settings in one section");
}

static bool take_setting(Section* const section, const char* const value)
{
    const char* const equals = strchr(value, '=');
    const size_t length = equals ? (size_t)(equals - value) : 0;
    char symbol[sizeof section->settings->symbol];
    double number = 0.0;
    if (length < 1 || length >= sizeof symbol || !read_number(equals + 1, -1e9, 1e9, &number)) {
        return wrong("--set", value, "symbol=number, such as split_feet=1");
    }
    memcpy(symbol, value, length);
    symbol[length] = '\0';
    return put(section, "--set", value, symbol, number);
}

/* In words what --set says in numbers. */
static bool take_click(Section* const section, const char* const option, const char* const value)
{
    static const char* const words[] = {"off", "count-in", "always"};
    double bars = 0.0;
    if (!strcmp(option, "--count-in")) {
        if (!read_number(value, 0.0, 4.0, &bars) || floor(bars) < bars) {
            return wrong(option, value, "a whole number of bars from 0 to 4");
        }
        return put(section, option, value, "count_in", bars);
    }
    for (int i = 0; i < 3; ++i) {
        if (!strcmp(value, words[i])) {
            return put(section, option, value, "click", i);
        }
    }
    return wrong(option, value, "off, count-in or always");
}

/* One of a few whole numbers. */
static bool take_choice(int* const field, const char* const option, const char* const value,
                        const int choices[3], const char* const expected)
{
    double number = 0.0;
    const bool is_number = read_number(value, 1.0, 1e6, &number);
    for (int i = 0; is_number && i < 3; ++i) {
        if ((int)number == choices[i] && (double)choices[i] >= number) {
            *field = choices[i];
            return true;
        }
    }
    return wrong(option, value, expected);
}

static bool take_groove(Request* const request, const char* const value)
{
    Section* const last =
        request->section_count ? &request->sections[request->section_count - 1] : NULL;
    if (last && !last->groove && !last->preset) {
        last->groove = value;
        return true;
    }
    if (request->section_count == SECTIONS_MAX) {
        return wrong("--groove", value, "64 sections at most");
    }
    request->sections[request->section_count++].groove = value;
    return true;
}

static bool take_preset(Request* const request, const char* const value)
{
    Section* const last =
        request->section_count ? &request->sections[request->section_count - 1] : NULL;
    if (last && !last->groove && !last->preset) {
        last->preset = value;
        return true;
    }
    if (request->section_count == SECTIONS_MAX) {
        return wrong("--preset", value, "64 sections at most");
    }
    request->sections[request->section_count++].preset = value;
    return true;
}

/* The section that options now speak of; the first may begin without a groove. */
static Section* section_now(Request* const request)
{
    if (!request->section_count) {
        ++request->section_count;
    }
    return &request->sections[request->section_count - 1];
}

/* True if the option is one that takes this field. */
static bool take_text(Request* const request, const char* const option, const char* const value)
{
    const struct {
        const char* option;
        const char** field;
    } rows[] = {
        {"--out", &request->out},
        {"--bundle", &request->bundle},
        {"--title", &request->title},
        {"--soundfont", &request->wav.soundfont},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        if (!strcmp(option, rows[i].option)) {
            *rows[i].field = value;
            return true;
        }
    }
    return false;
}

static bool take_of_section(Request* const request, const char* const option,
                            const char* const value)
{
    Section* const section = section_now(request);
    if (!strcmp(option, "--bars")) {
        return take_bars(section, value);
    }
    if (!strcmp(option, "--tempo")) {
        return take_tempo(section, value);
    }
    if (!strcmp(option, "--meter")) {
        return take_meter(section, value);
    }
    if (!strcmp(option, "--set")) {
        return take_setting(section, value);
    }
    if (!strcmp(option, "--click") || !strcmp(option, "--count-in")) {
        return take_click(section, option, value);
    }
    if (!strcmp(option, "--hands")) {
        section->hands = value;
    } else if (!strcmp(option, "--feet")) {
        section->feet = value;
    } else if (!strcmp(option, "--turnaround")) {
        section->turnaround = value;
    } else {
        section->kit = value;
    }
    return true;
}

static const char* const options_with_value[] = {
    "--groove",     "--bars",   "--tempo", "--meter",    "--set",   "--hands",     "--feet",
    "--turnaround", "--kit",    "--out",   "--bundle",   "--title", "--soundfont", "--rate",
    "--bits",       "--preset", "--click", "--count-in", "--from",  "--to",        "--steps",
};

static bool takes_value(const char* const option)
{
    for (size_t i = 0; i < sizeof options_with_value / sizeof *options_with_value; ++i) {
        if (!strcmp(option, options_with_value[i])) {
            return true;
        }
    }
    return false;
}

/* Of practice: where its ladder of tempi goes. */
static bool take_ladder(Request* const request, const char* const option, const char* const value)
{
    double number = 0.0;
    if (!strcmp(option, "--steps")) {
        if (!read_number(value, 1.0, 12.0, &number) || floor(number) < number) {
            return wrong(option, value, "a whole number from 1 to 12");
        }
        request->steps = (int)number;
        return true;
    }
    return read_number(value, 20.0, 400.0,
                       !strcmp(option, "--to") ? &request->to : &request->from) ||
           wrong(option, value, "quarter notes a minute from 20 to 400");
}

static bool take_of_wav(Request* const request, const char* const option, const char* const value)
{
    if (!strcmp(option, "--rate")) {
        return take_choice(&request->wav.rate, option, value, (const int[]){44100, 48000, 96000},
                           "44100, 48000 or 96000");
    }
    return take_choice(&request->wav.bits, option, value, (const int[]){16, 24, 24}, "16 or 24");
}

static bool is_one_of(const char* const option, const char* const* const words, const size_t count)
{
    for (size_t i = 0; i < count; ++i) {
        if (!strcmp(option, words[i])) {
            return true;
        }
    }
    return false;
}

static bool take(Request* const request, const char* const option, const char* const value)
{
    static const char* const ladder[] = {"--from", "--to", "--steps"};
    static const char* const wav[] = {"--rate", "--bits"};
    if (!strcmp(option, "--groove")) {
        return take_groove(request, value);
    }
    if (!strcmp(option, "--preset")) {
        return take_preset(request, value);
    }
    if (is_one_of(option, ladder, sizeof ladder / sizeof *ladder)) {
        return take_ladder(request, option, value);
    }
    if (is_one_of(option, wav, sizeof wav / sizeof *wav)) {
        return take_of_wav(request, option, value);
    }
    return take_text(request, option, value) || take_of_section(request, option, value);
}

/* An option that stands alone. */
static bool take_flag(Request* const request, const char* const option)
{
    if (!strcmp(option, "--force")) {
        request->force = true;
    } else if (!strcmp(option, "--wav") || !strcmp(option, "--midi")) {
        request->as_wav = !strcmp(option, "--wav");
        request->says_kind = true;
    } else if (!strcmp(option, "--kits") && !request->kind) {
        request->kind = "kits"; /* as people try it, beside --kit NAME */
    } else if (!strcmp(option, "--presets")) {
        request->presets = true;
    } else {
        return false;
    }
    return true;
}

double request_preset_value(const Section* const section, const char* const symbol,
                            const double otherwise)
{
    const float* const value = request_find(section->preset_values, section->preset_count, symbol);
    return value ? (double)*value : otherwise;
}

bool request_read(Request* const request, const int count, char** const arguments)
{
    memset(request, 0, sizeof *request); /* an initializer may be made on the stack first */
    request->wav = (WavForm){.soundfont = NULL, .rate = 44100, .bits = 16};
    for (int i = 0; i < count; ++i) {
        const char* const option = arguments[i];
        if (take_flag(request, option)) {
            continue;
        }
        if (!strncmp(option, "--", 2) && !takes_value(option)) {
            fprintf(stderr, "fourlimb: there is no option %s; `fourlimb --help` names them\n",
                    option);
            return false;
        } else if (!takes_value(option)) {
            if (request->kind) {
                fprintf(stderr, "fourlimb: \"%s\" is one word too many\n", option);
                return false;
            }
            request->kind = option;
        } else if (i + 1 == count) {
            fprintf(stderr, "fourlimb: %s needs a value after it\n", option);
            return false;
        } else if (!take(request, option, arguments[++i])) {
            return false;
        }
    }
    return true;
}
