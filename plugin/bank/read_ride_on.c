// SPDX-License-Identifier: ISC
#include "entries.h"
#include "names.h"

RideOn read_ride_on(Subject* const subject)
{
    const char* names[RIDE_ON_COUNT - 1];
    for (int row = 1; row < RIDE_ON_COUNT; ++row) {
        names[row - 1] = voice_names[ride_on_voice((RideOn)row)];
    }
    const bool is_there = field_node(subject, "rideOn", false);
    const int found = is_there ? field_choice(subject, "rideOn", names, RIDE_ON_COUNT - 1) : -1;
    return (RideOn)(found + 1);
}
