// SPDX-License-Identifier: ISC
#include "comments.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

enum { WORDS_MOST = 64, WORD_ROOM = 24 };

/* A comment's words in small letters, and the sign behind each, if there is one. */
typedef struct {
    char words[WORDS_MOST][WORD_ROOM];
    char signs[WORDS_MOST];
    int count;
} Words;

static Words words_of(const char* text)
{
    Words words = {.count = 0};
    while (*text && words.count < WORDS_MOST) {
        int length = 0;
        for (; isalnum((unsigned char)*text) || *text == '-'; ++text) {
            if (length < WORD_ROOM - 1) {
                words.words[words.count][length++] = (char)tolower((unsigned char)*text);
            }
        }
        if (length) {
            words.signs[words.count++] = ispunct((unsigned char)*text) ? *text : ' ';
        }
        text += *text && !isalnum((unsigned char)*text) && *text != '-';
    }
    return words;
}

/* What a word calls: any of some voices.  "foot": "closed by the foot". */
static const struct {
    const char* word;
    Voice voices[3];
    bool feet;
} callings[] = {
    {"kick", {VOICE_KICK, VOICE_KICK_LEFT, VOICE_KICK}, true},
    {"pedal", {VOICE_HAT_PEDAL, VOICE_HAT_PEDAL, VOICE_HAT_PEDAL}, true},
    {"foot", {VOICE_HAT_PEDAL, VOICE_KICK, VOICE_KICK_LEFT}, true},
    {"snare", {VOICE_SNARE, VOICE_SNARE, VOICE_SNARE}, false},
    {"backbeat", {VOICE_SNARE, VOICE_SIDE_STICK, VOICE_SNARE}, false},
    {"stick", {VOICE_SIDE_STICK, VOICE_SIDE_STICK, VOICE_SIDE_STICK}, false},
    {"hat", {VOICE_HAT_CLOSED, VOICE_HAT_HALF_OPEN, VOICE_HAT_OPEN}, false},
    {"ride", {VOICE_RIDE, VOICE_RIDE_BELL, VOICE_RIDE}, false},
    {"bell", {VOICE_RIDE_BELL, VOICE_COWBELL, VOICE_RIDE_BELL}, false},
    {"crash", {VOICE_CRASH, VOICE_CRASH_2, VOICE_CRASH}, false},
    {"china", {VOICE_CHINA, VOICE_CHINA, VOICE_CHINA}, false},
    {"splash", {VOICE_SPLASH, VOICE_SPLASH, VOICE_SPLASH}, false},
    {"cowbell", {VOICE_COWBELL, VOICE_COWBELL, VOICE_COWBELL}, false},
    {"choke", {VOICE_CHOKE, VOICE_CHOKE, VOICE_CHOKE}, false},
};
enum { CALLINGS = sizeof callings / sizeof *callings };

/* The row of a word, also in the plural, or -1. */
static int calling_of(const char* const word)
{
    for (int i = 0; i < CALLINGS; ++i) {
        const size_t length = strlen(callings[i].word);
        const char* const rest = word + length;
        if (!strncmp(word, callings[i].word, length) &&
            (!*rest || !strcmp(rest, "s") || !strcmp(rest, "es"))) {
            return i;
        }
    }
    return -1;
}

/* The tick of "three-and" in a bar of quarters, or -1. */
static int64_t count_of(const char* const word)
{
    static const char* const numbers[] = {"one", "two", "three", "four", "five", "six"};
    static const char* const parts[] = {"", "-e", "-and", "-a"};
    for (int number = 0; number < 6; ++number) {
        const size_t length = strlen(numbers[number]);
        for (int part = 0; part < 4 && !strncmp(word, numbers[number], length); ++part) {
            if (!strcmp(word + length, parts[part])) {
                return number * TICKS_PER_QUARTER + part * (TICKS_PER_QUARTER / 4);
            }
        }
    }
    return -1;
}

static bool is_called(const Stroke stroke, const int calling)
{
    const Voice* const voices = callings[calling].voices;
    return stroke.voice == voices[0] || stroke.voice == voices[1] || stroke.voice == voices[2];
}

/* True if a voice falls on a count of any of the figure's bars. */
static bool falls_on(const Figure* const figure, const int calling, const int64_t tick)
{
    const int64_t bar = figure->cycle_ticks / (figure->bars ? figure->bars : 1);
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        if (is_called(figure->strokes[i], calling) && figure->strokes[i].tick % bar == tick) {
            return true;
        }
    }
    return false;
}

static bool closes(const Figure* const figure, const int calling)
{
    const int64_t last = figure->strokes[figure->stroke_count - 1].tick;
    bool does = false;
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        does |= figure->strokes[i].tick == last && is_called(figure->strokes[i], calling);
    }
    return does;
}

/* Hands' comments speak of kicks that others play, and the other way round. */
static bool is_of(const Figure* const figure, const int calling)
{
    return figure->kind == FIGURE_TURNAROUND ||
           callings[calling].feet == (figure->kind == FIGURE_FEET);
}

static bool counts_go_on(const Words* const words, const int at)
{
    return at < words->count && (count_of(words->words[at]) >= 0 ||
                                 (!strcmp(words->words[at], "and") && at + 1 < words->count &&
                                  count_of(words->words[at + 1]) >= 0));
}

typedef struct {
    int64_t beat;
    CommentRead read;
} CommentReading;

static void look_for(const Figure* const figure, const int calling, const char* const count,
                     CommentReading* const reading)
{
    ++reading->read.read;
    if (!falls_on(figure, calling, count_of(count) * reading->beat / TICKS_PER_QUARTER)) {
        snprintf(reading->read.problem, COMMENT_PROBLEM_ROOM, "no %s on %s", callings[calling].word,
                 count);
    }
}

/* "no crash", "without the snare", "in place of the hat". */
static bool is_denied(const Words* const words, const int at)
{
    static const char* const denials[] = {"no", "not", "never", "without", "place", "instead"};
    for (int before = at - 1; before >= 0 && before >= at - 3; --before) {
        for (size_t i = 0; i < sizeof denials / sizeof *denials; ++i) {
            if (!strcmp(words->words[before], denials[i])) {
                return true;
            }
        }
    }
    return false;
}

static void look_for_voice(const Figure* const figure, const Words* const words, const int at,
                           const int calling, CommentReading* const reading)
{
    bool is_struck = is_denied(words, at);
    for (uint32_t i = 0; !is_struck && i < figure->stroke_count; ++i) {
        is_struck = is_called(figure->strokes[i], calling);
    }
    ++reading->read.read;
    if (!is_struck) {
        snprintf(reading->read.problem, COMMENT_PROBLEM_ROOM, "no %s", callings[calling].word);
    }
}

/* "VOICE ... on COUNT, COUNT and COUNT", up to where the list ends. */
static int read_counts(const Figure* const figure, const Words* const words, const int from,
                       const int calling, CommentReading* const reading)
{
    int at = from;
    for (; counts_go_on(words, at); ++at) {
        const bool is_noun = at + 1 < words->count && words->signs[at] == ' ' &&
                             (!strcmp(words->words[at + 1], "beat") || /* on one beat */
                              !strcmp(words->words[at + 1], "side") ||
                              calling_of(words->words[at + 1]) >= 0); /* six kicks */
        if (calling >= 0 && !is_noun && count_of(words->words[at]) >= 0) {
            look_for(figure, calling, words->words[at], reading);
        }
        if (words->signs[at] != ' ' && words->signs[at] != ',') {
            return at + 1;
        }
    }
    return at;
}

CommentRead comment_read(const Figure* const figure, const char* const comment, const int64_t beat)
{
    CommentReading reading = {beat, {0, ""}};
    const Words words = words_of(comment);
    const int64_t bar = figure->cycle_ticks / (figure->bars ? figure->bars : 1);
    int calling = -1;
    for (int at = 0; at < words.count && bar % beat == 0; ++at) {
        const int called = calling_of(words.words[at]);
        calling = called >= 0 && is_of(figure, called) ? called : called >= 0 ? -1 : calling;
        if (called >= 0 && called == calling) {
            look_for_voice(figure, &words, at, called, &reading);
        }
        if (at + 2 < words.count && called >= 0 && !strcmp(words.words[at + 1], "to") &&
            !strcmp(words.words[at + 2], "close")) {
            ++reading.read.read;
            if (!closes(figure, called)) {
                snprintf(reading.read.problem, COMMENT_PROBLEM_ROOM, "no %s to close",
                         callings[called].word);
            }
        }
        if (!strcmp(words.words[at], "on") && counts_go_on(&words, at + 1)) {
            at = read_counts(figure, &words, at + 1, calling, &reading) - 1;
            calling = -1;
        } else if (strchr(".;,:", words.signs[at])) {
            calling = -1;
        }
    }
    return reading.read;
}
