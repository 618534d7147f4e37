// SPDX-License-Identifier: ISC
#include "playtable.h"

#include <string.h>

enum { LABEL_WIDTH = 14, COLUMN_WIDTH = 11, CELL_ROOM = 24 };

/* ---- Sources: plugin/engine/writing/play_limits.h says which limits are published. */

static const char* source(const bool is_users, const bool is_published)
{
    return is_users ? "yours" : is_published ? "published" : "ours";
}

const char* playtable_rate_source(const PlayLimits* const limits, const PlayStream stream)
{
    const PlayLimits normal = play_limits_default();
    return source(differs(limits->rate[stream], normal.rate[stream]), true);
}

const char* playtable_kept_source(const PlayLimits* const limits, const PlayStream stream,
                                  const double minutes)
{
    const PlayLimits normal = play_limits_default();
    bool is_users = differs(limits->rate[stream], normal.rate[stream]);
    const bool a_minute = !(minutes > limits->shares[0].minutes);
    for (int i = 0; i < PLAY_SHARES; ++i) {
        is_users = is_users || differs(limits->shares[i].minutes, normal.shares[i].minutes) ||
                   differs(limits->shares[i].share, normal.shares[i].share);
    }
    const bool beyond = minutes > limits->shares[PLAY_SHARES - 1].minutes;
    return source(is_users, a_minute || (stream == PLAY_FEET && !beyond));
}

const char* playtable_closest_source(const PlayLimits* const limits, const PlayStream limb)
{
    const PlayLimits normal = play_limits_default();
    return source(differs(limits->closest_ms[limb], normal.closest_ms[limb]),
                  limb_is_foot((uint8_t)limb));
}

const char* playtable_burst_source(const PlayLimits* const limits, const PlayStream limb)
{
    const PlayLimits normal = play_limits_default();
    return source(limits->burst[limb] != normal.burst[limb] ||
                      differs(limits->burst_share[limb], normal.burst_share[limb]),
                  false);
}

const char* playtable_move_source(const PlayLimits* const limits, const PlayMove move)
{
    const PlayLimits normal = play_limits_default();
    const double ours = play_limits_move_ms(&normal, move.from, move.to);
    return source(differs(play_limits_move_ms(limits, move.from, move.to), ours), false);
}

/* ---- Cells: what a stream has in a row; "" if nothing. */

typedef void (*Cell)(const Playability* playability, PlayStream stream, char text[CELL_ROOM]);

static void number(char text[CELL_ROOM], const double value)
{
    snprintf(text, CELL_ROOM, "%.1f", value);
}

static void whole(char text[CELL_ROOM], const uint32_t value)
{
    snprintf(text, CELL_ROOM, "%u", value);
}

static bool is_limb(const PlayStream stream)
{
    return (int)stream < LIMB_COUNT;
}

static void strokes(const Playability* const playability, const PlayStream stream,
                    char text[CELL_ROOM])
{
    whole(text, playability->found[stream].strokes);
}

static void busiest(const Playability* const playability, const PlayStream stream,
                    char text[CELL_ROOM])
{
    whole(text, (uint32_t)playability->found[stream].rate);
}

static void busiest_most(const Playability* const playability, const PlayStream stream,
                         char text[CELL_ROOM])
{
    number(text, playability->limits.rate[stream]);
}

static void busiest_source(const Playability* const playability, const PlayStream stream,
                           char text[CELL_ROOM])
{
    snprintf(text, CELL_ROOM, "%s", playtable_rate_source(&playability->limits, stream));
}

static void mean(const Playability* const playability, const PlayStream stream,
                 char text[CELL_ROOM])
{
    number(text, playability->found[stream].mean);
}

static void run(const Playability* const playability, const PlayStream stream, char text[CELL_ROOM])
{
    whole(text, playability->found[stream].run_strokes);
}

static void run_seconds(const Playability* const playability, const PlayStream stream,
                        char text[CELL_ROOM])
{
    number(text, playability->found[stream].run_seconds);
}

static double minutes_kept(const Playability* const playability, const PlayStream stream)
{
    return playability_minutes_at(playability, stream, playability_hardest(playability, stream));
}

static void kept_minutes(const Playability* const playability, const PlayStream stream,
                         char text[CELL_ROOM])
{
    snprintf(text, CELL_ROOM, "%.2f", minutes_kept(playability, stream));
}

static void kept(const Playability* const playability, const PlayStream stream,
                 char text[CELL_ROOM])
{
    number(text,
           playability_kept_at(playability, stream, playability_hardest(playability, stream)));
}

static void kept_most(const Playability* const playability, const PlayStream stream,
                      char text[CELL_ROOM])
{
    const double share = play_limits_share(&playability->limits, minutes_kept(playability, stream));
    number(text, playability->limits.rate[stream] * share);
}

static void kept_source(const Playability* const playability, const PlayStream stream,
                        char text[CELL_ROOM])
{
    snprintf(
        text, CELL_ROOM, "%s",
        playtable_kept_source(&playability->limits, stream, minutes_kept(playability, stream)));
}

static void closest(const Playability* const playability, const PlayStream stream,
                    char text[CELL_ROOM])
{
    if (playability->found[stream].strokes > 1) {
        number(text, playability->found[stream].closest_ms);
    }
}

static void closest_least(const Playability* const playability, const PlayStream stream,
                          char text[CELL_ROOM])
{
    if (is_limb(stream)) {
        number(text, playability->limits.closest_ms[stream]);
    }
}

static void closest_source(const Playability* const playability, const PlayStream stream,
                           char text[CELL_ROOM])
{
    if (is_limb(stream)) {
        snprintf(text, CELL_ROOM, "%s", playtable_closest_source(&playability->limits, stream));
    }
}

static void burst(const Playability* const playability, const PlayStream stream,
                  char text[CELL_ROOM])
{
    if (is_limb(stream)) {
        whole(text, playability->found[stream].burst);
    }
}

static void burst_most(const Playability* const playability, const PlayStream stream,
                       char text[CELL_ROOM])
{
    if (is_limb(stream)) {
        whole(text, playability->limits.burst[stream]);
    }
}

static void burst_source(const Playability* const playability, const PlayStream stream,
                         char text[CELL_ROOM])
{
    if (is_limb(stream)) {
        snprintf(text, CELL_ROOM, "%s", playtable_burst_source(&playability->limits, stream));
    }
}

static void move(const Playability* const playability, const PlayStream stream,
                 char text[CELL_ROOM])
{
    if (playability->found[stream].worst.needs_ms > 0.0) {
        number(text, playability->found[stream].worst.has_ms);
    }
}

static void move_least(const Playability* const playability, const PlayStream stream,
                       char text[CELL_ROOM])
{
    if (playability->found[stream].worst.needs_ms > 0.0) {
        number(text, playability->found[stream].worst.needs_ms);
    }
}

static void move_source(const Playability* const playability, const PlayStream stream,
                        char text[CELL_ROOM])
{
    const PlayMove worst = playability->found[stream].worst;
    if (worst.needs_ms > 0.0) {
        snprintf(text, CELL_ROOM, "%s", playtable_move_source(&playability->limits, worst));
    }
}

/* ---- The table */

static const struct {
    const char* label;
    Cell cell;
} rows[] = {
    {"strokes", strokes},       {"busiest second", busiest}, {"  at most", busiest_most},
    {"", busiest_source},       {"mean a second", mean},     {"longest run", run},
    {"  seconds", run_seconds}, {"closest two ms", closest}, {"  at least", closest_least},
    {"", closest_source},       {"close in a row", burst},   {"  at most", burst_most},
    {"", burst_source},         {"tightest move", move},     {"  needs, ms", move_least},
    {"", move_source},          {"minutes", kept_minutes},   {"  at a second", kept},
    {"  at most", kept_most},   {"", kept_source},
};

static void print_row(FILE* const out, const Playability* const playability,
                      const char* const label, const Cell cell)
{
    fprintf(out, "%-*s", LABEL_WIDTH, label);
    for (int stream = 0; stream < PLAY_STREAMS; ++stream) {
        char text[CELL_ROOM] = "";
        if (playability->found[stream].strokes || cell == strokes) {
            cell(playability, (PlayStream)stream, text);
        }
        fprintf(out, "%*s", COLUMN_WIDTH, *text ? text : "-");
    }
    fputc('\n', out);
}

void playtable_print(FILE* const out, const Playability* const playability)
{
    static const char* const heads[PLAY_STREAMS] = {"right hand", "left hand",  "right foot",
                                                    "left foot",  "both hands", "both feet"};
    fprintf(out, "%-*s", LABEL_WIDTH, "");
    for (int stream = 0; stream < PLAY_STREAMS; ++stream) {
        fprintf(out, "%*s", COLUMN_WIDTH, heads[stream]);
    }
    fputc('\n', out);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        print_row(out, playability, rows[i].label, rows[i].cell);
    }
}
