// SPDX-License-Identifier: ISC
#include "survey.h"

#include <math.h>

static int64_t second_ticks(const Survey* const survey)
{
    return whole_number(survey->tempo / 60.0 * (double)TICKS_PER_QUARTER);
}

void survey_start(Survey* const survey, const Choice* const choice, const Meter meter,
                  const double tempo)
{
    survey->choice = *choice;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        survey->choice.limbs[limb] = limb_is_foot((uint8_t)limb); /* a silenced foot's too */
    }
    survey->meter = meter;
    survey->tempo = tempo;
    survey->at = 0;
    survey->end = (int64_t)choice->phrase_bars * meter_bar_ticks(meter) + second_ticks(survey);
    for (int foot = 0; foot < SURVEY_FEET; ++foot) {
        survey->feet[foot] = (FootSurvey){.count = 0};
    }
}

static void forget_before(FootSurvey* const foot, const int64_t tick)
{
    while (foot->count && foot->recent[foot->first] <= tick) {
        foot->first = (foot->first + 1) % SURVEY_WINDOW;
        --foot->count;
    }
}

static void strike(FootSurvey* const foot, const int64_t tick, const int64_t second)
{
    forget_before(foot, tick - second);
    if (foot->count < SURVEY_WINDOW) {
        foot->recent[(foot->first + foot->count) % SURVEY_WINDOW] = tick;
        ++foot->count;
    }
    if (foot->count > foot->busiest) {
        foot->busiest = foot->count;
    }
    const int64_t gap = tick - foot->last;
    if (foot->struck && (!foot->closest || gap < foot->closest)) {
        foot->closest = gap;
    }
    foot->struck = true;
    foot->last = tick;
}

static void finish(Survey* const survey)
{
    for (int foot = 0; foot < SURVEY_FEET; ++foot) {
        const FootSurvey* const seen = &survey->feet[foot];
        const double second = survey->tempo / 60.0 * (double)TICKS_PER_QUARTER;
        survey->found[foot] = (FootDemand){seen->busiest, (double)seen->closest / second * 1000.0};
    }
}

void survey_step(Survey* const survey, const double tempo)
{
    if (survey->at >= survey->end) {
        if (fabs(tempo / survey->tempo - 1.0) > 1e-6) {
            const Choice choice = survey->choice;
            survey_start(survey, &choice, survey->meter, tempo);
        }
        return;
    }
    const int64_t next = survey->at + TICKS_PER_QUARTER;
    const int64_t end = next < survey->end ? next : survey->end;
    const int64_t second = second_ticks(survey);
    choice_strokes(&survey->choice, survey->meter, survey->at, end, &survey->strokes);
    for (uint32_t i = 0; i < survey->strokes.count; ++i) {
        const Stroke stroke = survey->strokes.strokes[i];
        if (limb_is_foot(stroke.limb)) {
            strike(&survey->feet[stroke.limb == LEFT_FOOT], stroke.tick, second);
        }
    }
    survey->at = end;
    if (survey->at >= survey->end) {
        finish(survey);
    }
}
