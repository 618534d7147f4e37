// SPDX-License-Identifier: ISC
/* One bank for each process: who reads the same files holds the same bank, who reads
   others doesn't, whatever comes and goes on how many threads; and the bank that the build
   compiles is the one that its Turtle says. */
#include "../help/check.h"
#include "bank_folder.h"

#include "../../plugin/bank/write_figure.h"

#include <math.h>
#include <pthread.h>
#include <stdatomic.h>

#define FACTORY FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank"

static const char prefixes[] = "@prefix fl: <urn:fourlimb:terms#> .\n"
                               "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n";

static void put_feet(const BankFolder* const folder, const char* const file, const unsigned id,
                     const char* const steps)
{
    char text[1024];
    const int size = snprintf(text, sizeof text,
                              "%s<urn:test:%s> a fl:FeetFigure ; fl:id %u ; rdfs:label \"Feet\" ;\n"
                              "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; "
                              "fl:steps \"%s\" ] .\n",
                              prefixes, file, id, steps);
    bank_folder_write(folder, file, text, (size_t)size);
}

static Bank* open_with(const char* const factory, const char* const users)
{
    Bank* const bank = bank_open((BankSources){factory, users, NULL});
    if (!bank) {
        printf("# there is no memory\n");
        exit(2);
    }
    return bank;
}

static void who_reads_the_same_files_holds_the_same_bank(void)
{
    const BankFolder users = bank_folder_make();
    put_feet(&users, "one.ttl", 1000, "O.o.");
    Bank* const bare = open_with(FACTORY, NULL);
    Bank* const bare_again = open_with(FACTORY, NULL);
    Bank* const own = open_with(FACTORY, users.path);
    Bank* const own_again = open_with(FACTORY, users.path);
    CHECK(bare == bare_again);
    CHECK(own == own_again);
    CHECK(bare != own);
    bank_free(bare);
    bank_free(own);
    CHECK(bank_info(own_again, ENTRY_FEET, 1000));
    CHECK(bank_info(own_again, ENTRY_FEET, 1));
    bank_free(bare_again);
    CHECK(bank_info(own_again, ENTRY_FEET, 1)); /* of the factory's, which it holds */
    bank_free(own_again);
    bank_folder_remove(&users);
}

static void a_folder_of_the_user_s_with_nothing_in_it_is_the_factory_s_bank(void)
{
    const BankFolder users = bank_folder_make();
    Bank* const bare = open_with(FACTORY, NULL);
    Bank* const own = open_with(FACTORY, users.path);
    CHECK(bare == own);
    bank_free(own);
    bank_free(bare);
    bank_folder_remove(&users);
}

static void other_folders_have_other_banks(void)
{
    const BankFolder first = bank_folder_make();
    const BankFolder second = bank_folder_make();
    put_feet(&first, "a.ttl", 1, "O...");
    put_feet(&second, "a.ttl", 2, "O...");
    Bank* const one = open_with(first.path, NULL);
    Bank* const two = open_with(second.path, NULL);
    CHECK(bank_info(one, ENTRY_FEET, 1) && !bank_info(one, ENTRY_FEET, 2));
    CHECK(bank_info(two, ENTRY_FEET, 2) && !bank_info(two, ENTRY_FEET, 1));
    bank_free(one);
    bank_free(two);
    bank_folder_remove(&first);
    bank_folder_remove(&second);
}

/* As another program, or another instance, writes while the first is open. */
static void files_that_changed_are_read_again_while_the_older_bank_is_held(void)
{
    const BankFolder users = bank_folder_make();
    put_feet(&users, "one.ttl", 1000, "O.o.");
    Bank* const before = open_with(FACTORY, users.path);
    put_feet(&users, "two.ttl", 1001, "OO..");
    Bank* const after = open_with(FACTORY, users.path);
    CHECK(!bank_info(before, ENTRY_FEET, 1001));
    CHECK(bank_info(after, ENTRY_FEET, 1001) && bank_info(after, ENTRY_FEET, 1000));
    bank_free(before);
    bank_free(after);
    bank_folder_remove(&users);
}

static void a_session_s_own_entries_are_nobody_else_s(void)
{
    const BankFolder users = bank_folder_make();
    put_feet(&users, "one.ttl", 1000, "O.o.");
    Bank* const own = open_with(FACTORY, users.path);
    Bank* const session = bank_open_session(
        (BankSources){FACTORY, users.path, NULL},
        "@prefix fl: <urn:fourlimb:terms#> .\n<urn:s> a fl:FeetFigure ; fl:id 1000 ;\n"
        "<http://www.w3.org/2000/01/rdf-schema#label> \"Session's\" ;\n"
        "fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"OOOO\" ] .\n");
    Bank* const again = open_with(FACTORY, users.path);
    CHECK(session && bank_info(session, ENTRY_FEET, 1000));
    CHECK(session && bank_info(session, ENTRY_FEET, 1000)->is_sessions);
    CHECK(again == own);
    CHECK(!bank_info(own, ENTRY_FEET, 1000)->is_sessions);
    bank_free(session);
    bank_free(own);
    bank_free(again);
    bank_folder_remove(&users);
}

/* ---- Threads */

enum { THREADS = 4, TURNS = 200 };

typedef struct {
    const char* factory;
    const char* users;
    atomic_int wrong;
} Crowd;

static void* open_and_free(void* const context)
{
    Crowd* const crowd = (Crowd*)context;
    for (int i = 0; i < TURNS; ++i) {
        Bank* const bank = bank_open((BankSources){crowd->factory, crowd->users, NULL});
        crowd->wrong +=
            !bank || !bank_info(bank, ENTRY_FEET, 1) || !bank_info(bank, ENTRY_FEET, 1000);
        bank_free(bank);
    }
    return NULL;
}

static void banks_come_and_go_on_any_thread(void)
{
    const BankFolder factory = bank_folder_make();
    const BankFolder users = bank_folder_make();
    Crowd crowd = {factory.path, users.path, 0};
    pthread_t threads[THREADS];
    put_feet(&factory, "f.ttl", 1, "O.o.");
    put_feet(&users, "u.ttl", 1000, "O.o.");
    for (int i = 0; i < THREADS; ++i) {
        CHECK(!pthread_create(&threads[i], NULL, open_and_free, &crowd));
    }
    for (int i = 0; i < THREADS; ++i) {
        pthread_join(threads[i], NULL);
    }
    CHECK_INT(crowd.wrong, 0);
    bank_folder_remove(&factory);
    bank_folder_remove(&users);
}

/* ---- What the build compiled */

/* The same Turtle, which the comment keeps from being taken for the compiled. */
static BankFolder copy_of_the_factory_s(void)
{
    static const char comment[] = "# a copy\n";
    const BankFolder folder = bank_folder_make();
    static const char* const files[] = {"feet.ttl", "grooves.ttl",     "hands.ttl",
                                        "kits.ttl", "turnarounds.ttl", "terms.ttl"};
    for (size_t i = 0; i < sizeof files / sizeof *files; ++i) {
        char path[PATH_ROOM];
        snprintf(path, sizeof path, "%s/%s", FACTORY, files[i]);
        if (symlink(path, bank_folder_file(&folder, files[i]))) {
            perror(path);
            exit(2);
        }
    }
    bank_folder_write(&folder, "zzz.ttl", comment, sizeof comment - 1);
    return folder;
}

static bool same_text(const char* const a, const char* const b)
{
    return !strcmp(a, b);
}

static bool same_info(const EntryInfo* const a, const EntryInfo* const b)
{
    return a->id == b->id && same_text(a->name, b->name) && same_text(a->uri, b->uri) &&
           same_text(a->label, b->label) && same_text(a->comment, b->comment) &&
           same_text(a->family, b->family) && same_text(a->family_uri, b->family_uri) &&
           same_text(a->where, b->where) && same_text(a->differs, b->differs) &&
           same_text(a->alone, b->alone) && a->tempo_low == b->tempo_low &&
           a->tempo_high == b->tempo_high && a->is_users == b->is_users &&
           a->is_sessions == b->is_sessions;
}

static bool same_figure(const Figure* const a, const Figure* const b)
{
    bool same = a->id == b->id && a->kind == b->kind && a->cycle_ticks == b->cycle_ticks &&
                a->step_ticks == b->step_ticks && a->bars == b->bars &&
                a->stroke_count == b->stroke_count && a->plays_pedal == b->plays_pedal &&
                a->keeps_time == b->keeps_time &&
                !memcmp(a->plays_limb, b->plays_limb, sizeof a->plays_limb);
    for (uint32_t i = 0; same && i < a->stroke_count; ++i) {
        const Stroke s = a->strokes[i];
        const Stroke t = b->strokes[i];
        same = s.tick == t.tick && s.limb == t.limb && s.voice == t.voice && s.level == t.level &&
               s.bends == t.bends;
    }
    return same;
}

static void same_kind(const Bank* const compiled, const Bank* const read, const EntryKind kind)
{
    CHECK_INT(bank_count(compiled, kind), bank_count(read, kind));
    for (uint32_t i = 0; i < bank_count(compiled, kind); ++i) {
        const EntryInfo* const info = bank_entry(compiled, kind, i);
        check_case("%s", info->name);
        CHECK(same_info(info, bank_entry(read, kind, i)));
        const EntryPick pick = {kind, info->id};
        char* const said = write_entries(compiled, &pick, 1);
        char* const want = write_entries(read, &pick, 1);
        CHECK_TEXT(said, want);
        free(said);
        free(want);
        if (kind < (EntryKind)FIGURE_KINDS) {
            CHECK(same_figure(bank_value(compiled, kind, info->id),
                              bank_value(read, kind, info->id)));
        }
    }
}

static bool same_number(const double a, const double b)
{
    return (isnan(a) && isnan(b)) || !memcmp(&a, &b, sizeof a);
}

/* Bit for bit: what is written as text might hide a difference. */
static bool same_feel(const WrittenFeel* const a, const WrittenFeel* const b)
{
    return same_number(a->swing_ratio, b->swing_ratio) &&
           a->swing_sixteenths == b->swing_sixteenths &&
           same_number(a->looseness_ms, b->looseness_ms) && same_number(a->touch, b->touch) &&
           same_number(a->push_hands_ms, b->push_hands_ms) &&
           same_number(a->push_snare_ms, b->push_snare_ms) &&
           same_number(a->push_feet_ms, b->push_feet_ms) && same_number(a->liberty, b->liberty);
}

static void the_compiled_bank_is_what_its_turtle_says(void)
{
    const BankFolder copy = copy_of_the_factory_s();
    Bank* const compiled = open_with(FACTORY, NULL);
    Bank* const read = open_with(copy.path, NULL);
    CHECK(compiled != read);
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        same_kind(compiled, read, (EntryKind)kind);
    }
    const Library* const library = bank_library(compiled);
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        check_case("groove %u", library->grooves[i].id);
        CHECK(same_feel(&library->grooves[i].feel, &bank_library(read)->grooves[i].feel));
    }
    CHECK(library->groove_count > 50);
    bank_free(compiled);
    bank_free(read);
    bank_folder_remove(&copy);
}

/* A user's entry may be of a factory's family, and may not describe one of its entries. */
static void what_lies_over_the_compiled_bank_is_told_what_is_in_it(void)
{
    static const char text[] =
        "@prefix fl: <urn:fourlimb:terms#> .\n"
        "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
        "<urn:mine> a fl:FeetFigure ; fl:id 1000 ; rdfs:label \"Mine\" ; fl:family fl:gallop ;\n"
        "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"O.oo\" ] .\n"
        "fl:gallop rdfs:label \"Mine too\" .\n";
    const BankFolder copy = copy_of_the_factory_s();
    const BankFolder users = bank_folder_make();
    bank_folder_write(&users, "mine.ttl", text, sizeof text - 1);
    const char* const factories[] = {FACTORY, copy.path};
    for (int i = 0; i < 2; ++i) {
        check_case("%s", i ? "read" : "compiled");
        Bank* const bank = open_with(factories[i], users.path);
        const EntryInfo* const info = bank_info(bank, ENTRY_FEET, 1000);
        CHECK_TEXT(info ? info->family : NULL, "gallop");
        CHECK_INT(bank_diagnostics(bank)->count, 1);
        CHECK_TEXT(bank_diagnostics(bank)->texts[0],
                   "mine.ttl:5: fl:gallop was described in terms.ttl already; this is left out");
        bank_free(bank);
    }
    bank_folder_remove(&users);
    bank_folder_remove(&copy);
}

int main(void)
{
    RUN(who_reads_the_same_files_holds_the_same_bank);
    RUN(a_folder_of_the_user_s_with_nothing_in_it_is_the_factory_s_bank);
    RUN(other_folders_have_other_banks);
    RUN(files_that_changed_are_read_again_while_the_older_bank_is_held);
    RUN(a_session_s_own_entries_are_nobody_else_s);
    RUN(banks_come_and_go_on_any_thread);
    RUN(the_compiled_bank_is_what_its_turtle_says);
    RUN(what_lies_over_the_compiled_bank_is_told_what_is_in_it);
    return tests_end();
}
