// SPDX-License-Identifier: ISC
/* test_fill_comments.c - a fill's comment says what is heard: each drum or cymbal that it names
   is struck and each that is struck is named, as often as it says ("three each on snare, high
   and floor tom"), with the flams, drags and ghosts that it speaks of.  Counts of the bar
   ("crash on three"): test_comments. */
#include "../help/check.h"
#include "fills.h"

#include <ctype.h>

enum { WORDS_MOST = 64, WORD_ROOM = 24, PROBLEM_ROOM = 96 };

typedef struct {
    char words[WORDS_MOST][WORD_ROOM];
    int count;
} Words;

static Words words_of(const char* text)
{
    Words words = {.count = 0};
    while (*text && words.count < WORDS_MOST) {
        int length = 0;
        for (; isalnum((unsigned char)*text) || *text == '-' || *text == '+'; ++text) {
            if (length < WORD_ROOM - 1) {
                words.words[words.count][length++] = (char)tolower((unsigned char)*text);
            }
        }
        words.count += length > 0;
        text += *text && !isalnum((unsigned char)*text);
    }
    return words;
}

static bool is_word(const Words* const words, const int at, const char* const word)
{
    return at >= 0 && at < words->count && !strcmp(words->words[at], word);
}

/* ---- Drums and cymbals by name */

typedef struct {
    const char* word;
    const char* noun; /* that must follow, be it after others of a list; NULL: none */
    uint32_t voices;  /* a set, of which one must be struck */
    uint32_t covers;  /* what it names besides, struck or not */
} Calling;

#define SET(NAME) (1U << VOICE_##NAME)
#define ALL_TOMS (SET(TOM_HIGH) | SET(TOM_MID) | SET(TOM_LOW) | SET(TOM_FLOOR))
#define KICKS (SET(KICK) | SET(KICK_LEFT))

static const Calling callings[] = {
    {"snare", NULL, SET(SNARE), 0},
    {"snares", NULL, SET(SNARE), 0},
    {"high", "tom", SET(TOM_HIGH), 0},
    {"middle", "tom", SET(TOM_MID), 0},
    {"low", "tom", SET(TOM_LOW), 0},
    {"floor", "tom", SET(TOM_FLOOR), 0},
    {"toms", NULL, ALL_TOMS, 0},
    {"kick", NULL, KICKS, 0},
    {"kicks", NULL, KICKS, 0},
    {"crash", NULL, SET(CRASH) | SET(CRASH_2), 0},
    {"crashes", NULL, SET(CRASH) | SET(CRASH_2), 0},
    {"china", NULL, SET(CHINA), 0},
    {"chokes", NULL, SET(CHOKE), 0},
    {"feet", NULL, 0, KICKS}, /* which may go on as they are */
    {"kit", NULL, 0, ~0U},
};
enum { CALLINGS = sizeof callings / sizeof *callings };

/* "high, low and floor tom": the noun of all three. */
static bool noun_follows(const Words* const words, const int at, const char* const noun)
{
    static const char* const list[] = {"high", "middle", "low", "floor", "and", "or", "one"};
    for (int i = at + 1; i < words->count; ++i) {
        bool goes_on = false;
        for (size_t j = 0; j < sizeof list / sizeof *list; ++j) {
            goes_on |= is_word(words, i, list[j]);
        }
        if (!goes_on) {
            return is_word(words, i, noun);
        }
    }
    return false;
}

/* The row of the word there, or NULL. */
static const Calling* calling_at(const Words* const words, const int at)
{
    for (int i = 0; i < CALLINGS; ++i) {
        if (is_word(words, at, callings[i].word) &&
            (!callings[i].noun || noun_follows(words, at, callings[i].noun))) {
            return &callings[i];
        }
    }
    return NULL;
}

/* ---- What is struck */

#define VOICE_WORDS(NAME, name, words, brief) words,
static const char* const voice_words[] = {VOICES(VOICE_WORDS)};

static uint32_t struck_voices(const Figure* const figure)
{
    uint32_t voices = 0;
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        voices |= 1U << figure->strokes[i].voice;
    }
    return voices;
}

static int strokes_on(const Figure* const figure, const uint32_t voices)
{
    int count = 0;
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        count += (voices >> figure->strokes[i].voice & 1) != 0;
    }
    return count;
}

static bool has_level(const Figure* const figure, const Level level)
{
    return fill_has_level((Fill){figure, NULL}, level);
}

/* ---- Reading */

typedef struct {
    int read; /* things that were looked for */
    char problem[PROBLEM_ROOM];
} Reading;

#define PROBLEM(reading, ...) snprintf((reading)->problem, PROBLEM_ROOM, __VA_ARGS__)

static void read_voices(const Figure* const figure, const Words* const words,
                        Reading* const reading)
{
    const uint32_t struck = struck_voices(figure);
    uint32_t named = 0;
    for (int at = 0; at < words->count; ++at) {
        const Calling* const calling = calling_at(words, at);
        if (!calling) {
            continue;
        }
        ++reading->read;
        named |= calling->voices | calling->covers;
        if (calling->voices && !(calling->voices & struck)) {
            PROBLEM(reading, "no %s", calling->word);
        }
    }
    for (unsigned voice = 0; voice < VOICE_COUNT; ++voice) {
        if (struck & ~named & 1U << voice) {
            PROBLEM(reading, "%s isn't named", voice_words[voice]);
        }
    }
}

/* A level and the words of which one must be said if it is played; those before `only` may be
   said only if it is. */
static void read_level(const Figure* const figure, const Words* const words, const Level level,
                       const char* const* const said, const int only, Reading* const reading)
{
    bool says = false;
    bool may = false;
    for (int at = 0; at < words->count; ++at) {
        for (int i = 0; said[i]; ++i) {
            if (!strncmp(words->words[at], said[i], strlen(said[i]))) {
                says |= i < only;
                may = true;
            }
        }
    }
    reading->read += may;
    if (says && !has_level(figure, level)) {
        PROBLEM(reading, "no %s", said[0]);
    } else if (!may && has_level(figure, level)) {
        PROBLEM(reading, "%s isn't said", said[0]);
    }
}

static int number_at(const Words* const words, const int at)
{
    static const char* const numbers[] = {"one",  "two", "three", "four",
                                          "five", "six", "seven", "eight"};
    for (int i = 0; i < (int)(sizeof numbers / sizeof *numbers); ++i) {
        if (is_word(words, at, numbers[i])) {
            return i + 1;
        }
    }
    return 0;
}

/* Past "strokes", "sixteenths", "each", "on the". */
static int past_fillers(const Words* const words, int at, bool* const on)
{
    static const char* const fillers[] = {"strokes",    "stroke", "taps",  "loud", "soft",
                                          "sixteenths", "each",   "heavy", "the",  "on"};
    for (bool goes_on = true; goes_on; at += goes_on) {
        goes_on = false;
        for (size_t i = 0; i < sizeof fillers / sizeof *fillers; ++i) {
            goes_on |= is_word(words, at, fillers[i]);
        }
        *on |= goes_on && is_word(words, at, "on");
    }
    return at;
}

/* Of a number that is said: so many strokes, no more and no fewer. */
static void look_for(const Figure* const figure, const int number, const Calling* const calling,
                     Reading* const reading)
{
    const int strokes = strokes_on(figure, calling->voices);
    ++reading->read;
    if (strokes != number) {
        PROBLEM(reading, "%d on the %s, not %d", strokes, calling->word, number);
    }
}

/* "NUMBER strokes each on VOICE, VOICE and VOICE"; "NUMBER kicks". */
static void read_number(const Figure* const figure, const Words* const words, const int from,
                        Reading* const reading)
{
    const int number = number_at(words, from);
    bool on = false;
    int at = past_fillers(words, from + 1, &on);
    if (is_word(words, from + 1, "kicks")) {
        look_for(figure, number, calling_at(words, from + 1), reading);
        return;
    }
    for (const Calling* calling;
         on && (calling = calling_at(words, at)) && calling->voices != KICKS;) {
        look_for(figure, number, calling, reading);
        at += 1 + is_word(words, at + 1, "and");
        if (is_word(words, at, "tom")) {
            return;
        }
    }
}

static Reading read_comment(const Figure* const figure, const char* const comment)
{
    static const char* const flams[] = {"flam", NULL};
    static const char* const drags[] = {"drag", NULL};
    static const char* const ghosts[] = {"ghost", "soft", "whisper", "grow", "louder", NULL};
    const Words words = words_of(comment);
    Reading reading = {0, ""};
    read_voices(figure, &words, &reading);
    read_level(figure, &words, LEVEL_FLAM, flams, 1, &reading);
    read_level(figure, &words, LEVEL_DRAG, drags, 1, &reading);
    read_level(figure, &words, LEVEL_GHOST, ghosts, 3, &reading);
    for (int at = 0; at < words.count; ++at) {
        if (number_at(&words, at)) {
            read_number(figure, &words, at, &reading);
        }
    }
    return reading;
}

/* ---- The factory's */

static Bank* bank;

static void what_a_comment_says_is_played_and_what_is_played_is_said(void)
{
    int read = 0;
    for (uint32_t i = 0; i < fill_count(bank); ++i) {
        const Fill fill = fill_at(bank, i);
        const Reading reading = read_comment(fill.figure, fill.info->comment);
        check_case("%u: %s", fill.info->id, fill.info->comment);
        CHECK_TEXT(reading.problem, "");
        read += reading.read;
    }
    printf("# %d things said\n", read);
    check_case("the reader reads");
    CHECK(read >= 250);
}

/* ---- The reader, before comments that are wrong */

enum { Q = TICKS_PER_QUARTER };

static void a_comment_that_says_what_is_not_played_is_found(void)
{
    static const Stroke strokes[] = {{0, RIGHT_HAND, VOICE_SNARE, LEVEL_FLAM, true},
                                     {Q / 2, LEFT_HAND, VOICE_SNARE, LEVEL_GHOST, true},
                                     {Q, RIGHT_HAND, VOICE_TOM_FLOOR, LEVEL_ACCENT, true},
                                     {Q, RIGHT_FOOT, VOICE_KICK, LEVEL_ACCENT, true}};
    const Figure fill = {.id = 1,
                         .kind = FIGURE_TURNAROUND,
                         .cycle_ticks = 2 * Q,
                         .step_ticks = Q / 2,
                         .stroke_count = 4,
                         .strokes = strokes};
    static const char* const rows[][2] = {
        {"A flam and a ghost note, two strokes on the snare, one on the floor tom with a kick.",
         ""},
        {"A flam, soft, two on the snare, kick and floor tom.", ""},
        {"A flam, soft, three on the snare, kick and floor tom.", "2 on the snare, not 3"},
        {"A flam, soft: two each on snare and floor tom; the kick.", "1 on the floor, not 2"},
        {"A flam, soft: snare and kick.", "floor tom isn't named"},
        {"A flam, soft: snare, high and floor tom, kick.", "no high"},
        {"A flam and a drag, soft: snare, floor tom, kick.", "no drag"},
        {"Soft: snare, floor tom, kick.", "flam isn't said"},
        {"A flam: snare, floor tom, kick.", "ghost isn't said"},
        {"A flam, soft, snare, floor tom, two kicks.", "1 on the kicks, not 2"},
        {"A soft flam, then the whole kit and the china.", "no china"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        check_case("%s", rows[i][0]);
        CHECK_TEXT(read_comment(&fill, rows[i][0]).problem, rows[i][1]);
    }
}

int main(void)
{
    bank = factory_open();
    RUN(a_comment_that_says_what_is_not_played_is_found);
    RUN(what_a_comment_says_is_played_and_what_is_played_is_said);
    bank_free(bank);
    return tests_end();
}
