// SPDX-License-Identifier: ISC
#include "song_words.h"

#include "names.h"

#include <stdio.h>
#include <string.h>

enum { WORD_ROOM = 64 };

static const char spot_words[] = "expected bar:beat, such as 4:1, 4:2& or 4:3+1/3";

/* Says what is wrong with a word. */
static bool refuse(char why[SONG_WORDS_ROOM], const char* const word, const char* const expected)
{
    snprintf(why, SONG_WORDS_ROOM, "\"%.60s\": %s", word, expected);
    return false;
}

/* The next word of a text, between spaces, cut to its room; false at the end. */
static bool next_word(const char** const text, char word[WORD_ROOM])
{
    *text += strspn(*text, " \t\r\n");
    const size_t length = strcspn(*text, " \t\r\n");
    snprintf(word, WORD_ROOM, "%.*s", (int)(length < WORD_ROOM ? length : WORD_ROOM - 1), *text);
    *text += length;
    return length;
}

/* A whole number up to a million, without a sign; false if there is none. */
static bool take_whole(const char** const at, int32_t* const number)
{
    const char* const begin = *at;
    *number = 0;
    while (**at >= '0' && **at <= '9' && *number < 100000) {
        *number = 10 * *number + (*(*at)++ - '0');
    }
    return *at > begin;
}

static bool take_sign(const char** const at, const char sign)
{
    const bool is = **at == sign;
    *at += is;
    return is;
}

/* ---- Meters */

static bool take_meter(const char* word, Meter* const meter)
{
    int32_t beats = 0;
    const bool good = take_whole(&word, &beats) && take_sign(&word, '/') &&
                      take_whole(&word, &meter->beat_unit) && !*word;
    const int32_t unit = meter->beat_unit;
    meter->beats_per_bar = beats;
    return good && beats >= 1 && beats <= 64 && (unit == 2 || unit == 4 || unit == 8 || unit == 16);
}

bool song_words_meters(const char* text, SongSection* const section, char why[SONG_WORDS_ROOM])
{
    char word[WORD_ROOM];
    section->meter_count = 0;
    while (next_word(&text, word)) {
        if (section->meter_count == SONG_METERS_MAX) {
            return refuse(why, word, "expected 16 meters at most, which come round");
        }
        if (!take_meter(word, &section->meters[section->meter_count])) {
            return refuse(why, word, "expected beats and beat unit, such as 4/4, 7/8 or 12/8");
        }
        ++section->meter_count;
    }
    return section->meter_count || refuse(why, text, "expected a meter, such as 7/8");
}

/* ---- Places */

static void take_share(const char** const at, int32_t* const part)
{
    static const char quarters[] = {'e', '&', 'a'};
    for (int i = 0; i < 3; ++i) {
        if (take_sign(at, quarters[i])) {
            *part = (i + 1) * (SONG_PARTS / 4);
            return;
        }
    }
    const char* share = *at;
    int32_t over = 0;
    int32_t under = 0;
    if (take_sign(&share, '+') && take_whole(&share, &over) && take_sign(&share, '/') &&
        take_whole(&share, &under) && over >= 1 && over < under && under <= 16) {
        *part = (int32_t)((int64_t)over * SONG_PARTS / under);
        *at = share;
    }
}

/* *has_beat: it is more than a bar. */
static bool take_spot(const char** const at, SongSpot* const spot, bool* const has_beat)
{
    *spot = (SongSpot){0, 0, 0};
    *has_beat = false;
    if (!take_whole(at, &spot->bar) || --spot->bar < 0) {
        return false;
    }
    if (!take_sign(at, ':')) {
        return true;
    }
    *has_beat = true;
    if (!take_whole(at, &spot->beat) || --spot->beat < 0) {
        return false;
    }
    take_share(at, &spot->part);
    return true;
}

/* "kick+china" */
static bool take_voices(const char* at, uint32_t* const voices)
{
    *voices = 0;
    for (;;) {
        char name[WORD_ROOM];
        const size_t length = strcspn(at, "+");
        snprintf(name, sizeof name, "%.*s", (int)length, at);
        const int voice = name_index(voice_names, VOICE_CHOKE, name);
        if (voice < 0) {
            return false;
        }
        *voices |= 1U << voice;
        if (!at[length]) {
            return true;
        }
        at += length + 1;
    }
}

static bool take_hit(const char* const word, SongHit* const hit, char why[SONG_WORDS_ROOM])
{
    const char* at = word;
    bool has_beat = false;
    hit->voices = 0;
    if (!take_spot(&at, &hit->at, &has_beat) || !has_beat || (*at && *at != '=')) {
        return refuse(why, word, spot_words);
    }
    if (take_sign(&at, '=') && !take_voices(at, &hit->voices)) {
        return refuse(why, word,
                      "expected voices behind =, such as kick+crash; ttl/terms.ttl has all");
    }
    return true;
}

bool song_words_hits(const char* text, SongSection* const section, char why[SONG_WORDS_ROOM])
{
    char word[WORD_ROOM];
    section->hit_count = 0;
    while (next_word(&text, word)) {
        if (section->hit_count == SONG_HITS_MAX) {
            return refuse(why, word, "a section has 32 hits at most; make two sections of it");
        }
        if (!take_hit(word, &section->hits[section->hit_count], why)) {
            return false;
        }
        ++section->hit_count;
    }
    return true;
}

/* A bar alone is all of it; nothing behind the dash is the section's end. */
static bool take_stop(const char* at, SongStop* const stop)
{
    bool has_beat = false;
    if (!take_spot(&at, &stop->from, &has_beat)) {
        return false;
    }
    if (!*at) {
        stop->until = (SongSpot){stop->from.bar + 1, 0, 0};
        return !has_beat;
    }
    if (!take_sign(&at, '-')) {
        return false;
    }
    if (!*at) {
        stop->until = (SongSpot){SONG_TO_THE_END, 0, 0};
        return true;
    }
    const bool good = take_spot(&at, &stop->until, &has_beat);
    stop->until.bar += good && !has_beat; /* through that bar */
    return good && !*at;
}

bool song_words_stops(const char* text, SongSection* const section, char why[SONG_WORDS_ROOM])
{
    char word[WORD_ROOM];
    section->stop_count = 0;
    while (next_word(&text, word)) {
        if (section->stop_count == SONG_STOPS_MAX) {
            return refuse(why, word, "a section has 16 stops at most; make two sections of it");
        }
        if (!take_stop(word, &section->stops[section->stop_count])) {
            return refuse(why, word,
                          "expected from where to where, such as 4:3-5:1, 4:3- to the end, or 8 "
                          "for a whole bar");
        }
        ++section->stop_count;
    }
    return true;
}

/* ---- Endings */

static const struct {
    const char* words;
    SongEnding ending;
} endings[] = {{"fill", SONG_FILL},
               {"stop", SONG_STOP},
               {"choke", SONG_CHOKE},
               {"hit", SONG_HIT},
               {"let ring", SONG_RING}};

/* What follows the words of an ending, or NULL. */
static const char* behind(const char* const text, const char* const words)
{
    const size_t length = strlen(words);
    const bool is = !strncmp(text, words, length) && (!text[length] || text[length] == ' ');
    return is ? text + length + strspn(text + length, " ") : NULL;
}

bool song_words_ending(const char* const text, SongSection* const section,
                       char why[SONG_WORDS_ROOM])
{
    for (size_t i = 0; i < sizeof endings / sizeof *endings; ++i) {
        const char* at = behind(text, endings[i].words);
        int32_t beats = 0;
        if (at) {
            const bool good =
                !*at || (take_whole(&at, &beats) && !*at && beats >= 1 && beats <= SONG_BEATS_MAX);
            section->ending = endings[i].ending;
            section->ending_beats = (uint32_t)beats;
            return good || refuse(why, text, "expected how many beats behind it, 1 to 256");
        }
    }
    return refuse(why, text,
                  "expected fill, stop, choke, hit or let ring, and how many beats if "
                  "not as it is written, such as fill 2");
}

/* ---- Controls */

/* A decimal number, whatever the locale. */
static bool take_number(const char* at, double* const number)
{
    const bool negative = take_sign(&at, '-');
    double scale = 1.0;
    int digits = 0;
    bool fraction = false;
    *number = 0.0;
    for (; *at; ++at) {
        if (*at == '.' && !fraction) {
            fraction = true;
        } else if (*at >= '0' && *at <= '9' && ++digits < 12) {
            *number = *number * 10.0 + (*at - '0');
            scale *= fraction ? 10.0 : 1.0;
        } else {
            return false;
        }
    }
    *number = (negative ? -*number : *number) / scale;
    return digits > 0;
}

static int control_named(const char* const symbol, const size_t length)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        if (strlen(control_rows[i].symbol) == length &&
            !strncmp(control_rows[i].symbol, symbol, length)) {
            return i;
        }
    }
    return -1;
}

static bool take_control(const char* const word, SongSection* const section,
                         char why[SONG_WORDS_ROOM])
{
    const size_t length = strcspn(word, "=");
    const int control = control_named(word, length);
    double value = 0.0;
    if (control < 0 || !word[length]) {
        return refuse(why, word,
                      "expected a control's symbol=number; `fourlimb list controls` has "
                      "them all");
    }
    if (!song_may_set((Control)control)) {
        return refuse(why, word,
                      "isn't a section's to set: it has a word of its own for it, or it "
                      "is how the whole song is played");
    }
    const ControlRow row = control_rows[control];
    if (!take_number(word + length + 1, &value) || value < (double)row.least ||
        value > (double)row.most) {
        snprintf(why, SONG_WORDS_ROOM, "\"%.60s\": expected a number from %g to %g", word,
                 (double)row.least, (double)row.most);
        return false;
    }
    return song_put(section, (Control)control, (float)value) ||
           refuse(why, word, "there is no room for so many controls in a section");
}

bool song_words_controls(const char* text, SongSection* const section, char why[SONG_WORDS_ROOM])
{
    char word[WORD_ROOM];
    while (next_word(&text, word)) {
        if (!take_control(word, section, why)) {
            return false;
        }
    }
    return true;
}
