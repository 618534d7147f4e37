// SPDX-License-Identifier: ISC
#include "limb_lines.h"

#include <stdlib.h>
#include <string.h>

enum { GRID_MOST = 16, SPACING_MOST = 3, STEPS_MOST = 16 * 1024 * 1024 }; /* as a file has */

static const char signs[] = {[LEVEL_REST] = '.',   [LEVEL_GHOST] = 'g', [LEVEL_NORMAL] = 'o',
                             [LEVEL_ACCENT] = 'O', [LEVEL_FLAM] = 'f',  [LEVEL_DRAG] = 'd'};

_Static_assert(sizeof signs == LEVEL_DRAG + 1, "each level has a sign");

/* A grid as a line may have it. */
typedef struct {
    int64_t step; /* ticks; 0: none */
    int grid;
    int over;
} Raster;

/* The work at hand. */
typedef struct {
    const Figure* figure;
    bool said[FIGURE_STROKES_MAX]; /* strokes that stand in a line already */
    int count;
    Raster rasters[LIMB_LINES_MAX];
    uint32_t first[LIMB_LINES_MAX]; /* the stroke that a line was begun for */
    bool bends[LIMB_LINES_MAX];
} Work;

/* The raster number `index` of all, plain ones first; a step of 0 if there is none. */
static Raster raster(const int index)
{
    const int over = index / GRID_MOST + 1;
    const int grid = index % GRID_MOST + 1;
    return (Raster){figure_step_ticks(grid, over), grid, over};
}

static bool same_line(const Stroke a, const Stroke b)
{
    return a.limb == b.limb && a.voice == b.voice && a.bends == b.bends;
}

/* Whole steps of a raster in the figure. */
static int64_t steps_in(const Figure* const figure, const Raster raster)
{
    return figure->cycle_ticks / raster.step;
}

static bool says(const Figure* const figure, const Raster raster, const Stroke stroke)
{
    return stroke.tick % raster.step == 0 && stroke.tick / raster.step < steps_in(figure, raster);
}

static bool usable(const Figure* const figure, const Raster raster)
{
    return raster.step && raster.step % figure->step_ticks == 0 && steps_in(figure, raster) > 0 &&
           steps_in(figure, raster) <= STEPS_MOST;
}

/* Strokes like `first` that are not said yet and that the raster can say. */
static uint32_t sayable(const Work* const work, const Raster raster, const uint32_t first)
{
    const Figure* const figure = work->figure;
    uint32_t count = 0;
    for (uint32_t i = first; i < figure->stroke_count; ++i) {
        count += !work->said[i] && same_line(figure->strokes[i], figure->strokes[first]) &&
                 says(figure, raster, figure->strokes[i]);
    }
    return count;
}

/* The finest of those rasters that say most of what is like `first`; the finer is
   the better as long as no other line has the figure's own step. */
static Raster best_raster(const Work* const work, const uint32_t first)
{
    const Figure* const figure = work->figure;
    Raster best = {0, 0, 0};
    uint32_t most = 0;
    for (int i = 0; i < GRID_MOST * GRID_MOST; ++i) {
        const Raster next = raster(i);
        if (!usable(figure, next) ||
            figure_grid_bends(next.grid, next.over) != figure->strokes[first].bends ||
            !says(figure, next, figure->strokes[first])) {
            continue;
        }
        const uint32_t count = sayable(work, next, first);
        if (count > most || (count == most && next.step < best.step)) {
            best = next;
            most = count;
        }
    }
    return best;
}

static bool add_line(Work* const work, const Raster raster, const uint32_t first)
{
    if (!raster.step || work->count == LIMB_LINES_MAX) {
        return false;
    }
    const Figure* const figure = work->figure;
    work->rasters[work->count] = raster;
    work->first[work->count] = first;
    work->bends[work->count++] = figure->strokes[first].bends;
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        work->said[i] |= same_line(figure->strokes[i], figure->strokes[first]) &&
                         says(figure, raster, figure->strokes[i]);
    }
    return true;
}

static bool cover(Work* const work)
{
    for (uint32_t i = 0; i < work->figure->stroke_count; ++i) {
        if (!work->said[i] && !add_line(work, best_raster(work, i), i)) {
            return false;
        }
    }
    return true;
}

/* What the lines together give a figure. */
typedef struct {
    int64_t step;
    bool full; /* one of them is as long as the figure */
} Sum;

static Sum sum_of(const Work* const work)
{
    Sum sum = {0, false};
    for (int i = 0; i < work->count; ++i) {
        sum.step = common_divisor(work->rasters[i].step, sum.step);
        sum.full |= work->figure->cycle_ticks % work->rasters[i].step == 0;
    }
    return sum;
}

static bool whole(const Work* const work)
{
    const Sum sum = sum_of(work);
    return sum.full && sum.step == work->figure->step_ticks;
}

/* The raster that brings the lines nearest to the figure's length and step. */
static Raster best_rests(const Work* const work)
{
    const Sum sum = sum_of(work);
    Raster best = {0, 0, 0};
    int64_t least = INT64_MAX;
    for (int i = 0; i < GRID_MOST * GRID_MOST; ++i) {
        const Raster next = raster(i);
        const bool fits =
            usable(work->figure, next) && (sum.full || work->figure->cycle_ticks % next.step == 0);
        const int64_t step = fits ? common_divisor(next.step, sum.step) : INT64_MAX;
        if (step < least) {
            least = step;
            best = next;
        }
    }
    return best;
}

/* What only rests said, such as a longer line: lines of them. */
static bool add_rests(Work* const work)
{
    while (!whole(work)) {
        const Raster next = best_rests(work);
        if (!next.step || work->count == LIMB_LINES_MAX) {
            return false;
        }
        work->rasters[work->count] = next;
        work->first[work->count++] = UINT32_MAX;
    }
    return true;
}

/* Every stroke of the line on a coarser raster? */
static bool says_all(const Work* const work, const int line, const Raster coarser)
{
    const Figure* const figure = work->figure;
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        if (same_line(figure->strokes[i], figure->strokes[work->first[line]]) &&
            says(figure, work->rasters[line], figure->strokes[i]) &&
            !says(figure, coarser, figure->strokes[i])) {
            return false;
        }
    }
    return true;
}

/* Where tuplets stand beside sixteenths their common grid is hard to read: each
   line gets the coarsest raster that leaves the figure what it is. */
static void coarsen(Work* const work, const int line)
{
    const Raster finest = work->rasters[line];
    Raster best = finest;
    for (int i = 0; i < GRID_MOST * GRID_MOST; ++i) {
        const Raster next = raster(i);
        if (!usable(work->figure, next) || next.step <= best.step ||
            figure_grid_bends(next.grid, next.over) != work->bends[line] ||
            next.step % finest.step != 0) {
            continue;
        }
        work->rasters[line] = finest;
        if (says_all(work, line, next)) {
            work->rasters[line] = next;
            best = whole(work) ? next : best;
        }
    }
    work->rasters[line] = best;
}

/* True if all lines share one grid: as people write it. */
static bool alike(const Work* const work)
{
    for (int i = 1; i < work->count; ++i) {
        if (work->rasters[i].step != work->rasters[0].step) {
            return false;
        }
    }
    return true;
}

/* A space after each quarter note, or each turn of the grid; | after each bar. */
static size_t put_spaces(const Figure* const figure, const Raster raster, const int64_t step,
                         char* const at)
{
    const int64_t bar = figure->bars > 1 ? figure->cycle_ticks / figure->bars : 0;
    const bool bar_line = bar && step && step * raster.step % bar == 0;
    const bool space = step && step % raster.grid == 0;
    const char* const spaces = bar_line ? " | " : space ? " " : "";
    const size_t length = strlen(spaces);
    memcpy(at, spaces, length + 1);
    return length;
}

/* A stroke that an earlier line of the same kind says is a rest in later ones. */
static bool said_before(const Work* const work, const int line, const int64_t tick)
{
    for (int i = 0; i < line; ++i) {
        if (work->first[i] != UINT32_MAX && work->first[line] != UINT32_MAX &&
            same_line(work->figure->strokes[work->first[i]],
                      work->figure->strokes[work->first[line]]) &&
            tick % work->rasters[i].step == 0 &&
            tick / work->rasters[i].step < steps_in(work->figure, work->rasters[i])) {
            return true;
        }
    }
    return false;
}

static char sign_at(const Work* const work, const int line, const int64_t tick)
{
    const Figure* const figure = work->figure;
    const bool rests = work->first[line] == UINT32_MAX || said_before(work, line, tick);
    uint32_t i = rests ? figure->stroke_count : figure_first_from(figure, tick);
    for (; i < figure->stroke_count && figure->strokes[i].tick == tick; ++i) {
        if (same_line(figure->strokes[i], figure->strokes[work->first[line]])) {
            return signs[figure->strokes[i].level];
        }
    }
    return '.';
}

static bool write_line(const Work* const work, const int line, LimbLine* const written)
{
    const Raster raster = work->rasters[line];
    const uint32_t first = work->first[line] == UINT32_MAX ? 0 : work->first[line];
    const Stroke stroke = work->figure->strokes[first];
    const int64_t count = steps_in(work->figure, raster);
    char* const steps = calloc((size_t)count * (SPACING_MOST + 1) + 1, 1);
    *written = (LimbLine){stroke.limb, stroke.voice, raster.grid, raster.over, steps};
    size_t at = 0;
    for (int64_t step = 0; steps && step < count; ++step) {
        const int64_t tick = step * raster.step;
        at += put_spaces(work->figure, raster, step, &steps[at]);
        steps[at++] = sign_at(work, line, tick);
    }
    return steps;
}

/* Lines in order of limb, as in a staff; the order means nothing to readers. */
static bool write_lines(const Work* const work, LimbLines* const lines)
{
    bool good = true;
    lines->count = 0;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        for (int i = 0; i < work->count; ++i) {
            const uint32_t first = work->first[i] == UINT32_MAX ? 0 : work->first[i];
            if (work->figure->strokes[first].limb == limb) {
                good &= write_line(work, i, &lines->lines[lines->count++]);
            }
        }
    }
    return good;
}

void limb_lines_free(LimbLines* const lines)
{
    for (int i = 0; i < lines->count; ++i) {
        free(lines->lines[i].steps);
    }
    lines->count = 0;
}

bool limb_lines(const Figure* const figure, LimbLines* const lines)
{
    lines->count = 0;
    Figure checked = *figure;
    checked.id = 1; /* one that is to be numbered yet is as good */
    if (!figure_valid(&checked)) {
        return false;
    }
    Work work = {.figure = figure};
    if (!cover(&work) || !add_rests(&work)) {
        return false;
    }
    for (int i = 0; i < work.count && !alike(&work); ++i) {
        if (work.first[i] != UINT32_MAX) {
            coarsen(&work, i);
        }
    }
    if (!write_lines(&work, lines)) {
        limb_lines_free(lines);
        return false;
    }
    return true;
}
