// SPDX-License-Identifier: ISC
#include "stage.h"

#include "child.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* One stage a program; a signal handler gets at it no other way. */
static struct {
    char folder[256];
    char bundles[288], bundle[320], log[288];
    pid_t server, host;
    char why_not[512];
} stage;

static const char* const bundle_files[] = {"fourlimb.so", "fourlimb_ui.so", "manifest.ttl",
                                           "groove.ttl",  "ui.ttl",         "bank"};
enum { BUNDLE_FILES = sizeof bundle_files / sizeof *bundle_files, BANK = BUNDLE_FILES - 1 };
static char links[BUNDLE_FILES][384];

/* Only what a signal handler may call. */
static void remove_folder(void)
{
    for (int i = 0; i < BUNDLE_FILES; ++i) {
        unlink(links[i]);
    }
    unlink(stage.log);
    rmdir(stage.bundle);
    rmdir(stage.bundles);
    rmdir(stage.folder);
}

/* The built plugin with a bank of our own. */
static bool make_folder(const char* const bank)
{
    const char* const temporary = getenv("TMPDIR");
    snprintf(stage.folder, sizeof stage.folder, "%s/fourlimb-jalv-XXXXXX",
             temporary && *temporary ? temporary : "/tmp");
    if (!mkdtemp(stage.folder)) {
        return false;
    }
    snprintf(stage.bundles, sizeof stage.bundles, "%s/lv2", stage.folder);
    snprintf(stage.bundle, sizeof stage.bundle, "%s/fourlimb.lv2", stage.bundles);
    snprintf(stage.log, sizeof stage.log, "%s/log", stage.folder);
    bool good = !mkdir(stage.bundles, 0700) && !mkdir(stage.bundle, 0700);
    for (int i = 0; i < BUNDLE_FILES; ++i) {
        snprintf(links[i], sizeof links[i], "%s/%s", stage.bundle, bundle_files[i]);
        char source[512];
        snprintf(source, sizeof source, FOURLIMB_BUILD "/lv2/fourlimb.lv2/%s", bundle_files[i]);
        const char* const from = i == BANK ? bank : source;
        good = good && !access(from, R_OK) && !symlink(from, links[i]);
    }
    return good;
}

const char* stage_why_not(void)
{
    return stage.why_not;
}

bool stage_host_runs(void)
{
    return child_runs(stage.host);
}

bool stage_server_runs(void)
{
    return child_runs(stage.server);
}

const char* stage_last_words(void)
{
    static char line[160] = "nothing";
    FILE* const file = fopen(stage.log, "r");
    while (file && fgets(line, sizeof line, file)) {
        line[strcspn(line, "\n")] = '\0';
    }
    if (file) {
        fclose(file);
    }
    return line;
}

double stage_last_value(const char* const symbol)
{
    char line[160];
    double value = (double)NAN;
    const size_t length = strlen(symbol);
    FILE* const file = fopen(stage.log, "r");
    while (file && fgets(line, sizeof line, file)) {
        if (!strncmp(line, symbol, length) && !strncmp(line + length, " = ", 3)) {
            value = strtod(line + length + 3, NULL);
        }
    }
    if (file) {
        fclose(file);
    }
    return value;
}

static JackDriver* start_server(char name[32])
{
    snprintf(name, 32, "fourlimb-%d", (int)getpid());
    /* -S: on a busy machine the server waits for its clients, it skips nothing. */
    const char* const arguments[] = {"jackd", "-r",    "-m", "-S",    "-n", name,  "-t", "5000",
                                     "-d",    "dummy", "-r", "48000", "-p", "256", NULL};
    stage.server = child_start(arguments, stage.log);
    return jack_driver_open(name, stage_server_runs);
}

static void start_host(const char* const server, const char* const host[])
{
    setenv("JACK_DEFAULT_SERVER", server, 1);
    setenv("LV2_PATH", stage.bundles, 1);
    stage.host = child_start(host, stage.log);
}

JackDriver* stage_open(const char* const bank, const char* const host[])
{
    char server[32];
#ifdef __SANITIZE_ADDRESS__
    snprintf(stage.why_not, sizeof stage.why_not, "a host can't load a sanitized plugin");
    return NULL;
#endif
    child_guard(remove_folder);
    if (!make_folder(bank)) {
        snprintf(stage.why_not, sizeof stage.why_not, "no bundle could be laid in %s",
                 stage.folder);
        return NULL;
    }
    JackDriver* const driver = start_server(server);
    if (driver) {
        start_host(server, host);
    } else {
        snprintf(stage.why_not, sizeof stage.why_not, "no JACK server; jackd said: %s",
                 stage_last_words());
    }
    return driver;
}

void stage_close(JackDriver* const driver)
{
    child_end(stage.host);
    jack_driver_close(driver);
    child_end(stage.server);
    remove_folder();
}
