// SPDX-License-Identifier: ISC
#include "write_song.h"

#include "entry_asked.h"
#include "names.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LOCAL_ROOM = SONG_NAME_ROOM + 16 };

/* A section's own text and the name it has in the list. */
typedef struct {
    char* text; /* owned; NULL: there was no memory */
    char local[LOCAL_ROOM];
    uint32_t same; /* the first one that says the same */
} WrittenSection;

/* ---- Values */

static void put_quoted(FILE* const out, const char* const text)
{
    fputc('"', out);
    for (const char* at = text; *at; ++at) {
        if (*at == '"' || *at == '\\') {
            fputc('\\', out);
        }
        if ((unsigned char)*at < ' ') {
            fprintf(out, "\\u%04X", (unsigned)(unsigned char)*at);
        } else {
            fputc(*at, out);
        }
    }
    fputc('"', out);
}

/* Up to six decimals, whatever the locale. */
static void put_number(FILE* const out, const double value)
{
    const int64_t millionths = (int64_t)llround(fabs(value) * 1e6);
    char decimals[8];
    int length = snprintf(decimals, sizeof decimals, "%06d", (int)(millionths % 1000000));
    while (length && decimals[length - 1] == '0') {
        decimals[--length] = '\0';
    }
    fprintf(out, "%s%" PRId64 "%s%s", value < 0.0 && millionths ? "-" : "", millionths / 1000000,
            length ? "." : "", decimals);
}

static void put_positive(FILE* const out, const char* const term, const double value)
{
    if (value > 0.0) {
        fprintf(out, " ;\n\tfl:%s ", term);
        put_number(out, value);
    }
}

/* ---- What it picks */

static void put_pick(FILE* const out, const Bank* const bank, const char* const term,
                     const EntryKind kind, const uint32_t id)
{
    const EntryInfo* const info = bank_info(bank, kind, id);
    const EntryInfo* const asked = info ? entry_asked(bank, kind, info->label) : NULL;
    fprintf(out, " ;\n\tfl:%s ", term);
    if (asked && asked->id == id && info->id == id) {
        put_quoted(out, info->label);
    } else {
        fprintf(out, "%" PRIu32, id);
    }
}

static void put_control_pick(FILE* const out, const Bank* const bank, const char* const term,
                             const EntryKind kind, const SongSection* const section)
{
    const float* const value = song_value(section, kind_controls[kind]);
    if (value && *value < 0.0f) {
        fprintf(out, " ;\n\tfl:%s \"none\"", term);
    } else if (value && *value > 0.0f) {
        put_pick(out, bank, term, kind, (uint32_t)*value);
    }
}

/* Those that have no word of their own. */
static void put_controls(FILE* const out, const SongSection* const section)
{
    const char* before = " ;\n\tfl:controls \"";
    for (uint32_t i = 0; i < section->control_count; ++i) {
        const SongControl control = section->controls[i];
        if (song_may_set((Control)control.control)) {
            fprintf(out, "%s%s=", before, control_rows[control.control].symbol);
            put_number(out, (double)control.value);
            before = " ";
        }
    }
    if (*before == ' ' && !before[1]) {
        fputc('"', out);
    }
}

static void put_picks(FILE* const out, const Bank* const bank, const SongSection* const section)
{
    if (section->rests) {
        fputs(" ;\n\tfl:rests true", out);
    }
    put_control_pick(out, bank, "groove", ENTRY_GROOVE, section);
    put_control_pick(out, bank, "hands", ENTRY_HANDS, section);
    put_control_pick(out, bank, "feet", ENTRY_FEET, section);
    put_control_pick(out, bank, "turnaround", ENTRY_TURNAROUND, section);
    put_controls(out, section);
}

/* ---- Places */

static void put_spot(FILE* const out, const SongSpot spot)
{
    fprintf(out, "%d:%d", spot.bar + 1, spot.beat + 1);
    for (int32_t under = 2; spot.part && under <= 16; ++under) {
        for (int32_t over = 1; over < under; ++over) {
            if ((int32_t)((int64_t)over * SONG_PARTS / under) == spot.part) {
                fprintf(out, "+%d/%d", over, under);
                return;
            }
        }
    }
}

static void put_hits(FILE* const out, const SongSection* const section)
{
    for (uint32_t i = 0; i < section->hit_count; ++i) {
        const SongHit* const hit = &section->hits[i];
        char before = '=';
        fputs(i ? " " : " ;\n\tfl:hits \"", out);
        put_spot(out, hit->at);
        for (uint32_t voice = 0; voice < VOICE_CHOKE; ++voice) {
            if (hit->voices & 1U << voice) {
                fprintf(out, "%c%s", before, voice_names[voice]);
                before = '+';
            }
        }
    }
    fputs(section->hit_count ? "\"" : "", out);
}

static void put_stops(FILE* const out, const SongSection* const section)
{
    for (uint32_t i = 0; i < section->stop_count; ++i) {
        const SongStop* const stop = &section->stops[i];
        fputs(i ? " " : " ;\n\tfl:stops \"", out);
        put_spot(out, stop->from);
        fputc('-', out);
        if (stop->until.bar != SONG_TO_THE_END) {
            put_spot(out, stop->until);
        }
    }
    fputs(section->stop_count ? "\"" : "", out);
}

/* ---- A section */

static void put_length(FILE* const out, const SongSection* const section)
{
    if (section->beats) {
        fprintf(out, " ;\n\tfl:beats %" PRIu32, section->beats);
    } else {
        fprintf(out, " ;\n\tfl:bars %" PRIu32, section->bars);
    }
    if (section->times > 1) {
        fprintf(out, " ;\n\tfl:times %" PRIu32, section->times);
    }
    for (uint32_t i = 0; i < section->meter_count; ++i) {
        fprintf(out, "%s%d/%d", i ? " " : " ;\n\tfl:meter \"",
                (int)section->meters[i].beats_per_bar, section->meters[i].beat_unit);
    }
    fputs(section->meter_count ? "\"" : "", out);
}

static void put_time(FILE* const out, const SongSection* const section)
{
    put_positive(out, "tempo", section->tempo);
    put_positive(out, "tempoTo", section->tempo_to);
    put_positive(out, "ritardando", section->ritard_beats);
    put_positive(out, "ritardandoTo", section->ritard_to);
    put_positive(out, "level", section->level);
    put_positive(out, "levelTo", section->level_to);
    put_positive(out, "take", section->take);
    if (section->crash == CRASH_NEVER || section->crash == CRASH_SECTION) {
        fprintf(out, " ;\n\tfl:crashStart %s", section->crash == CRASH_NEVER ? "false" : "true");
    }
}

static void put_ending(FILE* const out, const Bank* const bank, const SongSection* const section)
{
    static const char* const words[SONG_ENDINGS] = {"", "fill", "stop", "choke", "hit", "let ring"};
    if (section->ending != SONG_GOES_ON) {
        fprintf(out, " ;\n\tfl:ending \"%s", words[section->ending]);
        if (section->ending_beats) {
            fprintf(out, " %" PRIu32, section->ending_beats);
        }
        fputc('"', out);
    }
    if (section->fill) {
        put_pick(out, bank, "fill", ENTRY_TURNAROUND, section->fill);
    }
}

static char* section_text(const SongSection* const section, const Bank* const bank)
{
    char* text = NULL;
    size_t size = 0;
    FILE* const out = open_memstream(&text, &size);
    if (!out) {
        return NULL;
    }
    fputs("\n\trdfs:label ", out);
    put_quoted(out, section->name);
    put_length(out, section);
    put_picks(out, bank, section);
    put_time(out, section);
    put_ending(out, bank, section);
    put_hits(out, section);
    put_stops(out, section);
    fputs(" .\n", out);
    const bool good = !ferror(out);
    if (fclose(out) || !good) {
        free(text);
        return NULL;
    }
    return text;
}

/* ---- Their names */

/* A small letter or a digit for what is one, or large; else 0. */
static char plain(const char sign)
{
    static const char large[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    static const char small[] = "abcdefghijklmnopqrstuvwxyz0123456789";
    const char* const at = sign ? strchr(large, sign) : NULL;
    if (at) {
        return small[at - large];
    }
    if (sign && strchr(small, sign)) {
        return sign;
    }
    return 0;
}

/* A name that Turtle takes behind a colon: small letters, digits and dashes. */
static size_t put_local(const char* const name, char local[LOCAL_ROOM])
{
    size_t length = 0;
    for (const char* at = name; *at; ++at) {
        const char sign = plain(*at);
        if (sign || (length && local[length - 1] != '-')) {
            local[length] = '-';
            if (sign) {
                local[length] = sign;
            }
            ++length;
        }
    }
    length -= length && local[length - 1] == '-';
    local[length] = '\0';
    return length;
}

/* The same, and nobody else's. */
static void make_local(WrittenSection* const written, const uint32_t index, const char* const name)
{
    char* const local = written[index].local;
    const size_t length = put_local(name, local);
    bool is_taken = !length || !strcmp(local, "song");
    for (uint32_t i = 0; i < index; ++i) {
        is_taken |= written[i].same == i && !strcmp(written[i].local, local);
    }
    if (is_taken) { /* with two dashes nobody else is called so */
        snprintf(local + length, LOCAL_ROOM - length, "%s--%" PRIu32, length ? "" : "section",
                 index + 1);
    }
}

/* The first that says the same. */
static uint32_t find_same(const WrittenSection* const written, const uint32_t index)
{
    uint32_t same = 0;
    while (same < index && strcmp(written[same].text, written[index].text) != 0) {
        ++same;
    }
    return same;
}

/* One that says the same as an earlier one is that one again. */
static bool write_sections(WrittenSection* const written, const Song* const song,
                           const Bank* const bank)
{
    for (uint32_t i = 0; i < song->section_count; ++i) {
        written[i].text = section_text(&song->sections[i], bank);
        if (!written[i].text) {
            return false;
        }
        written[i].same = find_same(written, i);
        make_local(written, i, song->sections[i].name);
    }
    return true;
}

/* ---- The song */

static void put_song(FILE* const out, const Song* const song, const WrittenSection* const written)
{
    fputs("@prefix : <#> .\n@prefix fl: <urn:fourlimb:terms#> .\n"
          "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n\n"
          ":song\n\ta fl:Song ;\n\trdfs:label ",
          out);
    put_quoted(out, song->title);
    put_positive(out, "id", song->id);
    put_positive(out, "tempo", song->tempo);
    put_positive(out, "level", song->level);
    put_positive(out, "take", song->take);
    fputs(" ;\n\tfl:sections (", out);
    for (uint32_t i = 0; i < song->section_count; ++i) {
        fprintf(out, "%s:%s", i && i % 8 == 0 ? "\n\t\t" : " ", written[written[i].same].local);
    }
    fputs(" ) .\n", out);
    for (uint32_t i = 0; i < song->section_count; ++i) {
        if (written[i].same == i) {
            fprintf(out, "\n:%s%s", written[i].local, written[i].text);
        }
    }
}

static char* song_text(const Song* const song, const WrittenSection* const written)
{
    char* text = NULL;
    size_t size = 0;
    FILE* const out = open_memstream(&text, &size);
    if (!out) {
        return NULL;
    }
    put_song(out, song, written);
    const bool good = !ferror(out);
    if (fclose(out) || !good) {
        free(text);
        return NULL;
    }
    return text;
}

char* write_song(const Song* const song, const Bank* const bank)
{
    WrittenSection* const written = calloc(SONG_SECTIONS_MAX, sizeof *written);
    char* text = NULL;
    if (written && write_sections(written, song, bank)) {
        text = song_text(song, written);
    }
    for (uint32_t i = 0; written && i < song->section_count; ++i) {
        free(written[i].text);
    }
    free(written);
    return text;
}
