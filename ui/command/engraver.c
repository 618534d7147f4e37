// SPDX-License-Identifier: ISC
#include "engraver.h"

#include <errno.h>
#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

extern char** environ;

enum { PLACE_ROOM = 512 };

/* Where it works. */
typedef struct {
    char folder[PLACE_ROOM];
    char source[PLACE_ROOM + 16];
    char made[PLACE_ROOM + 16]; /* without its ending, as LilyPond wants it */
    char pdf[PLACE_ROOM + 16];
} EngraverDesk;

static bool make_desk(EngraverDesk* const desk)
{
    const char* const where = getenv("TMPDIR");
    snprintf(desk->folder, sizeof desk->folder, "%.400s/fourlimb-XXXXXX",
             where && *where ? where : "/tmp");
    const bool made = mkdtemp(desk->folder);
    snprintf(desk->source, sizeof desk->source, "%s/sheet.ly", desk->folder);
    snprintf(desk->made, sizeof desk->made, "%s/sheet", desk->folder);
    snprintf(desk->pdf, sizeof desk->pdf, "%s/sheet.pdf", desk->folder);
    return made;
}

static void clear_desk(const EngraverDesk* const desk)
{
    unlink(desk->source);
    unlink(desk->pdf);
    rmdir(desk->folder);
}

static bool put(const char* const path, const Bytes* const bytes)
{
    FILE* const file = fopen(path, "wb");
    const bool good = file && fwrite(bytes->bytes, 1, bytes->size, file) == bytes->size;
    return file && !fclose(file) && good;
}

static bool take(const char* const path, Bytes* const bytes)
{
    char piece[4096];
    FILE* const file = fopen(path, "rb");
    size_t count = 0;
    while (file && (count = fread(piece, 1, sizeof piece, file)) > 0) {
        bytes_append(bytes, piece, count);
    }
    const bool good = file && !ferror(file);
    return file && !fclose(file) && good && bytes->size > 0 && !bytes->failed;
}

/* 0: it did; an errno: it isn't there; -1: it failed. */
static int run(EngraverDesk* const desk)
{
    char* const words[] = {"lilypond", "--silent", "-dno-point-and-click", "-dmidi-extension=none",
                           "-o",       desk->made, desk->source,           NULL};
    pid_t child = 0;
    int status = 0;
    const int error = posix_spawnp(&child, words[0], NULL, NULL, words, environ);
    if (error) {
        return error;
    }
    while (waitpid(child, &status, 0) < 0) {
        if (errno != EINTR) {
            return -1;
        }
    }
    return WIFEXITED(status) && !WEXITSTATUS(status) ? 0 : -1;
}

bool engraver_pdf(const Bytes* const source, Bytes* const pdf, char why[ENGRAVER_WHY_ROOM])
{
    EngraverDesk desk = {.folder = ""};
    if (!make_desk(&desk) || !put(desk.source, source)) {
        snprintf(why, ENGRAVER_WHY_ROOM, "%.200s can't be written", desk.folder);
        return false;
    }
    const int done = run(&desk);
    const bool good = !done && take(desk.pdf, pdf);
    if (done > 0) {
        snprintf(
            why, ENGRAVER_WHY_ROOM,
            "lilypond isn't installed; install it, or write a file.ly for a machine that has it");
    } else if (!good) {
        snprintf(why, ENGRAVER_WHY_ROOM,
                 "lilypond didn't make a PDF; write the file.ly and see what it says");
    }
    clear_desk(&desk);
    return good;
}
