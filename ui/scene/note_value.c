// SPDX-License-Identifier: ISC
#include "note_value.h"

NoteValue note_value_of(const Meter meter, const bool has_groups)
{
    if (meter_is_compound(meter) && !has_groups) {
        const int unit = meter.beat_unit / 2;
        return (NoteValue){unit, true, 6.0 / unit};
    }
    const int unit = meter.beat_unit == 1 || meter.beat_unit == 2 ? meter.beat_unit : 4;
    return (NoteValue){unit, false, 4.0 / unit};
}
