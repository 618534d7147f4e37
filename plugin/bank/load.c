// SPDX-License-Identifier: ISC
#include "bounds.h"
#include "model.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static const char* base_name(const char* const path)
{
    const char* const slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

static bool add_file(Turtle* const turtle, const char* const path)
{
    ReadFile* const file = &turtle->files[turtle->file_count];
    file->name = strdup(base_name(path));
    file->env = file->name ? serd_env_new(NULL) : NULL;
    turtle->file_count += file->name != NULL;
    return file->env;
}

bool turtle_is_full(const Turtle* const turtle)
{
    return turtle->is_full || turtle->file_count >= FILES_MOST;
}

bool turtle_begin_file(Turtle* const turtle, const char* const path, const size_t size,
                       Diagnostics* const diagnostics)
{
    if (turtle_is_full(turtle)) {
        diagnostics_add_first(diagnostics,
                              "%s: is left out: a bank holds %d files and %d statements at most",
                              base_name(path), FILES_MOST, STATEMENTS_MOST);
    } else if (size > FILE_BYTES_MOST) {
        diagnostics_add_first(diagnostics, "%s: is left out: a file has %d MB at most",
                              base_name(path), FILE_MEGABYTES_MOST);
    } else if (size > BANK_BYTES_MOST - turtle->bytes) {
        diagnostics_add_first(diagnostics,
                              "%s: is left out: all files of a bank have %d MB at most",
                              base_name(path), BANK_MEGABYTES_MOST);
    } else if (!add_file(turtle, path)) {
        diagnostics_add(diagnostics, "%s: there is no memory to read it", base_name(path));
        turtle_fail(turtle);
    } else {
        turtle->bytes += size;
        return true;
    }
    return false;
}

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
