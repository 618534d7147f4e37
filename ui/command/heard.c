// SPDX-License-Identifier: ISC
#include "heard.h"

#include <math.h>

static void add_counts(Heard* const heard, const Told* const told)
{
    heard->all.shift_ms = told->shift_ms;
    heard->all.strays += told->strays;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        const ToldLimb* const from = &told->limbs[limb];
        ToldLimb* const to = &heard->all.limbs[limb];
        HeardSums* const sums = &heard->sums[limb];
        to->written += from->written;
        to->struck += from->struck;
        to->missed += from->missed;
        to->extra += from->extra;
        sums->level += from->level * from->struck;
        if (from->struck > 1) {
            sums->level_strays += from->level_sd * from->level_sd * (from->struck - 1);
            sums->level_free += from->struck - 1;
        }
    }
}

static void add_pair(HeardSums* const sums, const double t, const double d)
{
    sums->first = sums->tt > 0.0 ? sums->first : t;
    sums->last = t;
    sums->t += t;
    sums->tt += t * t;
    sums->d += d;
    sums->dd += d * d;
    sums->td += t * d;
}

void heard_add(Heard* const heard, const Told* const told, const bool is_clean,
               const ToldWritten* const written, const uint32_t count,
               const ToldPlayed* const played, const int32_t* const pairs)
{
    heard->first_ms = !heard->phrases && count ? written[0].ms : heard->first_ms;
    ++heard->phrases;
    heard->clean += is_clean;
    add_counts(heard, told);
    for (uint32_t i = 0; i < count; ++i) {
        if (pairs[i] != PAIRING_NONE) {
            add_pair(&heard->sums[written[i].stroke.limb], written[i].ms - heard->first_ms,
                     played[pairs[i]].ms - written[i].ms);
        }
    }
}

static void tell(ToldLimb* const limb, const HeardSums* const sums)
{
    const double n = limb->struck;
    if (limb->struck) {
        const double tt = sums->tt - sums->t * sums->t / n;
        limb->mean_ms = sums->d / n;
        limb->drift_ms =
            tt > 0.0 ? (sums->td - sums->t * sums->d / n) / tt * (sums->last - sums->first) : 0.0;
        limb->level = sums->level / n;
        limb->level_sd = sums->level_free ? sqrt(sums->level_strays / sums->level_free) : 0.0;
    }
    if (limb->struck > 1) {
        limb->sd_ms = sqrt(fmax(sums->dd - sums->d * sums->d / n, 0.0) / (n - 1.0));
    }
}

Told heard_tell(const Heard* const heard)
{
    Told told = heard->all;
    double d = 0.0;
    uint32_t struck = 0;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        tell(&told.limbs[limb], &heard->sums[limb]);
        d += heard->sums[limb].d;
        struck += told.limbs[limb].struck;
    }
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        ToldLimb* const own = &told.limbs[limb];
        const uint32_t others = struck - own->struck;
        own->apart_ms =
            own->struck && others ? own->mean_ms - (d - heard->sums[limb].d) / others : 0.0;
    }
    return told;
}
