// SPDX-License-Identifier: ISC
/* kept_rig.h - a session over the factory's bank and a folder of the user's own, and what its
   kept selections play. */
#pragma once

#include "../../plugin/bank/session.h"
#include "../../plugin/engine/groove/selection.h"
#include "../help/check.h"
#include "../help/same_strokes.h"
#include "user_bank_folder.h"

#define KEPT_FACTORY FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank"
#define KEPT_TTL                                                                                   \
    "@prefix fl: <urn:fourlimb:terms#> .\n"                                                        \
    "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"                                    \
    "@prefix my: <urn:fourlimb:mine:> .\n"

/* A groove of the user's own with feet of its own in each half. */
static const char kept_own_bank[] =
    KEPT_TTL "@prefix hands: <urn:fourlimb:hands:> .\n"
             "my:salt a fl:FeetFigure ; fl:id 1023 ; rdfs:label \"Salt Gallop\" ; fl:bars 1 ;\n"
             "  fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps "
             "\"O..o .oo. O..o .ooo\" ] .\n"
             "my:brine a fl:FeetFigure ; fl:id 1024 ; rdfs:label \"Brine Run\" ; fl:bars 1 ;\n"
             "  fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps "
             "\"oooo .... oooo ....\" ] .\n"
             "my:ostrel a fl:Groove ; fl:id 1007 ; rdfs:label \"Ostrel\" ; fl:tempo 140 ; "
             "fl:beatsPerBar 4 ; fl:beatUnit 4 ; fl:form \"AB\" ;\n"
             "  fl:part [ fl:letter \"A\" ; fl:hands hands:ride-eighths ; fl:feet my:brine ] ,\n"
             "    [ fl:letter \"B\" ; fl:feet my:salt ] .\n";

static char kept_why[KEPT_WHY_ROOM];

static inline Session kept_session(const BankFolder* const folder)
{
    Session session;
    const BankSources sources = {KEPT_FACTORY, folder ? folder->path : NULL, NULL};
    if (!session_init(&session, sources)) {
        exit(2);
    }
    return session;
}

static inline void kept_normal(float values[CONTROL_COUNT])
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].normal;
    }
}

/* Keeps a groove with feet, 0 for its own. */
static inline bool kept_put(Session* const session, const uint32_t slot, const char* const name,
                            const uint32_t groove, const uint32_t feet)
{
    float values[CONTROL_COUNT];
    kept_normal(values);
    values[CONTROL_GROOVE] = (float)groove;
    values[CONTROL_FEET] = (float)feet;
    kept_why[0] = '\0';
    return session_keep(session, slot, name, values, kept_why);
}

/* The names of all slots: "Ostrel . Gallop ..." without the empty ones at the end. */
static inline const char* kept_names(const Session* const session)
{
    static char names[KEPT_MAX * (KEPT_NAME_ROOM + 1) + 1];
    size_t length = 0, last = 0;
    names[0] = '\0';
    for (uint32_t slot = 1; slot <= KEPT_MAX; ++slot) {
        const KeptSelection* const kept = kept_list_at(session->kept, slot);
        length += (size_t)snprintf(names + length, sizeof names - length, "%s%s",
                                   slot > 1 ? " " : "", kept ? kept->name : ".");
        last = kept ? length : last;
    }
    names[last] = '\0';
    return names;
}

/* What a slot selects, where the session plays. */
static inline Selection kept_selects(const Snapshot* const snapshot, const uint32_t slot)
{
    float values[CONTROL_COUNT];
    kept_normal(values);
    values[CONTROL_KEPT] = (float)slot;
    const Settings settings = snapshot_settings(snapshot, values);
    return selection_make(snapshot_library(snapshot), &settings, 120.0);
}

/* A figure's kicks on sixteenths of a bar of 4/4. */
static inline const char* kept_steps(const Figure* const figure)
{
    static char steps[17];
    memset(steps, '.', 16);
    for (uint32_t i = 0; figure && i < figure->stroke_count; ++i) {
        const int64_t step = figure->strokes[i].tick * 4 / TICKS_PER_QUARTER;
        if (step < 16) {
            steps[step] = figure->strokes[i].level == LEVEL_ACCENT ? 'O' : 'o';
        }
    }
    return steps;
}

/* Saves the texts and restores them in another session, which it returns. */
static inline Session kept_again(const Session* const session, const BankFolder* const folder)
{
    const Used used = {.settled = true};
    SessionTexts texts = {.of = {NULL}};
    Session again = kept_session(folder);
    CHECK(session_save(session, &used, &texts));
    CHECK(session_restore(&again, &texts));
    session_texts_clear(&texts);
    return again;
}

/* A session with this text as what is kept. */
static inline Session kept_restored(const char* const text)
{
    Session session = kept_session(NULL);
    SessionTexts texts;
    for (int i = 0; i < TEXTS; ++i) {
        texts.of[i] = strdup(i == TEXT_KEPT ? text : "");
    }
    CHECK(session_restore(&session, &texts));
    session_texts_clear(&texts);
    return session;
}
