// SPDX-License-Identifier: ISC
/* A selection kept as a groove of the user's own plays, from its file, what the selection
   played: stroke by stroke, whatever was picked, laid out or dialled.  What stands in the files
   is read back by the bank. */
#include "../../plugin/bank/own_groove.h"
#include "../../plugin/engine/groove/groove.h"
#include "user_bank_folder.h"

#include <math.h>

enum { BARS = 8 };

static const Meter four = {4.0, 4};

static Bank* factory(void)
{
    return bank_open((BankSources){.factory = FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank"});
}

static void set_normal(float values[CONTROL_COUNT])
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].normal;
    }
}

static Selection select_from(const Bank* const bank, const float values[CONTROL_COUNT])
{
    const Settings settings = settings_from_controls(values);
    return selection_make(bank_library(bank), &settings, 120.0);
}

/* The strokes of a bar. */
static void play(const Selection* const selection, const Meter meter, const int bar,
                 StrokeList* const list)
{
    const int64_t ticks = meter_bar_ticks(meter);
    list->count = list->dropped = 0;
    groove_strokes(selection, meter, bar * ticks, (bar + 1) * ticks, list);
    CHECK_INT(list->dropped, 0);
}

static void check_alike(const Selection* const a, const Selection* const b, const Meter meter)
{
    static StrokeList want, got;
    uint32_t all = 0;
    for (int bar = 0; bar < BARS; ++bar) {
        play(a, meter, bar, &want);
        play(b, meter, bar, &got);
        CHECK_INT(got.count, want.count);
        CHECK(stroke_lists_alike(&got, &want, 0));
        all += want.count;
    }
    CHECK(all > 0);
}

/* Figures that the bank lacks, then the groove; the groove's id. */
static uint32_t keep(const BankFolder* const folder, OwnGroove* const own, const char* const label)
{
    for (int i = 0; i < own->count; ++i) {
        Bank* const bank = open_own(folder);
        char* const text = own_groove_figure(own, i, bank, label);
        if (own->uses[i].is_made && CHECK(text)) {
            own->uses[i].id = save(folder->path, text);
            CHECK_TEXT(why, "");
        }
        free(text);
        bank_free(bank);
    }
    Bank* const bank = open_own(folder);
    char* const text = own_groove_text(own, bank, 0, label);
    const Saved saved = text
                            ? user_bank_save_over(bank, folder->path, text, strlen(text), NULL, why)
                            : (Saved){.id = 0};
    CHECK_TEXT(why, "");
    free(text);
    bank_free(bank);
    return saved.id;
}

/* Keeps what the controls select, and compares. */
static void check_kept(const float values[CONTROL_COUNT], const Meter meter)
{
    const BankFolder folder = bank_folder_make();
    Bank* const bank = open_own(&folder);
    const Selection selection = select_from(bank, values);
    OwnGroove own;
    if (!CHECK(own_groove_make(&own, &selection, meter, 151.0))) {
        return;
    }
    const uint32_t id = keep(&folder, &own, "Slipway");
    Bank* const again = open_own(&folder);
    CHECK_INT(bank_diagnostics(again)->count, 0);
    const Groove* const groove = library_groove(bank_library(again), id);
    if (CHECK(id >= FIRST && groove && groove->id == id)) {
        const Selection kept = selection_of_groove(groove);
        check_alike(&selection, &kept, meter);
        CHECK_NEAR(groove->tempo, 151.0, 0.1);
        CHECK_NEAR(groove->meter.beats_per_bar, meter.beats_per_bar, 0.0);
        CHECK_TEXT(bank_info(again, ENTRY_GROOVE, id)->label, "Slipway");
    }
    own_groove_free(&own);
    bank_free(again);
    bank_free(bank);
    bank_folder_remove(&folder);
}

/* Each control of what is written, by itself and with others. */
static const struct {
    Control control;
    float value;
} dialled[] = {
    {CONTROL_HANDS_GRID, 3},  {CONTROL_FEET_GRID, 6},   {CONTROL_HANDS_CYCLE, 7},
    {CONTROL_FEET_CYCLE, 5},  {CONTROL_HANDS_SHIFT, 1}, {CONTROL_FEET_SHIFT, -3},
    {CONTROL_LEAD_FOOT, 1},   {CONTROL_RIDE_ON, 4},     {CONTROL_PHRASE_BARS, 3},
    {CONTROL_TURNAROUND, -1}, {CONTROL_CRASH, 1},
};
enum { DIALLED = sizeof dialled / sizeof *dialled };

static void what_is_dialled_is_written(void)
{
    float values[CONTROL_COUNT];
    Bank* const bank = factory();
    for (int i = 0; i < DIALLED; ++i) {
        const uint32_t at = (uint32_t)(7 * i) % bank_count(bank, ENTRY_GROOVE);
        const uint32_t id = bank_entry(bank, ENTRY_GROOVE, at)->id;
        const Groove* const groove = library_groove(bank_library(bank), id);
        set_normal(values);
        values[CONTROL_GROOVE] = (float)id;
        values[dialled[i].control] = dialled[i].value;
        check_case("groove %u, %s %g", id, control_rows[dialled[i].control].symbol,
                   (double)dialled[i].value);
        check_kept(values, groove->meter);
        values[dialled[(i + 3) % DIALLED].control] = dialled[(i + 3) % DIALLED].value;
        check_case("and %s", control_rows[dialled[(i + 3) % DIALLED].control].symbol);
        check_kept(values, four);
    }
    bank_free(bank);
}

static void what_is_picked_is_written(void)
{
    float values[CONTROL_COUNT];
    Bank* const bank = factory();
    for (uint32_t i = 0; i < 12; ++i) {
        const Control controls[FIGURE_KINDS] = {CONTROL_HANDS, CONTROL_FEET, CONTROL_TURNAROUND};
        set_normal(values);
        values[CONTROL_GROOVE] = (float)bank_entry(bank, ENTRY_GROOVE, 3 * i)->id;
        for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
            const uint32_t at = (11 * i + 5) % bank_count(bank, (EntryKind)kind);
            values[controls[kind]] =
                (i >> kind) % 2 ? (float)bank_entry(bank, (EntryKind)kind, at)->id : 0.0f;
        }
        check_case("picks %u", i);
        check_kept(values, four);
    }
    bank_free(bank);
}

static void swing_and_feel_are_written_as_they_are_dialled(void)
{
    float values[CONTROL_COUNT];
    const BankFolder folder = bank_folder_make();
    Bank* const bank = open_own(&folder);
    set_normal(values);
    values[CONTROL_SWING_RATIO] = 2.0f;
    values[CONTROL_SWING_GRID] = 1.0f;
    values[CONTROL_LOOSENESS] = 4.0f;
    values[CONTROL_PUSH_FEET] = -6.0f;
    values[CONTROL_LIBERTY] = 0.0f;
    const Selection selection = select_from(bank, values);
    OwnGroove own;
    CHECK(own_groove_make(&own, &selection, four, 120.4));
    const uint32_t id = keep(&folder, &own, "Shingle");
    Bank* const again = open_own(&folder);
    set_normal(values);
    values[CONTROL_GROOVE] = (float)id;
    const Selection kept = select_from(again, values);
    CHECK_NEAR(kept.swing.ratio, 2.0, 1e-6);
    CHECK_INT(kept.swing.pair_ticks, TICKS_PER_QUARTER / 2);
    CHECK_NEAR(kept.feel.looseness_ms, 4.0, 1e-6);
    CHECK_NEAR(kept.feel.push_feet_ms, -6.0, 1e-6);
    CHECK_NEAR(kept.feel.liberty, 0.0, 1e-6);
    CHECK_NEAR(kept.groove->tempo, 120.0, 0.0);
    own_groove_free(&own);
    bank_free(again);
    bank_free(bank);
    bank_folder_remove(&folder);
}

static void what_a_groove_has_no_words_for_is_told(void)
{
    float values[CONTROL_COUNT];
    Bank* const bank = factory();
    OwnGroove own;
    set_normal(values);
    Selection selection = select_from(bank, values);
    CHECK(own_groove_make(&own, &selection, four, 120.0));
    CHECK_TEXT(own.left, "");
    own_groove_free(&own);
    values[CONTROL_FILL_EVERY] = 4.0f;
    values[CONTROL_CRASH] = 3.0f;
    values[CONTROL_REALIGN] = 0.0f;
    values[CONTROL_FEET_CYCLE] = 5.0f;
    selection = select_from(bank, values);
    CHECK(own_groove_make(&own, &selection, four, 120.0));
    CHECK_TEXT(own.left, "how often a fill comes, where crashes come, where figures start again");
    own_groove_free(&own);
    bank_free(bank);
}

static void saved_over_it_keeps_its_id_and_the_older_as_bak(void)
{
    float values[CONTROL_COUNT];
    const BankFolder folder = bank_folder_make();
    Bank* const bank = open_own(&folder);
    OwnGroove own;
    set_normal(values);
    const Selection selection = select_from(bank, values);
    CHECK(own_groove_make(&own, &selection, four, 90.0));
    const uint32_t id = keep(&folder, &own, "Quay");
    own.groove.tempo = 99.0;
    Bank* const again = open_own(&folder);
    char* const text = own_groove_text(&own, again, id, "Quay");
    CHECK_INT(user_bank_save_over(again, folder.path, text, strlen(text), NULL, why).id, id);
    CHECK(strstr(contents(bank_folder_file(&folder, "groove-1000.ttl")), "fl:tempo 99"));
    CHECK(strstr(contents(bank_folder_file(&folder, "groove-1000.ttl.bak")), "fl:tempo 90"));
    free(text);
    own_groove_free(&own);
    bank_free(again);
    bank_free(bank);
    bank_folder_remove(&folder);
}

/* ---- And out again */

static void write_file(const BankFolder* const folder, const char* const name,
                       const char* const text)
{
    bank_folder_write(folder, name, text, strlen(text));
}

static bool take_out(const BankFolder* const folder, const EntryKind kind, const uint32_t id,
                     char aside[USER_BANK_NAME_ROOM])
{
    Bank* const bank = open_own(folder);
    const bool is_gone = user_bank_delete(bank, folder->path, kind, id, aside, why);
    bank_free(bank);
    return is_gone;
}

static void a_deleted_entry_lies_beside_and_comes_back_by_its_name(void)
{
    char aside[USER_BANK_NAME_ROOM];
    const BankFolder folder = bank_folder_make();
    save(folder.path, gallop("Salt Gallop", 0, "O.oo"));
    char* const before = strdup(contents(feet_file(&folder, FIRST)));
    CHECK(take_out(&folder, ENTRY_FEET, FIRST, aside));
    CHECK_TEXT(aside, "feet-1000.ttl.deleted");
    CHECK(!contents(feet_file(&folder, FIRST)));
    CHECK_TEXT(contents(bank_folder_file(&folder, aside)), before);
    check_case("its id isn't given again");
    CHECK_INT(save(folder.path, gallop("Fog Gallop", 0, "Ooo.")), FIRST + 1);
    check_case("back by its name");
    char* const from = strdup(bank_folder_file(&folder, aside));
    CHECK(rename(from, feet_file(&folder, FIRST)) == 0);
    Bank* const bank = open_own(&folder);
    CHECK_TEXT(bank_info(bank, ENTRY_FEET, FIRST)->label, "Salt Gallop");
    bank_free(bank);
    check_case("deleted again, over nothing");
    CHECK(rename(feet_file(&folder, FIRST), from) == 0);
    CHECK_INT(save(folder.path, gallop("Salt Gallop", FIRST, "OOOO")), FIRST);
    CHECK(take_out(&folder, ENTRY_FEET, FIRST, aside));
    CHECK_TEXT(aside, "feet-1000.ttl.deleted-2");
    CHECK_TEXT(contents(from), before);
    free(from);
    free(before);
    bank_folder_remove(&folder);
}

static void what_is_no_file_of_its_own_stays(void)
{
    char aside[USER_BANK_NAME_ROOM];
    const BankFolder folder = bank_folder_make();
    write_file(&folder, "mine.ttl", gallop("One", FIRST + 5, "O..."));
    FILE* const file = fopen(bank_folder_file(&folder, "mine.ttl"), "a");
    fprintf(file, "<urn:test:two> a fl:FeetFigure ; fl:id 1006 ; rdfs:label \"Two\" ; fl:line [ "
                  "fl:limb fl:leftFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"o\" ] .\n");
    fclose(file);
    CHECK(!take_out(&folder, ENTRY_FEET, FIRST + 5, aside));
    CHECK(strstr(why, "mine.ttl holds more than it"));
    CHECK(contents(bank_folder_file(&folder, "mine.ttl")));
    check_case("the factory's, and nobody's");
    CHECK(!take_out(&folder, ENTRY_FEET, 1, aside));
    CHECK(strstr(why, "isn't one of your own"));
    CHECK(!take_out(&folder, ENTRY_FEET, 1999, aside));
    check_case("alone in a file of any name");
    CHECK(remove(bank_folder_file(&folder, "mine.ttl")) == 0);
    write_file(&folder, "other.ttl", gallop("Other", FIRST + 8, "O..."));
    CHECK(take_out(&folder, ENTRY_FEET, FIRST + 8, aside));
    CHECK_TEXT(aside, "other.ttl.deleted");
    CHECK(strstr(contents(bank_folder_file(&folder, IDS_RECORD)), "1008"));
    bank_folder_remove(&folder);
}

static void what_a_groove_plays_stays_until_that_is_deleted(void)
{
    char aside[USER_BANK_NAME_ROOM];
    float values[CONTROL_COUNT];
    const BankFolder folder = bank_folder_make();
    const uint32_t feet = save(folder.path, gallop("Salt Gallop", 0, "O.oo"));
    Bank* const bank = open_own(&folder);
    OwnGroove own;
    set_normal(values);
    values[CONTROL_FEET] = (float)feet;
    const Selection selection = select_from(bank, values);
    CHECK(own_groove_make(&own, &selection, four, 90.0));
    const uint32_t groove = keep(&folder, &own, "Quay");
    CHECK(!take_out(&folder, ENTRY_FEET, feet, aside));
    CHECK_TEXT(why,
               "\"Salt Gallop\" isn't deleted: your groove \"Quay\" plays it; delete that first");
    CHECK(take_out(&folder, ENTRY_GROOVE, groove, aside));
    CHECK(take_out(&folder, ENTRY_FEET, feet, aside));
    own_groove_free(&own);
    bank_free(bank);
    bank_folder_remove(&folder);
}

int main(void)
{
    RUN(what_is_dialled_is_written);
    RUN(what_is_picked_is_written);
    RUN(swing_and_feel_are_written_as_they_are_dialled);
    RUN(what_a_groove_has_no_words_for_is_told);
    RUN(saved_over_it_keeps_its_id_and_the_older_as_bak);
    RUN(a_deleted_entry_lies_beside_and_comes_back_by_its_name);
    RUN(what_is_no_file_of_its_own_stays);
    RUN(what_a_groove_plays_stays_until_that_is_deleted);
    return tests_end();
}
