// SPDX-License-Identifier: ISC
#include "lines.h"

int64_t line_next(const int64_t tick, const Meter meter, const int64_t apart)
{
    const int64_t bar_ticks = meter_bar_ticks(meter);
    const int64_t bar = floor_div(tick, bar_ticks) * bar_ticks;
    const int64_t line = bar + floor_div(tick - bar + apart - 1, apart) * apart;
    return line < bar + bar_ticks ? line : bar + bar_ticks;
}

int64_t line_of_change(const ChangeAt change_at, const Meter meter, const uint32_t phrase_bars,
                       const int64_t now)
{
    const int64_t bar = meter_bar_ticks(meter);
    const int64_t phrase = (int64_t)phrase_bars * bar;
    switch (change_at) {
    case CHANGE_NOW:
        return now;
    case CHANGE_AT_BEAT:
        return line_next(now, meter, meter_beat_ticks(meter));
    case CHANGE_AT_BAR:
        return line_next(now, meter, bar);
    case CHANGE_AT_PHRASE:
        return floor_div(now + phrase - 1, phrase) * phrase;
    }
    return now;
}
