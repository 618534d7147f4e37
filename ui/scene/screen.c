// SPDX-License-Identifier: ISC
#include "screen.h"

#include "brush.h"
#include "handed.h"
#include "shortlist.h"
#include "vary_page.h"

#include <math.h>

/* The bar that plays, and what stands beside it. */
static void draw_now(const Brush* const brush)
{
    if (geometry_covers(brush->g)) {
        return;
    }
    draw_staff(brush);
    if (!brush->g->reads) {
        draw_limbs(brush);
    } else if (!brush->lit) {
        draw_reading(brush);
    }
}

void screen_draw(cairo_t* const cairo, const View* const view, const bool lit)
{
    const Geometry g = geometry_of(view);
    TargetList targets;
    targets_of(view, &g, &targets);
    const Brush brush = {cairo, view, &g, &view->palette, &targets, lit};
    ink_fill(cairo, (Box){0.0, 0.0, g.width, g.height}, view->palette.ground);
    draw_now(&brush);
    if (lit || g.reads) {
        return; /* of the lit picture the rest is never cut from */
    }
    draw_top(&brush);
    if (g.keys) {
        draw_keys(&brush);
    } else {
        draw_overview(&brush);
    }
    if (g.list && !g.kept) {
        draw_list(&brush);
    } else if (!g.list && !geometry_covers(&g)) {
        draw_cards(&brush);
    }
    draw_panel(&brush);
    draw_help(&brush);
}

/* A stroke is lit from its felt time on: long enough to see. */
static const double lit_seconds = 0.095;

typedef struct {
    const View* view;
    const Geometry* g;
    const SeenBar* bar;
    BarSpace space;
    Moving* moving;
    int count;
} Mover;

static void add(Mover* const mover, const Box box, const bool is_lit)
{
    if (mover->count < MOVING_MAX) {
        mover->moving[mover->count++] = (Moving){box, is_lit};
    }
}

static double x_of(const Mover* const mover, const double tick)
{
    return geometry_tick(mover->g, mover->space, tick);
}

static double half_width(const Mover* const mover, const SeenStroke* const stroke)
{
    double half = 13.0 * mover->g->scale;
    for (uint32_t i = 0; i < mover->bar->count; ++i) {
        const SeenStroke* const other = &mover->bar->strokes[i];
        const double apart = fabs(x_of(mover, other->felt) - x_of(mover, stroke->felt));
        if (other->limb == stroke->limb && apart > 0.5 && apart / 2.0 < half) {
            half = apart / 2.0;
        }
    }
    return half;
}

static void add_strokes(Mover* const mover)
{
    const View* const view = mover->view;
    const double lasts = lit_seconds * view->place.ticks_per_second;
    for (uint32_t i = 0; i < mover->bar->count; ++i) {
        const SeenStroke* const stroke = &mover->bar->strokes[i];
        const double age = view->now_tick - stroke->felt;
        if (age >= 0.0 && age < lasts && view->values[CONTROL_ENABLED] > 0.0f &&
            view->values[handed_switch(view, stroke->limb)] > 0.0f) {
            const double half = half_width(mover, stroke);
            const double top = mover->g->row_top[stroke->limb];
            add(mover,
                (Box){x_of(mover, stroke->felt) - half, top, 2.0 * half,
                      mover->g->row_bottom[stroke->limb] - top},
                true);
        }
    }
}

static void add_beat(Mover* const mover)
{
    const double beat = floor(mover->view->now_tick / mover->space.ticks);
    if (beat < 0.0 || beat >= mover->space.beats) {
        return;
    }
    add(mover,
        geometry_number(x_of(mover, beat * mover->space.ticks), mover->g->count_hands,
                        mover->g->count_size[PAIR_HANDS]),
        true);
}

/* Where the playhead is: without motion on the beat. */
static double head_tick(const Mover* const mover)
{
    const double beat = floor(mover->view->now_tick / mover->space.ticks) * mover->space.ticks;
    return mover->view->still ? beat : mover->view->now_tick;
}

/* True if x is on the page that is seen of the bar. */
static bool is_on_page(const Mover* const mover, const double x)
{
    return mover->space.seen >= mover->space.beats ||
           (x > mover->g->beat_1 - 8.0 && x < mover->g->right);
}

/* What moves in the bar that is shown large. */
static void add_shown(Mover* const mover)
{
    const Geometry* const g = mover->g;
    const double x = x_of(mover, head_tick(mover));
    if (!is_on_page(mover, x)) {
        return;
    }
    if (mover->view->place.rolling) {
        add_beat(mover);
    }
    if (mover->view->place.rolling && !mover->view->still) {
        add_strokes(mover);
    }
    Box row;
    const bool is_page = !g->list && !g->keys && !g->reads;
    if ((is_page && mover->view->panel == PANEL_VARY && vary_page_sounds(mover->view, g, &row)) ||
        (g->kept && shortlist_sounds(mover->view, g, &row))) {
        add(mover, (Box){x - 1.0, row.y + 1.0, 2.0, row.height - 2.0}, false);
    }
    add(mover, (Box){x - 1.0, g->row_top[0] - 2.0, 2.0, g->click + 6.0 - g->row_top[0]}, false);
}

/* In the overview, also while another bar is held. */
static void add_small_playhead(Mover* const mover)
{
    TargetList targets;
    targets_of(mover->view, mover->g, &targets);
    const int index = (int)(mover->view->place.bar - view_phrase(mover->view));
    const Target* const bar = targets_find(&targets, (TargetId){TARGET_BAR, index});
    if (bar) {
        const Box head = geometry_small(bar->box).playhead;
        const double share = head_tick(mover) / (mover->space.ticks * mover->space.beats);
        add(mover, (Box){head.x + head.width * share - 1.0, head.y, 2.0, head.height}, false);
    }
}

int screen_moving(const View* const view, Moving moving[MOVING_MAX])
{
    const Geometry g = geometry_of(view);
    const SeenBar* const bar = view_bar(view, view->place.bar);
    if (!bar || !view->has_place || geometry_covers(&g)) {
        return 0;
    }
    Mover mover = {view, &g, bar, geometry_bar(&g, bar->meter), moving, 0};
    if (view_shown(view) == view->place.bar) {
        add_shown(&mover);
    }
    if (view_shown(view) == view->place.bar || view->held) {
        add_small_playhead(&mover);
    }
    return mover.count;
}

void screen_draw_all(cairo_t* const cairo, const View* const view)
{
    Moving moving[MOVING_MAX];
    const int count = screen_moving(view, moving);
    screen_draw(cairo, view, false);
    cairo_save(cairo);
    for (int i = 0; i < count; ++i) {
        if (moving[i].is_lit) {
            const Box box = moving[i].box;
            cairo_rectangle(cairo, box.x, box.y, box.width, box.height);
        }
    }
    cairo_clip(cairo);
    screen_draw(cairo, view, true);
    cairo_restore(cairo);
    for (int i = 0; i < count; ++i) {
        if (!moving[i].is_lit) {
            ink_fill(cairo, moving[i].box, view->palette.accent);
        }
    }
}
