// SPDX-License-Identifier: ISC
/* Every row of tests/data/drummers.tsv that the feel speaks of (from the Groove MIDI Dataset,
   Gillick and others, ICML 2019, CC BY 4.0), at its defaults over tempi from 70 to 200: the
   median of its windows lies between the drummers' 10 and 90 %.  White noise and the first
   model (first_model.h) are played beside it and fail rows that are named.

   FEEL=1 prints the table: band, ours, first model, white. */
#include "../../plugin/engine/groove/controls.h"
#include "../../plugin/engine/play/articulation.h"
#include "../help/check.h"
#include "first_model.h"
#include "series.h"
#include "windows.h"

#include <stdio.h>
#include <string.h>

enum { TAKES = 80, TEMPI = 14, WINDOWS_MOST = 3 * TEMPI * TAKES, ROWS_MOST = 256 };

/* The test's own grooves, a bar each: eighths, sixteenths and quarters to keep time. */
typedef struct {
    const char* steps[WINDOW_LIMBS];
} Pattern;

static const Pattern patterns[] = {
    {{"o.o....o..o....o", "....O..g.o..O..o", "O.o.O.o.O.o.O.o."}},
    {{"o..o..o...o..o..", "..o.O..g.o..O.o.", "oooooooooooooooo"}},
    {{"o.....o.o.o....o", "....O..g.o..O..o", "o...o...o...o..."}},
};
/* One hand plays sixteenths up to here, which is where the data's takes have them. */
static const double sixteenths_most = 120.0;
static const Pattern plain = {{"o.o...o.o.o...o.", "....o.......o...", "o.o.o.o.o.o.o.o."}};

typedef enum { OURS, FIRST, WHITE, MODELS } Model;

typedef struct {
    Window ms; /* less the mean of all */
    Window velocity;
    double tempo;
} Performance;

static const Stroke strikes[WINDOW_LIMBS] = {
    {.limb = RIGHT_FOOT, .voice = VOICE_KICK},
    {.limb = LEFT_HAND, .voice = VOICE_SNARE},
    {.limb = RIGHT_HAND, .voice = VOICE_HAT_CLOSED},
};

static uint8_t level_of(const char step)
{
    return step == 'g' ? LEVEL_GHOST : step == 'o' ? LEVEL_NORMAL : LEVEL_ACCENT;
}

/* As the controls' defaults are. */
static Feel default_feel(const uint32_t take)
{
    return (Feel){.take = take,
                  .looseness_ms = (double)control_rows[CONTROL_LOOSENESS].normal,
                  .touch = (double)control_rows[CONTROL_TOUCH].normal / 100.0,
                  .accent = (double)control_rows[CONTROL_ACCENT].normal / 100.0,
                  .accent_feet = (double)control_rows[CONTROL_ACCENT_FEET].normal / 100.0,
                  .ghost = (double)control_rows[CONTROL_GHOST].normal / 100.0,
                  .level = (int)control_rows[CONTROL_LEVEL].normal};
}

static StrokeList strokes_from(const Pattern* const pattern, const int from, const int to)
{
    StrokeList list = {.count = 0};
    for (int slot = from; slot < to; ++slot) {
        for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
            const char step = pattern->steps[limb][(slot + 16) % 16];
            Stroke stroke = strikes[limb];
            stroke.tick = slot * (TICKS_PER_QUARTER / 4);
            stroke.level = level_of(step);
            if (step != '.') {
                stroke_list_add(&list, stroke);
            }
        }
    }
    return list;
}

/* To the nearest other stroke of the limb, in ms. */
static double gap_of(const Pattern* const pattern, const WindowLimb limb, const int slot,
                     const double tempo)
{
    int gap = 1;
    while (gap < 4 && pattern->steps[limb][(slot + gap) % 16] == '.' &&
           pattern->steps[limb][(slot + 16 - gap) % 16] == '.') {
        ++gap;
    }
    return gap * 15000.0 / tempo;
}

/* Levels and spreads of the first model; white noise has the levels of today. */
static const double first_levels[] = {23.0, 76.0, 107.0};
static const double first_spread[WINDOW_LIMBS] = {11.6, 19.1, 15.2};
static const double white_levels[] = {34.0, 76.0, 118.0};

static void play_other(const Model model, const uint32_t take, const Stroke stroke,
                       const WindowLimb limb, const double gap, double* const ms,
                       double* const velocity)
{
    const double spread = first_spread[limb] * (stroke.level == LEVEL_GHOST ? 0.35 : 1.0);
    const int level = stroke.level - LEVEL_GHOST;
    const double white = white_levels[level] + spread * noise_bell(take, 900 + limb, stroke.tick);
    *ms = model == FIRST ? first_offset_ms(take, stroke.limb, stroke.tick, gap)
                         : 14.0 * noise_bell(take, 910 + limb, stroke.tick);
    *velocity = model == FIRST
                    ? first_velocity(take, stroke.limb, first_levels[level], spread, stroke.tick)
                    : fmin(white, 127.0);
}

static void play_slot(const Model model, const Score* const score, const Pattern* const pattern,
                      const int slot, Performance* const to)
{
    const StrokeList around = strokes_from(pattern, slot - 4, slot + 5);
    for (uint32_t i = 0; i < around.count; ++i) {
        const Stroke stroke = around.strokes[i];
        const WindowLimb limb = limb_is_foot(stroke.limb)  ? KICK_LIMB
                                : stroke.limb == LEFT_HAND ? SNARE_LIMB
                                                           : CYMBAL_LIMB;
        if (stroke.tick != slot * (TICKS_PER_QUARTER / 4)) {
            continue;
        }
        double* const ms = &to->ms.value[limb][slot];
        double* const velocity = &to->velocity.value[limb][slot];
        if (model == OURS) {
            Hit hits[ARTICULATION_MAX];
            articulation_of(score, stroke, &around, hits);
            *ms = (double)(hits[0].tick - hits[0].written) / (double)TICKS_PER_QUARTER * 60000.0 /
                  score->tempo;
            *velocity = hits[0].velocity;
        } else {
            play_other(model, score->feel->take, stroke, limb,
                       gap_of(pattern, limb, slot, score->tempo), ms, velocity);
        }
    }
}

static void less_the_mean(Window* const window)
{
    double sum = 0.0;
    int count = 0;
    for (int pass = 0; pass < 2; ++pass) {
        for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
            for (int slot = 0; slot < 16 * window->bars; ++slot) {
                double* const at = &window->value[limb][slot];
                sum += pass || isnan(*at) ? 0.0 : *at;
                count += !pass && !isnan(*at);
                *at -= pass ? sum / count : 0.0;
            }
        }
    }
}

static void play_feel(const Model model, const Feel* const feel, const Pattern* const pattern,
                      const int bars, const double tempo, Performance* const to)
{
    static const Selection nothing;
    const Score score = {.selection = &nothing, .feel = feel, .meter = {4.0, 4}, .tempo = tempo};
    to->ms.bars = to->velocity.bars = bars;
    to->tempo = tempo;
    for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
        for (int slot = 0; slot < 16 * bars; ++slot) {
            to->ms.value[limb][slot] = to->velocity.value[limb][slot] = NOTHING;
        }
    }
    for (int slot = 0; slot < 16 * bars; ++slot) {
        play_slot(model, &score, pattern, slot, to);
    }
    less_the_mean(&to->ms);
}

/* One statistic of a window, of each limb. */
typedef double (*Of)(const Window* window, WindowLimb limb);

#define ROW_STATISTIC(NAME, EXPRESSION)                                                            \
    static double NAME(const Window* const window, const WindowLimb limb)                          \
    {                                                                                              \
        const Row row = window_row(window, limb);                                                  \
        return EXPRESSION;                                                                         \
    }

static double interval_sd(const Row* const row)
{
    double x[SLOTS];
    for (int i = 1; i < row->count; ++i) {
        x[i - 1] = row->x[i] - row->x[i - 1];
    }
    return sd_of(x, row->count - 1);
}

static double interval_lag1(const Row* const row)
{
    double x[SLOTS];
    for (int i = 1; i < row->count; ++i) {
        x[i - 1] = row->x[i] - row->x[i - 1];
    }
    return lag1_of(x, row->count - 1);
}

static double share_of_places(const Row* const row)
{
    const double places = place_sd(row), all = sd_of(row->x, row->count);
    return places * places / (all * all);
}

static double within_sd(const Row* const row)
{
    const Row rest = within_places(row);
    return sd_of(rest.x, rest.count);
}

static double within_lag1(const Row* const row)
{
    const Row rest = within_places(row);
    return lag1_of(rest.x, rest.count);
}

static double standard_moment(const Row* const row, const int power)
{
    const double sd = sd_of(row->x, row->count);
    return row->count < 12 ? NOTHING : moment_of(row->x, row->count, power) / pow(sd, power);
}

ROW_STATISTIC(sd, sd_of(row.x, row.count))
ROW_STATISTIC(intervals_sd, interval_sd(&row))
ROW_STATISTIC(lag1, lag1_of(row.x, row.count))
ROW_STATISTIC(intervals_lag1, interval_lag1(&row))
ROW_STATISTIC(places_sd, place_sd(&row))
ROW_STATISTIC(places_share, share_of_places(&row))
ROW_STATISTIC(rest_sd, within_sd(&row))
ROW_STATISTIC(rest_lag1, within_lag1(&row))
ROW_STATISTIC(one_bar_on, row.count ? bars_on(window, limb, 1) : NOTHING)
ROW_STATISTIC(two_bars_on, row.count ? bars_on(window, limb, 2) : NOTHING)
ROW_STATISTIC(four_bars_on, row.count ? bars_on(window, limb, 4) : NOTHING)
ROW_STATISTIC(bar_difference, row.count ? difference_one_bar_on(window, limb) : NOTHING)
ROW_STATISTIC(drifts, bar_drift(&row, window->bars))
ROW_STATISTIC(kurtosis, standard_moment(&row, 4) - 3.0)
ROW_STATISTIC(skew, standard_moment(&row, 3))
ROW_STATISTIC(mean, mean_of(row.x, row.count))
ROW_STATISTIC(e_less_beat, less_beat(&row, 1))
ROW_STATISTIC(and_less_beat, less_beat(&row, 2))
ROW_STATISTIC(a_less_beat, less_beat(&row, 3))
ROW_STATISTIC(lasting, lasting_sd(&row))
ROW_STATISTIC(exponent, row.count >= 128 ? series_dfa(row.x, row.count) : NOTHING)

/* Where two limbs strike together: first less cymbal. */
static Row difference_to_cymbal(const Window* const window, const WindowLimb limb)
{
    double x[SLOTS], y[SLOTS];
    Row row = {.count = pairs_of(window, limb, CYMBAL_LIMB, 0, x, y)};
    for (int i = 0; i < row.count; ++i) {
        row.x[i] = x[i] - y[i];
    }
    return row;
}

static double difference_mean(const Window* const window, const WindowLimb limb)
{
    const Row row = difference_to_cymbal(window, limb);
    return row.count >= 8 ? mean_of(row.x, row.count) : NOTHING;
}

static double difference_sd(const Window* const window, const WindowLimb limb)
{
    const Row row = difference_to_cymbal(window, limb);
    return row.count >= 8 ? sd_of(row.x, row.count) : NOTHING;
}

static double difference_lag1(const Window* const window, const WindowLimb limb)
{
    const Row row = difference_to_cymbal(window, limb);
    return lag1_of(row.x, row.count);
}

static double with_cymbal(const Window* const window, const WindowLimb limb)
{
    double x[SLOTS], y[SLOTS];
    const int n = pairs_of(window, limb, CYMBAL_LIMB, 0, x, y);
    return correlation_of(x, y, n, 8);
}

static double kick_with_snare(const Window* const window, const int later)
{
    double x[SLOTS], y[SLOTS];
    const int n = pairs_of(window, KICK_LIMB, SNARE_LIMB, later, x, y);
    return correlation_of(x, y, n, 8);
}

static double snare_one_beat_on(const Window* const window, const WindowLimb limb)
{
    return limb == KICK_LIMB ? kick_with_snare(window, 4) : NOTHING;
}

static double snare_two_beats_on(const Window* const window, const WindowLimb limb)
{
    return limb == KICK_LIMB ? kick_with_snare(window, 8) : NOTHING;
}

/* What is played, and which columns of the table say so; "%s" is the limb. */
typedef struct {
    const char* table;
    const char* statistic;
    const char* of;
    Of value;
    bool is_velocity;
    bool is_long; /* of whole takes */
} Asked;

static const Asked asked[] = {
    {"timing", "offset sd", "%s", sd, false, false},
    {"timing", "interval sd", "%s", intervals_sd, false, false},
    {"timing", "lag-1 of offsets", "%s", lag1, false, false},
    {"timing", "lag-1 of intervals", "%s", intervals_lag1, false, false},
    {"timing", "habit: sd of place means", "%s", places_sd, false, false},
    {"timing", "habit: share of variance", "%s", places_share, false, false},
    {"timing", "sd within places", "%s", rest_sd, false, false},
    {"timing", "lag-1 within places", "%s", rest_lag1, false, false},
    {"timing", "correlation one bar on", "%s", one_bar_on, false, false},
    {"timing", "correlation two bars on", "%s", two_bars_on, false, false},
    {"timing", "correlation four bars on", "%s", four_bars_on, false, false},
    {"timing", "sd of difference one bar on", "%s", bar_difference, false, false},
    {"timing", "drift: sd of bar means", "%s", drifts, false, false},
    {"timing", "excess kurtosis", "%s", kurtosis, false, false},
    {"timing", "skew", "%s", skew, false, false},
    {"timing", "mean against all limbs", "%s", mean, false, false},
    {"timing", "e less beat", "%s", e_less_beat, false, false},
    {"timing", "and less beat", "%s", and_less_beat, false, false},
    {"timing", "a less beat", "%s", a_less_beat, false, false},
    {"timing", "habit, lasting: sd of place means, whole takes", "%s", lasting, false, true},
    {"timing", "long-range exponent (DFA), whole takes", "%s", exponent, false, true},
    {"timing", "difference: mean", "%s less cymbal", difference_mean, false, false},
    {"timing", "difference: sd", "%s less cymbal", difference_sd, false, false},
    {"timing", "difference: lag-1", "%s less cymbal", difference_lag1, false, false},
    {"timing", "correlation of offsets", "%s and cymbal", with_cymbal, false, false},
    {"timing", "kick with snare two beats on", "all", snare_two_beats_on, false, false},
    {"timing", "kick with snare one beat on", "all", snare_one_beat_on, false, false},
    {"timing-by-tempo", "offset sd", "%s, under 90", sd, false, false},
    {"timing-by-tempo", "offset sd", "%s, 90 to 110", sd, false, false},
    {"timing-by-tempo", "offset sd", "%s, 110 to 130", sd, false, false},
    {"timing-by-tempo", "offset sd", "%s, 130 and up", sd, false, false},
    {"timing-by-tempo", "interval sd", "%s, under 90", intervals_sd, false, false},
    {"timing-by-tempo", "interval sd", "%s, 90 to 110", intervals_sd, false, false},
    {"timing-by-tempo", "interval sd", "%s, 110 to 130", intervals_sd, false, false},
    {"timing-by-tempo", "interval sd", "%s, 130 and up", intervals_sd, false, false},
    {"timing-by-tempo", "habit: sd of place means", "%s, under 90", places_sd, false, false},
    {"timing-by-tempo", "habit: sd of place means", "%s, 130 and up", places_sd, false, false},
    {"timing-by-tempo", "sd within places", "%s, under 90", rest_sd, false, false},
    {"timing-by-tempo", "sd within places", "%s, 130 and up", rest_sd, false, false},
    {"timing-by-tempo", "drift: sd of bar means", "%s, under 90", drifts, false, false},
    {"timing-by-tempo", "drift: sd of bar means", "%s, 130 and up", drifts, false, false},
    {"timing-by-tempo", "lag-1 of offsets", "%s, under 90", lag1, false, false},
    {"timing-by-tempo", "lag-1 of offsets", "%s, 130 and up", lag1, false, false},
    {"loudness", "velocity sd", "%s", sd, true, false},
    {"loudness", "contour: sd of place means", "%s", places_sd, true, false},
    {"loudness", "contour: share of variance", "%s", places_share, true, false},
    {"loudness", "sd within places", "%s", rest_sd, true, false},
    {"loudness", "lag-1 within places", "%s", rest_lag1, true, false},
    {"loudness", "correlation one bar on", "%s", one_bar_on, true, false},
    {"loudness", "correlation two bars on", "%s", two_bars_on, true, false},
    {"loudness", "correlation four bars on", "%s", four_bars_on, true, false},
    {"loudness", "sd of difference one bar on", "%s", bar_difference, true, false},
    {"loudness", "drift: sd of bar means", "%s", drifts, true, false},
    {"loudness", "e less beat", "%s", e_less_beat, true, false},
    {"loudness", "and less beat", "%s", and_less_beat, true, false},
    {"loudness", "a less beat", "%s", a_less_beat, true, false},
    {"loudness", "contour, lasting: sd of place means, whole takes", "%s", lasting, true, true},
    {"loudness", "velocity of %s with cymbal's", "%s", with_cymbal, true, false},
};
enum { ASKED = sizeof asked / sizeof *asked };

static const char* const limb_names[WINDOW_LIMBS] = {"kick", "snare", "cymbal"};

static bool find_band(const char* const table, const char* const statistic, const char* const of,
                      double band[3])
{
    char line[512], want[256];
    bool found = false;
    const int size = snprintf(want, sizeof want, "%s\t%s\t%s\t", table, statistic, of);
    FILE* const file = fopen(FOURLIMB_SOURCE "/tests/data/drummers.tsv", "r");
    while (file && !found && fgets(line, sizeof line, file)) {
        found = !strncmp(line, want, (size_t)size) &&
                sscanf(line + size, "%lf %lf %lf", &band[0], &band[1], &band[2]) == 3;
    }
    if (file) {
        fclose(file);
    }
    return found;
}

/* True if windows of this tempo belong to the row. */
static bool is_of_tempo(const char* const of, const double tempo)
{
    const char* const comma = strchr(of, ',');
    return !comma                           ? true
           : !strcmp(comma, ", under 90")   ? tempo < 90.0
           : !strcmp(comma, ", 90 to 110")  ? tempo >= 90.0 && tempo < 110.0
           : !strcmp(comma, ", 110 to 130") ? tempo >= 110.0 && tempo < 130.0
                                            : tempo >= 130.0;
}

static Performance performances[MODELS][WINDOWS_MOST];
static Performance whole[MODELS][TAKES];

static void play_all(void)
{
    for (int model = 0; model < MODELS; ++model) {
        for (int i = 0; i < WINDOWS_MOST; ++i) {
            const Feel feel = default_feel((uint32_t)(i % TAKES) + 1);
            const double tempo = 70.0 + 10.0 * (i / TAKES / 3);
            const int groove = tempo > sixteenths_most && i / TAKES % 3 == 1 ? 0 : i / TAKES % 3;
            play_feel((Model)model, &feel, &patterns[groove], 8, tempo, &performances[model][i]);
        }
        for (int i = 0; i < TAKES; ++i) {
            const Feel feel = default_feel((uint32_t)i + 1);
            play_feel((Model)model, &feel, &patterns[i % 3], WINDOW_BARS, 110.0, &whole[model][i]);
        }
    }
}

static double median_of_row(const Asked* const row, const Model model, const WindowLimb limb)
{
    static double values[WINDOWS_MOST];
    int count = 0;
    const Performance* const from = row->is_long ? whole[model] : performances[model];
    for (int i = 0; i < (row->is_long ? TAKES : WINDOWS_MOST); ++i) {
        if (is_of_tempo(row->of, from[i].tempo)) {
            const Window* const window = row->is_velocity ? &from[i].velocity : &from[i].ms;
            values[count++] = row->value(window, limb);
        }
    }
    return median_of(values, count);
}

/* Of one row and limb: the band, and each model's median. */
typedef struct {
    const Asked* row;
    const char* limb;
    double band[3];
    double got[MODELS];
} Line;

static Line lines[ROWS_MOST];
static int line_count;

/* The limb's name where the words have a "%s". */
static void put_limb(const char* const words, const char* const limb, char* const text,
                     const size_t size)
{
    const char* const hole = strstr(words, "%s");
    const int before = hole ? (int)(hole - words) : (int)strlen(words);
    snprintf(text, size, "%.*s%s%s", before, words, hole ? limb : "", hole ? hole + 2 : "");
}

static void measure_all(void)
{
    for (int i = 0; i < ASKED; ++i) {
        for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
            Line* const line = &lines[line_count];
            char statistic[128], of[64];
            put_limb(asked[i].statistic, limb_names[limb], statistic, sizeof statistic);
            put_limb(asked[i].of, limb_names[limb], of, sizeof of);
            if (!find_band(asked[i].table, statistic, of, line->band)) {
                continue;
            }
            line->row = &asked[i];
            line->limb = limb_names[limb];
            for (int model = 0; model < MODELS; ++model) {
                line->got[model] = median_of_row(&asked[i], (Model)model, (WindowLimb)limb);
            }
            line_count += !isnan(line->got[OURS]);
        }
    }
}

static bool holds(const Line* const line, const Model model)
{
    return line->got[model] >= line->band[0] && line->got[model] <= line->band[2];
}

static void every_row_of_the_tables_is_within_what_drummers_do(void)
{
    for (int i = 0; i < line_count; ++i) {
        const Line* const line = &lines[i];
        check_case("%s: %s, %s: %.3g to %.3g, ours %.3g", line->row->table, line->row->statistic,
                   line->limb, line->band[0], line->band[2], line->got[OURS]);
        CHECK(holds(line, OURS));
        if (getenv("FEEL")) {
            printf("# %-15s %-46s %-6s %7.3g %7.3g %7.3g  ours %7.3g first %7.3g%c white %7.3g%c\n",
                   line->row->table, line->row->statistic, line->limb, line->band[0], line->band[1],
                   line->band[2], line->got[OURS], line->got[FIRST], holds(line, FIRST) ? ' ' : '!',
                   line->got[WHITE], holds(line, WHITE) ? ' ' : '!');
        }
    }
    CHECK(line_count >= 120); /* rows that a typing error would lose */
}

static void fails(const Model model, const char* const statistic, const char* const limb)
{
    int found = 0;
    for (int i = 0; i < line_count; ++i) {
        const Line* const line = &lines[i];
        if (!strcmp(line->row->statistic, statistic) && !strcmp(line->limb, limb)) {
            check_case("%s, %s: %.3g to %.3g, got %.3g", statistic, limb, line->band[0],
                       line->band[2], line->got[model]);
            found += !holds(line, model);
        }
    }
    CHECK(found > 0);
}

static void white_noise_would_be_told(void)
{
    fails(WHITE, "lag-1 of offsets", "cymbal");
    fails(WHITE, "drift: sd of bar means", "cymbal");
    fails(WHITE, "correlation of offsets", "snare");
    fails(WHITE, "long-range exponent (DFA), whole takes", "cymbal");
}

static void the_first_model_would_be_told(void)
{
    fails(FIRST, "offset sd", "cymbal");
    fails(FIRST, "offset sd", "snare");
    fails(FIRST, "interval sd", "cymbal");
    fails(FIRST, "sd of difference one bar on", "cymbal");
    fails(FIRST, "habit: sd of place means", "snare");
}

/* Mean over takes of what a person measures: all strokes of eight bars against the click. */
static double measured_spread(const double looseness, const double tempo)
{
    static Performance one;
    double sum = 0.0;
    enum { MANY = 400 };
    for (int take = 1; take <= MANY; ++take) {
        Feel feel = default_feel((uint32_t)take);
        feel.looseness_ms = looseness;
        play_feel(OURS, &feel, &plain, 8, tempo, &one);
        double squares = 0.0;
        int count = 0;
        for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
            const Row row = window_row(&one.ms, (WindowLimb)limb);
            for (int i = 0; i < row.count; ++i) {
                squares += row.x[i] * row.x[i];
            }
            count += row.count;
        }
        sum += sqrt(squares / count) / MANY;
    }
    return sum;
}

static void looseness_is_the_standard_deviation_that_a_person_measures(void)
{
    static const double dials[] = {4.0, 8.0, 12.0, 18.0, 25.0};
    for (int i = 0; i < 5; ++i) {
        const double got = measured_spread(dials[i], 105.0);
        check_case("looseness %g: %.2f ms", dials[i], got);
        /* The loosest are held back by their neighbours. */
        CHECK_NEAR(got, dials[i], (dials[i] > 20.0 ? 0.1 : 0.05) * dials[i]);
    }
}

/* timing-by-tempo: the three limbs' medians under 90, and from 130 on. */
static void slow_playing_strays_further_than_fast_as_measured(void)
{
    CHECK_NEAR(measured_spread(18.0, 80.0), (21.0 + 25.6 + 19.7) / 3.0, 2.0);
    CHECK_NEAR(measured_spread(18.0, 140.0), (16.9 + 16.5 + 14.6) / 3.0, 1.0);
}

static double correlation_of_habits(const WindowLimb limb, const uint32_t a, const uint32_t b)
{
    static Performance one, other;
    const Feel feels[] = {default_feel(a), default_feel(b)};
    double mean[2][16], x[16], y[16];
    bool has[2][16];
    int n = 0;
    play_feel(OURS, &feels[0], &patterns[1], WINDOW_BARS, 110.0, &one);
    play_feel(OURS, &feels[1], &patterns[1], WINDOW_BARS, 110.0, &other);
    const Row rows[] = {window_row(&one.ms, limb), window_row(&other.ms, limb)};
    place_means(&rows[0], 8, mean[0], has[0]);
    place_means(&rows[1], 8, mean[1], has[1]);
    for (int p = 0; p < 16; ++p) {
        x[n] = mean[0][p];
        y[n] = mean[1][p];
        n += has[0][p] && has[1][p];
    }
    return correlation_of(x, y, n, 4);
}

static void habits_of_two_takes_differ_as_those_of_a_drummers_two_takes(void)
{
    for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
        double band[3], got[2 * TAKES];
        for (int i = 0; i < 2 * TAKES; ++i) {
            got[i] = correlation_of_habits((WindowLimb)limb, (uint32_t)(2 * i + 1),
                                           (uint32_t)(2 * i + 2));
        }
        const double median = median_of(got, 2 * TAKES);
        CHECK(
            find_band("habits", "timing habit, two takes of one drummer", limb_names[limb], band));
        check_case("%s: %.3g to %.3g, ours %.3g", limb_names[limb], band[0], band[2], median);
        CHECK(median >= band[0] && median <= band[2] && median < 0.6);
    }
}

int main(void)
{
    play_all();
    measure_all();
    RUN(every_row_of_the_tables_is_within_what_drummers_do);
    RUN(white_noise_would_be_told);
    RUN(the_first_model_would_be_told);
    RUN(looseness_is_the_standard_deviation_that_a_person_measures);
    RUN(slow_playing_strays_further_than_fast_as_measured);
    RUN(habits_of_two_takes_differ_as_those_of_a_drummers_two_takes);
    return tests_end();
}
