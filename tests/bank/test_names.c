// SPDX-License-Identifier: ISC
/* test_names.c - limbs and voices are called in the C code what ttl/terms.ttl
   calls them, and all of them are there. */
#include "../../plugin/bank/names.h"
#include "../help/check.h"

#include <stdio.h>
#include <string.h>

enum { LINE_ROOM = 1024 };

/* How many subjects of a class the vocabulary has; with `name`, how many of them
   are called that. */
static int terms(const char* const class_name, const char* const name)
{
    char line[LINE_ROOM], wanted[128];
    snprintf(wanted, sizeof wanted, " a fl:%s ;", class_name);
    FILE* const file = fopen(FOURLIMB_SOURCE "/ttl/terms.ttl", "r");
    int count = 0;
    while (file && fgets(line, sizeof line, file)) {
        const char* const found = strstr(line, wanted);
        const size_t length = found ? (size_t)(found - line) : 0;
        const bool is_name = name && length == strlen(name) + 3 && !strncmp(line, "fl:", 3) &&
                             !strncmp(line + 3, name, length - 3);
        count += found && (!name || is_name);
    }
    if (file) {
        fclose(file);
    }
    return count;
}

static void limbs_are_called_as_in_the_vocabulary(void)
{
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        check_case("%s", limb_names[limb]);
        CHECK_INT(terms("Limb", limb_names[limb]), 1);
    }
    check_case("how many");
    CHECK_INT(LIMB_COUNT, terms("Limb", NULL));
}

static void voices_are_called_as_in_the_vocabulary(void)
{
    for (int voice = 0; voice < VOICE_COUNT; ++voice) {
        check_case("%s", voice_names[voice]);
        CHECK_INT(terms("Voice", voice_names[voice]), 1);
    }
    check_case("how many");
    CHECK_INT(VOICE_COUNT, terms("Voice", NULL));
}

static void names_are_found_by_the_whole_word(void)
{
    CHECK_INT(name_index(voice_names, VOICE_COUNT, "crash2"), VOICE_CRASH_2);
    CHECK_INT(name_index(voice_names, VOICE_COUNT, "kickLeft"), VOICE_KICK_LEFT);
    CHECK_INT(name_index(voice_names, VOICE_COUNT, "kic"), -1);
    CHECK_INT(name_index(limb_names, LIMB_COUNT, ""), -1);
}

int main(void)
{
    RUN(limbs_are_called_as_in_the_vocabulary);
    RUN(voices_are_called_as_in_the_vocabulary);
    RUN(names_are_found_by_the_whole_word);
    return tests_end();
}
