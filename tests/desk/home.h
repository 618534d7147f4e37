// SPDX-License-Identifier: ISC
/* home.h - a home of this test's own with a bank of the user's in it. */
#pragma once

#include <dirent.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const char own_bank[] =
    "@prefix fl: <urn:fourlimb:terms#> .\n"
    "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
    "@prefix t: <urn:test:> .\n"
    "t:one a fl:FeetFigure ; fl:id 1001 ; rdfs:label \"One bar\" ; fl:bars 1 ;\n"
    " fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"o... .... o... "
    "....\" ] .\n"
    "t:two a fl:FeetFigure ; fl:id 1002 ; rdfs:label \"Two bars\" ; fl:bars 2 ;\n"
    " fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ;\n"
    "  fl:steps \"o... .... .... .... | .... .... o... ....\" ] .\n"
    "t:three a fl:FeetFigure ; fl:id 1003 ; rdfs:label \"Threes\" ;\n"
    " fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"o..\" ] .\n"
    "t:nine a fl:FeetFigure ; fl:id 1004 ; rdfs:label \"Nine quarters\" ;\n"
    " fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 1 ; fl:steps \"o........\" ] .\n"
    "t:hats a fl:HandsFigure ; fl:id 1001 ; rdfs:label \"Hats\" ; fl:bars 1 ;\n"
    " fl:line [ fl:limb fl:rightHand ; fl:voice fl:hatClosed ; fl:grid 2 ; fl:steps \"o.o.o.o.\" ] "
    ",\n"
    "  [ fl:limb fl:leftHand ; fl:voice fl:snare ; fl:grid 1 ; fl:steps \".o.o\" ] .\n"
    "t:handturn a fl:Turnaround ; fl:id 1001 ; rdfs:label \"Hands turn\" ; fl:bars 1 ;\n"
    " fl:line [ fl:limb fl:leftHand ; fl:voice fl:snare ; fl:grid 1 ; fl:steps \"oooo\" ] .\n"
    "t:allturn a fl:Turnaround ; fl:id 1002 ; rdfs:label \"All turn\" ; fl:bars 1 ;\n"
    " fl:line [ fl:limb fl:leftHand ; fl:voice fl:snare ; fl:grid 1 ; fl:steps \"oo..\" ] ,\n"
    "  [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \".... .... o... ....\" ] "
    ".\n"
    "t:beat a fl:Turnaround ; fl:id 1003 ; rdfs:label \"A beat\" ;\n"
    " fl:line [ fl:limb fl:leftHand ; fl:voice fl:snare ; fl:grid 4 ; fl:steps \".oo.\" ] .\n"
    "t:groove a fl:Groove ; fl:id 1001 ; rdfs:label \"Bench\" ; fl:tempo 120 ; fl:beatsPerBar 4 "
    ";\n"
    " fl:beatUnit 4 ; fl:form \"AAAA\" ; fl:part [ fl:letter \"A\" ; fl:hands t:hats ; fl:feet "
    "t:one ] .\n";

enum { GROOVE = 1001, ONE = 1001, TWO, THREE, NINE };

static inline const char* bench_home(void)
{
    static char home[512];
    return home;
}

static inline const char* bench_path(const char* const name)
{
    static char path[1024];
    snprintf(path, sizeof path, "%s/%s", (const char*)bench_home(), name);
    return path;
}

static inline void bench_write(const char* const name, const char* const text)
{
    FILE* const file = fopen(bench_path(name), "w");
    if (!file || fputs(text, file) < 0 || fclose(file)) {
        perror(bench_path(name));
        exit(2);
    }
}

/* The text of a file of the home, "" if there is none. */
static inline const char* bench_read(const char* const name)
{
    static char text[1 << 17];
    FILE* const file = fopen(bench_path(name), "r");
    const size_t size = file ? fread(text, 1, sizeof text - 1, file) : 0;
    text[size] = '\0';
    if (file) {
        fclose(file);
    }
    return text;
}

static inline int is_turtle_file(const struct dirent* const entry)
{
    const char* const dot = strrchr(entry->d_name, '.');
    return dot && !strcmp(dot, ".ttl");
}

/* All that the user's bank has, file after file in order of name. */
static inline const char* bench_bank(void)
{
    static char all[1 << 18];
    struct dirent** entries = NULL;
    const int count = scandir(bench_path("fourlimb"), &entries, is_turtle_file, alphasort);
    size_t length = 0;
    all[0] = '\0';
    for (int i = 0; i < count; ++i) {
        char name[300];
        snprintf(name, sizeof name, "fourlimb/%s", entries[i]->d_name);
        length += (size_t)snprintf(all + length, sizeof all - length, "%s", bench_read(name));
        free(entries[i]);
    }
    free(entries);
    return all;
}

/* An empty home with the bank above; ends the program where there is no room. */
static inline void bench_move_in(void)
{
    char* const home = (char*)(uintptr_t)bench_home();
    const char* const temporary = getenv("TMPDIR");
    snprintf(home, 512, "%s/fourlimb-bench-XXXXXX", temporary && *temporary ? temporary : "/tmp");
    if (!mkdtemp(home) || setenv("XDG_DATA_HOME", home, 1) || setenv("HOME", home, 1) ||
        setenv("XDG_CONFIG_HOME", home, 1) || mkdir(bench_path("fourlimb"), 0700)) {
        perror(home);
        exit(2);
    }
    bench_write("fourlimb/bench.ttl", own_bank);
}

static inline void bench_move_out(void)
{
    char command[2048];
    snprintf(command, sizeof command, "chmod -R u+w '%s'; rm -rf '%s'", bench_home(), bench_home());
    if (system(command)) {
        printf("# %s was left behind\n", bench_home());
    }
}

/* How often words stand in a text. */
static inline int times(const char* text, const char* const words)
{
    int count = 0;
    while ((text = strstr(text, words))) {
        ++count;
        ++text;
    }
    return count;
}
