// SPDX-License-Identifier: ISC
#include "feel.h"

#include "noise.h"

#include <math.h>

/* Sources of chance, apart from each other. */
enum { SHARED_DRIFT = 0, LIMB_DRIFT = 16, STROKE_TIME = 96, STROKE_TOUCH = 104, LIMB_TOUCH = 112 };

/* Shares of the variance: a drift common to all limbs, one of each limb, and
   what is new in each stroke.  By them the series of one limb at quarters and
   eighths, and the difference between two limbs, have the standard deviations,
   correlations and DFA exponents measured in the Groove MIDI Dataset (Gillick,
   Roberts, Engel, Eck, Bamman, ICML 2019, CC BY 4.0); tests/feel has the bands. */
static const double shared_share = 0.42;
static const double limb_share = 0.42;
static const double stroke_share = 0.16;

/* Below 240 ms between strokes, irregularity is heard from a fixed 6 ms on, not
   in proportion (Friberg & Sundberg 1995, JASA 98(5), 2524-2531): there, what
   makes a stream uneven shrinks with the gap. */
static const double even_below_ms = 240.0;

static double ticks_to_ms(const double ticks, const double tempo)
{
    return ticks / (double)TICKS_PER_QUARTER * 60000.0 / tempo;
}

static double evenness(const double gap_ms)
{
    const double ratio = even_below_ms / gap_ms;
    return 1.0 / sqrt(1.0 + ratio * ratio * ratio * 0.5);
}

static double ms_to_ticks(const double ms, const double tempo)
{
    return ms / 60000.0 * tempo * (double)TICKS_PER_QUARTER;
}

typedef enum { PUSH_FEET, PUSH_SNARE, PUSH_HANDS } Push;

static Push push_of(const Stroke stroke)
{
    return limb_is_foot(stroke.limb)     ? PUSH_FEET
           : stroke.voice == VOICE_SNARE ? PUSH_SNARE
                                         : PUSH_HANDS;
}

bool feel_pushes_alike(const Stroke a, const Stroke b)
{
    return push_of(a) == push_of(b);
}

static double push_ms(const Feel* const feel, const Stroke stroke, const int64_t turn,
                      const double tempo)
{
    switch (push_of(stroke)) {
    case PUSH_FEET:
        return feel->push_feet_ms;
    case PUSH_HANDS:
        return feel->push_hands_ms;
    case PUSH_SNARE:
        break;
    }
    const double most = ticks_to_ms((double)turn, tempo) / 4.0;
    const double apart = feel->push_snare_ms - feel->push_hands_ms;
    return feel->push_hands_ms + fmin(fmax(apart, -most), most);
}

/* Towards +-most without ever getting there, and as it is near 0. */
static double soften(const double value, const double most)
{
    return most * tanh(value / most);
}

int64_t feel_offset(const Feel* const feel, const Stroke stroke, const Surroundings* const around,
                    const double tempo)
{
    const double gap_ms = ticks_to_ms((double)around->near, tempo);
    const uint32_t limb = stroke.limb;
    const double push = push_ms(feel, stroke, around->turn, tempo);
    double chance_ms = 0.0;
    if (feel->looseness_ms > 0.0) {
        const double shared = noise_pink(feel->take, SHARED_DRIFT, stroke.tick);
        const double own = noise_pink(feel->take, LIMB_DRIFT + 16 * limb, stroke.tick);
        const double now = noise_white(feel->take, STROKE_TIME + limb, stroke.tick);
        const double local = sqrt(limb_share) * own + sqrt(stroke_share) * now;
        const double strays = sqrt(shared_share) * shared + evenness(gap_ms) * local;
        chance_ms = soften(feel->looseness_ms * strays, gap_ms / 4.0);
    }
    return whole_number(round(ms_to_ticks(push + chance_ms, tempo)));
}

int64_t feel_reach(const Feel* const feel, const double tempo)
{
    const double snare = fmin(feel->push_snare_ms, feel->push_hands_ms);
    const double earliest = fmin(fmin(snare, feel->push_feet_ms), 0.0);
    const int64_t chance = TICKS_PER_QUARTER / 4, grace = TICKS_PER_QUARTER / 4;
    return chance + grace + whole_number(ceil(ms_to_ticks(-earliest, tempo)));
}

/* Standard deviation of velocity once the metrical pattern is taken out, as
   measured in the same data set: kick 11.6, closed hat 15.2, ride 16.5, snare
   19.1.  Others: our choice between them. */
static double touch_spread(const Voice voice)
{
    switch (voice) {
    case VOICE_KICK:
    case VOICE_KICK_LEFT:
        return 11.6;
    case VOICE_SNARE:
        return 19.1;
    case VOICE_HAT_CLOSED:
    case VOICE_HAT_HALF_OPEN:
    case VOICE_HAT_OPEN:
        return 15.2;
    case VOICE_RIDE:
    case VOICE_RIDE_BELL:
        return 16.5;
    case VOICE_SIDE_STICK:
    case VOICE_HAT_PEDAL:
    case VOICE_CRASH:
    case VOICE_CRASH_2:
    case VOICE_CHINA:
    case VOICE_SPLASH:
    case VOICE_TOM_HIGH:
    case VOICE_TOM_MID:
    case VOICE_TOM_LOW:
    case VOICE_TOM_FLOOR:
    case VOICE_COWBELL:
    case VOICE_CHOKE:
    case VOICE_CLICK:
    case VOICE_CLICK_ACCENT:
    case VOICE_COUNT:
        break;
    }
    return 14.0;
}

/* Our choice, no source: beats lead, notes between eighths step back; but running feet are
   practised to be even. */
static double metric_accent(const Stroke stroke, const Surroundings* const around)
{
    const int64_t in_bar = around->in_bar;
    if (limb_is_foot(stroke.limb) && around->near < TICKS_PER_QUARTER / 2) {
        return 0.0;
    }
    if (in_bar == 0) {
        return 4.0;
    }
    if (in_bar % TICKS_PER_QUARTER == 0) {
        return 1.0;
    }
    return in_bar % (TICKS_PER_QUARTER / 2) == 0 ? -3.0 : -4.0;
}

/* Common practice, no source: the second stroke of a double rebounds, fast
   strokes of one limb are softer, and the left side is the weaker one. */
static double limb_effort(const Stroke stroke, const Surroundings* const around, const double tempo)
{
    const double before_ms = ticks_to_ms((double)around->limb_before, tempo);
    const bool second = around->limb_before * 3 < around->limb_after * 2;
    const double speed = -10.0 * (1.0 - evenness(before_ms));
    const bool left = stroke.limb == LEFT_HAND || stroke.limb == LEFT_FOOT;
    return speed - (second ? 5.0 : 0.0) - (left ? 2.0 : 0.0);
}

/* Loudness was seen to breathe over two bars (Rasanen et al. 2015, PLoS ONE
   10(6) e0127902); its depth is our choice. */
static double breathing(const Surroundings* const around)
{
    const double turn = (double)around->bars_apart / (double)around->two_bars;
    return 2.0 * sin(2.0 * 3.141592653589793 * turn);
}

/* Nearly white, unlike timing: lag-1 correlations of 0.10 to 0.15 were measured. */
static double chance(const Feel* const feel, const Stroke stroke)
{
    const uint32_t limb = stroke.limb;
    const double now = noise_white(feel->take, STROKE_TOUCH + limb, stroke.tick);
    const double slow = noise_pink(feel->take, LIMB_TOUCH + 16 * limb, stroke.tick);
    return sqrt(0.85) * now + sqrt(0.15) * slow;
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
    return middle + half * tanh(out * out * out * 0.35 + out * 0.9);
}

uint8_t feel_velocity(const Feel* const feel, const Stroke stroke, const Surroundings* const around,
                      const double tempo)
{
    const Levels levels = levels_of(feel, stroke.limb);
    const double scale = feel->touch * 2.0;
    const double swell = scale * (metric_accent(stroke, around) + breathing(around) +
                                  limb_effort(stroke, around, tempo) +
                                  touch_spread((Voice)stroke.voice) * chance(feel, stroke));
    const double quiet = fmax(2.0, (levels.ghost + levels.normal) / 2.0);
    const bool even = !(scale > 0.0);
    const double normal = even ? levels.normal : between(levels.normal + swell, quiet, 126.0);
    double velocity = normal;
    if (stroke.level == LEVEL_GHOST) {
        velocity = fmin(normal - 1.0, fmin(levels.ghost + 0.35 * swell, quiet - 1.0));
    } else if (stroke.level >= LEVEL_ACCENT) {
        const double accent = even ? levels.accent : between(levels.accent + swell, quiet, 127.0);
        velocity = fmax(normal + 1.0, accent);
    }
    return (uint8_t)lround(fmin(fmax(velocity, 1.0), 127.0));
}
