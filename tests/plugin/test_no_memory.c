// SPDX-License-Identifier: ISC
/* test_no_memory.c - memory runs out at each place where the plugin asks for some, once
   or from there on: nothing crashes, nothing that the user had is lost, and once there is
   memory again everything works.  The linker puts the functions here between our code and
   the C library (--wrap, see the Makefile), so what serd and sord ask for isn't refused:
   they don't look whether they got it.  The sanitized build sees what is freed too early,
   twice or never. */
#include "direct.h"

#include <errno.h>

/* ---- Memory that runs out */

static struct {
    long asked;    /* since it was armed */
    long fails_at; /* this one fails, from 1; 0: none does */
    bool for_good; /* and all after it */
} memory;

static bool fails(void)
{
    ++memory.asked;
    const bool fails = memory.fails_at && (memory.for_good ? memory.asked >= memory.fails_at
                                                           : memory.asked == memory.fails_at);
    errno = fails ? ENOMEM : errno;
    return fails;
}

#define WRAP(type, name, parameters, arguments)                                                    \
    type __real_##name parameters;                                                                 \
    type __wrap_##name parameters;                                                                 \
    type __wrap_##name parameters                                                                  \
    {                                                                                              \
        return fails() ? NULL : __real_##name arguments;                                           \
    }

WRAP(void*, malloc, (size_t size), (size))
WRAP(void*, calloc, (size_t count, size_t size), (count, size))
WRAP(void*, realloc, (void* old, size_t size), (old, size))
WRAP(char*, strdup, (const char* text), (text))
WRAP(char*, strndup, (const char* text, size_t size), (text, size))
WRAP(char*, realpath, (const char* path, char* resolved), (path, resolved))

static void arm(const long at, const bool for_good)
{
    memory.asked = 0;
    memory.fails_at = at;
    memory.for_good = for_good;
}

/* ---- A small bank, and a session of it */

static const char factory_text[] = TTL
    ":hat a fl:HandsFigure ; fl:id 1 ; rdfs:label \"Hat\" ;\n"
    "\tfl:line [ fl:limb fl:rightHand ; fl:voice fl:hatClosed ; fl:grid 4 ; fl:steps \"Ooog\" ] .\n"
    ":gallop a fl:FeetFigure ; fl:id 1 ; rdfs:label \"Gallop\" ;\n"
    "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"O.o.\" ] .\n"
    ":street a fl:Groove ; fl:id 1 ; rdfs:label \"Street\" ; fl:tempo 120 ;\n"
    "\tfl:beatsPerBar 4 ; fl:beatUnit 4 ; fl:form \"A\" ;\n"
    "\tfl:part [ fl:letter \"A\" ; fl:hands :hat ; fl:feet :gallop ] .\n";

#define OWN(name, id, steps)                                                                       \
    ":" name " a fl:FeetFigure ; fl:id " id " ; rdfs:label \"" name "\" ;\n"                       \
    "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"" steps          \
    "\" ] .\n"

static const char own_text[] = TTL OWN("mine", "1000", "O...");
static const char other_text[] = TTL OWN("other", "1001", "O.O.");
static const char draft_text[] = TTL OWN("draft", "1000", "OOOO");
static const char sessions_text[] = TTL OWN("kept", "1002", "Oo.o");
static const char names_text[] = TTL ":gone a fl:FeetFigure ; fl:id 1500 ; rdfs:label \"Gone\" .\n";

static const char kept_text[] =
    TTL ":k a fl:KeptSelection ; fl:slot 3 ; rdfs:label \"Three\" ;\n"
        "\tfl:setting [ fl:symbol \"feet\" ; fl:value 1002.0 ] ;\n\tfl:ownEntries \"\"\"" TTL
        ":mine a fl:FeetFigure ; fl:id 1002 ; rdfs:label \"mine\" ;\n\tfl:line [ fl:limb "
        "fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"o.o.\" ] .\n\"\"\" .\n";

typedef struct {
    BankFolder bundle; /* with bank/factory.ttl */
    BankFolder home;   /* $XDG_DATA_HOME, with fourlimb/own.ttl */
    Direct direct;
} Stage;

static Stage stage;

static void clear_folder(const BankFolder* const folder, const char* const name)
{
    DIR* const directory = opendir(bank_folder_file(folder, name));
    for (struct dirent* entry; directory && (entry = readdir(directory));) {
        char inner[512];
        snprintf(inner, sizeof inner, "%s/%s", name, entry->d_name);
        remove(bank_folder_file(folder, inner)); /* . and .. can't be */
    }
    if (directory) {
        closedir(directory);
    }
}

static void set_home(void)
{
    clear_folder(&stage.home, "fourlimb");
    bank_folder_write(&stage.home, "fourlimb/own.ttl", own_text, strlen(own_text));
}

static void set_stage(void)
{
    stage.bundle = bank_folder_make();
    stage.home = bank_folder_make();
    mkdir(bank_folder_file(&stage.bundle, "bank"), 0700);
    mkdir(bank_folder_file(&stage.home, "fourlimb"), 0700);
    bank_folder_write(&stage.bundle, "bank/factory.ttl", factory_text, strlen(factory_text));
    setenv("XDG_DATA_HOME", stage.home.path, 1);
    set_home();
    direct_open(&stage.direct);
}

static void strike_stage(void)
{
    direct_close(&stage.direct);
    clear_folder(&stage.home, "fourlimb");
    rmdir(bank_folder_file(&stage.home, "fourlimb"));
    clear_folder(&stage.bundle, "bank");
    rmdir(bank_folder_file(&stage.bundle, "bank"));
    bank_folder_remove(&stage.home);
    bank_folder_remove(&stage.bundle);
}

/* An instance that plays the user's own feet, and draws from all lists. */
static Direct* instance(void)
{
    arm(0, false);
    set_home();
    if (!direct_instantiate(&stage.direct, stage.bundle.path)) {
        printf("# the plugin will not start\n");
        exit(2);
    }
    direct_activate(&stage.direct);
    stage.direct.controls[CONTROL_FEET] = 1000.0f;
    direct_run(&stage.direct, NULL, NULL);
    return &stage.direct;
}

static bool holds(const Direct* const direct, const int text, const char* const words)
{
    return strstr(direct->texts[text], words);
}

/* Everything works: it plays, the worker works, a draft comes in, and its own feet, which
   it plays, are saved with the session. */
static void check_sound(Direct* const direct)
{
    arm(0, false);
    for (int i = 0; i < 4; ++i) {
        direct_run(direct, NULL, NULL);
        direct_work(direct);
    }
    direct_run(direct, FL "handsDraft",
               TTL ":d a fl:HandsFigure ; fl:id 1 ; fl:line [ fl:limb fl:rightHand ; fl:voice "
                   "fl:ride ; fl:grid 4 ; fl:steps \"O.O.\" ] .");
    direct_work(direct);
    for (int i = 0; i < 4; ++i) {
        direct_run(direct, NULL, NULL);
    }
    CHECK(direct_save(direct));
    CHECK(holds(direct, 0, "fl:ride"));
    CHECK(holds(direct, 3, "1000"));
}

/* ---- Each place in turn */

typedef struct {
    void (*before)(Direct* direct); /* may be NULL */
    bool (*step)(Direct* direct);   /* with memory running out: whether it says it was done */
    void (*after)(Direct* direct, bool done); /* what must hold then; may be NULL */
} Scenario;

static long places_of(const Scenario scenario)
{
    Direct* const direct = instance();
    if (scenario.before) {
        scenario.before(direct);
    }
    arm(0, false);
    CHECK(scenario.step(direct));
    const long asked = memory.asked;
    if (scenario.after) {
        scenario.after(direct, true);
    }
    check_sound(direct);
    direct_cleanup(direct);
    return asked;
}

static void check_everywhere(const Scenario scenario)
{
    const long places = places_of(scenario);
    long refused = 0;
    for (int for_good = 0; for_good < 2; ++for_good) {
        for (long at = 1; at <= places; ++at) {
            check_case("%s no memory at place %ld of %ld", for_good ? "ever after" : "once", at,
                       places);
            Direct* const direct = instance();
            if (scenario.before) {
                scenario.before(direct);
            }
            arm(at, for_good);
            const bool done = scenario.step(direct);
            arm(0, false);
            refused += !done;
            if (scenario.after) {
                scenario.after(direct, done);
            }
            check_sound(direct);
            direct_cleanup(direct);
        }
    }
    printf("# %ld places, each twice; it said that it failed %ld times\n", places, refused);
    CHECK(places > 5 && refused > 5);
}

static void an_instance_starts_whole_or_not_at_all(void)
{
    direct_cleanup(instance());
    Direct* const direct = &stage.direct;
    arm(0, false);
    CHECK(direct_instantiate(direct, stage.bundle.path));
    const long places = memory.asked;
    direct_cleanup(direct);
    long refused = 0;
    for (int for_good = 0; for_good < 2; ++for_good) {
        for (long at = 1; at <= places; ++at) {
            check_case("%s no memory at place %ld of %ld", for_good ? "ever after" : "once", at,
                       places);
            arm(at, for_good);
            const bool good = direct_instantiate(direct, stage.bundle.path);
            arm(0, false);
            refused += !good;
            if (good) {
                direct_activate(direct);
                stage.direct.controls[CONTROL_FEET] = 1000.0f;
                check_sound(direct);
            }
            direct_cleanup(direct);
        }
    }
    printf("# %ld places, each twice; %ld times there was no instance\n", places, refused);
    CHECK(places > 50 && refused > places);
}

static bool draft(Direct* const direct)
{
    direct_run(direct, FL "feetDraft", draft_text);
    direct_work(direct);
    direct_run(direct, NULL, NULL);
    return !direct_told(direct, FL "refused");
}

static void check_draft(Direct* const direct, const bool done)
{
    CHECK(direct_save(direct));
    CHECK(!done || holds(direct, 1, "OOOO"));
}

static void a_draft_comes_in_or_is_refused(void)
{
    check_everywhere((Scenario){NULL, draft, check_draft});
}

static bool save_figure(Direct* const direct)
{
    direct_run(direct, FL "saveFigure", draft_text);
    direct_work(direct);
    direct_run(direct, NULL, NULL);
    return !direct_told(direct, FL "refused");
}

static void a_figure_is_saved_or_is_refused(void)
{
    check_everywhere((Scenario){NULL, save_figure, NULL});
}

/* Another instance has saved what this one is set to. */
static void save_elsewhere(Direct* const direct)
{
    (void)direct;
    bank_folder_write(&stage.home, "fourlimb/other.ttl", other_text, strlen(other_text));
}

static bool look_again(Direct* const direct)
{
    direct->controls[CONTROL_FEET] = 1001.0f;
    direct_run(direct, NULL, NULL);
    direct_work(direct);
    direct->controls[CONTROL_FEET] = 1000.0f;
    direct_run(direct, NULL, NULL);
    return direct_save(direct);
}

static void files_are_read_again_or_stay_as_they_were(void)
{
    check_everywhere((Scenario){save_elsewhere, look_again, NULL});
}

static void give(Direct* const direct)
{
    direct_forget(direct);
    strcpy(direct->texts[1], draft_text);
    strcpy(direct->texts[3], sessions_text);
    strcpy(direct->texts[5], names_text);
    strcpy(direct->texts[6], kept_text);
}

static bool restore(Direct* const direct)
{
    return direct_restore(direct);
}

/* All of it, or nothing. */
static void check_restored(Direct* const direct, const bool done)
{
    direct_run(direct, NULL, NULL);
    direct_work(direct);
    CHECK(direct_save(direct));
    if (done) {
        CHECK(holds(direct, 1, "OOOO"));
        CHECK(holds(direct, 3, "1002"));
        CHECK(holds(direct, 6, "\"Three\"") && holds(direct, 6, "o.o."));
    } else {
        CHECK(!holds(direct, 6, "Three") == !holds(direct, 1, "OOOO"));
        CHECK(!holds(direct, 3, "1002") == !holds(direct, 1, "OOOO"));
    }
}

static void a_session_comes_back_whole_or_not_at_all(void)
{
    check_everywhere((Scenario){give, restore, check_restored});
}

static void have_session(Direct* const direct)
{
    give(direct);
    CHECK(direct_restore(direct));
    direct_run(direct, NULL, NULL);
}

/* A state that a host keeps has all that the session has. */
static bool save_session(Direct* const direct)
{
    return direct_save(direct);
}

static void check_saved(Direct* const direct, const bool done)
{
    if (done) {
        CHECK(holds(direct, 1, "OOOO"));
        CHECK(holds(direct, 3, "1000"));
        CHECK(holds(direct, 3, "1002"));
        CHECK(holds(direct, 5, "mine"));
        CHECK(holds(direct, 6, "\"Three\"") && holds(direct, 6, "o.o."));
    }
}

static void a_session_is_saved_whole_or_not_at_all(void)
{
    check_everywhere((Scenario){have_session, save_session, check_saved});
}

int main(void)
{
    set_stage();
    RUN(an_instance_starts_whole_or_not_at_all);
    RUN(a_draft_comes_in_or_is_refused);
    RUN(a_figure_is_saved_or_is_refused);
    RUN(files_are_read_again_or_stay_as_they_were);
    RUN(a_session_comes_back_whole_or_not_at_all);
    RUN(a_session_is_saved_whole_or_not_at_all);
    strike_stage();
    return tests_end();
}
