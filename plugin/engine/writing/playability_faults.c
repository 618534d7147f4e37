// SPDX-License-Identifier: ISC
/* What was found, held against the limits: the second half of playability.h. */
#include "playability.h"

#include <math.h>

static const double slack = 1e-9; /* what computing in doubles may be off, of 1 */

static PlayBand band_from(const PlayDemand* const found, const uint32_t rate)
{
    PlayBand all = {0};
    for (uint32_t i = rate; i < PLAY_BANDS; ++i) {
        all.gaps += found->bands[i].gaps;
        all.ticks += found->bands[i].ticks;
    }
    return all;
}

double playability_minutes_at(const Playability* const playability, const PlayStream stream,
                              const uint32_t rate)
{
    const PlayBand all = band_from(&playability->found[stream], rate);
    return (double)all.ticks / (double)TICKS_PER_QUARTER / playability->tempo;
}

double playability_kept_at(const Playability* const playability, const PlayStream stream,
                           const uint32_t rate)
{
    const PlayBand all = band_from(&playability->found[stream], rate);
    const double seconds = 60.0 * playability_minutes_at(playability, stream, rate);
    const double mean = all.gaps ? all.gaps / seconds : 0.0;
    return mean < rate ? mean : rate;
}

/* How much of what can be kept up so long is asked for. */
static double hardness(const Playability* const playability, const PlayStream stream,
                       const uint32_t rate)
{
    const double minutes = playability_minutes_at(playability, stream, rate);
    const double most = playability->limits.rate[stream];
    return playability_kept_at(playability, stream, rate) /
           (most * play_limits_share(&playability->limits, minutes));
}

static bool lasts(const Playability* const playability, const PlayStream stream,
                  const uint32_t rate)
{
    return playability_minutes_at(playability, stream, rate) >= 1.0 - slack;
}

uint32_t playability_hardest(const Playability* const playability, const PlayStream stream)
{
    const bool any = lasts(playability, stream, 1);
    uint32_t hardest = 1;
    for (uint32_t rate = 2; rate < PLAY_BANDS; ++rate) {
        if ((!any || lasts(playability, stream, rate)) &&
            hardness(playability, stream, rate) > hardness(playability, stream, hardest)) {
            hardest = rate;
        }
    }
    return hardest;
}

static bool too_long(const Playability* const playability, const PlayStream stream)
{
    const uint32_t rate = playability_hardest(playability, stream);
    return lasts(playability, stream, rate) && hardness(playability, stream, rate) > 1.0 + slack;
}

/* Even strokes at a rate have the next whole number above it in some second. */
static bool too_fast(const Playability* const playability, const PlayStream stream)
{
    const double most = playability->limits.rate[stream];
    return playability->found[stream].rate > ceil(most * (1.0 - slack));
}

static bool too_close(const Playability* const playability, const PlayStream limb)
{
    const PlayDemand* const found = &playability->found[limb];
    const double least_ms = playability->limits.closest_ms[limb];
    const bool two = found->strokes > 1 && found->closest_ms < least_ms * (1.0 - slack);
    return two || found->burst > playability->limits.burst[limb];
}

uint32_t playability_faults(const Playability* const playability, const PlayStream stream)
{
    const PlayDemand* const found = &playability->found[stream];
    const bool is_limb = (int)stream < LIMB_COUNT;
    return (too_fast(playability, stream) ? PLAY_TOO_FAST : 0U) |
           (too_long(playability, stream) ? PLAY_TOO_LONG : 0U) |
           (is_limb && too_close(playability, stream) ? PLAY_TOO_CLOSE : 0U) |
           (found->moves ? PLAY_TOO_FAR : 0U) | (found->torn ? PLAY_TORN : 0U);
}
