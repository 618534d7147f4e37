// SPDX-License-Identifier: ISC
#include "play_limits.h"

#include <math.h>

/* One hand, 100 ms: Fujii, Kudo, Ohtsuki, Oda 2009, Neuroscience Letters 459(2), 69-73
   (abstract).  Two hands, 1208 single strokes in 60 s: speed-drumming competition record,
   2013 (press).  Two feet, 1034, 4595 and 13309 single strokes in 1, 5 and 15 minutes, by
   one person: the same kind of competition, 30 January 2007 (press, read in a secondary
   page); half of it for each foot.  Two feet, 1407 double strokes in 60 s: 2002 (press). */
PlayLimits play_limits_default(void)
{
    const double feet = 1034.0 / 60.0;
    const double double_ms = 60000.0 / 1407.0;
    const double five = 4595.0 / 5.0 / 1034.0;
    const double second = pow(five, log(1.0 / 60.0) / log(5.0));
    return (PlayLimits){
        .rate = {10.0, 10.0, feet / 2.0, feet / 2.0, 1208.0 / 60.0, feet},
        .shares = {{1.0, 1.0}, {5.0, five}, {15.0, 13309.0 / 15.0 / 1034.0}},
        .run_gap_ms = {250.0, 250.0, 250.0, 250.0, 125.0, 125.0},
        .closest_ms = {40.0, 40.0, double_ms, double_ms},
        .burst_share = {1.0, 1.0, second, second},
        .burst = {3, 3, 2, 2},
        .move_ms = 20.0,
        .grip_ms = 100.0,
        .move_speed = 10.0,
        .places =
            {
                [VOICE_KICK] = {25.0, 40.0},
                [VOICE_KICK_LEFT] = {25.0, 40.0},
                [VOICE_HAT_CLOSED] = {-40.0, 15.0},
                [VOICE_HAT_HALF_OPEN] = {-40.0, 15.0},
                [VOICE_HAT_OPEN] = {-40.0, 15.0},
                [VOICE_HAT_PEDAL] = {-40.0, 15.0},
                [VOICE_RIDE] = {65.0, 40.0},
                [VOICE_RIDE_BELL] = {70.0, 45.0},
                [VOICE_CRASH] = {-35.0, 60.0},
                [VOICE_CRASH_2] = {75.0, 65.0},
                [VOICE_CHINA] = {95.0, 50.0},
                [VOICE_SPLASH] = {15.0, 65.0},
                [VOICE_TOM_HIGH] = {0.0, 40.0},
                [VOICE_TOM_MID] = {35.0, 40.0},
                [VOICE_TOM_LOW] = {55.0, 20.0},
                [VOICE_TOM_FLOOR] = {65.0, -10.0},
                [VOICE_COWBELL] = {15.0, 50.0},
                [VOICE_CHOKE] = {-35.0, 60.0}, /* the crash */
            },
    };
}

double play_limits_share(const PlayLimits* const limits, const double minutes)
{
    const PlayShare* const shares = limits->shares;
    if (!(minutes > shares[0].minutes)) {
        return shares[0].share;
    }
    int after = 1;
    while (after < PLAY_SHARES - 1 && minutes > shares[after].minutes) {
        ++after;
    }
    const PlayShare a = shares[after - 1];
    const PlayShare b = shares[after];
    const double fall = log(b.share / a.share) / log(b.minutes / a.minutes);
    return a.share * pow(minutes / a.minutes, fall);
}

double play_limits_move_ms(const PlayLimits* const limits, const uint8_t from, const uint8_t to)
{
    const PlayPlace a = limits->places[from];
    const PlayPlace b = limits->places[to];
    const double right = b.right - a.right;
    const double away = b.away - a.away;
    const double distance = sqrt(right * right + away * away);
    const bool grips = to == VOICE_CHOKE;
    if (from == to || (!(distance > 0.0) && !grips)) {
        return 0.0;
    }
    if (grips) { /* what it has just struck */
        return limits->grip_ms;
    }
    const double grip = from == VOICE_CHOKE ? limits->grip_ms : 0.0;
    return grip + limits->move_ms + distance / 100.0 / limits->move_speed * 1000.0;
}
