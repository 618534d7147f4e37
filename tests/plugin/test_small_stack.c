// SPDX-License-Identifier: ISC
/* test_small_stack.c - texts nested deep come to the plugin by every way that a host has,
   in a thread with 128 kB of stack (musl's default; hosts' workers have 512 kB and more).
   Each is told, the host lives on, and what else the plugin has is kept. */
#include "direct.h"

#include <pthread.h>

enum { LEVELS = 30000, STACK_BYTES = 128 * 1024 };

static Direct direct;
static char deep[DIRECT_TEXT]; /* as long as a port takes, nearly */
static BankFolder home;

static const char whole[] =
    TTL ":kept a fl:FeetFigure ; fl:id 1002 ; rdfs:label \"Kept\" ;\n"
        "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"Oo.o\" ] .\n";

static void set_stage(void)
{
    int size = snprintf(deep, sizeof deep, "%s:deep :deep ", whole);
    memset(deep + size, '(', LEVELS);
    deep[size + LEVELS] = '\0';
    home = bank_folder_make();
    mkdir(bank_folder_file(&home, "fourlimb"), 0700);
    bank_folder_write(&home, "fourlimb/deep.ttl", deep, strlen(deep));
    setenv("XDG_DATA_HOME", home.path, 1);
    direct_open(&direct);
}

static void strike_stage(void)
{
    direct_close(&direct);
    remove(bank_folder_file(&home, "fourlimb/deep.ttl"));
    rmdir(bank_folder_file(&home, "fourlimb"));
    bank_folder_remove(&home);
}

static void check_told(const char* const property)
{
    const char* const told = direct_told(&direct, property);
    if (!CHECK(told && strstr(told, "nested more than 16 brackets deep"))) {
        printf("# told: %s\n", told ? told : "nothing");
    }
}

static void run_and_work(const char* const property, const char* const text)
{
    direct_run(&direct, property, text);
    direct_work(&direct);
    direct_run(&direct, NULL, NULL);
}

static void* go_all_ways(void* const unused)
{
    (void)unused;
    check_case("the user's folder");
    if (!CHECK(direct_instantiate(&direct, FOURLIMB_BUILD "/lv2/fourlimb.lv2"))) {
        return NULL;
    }
    direct_activate(&direct);
    direct.controls[CONTROL_FEET] = 1002.0f;
    direct_run(&direct, FL "feetDraft", deep);
    check_case("a draft");
    direct_work(&direct);
    direct_run(&direct, NULL, NULL);
    check_told(FL "refused");
    check_case("a figure to save");
    run_and_work(FL "saveFigure", deep);
    check_told(FL "refused");
    check_case("a kit map to save");
    run_and_work(FL "saveKit", deep);
    check_told(FL "refused");
    check_case("what was whole in the user's folder");
    CHECK(direct_save(&direct));
    CHECK(strstr(direct.texts[3], "Kept"));
    check_case("a session");
    for (int i = 0; i < DIRECT_TEXTS; ++i) {
        strcpy(direct.texts[i], deep);
    }
    CHECK(direct_restore(&direct));
    direct_run(&direct, NULL, NULL);
    check_told(FL "bankMessages");
    CHECK(direct_save(&direct));
    CHECK_TEXT(direct.texts[1], deep); /* kept, though it can't be read */
    CHECK_TEXT(direct.texts[4], deep);
    CHECK_TEXT(direct.texts[7], deep);
    direct_cleanup(&direct);
    return NULL;
}

static void by_every_way_nested_text_is_told_and_the_host_lives_on(void)
{
    pthread_attr_t attributes;
    pthread_t thread;
    pthread_attr_init(&attributes);
    if (!CHECK(!pthread_attr_setstacksize(&attributes, STACK_BYTES) &&
               !pthread_create(&thread, &attributes, go_all_ways, NULL))) {
        return;
    }
    pthread_join(thread, NULL);
    pthread_attr_destroy(&attributes);
}

int main(void)
{
    set_stage();
    RUN(by_every_way_nested_text_is_told_and_the_host_lives_on);
    strike_stage();
    return tests_end();
}
