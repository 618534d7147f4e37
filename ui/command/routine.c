// SPDX-License-Identifier: ISC
#include "routine.h"

#include "routine_head.h"

#include <math.h>

/* How many minutes a day at a level stay within the recommended exposure limit
   of NIOSH: 85 dBA over 8 hours, half the time for each 3 dB more (NIOSH,
   Criteria for a Recommended Standard: Occupational Noise Exposure, DHHS
   publication 98-126, 1998). */
static double noise_minutes(const double level)
{
    return 480.0 / pow(2.0, (level - 85.0) / 3.0);
}

void routine_rest(Routine* const routine)
{
    int played = 0;
    for (int i = routine->count - 1; i >= 0 && routine->items[i].kind != ROUTINE_BREAK; --i) {
        played += routine->items[i].seconds;
    }
    if (routine->count < ROUTINE_ITEMS_MAX) {
        const int minutes = (played + 5 * 60 - 1) / (5 * 60);
        routine->items[routine->count++] =
            (RoutineItem){.kind = ROUTINE_BREAK, .seconds = 60 * minutes};
    }
}

/* Seconds of breaks, or of all else. */
static int seconds_of(const Routine* const routine, const bool breaks)
{
    int seconds = 0;
    for (int i = 0; i < routine->count; ++i) {
        seconds +=
            (routine->items[i].kind == ROUTINE_BREAK) == breaks ? routine->items[i].seconds : 0;
    }
    return seconds;
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
          "  Warm up, take breaks, and don't raise your practice time suddenly (NASM and "
          "PAMA,\n"
          "  Protecting Your Neuromusculoskeletal Health). 68 % of 831 drummers had had a "
          "playing-related\n"
          "  disorder (Azar 2020, Medical Problems of Performing Artists 35(3), 153-161).\n"
          "- Local rules, and a doctor, audiologist or physiotherapist, come before anything in "
          "this plan.\n"
          "  If something already hurts, ask one of them before you start.\n\n",
          out);
}

static void print_item(FILE* const out, const RoutineItem* const item)
{
    char limbs[LIMBSET_ROOM];
    if (item->kind == ROUTINE_BREAK) {
        fprintf(out, "| - | break: get up, sticks down, somewhere quiet | | | %d:%02d | |\n",
                item->seconds / 60, item->seconds % 60);
        return;
    }
    const bool pairs = item->limbs & LIMBS_HANDS && item->limbs & LIMBS_FEET;
    limbset_words(item->limbs, limbs);
    fprintf(out, "| %s | %s%s%s | %d | %d | %d:%02d | ", item->name,
            item->kind == ROUTINE_WARM_UP ? "warm-up, to play softly: " : "", limbs,
            pairs ? " together" : " alone", item->tempo, item->click.bars, item->seconds / 60,
            item->seconds % 60);
    facts_print_click(out, &item->click);
    fputs(" |\n", out);
}

static void print_order(FILE* const out, const Routine* const routine)
{
    fputs("## Order\n\n| file | what | tempo | bars | length | click |\n"
          "| --- | --- | --- | --- | --- | --- |\n",
          out);
    for (int i = 0; i < routine->count; ++i) {
        print_item(out, &routine->items[i]);
    }
    const int played = seconds_of(routine, false), rested = seconds_of(routine, true);
    fprintf(out, "\nTotal %d:%02d: playing %d:%02d, breaks %d:%02d.\n\n", (played + rested) / 60,
            (played + rested) % 60, played / 60, played % 60, rested / 60, rested % 60);
}

/* Of each tempo, where there is more than one file. */
static void print_parts(FILE* const out, const Routine* const routine)
{
    char words[LIMBSET_ROOM];
    LimbSet parts[LIMBSET_PARTS];
    if (limbset_parts(routine->limbs, parts) == 1) {
        fputs("- ", out);
        return;
    }
    limbset_words(parts[0], words);
    fprintf(out, "- Each tempo: %s, ", words);
    limbset_words(parts[1], words);
    fprintf(out, "%s, then together. ", words);
}

static void print_how(FILE* const out, const Routine* const routine)
{
    const int highest = routine->items[routine->count - 1].tempo,
              meant = routine_head_tempo_high(routine);
    const bool rests = seconds_of(routine, true) > 0;
    fputs("## How\n\n", out);
    print_parts(out, routine);
    fprintf(out,
            "Go on when a file was clean and felt loose; if not,\n"
            "  play it again after %s, or end the day there (common practice, no source).\n",
            rests ? "the break" : "a rest");
    if (rests) {
        fputs("- A break is a fifth of what was played before it, or more: ten minutes to fifty of "
              "playing, as\n"
              "  musicians' health guides advise. Take it even when it goes well.\n"
              "- If all this is more than you practise now, do the first tempi only, and add one "
              "every few days.\n",
              out);
    }
    if (meant && highest > meant) {
        fprintf(out,
                "- The last tempo is beyond the %d that this was written for: take it as a "
                "goal of weeks.\n",
                meant);
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
static void print_noise(FILE* const out, const Routine* const routine)
{
    const double minutes = seconds_of(routine, false) / 60.0;
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
        print_minutes(out, noise_minutes(level));
        fputs(" |\n", out);
    }
    fprintf(
        out,
        "\nThe %.0f minutes of playing here stay within it up to %.0f dBA, if nothing else that "
        "day is loud.\nWhere local limits are lower, those count.\n",
        ceil(minutes), fmin(most, 100.0));
}

void routine_print(FILE* const out, const Routine* const routine)
{
    routine_head_print(out, routine);
    print_cautions(out);
    print_order(out, routine);
    print_how(out, routine);
    print_noise(out, routine);
}
