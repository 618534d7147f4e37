// SPDX-License-Identifier: ISC
/* After any storm of locates, edits, stops and speeds the clock is exact again:
   every hat of a settled stretch stands where exact arithmetic has it, none lost
   and none doubled.  Where a host's own rounding leaves the place open, by how
   much.  An argument is how many seeds to try of each kind. */
#include "storm.h"

/* Rounding, and what is taken for none. */
static const double half_a_frame = 0.52;

static int seeds = 2;

typedef struct {
    size_t hats;
    size_t lost;
    size_t extra;
    double worst; /* frames of ours */
} Heard;

/* A stretch that is judged: from a frame of ours, and the host's there. */
typedef struct {
    const StormHost* host;
    int64_t begin;
    int64_t frame;
    double settled; /* frames of ours after which hats count */
} Settled;

/* Where a sixteenth of the bar should be heard. */
static double exact_frame(const Settled* const stretch, const Piece* const piece, const double line)
{
    const double beats = line * piece->unit / 16.0 - piece->beat;
    const double frame = piece->frame + beats * beat_frames(piece);
    return (double)stretch->begin + (frame - (double)stretch->frame) / stretch->host->speed;
}

/* Hats from *next on that lie before `end`; how far the last is off, if any. */
static size_t hats_before(const Player* const player, size_t* const next, const double end,
                          const double exact, double* const off)
{
    size_t count = 0;
    for (; *next < player->count && (double)player->notes[*next].frame < end; ++*next) {
        const Note note = player->notes[*next];
        if ((note.bytes[0] & 0xF0U) == LV2_MIDI_MSG_NOTE_ON && note.bytes[1] == HAT_KEY) {
            *off = fabs((double)note.frame - exact);
            ++count;
        }
    }
    return count;
}

static Heard listen(const Settled* const stretch)
{
    const StormHost* const host = stretch->host;
    const Piece* const piece = piece_at(host, (double)stretch->frame);
    const double apart = piece->unit / 16.0 * beat_frames(piece) / host->speed;
    const double end = (double)host->player->now - apart;
    const double from = (double)stretch->begin + stretch->settled;
    double line = ceil(beats_at(piece, (double)stretch->frame) / (piece->unit / 16.0));
    while (exact_frame(stretch, piece, line) < from) {
        ++line;
    }
    Heard heard = {.hats = 0};
    size_t next = 0;
    double off = 0.0;
    hats_before(host->player, &next, exact_frame(stretch, piece, line) - apart / 2.0, 0.0, &off);
    for (;; ++line) {
        const double exact = exact_frame(stretch, piece, line);
        if (exact > end) {
            return heard;
        }
        off = 0.0;
        const size_t hats = hats_before(host->player, &next, exact + apart / 2.0, exact, &off);
        ++heard.hats;
        heard.lost += hats == 0;
        heard.extra += hats > 1 ? hats - 1 : 0;
        heard.worst = fmax(heard.worst, off);
    }
}

/* Beats of a bar come as a 32-bit float: its last digit, in frames of ours. */
static double beat_slack(const StormHost* const host, const Piece* const piece)
{
    return piece->beats / 4194304.0 * beat_frames(piece) / host->speed;
}

/* What a float of the tempo told is off by, since frame 0. */
static double tempo_slack(const StormHost* const host)
{
    const Piece* const piece = piece_at(host, (double)host->frame);
    const double told = piece->tempo * (host->counts_beats ? piece->unit / 4.0 : 1.0);
    return fabs((double)(float)told / told - 1.0) * (double)host->frame / host->speed;
}

/* A step of the host's rounding in frames of ours. */
static double step_frames(const StormHost* const host)
{
    const Piece* const piece = piece_at(host, (double)host->frame);
    const double wide = host->quarter_fractions && piece->unit > 4 ? piece->unit / 4.0 : 1.0;
    return place_step(host->places) * wide * beat_frames(piece) / host->speed;
}

/* What a host does in a storm. */
typedef struct {
    PlaceKind places;
    Telling telling;
    bool counts_beats;
    bool quarter_fractions;
    bool edits;    /* its tempi and meters */
    double steps;  /* of its own that it may be off */
    double settle; /* beats, and two blocks, before hats count */
} Kind;

static void do_something(StormHost* const host, const Kind* const kind, const StormMeter meter)
{
    switch (below(&host->chance, kind->edits ? 8 : 5)) {
    case 0:
    case 1:
        locate(host);
        break;
    case 2:
        change_block(host);
        break;
    case 3:
        change_speed(host);
        break;
    case 4:
        stop_a_while(host);
        break;
    case 5:
        edit_tempo(host);
        break;
    case 6:
        edit_meter(host);
        break;
    default:
        make_map(host, meter, 1 + below(&host->chance, 4));
        if (kind->telling == TELLS_CHANGES) { /* a leap alone is told once, and not believed */
            locate(host);
        }
        break;
    }
    storm_blocks(host, below(&host->chance, 2) ? below(&host->chance, 60) : 1);
}

static const char* const place_names[] = {"exact", "1/1920", "1/384"};
static const char* const telling_names[] = {"every block", "on changes", "on beats"};

static bool judge(StormHost* const host, const Kind* const kind, const uint32_t seed)
{
    end_map_here(host);
    storm_block(host);
    const Piece piece = *piece_at(host, (double)host->frame);
    const double beat = beat_frames(&piece) / host->speed;
    const Settled stretch = {host, host->player->now, host->frame,
                             kind->settle * beat + 2.0 * host->block};
    host->player->count = 0;
    storm_blocks(host, (uint32_t)((kind->settle + 6.0) * beat / host->block) + 3);
    const Heard heard = listen(&stretch);
    check_case("seed %u, places %s told %s, tempo in %s%s, %g/%d at %g, speed %g, blocks of %u",
               seed, place_names[kind->places], telling_names[kind->telling],
               kind->counts_beats ? "beats" : "quarters",
               kind->quarter_fractions ? ", fractions of quarters" : "", piece.beats, piece.unit,
               piece.tempo, host->speed, host->block);
    const double slack = half_a_frame + 0.02 / host->speed + beat_slack(host, &piece) +
                         kind->steps * step_frames(host) +
                         (host->places == EXACT_PLACES ? 0.0 : tempo_slack(host));
    return CHECK(heard.hats > 3) && CHECK_INT(heard.lost, 0) && CHECK_INT(heard.extra, 0) &&
           CHECK_NEAR(heard.worst, 0.0, slack);
}

static bool storm(Player* const player, const Kind* const kind, const StormMeter meter,
                  const uint32_t seed)
{
    StormHost host = {.player = player,
                      .chance = seed * 2654435761U + 1U,
                      .places = kind->places,
                      .telling = kind->telling,
                      .counts_beats = kind->counts_beats,
                      .quarter_fractions = kind->quarter_fractions,
                      .block = 256,
                      .speed = 1.0};
    begin_anew(player);
    make_map(&host, meter, kind->edits ? 1 + below(&host.chance, 4) : 1);
    /* Where only a place told alone can tell the tempo's unit, it takes two. */
    for (int i = 0; i < 3 && kind->telling == TELLS_CHANGES; ++i) {
        locate(&host);
        storm_block(&host);
    }
    for (int stretch = 0; stretch < 6; ++stretch) {
        for (uint32_t i = below(&host.chance, 6); i < 6; ++i) {
            do_something(&host, kind, meter);
        }
        if (!judge(&host, kind, seed)) {
            return false;
        }
    }
    return true;
}

/* Each kind in every meter. */
static void storms(const Kind* const kinds, const size_t count)
{
    Player player;
    const bool good = open_player(&player);
    for (size_t i = 0; good && i < count; ++i) {
        for (uint32_t meter = 0; meter < STORM_METERS; ++meter) {
            for (uint32_t seed = 1; seed <= (uint32_t)seeds; ++seed) {
                storm(&player, &kinds[i], storm_meters[meter], meter * 10000 + seed);
            }
        }
    }
    close_player(&player);
}

#define STORMS(kinds) storms(kinds, sizeof(kinds) / sizeof *(kinds))

static void a_host_that_tells_exact_places_is_followed_to_half_a_frame(void)
{
    static const Kind kinds[] = {
        {EXACT_PLACES, TELLS_EVERY_BLOCK, false, false, true, 0, 0.5},
        {EXACT_PLACES, TELLS_CHANGES, false, false, true, 0, 0.5},
        {EXACT_PLACES, TELLS_BEATS, false, false, true, 0, 2},
    };
    STORMS(kinds);
}

static void so_it_is_when_its_tempo_counts_beats(void)
{
    static const Kind kinds[] = {
        {EXACT_PLACES, TELLS_EVERY_BLOCK, true, false, true, 0, 2},
        {EXACT_PLACES, TELLS_BEATS, true, false, true, 0, 4},
    };
    STORMS(kinds);
}

static void so_it_is_when_its_fractions_are_those_of_a_quarter(void)
{
    static const Kind kinds[] = {
        {EXACT_PLACES, TELLS_EVERY_BLOCK, false, true, true, 0, 2},
        {EXACT_PLACES, TELLS_EVERY_BLOCK, true, true, true, 0, 2},
        {EXACT_PLACES, TELLS_BEATS, false, true, true, 0, 6},
        {EXACT_PLACES, TELLS_BEATS, true, true, true, 0, 6},
    };
    STORMS(kinds);
}

static void a_host_that_rounds_is_followed_to_half_a_frame_in_one_tempo(void)
{
    static const Kind kinds[] = {
        {TICK_PLACES, TELLS_EVERY_BLOCK, false, false, false, 0, 0},
        {TICK_PLACES, TELLS_EVERY_BLOCK, true, false, false, 0, 2},
        {TICK_PLACES, TELLS_EVERY_BLOCK, false, true, false, 0, 2},
        {TICK_PLACES, TELLS_CHANGES, false, false, false, 0, 0},
        {TICK_PLACES, TELLS_BEATS, true, false, false, 0, 4},
        {CUT_PLACES, TELLS_EVERY_BLOCK, false, false, false, 0, 0},
        {CUT_PLACES, TELLS_EVERY_BLOCK, true, true, false, 0, 2},
        {CUT_PLACES, TELLS_CHANGES, false, false, false, 0, 0},
        {CUT_PLACES, TELLS_BEATS, false, true, false, 0, 6},
    };
    STORMS(kinds);
}

/* Where its map has more tempi nothing tells between two of its steps. */
static void a_host_that_rounds_is_followed_within_two_steps_in_any_map(void)
{
    static const Kind kinds[] = {
        {TICK_PLACES, TELLS_EVERY_BLOCK, false, false, true, 2.1, 0.5},
        {TICK_PLACES, TELLS_EVERY_BLOCK, true, false, true, 2.1, 2},
        {TICK_PLACES, TELLS_CHANGES, false, false, true, 2.1, 0.5},
        {CUT_PLACES, TELLS_EVERY_BLOCK, false, false, true, 2.1, 0.5},
        {CUT_PLACES, TELLS_EVERY_BLOCK, true, true, true, 2.1, 4},
        /* Told on beats, its steps can be taken for 1/192 for long. */
        {CUT_PLACES, TELLS_BEATS, false, false, true, 4.2, 4},
    };
    STORMS(kinds);
}

static void locates_tell_what_a_tempo_counts_where_nothing_else_is_told(void)
{
    static const Kind kinds[] = {
        {EXACT_PLACES, TELLS_CHANGES, true, false, false, 0, 0},
        {TICK_PLACES, TELLS_CHANGES, true, false, false, 0, 0},
        {CUT_PLACES, TELLS_CHANGES, true, false, false, 0, 0},
    };
    STORMS(kinds);
}

static void run_all(void)
{
    RUN(a_host_that_tells_exact_places_is_followed_to_half_a_frame);
    RUN(so_it_is_when_its_tempo_counts_beats);
    RUN(so_it_is_when_its_fractions_are_those_of_a_quarter);
    RUN(a_host_that_rounds_is_followed_to_half_a_frame_in_one_tempo);
    RUN(a_host_that_rounds_is_followed_within_two_steps_in_any_map);
    RUN(locates_tell_what_a_tempo_counts_where_nothing_else_is_told);
}

int main(const int count, char** const arguments)
{
    seeds = count > 1 ? atoi(arguments[1]) : seeds;
    return run_in_folder(run_all);
}
