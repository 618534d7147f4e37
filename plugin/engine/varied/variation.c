// SPDX-License-Identifier: ISC
#include "variation.h"

#include "vary_foot.h"

#include <stddef.h>
#include <string.h>

typedef struct {
    VaryOperation* make;
    const char* words;
    const char* help;
} VariationEntry;

#define VARIATION_ENTRY(number, NAME, make, words, help) [number] = {make, words, help},
static const VariationEntry entries[] = {
    [VARIATION_NONE] = {NULL, "as chosen", "What is chosen, as it is written."},
    VARIATION_ROWS(VARIATION_ENTRY)};
#undef VARIATION_ENTRY

/* Numbers run on: a row is found by its number. */
_Static_assert(sizeof entries / sizeof *entries == VARIATION_COUNT, "a number is left out");

#define VARIATION_REASON(NAME, words) [VARY_##NAME] = (words),
static const char* const reasons[VARY_REASONS] = {VARY_REASON_ROWS(VARIATION_REASON)};
#undef VARIATION_REASON

static uint32_t known(const uint32_t number)
{
    return number < VARIATION_COUNT ? number : VARIATION_NONE;
}

const char* variation_words(const uint32_t number)
{
    return entries[known(number)].words;
}

const char* variation_help(const uint32_t number)
{
    return entries[known(number)].help;
}

const char* variation_reason(const VaryReason reason)
{
    return reasons[reason];
}

/* ---- One */

static void lay_hands(const Figure* const hands, const Meter meter, VaryHands* const laid)
{
    laid->any = hands && !vary_lay(hands, meter, &laid->notes, &laid->cycle);
    laid->rolls = hands && !hands->bars;
    laid->keeps_time = hands ? hands->keeps_time : (uint8_t)VOICE_KICK;
}

/* The step that it was written in, or a part of that where strokes lie between. */
static void note_step(Figure* const figure)
{
    figure->step_ticks = common_divisor(figure->step_ticks, figure->cycle_ticks);
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        figure->step_ticks = common_divisor(figure->step_ticks, figure->strokes[i].tick);
    }
    figure_note(figure);
}

/* What is no kick goes on through a longer cycle, and both end together. */
static VaryReason join(VariationRoom* const room)
{
    VaryLine* const line = &room->line;
    VaryStrokes* const made = &line->kicks;
    const VaryReason reason = line->stands ? vary_unroll(line, line->laid_cycle) : VARY_NONE;
    const int64_t turns = line->stands ? line->cycle / line->laid_cycle : 0;
    if (reason || made->count + turns * line->stands > FIGURE_STROKES_MAX) {
        return reason ? reason : VARY_TOO_MANY;
    }
    for (int64_t turn = 0; turn < turns; ++turn) {
        for (uint32_t i = 0; i < room->laid.count; ++i) {
            if (!vary_is_kick(room->laid.strokes[i])) {
                made->strokes[made->count] = room->laid.strokes[i];
                made->strokes[made->count++].tick += turn * line->laid_cycle;
            }
        }
    }
    room->figure.stroke_count = made->count;
    return VARY_NONE;
}

static VaryReason finish(VariationRoom* const room)
{
    VaryLine* const line = &room->line;
    VaryReason reason = line->kicks.count ? vary_foot_give(line) : VARY_NOTHING_LEFT;
    reason = reason ? reason : join(room);
    if (reason) {
        return reason;
    }
    Figure* const figure = &room->figure;
    strokes_sort(line->kicks.strokes, figure->stroke_count);
    figure->strokes = line->kicks.strokes;
    figure->cycle_ticks = line->cycle;
    figure->bars = line->rolls ? 0 : (uint32_t)(line->cycle / line->bar);
    note_step(figure);
    return VARY_NONE;
}

/* The source as it is played in this meter. */
static VaryReason lay_source(const Figure* const feet, const Meter meter, VariationRoom* const room)
{
    room->source = *feet;
    const VaryReason reason = vary_lay(feet, meter, &room->laid, &room->source.cycle_ticks);
    room->source.strokes = room->laid.strokes;
    room->source.stroke_count = room->laid.count;
    note_step(&room->source);
    return reason || room->laid.count ? reason : VARY_NO_KICKS;
}

static VaryReason make(const uint32_t number, VariationRoom* const room)
{
    const Figure* const source = &room->source;
    VaryReason reason = room->source_reason;
    room->figure = *source;
    if (!reason) {
        memcpy(&room->line, &room->source_line,
               offsetof(VaryLine, kicks.strokes) +
                   room->source_line.kicks.count * sizeof(Stroke)); /* no more of it is read */
        reason = entries[number].make(&room->line);
    }
    reason = reason ? reason : finish(room);
    return reason || !variation_equal(source, &room->figure) ? reason : VARY_AS_CHOSEN;
}

/* What every operation begins with. */
static void lay_line(VariationRoom* const room)
{
    VaryLine* const line = &room->source_line;
    room->source_reason =
        vary_line(&room->source, room->meter, &room->laid, room->source.cycle_ticks, line);
    if (!room->source_reason) {
        vary_foot_note(line);
        line->hands = &room->hands;
    }
}

VaryReason variation_lay(const Figure* const feet, const Figure* const hands, const Meter meter,
                         VariationRoom* const room)
{
    room->meter = meter;
    lay_hands(hands, meter, &room->hands);
    const VaryReason reason = lay_source(feet, meter, room);
    if (!reason) {
        lay_line(room);
    }
    return reason;
}

Variation variation_of_laid(const uint32_t number, VariationRoom* const room)
{
    if (number >= VARIATION_COUNT) {
        return (Variation){NULL, VARY_UNKNOWN};
    }
    if (number == VARIATION_NONE) {
        return (Variation){&room->source, VARY_NONE};
    }
    const VaryReason reason = make(number, room);
    return (Variation){reason ? NULL : &room->figure, reason};
}

Variation variation_make(const Figure* const feet, const Figure* const hands, const Meter meter,
                         const uint32_t number, VariationRoom* const room)
{
    const VaryReason reason =
        number < VARIATION_COUNT ? variation_lay(feet, hands, meter, room) : VARY_UNKNOWN;
    return reason ? (Variation){NULL, reason} : variation_of_laid(number, room);
}

Variation variation_then(const Figure* const feet, const Figure* const hands, const Meter meter,
                         const uint32_t first, const uint32_t second, VariationRoom rooms[2])
{
    const Variation one = variation_make(feet, hands, meter, first, &rooms[0]);
    return one.figure && second ? variation_make(one.figure, hands, meter, second, &rooms[1]) : one;
}

/* Two sequences that come round after p and q are the same for ever once they are for p + q:
   Fine and Wilf 1965, Uniqueness theorems for periodic functions, Proc. AMS 16, 109-114. */
bool variation_equal(const Figure* const a, const Figure* const b)
{
    const int64_t enough = a->cycle_ticks + b->cycle_ticks;
    for (uint64_t i = 0;; ++i) {
        const Stroke x = a->strokes[i % a->stroke_count];
        const Stroke y = b->strokes[i % b->stroke_count];
        const int64_t at_x = x.tick + (int64_t)(i / a->stroke_count) * a->cycle_ticks;
        const int64_t at_y = y.tick + (int64_t)(i / b->stroke_count) * b->cycle_ticks;
        if (at_x != at_y || x.limb != y.limb || x.level != y.level) {
            return at_x >= enough && at_y >= enough;
        }
        if (at_x >= enough) {
            return true;
        }
    }
}

/* ---- Offers, order and grow: how many strokes there are in the same time decides. */

/* True if the figure is so many times the same. */
static bool comes_round(const Figure* const figure, const uint32_t times)
{
    const uint32_t count = figure->stroke_count / times;
    const int64_t apart = figure->cycle_ticks / times;
    for (uint32_t i = count; i < figure->stroke_count; ++i) {
        const Stroke a = figure->strokes[i - count];
        const Stroke b = figure->strokes[i];
        if (b.tick - a.tick != apart || a.limb != b.limb || a.level != b.level) {
            return false;
        }
    }
    return true;
}

/* How often the same is written in it. */
static uint32_t most_rounds(const Figure* const figure)
{
    uint32_t times = figure->stroke_count;
    while (times > 1 && (figure->stroke_count % times || figure->cycle_ticks % times ||
                         !comes_round(figure, times))) {
        --times;
    }
    return times > 1 ? times : 1;
}

static uint64_t digest_word(const uint64_t digest, const uint64_t word)
{
    return (digest ^ word) * 1099511628211U;
}

/* Of what is repeated, so that equal figures have the same, whatever cycle they are written in
   (FNV-1a, Fowler, Noll and Vo, a word at a time; two of one bank that differ and meet in 64
   bits don't come up, and a test looks for them). */
static uint64_t digest_of(const Figure* const figure)
{
    const uint32_t times = most_rounds(figure);
    uint64_t digest = digest_word(14695981039346656037U, (uint64_t)(figure->cycle_ticks / times));
    for (uint32_t i = 0; i < figure->stroke_count / times; ++i) {
        const Stroke stroke = figure->strokes[i];
        digest = digest_word(digest, (uint64_t)stroke.tick * 64 +
                                         (uint64_t)(stroke.limb * 8 + stroke.level));
    }
    return digest;
}

static void note_row(const Variation made, const uint32_t number,
                     VariationRow rows[VARIATION_COUNT])
{
    VariationRow* const row = &rows[number];
    *row = (VariationRow){.reason = made.reason};
    if (!made.figure) {
        return;
    }
    row->strokes = made.figure->stroke_count;
    row->cycle = made.figure->cycle_ticks;
    row->digest = digest_of(made.figure);
    for (uint32_t i = 1; i < number && !row->reason; ++i) {
        if (!rows[i].reason && rows[i].digest == row->digest) {
            row->reason = VARY_AS_EARLIER;
            row->same_as = (uint8_t)i;
        }
    }
}

void variation_offer(const Figure* const feet, const Figure* const hands, const Meter meter,
                     const uint32_t number, VariationRow rows[VARIATION_COUNT],
                     VariationRoom* const room)
{
    note_row(variation_make(feet, hands, meter, number, room), number, rows);
}

uint32_t variation_offer_some(const Figure* const feet, const Figure* const hands,
                              const Meter meter, const uint32_t from, const uint32_t to,
                              VariationRow rows[VARIATION_COUNT], VariationRoom* const room)
{
    const VaryReason reason = variation_lay(feet, hands, meter, room);
    uint32_t offered = 0;
    for (uint32_t number = from; number < to; ++number) {
        note_row(reason ? (Variation){NULL, reason} : variation_of_laid(number, room), number,
                 rows);
        offered += number && !rows[number].reason;
    }
    return offered;
}

uint32_t variation_offers(const Figure* const feet, const Figure* const hands, const Meter meter,
                          VariationRow rows[VARIATION_COUNT], VariationRoom* const room)
{
    return variation_offer_some(feet, hands, meter, 0, VARIATION_COUNT, rows, room);
}

static bool is_fuller(const VariationRow* const a, const VariationRow* const b)
{
    return (int64_t)a->strokes * b->cycle > (int64_t)b->strokes * a->cycle;
}

uint32_t variation_order(const VariationRow rows[VARIATION_COUNT], uint8_t numbers[VARIATION_COUNT])
{
    uint32_t count = 0;
    for (uint32_t number = 0; number < VARIATION_COUNT; ++number) {
        uint32_t place = count;
        if (rows[number].reason) {
            continue;
        }
        for (; place && is_fuller(&rows[numbers[place - 1]], &rows[number]); --place) {
            numbers[place] = numbers[place - 1];
        }
        numbers[place] = (uint8_t)number;
        ++count;
    }
    return count;
}

uint32_t variation_grow(const uint32_t count, const int64_t phrase, const uint32_t every)
{
    if (count < 2 || !every) {
        return 0;
    }
    const int64_t there_and_back = 2 * ((int64_t)count - 1);
    const int64_t at = floor_mod(floor_div(phrase, every), there_and_back);
    return (uint32_t)(at < count ? at : there_and_back - at);
}
