// SPDX-License-Identifier: ISC
/* test_depth.c - texts nested so deep that a parser which calls itself for every
   bracket would run out of stack.  Each is read in a thread with as little stack
   as hosts and C libraries give: 512 kB (macOS's for further threads, from memory),
   128 kB (musl's default, WHATSNEW of 1.1.21).  A crash is seen by the parent. */
#include "../../plugin/bank/session.h"
#include "../../plugin/bank/single.h"
#include "user_bank_folder.h"

#include <pthread.h>
#include <sys/resource.h>
#include <sys/wait.h>

enum { LEVELS = 100000, ENDED_WELL = 7, DRAFT_BYTES = 32000 /* as much as a port takes */ };

static const size_t stacks[] = {512 * 1024, 128 * 1024};

static const char prefixes[] = "@prefix fl: <urn:fourlimb:terms#> .\n"
                               "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n";

static const char* const openings[] = {"(", "[ fl:x ", "([ fl:x ", "( # no )\n\t",
                                       "(\"\\\")\" '''\n\t'))''' <x#)> "};

enum { OPENINGS = sizeof openings / sizeof *openings };

/* A sentence of LEVELS openings, a whole figure before it and one after. */
static char* deep_text(const char* const opening)
{
    const size_t room = 4096 + LEVELS * (strlen(opening) + 1);
    char* const text = malloc(room);
    if (!text) {
        exit(2);
    }
    size_t at = (size_t)snprintf(
        text, room,
        "%s<urn:test:before> a fl:FeetFigure ; fl:id %d ; rdfs:label \"Before\" ;\n"
        "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"O...\" ] .\n"
        "<urn:test:deep> fl:x ",
        prefixes, ID_FIRST_OWN);
    for (int i = 0; i < LEVELS; ++i) {
        at += (size_t)snprintf(text + at, room - at, "%s", opening);
    }
    snprintf(
        text + at, room - at,
        "\n<urn:test:after> a fl:FeetFigure ; fl:id %d ; rdfs:label \"After\" ;\n"
        "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"O.o.\" ] "
        ".\n",
        ID_FIRST_OWN + 1);
    return text;
}

/* ---- In a child, in a thread with a small stack */

typedef struct {
    bool (*body)(const char* text);
    const char* text;
    bool good;
} Job;

static void* do_job(void* const handle)
{
    Job* const job = (Job*)handle;
    job->good = job->body(job->text);
    return NULL;
}

static int child(Job* const job, const size_t stack)
{
    const struct rlimit no_core = {0, 0};
    setrlimit(RLIMIT_CORE, &no_core);
    pthread_attr_t attributes;
    pthread_t thread;
    pthread_attr_init(&attributes);
    if (pthread_attr_setstacksize(&attributes, stack) ||
        pthread_create(&thread, &attributes, do_job, job)) {
        return 2;
    }
    pthread_join(thread, NULL);
    pthread_attr_destroy(&attributes);
    return job->good ? ENDED_WELL : 1;
}

static void check_in_small_stacks(bool (*const body)(const char* text))
{
    for (int i = 0; i < OPENINGS; ++i) {
        char* const text = deep_text(openings[i]);
        for (size_t s = 0; s < sizeof stacks / sizeof *stacks; ++s) {
            check_case("\"%s\" in a stack of %zu bytes", openings[i], stacks[s]);
            fflush(stdout);
            Job job = {body, text, false};
            const pid_t pid = fork();
            if (pid == 0) {
                _exit(child(&job, stacks[s]));
            }
            int status = 0;
            waitpid(pid, &status, 0);
            CHECK_INT(WIFSIGNALED(status) ? -WTERMSIG(status) : WEXITSTATUS(status), ENDED_WELL);
        }
        free(text);
    }
}

static bool is_told(const char* const told)
{
    const bool good = told && strstr(told, "nested");
    if (!good) {
        printf("# told: %s\n", told ? told : "nothing");
        fflush(stdout);
    }
    return good;
}

static bool complains_of_nesting(const Bank* const bank)
{
    const Diagnostics* const diagnostics = bank_diagnostics(bank);
    return CHECK_INT(diagnostics->count + diagnostics->unkept, 1) && is_told(diagnostics->texts[0]);
}

static bool has_both(const Bank* const bank)
{
    return bank_info(bank, ENTRY_FEET, ID_FIRST_OWN) &&
           bank_info(bank, ENTRY_FEET, ID_FIRST_OWN + 1);
}

/* ---- The ways in */

static bool reads_file(const char* const text)
{
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "deep.ttl", text, strlen(text));
    Bank* const bank =
        bank_open((BankSources){FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank", folder.path, NULL});
    const bool good = bank && complains_of_nesting(bank) && has_both(bank);
    bank_free(bank);
    bank_folder_remove(&folder);
    return good;
}

static void a_file_of_the_users_folder_loses_only_the_sentence_that_is_nested_too_deep(void)
{
    check_in_small_stacks(reads_file);
}

static bool reads_checked_file(const char* const text)
{
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "deep.ttl", text, strlen(text));
    Bank* const bank = bank_open((BankSources){FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank", NULL,
                                               bank_folder_file(&folder, "deep.ttl")});
    const bool good = bank && complains_of_nesting(bank) && has_both(bank);
    bank_free(bank);
    bank_folder_remove(&folder);
    return good;
}

static void a_file_that_is_checked_loses_only_the_sentence_that_is_nested_too_deep(void)
{
    check_in_small_stacks(reads_checked_file);
}

static bool reads_session(const char* const text)
{
    Bank* const bank =
        bank_open_session((BankSources){FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank", NULL, NULL}, text);
    const bool good = bank && complains_of_nesting(bank) && has_both(bank);
    bank_free(bank);
    return good;
}

static void a_sessions_text_loses_only_the_sentence_that_is_nested_too_deep(void)
{
    check_in_small_stacks(reads_session);
}

static bool is_told_of_each(const char* at)
{
    int count = 0;
    for (; (at = strstr(at, "nested")); ++at) {
        ++count;
    }
    return CHECK_INT(count, 5); /* three drafts, the entries, what is kept; names are only missed */
}

/* Every text of a session at once: drafts, own entries, unread ones, names. */
static bool restores_session(const char* const text)
{
    Session session;
    SessionTexts texts;
    for (int i = 0; i < TEXTS; ++i) {
        texts.of[i] = strndup(text, i < TEXT_OWN ? DRAFT_BYTES : strlen(text));
    }
    bool good = session_init(&session,
                             (BankSources){FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank", NULL, NULL}) &&
                session_restore(&session, &texts);
    Snapshot* const snapshot = good ? session_snapshot(&session) : NULL;
    good = snapshot && is_told_of_each(snapshot_messages(snapshot));
    snapshot_free(snapshot);
    session_clear(&session);
    session_texts_clear(&texts);
    return good;
}

static void a_session_is_restored_though_all_its_texts_are_nested_too_deep(void)
{
    check_in_small_stacks(restores_session);
}

static bool reads_draft(const char* const text)
{
    char why_not[SINGLE_WHY_ROOM] = "";
    const size_t size = strlen(text) < DRAFT_BYTES ? strlen(text) : DRAFT_BYTES;
    Single* const single = single_read("/the draft", text, size, why_not);
    const bool good = !single && is_told(why_not);
    single_free(single);
    return good;
}

static void a_draft_that_is_nested_too_deep_is_refused(void)
{
    check_in_small_stacks(reads_draft);
}

static bool saves(const char* const text)
{
    const BankFolder folder = bank_folder_make();
    const size_t size = strlen(text) < DRAFT_BYTES ? strlen(text) : DRAFT_BYTES;
    const uint32_t id = user_bank_save(folder.path, text, size, NULL, why).id;
    const bool good = !id && is_told(why);
    bank_folder_remove(&folder);
    return good;
}

static void a_figure_to_save_that_is_nested_too_deep_is_refused(void)
{
    check_in_small_stacks(saves);
}

/* Into a folder where such a file lies already: it stays as it was. */
static bool saves_beside(const char* const text)
{
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "mine.ttl", text, strlen(text));
    bank_folder_write(&folder, "other.ttl", text, strlen(text));
    const uint32_t id = save(folder.path, gallop("Gallop", 0, "O.oo"));
    FILE* const file = fopen(bank_folder_file(&folder, "other.ttl"), "rb");
    const bool good = CHECK(id || *why) && file && fseek(file, 0, SEEK_END) == 0 &&
                      CHECK_INT(ftell(file), strlen(text));
    if (file) {
        fclose(file);
    }
    bank_folder_remove(&folder);
    return good;
}

static void saving_into_a_folder_with_files_nested_too_deep_ends_well(void)
{
    check_in_small_stacks(saves_beside);
}

int main(void)
{
    RUN(a_file_of_the_users_folder_loses_only_the_sentence_that_is_nested_too_deep);
    RUN(a_file_that_is_checked_loses_only_the_sentence_that_is_nested_too_deep);
    RUN(a_sessions_text_loses_only_the_sentence_that_is_nested_too_deep);
    RUN(a_session_is_restored_though_all_its_texts_are_nested_too_deep);
    RUN(a_draft_that_is_nested_too_deep_is_refused);
    RUN(a_figure_to_save_that_is_nested_too_deep_is_refused);
    RUN(saving_into_a_folder_with_files_nested_too_deep_ends_well);
    return tests_end();
}
