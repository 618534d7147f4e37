// SPDX-License-Identifier: ISC
/* test_bank_check.c - the check of a bank: a small bank in which it finds nothing, one error
   planted after the other, each found with file, line and subject; and the factory's, in
   which nothing is found. */
#include "../../plugin/check/bank_check.h"
#include "../help/check.h"
#include "bank_folder.h"

enum { TEXT_MOST = 16384, FOUND_MOST = 16 };

/* One statement a line: what it is about first. */
static const char* const base[] = {
    "@prefix fl: <urn:fourlimb:terms#> .",
    "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .",
    "@prefix t: <urn:test:> .",
    "t:hats a fl:HandsFigure ; fl:id 1 ; rdfs:label \"Hats\" ; rdfs:comment \"Snare on two.\" ;"
    " fl:tempoLow 80 ; fl:tempoHigh 160 ; fl:bars 1 ;"
    " fl:line [ fl:limb fl:rightHand ; fl:voice fl:hatClosed ; fl:grid 1 ; fl:steps \"oooo\" ] ,"
    " [ fl:limb fl:leftHand ; fl:voice fl:snare ; fl:grid 1 ; fl:steps \".o.o\" ] .",
    "t:more a fl:HandsFigure ; fl:id 2 ; rdfs:label \"More\" ; fl:bars 1 ;"
    " fl:line [ fl:limb fl:rightHand ; fl:voice fl:ride ; fl:grid 2 ; fl:steps \"oooooooo\" ] .",
    "t:kick a fl:FeetFigure ; fl:id 1 ; rdfs:label \"Kick\" ; fl:bars 1 ;"
    " fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 1 ; fl:steps \"o.o.\" ] .",
    "t:pairs a fl:FeetFigure ; fl:id 2 ; rdfs:label \"Pairs\" ; fl:bars 1 ;"
    " fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 2 ; fl:steps \"oo..oo..\" ] .",
    "t:end a fl:Turnaround ; fl:id 1 ; rdfs:label \"End\" ;"
    " fl:line [ fl:limb fl:rightHand ; fl:voice fl:snare ; fl:grid 4 ; fl:steps \"oooo\" ] .",
    "t:end2 a fl:Turnaround ; fl:id 2 ; rdfs:label \"End 2\" ;"
    " fl:line [ fl:limb fl:rightHand ; fl:voice fl:snare ; fl:grid 4 ; fl:steps \"o.oo\" ] .",
    "t:end3 a fl:Turnaround ; fl:id 3 ; rdfs:label \"End 3\" ;"
    " fl:line [ fl:limb fl:rightHand ; fl:voice fl:snare ; fl:grid 4 ; fl:steps \"ooo.\" ] .",
    "t:end4 a fl:Turnaround ; fl:id 4 ; rdfs:label \"End 4\" ; fl:bars 1 ;"
    " fl:line [ fl:limb fl:rightHand ; fl:voice fl:tomLow ; fl:grid 1 ; fl:steps \"oooo\" ] .",
    "t:song a fl:Groove ; fl:id 1 ; rdfs:label \"Song\" ; fl:beatsPerBar 4 ; fl:beatUnit 4 ;"
    " fl:tempo 120 ; fl:tempoLow 80 ; fl:tempoHigh 140 ; fl:form \"AB\" ; fl:turnaround t:end ;"
    " fl:part [ fl:letter \"A\" ; fl:hands t:hats ; fl:feet t:kick ] ,"
    " [ fl:letter \"B\" ; fl:hands t:more ; fl:feet t:pairs ] .",
};
enum { BASE_LINES = sizeof base / sizeof *base };

typedef struct {
    char texts[FOUND_MOST][BANK_CHECK_ROOM];
    int count;
} Found;

static void keep(void* const to, const char* const text)
{
    Found* const found = (Found*)to;
    if (found->count < FOUND_MOST) {
        snprintf(found->texts[found->count], BANK_CHECK_ROOM, "%s", text);
    }
    ++found->count;
}

/* The base with `was` in place of what it has on one line, and a line more. */
static Bank* bank_with(const char* const was, const char* const is, const char* const more)
{
    static char text[TEXT_MOST];
    size_t length = 0;
    bool replaced = !was;
    for (int line = 0; line < BASE_LINES; ++line) {
        const char* const at = was && !replaced ? strstr(base[line], was) : NULL;
        const int before = at ? (int)(at - base[line]) : (int)strlen(base[line]);
        length += (size_t)snprintf(text + length, sizeof text - length, "%.*s%s%s\n", before,
                                   base[line], at ? is : "", at ? at + strlen(was) : "");
        replaced |= at != NULL;
    }
    length += (size_t)snprintf(text + length, sizeof text - length, "%s\n", more ? more : "");
    CHECK(replaced && length < sizeof text);
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "small.ttl", text, length);
    Bank* const bank = bank_folder_open(&folder);
    bank_folder_remove(&folder);
    CHECK_TEXT(bank_diagnostics(bank)->count ? bank_diagnostics(bank)->texts[0] : "", "");
    return bank;
}

static Found find(Bank* const bank)
{
    Found found = {.count = 0};
    const int count = bank_check(&(BankCheck){bank, false, play_limits_default(), keep, &found});
    CHECK_INT(count, found.count);
    bank_free(bank);
    return found;
}

static void nothing_is_found_where_nothing_is_wrong(void)
{
    const Found found = find(bank_with(NULL, NULL, NULL));
    CHECK_INT(found.count, 0);
    CHECK_TEXT(found.count ? found.texts[0] : "", "");
}

typedef struct {
    const char* was;
    const char* is;
    const char* more;
    const char* expected; /* the first thing told; some of it where it ends in "..." */
    int further;          /* things told after it */
} Planted;

static const Planted planted[] = {
    {"fl:form \"AB\"", "fl:form \"AA\"", NULL,
     "small.ttl:12: t:song: part B is never heard: it doesn't stand in fl:form", 0},
    {"fl:turnaround t:end ;", "fl:turnaround t:end4 ;", NULL,
     "small.ttl:12: t:song: the hands of part B are never heard, since the fill plays over them; "
     "give B another bar, or take a shorter fill",
     0},
    {"fl:hands t:more ; fl:feet t:pairs", "fl:hands t:hats ; fl:feet t:kick",
     "t:a a fl:Groove ; fl:id 2 ; rdfs:label \"A\" ; fl:beatsPerBar 4 ; fl:beatUnit 4 ;"
     " fl:tempo 120 ; fl:form \"A\" ; fl:turnaround t:end ; fl:part [ fl:letter \"A\" ;"
     " fl:hands t:more ; fl:feet t:pairs ] .",
     "small.ttl:12: t:song: part A sounds as part B would in its place, since the fill plays over "
     "what differs; ...",
     1},
    {"fl:steps \"o.o.\" ] .", "fl:steps \"oooo\" ] .",
     "t:two a fl:FeetFigure ; fl:id 3 ; rdfs:label \"Two\" ; fl:standsAlone \"An exercise\" ;"
     " fl:line [ fl:limb fl:leftFoot ; fl:voice fl:kickLeft ; fl:grid 1 ; fl:steps \"O\" ] .",
     "small.ttl:13: t:two: has the strokes of small.ttl:6: t:kick, but for accents, sticking and "
     "cymbals; keep one, or say why by fl:differs",
     0},
    {"fl:turnaround t:end ;", "", NULL,
     "small.ttl:12: t:song: has no fill; name one by fl:turnaround", 0},
    {"fl:turnaround t:end ;", "fl:turnaround t:odd ;",
     "t:odd a fl:Turnaround ; fl:id 5 ; rdfs:label \"Odd\" ;"
     " fl:line [ fl:limb fl:rightHand ; fl:voice fl:snare ; fl:grid 4 ; fl:steps \"ooo.o\" ] .",
     "small.ttl:12: t:song: its fill t:odd doesn't fit a bar of 4/4; take one that does", 0},
    {"fl:feet t:pairs", "fl:feet t:kick", NULL,
     "small.ttl:7: t:pairs: no groove has these feet; put them into one, or say why by "
     "fl:standsAlone",
     0},
    {"Snare on two.", "Snare on three.", NULL,
     "small.ttl:4: t:hats: there is no snare on three, which its comment promises; change the "
     "comment or the strokes",
     0},
    {"Snare on two.", "A china, and snares.", NULL,
     "small.ttl:4: t:hats: there is no china, which its comment promises; change the comment or "
     "the strokes",
     0},
    {"fl:tempoHigh 140 ; fl:form", "fl:tempoHigh 400 ; fl:form", NULL,
     "small.ttl:12: t:song: at 400 the right hand is too fast, with 13 strokes in a second; ...",
     0},
    {"fl:tempo 120 ;", "fl:tempo 60 ;", NULL,
     "small.ttl:12: t:song: its own tempo 60 is outside its range 80-140; ...", 0},
    {"fl:voice fl:snare ; fl:grid 1 ; fl:steps \".o.o\"",
     "fl:voice fl:snare ; fl:grid 1 ; fl:steps \".o.o\" ] , [ fl:limb fl:leftHand ; fl:voice "
     "fl:hatOpen ; fl:grid 1 ; fl:steps \"..o.\"",
     NULL, "small.ttl:4: t:hats: the hat is open and closed at once at bar 1, beat 3; keep one", 1},
    {"fl:voice fl:kick ; fl:grid 2 ; fl:steps \"oo..oo..\"",
     "fl:voice fl:kick ; fl:grid 2 ; fl:steps \"oo..oo..\" ] , [ fl:limb fl:leftFoot ; fl:voice "
     "fl:hatPedal ; fl:grid 1 ; fl:steps \"...o\"",
     NULL, "", 0},
    {"fl:voice fl:ride", "fl:voice fl:hatOpen", NULL, "", 0},
    {"fl:beatsPerBar 4 ; fl:beatUnit 4", "fl:beatsPerBar 7 ; fl:beatUnit 16", NULL,
     "small.ttl:12: t:song: its meter 7/16 has 3 fills that fit; ...", 0},
    {"rdfs:label \"End 3\" ;", "rdfs:label \"End 3\" ; fl:bars 1 ;", NULL,
     "small.ttl:12: t:song: its meter 4/4 has 3 fills that fit; write more, 4 at least", 0},
};

static bool is_told(const char* const text, const char* const expected)
{
    const size_t length = strlen(expected);
    const bool is_part = length > 3 && !strcmp(expected + length - 3, "...");
    return is_part ? !strncmp(text, expected, length - 3) : !strcmp(text, expected);
}

static void what_is_planted_is_found_and_nothing_else(void)
{
    for (size_t i = 0; i < sizeof planted / sizeof *planted; ++i) {
        const Planted row = planted[i];
        check_case("%s", row.is ? row.is : row.more);
        const Found found = find(bank_with(row.was, row.is, row.more));
        CHECK_INT(found.count, *row.expected ? 1 + row.further : 0);
        if (found.count && !is_told(found.texts[0], row.expected)) {
            CHECK_TEXT(found.count ? found.texts[0] : "", row.expected);
        }
    }
}

/* The pedal closes on the hands' open eighths. */
static void a_hat_that_two_figures_tear_is_found_in_the_groove(void)
{
    Bank* const bank = bank_with("fl:voice fl:ride", "fl:voice fl:hatOpen",
                                 "t:tear a fl:Groove ; fl:id 2 ; rdfs:label \"Tear\" ;"
                                 " fl:beatsPerBar 4 ; fl:beatUnit 4 ; fl:tempo 120 ;"
                                 " fl:form \"A\" ; fl:turnaround t:end ; fl:part [ fl:letter"
                                 " \"A\" ; fl:hands t:more ; fl:feet t:pedal ] .\n"
                                 "t:pedal a fl:FeetFigure ; fl:id 3 ; rdfs:label \"Pedal\" ;"
                                 " fl:line [ fl:limb fl:leftFoot ; fl:voice fl:hatPedal ;"
                                 " fl:grid 1 ; fl:steps \".o\" ] .");
    const Found found = find(bank);
    CHECK_INT(found.count, 1);
    CHECK_TEXT(found.texts[0], "small.ttl:13: t:tear: the hat is open and closed at once at bar 1,"
                               " beat 2; take other hands or feet");
}

static void a_reason_is_heard(void)
{
    Bank* const bank =
        bank_with(NULL, NULL,
                  "t:two a fl:FeetFigure ; fl:id 3 ; rdfs:label \"Two\" ;"
                  " fl:differs \"The left foot plays it\" ; fl:standsAlone \"An exercise\" ;"
                  " fl:line [ fl:limb fl:leftFoot ; fl:voice fl:kick ; fl:grid 1 ;"
                  " fl:steps \"o.\" ] .");
    CHECK_INT(find(bank).count, 0);
}

/* Of a user's own only theirs is told, held against the factory's. */
static void of_a_users_own_theirs_is_told(void)
{
    static const char own[] = "@prefix fl: <urn:fourlimb:terms#> .\n"
                              "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
                              "<urn:mine:a> a fl:FeetFigure ; fl:id 1000 ; rdfs:label \"Mine\" ;\n"
                              " fl:standsAlone \"An exercise\" ; fl:line [ fl:limb fl:rightFoot ;"
                              " fl:voice fl:kick ; fl:grid 1 ; fl:steps \"o\" ] .\n";
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "mine.ttl", own, sizeof own - 1);
    Bank* const bank = bank_open(
        (BankSources){.factory = FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank", .users = folder.path});
    Found found = {.count = 0};
    bank_check(&(BankCheck){bank, true, play_limits_default(), keep, &found});
    bank_free(bank);
    bank_folder_remove(&folder);
    CHECK_INT(found.count, 1);
    CHECK(strstr(found.texts[0], "mine.ttl:3: ") &&
          strstr(found.texts[0], "has the strokes of feet.ttl:"));
}

/* Whoever adds to the bank: each line of this tells where, what, and what to do. */
static void the_factorys_bank_is_clean(void)
{
    Bank* const bank = bank_open((BankSources){.factory = FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank"});
    const Found found = find(bank);
    for (int i = 0; i < found.count && i < FOUND_MOST; ++i) {
        printf("# %s\n", found.texts[i]);
    }
    CHECK_INT(found.count, 0);
}

int main(void)
{
    RUN(nothing_is_found_where_nothing_is_wrong);
    RUN(what_is_planted_is_found_and_nothing_else);
    RUN(a_hat_that_two_figures_tear_is_found_in_the_groove);
    RUN(a_reason_is_heard);
    RUN(of_a_users_own_theirs_is_told);
    RUN(the_factorys_bank_is_clean);
    return tests_end();
}
