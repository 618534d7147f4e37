// SPDX-License-Identifier: ISC
#include "layout.h"

bool layout_regrid_equal(const Regrid a, const Regrid b)
{
    return a.grid == b.grid && a.cycle == b.cycle && a.shift == b.shift;
}

Layout layout_make(const Figure* const figure, const Regrid regrid)
{
    const int64_t written = figure->cycle_ticks / figure->step_ticks;
    const int64_t step = regrid.grid > 0 ? TICKS_PER_QUARTER / regrid.grid : figure->step_ticks;
    const int64_t cycle = regrid.cycle > 0 ? regrid.cycle : written;
    const bool same_length = step == figure->step_ticks && cycle == written;
    return (Layout){.figure = figure,
                    .step = step,
                    .written = written,
                    .cycle = cycle,
                    .shift = floor_mod(regrid.shift, cycle),
                    .bars = same_length ? figure->bars : 0,
                    .regridded = step != figure->step_ticks,
                    .bends = figure_grid_bends(regrid.grid, 1)};
}

int64_t layout_ticks(const Layout* const layout)
{
    return layout->cycle * layout->step;
}

static void add_step(const Layout* const layout, const int64_t step, const int64_t tick,
                     StrokeList* const list)
{
    const Figure* const figure = layout->figure;
    const int64_t source = floor_mod(step - layout->shift, layout->cycle) % layout->written;
    const int64_t written_tick = source * figure->step_ticks;
    uint32_t i = figure_first_from(figure, written_tick);
    for (; i < figure->stroke_count && figure->strokes[i].tick == written_tick; ++i) {
        Stroke stroke = figure->strokes[i];
        stroke.tick = tick;
        stroke.bends = layout->regridded ? layout->bends : stroke.bends;
        stroke_list_add(list, stroke);
    }
}

/* As written the strokes stand ready, whatever fine steps lie between them. */
static void add_as_written(const Layout* const layout, const int64_t from, const int64_t to,
                           const int64_t offset, StrokeList* const list)
{
    const Figure* const figure = layout->figure;
    for (uint32_t i = figure_first_from(figure, from); i < figure->stroke_count; ++i) {
        Stroke stroke = figure->strokes[i];
        if (stroke.tick >= to) {
            break;
        }
        stroke.tick += offset;
        stroke_list_add(list, stroke);
    }
}

void layout_strokes(const Layout* const layout, const int64_t from, const int64_t to,
                    const int64_t offset, StrokeList* const list)
{
    if (!layout->regridded && layout->cycle == layout->written && !layout->shift) {
        add_as_written(layout, from, to, offset, list);
        return;
    }
    int64_t step = (from + layout->step - 1) / layout->step;
    for (; step < layout->cycle && step * layout->step < to; ++step) {
        add_step(layout, step, step * layout->step + offset, list);
    }
}
