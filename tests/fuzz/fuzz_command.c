// SPDX-License-Identifier: ISC
/* fuzz_command.c - whatever is typed behind the program's name, a word a line, the first byte
   being the command: refused, or within what request.h and the words of help promise. */
#include "../../ui/command/arguments.h"
#include "fuzz.h"

#include <getopt.h>
#include <math.h>
#include <string.h>

enum { WORDS_MOST = 160, TYPED_BYTES = 4096 };

int LLVMFuzzerInitialize(int* const count, char*** const arguments)
{
    (void)count;
    (void)arguments;
    fuzz_alone();
    return 0;
}

static void check_section(const Section* const section)
{
    FUZZ_WANT(section->setting_count >= 0 && section->setting_count <= SETTINGS_MAX);
    FUZZ_WANT(section->bars >= 0);
    FUZZ_WANT(section->tempo >= 0.0 && section->tempo <= 400.0);
    FUZZ_WANT(section->beats >= 0 && section->beats <= 256);
    FUZZ_WANT(section->beat_unit >= 0 && section->beat_unit <= 64);
    for (int i = 0; i < section->setting_count; ++i) {
        const char* const symbol = section->settings[i].symbol;
        FUZZ_WANT(memchr(symbol, 0, CONTROL_SYMBOL_ROOM));
        FUZZ_WANT(isfinite((double)section->settings[i].value));
        for (int other = 0; other < i; ++other) {
            FUZZ_WANT(strcmp(symbol, section->settings[other].symbol) != 0);
        }
    }
}

static void check_request(const Request* const request)
{
    FUZZ_WANT(request->section_count >= 0 && request->section_count <= SECTIONS_MAX);
    for (int i = 0; i < request->section_count; ++i) {
        check_section(&request->sections[i]);
    }
    FUZZ_WANT(request->from >= 0.0 && request->from <= 400.0);
    FUZZ_WANT(request->to >= 0.0 && request->to <= 400.0);
    FUZZ_WANT(request->steps >= 0 && isfinite(request->minutes) && request->minutes >= 0.0);
    FUZZ_WANT(request->lighten.rate >= 0 && request->lighten.rate <= 40);
    FUZZ_WANT(request->wav.bits == 16 || request->wav.bits == 24);
    FUZZ_WANT(request->wav.rate > 0);
}

int LLVMFuzzerTestOneInput(const uint8_t* const bytes, const size_t size)
{
    static Request request;
    char typed[TYPED_BYTES] = "fourlimb";
    char* words[WORDS_MOST + 1] = {typed};
    int count = 1;
    if (!size || size > TYPED_BYTES - 16) {
        return 0;
    }
    char* const text = typed + sizeof "fourlimb";
    memcpy(text, bytes + 1, size - 1);
    for (char* at = text; at < text + size && count < WORDS_MOST; at += strlen(at) + 1) {
        at[strcspn(at, "\n")] = '\0';
        words[count++] = at;
    }
    optind = 0; /* getopt(3): begin anew */
    if (arguments_read(&request, (Command)(bytes[0] % COMMAND_COUNT), count, words)) {
        check_request(&request);
    }
    return 0;
}
