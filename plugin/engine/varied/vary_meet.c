// SPDX-License-Identifier: ISC
#include "vary_meet.h"

/* Whether a hand's stroke is one of those that are asked for. */
typedef bool Asked(const VaryHands* hands, Stroke stroke);

static bool is_snare(const VaryHands* const hands, const Stroke stroke)
{
    (void)hands;
    return (stroke.voice == VOICE_SNARE || stroke.voice == VOICE_SIDE_STICK) &&
           stroke.level > LEVEL_GHOST;
}

static bool is_any(const VaryHands* const hands, const Stroke stroke)
{
    (void)hands;
    return stroke.voice != VOICE_CHOKE;
}

static bool is_accent(const VaryHands* const hands, const Stroke stroke)
{
    return is_any(hands, stroke) && stroke.level >= LEVEL_ACCENT;
}

/* A hat is one hat, however far open. */
static uint8_t cymbal_of(const uint8_t voice)
{
    return voice == VOICE_HAT_HALF_OPEN || voice == VOICE_HAT_OPEN ? VOICE_HAT_CLOSED : voice;
}

static bool keeps_time(const VaryHands* const hands, const Stroke stroke)
{
    return cymbal_of(stroke.voice) == cymbal_of(hands->keeps_time);
}

static bool struck(const VaryHands* const hands, Asked* const asked, const int64_t tick)
{
    for (uint32_t i = 0; i < hands->notes.count; ++i) {
        const Stroke stroke = hands->notes.strokes[i];
        if (stroke.tick == tick % hands->cycle && asked(hands, stroke)) {
            return true;
        }
    }
    return false;
}

/* Until feet and hands come round together. */
static VaryReason lay_together(VaryLine* const line)
{
    const VaryHands* const hands = line->hands;
    return hands->any ? vary_unroll(line, hands->cycle) : VARY_NO_HANDS;
}

static VaryReason keep_out(VaryLine* const line, Asked* const asked)
{
    VaryStrokes* const kicks = &line->kicks;
    const VaryReason reason = lay_together(line);
    const uint32_t before = kicks->count;
    uint32_t kept = 0;
    for (uint32_t i = 0; i < before && !reason; ++i) {
        if (!struck(line->hands, asked, kicks->strokes[i].tick)) {
            kicks->strokes[kept++] = kicks->strokes[i];
        }
    }
    kicks->count = kept;
    const VaryReason met = kept == before ? VARY_NOT_MET : VARY_NONE;
    return reason ? reason : kept ? met : VARY_NOTHING_LEFT;
}

/* Puts a kick under each stroke that is asked for. */
static VaryReason put_under(VaryLine* const line, Asked* const asked)
{
    const VaryHands* const hands = line->hands;
    VaryReason reason = VARY_NONE;
    for (int64_t turn = 0; turn < line->cycle; turn += hands->cycle) {
        for (uint32_t i = 0; i < hands->notes.count && !reason; ++i) {
            const Stroke stroke = hands->notes.strokes[i];
            const uint8_t level = stroke.level >= LEVEL_ACCENT ? LEVEL_ACCENT : LEVEL_NORMAL;
            if (asked(hands, stroke)) {
                reason = vary_add(line, turn + stroke.tick, level, stroke.bends);
            }
        }
    }
    return reason;
}

static bool any_accents(const VaryHands* const hands)
{
    for (uint32_t i = 0; i < hands->notes.count; ++i) {
        if (is_accent(hands, hands->notes.strokes[i])) {
            return true;
        }
    }
    return false;
}

VaryReason vary_meet_snare(VaryLine* const line)
{
    return keep_out(line, is_snare);
}

VaryReason vary_meet_linear(VaryLine* const line)
{
    return keep_out(line, is_any);
}

VaryReason vary_meet_accents(VaryLine* const line)
{
    const VaryReason reason = lay_together(line);
    if (reason || !any_accents(line->hands)) {
        return reason ? reason : VARY_NO_HAND_ACCENTS;
    }
    return put_under(line, is_accent);
}

/* The line is the hands', as they come round. */
static VaryReason follow(VaryLine* const line, Asked* const asked)
{
    line->kicks.count = 0;
    line->cycle = line->hands->cycle;
    line->rolls = line->hands->rolls;
    return put_under(line, asked);
}

VaryReason vary_meet_shots(VaryLine* const line)
{
    if (!line->hands->any || !any_accents(line->hands)) {
        return line->hands->any ? VARY_NO_HAND_ACCENTS : VARY_NO_HANDS;
    }
    return follow(line, is_accent);
}

VaryReason vary_meet_cymbal(VaryLine* const line)
{
    if (!line->hands->any || line->hands->keeps_time == VOICE_KICK) {
        return line->hands->any ? VARY_NO_CYMBAL : VARY_NO_HANDS;
    }
    return follow(line, keeps_time);
}
