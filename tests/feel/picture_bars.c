// SPDX-License-Identifier: ISC
#include "picture_bars.h"

#include "picture_plot.h"

#include <stdio.h>

enum { PRINTED_BARS = 8, BARS_A_LINE = 4 };

bool picture_bars_is_open(const int key)
{
    return key == 46 || key == 26;
}

PictureChange picture_bars_change(const PictureTake* const written, const PictureTake* const take,
                                  const int limb, const int slot)
{
    const int before = written->key[limb][slot], now = take->key[limb][slot];
    const bool was_open = picture_bars_is_open(before), is_open = picture_bars_is_open(now);
    return !before && !now        ? PICTURE_REST
           : !before              ? PICTURE_ADDED
           : !now                 ? PICTURE_LEFT_OUT
           : is_open && !was_open ? PICTURE_OPENED
           : was_open && !is_open ? PICTURE_CLOSED
                                  : PICTURE_STRUCK;
}

double picture_bars_soft(void)
{
    return (picture_plot_band("loudness", "ghosts: mean", "snare").p50 +
            picture_plot_band("loudness", "normal: mean", "snare").p50) /
           2.0;
}

static bool is_of_part(const PictureTake* const take, const PicturePart part, const int limb,
                       const int slot, const double soft)
{
    const int velocity = take->struck[limb][slot];
    const bool is_strong_snare = limb == SNARE_LIMB && velocity >= soft;
    const bool of[PICTURE_PARTS] = {
        [PICTURE_ALL] = limb != PICTURE_CRASH,
        [PICTURE_KICK] = limb == KICK_LIMB,
        [PICTURE_GHOSTS] = limb == SNARE_LIMB && velocity < soft,
        [PICTURE_SNARE] = is_strong_snare,
        [PICTURE_CYMBAL] = limb == CYMBAL_LIMB,
        [PICTURE_BACKBEAT] = is_strong_snare && slot % 8 == 4,
    };
    return velocity && of[part];
}

/* Strokes of a part in a bar, in the next, and in both; `heard`: in both, of any loudness. */
typedef struct {
    int here, next, both, heard;
} PicturePair;

static PicturePair pair_of(const PictureTake* const take, const PicturePart part, const int bar)
{
    const double soft = picture_bars_soft();
    PicturePair pair = {0, 0, 0, 0};
    for (int limb = 0; limb < PICTURE_LIMBS; ++limb) {
        for (int slot = 16 * bar; slot < 16 * (bar + 1); ++slot) {
            const bool here = is_of_part(take, part, limb, slot, soft);
            const bool next = is_of_part(take, part, limb, slot + 16, soft);
            pair.here += here;
            pair.next += next;
            pair.both += here && next;
            pair.heard += here && take->struck[limb][slot + 16];
        }
    }
    return pair;
}

double picture_bars_likeness(const PictureTake* const take, const PicturePart part)
{
    double alike[WINDOW_BARS];
    int count = 0;
    for (int bar = 0; bar + 1 < WINDOW_BARS; ++bar) {
        const PicturePair pair = pair_of(take, part, bar);
        const int either = pair.here + pair.next - pair.both;
        alike[count] = either ? (double)pair.both / either : 0.0;
        count += either > 0;
    }
    return mean_of(alike, count);
}

double picture_bars_absent(const PictureTake* const take, const PicturePart part)
{
    int here = 0, heard = 0;
    for (int bar = 0; bar + 1 < WINDOW_BARS; ++bar) {
        const PicturePair pair = pair_of(take, part, bar);
        here += pair.here;
        heard += pair.heard;
    }
    return here ? 1.0 - (double)heard / here : NOTHING;
}

static void print_row(const PictureTake* const written, const PictureTake* const take,
                      const int limb, const int from)
{
    static const char signs[] = {
        [PICTURE_REST] = '.',     [PICTURE_STRUCK] = 'o', [PICTURE_ADDED] = '+',
        [PICTURE_LEFT_OUT] = '-', [PICTURE_OPENED] = '^', [PICTURE_CLOSED] = 'v'};
    const double soft = limb == SNARE_LIMB ? picture_bars_soft() : 0.0;
    for (int slot = from; slot < from + 16 * BARS_A_LINE; ++slot) {
        const PictureChange change = picture_bars_change(written, take, limb, slot);
        const bool is_soft = change == PICTURE_STRUCK && take->struck[limb][slot] < soft;
        printf("%s%c", slot % 16 == 0 ? "|" : "", is_soft ? 'g' : signs[change]);
    }
    printf("|\n");
}

static bool is_used(const PictureTake* const written, const PictureTake* const take, const int limb)
{
    bool used = false;
    for (int slot = 0; slot < 16 * PRINTED_BARS; ++slot) {
        used |= picture_bars_change(written, take, limb, slot) != PICTURE_REST;
    }
    return used;
}

void picture_bars_print(const PictureTake* const written, const PictureTake* const take)
{
    static const struct {
        int limb;
        const char* name;
    } rows[] = {{PICTURE_CRASH, "crash"}, {CYMBAL_LIMB, "hat"}, {PICTURE_TOM, "toms"},
                {SNARE_LIMB, "snare"},    {KICK_LIMB, "kick"},  {PICTURE_HAT_FOOT, "hat, foot"}};
    for (int from = 0; from < 16 * PRINTED_BARS; from += 16 * BARS_A_LINE) {
        printf("  bars %d to %d\n", from / 16 + 1, from / 16 + BARS_A_LINE);
        for (unsigned i = 0; i < sizeof rows / sizeof *rows; ++i) {
            if (is_used(written, take, rows[i].limb)) {
                printf("  %-10s", rows[i].name);
                print_row(written, take, rows[i].limb, from);
            }
        }
    }
}
