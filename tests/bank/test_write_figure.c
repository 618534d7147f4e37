// SPDX-License-Identifier: ISC
/* test_write_figure.c - what is written is what is read: every figure, groove and
   kit map of the factory, figures made up by chance, and other readers' opinion
   of the text. */
#include "../../plugin/bank/single.h"
#include "../../plugin/bank/write_figure.h"
#include "../help/check.h"
#include "bank_folder.h"
#include "factory.h"

static Bank* bank;

static bool strokes_equal(const Stroke a, const Stroke b)
{
    return a.tick == b.tick && a.limb == b.limb && a.voice == b.voice && a.level == b.level &&
           a.bends == b.bends;
}

static void check_figures_equal(const Figure* const got, const Figure* const want)
{
    CHECK_INT(got->kind, want->kind);
    CHECK_INT(got->cycle_ticks, want->cycle_ticks);
    CHECK_INT(got->step_ticks, want->step_ticks);
    CHECK_INT(got->bars, want->bars);
    CHECK_INT(got->plays_pedal, want->plays_pedal);
    CHECK_INT(got->keeps_time, want->keeps_time);
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        CHECK_INT(got->plays_limb[limb], want->plays_limb[limb]);
    }
    if (CHECK_INT(got->stroke_count, want->stroke_count)) {
        for (uint32_t i = 0; i < want->stroke_count; ++i) {
            CHECK(strokes_equal(got->strokes[i], want->strokes[i]));
        }
    }
}

static void check_infos_equal(const EntryInfo* const got, const EntryInfo* const want)
{
    CHECK_INT(got->id, want->id);
    CHECK_TEXT(got->uri, want->uri);
    CHECK_TEXT(got->name, want->name);
    CHECK_TEXT(got->label, want->label);
    CHECK_TEXT(got->comment, want->comment);
    CHECK_TEXT(got->family_uri, want->family_uri);
    CHECK_TEXT(got->differs, want->differs);
    CHECK_TEXT(got->alone, want->alone);
    CHECK_INT(got->tempo_low, want->tempo_low);
    CHECK_INT(got->tempo_high, want->tempo_high);
}

static Single* read_back(char* const text)
{
    char why[SINGLE_WHY_ROOM] = "";
    Single* const single = text ? single_read("/text", text, strlen(text), why) : NULL;
    if (!CHECK(single)) {
        printf("# %s\n# %s\n", why, text ? text : "nothing was written");
    }
    free(text);
    return single;
}

static void every_factory_figure_is_read_as_it_was_written(void)
{
    uint32_t count = 0;
    for (int kind = ENTRY_HANDS; kind <= ENTRY_TURNAROUND; ++kind) {
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            const Figure* const figure = factory_figure(bank, (EntryKind)kind, i);
            const EntryInfo* const info = bank_entry(bank, (EntryKind)kind, i);
            check_case("%s", info->name);
            Single* const read = read_back(write_figure(figure, info));
            if (read) {
                check_figures_equal(&read->figure, figure);
                check_infos_equal(&read->info, info);
            }
            single_free(read);
            ++count;
        }
    }
    check_case("how many");
    CHECK(count > 300);
}

static void every_factory_kit_map_is_read_as_it_was_written(void)
{
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_KIT); ++i) {
        const Kit* const kit = &bank_library(bank)->kits[i];
        const EntryInfo* const info = bank_entry(bank, ENTRY_KIT, i);
        check_case("%s", info->name);
        Single* const read = read_back(write_entry(ENTRY_KIT, kit, info));
        if (read) {
            CHECK_INT(read->kind, ENTRY_KIT);
            CHECK(!memcmp(read->kit.notes, kit->notes, sizeof kit->notes));
            check_infos_equal(&read->info, info);
        }
        single_free(read);
    }
}

static bool feels_alike(const double a, const double b)
{
    return (a != a && b != b) || (a >= b && a <= b);
}

static void check_grooves_equal(const Groove* const got, const Groove* const want)
{
    CHECK_NEAR(got->tempo, want->tempo, 0.0);
    CHECK(meter_equal(got->meter, want->meter));
    CHECK_INT(got->form_bars, want->form_bars);
    CHECK(!memcmp(got->form, want->form, sizeof got->form));
    CHECK_INT(got->turnaround ? got->turnaround->id : 0,
              want->turnaround ? want->turnaround->id : 0);
    CHECK_INT(got->crash_start, want->crash_start);
    CHECK(feels_alike(got->feel.swing_ratio, want->feel.swing_ratio));
    CHECK(feels_alike(got->feel.looseness_ms, want->feel.looseness_ms));
    CHECK(feels_alike(got->feel.touch, want->feel.touch));
    CHECK(feels_alike(got->feel.push_hands_ms, want->feel.push_hands_ms));
    CHECK(feels_alike(got->feel.push_snare_ms, want->feel.push_snare_ms));
    CHECK(feels_alike(got->feel.push_feet_ms, want->feel.push_feet_ms));
    CHECK(feels_alike(got->feel.liberty, want->feel.liberty));
    CHECK_INT(got->feel.swing_sixteenths, want->feel.swing_sixteenths);
    for (int i = 0; i < PARTS_MAX; ++i) {
        const Part a = got->parts[i], b = want->parts[i];
        CHECK_INT(a.hands ? a.hands->id : 0, b.hands ? b.hands->id : 0);
        CHECK_INT(a.feet ? a.feet->id : 0, b.feet ? b.feet->id : 0);
        CHECK_INT(a.ride_on, b.ride_on);
    }
}

/* All of the bank in one text, as a bank of its own. */
static void the_whole_bank_written_into_one_file_is_the_same_bank(void)
{
    static EntryPick picks[1000];
    size_t count = 0;
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            picks[count++] = (EntryPick){(EntryKind)kind, bank_entry(bank, (EntryKind)kind, i)->id};
        }
    }
    char* const text = write_entries(bank, picks, count);
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "all.ttl", text, text ? strlen(text) : 0);
    Bank* const again = bank_folder_open(&folder);
    CHECK_INT(bank_diagnostics(again)->count, 0);
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        CHECK_INT(bank_count(again, (EntryKind)kind), bank_count(bank, (EntryKind)kind));
    }
    for (uint32_t i = 0; i < bank_count(again, ENTRY_GROOVE); ++i) {
        check_case("%s", bank_entry(bank, ENTRY_GROOVE, i)->name);
        check_grooves_equal(&bank_library(again)->grooves[i], &bank_library(bank)->grooves[i]);
    }
    free(text);
    bank_free(again);
    bank_folder_remove(&folder);
}

/* Numbers after Marsaglia 2003, xorshift: the same figures on every machine. */
static uint32_t below(uint32_t* const state, const uint32_t limit)
{
    *state ^= *state << 13;
    *state ^= *state >> 17;
    *state ^= *state << 5;
    return *state % limit;
}

/* Any grids beside each other, rests alone, several lines for one limb and voice. */
static void made_up(const uint32_t seed, char text[8192])
{
    uint32_t state = seed * 2654435761U + 1U;
    static const char* const limbs[] = {"rightHand", "leftHand", "rightFoot", "leftFoot"};
    int at = snprintf(text, 8192,
                      "@prefix fl: <urn:fourlimb:terms#> .\n<urn:test:f> a fl:Turnaround ; "
                      "fl:id 1001 ;\n fl:line ");
    const uint32_t lines = 1 + below(&state, 6);
    for (uint32_t line = 0; line < lines; ++line) {
        const uint32_t limb = below(&state, 4);
        at += snprintf(text + at, 8192U - (size_t)at,
                       "%s[ fl:limb fl:%s ; fl:voice fl:%s ; fl:grid %u ; fl:over %u ; fl:steps \"",
                       line ? ", " : "", limbs[limb], below(&state, 2) ? "snare" : "kick",
                       1 + below(&state, 16), below(&state, 3) ? 1 : 1 + below(&state, 16));
        for (uint32_t step = 1 + below(&state, 40); step > 0; --step) {
            text[at++] = (limb > 1 ? "..goO." : "..goOfd")[below(&state, limb > 1 ? 6 : 7)];
        }
        at += snprintf(text + at, 8192U - (size_t)at, "\" ]");
    }
    snprintf(text + at, 8192U - (size_t)at, " .\n");
}

static void figures_made_up_by_chance_are_read_as_they_were_written(void)
{
    int valid = 0;
    for (uint32_t seed = 1; seed <= 2000; ++seed) {
        char text[8192], why[SINGLE_WHY_ROOM];
        made_up(seed, text);
        Single* const want = single_read("/made-up", text, strlen(text), why);
        if (want) { /* else two strokes of a limb stood in one place */
            ++valid;
            check_case("seed %u: %s", seed, text);
            Single* const got = read_back(write_figure(&want->figure, &want->info));
            if (got) {
                check_figures_equal(&got->figure, &want->figure);
            }
            single_free(got);
        }
        single_free(want);
    }
    check_case("how many");
    CHECK(valid > 300);
}

/* As presets/feet.ttl has it, but for serd's way with lines. */
static void a_person_can_read_it(void)
{
    const EntryInfo* const info = bank_info(bank, ENTRY_FEET, 190);
    char* const text = write_figure(library_figure(bank_library(bank), FIGURE_FEET, 190), info);
    const char* const entry = text ? strstr(text, "\nfeet:gallop\n") : NULL;
    CHECK(entry);
    CHECK(entry &&
          strstr(entry, "\ta fl:FeetFigure ;\n\tfl:id 190 ;\n\trdfs:label \"Gallop\" ;\n"));
    CHECK(entry && strstr(entry, "fl:grid 4 ;\n\t\tfl:steps \"o.o.\"\n"));
    free(text);
}

static void names_with_hyphens_keep_their_prefix(void)
{
    const EntryPick one = {ENTRY_GROOVE, 3};
    char* const text = write_entries(bank, &one, 1);
    CHECK(text && strstr(text, "\ngroove:upper-station\n"));
    CHECK(text && strstr(text, "fl:hands hands:eighth-hats ;"));
    free(text);
}

static void texts_with_any_signs_survive(void)
{
    EntryInfo info = *bank_info(bank, ENTRY_FEET, 190);
    info.label = "\"Salt\" \\ Gallop\n\ttwo \xE2\x80\x93 <3> . ;";
    info.comment = "\"\"\" . fl:id 1 ; # \xF0\x9F\xA5\x81";
    Single* const read =
        read_back(write_figure(library_figure(bank_library(bank), FIGURE_FEET, 190), &info));
    if (read) {
        CHECK_TEXT(read->info.label, info.label);
        CHECK_TEXT(read->info.comment, info.comment);
    }
    single_free(read);
}

/* A number below 1000 with so many decimals is told apart by a double: 15 digits are (C11,
   5.2.4.2.2, DBL_DIG).  What the C library makes of the text is what must be read. */
static double pushed(const char* const number, char** const written)
{
    char text[1024];
    const BankFolder folder = bank_folder_make();
    const int size = snprintf(
        text, sizeof text,
        "@prefix fl: <urn:fourlimb:terms#> .\n"
        "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
        "<urn:h> a fl:HandsFigure ; fl:id 1 ; rdfs:label \"H\" ;\n"
        "\tfl:line [ fl:limb fl:rightHand ; fl:voice fl:ride ; fl:grid 1 ; fl:steps \"O\" ] .\n"
        "<urn:g> a fl:Groove ; fl:id 1 ; rdfs:label \"G\" ; fl:tempo 120 ; fl:beatsPerBar 4 ;\n"
        "\tfl:beatUnit 4 ; fl:form \"A\" ; fl:pushHands %s ;\n"
        "\tfl:part [ fl:letter \"A\" ; fl:hands <urn:h> ] .\n",
        number);
    bank_folder_write(&folder, "g.ttl", text, (size_t)size);
    Bank* const one = bank_folder_open(&folder);
    const Groove* const groove = library_groove(bank_library(one), 1);
    const double push = groove ? groove->feel.push_hands_ms : -1.0;
    *written = write_entries(one, &(EntryPick){ENTRY_GROOVE, 1}, 1);
    bank_free(one);
    bank_folder_remove(&folder);
    return push;
}

static void numbers_are_read_and_written_to_the_last_bit(void)
{
    static const char* const numbers[] = {"0.1",   "-49.999",        "12.345678901232", "1.67",
                                          "-0.07", "0.000000000001", "-33.33",          "50.0"};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; ++i) {
        char* text = NULL;
        const double want = strtod(numbers[i], NULL);
        const double got = pushed(numbers[i], &text);
        const char* const said = text ? strstr(text, "fl:pushHands ") : NULL;
        check_case("%s", numbers[i]);
        CHECK(!memcmp(&got, &want, sizeof got));
        const double again = said ? strtod(said + strlen("fl:pushHands "), NULL) : -1.0;
        CHECK(!memcmp(&again, &want, sizeof again));
        free(text);
    }
}

static void a_text_of_none_or_of_two_figures_is_refused(void)
{
    char why[SINGLE_WHY_ROOM] = "";
    CHECK(!single_read("/draft", "", 0, why));
    CHECK(strstr(why, "expected one subject that is one of fl:HandsFigure, "));
    const EntryPick two[] = {{ENTRY_FEET, 190}, {ENTRY_FEET, 1}};
    char* const text = write_entries(bank, two, 2);
    CHECK(!single_read("/draft", text, strlen(text), why));
    free(text);
}

int main(void)
{
    bank = factory_open();
    RUN(every_factory_figure_is_read_as_it_was_written);
    RUN(every_factory_kit_map_is_read_as_it_was_written);
    RUN(the_whole_bank_written_into_one_file_is_the_same_bank);
    RUN(figures_made_up_by_chance_are_read_as_they_were_written);
    RUN(a_person_can_read_it);
    RUN(names_with_hyphens_keep_their_prefix);
    RUN(texts_with_any_signs_survive);
    RUN(numbers_are_read_and_written_to_the_last_bit);
    RUN(a_text_of_none_or_of_two_figures_is_refused);
    bank_free(bank);
    return tests_end();
}
