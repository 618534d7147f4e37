// SPDX-License-Identifier: ISC
#include "heardwords.h"

#include <math.h>

/* In eight of ten takes of drummers a limb's mean lies within 7 ms of all limbs' (Groove MIDI
   Dataset, tests/data/drummers.tsv), which makes some 10 from the others. */
static const double apart_told_ms = 10.0;

/* Ours, no source: more than a bar's mean strays by (sd 11.7 there). */
static const double drift_told_ms = 15.0;

/* Half as wide again as untrained people's 29 (Baath & Madison 2012): notes that fall anywhere
   spread by some 50 where there is room. */
static const double elsewhere_ms = 43.5;

/* ---- The table */

static void print_row(FILE* const out, const ToldLimb* const limb, const char* const name)
{
    fprintf(out, "%-24s %7u %6u %5u", name, limb->written, limb->missed, limb->extra);
    if (!limb->struck) {
        fputs("      -      -      -      -  -\n", out);
        return;
    }
    fprintf(out, " %+6.1f %+6.1f", limb->mean_ms, limb->apart_ms);
    if (limb->struck > 1) {
        fprintf(out, " %6.1f %+6.1f  %.0f, %.1f\n", limb->sd_ms, limb->drift_ms, limb->level,
                limb->level_sd);
    } else {
        fprintf(out, "      -      -  %.0f\n", limb->level);
    }
}

void heardwords_table(FILE* const out, const Told* const told, const char* const names[LIMB_COUNT])
{
    fprintf(out, "%-24s written missed extra  click others spread  drift  level\n", "");
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        if (told->limbs[limb].written) {
            print_row(out, &told->limbs[limb], names[limb]);
        }
    }
    if (told->strays) {
        fprintf(out,
                "%u notes are like nothing that is written: keys of no voice, or of one that "
                "rests\n",
                told->strays);
    }
    fputs("click:  ms behind it (+) or ahead (-): the person and the set-up in one. Pads, drivers\n"
          "        and loudspeakers come late, and people some 40 ms early by nature.\n"
          "others: ms behind (+) or ahead of (-) the other limbs' strokes.\n"
          "spread: ms around the limb's own mean. Drummers have 17 to 20 (Groove MIDI Dataset,\n"
          "        Gillick et al. 2019), untrained people 29 (Baath & Madison 2012).\n"
          "drift:  ms from its first stroke to its last, by the straight line that fits.\n"
          "level:  mean velocity, and its spread where it is written equally loud.\n",
          out);
}

/* ---- A limb in words */

static const char* between(int* const said)
{
    return (*said)++ ? ", " : "";
}

static void say_counts(FILE* const out, const ToldLimb* const limb, int* const said)
{
    if (limb->missed) {
        fprintf(out, "%s%u of %u dropped", between(said), limb->missed, limb->written);
    }
    if (limb->extra) {
        fprintf(out, "%s%u too many", between(said), limb->extra);
    }
}

static bool is_many(const ToldLimb* const limb)
{
    return 32U * (limb->missed + limb->extra) > (uint32_t)HEARDWORDS_MISSES * limb->written;
}

void heardwords_phrase(FILE* const out, const Told* const told, const char* const names[LIMB_COUNT])
{
    const char* before = "not clean: ";
    if (told_is_clean(told, HEARDWORDS_SPREAD_MS, HEARDWORDS_MISSES)) {
        fputs("clean\n", out);
        return;
    }
    for (int i = 0; i < LIMB_COUNT; ++i) {
        const ToldLimb* const limb = &told->limbs[i];
        const bool wide = limb->sd_ms > HEARDWORDS_SPREAD_MS;
        int said = 0;
        if (limb->written && (is_many(limb) || wide)) {
            fprintf(out, "%s%s (", before, names[i]);
            if (is_many(limb)) {
                say_counts(out, limb, &said);
            }
            if (wide) {
                fprintf(out, "%sa spread of %.0f ms", between(&said), limb->sd_ms);
            }
            fputc(')', out);
            before = ", ";
        }
    }
    fputc('\n', out);
}

/* ---- What stands out */

/* Each thing as a multiple of what is worth a word. */
static double most_of(const ToldLimb* const limb)
{
    const double wrong = limb->written ? 32.0 * (limb->missed + limb->extra) / limb->written : 0.0;
    return fmax(fmax(fabs(limb->apart_ms) / apart_told_ms, wrong / HEARDWORDS_MISSES),
                fmax(limb->sd_ms / HEARDWORDS_SPREAD_MS, fabs(limb->drift_ms) / drift_told_ms));
}

static void say_limb(FILE* const out, const ToldLimb* const limb)
{
    int said = 0;
    if (fabs(limb->apart_ms) >= apart_told_ms) {
        fprintf(out, "%s%.0f ms %s the others", between(&said), fabs(limb->apart_ms),
                limb->apart_ms > 0.0 ? "behind" : "ahead of");
    }
    if (is_many(limb)) {
        say_counts(out, limb, &said);
    }
    if (limb->sd_ms > HEARDWORDS_SPREAD_MS) {
        fprintf(out, "%sa spread of %.0f ms", between(&said), limb->sd_ms);
    }
    if (fabs(limb->drift_ms) >= drift_told_ms) {
        fprintf(out, "%s%.0f ms %s at the end than at the beginning", between(&said),
                fabs(limb->drift_ms), limb->drift_ms > 0.0 ? "later" : "earlier");
    }
}

void heardwords_most(FILE* const out, const Told* const told, const char* const names[LIMB_COUNT])
{
    int worst = 0;
    for (int i = 1; i < LIMB_COUNT; ++i) {
        worst = most_of(&told->limbs[i]) > most_of(&told->limbs[worst]) ? i : worst;
    }
    if (most_of(&told->limbs[worst]) <= 1.0) {
        fputs("Nothing stands out.\n", out);
        return;
    }
    fprintf(out, "What stands out: %s: ", names[worst]);
    say_limb(out, &told->limbs[worst]);
    fputs(".\n", out);
}

HeardCount heardwords_count(const Told* const told)
{
    HeardCount count = {.extra = told->strays};
    for (int i = 0; i < LIMB_COUNT; ++i) {
        const ToldLimb* const limb = &told->limbs[i];
        count.written += limb->struck ? limb->written : 0;
        count.missed += limb->struck ? limb->missed : 0;
        count.extra += limb->extra;
    }
    return count;
}

bool heardwords_elsewhere(const Told* const told)
{
    const HeardCount count = heardwords_count(told);
    double spread = 0.0;
    for (int i = 0; i < LIMB_COUNT; ++i) {
        spread += told->limbs[i].sd_ms * told->limbs[i].struck;
    }
    return 2 * (count.missed + count.extra) > count.written ||
           spread > elsewhere_ms * (count.written - count.missed);
}
