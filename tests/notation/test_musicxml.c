// SPDX-License-Identifier: ISC
/* test_musicxml.c - every groove of the factory's as MusicXML, beside its strokes as the engine
   has them written: held against the published schema by xmllint (libxml2), and read back by
   read.py, which knows nothing of this program.  Rhythms are those of MusicXML 4.0: durations in
   divisions, values, dots, time-modification. */
#include "../../ui/paper/sheet_fill.h"
#include "../../ui/notation/musicxml.h"
#include "../../ui/scene/words.h"
#include "../bank/factory.h"
#include "../help/check.h"

#include <inttypes.h>
#include <sys/stat.h>

#define FOLDER FOURLIMB_BUILD "/notation"
#define SCHEMA FOURLIMB_SOURCE "/tests/data/musicxml-4.0/musicxml.xsd"

static Sheet sheet;
static StrokeList strokes;

static FILE* file_of(const uint32_t id, const char* const ending)
{
    char path[4096];
    snprintf(path, sizeof path, "%s/%03u.%s", FOLDER, (unsigned)id, ending);
    return fopen(path, "w");
}

static void put_bar(FILE* const file, const Selection* const selection, const Meter meter,
                    const int bar)
{
    static const char* const levels[] = {"", "ghost", "normal", "accent", "flam", "drag"};
    const int64_t ticks = meter_bar_ticks(meter);
    groove_strokes(selection, meter, bar * ticks, (bar + 1) * ticks, &strokes);
    for (uint32_t i = 0; i < strokes.count; ++i) {
        const Stroke stroke = strokes.strokes[i];
        fprintf(file, "%d\t%" PRId64 "\t%s\t%s\t%s\n", bar, stroke.tick - bar * ticks,
                words_limb((Limb)stroke.limb), words_voice((Voice)stroke.voice),
                levels[stroke.level]);
    }
}

static void put_strokes(const Groove* const groove, const Selection* const selection)
{
    FILE* const file = file_of(groove->id, "tsv");
    const Meter meter = groove->meter;
    fprintf(file, "meter\t%d\t%d\t%d\n", (int)meter.beats_per_bar, meter.beat_unit, sheet.bars);
    for (int bar = 0; bar < sheet.bars; ++bar) {
        put_bar(file, selection, meter, bar);
    }
    fclose(file);
}

/* As written, as selection_of_groove has it: its shuffle is told beside. */
static void put_groove(const Groove* const groove, const Kit* const kit)
{
    Bytes bytes = {.bytes = NULL};
    char why[SCORE_WHY_ROOM] = "";
    const Selection selection = selection_of_groove(groove);
    const double ratio = groove->feel.swing_ratio > 1.0 ? groove->feel.swing_ratio : 1.0;
    sheet_fill(&sheet, &selection, groove->meter);
    sheet.title = "A <groove> & \"its\" name";
    sheet.tempo = groove->tempo;
    const NotationScore score = {&sheet, {ratio, TICKS_PER_QUARTER}, "a fill", kit->notes};
    check_case("groove %u", (unsigned)groove->id);
    CHECK(musicxml_write(&score, &bytes, why));
    CHECK_TEXT(bytes.bytes ? "" : why, "");
    FILE* const file = file_of(groove->id, "xml");
    fwrite(bytes.bytes, 1, bytes.size, file);
    fclose(file);
    put_strokes(groove, &selection);
    bytes_free(&bytes);
}

static void every_factory_groove_can_be_written(void)
{
    Bank* const bank = factory_open();
    const Library* const library = bank_library(bank);
    CHECK(system("rm -rf '" FOLDER "'") == 0);
    mkdir(FOLDER, 0777);
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        put_groove(&library->grooves[i], &library->kits[0]);
    }
    bank_free(bank);
}

/* The last line that a command says, and whether it went well. */
static void check_said(const char* const command)
{
    char line[512] = "";
    FILE* const pipe = popen(command, "r");
    bool good = true;
    while (pipe && fgets(line, sizeof line, pipe)) {
        good = good && strstr(line, " files");
        if (!good) {
            check_case("%.*s", (int)strcspn(line, "\n"), line);
        }
    }
    CHECK_INT(pipe ? pclose(pipe) : -1, 0);
}

static void check_read(const char* const claim)
{
    char command[4096];
    snprintf(command, sizeof command, "python3 '%s/tests/notation/read.py' %s '%s' 2>&1",
             FOURLIMB_SOURCE, claim, FOLDER);
    if (system("python3 -c '' 2>/dev/null") != 0) {
        test_skip("python3 isn't installed");
        return;
    }
    check_said(command);
}

static void every_file_is_valid_musicxml_4_0(void)
{
    if (system("xmllint --version 2>/dev/null") != 0) {
        test_skip("xmllint isn't installed (libxml2-utils)");
        return;
    }
    check_said("xmllint --nonet --noout --schema '" SCHEMA "' '" FOLDER
               "'/*.xml 2>&1 | grep -v ' validates$' | head -n 5 | grep '' && exit 1 || exit 0");
}

#define READ(claim)                                                                                \
    static void claim(void)                                                                        \
    {                                                                                              \
        check_read(#claim);                                                                        \
    }
READ(measures_last_as_long_as_the_meter)
READ(notes_last_as_long_as_they_look)
READ(strokes_are_those_written)
READ(bars_are_those_played)
READ(hands_have_stems_up_and_feet_down)
READ(tuplets_open_and_close_in_each_other)
READ(beams_open_and_close)
READ(places_and_heads_are_weinbergs)
#undef READ

int main(void)
{
    RUN(every_factory_groove_can_be_written);
    RUN(every_file_is_valid_musicxml_4_0);
    RUN(measures_last_as_long_as_the_meter);
    RUN(notes_last_as_long_as_they_look);
    RUN(strokes_are_those_written);
    RUN(bars_are_those_played);
    RUN(hands_have_stems_up_and_feet_down);
    RUN(tuplets_open_and_close_in_each_other);
    RUN(beams_open_and_close);
    RUN(places_and_heads_are_weinbergs);
    return tests_end();
}
