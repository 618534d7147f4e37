// SPDX-License-Identifier: ISC
#include "model.h"

#include <stdint.h>
#include <stdlib.h>

/* Nodes are interned, so that their addresses tell them apart.  The multiplier is
   2^64 over the golden ratio (Knuth, The Art of Computer Programming 3, 6.4). */
static size_t hash(const SordNode* const subject)
{
    return (size_t)(((uint64_t)(uintptr_t)subject * UINT64_C(0x9E3779B97F4A7C15)) >> 32);
}

/* The subject's home, or the free one where it would be. */
static Home* home_of(Home* const homes, const size_t room, const SordNode* const subject)
{
    size_t at = hash(subject) & (room - 1);
    while (homes[at].subject && homes[at].subject != subject) {
        at = (at + 1) & (room - 1);
    }
    return &homes[at];
}

/* At most half of the homes are taken. */
static bool make_room_for_home(Turtle* const turtle)
{
    if (2 * turtle->home_count < turtle->home_room) {
        return true;
    }
    const size_t room = turtle->home_room ? 2 * turtle->home_room : 1024;
    Home* const homes = calloc(room, sizeof(Home));
    if (!homes) {
        return false;
    }
    for (size_t i = 0; i < turtle->home_room; ++i) {
        if (turtle->homes[i].subject) {
            *home_of(homes, room, turtle->homes[i].subject) = turtle->homes[i];
        }
    }
    free(turtle->homes);
    turtle->homes = homes;
    turtle->home_room = room;
    return true;
}

static bool make_room_for_location(Turtle* const turtle)
{
    if (turtle->location_count < turtle->location_room) {
        return true;
    }
    const size_t room = turtle->location_room ? 2 * turtle->location_room : 1024;
    Location* const locations = realloc(turtle->locations, room * sizeof(Location));
    if (!locations) {
        return false;
    }
    turtle->locations = locations;
    turtle->location_room = room;
    return true;
}

bool location_add(Turtle* const turtle, const Location location)
{
    if (!make_room_for_location(turtle) || !make_room_for_home(turtle)) {
        return false;
    }
    const size_t index = turtle->location_count++;
    Home* const home = home_of(turtle->homes, turtle->home_room, location.subject);
    turtle->locations[index] = location;
    turtle->locations[index].next = 0;
    if (home->subject) {
        turtle->locations[home->last].next = index;
        home->last = index;
    } else {
        *home = (Home){location.subject, index, index};
        ++turtle->home_count;
    }
    return true;
}

const Location* location_of(const Turtle* const turtle, const SordNode* const subject,
                            const SordNode* const property)
{
    if (!turtle->home_room) {
        return NULL;
    }
    const Home* const home = home_of(turtle->homes, turtle->home_room, subject);
    const Location* const first = home->subject ? &turtle->locations[home->first] : NULL;
    for (const Location* location = first; property && location;) {
        if (location->property == property) {
            return location;
        }
        location = location->next ? &turtle->locations[location->next] : NULL;
    }
    return first;
}
