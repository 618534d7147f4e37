// SPDX-License-Identifier: ISC
#include "plan.h"

#include <math.h>

static const char* kind_words(const PlanKind kind)
{
    static const char* const words[] = {
        [PLAN_WARM_UP] = "warm-up: all limbs, slow and soft",
        [PLAN_HANDS] = "hands alone",
        [PLAN_FEET] = "feet alone",
        [PLAN_TOGETHER] = "hands and feet together",
        [PLAN_BREAK] = "break: get up, sticks down, somewhere quiet",
    };
    return words[kind];
}

double plan_noise_minutes(const double level)
{
    return 480.0 / pow(2.0, (level - 85.0) / 3.0);
}

void plan_rest(Plan* const plan)
{
    int played = 0;
    for (int i = plan->count - 1; i >= 0 && plan->items[i].kind != PLAN_BREAK; --i) {
        played += plan->items[i].seconds;
    }
    if (plan->count < PLAN_ITEMS_MAX) {
        const int minutes = (played + 5 * 60 - 1) / (5 * 60);
        plan->items[plan->count++] = (PlanItem){.kind = PLAN_BREAK, .seconds = 60 * minutes};
    }
}

/* Seconds of breaks, or of all else. */
static int seconds_of(const Plan* const plan, const bool breaks)
{
    int seconds = 0;
    for (int i = 0; i < plan->count; ++i) {
        seconds += (plan->items[i].kind == PLAN_BREAK) == breaks ? plan->items[i].seconds : 0;
    }
    return seconds;
}

static void print_head(FILE* const out, const Plan* const plan)
{
    static const char* const clicks[] = {"no click", "a click in the count-in alone",
                                         "the click throughout"};
    const EntryInfo* const groove = plan->groove;
    fprintf(out, "# Practising %s\n\n%s\n\n", groove->label, groove->comment);
    fprintf(out, "%g/%d, written for %d to %d quarter notes a minute; the chart is %s.\n",
            plan->meter.beats_per_bar, plan->meter.beat_unit, groove->tempo_low, groove->tempo_high,
            plan->chart);
    fprintf(out, "Every file has %s", clicks[plan->click]);
    if (plan->count_in) {
        fprintf(out, ", and %d bar%s to count in", plan->count_in, plan->count_in == 1 ? "" : "s");
    }
    fputs(". What a file leaves out is yours to play, or to leave out, too.\n\n", out);
}

static void print_cautions(FILE* const out)
{
    fputs("## First\n\n"
          "- Wear hearing protection; keep headphones and monitors low; rest your ears in a quiet\n"
          "  place in the breaks (NIOSH Workplace Solutions 2015-184). Ringing or dull hearing "
          "afterwards\n"
          "  means it was too loud.\n"
          "- **Stop at pain**, numbness or tingling. Don't play through it and don't go on to the "
          "next file.\n"
          "  Warm up, take the breaks, and don't raise your practice time suddenly (NASM and "
          "PAMA,\n"
          "  Protecting Your Neuromusculoskeletal Health). 68 % of 831 drummers had had a "
          "playing-related\n"
          "  disorder (Azar 2020, Medical Problems of Performing Artists 35(3), 153-161).\n"
          "- Local rules, and a doctor, audiologist or physiotherapist, come before anything in "
          "this plan.\n"
          "  If something already hurts, ask one of them before you start.\n\n",
          out);
}

static void print_order(FILE* const out, const Plan* const plan)
{
    fputs("## Order\n\n| file | what | tempo | bars | length |\n| --- | --- | --- | --- | --- |\n",
          out);
    for (int i = 0; i < plan->count; ++i) {
        const PlanItem* const item = &plan->items[i];
        if (item->kind == PLAN_BREAK) {
            fprintf(out, "| - | %s | | | %d:%02d |\n", kind_words(item->kind), item->seconds / 60,
                    item->seconds % 60);
        } else {
            fprintf(out, "| %s | %s | %d | %d | %d:%02d |\n", item->name, kind_words(item->kind),
                    item->tempo, item->bars, item->seconds / 60, item->seconds % 60);
        }
    }
    const int played = seconds_of(plan, false), rested = seconds_of(plan, true);
    fprintf(out, "\nTotal %d:%02d: playing %d:%02d, breaks %d:%02d.\n\n", (played + rested) / 60,
            (played + rested) % 60, played / 60, played % 60, rested / 60, rested % 60);
}

static void print_how(FILE* const out, const Plan* const plan)
{
    int highest = 0;
    for (int i = 0; i < plan->count; ++i) {
        highest = plan->items[i].tempo > highest ? plan->items[i].tempo : highest;
    }
    fputs(
        "## How\n\n"
        "- Each tempo: hands, feet, then together. Go on when a file was clean and felt loose; if "
        "not,\n"
        "  play it again after the break, or end the day there (common practice, no source).\n"
        "- A break is a fifth of what was played before it, or more: ten minutes to fifty of "
        "playing, as\n"
        "  musicians' health guides advise. Take it even when it goes well.\n"
        "- If all this is more than you practise now, do the first tempi only, and add one every "
        "few days.\n",
        out);
    if (plan->groove->tempo_high && highest > plan->groove->tempo_high) {
        fprintf(out,
                "- The last tempo is beyond the %d that this groove was written for: take it as a "
                "goal of weeks.\n",
                plan->groove->tempo_high);
    }
    fputc('\n', out);
}

static void print_minutes(FILE* const out, const double minutes)
{
    if (minutes > 60.0) {
        fprintf(out, "%.0f h", minutes / 60.0);
    } else {
        fprintf(out, "%.0f min", minutes);
    }
}

/* The levels of NIOSH's own noise page: each half of the time before. */
static void print_noise(FILE* const out, const Plan* const plan)
{
    const double minutes = seconds_of(plan, false) / 60.0;
    const double most = floor(85.0 + 3.0 * log2(480.0 / fmax(ceil(minutes), 1.0)));
    fputs("## How loud for how long\n\n"
          "The recommended exposure limit of the U.S. National Institute for Occupational Safety "
          "and\n"
          "Health for a whole day, everything loud in it counted: 85 dBA over 8 hours, half the "
          "time for\n"
          "each 3 dB more (NIOSH, Criteria for a Recommended Standard: Occupational Noise "
          "Exposure,\n"
          "publication 98-126, 1998). Stages are at 90 to 110 dBA (NIOSH Workplace Solutions "
          "2015-184).\n\n"
          "| level at your ear | at most |\n| --- | --- |\n",
          out);
    for (int level = 85; level <= 100; level += 3) {
        fprintf(out, "| %d dBA | ", level);
        print_minutes(out, plan_noise_minutes(level));
        fputs(" |\n", out);
    }
    fprintf(
        out,
        "\nThe %.0f minutes of playing here stay within it up to %.0f dBA, if nothing else that "
        "day is loud.\nWhere local limits are lower, those count.\n",
        ceil(minutes), fmin(most, 100.0));
}

void plan_print(FILE* const out, const Plan* const plan)
{
    print_head(out, plan);
    print_cautions(out);
    print_order(out, plan);
    print_how(out, plan);
    print_noise(out, plan);
}
