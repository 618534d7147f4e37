// SPDX-License-Identifier: ISC
/* test_entry_facts.c - what lists tell of an entry, of entries written out here; and what
   they warn of, each a fault that was put in. */
#include "../../plugin/bank/entry_facts.h"
#include "../help/check.h"
#include "bank_folder.h"

static const char prefixes[] = "@prefix fl: <urn:fourlimb:terms#> .\n"
                               "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
                               "@prefix t: <urn:test:> .\n";

static const char figures[] =
    "t:eighths a fl:HandsFigure ; fl:id 1 ; rdfs:label \"Eighths\" ; fl:tempoLow 80 ;"
    " fl:tempoHigh 160 ; fl:bars 2 ; fl:line [ fl:limb fl:rightHand ; fl:voice fl:hatClosed ;"
    " fl:grid 2 ; fl:steps \"oooooooooooooooo\" ] .\n"
    "t:threes a fl:FeetFigure ; fl:id 1 ; rdfs:label \"Threes\" ; fl:line [ fl:limb"
    " fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"o......\" ] .\n"
    "t:wide a fl:FeetFigure ; fl:id 2 ; rdfs:label \"Wide\" ; fl:line [ fl:limb fl:rightFoot ;"
    " fl:voice fl:kick ; fl:grid 3 ; fl:over 2 ; fl:steps \"oooooo\" ] .\n"
    "t:quick a fl:FeetFigure ; fl:id 3 ; rdfs:label \"Quick\" ; fl:tempoLow 60 ;"
    " fl:tempoHigh 140 ; fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ;"
    " fl:steps \"oooo\" ] .\n"
    "t:turned a fl:FeetFigure ; fl:id 4 ; rdfs:label \"Turned\" ; fl:tempoLow 160 ;"
    " fl:tempoHigh 140 ; fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 1 ;"
    " fl:steps \"o\" ] .\n"
    "t:end a fl:Turnaround ; fl:id 1 ; rdfs:label \"End\" ; fl:tempoLow 60 ; fl:tempoHigh 400 ;"
    " fl:line [ fl:limb fl:rightHand ; fl:voice fl:snare ; fl:grid 4 ; fl:steps \"o.....o\" ] .\n"
    "t:kit a fl:Kit ; fl:id 1 ; rdfs:label \"Kit\" .\n";

static const char grooves[] =
    "t:seven a fl:Groove ; fl:id 1 ; rdfs:label \"Seven\" ; fl:beatsPerBar 7 ; fl:beatUnit 8 ;"
    " fl:tempo 144 ; fl:tempoLow 100 ; fl:tempoHigh 200 ; fl:form \"AAAB\" ; fl:swing 1.5 ;"
    " fl:swingSixteenths true ; fl:pushSnare 8.0 ;"
    " fl:part [ fl:letter \"A\" ; fl:hands t:eighths ; fl:feet t:threes ] ,"
    " [ fl:letter \"B\" ; fl:hands t:eighths ; fl:feet t:wide ] .\n"
    "t:late a fl:Groove ; fl:id 2 ; rdfs:label \"Late\" ; fl:beatsPerBar 4 ; fl:beatUnit 4 ;"
    " fl:tempo 90 ; fl:tempoLow 100 ; fl:tempoHigh 200 ; fl:form \"A\" ;"
    " fl:part [ fl:letter \"A\" ; fl:hands t:eighths ] .\n";

static Bank* bank;
static Playability room;

static void open_bank(void)
{
    static char text[8192];
    const BankFolder folder = bank_folder_make();
    const int length = snprintf(text, sizeof text, "%s%s%s", prefixes, figures, grooves);
    bank_folder_write(&folder, "all.ttl", text, (size_t)length);
    bank_folder_link(&folder, "presets/kits.ttl", "kits.ttl");
    bank = bank_folder_open(&folder);
    bank_folder_remove(&folder);
}

static uint32_t index_of(const EntryKind kind, const char* const label)
{
    uint32_t index = 0;
    while (index < bank_count(bank, kind) && strcmp(bank_entry(bank, kind, index)->label, label)) {
        ++index;
    }
    if (!CHECK(index < bank_count(bank, kind))) {
        printf("# %s\n", bank_diagnostics(bank)->count ? bank_diagnostics(bank)->texts[0] : label);
        exit(2);
    }
    return index;
}

static EntryFacts facts_of(const EntryKind kind, const char* const label)
{
    check_case("%s", label);
    return entry_facts(bank, kind, index_of(kind, label), &room);
}

static const char* warning_of(const EntryKind kind, const char* const label)
{
    static char warning[ENTRY_WARNING_ROOM];
    const PlayLimits limits = play_limits_default();
    check_case("%s", label);
    entry_warning(bank, kind, index_of(kind, label), &limits, &room, warning);
    return warning;
}

static void a_figure_tells_grid_length_range_and_how_hard(void)
{
    const EntryFacts eighths = facts_of(ENTRY_HANDS, "Eighths");
    CHECK_TEXT(eighths.grid, "2");
    CHECK_TEXT(eighths.length, "2 bars");
    CHECK_TEXT(eighths.range, "80-160");
    CHECK_TEXT(eighths.meter, "");
    CHECK_TEXT(eighths.tempo, "");
    CHECK_INT(eighths.difficulty, 1); /* the middle is 113 */
    const EntryFacts threes = facts_of(ENTRY_FEET, "Threes");
    CHECK_TEXT(threes.grid, "4");
    CHECK_TEXT(threes.length, "1.75 quarters");
    CHECK_TEXT(threes.range, "");
    CHECK_TEXT(facts_of(ENTRY_FEET, "Wide").grid, "3/2");
    CHECK_TEXT(facts_of(ENTRY_FEET, "Quick").length, "1 quarter");
    CHECK_INT(facts_of(ENTRY_FEET, "Quick").difficulty,
              5); /* 6 a second of one foot, all the time */
}

static void a_groove_tells_meter_tempo_and_feel_too(void)
{
    const EntryFacts seven = facts_of(ENTRY_GROOVE, "Seven");
    CHECK_TEXT(seven.meter, "7/8");
    CHECK_TEXT(seven.grid, "3/2 2 4");
    CHECK_TEXT(seven.length, "4 bars");
    CHECK_TEXT(seven.tempo, "144");
    CHECK_TEXT(seven.range, "100-200");
    CHECK_TEXT(seven.feel, "16ths 1.5:1, snare 8");
    CHECK(seven.difficulty >= 1 && seven.difficulty <= 5);
}

static void a_kit_map_tells_nothing(void)
{
    const EntryFacts kit = entry_facts(bank, ENTRY_KIT, 0, &room);
    CHECK_TEXT(kit.meter, "");
    CHECK_TEXT(kit.grid, "");
    CHECK_TEXT(kit.length, "");
    CHECK_INT(kit.difficulty, 0);
}

/* At 140 sixteenths are 9.33 a second, one foot has 8.6 (play_limits.h). */
static void what_nobody_can_play_is_warned_of(void)
{
    CHECK_TEXT(warning_of(ENTRY_FEET, "Quick"),
               "at 140 the right foot is too fast, with 10 strokes in a second");
    CHECK_TEXT(warning_of(ENTRY_FEET, "Turned"), "its lowest tempo 160 is above its highest 140");
    CHECK_TEXT(warning_of(ENTRY_GROOVE, "Late"), "its own tempo 90 is outside its range 100-200");
}

/* The last and the first stroke of a fill are a sixteenth apart, 37.5 ms at 400, only if it is
   played twice. */
static void what_can_be_played_is_not_warned_of(void)
{
    CHECK_TEXT(warning_of(ENTRY_TURNAROUND, "End"), "");
    CHECK_TEXT(warning_of(ENTRY_HANDS, "Eighths"), "");
    CHECK_TEXT(warning_of(ENTRY_FEET, "Threes"), "");
    CHECK_TEXT(warning_of(ENTRY_GROOVE, "Seven"), "");
}

int main(void)
{
    open_bank();
    RUN(a_figure_tells_grid_length_range_and_how_hard);
    RUN(a_groove_tells_meter_tempo_and_feel_too);
    RUN(a_kit_map_tells_nothing);
    RUN(what_nobody_can_play_is_warned_of);
    RUN(what_can_be_played_is_not_warned_of);
    bank_free(bank);
    return tests_end();
}
