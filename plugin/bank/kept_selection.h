// SPDX-License-Identifier: ISC
/* kept_selection.h - one selection that is kept: its name, the value of every control that
   belongs to a selection, and the entries that it plays, whole where they aren't the
   factory's as they are.  So it plays without the user's bank, and as it did when it was
   kept, whatever becomes of drafts and files.  Made whole, then only read: any thread may
   hold it; made and freed away from the audio thread. */
#pragma once

#include "../engine/groove/settings.h"
#include "messages.h"
#include "overlay.h"

#include <stdatomic.h>

enum {
    KEPT_NAME_ROOM = 64,      /* bytes; longer names are cut */
    KEPT_BYTES_MOST = 131072, /* of its own entries, and of each other text: a groove of eight
                                 letters, each with hands and feet of its own, has some 60 kB */
};

typedef struct {
    char name[KEPT_NAME_ROOM];   /* UTF-8 */
    float values[CONTROL_COUNT]; /* in range; those of no selection at their defaults */
    char* own;     /* what it plays of the user's own entries, as Turtle; "" for none */
    char* names;   /* id, class and label of what it names */
    Overlay plays; /* the factory's bank with `own`, and its drafts over that */
    atomic_uint holders;
} KeptSelection;

/* What one is made of. */
typedef struct {
    const char* name;
    const float* values; /* one for each control; brought into range */
    const char* own;     /* texts: "" or NULL for none */
    const char* names;
    const char* drafts[FIGURE_KINDS];
} KeptParts;

/* Makes one over the factory's bank that `beside` has too.  What can't be read is left out and told, each line begun with `who`.  NULL if
   there is no memory. */
KeptSelection* kept_selection_make(Bank* beside, const KeptParts* parts, const char* who,
                                   Messages* messages);

/* What the values select of a bank with drafts over it, with all that it needs to play as
   it does; NULL if there is no memory. */
KeptSelection* kept_selection_of(const Overlay* plays, const char* name,
                                 const float values[CONTROL_COUNT]);

/* The same by another name; NULL if there is no memory. */
KeptSelection* kept_selection_named(const KeptSelection* kept, const char* name);

/* True if a figure of this kind and id plays in it. */
bool kept_selection_plays(const KeptSelection* kept, FigureKind kind, uint32_t id);

/* What it is made of, which it goes on to own. */
KeptParts kept_selection_parts(const KeptSelection* kept);

/* One more holder; NULL is held by nobody. */
KeptSelection* kept_selection_hold(KeptSelection* kept);
void kept_selection_free(KeptSelection* kept);
