// SPDX-License-Identifier: ISC
/* replay.c - feeds a program of tests/fuzz the files that are named, and says how many. */
#include "fuzz.h"

#include <stdio.h>
#include <stdlib.h>

enum { REPLAY_BYTES = 1 << 16 };

static bool replay(const char* const path)
{
    static uint8_t room[REPLAY_BYTES];
    FILE* const file = fopen(path, "rb");
    if (!file) {
        perror(path);
        return false;
    }
    const size_t size = fread(room, 1, sizeof room, file);
    fclose(file);
    printf("# %s\n", path);
    fflush(stdout);                          /* before it may break off */
    uint8_t* const bytes = malloc(size + 1); /* as long as it is, for the sanitizers */
    for (size_t i = 0; bytes && i < size; ++i) {
        bytes[i] = room[i];
    }
    const bool good = bytes && LLVMFuzzerTestOneInput(bytes, size) == 0;
    free(bytes);
    return good;
}

int main(int count, char** arguments)
{
    bool good = LLVMFuzzerInitialize(&count, &arguments) == 0;
    for (int i = 1; i < count; ++i) {
        good = replay(arguments[i]) && good;
    }
    printf("# %d inputs\n", count - 1);
    return good && count > 1 ? 0 : 1;
}
