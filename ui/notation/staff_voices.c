// SPDX-License-Identifier: ISC
#include "staff_voices.h"

enum { APART = 8 }; /* signs that a further voice costs its reader */

/* Ours, no source: a stem each is read apart only where that spares brackets. */

static bool spell(Rhythm* const rhythm, const StrokeList* const strokes, const unsigned limbs,
                  const Meter meter)
{
    int64_t onsets[SPAN_STROKES_MAX];
    int count = 0;
    for (uint32_t i = 0; i < strokes->count; ++i) {
        const Stroke stroke = strokes->strokes[i];
        const bool is_new = count == 0 || onsets[count - 1] < stroke.tick;
        if (limbs & 1U << stroke.limb && is_new) {
            onsets[count++] = stroke.tick;
        }
    }
    return rhythm_spell(rhythm, onsets, count, meter);
}

static bool plays(const StrokeList* const strokes, const int limb)
{
    bool is = false;
    for (uint32_t i = 0; !is && i < strokes->count; ++i) {
        is = strokes->strokes[i].limb == limb;
    }
    return is;
}

static StaffVoice* add_voice(StaffVoices* const made, const int number, const unsigned limbs)
{
    StaffVoice* const voice = &made->voices[made->count++];
    voice->number = number;
    voice->is_up = number % 2 == 1;
    voice->limbs = limbs;
    return voice;
}

/* A pair from its right limb on. */
static bool make_pair(StaffVoices* const made, const StrokeList* const strokes, const Meter meter,
                      const Limb right, Limb* const wrong)
{
    const int number = right == RIGHT_HAND ? 1 : 2;
    const int first = made->count;
    StaffVoice* const joint = add_voice(made, number, 3U << right);
    const bool is_joint = spell(&joint->rhythm, strokes, joint->limbs, meter);
    if (!plays(strokes, (int)right) || !plays(strokes, (int)right + 1)) {
        *wrong = plays(strokes, (int)right) ? right : (Limb)(right + 1);
        return is_joint;
    }
    const int cost = joint->rhythm.cost;
    made->count = first;
    int apart = APART;
    for (int i = 0; i < 2; ++i) {
        StaffVoice* const voice = add_voice(made, number + 2 * i, 1U << (right + (Limb)i));
        *wrong = (Limb)(right + (Limb)i);
        if (!spell(&voice->rhythm, strokes, voice->limbs, meter)) {
            return false;
        }
        apart += voice->rhythm.cost;
    }
    if (is_joint && cost <= apart) {
        made->count = first;
        StaffVoice* const again = add_voice(made, number, 3U << right);
        return spell(&again->rhythm, strokes, again->limbs, meter);
    }
    return true;
}

bool staff_voices_make(StaffVoices* const made, const StrokeList* const strokes, const Meter meter,
                       Limb* const limb)
{
    made->count = 0;
    const bool has_feet = plays(strokes, RIGHT_FOOT) || plays(strokes, LEFT_FOOT);
    return make_pair(made, strokes, meter, RIGHT_HAND, limb) &&
           (!has_feet || make_pair(made, strokes, meter, RIGHT_FOOT, limb));
}
