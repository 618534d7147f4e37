// SPDX-License-Identifier: ISC
#include "own_limits.h"

#include "fields.h"
#include "names.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum { PATH_ROOM = 4096, WORDS_ROOM = 128 };

/* By PlayStream, as ttl/terms.ttl has them. */
static const char* const stream_names[PLAY_STREAMS] = {
    "rightHand", "leftHand", "rightFoot", "leftFoot", "bothHands", "bothFeet",
};

static const char* const limits_terms[] = {"limit",    "keeps",     "stands",
                                           "moveTime", "moveSpeed", "gripTime"};
static const char* const limit_terms[] = {"of", "rate", "runGap", "closest", "burst", "burstShare"};
static const char* const keeps_terms[] = {"minutes", "share"};
static const char* const place_terms[] = {"voice", "right", "away"};

/* ---- One subject */

static bool is_known(const char* const uri, const char* const* const terms, const int count)
{
    const size_t prefix = strlen(FL_TERMS);
    return strncmp(uri, FL_TERMS, prefix) || name_index(terms, count, uri + prefix) >= 0;
}

static void refuse_word(Subject* const subject, const char* const word,
                        const char* const* const terms, const int count)
{
    char all[WORDS_ROOM] = "";
    size_t length = 0;
    for (int i = 0; i < count && length < sizeof all; ++i) {
        length +=
            (size_t)snprintf(all + length, sizeof all - length, "%sfl:%s", i ? ", " : "", terms[i]);
    }
    field_wrong(subject, word, "is no word for this; expected one of %s", all);
}

/* A word that is misspelt would else be a limit that isn't heeded. */
static void refuse_others(Subject* const subject, const char* const* const terms, const int count)
{
    SordIter* const found = turtle_find(subject->turtle, subject->subject, NULL, NULL);
    for (; !sord_iter_end(found); sord_iter_next(found)) {
        const SordNode* const property = sord_iter_get_node(found, SORD_PREDICATE);
        const char* const uri = (const char*)sord_node_get_string(property);
        if (!is_known(uri, terms, count)) {
            refuse_word(subject, uri + strlen(FL_TERMS), terms, count);
        }
    }
    sord_iter_free(found);
}

/* As it was if it isn't stated or is wrong. */
static void take_number(Subject* const subject, const char* const term, const double least,
                        const double most, double* const number)
{
    Subject alone = {subject->turtle, subject->diagnostics, subject->subject, false};
    const double read = field_decimal(&alone, term, least, most);
    *number = alone.failed || isnan(read) ? *number : read;
    subject->failed |= alone.failed;
}

/* ---- What a fl:Limits has in brackets */

static void read_limit(Subject* const limit, PlayLimits* const limits)
{
    refuse_others(limit, limit_terms, sizeof limit_terms / sizeof *limit_terms);
    const int stream = field_choice(limit, "of", stream_names, PLAY_STREAMS);
    if (stream < 0) {
        return;
    }
    take_number(limit, "rate", 0.5, 60.0, &limits->rate[stream]);
    take_number(limit, "runGap", 1.0, 10000.0, &limits->run_gap_ms[stream]);
    if (stream < LIMB_COUNT) {
        Subject alone = *limit;
        alone.failed = false;
        const int64_t burst = field_integer(&alone, "burst", 1, 1000, limits->burst[stream]);
        limits->burst[stream] = alone.failed ? limits->burst[stream] : (uint32_t)burst;
        take_number(limit, "burstShare", 1.0, 10.0, &limits->burst_share[stream]);
        take_number(limit, "closest", 1.0, 10000.0, &limits->closest_ms[stream]);
    } else if (field_node(limit, "burst", false) || field_node(limit, "burstShare", false) ||
               field_node(limit, "closest", false)) {
        field_wrong(limit, "of", "fl:%s: fl:closest, fl:burst and fl:burstShare are for one limb",
                    stream_names[stream]);
    }
}

static void read_place(Subject* const place, PlayLimits* const limits)
{
    refuse_others(place, place_terms, sizeof place_terms / sizeof *place_terms);
    const int voice = field_choice(place, "voice", voice_names, VOICE_COUNT);
    if (voice >= 0) {
        take_number(place, "right", -300.0, 300.0, &limits->places[voice].right);
        take_number(place, "away", -300.0, 300.0, &limits->places[voice].away);
    }
}

/* All of them, in any order, until they are sorted. */
typedef struct {
    PlayShare rows[PLAY_SHARES];
    int count;
} Shares;

static void read_share(Subject* const keeps, Shares* const shares)
{
    PlayShare row = {(double)NAN, (double)NAN};
    refuse_others(keeps, keeps_terms, sizeof keeps_terms / sizeof *keeps_terms);
    take_number(keeps, "minutes", 0.1, 1000.0, &row.minutes);
    take_number(keeps, "share", 0.01, 1.0, &row.share);
    if (!keeps->failed && (isnan(row.minutes) || isnan(row.share))) {
        field_wrong(keeps, NULL, "fl:keeps needs both fl:minutes and fl:share");
    }
    if (shares->count < PLAY_SHARES) {
        shares->rows[shares->count] = row;
    }
    ++shares->count;
}

static int by_minutes(const void* const a, const void* const b)
{
    const double left = ((const PlayShare*)a)->minutes;
    const double right = ((const PlayShare*)b)->minutes;
    return (left > right) - (left < right);
}

static void take_shares(Subject* const subject, Shares* const shares, PlayLimits* const limits)
{
    PlayShare* const rows = shares->rows;
    if (shares->count != PLAY_SHARES) {
        field_wrong(subject, "keeps", "expected %d of them, at different minutes, or none",
                    PLAY_SHARES);
        return;
    }
    qsort(rows, PLAY_SHARES, sizeof *rows, by_minutes);
    for (int i = 1; i < PLAY_SHARES; ++i) {
        if (!(rows[i].minutes > rows[i - 1].minutes) || rows[i].share > rows[i - 1].share) {
            field_wrong(subject, "keeps",
                        "expected less, or as much, to be left after more "
                        "minutes, and no minutes twice");
            return;
        }
    }
    memcpy(limits->shares, rows, sizeof limits->shares);
}

/* ---- The file */

/* False, with a complaint where it stands, of a text, a number, or brackets with nothing in. */
static bool says_anything(Subject* const subject, const char* const term,
                          const SordNode* const node)
{
    SordIter* const found = turtle_find(subject->turtle, node, NULL, NULL);
    const bool any = !sord_iter_end(found);
    sord_iter_free(found);
    if (!any) {
        field_wrong(subject, term,
                    "expected brackets with something in them; README has an example");
    }
    return any;
}

/* Each of what stands in brackets behind a property. */
static void read_limits(Subject* const subject, PlayLimits* const limits)
{
    Shares shares = {.count = 0};
    bool whole = true;
    for (int term = 0; term < 3; ++term) {
        SordIter* const found = turtle_find(subject->turtle, subject->subject,
                                            field_property(subject, limits_terms[term]), NULL);
        for (; !sord_iter_end(found); sord_iter_next(found)) {
            Subject row = {subject->turtle, subject->diagnostics,
                           sord_iter_get_node(found, SORD_OBJECT), false};
            if (!says_anything(subject, limits_terms[term], row.subject)) {
                whole = false;
            } else if (term == 0) {
                read_limit(&row, limits);
            } else if (term == 1) {
                read_share(&row, &shares);
                whole = whole && !row.failed;
            } else {
                read_place(&row, limits);
            }
        }
        sord_iter_free(found);
    }
    if (shares.count && whole) {
        take_shares(subject, &shares, limits);
    }
    refuse_others(subject, limits_terms, sizeof limits_terms / sizeof *limits_terms);
    take_number(subject, "moveTime", 0.0, 1000.0, &limits->move_ms);
    take_number(subject, "gripTime", 0.0, 1000.0, &limits->grip_ms);
    take_number(subject, "moveSpeed", 0.1, 100.0, &limits->move_speed);
}

static void read_model(Turtle* const turtle, Diagnostics* const diagnostics,
                       PlayLimits* const limits)
{
    SordIter* const found = turtle_find(turtle, NULL, turtle_uri(turtle, RDF_NS "type"),
                                        turtle_uri(turtle, FL_TERMS "Limits"));
    const SordNode* const node = found ? sord_iter_get_node(found, SORD_SUBJECT) : NULL;
    if (found) {
        sord_iter_next(found);
    }
    const bool more = !sord_iter_end(found);
    sord_iter_free(found);
    if (!node || more) {
        diagnostics_add(diagnostics,
                        OWN_LIMITS_FILE ": expected one subject that is a fl:Limits; figures "
                                        "belong in a file with another name");
        return;
    }
    Subject subject = {turtle, diagnostics, node, false};
    read_limits(&subject, limits);
}

PlayLimits own_limits_read(const char* const folder, Diagnostics* const diagnostics)
{
    PlayLimits limits = play_limits_default();
    char path[PATH_ROOM];
    struct stat status;
    const int length = folder ? snprintf(path, sizeof path, "%s/" OWN_LIMITS_FILE, folder) : 0;
    if (length <= 0 || length >= PATH_ROOM || lstat(path, &status) != 0) {
        return limits;
    }
    Turtle* const turtle = turtle_new();
    const size_t before = diagnostics->count;
    if (turtle && (turtle_read(turtle, path, diagnostics) || diagnostics->count == before)) {
        read_model(turtle, diagnostics, &limits);
    }
    if (!turtle || !turtle_is_whole(turtle)) {
        diagnostics_add(diagnostics, "%s: there is no memory to read it", path);
    }
    turtle_free(turtle);
    return limits;
}
