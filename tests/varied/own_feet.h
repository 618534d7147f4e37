// SPDX-License-Identifier: ISC
/* own_feet.h - figures of feet written out in a test, and what becomes of them. */
#pragma once

#include "../bank/factory.h"
#include "../engine/library.h"
#include "promise.h"

static VariationRoom room;

static const Meter four = {4.0, 4};

static inline OwnFigure begun(const uint32_t bars)
{
    return (OwnFigure){.figure = {.id = 1, .kind = FIGURE_FEET, .bars = bars}};
}

static inline const Figure* whole(OwnFigure* const own)
{
    own->figure.strokes = own->strokes;
    return &own->figure;
}

/* A line of one foot, or of two that take turns by case: R and L, r and l soft. */
static inline OwnFigure feet_of(const uint32_t bars, const int grid, const char* const right,
                                const char* const left)
{
    OwnFigure own = begun(bars);
    if (*right) {
        add_line(&own, RIGHT_FOOT, VOICE_KICK, grid, 1, right);
    }
    if (*left) {
        add_line(&own, LEFT_FOOT, VOICE_KICK, grid, 1, left);
    }
    return own;
}

static inline const char* varied_in(OwnFigure* const own, const Meter meter, const uint32_t number,
                                    const int64_t step)
{
    const Variation made = variation_make(whole(own), NULL, meter, number, &room);
    return made.figure ? figure_sticking(made.figure, step) : variation_reason(made.reason);
}

static inline const char* varied(OwnFigure* const own, const uint32_t number, const int64_t step)
{
    return varied_in(own, four, number, step);
}

static inline bool any_bends(const Figure* const figure, const bool bends)
{
    bool any = false;
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        any |= figure->strokes[i].bends == bends;
    }
    return any;
}

static inline uint8_t level_in(OwnFigure* const own, const uint32_t number, const int64_t tick)
{
    const Variation made = variation_make(whole(own), NULL, four, number, &room);
    return made.figure ? kick_at(made.figure, tick) : LEVEL_REST;
}

static inline VaryReason reason_of(OwnFigure* const own, const uint32_t number)
{
    return variation_make(whole(own), NULL, four, number, &room).reason;
}
