// SPDX-License-Identifier: ISC
/* Loudness: the second half of feel.h.  Tables named in comments are those of
   tests/data/drummers.tsv and its source, as in feel.c; velocities at touch 50. */
#include "feel.h"

#include "noise.h"
#include "role.h"

#include <math.h>

/* loudness.tsv, "contour, lasting": 6.1 for kick; snare 25 and cymbals 17.5 hold the levels
   that are written, so "normal: sd" bounds what is left: 9.3, 13.1 and 14.1 with the
   jitter.  Limbs have part of it in common: "velocity of snare with cymbal's", 0.52. */
static const double contour[ROLE_COUNT] = {9.0, 8.0, 6.0};
static const double contours_differ = 0.3;
static const double contour_shared = 0.6;

/* loudness-by-place.tsv: beats of eighths lead "and" by 10 and more.  loudness.tsv, "and",
   "e" and "a less beat": -7, -12 and -13 for kick. */
static const double place_swell[ROLE_COUNT][ON_NONE + 1] = {
    {8.0, -2.0, 0.0, -2.0, 0.0},
    {3.0, -2.0, 0.0, -2.0, 0.0},
    {3.0, -8.0, -4.0, -8.0, 0.0},
};

/* loudness.tsv, "drift: sd of bar means": 5.7 for kick, 9.2 snare, 6.9 cymbals, and what
   chance adds to that. */
static const Drift breath = {.rows = 1, .longest = 4 * TICKS_PER_QUARTER, .growth = 1.0};
static const double bar_swell[ROLE_COUNT] = {6.5, 8.5, 4.0};

/* loudness.tsv, "sd within places" 7.6 for kick, 13.2 snare, 14.2 cymbals, with the bars';
   "lag-1 within places" is 0 to 0.1.  Hat and ride apart: tests/data/feel-bands.tsv. */
static const double jitters_differ = 0.25;
static const double kick_jitter = 7.5, snare_jitter = 15.0, ride_jitter = 14.0, jitter = 13.0;

/* loudness.tsv, "ghosts: sd" 8.6 to 9.7 against "normal: sd" 13.1 to 14.1. */
static const double ghost_share = 0.65;

static double jitter_of(const Stroke stroke)
{
    const bool is_ride = stroke.voice == VOICE_RIDE || stroke.voice == VOICE_RIDE_BELL;
    return limb_is_foot(stroke.limb)     ? kick_jitter
           : stroke.voice == VOICE_SNARE ? snare_jitter
           : is_ride                     ? ride_jitter
                                         : jitter;
}

/* Feet that go on and on, one after the other or one alone. */
static bool is_running(const Stroke stroke, const Surroundings* const around)
{
    return limb_is_foot(stroke.limb) && around->near < TICKS_PER_QUARTER / 2 &&
           around->limb_before == around->limb_after && around->limb_before <= 2 * around->near;
}

/* What each place of the bar has for the whole take; but running feet are practised to be
   even. */
static double contour_of(const Feel* const feel, const Stroke stroke, const Role role,
                         const Surroundings* const around, const double draw)
{
    const int64_t in_bar = around->in_bar;
    if (is_running(stroke, around)) {
        return 0.0;
    }
    const double depth = depth_of(draw, contours_differ);
    const double shared = noise_white(feel->take, TAKE_CONTOUR, in_bar);
    const double own = noise_white(feel->take, LIMB_CONTOUR + stroke.limb, in_bar);
    return place_swell[role][in_beat_of(in_bar)] +
           depth * contour[role] *
               (sqrt(contour_shared) * shared + sqrt(1.0 - contour_shared) * own);
}

/* What comes and goes: bars breathe for all limbs, and each stroke has its chance. */
static double chance_of(const Feel* const feel, const Stroke stroke, const Role role,
                        const int64_t tick, const double draw)
{
    const double depth = depth_of(draw, jitters_differ);
    return bar_swell[role] * noise_drift(&breath, feel->take, BAR_SWELL, tick) +
           depth * jitter_of(stroke) * noise_bell(feel->take, LIMB_TOUCH + stroke.limb, tick);
}

/* Common practice, no source: the second stroke of a double rebounds, and the left side is
   the weaker one.  Fast feet: loudness-by-gap.tsv, kick: -6.4 of its level at 90 to 120 ms,
   -3.5 at 120 to 150, 0 at 150 to 180; snare and cymbals not. */
static double limb_effort(const Stroke stroke, const Surroundings* const around, const double tempo)
{
    const double before_ms =
        (double)around->limb_before / (double)TICKS_PER_QUARTER * 60000.0 / tempo;
    const bool second = around->limb_before * 3 < around->limb_after * 2;
    const bool left = stroke.limb == LEFT_HAND || stroke.limb == LEFT_FOOT;
    const double slow = fmin(fmax((before_ms - 75.0) / (160.0 - 75.0), 0.0), 1.0);
    const double speed = limb_is_foot(stroke.limb) ? -10.0 * (1.0 - slow) : 0.0;
    return speed - (second ? 5.0 : 0.0) - (left ? 2.0 : 0.0);
}

static double swell_of(const Feel* const feel, const Stroke stroke,
                       const Surroundings* const around, const double tempo)
{
    const Role role = role_of(stroke);
    const TwoDraws limb = noise_two(feel->take, LIMB_LOUDNESS_DEPTH + stroke.limb);
    return contour_of(feel, stroke, role, around, limb.one) + limb_effort(stroke, around, tempo) +
           chance_of(feel, stroke, role, around->in_take, limb.other);
}

/* Velocities of the three levels before touch, at least 1 apart. */
typedef struct {
    double ghost;
    double normal;
    double accent;
} Levels;

static Levels levels_of(const Feel* const feel, const uint8_t limb)
{
    const double accent = limb_is_foot(limb) ? feel->accent_feet : feel->accent;
    const double normal = fmin(fmax(feel->level, 3.0), 125.0);
    return (Levels){
        .ghost = fmax(1.0, normal - 1.0 - feel->ghost * (normal - 2.0)),
        .normal = normal,
        .accent = fmin(127.0, normal + 1.0 + accent * (126.0 - normal)),
    };
}

/* Into [low, high], bending only near the ends. */
static double between(const double value, const double low, const double high)
{
    const double middle = (low + high) / 2.0;
    const double half = (high - low) / 2.0;
    const double out = (value - middle) / (half > 0.0 ? half : 1.0);
    const double square = out * out, fourth = square * square;
    return middle + half * out / sqrt(sqrt(1.0 + fourth));
}

uint8_t feel_velocity(const Feel* const feel, const Stroke stroke, const Surroundings* const around,
                      const double tempo)
{
    const Levels levels = levels_of(feel, stroke.limb);
    const double scale = feel->touch * 2.0;
    const double swell = scale > 0.0 ? scale * swell_of(feel, stroke, around, tempo) : 0.0;
    const double quiet = fmax(2.0, (levels.ghost + levels.normal) / 2.0);
    const bool even = !(scale > 0.0);
    const double normal = even ? levels.normal : between(levels.normal + swell, quiet, 126.0);
    double velocity = normal;
    if (stroke.level == LEVEL_GHOST) {
        velocity = fmin(normal - 1.0, fmin(levels.ghost + ghost_share * swell, quiet - 1.0));
    } else if (stroke.level >= LEVEL_ACCENT) {
        const double accent = even ? levels.accent : between(levels.accent + swell, quiet, 127.0);
        velocity = fmax(normal + 1.0, accent);
    }
    return (uint8_t)round(fmin(fmax(velocity, 1.0), 127.0));
}
