// SPDX-License-Identifier: ISC
#include "groups.h"

enum { LEAST_BEATS = 5 };

typedef struct {
    int beats;
    int weight[SHEET_GROUPS_BEATS]; /* times `beats`, less their mean: a group more gains nothing */
} Weights;

/* Who keeps time groups it most clearly; then backbeats and kicks.  Ours, no source; tests
   hold it to what the bank's comments say of their bars. */
static int weight_of(const Stroke stroke)
{
    const int accent = stroke.level >= LEVEL_ACCENT;
    return stroke.limb == RIGHT_HAND   ? 1 + 3 * accent
           : stroke.limb == LEFT_HAND  ? accent
           : limb_is_foot(stroke.limb) ? accent
                                       : 0;
}

static Weights weights_of(const Sheet* const sheet)
{
    Weights weights = {.beats = (int)sheet->meter.beats_per_bar};
    const int64_t beat = meter_beat_ticks(sheet->meter);
    int all = 0;
    for (int row = 0; row < sheet->count; ++row) {
        const SheetBar* const bar = &sheet->rows[row];
        for (uint32_t i = 0; !bar->has_fill && i < bar->strokes.count; ++i) {
            const Stroke stroke = bar->strokes.strokes[i];
            if (stroke.tick % beat == 0) {
                const int weight = weight_of(stroke) * (bar->last - bar->first + 1);
                weights.weight[stroke.tick / beat] += weight;
                all += weight;
            }
        }
    }
    for (int beats = 0; beats < weights.beats; ++beats) {
        weights.weight[beats] = weights.weight[beats] * weights.beats - all;
    }
    return weights;
}

/* The best groups of all beats from each on; of equals threes come last. */
static void find(const Weights* const weights, Sheet* const sheet)
{
    int best[SHEET_GROUPS_BEATS + 1];
    uint8_t length[SHEET_GROUPS_BEATS + 1] = {0};
    const int never = -(1 << 28);
    best[weights->beats] = 0;
    for (int from = weights->beats - 1; from >= 0; --from) {
        best[from] = never;
        for (int beats = 2; beats <= 3 && from + beats <= weights->beats; ++beats) {
            if (best[from + beats] > never &&
                best[from + beats] + weights->weight[from] > best[from]) {
                best[from] = best[from + beats] + weights->weight[from];
                length[from] = (uint8_t)beats;
            }
        }
    }
    for (int from = 0; from < weights->beats; from += length[from]) {
        sheet->groups[sheet->group_count++] = length[from];
    }
}

static bool are_alike(const Sheet* const sheet)
{
    for (int i = 1; i < sheet->group_count; ++i) {
        if (sheet->groups[i] != sheet->groups[0]) {
            return false;
        }
    }
    return true;
}

void groups_find(Sheet* const sheet)
{
    const Meter meter = sheet->meter;
    const int beats = (int)meter.beats_per_bar;
    sheet->group_count = 0;
    if (meter.beat_unit >= 8 && beats == meter.beats_per_bar && beats >= LEAST_BEATS &&
        beats <= SHEET_GROUPS_BEATS) {
        const Weights weights = weights_of(sheet);
        find(&weights, sheet);
        sheet->group_count = are_alike(sheet) ? 0 : sheet->group_count;
    }
}
