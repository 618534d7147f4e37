// SPDX-License-Identifier: ISC
/* test_phrase_meters.c - the phrase's file has the tempo, the meter and the notes of a
   render in every meter and at every tempo, not in 4/4 alone.  midicsv (Walker's reader
   of Standard MIDI Files, none of ours) reads both; a beat's length is read off the
   file's own tempo and division too (Standard MIDI Files 1.0: microseconds a quarter). */
#include "music.h"

#include <math.h>

enum { LINES_MAX = 20000, LINE_ROOM = 96 };

typedef struct {
    int count;
    double micros; /* a quarter note, of the first tempo */
    char lines[LINES_MAX][LINE_ROOM];
} Listing;

typedef struct {
    uint32_t groove;
    int beats, beat_unit;
    double tempo;
} Case;

static const Case cases[] = {
    {1, 4, 4, 120.0},   {1, 3, 4, 61.5},     {1, 5, 4, 212.0},   {1, 2, 2, 84.0},
    {1, 2, 4, 300.0},   {1, 6, 8, 97.3},     {1, 7, 8, 144.0},   {1, 12, 8, 126.0},
    {1, 12, 8, 253.0},  {1, 9, 8, 40.0},     {1, 5, 8, 300.09},  {1, 7, 16, 38.0},
    {1, 15, 16, 152.0}, {131, 12, 8, 126.0}, {140, 7, 8, 133.7}, {160, 4, 4, 20.0},
    {24, 11, 8, 399.9}, {72, 3, 4, 150.0},
};

static int by_text(const void* const a, const void* const b)
{
    return strcmp((const char*)a, (const char*)b);
}

/* Notes, tempi and meters that midicsv finds. */
static void list(const char* const path, Listing* const listing)
{
    char command[2048];
    char line[256];
    snprintf(command, sizeof command, "midicsv '%s'", path);
    FILE* const csv = popen(command, "r");
    listing->count = 0;
    listing->micros = 0.0;
    while (csv && fgets(line, sizeof line, csv)) {
        const char* const rest = strchr(line, ',');
        const char* const tempo = strstr(line, "Tempo, ");
        const bool tells = tempo || strstr(line, "Note_o") || strstr(line, "Time_sig");
        listing->micros = tempo && !(listing->micros > 0.0) ? atof(tempo + 7) : listing->micros;
        if (tells && rest && listing->count < LINES_MAX) {
            snprintf(listing->lines[listing->count++], LINE_ROOM, "%.90s", rest + 1);
        }
    }
    CHECK(csv && pclose(csv) == 0);
    qsort(listing->lines, (size_t)listing->count, LINE_ROOM, by_text);
}

static Bank* bank;

static Phrase phrase_of(const Case* const what, Settings* const settings)
{
    float values[CONTROL_COUNT];
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].normal;
    }
    values[CONTROL_GROOVE] = (float)what->groove;
    values[CONTROL_PUSH_HANDS] = -12.0f;
    values[CONTROL_CLICK] = 2.0f;
    *settings = settings_from_controls(values);
    return (Phrase){bank_library(bank),
                    settings,
                    {what->beats, what->beat_unit},
                    what->tempo,
                    3,
                    "Meter",
                    false,
                    NULL};
}

static void render(const Case* const what, const char* const path)
{
    char command[4096];
    remove(path);
    snprintf(command, sizeof command,
             FOURLIMB_BUILD "/fourlimb render --bundle " FOURLIMB_BUILD
                            "/lv2/fourlimb.lv2 --out '%s' --groove %u --tempo %.17g --meter %d/%d "
                            "--bars 3 --set push_hands=-12 --set click=2 >/dev/null",
             path, what->groove, what->tempo, what->beats, what->beat_unit);
    CHECK_INT(system(command), 0);
}

static void in_every_meter_the_file_is_a_render(void)
{
    static Listing got, want;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; ++i) {
        char path[PHRASE_PATH_ROOM], why[PHRASE_WHY_ROOM], rendered[1024];
        Settings settings;
        const Phrase phrase = phrase_of(&cases[i], &settings);
        check_case("groove %u in %d/%d at %g", cases[i].groove, cases[i].beats, cases[i].beat_unit,
                   cases[i].tempo);
        CHECK(phrase_file(&phrase, path, why));
        snprintf(rendered, sizeof rendered, "%s", bench_path("rendered.mid"));
        render(&cases[i], rendered);
        list(path, &got);
        list(rendered, &want);
        CHECK(got.count > 10);
        CHECK_NEAR(got.micros, 60e6 / cases[i].tempo, 1.0);
        CHECK_INT(got.count, want.count);
        for (int k = 0; k < got.count && k < want.count; ++k) {
            CHECK_TEXT(got.lines[k], want.lines[k]);
        }
        empty_music_folder();
    }
}

static void a_tempo_that_is_none_is_refused_and_said(void)
{
    const double tempi[] = {0.001, 0.0, -120.0, 2000.5, (double)NAN, (double)INFINITY};
    for (size_t i = 0; i < sizeof tempi / sizeof *tempi; ++i) {
        char path[PHRASE_PATH_ROOM] = "", why[PHRASE_WHY_ROOM] = "";
        Settings settings;
        Phrase phrase = phrase_of(&cases[0], &settings);
        phrase.tempo = tempi[i];
        check_case("tempo %g", tempi[i]);
        CHECK(!phrase_file(&phrase, path, why));
        CHECK(strstr(why, "from 1 to 2000 quarter notes a minute"));
        CHECK_INT(files_in("Music"), 0);
    }
}

int main(void)
{
    bench_move_in();
    mkdir(bench_path("Music"), 0755);
    name_music_folder("XDG_MUSIC_DIR=\"$HOME/Music\"\n");
    bank = bank_open((BankSources){.factory = FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank"});
    if (system("command -v midicsv >/dev/null 2>&1")) {
        test_skip("midicsv is not installed");
    } else {
        RUN(in_every_meter_the_file_is_a_render);
    }
    RUN(a_tempo_that_is_none_is_refused_and_said);
    bank_free(bank);
    bench_move_out();
    return tests_end();
}
