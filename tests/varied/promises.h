// SPDX-License-Identifier: ISC
/* promises.h - one promise a row of variation.h, in words of its help, held stroke by stroke. */
#pragma once

#include "promise.h"

/* Every kick of both, once, with what either has there. */
typedef struct {
    int64_t tick;
    uint8_t was;
    uint8_t is;
    bool same_feet;
} Place;

enum { PLACES_MAX = 2 * KICKS_MAX };

static inline uint32_t all_places(const Promise* const promise, Place places[PLACES_MAX])
{
    static Kicks was, is;
    uint32_t i = 0, j = 0, count = 0;
    kicks_until(promise->source, promise->both, &was);
    kicks_until(promise->made, promise->both, &is);
    while (i < was.count || j < is.count) {
        const int64_t a = i < was.count ? was.ticks[i] : INT64_MAX;
        const int64_t b = j < is.count ? is.ticks[j] : INT64_MAX;
        places[count++] = (Place){.tick = a < b ? a : b,
                                  .was = a <= b ? was.levels[i] : 0,
                                  .is = b <= a ? is.levels[j] : 0,
                                  .same_feet = a == b && was.feet[i] == is.feet[j]};
        i += a <= b;
        j += b <= a;
    }
    return count;
}

/* What may be at a place: asked of each. */
typedef bool Holds(const Promise* promise, Place place);

static inline bool place_holds(const Promise* const promise, Holds* const holds, const Place place)
{
    const bool keeps_its_promise = holds(promise, place);
    check_case("%s: of feet %u, at %.4f quarters: %d, was %d", variation_words(promise->number),
               promise->source->id, (double)place.tick / Q, place.is, place.was);
    return CHECK(keeps_its_promise);
}

/* At every kick of both, and at each of twelve steps in a quarter, be it silent. */
static inline void everywhere(const Promise* const promise, Holds* const holds)
{
    static Place places[PLACES_MAX];
    const uint32_t count = all_places(promise, places);
    bool held = true;
    for (uint32_t i = 0; i < count && held; ++i) {
        held = place_holds(promise, holds, places[i]);
    }
    for (int64_t tick = 0; tick < promise->both && held; tick += Q / 12) {
        const uint8_t was = kick_at(promise->source, tick), is = kick_at(promise->made, tick);
        held = was || is || place_holds(promise, holds, (Place){.tick = tick, .same_feet = true});
    }
}

static inline bool in_whole_bars(const Promise* const promise)
{
    return promise->source->bars;
}

/* Counted from the bar line; where it rolls, from its start. */
static inline int64_t part_of(const Promise* const promise, const int64_t tick)
{
    return in_whole_bars(promise) ? tick % promise->bar : tick;
}

static inline bool unchanged(const Place place)
{
    return place.was == place.is && (place.same_feet || !place.was);
}

/* ---- Fewer */

static inline bool is_thinned(const Promise* const promise, const Place place)
{
    const int64_t at = part_of(promise, place.tick);
    const bool stays = promise->grid ? at % (2 * promise->grid) == 0 : place.is;
    return stays ? unchanged(place) : !place.is;
}

/* Of a figure without any, what is on a beat of its bar. */
static inline bool is_accents(const Promise* const promise, const Place place)
{
    const bool stays = promise->accents ? place.was >= LEVEL_ACCENT
                                        : place.tick % promise->bar % promise->beat == 0;
    return stays ? unchanged(place) : !place.is;
}

static inline bool is_off_one(const Promise* const promise, const Place place)
{
    return place.tick % promise->bar ? unchanged(place) : !place.is;
}

static inline bool is_bar_on_off(const Promise* const promise, const Place place)
{
    return place.tick / promise->bar % 2 ? !place.is : unchanged(place);
}

/* From memory: the halves of 4/4 are two beats, of 3/4 two and one, of 7/8 four eighths and
   three. */
static inline int64_t first_half(const Promise* const promise)
{
    const int64_t beats = promise->bar % promise->beat == 0 ? promise->bar / promise->beat : 0;
    const int64_t eighths = promise->bar % (Q / 2) == 0 ? promise->bar / (Q / 2) : 0;
    return beats > 1     ? (beats - beats / 2) * promise->beat
           : eighths > 1 ? (eighths - eighths / 2) * (Q / 2)
                         : promise->bar - promise->bar / S / 2 * S;
}

static inline bool is_half_on_off(const Promise* const promise, const Place place)
{
    return place.tick % promise->bar < first_half(promise) ? unchanged(place) : !place.is;
}

static inline bool is_foot(const Promise* const promise, const Place place, const uint32_t foot)
{
    return feet_at(promise->made, place.tick) ==
           (feet_at(promise->source, place.tick) & 1U << foot);
}

static inline bool is_right(const Promise* const promise, const Place place)
{
    return is_foot(promise, place, RIGHT_FOOT);
}

static inline bool is_left(const Promise* const promise, const Place place)
{
    return is_foot(promise, place, LEFT_FOOT);
}

/* ---- More */

/* What was stays, and nothing is where nothing was but what `added` says. */
static inline bool is_more(const Promise* const promise, const Place place, Holds* const added)
{
    return place.was ? place.was == place.is : !place.is || added(promise, place);
}

static inline bool is_filled(const Promise* const promise, const Place place)
{
    const int64_t since = place.tick - kick_before(promise->made, place.tick);
    return (place.is == place.was || (!place.was && place.is == LEVEL_NORMAL)) &&
           (!promise->grid || since <= promise->grid);
}

static inline bool halves_its_step(const Promise* const promise, const Place place)
{
    const int64_t behind = place.tick - kick_before(promise->source, place.tick);
    return place.is == LEVEL_NORMAL &&
           (promise->grid ? 2 * behind == promise->grid : behind <= Q / 4);
}

static inline bool is_doubled(const Promise* const promise, const Place place)
{
    return is_more(promise, place, halves_its_step);
}

static inline bool is_a_step_behind(const Promise* const promise, const Place place)
{
    const int64_t behind = place.tick - kick_before(promise->source, place.tick);
    return place.is == LEVEL_NORMAL && (!promise->grid || behind == promise->grid);
}

/* Each that has three steps to the next, and no other, has a second. */
static inline bool is_paired(const Promise* const promise, const Place place)
{
    const int64_t grid = promise->grid;
    bool room = place.was && grid;
    for (int64_t i = 1; i < 3 && room; ++i) {
        room = !kick_at(promise->source, place.tick + i * grid);
    }
    return is_more(promise, place, is_a_step_behind) &&
           (!grid || !place.was ||
            room == !!(kick_at(promise->made, place.tick + grid) -
                       kick_at(promise->source, place.tick + grid)));
}

static inline int64_t push_of(const Promise* const promise)
{
    return promise->grid && promise->grid < S ? promise->grid : S;
}

static inline bool pushes(const Promise* const promise, const Place place)
{
    return place.is == LEVEL_NORMAL &&
           (!promise->grid || kick_at(promise->source, place.tick + push_of(promise)));
}

/* Each that has the room, and no other, is pushed into. */
static inline bool is_pushed(const Promise* const promise, const Place place)
{
    const int64_t push = push_of(promise);
    const bool room =
        place.was && place.tick - kick_before(promise->source, place.tick) >= 3 * push;
    const int64_t before = place.tick - push;
    return is_more(promise, place, pushes) &&
           (!place.was || !promise->grid ||
            room == (kick_at(promise->made, before) && !kick_at(promise->source, before)));
}

/* The added one halves the first of two even gaps. */
static inline bool halves_a_run(const Promise* const promise, const Place place)
{
    const int64_t half = place.tick - kick_before(promise->source, place.tick);
    return kick_at(promise->source, place.tick + half) &&
           kick_at(promise->source, place.tick + 3 * half) && half <= Q / 4;
}

static inline bool is_herta(const Promise* const promise, const Place place)
{
    return is_more(promise, place, halves_a_run);
}

/* ---- Elsewhere */

static inline bool is_moved(const Promise* const promise, const Place place, const int64_t ticks)
{
    return place.is == kick_at(promise->source, place.tick - ticks) &&
           (!place.is ||
            feet_at(promise->made, place.tick) == feet_at(promise->source, place.tick - ticks));
}

static inline bool is_earlier(const Promise* const promise, const Place place)
{
    return !promise->grid || is_moved(promise, place, -promise->grid);
}

static inline bool is_later(const Promise* const promise, const Place place)
{
    return !promise->grid || is_moved(promise, place, promise->grid);
}

static inline bool is_half_later(const Promise* const promise, const Place place)
{
    return is_moved(promise, place, promise->beat / 2);
}

static inline bool is_beat_later(const Promise* const promise, const Place place)
{
    return is_moved(promise, place, promise->beat);
}

static inline bool is_turned(const Promise* const promise, const Place place)
{
    return place.is == kick_at(promise->source, -place.tick);
}

static inline bool is_answer(const Promise* const promise, const Place place)
{
    const int64_t at = place.tick % promise->bar;
    const int64_t first = first_half(promise);
    const int64_t second = promise->bar - first;
    const int64_t from = at < first ? at : floor_mod(first - at, second);
    return place.is == kick_at(promise->source, place.tick - at + from);
}

static inline bool is_slow(const Promise* const promise, const Place place)
{
    return place.tick % 2 ? !place.is : place.is == kick_at(promise->source, place.tick / 2);
}

static inline bool is_fast(const Promise* const promise, const Place place)
{
    return place.is == kick_at(promise->source, 2 * place.tick);
}

/* ---- The same places */

static inline bool is_swapped(const Promise* const promise, const Place place)
{
    const uint32_t was = feet_at(promise->source, place.tick);
    const uint32_t right = was >> RIGHT_FOOT & 1U, left = was >> LEFT_FOOT & 1U;
    return place.was == place.is &&
           feet_at(promise->made, place.tick) == (right << LEFT_FOOT | left << RIGHT_FOOT);
}

static inline bool is_one_foot(const Promise* const promise, const Place place)
{
    const uint32_t feet = feet_at(promise->made, place.tick);
    return place.was == place.is && (feet & ~(1U << promise->made->strokes[0].limb)) == 0;
}

static inline bool is_in_place(const Promise* const promise, const Place place)
{
    (void)promise;
    return place.was == place.is;
}

static inline bool is_where_it_was(const Promise* const promise, const Place place)
{
    (void)promise;
    return !place.was == !place.is && place.same_feet;
}

/* ---- The hands */

static inline bool is_off_snare(const Promise* const promise, const Place place)
{
    return hand_at(promise->hands, hand_snares, place.tick) ? !place.is : unchanged(place);
}

static inline bool is_linear(const Promise* const promise, const Place place)
{
    return hand_at(promise->hands, hand_plays, place.tick) ? !place.is : unchanged(place);
}

static inline bool is_with_accents(const Promise* const promise, const Place place)
{
    return hand_at(promise->hands, hand_accents, place.tick) ? place.is >= LEVEL_ACCENT
                                                             : place.was == place.is;
}

static inline bool is_shot(const Promise* const promise, const Place place)
{
    return !place.is ||
           (hand_at(promise->hands, hand_accents, place.tick) && place.is == LEVEL_ACCENT);
}

static inline bool is_under_cymbal(const Promise* const promise, const Place place)
{
    return hand_at(promise->hands, hand_keeps_time, place.tick) == (place.is != 0);
}

/* ---- The bar's end */

static inline bool is_burst(const Promise* const promise, const Place place)
{
    const int64_t left = promise->bar - place.tick % promise->bar;
    const int64_t burst = promise->runs_out ? Q / 2 : Q;
    if (left == promise->bar && left > Q) {
        return place.is == (place.was > LEVEL_NORMAL ? place.was : LEVEL_NORMAL);
    }
    return left <= burst ? (left % (burst / 4) == 0) == (place.is != 0) : place.was == place.is;
}

static inline bool is_sextuplet(const Promise* const promise, const Place place)
{
    const int64_t left = promise->bar - place.tick % promise->bar;
    return left <= promise->beat ? (left % (promise->beat / 6) == 0) == (place.is != 0)
                                 : place.was == place.is;
}

/* ---- Beats */

/* Whether a kick of a figure stands in a span. */
static inline bool any_in(const Figure* const figure, const int64_t begin, const int64_t end)
{
    const int64_t last = kick_before(figure, end);
    return last >= begin;
}

static inline bool is_triplet(const Promise* const promise, const Place place)
{
    const int64_t at = part_of(promise, place.tick);
    const int64_t begin = place.tick - at % promise->beat;
    const int64_t bar_end = in_whole_bars(promise) ? place.tick - at + promise->bar : INT64_MAX;
    const int64_t end = begin + promise->beat < bar_end ? begin + promise->beat : bar_end;
    return (!place.is || (place.tick - begin) % (promise->beat / 3) == 0) &&
           any_in(promise->source, begin, end) == any_in(promise->made, begin, end);
}

/* Struck sixteenths of a quarter, bit by bit. */
static inline bool is_beat_of(const Promise* const promise, const Place place,
                              const uint32_t sixteenths)
{
    const int64_t at = part_of(promise, place.tick);
    const int64_t begin = place.tick - at % Q;
    const int64_t bar_end = in_whole_bars(promise) ? place.tick - at + promise->bar : INT64_MAX;
    const int64_t end = begin + Q < bar_end ? begin + Q : bar_end;
    const int64_t in_beat = place.tick - begin;
    const bool wanted =
        in_beat % S == 0 && sixteenths >> in_beat / S & 1U && any_in(promise->source, begin, end);
    return wanted == (place.is != 0);
}

static inline bool is_gallop(const Promise* const promise, const Place place)
{
    return is_beat_of(promise, place, 1U | 1U << 2 | 1U << 3);
}

static inline bool is_reverse(const Promise* const promise, const Place place)
{
    return is_beat_of(promise, place, 1U | 1U << 1 | 1U << 2);
}
