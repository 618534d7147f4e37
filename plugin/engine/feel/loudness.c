// SPDX-License-Identifier: ISC
/* Loudness: the second half of feel.h.  Tables named in comments are those of
   tests/data/drummers.tsv and its source, as in feel.c; velocities at touch 50. */
#include "feel.h"

#include "noise.h"
#include "role.h"

#include <math.h>

/* loudness.tsv, "contour, lasting": 6.1 for kick; snare 25 and cymbals 17.5 hold the levels
   that are written, so "normal: sd" bounds what is left: 9.3, 13.1 and 14.1 with the
   jitter.  Half of it comes again two beats on, which the hands have in common ("velocity of
   snare with cymbal's", 0.52) and the feet have not ("velocity of kick with cymbal's", 0.28);
   how much: covariance of what the levels leave, computed from the same strokes. */
static const double contour[ROLE_COUNT] = {10.0, 9.0, 7.0, 7.0};
static const double contours_differ = 0.3;
static const double contour_paired = 0.5;

/* loudness-by-place.tsv: beats of eighths lead "and" by 10 and more, those of sixteenths "e"
   and "a" by 25 and more, levels included.  loudness.tsv, "and", "e" and "a less beat": -7,
   -12 and -13 for kick. */
static const double place_swell[ROLE_COUNT][ON_NONE + 1] = {
    {9.0, -7.0, -4.0, -7.0, 0.0},
    {3.0, -2.0, 0.0, -2.0, 0.0},
    {4.0, -8.0, -5.0, -9.0, 0.0},
    {4.0, -8.0, -5.0, -9.0, 0.0},
};

/* loudness.tsv, "drift: sd of bar means": 5.7 for kick, 9.2 snare, 6.9 cymbals, and what
   chance adds to that; but "lag-1 within places" is 0.1 for kick, 0 for the hands. */
static const Drift breath = {.rows = 1, .longest = 4 * TICKS_PER_QUARTER, .growth = 1.0};
static const double bar_swell[ROLE_COUNT] = {3.5, 5.5, 3.5, 3.5};

/* loudness.tsv, "sd within places" 7.6 for kick, 13.2 snare, 14.2 cymbals, 10 to 90 % from 4,
   7 and 9 to 15, 22 and 22; "lag-1 within places" is 0 to 0.1.  Hat and ride apart:
   tests/data/feel-bands.tsv. */
static const double jitters_differ = 0.35;
static const double kick_jitter = 8.0, snare_jitter = 15.5, ride_jitter = 14.5, jitter = 13.5;

/* loudness.tsv, "ghosts: sd" 8.6 to 9.7 against "normal: sd" 13.1 to 14.1. */
static const double ghost_share = 0.65;

static double lesser(const double a, const double b)
{
    return a < b ? a : b;
}

static double greater(const double a, const double b)
{
    return a > b ? a : b;
}

static double jitter_of(const Stroke stroke)
{
    const bool is_ride = stroke.voice == VOICE_RIDE || stroke.voice == VOICE_RIDE_BELL;
    return stroke.limb >= RIGHT_FOOT     ? kick_jitter
           : stroke.voice == VOICE_SNARE ? snare_jitter
           : is_ride                     ? ride_jitter
                                         : jitter;
}

/* What each place of the bar has for the whole take; but running feet are practised to be
   even. */
static double contour_of(const Feel* const feel, const Stroke stroke, const Role role,
                         const Surroundings* const around, const double draw)
{
    const int64_t in_bar = around->in_bar;
    if (role_runs(stroke, around)) {
        return 0.0;
    }
    const double depth = depth_of(draw, contours_differ);
    const uint32_t source = role >= ROLE_KICK ? LIMB_CONTOUR_PAIR + stroke.limb : TAKE_CONTOUR;
    const double pair = noise_white(feel->take, source, in_bar % (2 * TICKS_PER_QUARTER));
    const double own = noise_white(feel->take, LIMB_CONTOUR + stroke.limb, in_bar);
    return place_swell[role][in_beat_of(in_bar)] +
           depth * contour[role] * (sqrt(contour_paired) * pair + sqrt(1.0 - contour_paired) * own);
}

/* What comes and goes: bars breathe for all limbs, and each stroke has its chance. */
static double chance_of(const Feel* const feel, const Stroke stroke, const Role role,
                        const int64_t tick, const double draw)
{
    const double depth = depth_of(draw, jitters_differ);
    return bar_swell[role] * noise_drift(breath, feel->take, BAR_SWELL, tick) +
           depth * jitter_of(stroke) * noise_bell(feel->take, LIMB_TOUCH + stroke.limb, tick);
}

/* Common practice, no source: the second stroke of a hand's double rebounds, and the left
   side is the weaker one.  Fast feet: loudness-by-gap.tsv, kick: -6.4 of its level at 90 to
   120 ms, -3.5 at 120 to 150, 0 at 150 to 180; snare and cymbals not.  No rebound of feet:
   loudness.tsv, "after a sixteenth less after more", 4.1 for kick. */
static double limb_effort(const Stroke stroke, const Surroundings* const around, const double tempo)
{
    const double before_ms =
        (double)around->limb_before / (double)TICKS_PER_QUARTER * 60000.0 / tempo;
    const bool second =
        stroke.limb < RIGHT_FOOT && around->limb_before * 3 < around->limb_after * 2;
    const bool left = stroke.limb == LEFT_HAND || stroke.limb == LEFT_FOOT;
    const double slow = lesser(greater((before_ms - 75.0) / (160.0 - 75.0), 0.0), 1.0);
    const double speed = stroke.limb >= RIGHT_FOOT ? -10.0 * (1.0 - slow) : 0.0;
    return speed - (second ? 5.0 : 0.0) - (left ? 2.0 : 0.0);
}

static double swell_of(const Feel* const feel, const Stroke stroke,
                       const Surroundings* const around, const double tempo)
{
    const Role role = role_of(stroke);
    const Draws limb = noise_draws(feel->take, LIMB_LOUDNESS_DEPTH + stroke.limb, 0);
    return contour_of(feel, stroke, role, around, limb.of[0]) + limb_effort(stroke, around, tempo) +
           chance_of(feel, stroke, role, around->in_take, limb.of[1]);
}

/* Velocities of the three levels before touch, at least 1 apart. */
typedef struct {
    double ghost;
    double normal;
    double accent;
} Levels;

static Levels levels_of(const Feel* const feel, const uint8_t limb)
{
    const double accent = limb >= RIGHT_FOOT ? feel->accent_feet : feel->accent;
    const double normal = lesser(greater(feel->level, 3.0), 125.0);
    return (Levels){
        .ghost = greater(1.0, normal - 1.0 - feel->ghost * (normal - 2.0)),
        .normal = normal,
        .accent = lesser(127.0, normal + 1.0 + accent * (126.0 - normal)),
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
    const double quiet = greater(2.0, (levels.ghost + levels.normal) / 2.0);
    const bool even = !(scale > 0.0);
    const double normal = even ? levels.normal : between(levels.normal + swell, quiet, 126.0);
    double velocity = normal;
    if (stroke.level == LEVEL_GHOST) {
        velocity = lesser(normal - 1.0, lesser(levels.ghost + ghost_share * swell, quiet - 1.0));
    } else if (stroke.level >= LEVEL_ACCENT) {
        const double accent = even ? levels.accent : between(levels.accent + swell, quiet, 127.0);
        velocity = greater(normal + 1.0, accent);
    }
    return (uint8_t)(lesser(greater(velocity, 1.0), 127.0) + 0.5);
}
