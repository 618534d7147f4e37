// SPDX-License-Identifier: ISC
/* performance.h - windows of the test's own grooves as the feel plays them at its defaults,
   and as the first model and white noise do. */
#pragma once

#include "../../plugin/engine/groove/controls.h"
#include "../../plugin/engine/play/articulation.h"
#include "first_model.h"
#include "windows.h"

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

static inline uint8_t level_of(const char step)
{
    return step == 'g' ? LEVEL_GHOST : step == 'o' ? LEVEL_NORMAL : LEVEL_ACCENT;
}

/* As the controls' defaults are. */
static inline Feel default_feel(const uint32_t take)
{
    return (Feel){.take = take,
                  .looseness_ms = (double)control_rows[CONTROL_LOOSENESS].normal,
                  .touch = (double)control_rows[CONTROL_TOUCH].normal / 100.0,
                  .accent = (double)control_rows[CONTROL_ACCENT].normal / 100.0,
                  .accent_feet = (double)control_rows[CONTROL_ACCENT_FEET].normal / 100.0,
                  .ghost = (double)control_rows[CONTROL_GHOST].normal / 100.0,
                  .level = (int)control_rows[CONTROL_LEVEL].normal};
}

static inline StrokeList strokes_from(const Pattern* const pattern, const int from, const int to)
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
static inline double gap_of(const Pattern* const pattern, const WindowLimb limb, const int slot,
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

static inline void play_other(const Model model, const uint32_t take, const Stroke stroke,
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

static inline void play_slot(const Model model, const Score* const score,
                             const Pattern* const pattern, const int slot, Performance* const to)
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

static inline void less_the_mean(Window* const window)
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

static inline void play_feel(const Model model, const Feel* const feel,
                             const Pattern* const pattern, const int bars, const double tempo,
                             Performance* const to)
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
