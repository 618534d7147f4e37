// SPDX-License-Identifier: ISC
#include "songs.h"

#include "compiled.h"
#include "read_song.h"

#include <stdlib.h>

/* One after the other, as far as they are right. */
static void take_songs(Songs* const file, const Bank* const bank, Turtle* const turtle)
{
    SordIter* const found = turtle_find(turtle, NULL, turtle_uri(turtle, RDF_NS "type"),
                                        turtle_uri(turtle, FL_TERMS "Song"));
    for (; !sord_iter_end(found); sord_iter_next(found)) {
        Song* const grown = realloc(file->songs, (file->count + 1) * sizeof *grown);
        if (!grown) {
            file->failed = true;
            break;
        }
        file->songs = grown;
        ++file->met;
        Subject subject = {turtle, &file->diagnostics, sord_iter_get_node(found, SORD_SUBJECT),
                           false};
        file->count += read_song(&subject, bank, &file->songs[file->count]);
    }
    sord_iter_free(found);
}

static void finish(Songs* const file, const Bank* const bank, Turtle* const turtle)
{
    take_songs(file, bank, turtle);
    file->failed |= !turtle_is_whole(turtle);
    turtle_free(turtle);
}

/* Over the bank's files, which describe what is named. */
static Turtle* begin(Songs* const file, const Bank* const bank)
{
    Turtle* const turtle = turtle_new();
    *file = (Songs){.failed = !turtle};
    if (turtle) {
        turtle_over(turtle, bank_described(bank));
    }
    return turtle;
}

void songs_read(Songs* const file, const Bank* const bank, const char* const path)
{
    Turtle* const turtle = begin(file, bank);
    char* const whole = realpath(path, NULL); /* serd wants it */
    if (turtle && !whole) {
        diagnostics_add(&file->diagnostics, "%s: there is no such file", path);
    } else if (turtle) {
        turtle_read(turtle, whole, &file->diagnostics);
    }
    if (turtle) {
        finish(file, bank, turtle);
    }
    free(whole);
}

void songs_text(Songs* const file, const Bank* const bank, const char* const name,
                const char* const text, const size_t size)
{
    Turtle* const turtle = begin(file, bank);
    if (turtle) {
        turtle_read_text(turtle, name, text, size, &file->diagnostics);
        finish(file, bank, turtle);
    }
}

void songs_free(Songs* const file)
{
    free(file->songs);
    diagnostics_clear(&file->diagnostics);
    *file = (Songs){.songs = NULL};
}
