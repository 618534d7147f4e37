// SPDX-License-Identifier: ISC
#include "follow.h"

#include <math.h>

void follow_restart(Follow* const follow)
{
    *follow = (Follow){0};
}

/* Keeps reports a thirty-second of a beat apart, so that the list spans about
   half a beat whatever the block size. */
static void remember(Follow* const follow, const Difference* const difference)
{
    const uint32_t newest = (follow->next + FOLLOW_REPORTS - 1) % FOLLOW_REPORTS;
    const double apart = difference->beat / 32.0 / difference->rate;
    if (follow->count && (double)(difference->frame - follow->frames[newest]) < apart) {
        return;
    }
    follow->frames[follow->next] = difference->frame;
    follow->ticks[follow->next] = difference->reported;
    follow->next = (follow->next + 1) % FOLLOW_REPORTS;
    if (follow->count < FOLLOW_REPORTS) {
        ++follow->count;
    }
}

static double slope(const Follow* const follow, const uint32_t from, const uint32_t to)
{
    const uint32_t oldest = follow->next + FOLLOW_REPORTS - follow->count;
    const uint32_t a = (oldest + from) % FOLLOW_REPORTS;
    const uint32_t b = (oldest + to) % FOLLOW_REPORTS;
    return (follow->ticks[b] - follow->ticks[a]) / (double)(follow->frames[b] - follow->frames[a]);
}

/* The host's own rate now: the slopes of the older and the newer half of the
   reports held, carried on, or a ramp would leave us behind. */
static double measured_rate(const Follow* const follow, const Difference* const difference)
{
    const uint32_t last = follow->count - 1, middle = last / 2;
    double rate = difference->nominal;
    if (middle > 0) {
        const double older = slope(follow, 0, middle);
        const double newer = slope(follow, middle, last);
        rate = newer + (newer - older) / 2.0;
    } else if (last > 0) {
        rate = slope(follow, 0, last);
    }
    return fmin(fmax(rate, difference->nominal / 4.0), difference->nominal * 4.0);
}

/* True if the host has moved on from what it told last as its tempo says. */
static bool moves_evenly(const Follow* const follow, const Difference* const difference)
{
    const double frames = (double)(difference->frame - follow->last_frame);
    const double moved = difference->reported - follow->last_tick;
    return follow->heard && frames > 0.0 &&
           fabs(moved - frames * difference->nominal) < difference->tolerance;
}

/* Far away is believed only if the host moves on from there as it should. */
static FollowAdvice far_away(Follow* const follow, const Difference* const difference)
{
    const bool agrees =
        follow->insists_since >= 0 && follow->off_sign == 2 && moves_evenly(follow, difference);
    if (!agrees) {
        follow->insists_since = difference->frame;
    }
    follow->off_sign = 2;
    const double insisted = (double)(difference->frame - follow->insists_since);
    return insisted * difference->nominal > difference->beat / 4.0 ? FOLLOW_LEAP : FOLLOW_KEEP;
}

static FollowAdvice steer(Follow* const follow, const Difference* const difference,
                          const double off, double* const rate)
{
    const double measured = measured_rate(follow, difference);
    const bool steady = fabs(measured / difference->nominal - 1.0) < 0.002;
    if (steady && fabs(off) < difference->tolerance / 2.0) {
        follow->steering = false;
        follow->off_sign = 0;
        return FOLLOW_RELEASE;
    }
    /* Within half a beat, but not before the next report, or it would overshoot. */
    const double half_beat = difference->beat / 2.0 / difference->rate;
    const double apart = (double)(difference->frame - follow->last_frame);
    const double wanted = measured + off / fmax(half_beat, apart);
    *rate = fmin(fmax(wanted, measured / 2.0), measured * 2.0);
    return FOLLOW_STEER;
}

static FollowAdvice advise(Follow* const follow, const Difference* const difference,
                           double* const rate)
{
    const double off = difference->reported - difference->own;
    if (fabs(off) > difference->beat / 2.0) {
        return far_away(follow, difference);
    }
    if (difference->exact && fabs(off) > difference->tolerance &&
        moves_evenly(follow, difference)) {
        return FOLLOW_STEP;
    }
    if (follow->steering) {
        return steer(follow, difference, off, rate);
    }
    const int sign = fabs(off) <= difference->tolerance ? 0 : off > 0.0 ? 1 : -1;
    const bool lasts = sign != 0 && sign == follow->off_sign;
    follow->off_sign = sign;
    follow->steering = lasts;
    return lasts ? steer(follow, difference, off, rate) : FOLLOW_KEEP;
}

FollowAdvice follow_report(Follow* const follow, const Difference* const difference,
                           double* const rate)
{
    remember(follow, difference);
    const FollowAdvice advice = advise(follow, difference, rate);
    follow->heard = true;
    follow->last_frame = difference->frame;
    follow->last_tick = difference->reported;
    return advice;
}
