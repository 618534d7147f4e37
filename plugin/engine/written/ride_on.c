// SPDX-License-Identifier: ISC
#include "ride_on.h"

#define RIDE_ON_VOICE(NAME, VOICE) [RIDE_ON_##NAME] = VOICE_##VOICE,
static const Voice voices[RIDE_ON_COUNT] = {RIDE_ON_ROWS(RIDE_ON_VOICE)};
#undef RIDE_ON_VOICE

Voice ride_on_voice(const RideOn ride_on)
{
    return voices[ride_on];
}

RideOn ride_on_from_voice(const Voice voice)
{
    int row = RIDE_ON_COUNT - 1;
    while (row > RIDE_ON_AS_WRITTEN && voices[row] != voice) {
        --row;
    }
    return (RideOn)row;
}

static bool is_hat(const uint8_t voice)
{
    return voice == VOICE_HAT_CLOSED || voice == VOICE_HAT_HALF_OPEN || voice == VOICE_HAT_OPEN;
}

/* The hat is one instrument, as its closed voice. */
static uint8_t instrument_of(const uint8_t voice)
{
    return is_hat(voice) ? VOICE_HAT_CLOSED : voice;
}

static bool can_keep_time(const uint8_t instrument)
{
    static const bool can[VOICE_COUNT] = {
        [VOICE_HAT_CLOSED] = true, [VOICE_RIDE] = true,      [VOICE_RIDE_BELL] = true,
        [VOICE_CRASH] = true,      [VOICE_CRASH_2] = true,   [VOICE_CHINA] = true,
        [VOICE_COWBELL] = true,    [VOICE_TOM_FLOOR] = true,
    };
    return can[instrument];
}

/* Strokes of the hands, by what they strike. */
typedef struct {
    uint32_t strokes[VOICE_COUNT];             /* of both hands */
    uint32_t by_hand[LIMB_COUNT][VOICE_COUNT]; /* with the hat as one */
    uint32_t instruments[VOICE_COUNT];         /* of both hands, likewise */
    uint32_t first[VOICE_COUNT];               /* index of its first stroke */
    uint32_t first_of[VOICE_COUNT];            /* likewise of the instrument */
} Struck;

static Struck count_strokes(const Stroke* const strokes, const uint32_t count)
{
    Struck struck = {.strokes = {0}};
    for (uint32_t i = count; i-- > 0;) {
        const Stroke stroke = strokes[i];
        if (!limb_is_foot(stroke.limb)) {
            const uint8_t instrument = instrument_of(stroke.voice);
            ++struck.strokes[stroke.voice];
            ++struck.by_hand[stroke.limb][instrument];
            ++struck.instruments[instrument];
            struck.first[stroke.voice] = struck.first_of[instrument] = i;
        }
    }
    return struck;
}

static bool leads(const uint32_t* const counts, const uint32_t* const first, const int a,
                  const int b)
{
    return counts[a] > counts[b] || (counts[a] == counts[b] && counts[a] && first[a] < first[b]);
}

/* True if the hand that strikes it most strikes nothing else more often. */
static bool leads_its_hand(const Struck* const struck, const int instrument)
{
    const bool is_left =
        struck->by_hand[LEFT_HAND][instrument] > struck->by_hand[RIGHT_HAND][instrument];
    const uint32_t* const counts = struck->by_hand[is_left ? LEFT_HAND : RIGHT_HAND];
    bool is_most = true;
    for (int other = 0; other < VOICE_COUNT; ++other) {
        is_most &= other == instrument || counts[other] < counts[instrument] ||
                   (counts[other] == counts[instrument] && instrument != VOICE_TOM_FLOOR);
    }
    return is_most;
}

/* The instrument that keeps the time, or VOICE_COUNT. */
static int timekeeper(const Struck* const struck)
{
    int best = VOICE_COUNT;
    for (int voice = 0; voice < VOICE_COUNT; ++voice) {
        if (can_keep_time((uint8_t)voice) && struck->instruments[voice] &&
            (best == VOICE_COUNT || leads(struck->instruments, struck->first_of, voice, best))) {
            best = voice;
        }
    }
    return best < VOICE_COUNT && leads_its_hand(struck, best) ? best : VOICE_COUNT;
}

static int most_frequent_hat(const Struck* const struck)
{
    int best = VOICE_HAT_CLOSED;
    for (int hat = VOICE_HAT_HALF_OPEN; hat <= VOICE_HAT_OPEN; ++hat) {
        best = leads(struck->strokes, struck->first, hat, best) ? hat : best;
    }
    return best;
}

uint8_t ride_on_timekeeper(const Stroke* const strokes, const uint32_t count)
{
    const Struck struck = count_strokes(strokes, count);
    const int instrument = timekeeper(&struck);
    return (uint8_t)(instrument == VOICE_COUNT        ? VOICE_KICK
                     : instrument == VOICE_HAT_CLOSED ? most_frequent_hat(&struck)
                                                      : instrument);
}

RideOnMove ride_on_move(const Figure* const figure, const RideOn to)
{
    const uint8_t moves = figure ? figure->keeps_time : VOICE_KICK;
    if (to == RIDE_ON_AS_WRITTEN || moves == VOICE_KICK || moves == voices[to]) {
        return (RideOnMove){RIDE_ON_AS_WRITTEN, VOICE_COUNT, false};
    }
    return (RideOnMove){to, moves, is_hat(moves) && !is_hat((uint8_t)voices[to])};
}

static void move_stroke(const RideOnMove move, Stroke* const stroke)
{
    const bool opened = move.leaves_hats && is_hat(stroke->voice) && stroke->voice > move.moves;
    const bool shoulder =
        move.to == RIDE_ON_CRASH || move.to == RIDE_ON_CHINA || move.to == RIDE_ON_BELL;
    stroke->voice = (uint8_t)voices[move.to];
    if (opened && stroke->level < LEVEL_ACCENT) {
        stroke->level = LEVEL_ACCENT;
    } else if (shoulder && stroke->level == LEVEL_GHOST) {
        stroke->level = LEVEL_NORMAL;
    }
}

void ride_on_strokes(const RideOnMove move, StrokeList* const list, const uint32_t first)
{
    for (uint32_t i = first; move.to && i < list->count; ++i) {
        Stroke* const stroke = &list->strokes[i];
        const bool keeps_time =
            move.leaves_hats ? is_hat(stroke->voice) : stroke->voice == move.moves;
        if (keeps_time && !limb_is_foot(stroke->limb)) {
            move_stroke(move, stroke);
        }
    }
}

static bool has_pedal(const StrokeList* const list, const uint32_t first)
{
    uint32_t i = first;
    while (i < list->count && list->strokes[i].voice != VOICE_HAT_PEDAL) {
        ++i;
    }
    return i < list->count;
}

static bool foot_closes(const StrokeList* const list, const uint32_t first, const int64_t tick)
{
    bool closes = false;
    for (uint32_t i = first; !closes && i < list->count; ++i) {
        closes = list->strokes[i].tick == tick && list->strokes[i].voice == VOICE_HAT_PEDAL;
    }
    return closes;
}

void ride_on_close(const RideOnMove move, StrokeList* const list, const uint32_t first,
                   const int64_t until)
{
    if ((move.to != RIDE_ON_HALF_OPEN && move.to != RIDE_ON_OPEN) || !has_pedal(list, first)) {
        return;
    }
    for (uint32_t i = first; i < list->count; ++i) {
        Stroke* const stroke = &list->strokes[i];
        if (stroke->tick < until && stroke->voice == voices[move.to] &&
            !limb_is_foot(stroke->limb) && foot_closes(list, first, stroke->tick)) {
            stroke->voice = VOICE_HAT_CLOSED;
        }
    }
}
