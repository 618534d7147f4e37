// SPDX-License-Identifier: ISC
#include "bounds.h"
#include "model.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* The whole file, or a byte more than a bank reads of one; NULL if there is no memory.
   The caller frees. */
static char* load(FILE* const stream, const off_t said, size_t* const size)
{
    const size_t room = said < FILE_BYTES_MOST ? (size_t)said + 1 : FILE_BYTES_MOST + 1;
    char* const text = malloc(room);
    *size = text ? fread(text, 1, room, stream) : 0;
    return text;
}

static bool read_stream(Turtle* const turtle, const char* const path, FILE* const stream,
                        const off_t said, Diagnostics* const diagnostics)
{
    size_t size = 0;
    char* const text = load(stream, said, &size);
    bool read = false;
    if (!text) {
        diagnostics_add(diagnostics, "%s: there is no memory to read it", path);
        turtle_fail(turtle);
    } else if (ferror(stream)) {
        diagnostics_add(diagnostics, "%s: the file can't be read", path);
    } else {
        read = turtle_read_text(turtle, path, text, size, diagnostics);
    }
    free(text);
    return read;
}

bool turtle_read(Turtle* const turtle, const char* const path, Diagnostics* const diagnostics)
{
    struct stat kind;
    const bool regular = stat(path, &kind) == 0 && S_ISREG(kind.st_mode); /* a pipe would wait */
    FILE* const stream = regular ? fopen(path, "rb") : NULL;
    if (!stream) {
        diagnostics_add(diagnostics, "%s: the file can't be opened", path);
        return false;
    }
    const bool read = read_stream(turtle, path, stream, kind.st_size, diagnostics);
    fclose(stream);
    return read;
}
