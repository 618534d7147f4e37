// SPDX-License-Identifier: ISC
/* A stroke that isn't written but the player's own is seen to be one: dashed stem, smaller
   head, near and far, on dark and light.  The sign is ours: no source. */
#include "../../ui/scene/brush.h"
#include "../help/check.h"
#include "compare.h"
#include "stage.h"

#include <math.h>
#include <string.h>

/* Where a stroke's stem is, and which way it goes. */
typedef struct {
    double x, line, tall;
    int up;
} Stem;

static Stem near_stem(const View* const view, const SeenBar* const bar,
                      const SeenStroke* const stroke)
{
    const Geometry g = geometry_of(view);
    const BarSpace space = geometry_bar(&g, bar->meter);
    return (Stem){g.beat_1 + space.beat * stroke->felt / space.ticks, g.line[stroke->limb],
                  brush_stem_height(&g, stroke), stroke->limb % 2 ? 1 : -1};
}

static Stem far_stem(const View* const view, const SeenBar* const bar,
                     const SeenStroke* const stroke)
{
    static TargetList targets;
    const Geometry g = geometry_of(view);
    targets_of(view, &g, &targets);
    const Target* const target =
        targets_find(&targets, (TargetId){TARGET_BAR, (int)(bar->bar - view->place.phrase)});
    const Box box = target ? target->box : (Box){0};
    const SmallPlaces at = geometry_small(box);
    const double ticks = (double)meter_bar_ticks(bar->meter);
    const double unit = (at.lines[1] - at.lines[0]) / 32.0;
    return (Stem){at.one + at.beats * stroke->felt / ticks, at.lines[stroke->limb / 2],
                  (3.0 + 12.0 * stroke->velocity / 127.0) * unit, stroke->limb % 2 ? 1 : -1};
}

/* Runs of pixels along the stem, beyond the head, that are other than where it is solid. */
static int gaps_of(cairo_surface_t* const solid, cairo_surface_t* const dashed, const Stem stem,
                   const double scale, const double head)
{
    int runs = 0;
    bool was = false;
    for (double way = head; way < stem.tall * scale; way += 1.0) {
        const int y = (int)floor(stem.line * scale + stem.up * way);
        bool is = false;
        for (int dx = -1; dx <= 1; ++dx) {
            const int x = (int)floor(stem.x * scale) + dx;
            is = is || compare_differs(compare_pixel(solid, x, y), compare_pixel(dashed, x, y), 64);
        }
        runs += is && !was;
        was = is;
    }
    return runs;
}

/* A limb's stroke of the bar shown that no other is near. */
static SeenStroke* stroke_of(Stage* const stage, const int limb, SeenBar** const bar)
{
    View* const view = &stage->model.view;
    *bar = &view->bars[view_shown(view) - view_phrase(view)];
    for (uint32_t i = 0; i < (*bar)->count; ++i) {
        SeenStroke* const stroke = &(*bar)->strokes[i];
        if (stroke->limb == limb && stroke->felt > TICKS_PER_QUARTER / 4 && !stroke->is_grace &&
            stroke->velocity > 50) {
            return stroke;
        }
    }
    return NULL;
}

static void check_scene(const char* const name)
{
    Stage* const stage = stage_play(stage_scene(name));
    const double scale = stage->model.fit.scale;
    cairo_surface_t* const solid = stage_picture(stage);
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        SeenBar* bar = NULL;
        SeenStroke* const stroke = stroke_of(stage, limb, &bar);
        check_case("%s, limb %d", name, limb);
        if (!CHECK(stroke)) {
            continue;
        }
        const Stem close = near_stem(&stage->model.view, bar, stroke);
        const Stem small = far_stem(&stage->model.view, bar, stroke);
        stroke->free = true;
        cairo_surface_t* const dashed = stage_picture(stage);
        stroke->free = false;
        cairo_surface_t* const again = stage_picture(stage);
        CHECK(gaps_of(solid, dashed, close, scale, 7.0 * scale) >= 2);
        CHECK(gaps_of(solid, dashed, small, scale, 1.0) >= 1);
        CHECK_INT(gaps_of(solid, again, close, scale, 7.0 * scale), 0);
        cairo_surface_destroy(dashed);
        cairo_surface_destroy(again);
    }
    cairo_surface_destroy(solid);
    stage_end(stage);
}

static void a_free_stroke_has_a_dashed_stem_near_and_far(void)
{
    check_scene("playing-dark");
    check_scene("playing-dark-2x");
    check_scene("large");
}

static void so_it_has_on_a_light_ground(void)
{
    check_scene("playing-light");
}

/* Pixels around the head that are other than the ground at the edge of the window. */
static int ink_of_head(cairo_surface_t* const picture, const Stem stem)
{
    const uint32_t ground = compare_pixel(picture, (int)stem.x + 9, (int)stem.line - 9 * stem.up);
    int ink = 0;
    for (int y = (int)stem.line - 7; y <= (int)stem.line + 7; ++y) {
        for (int x = (int)stem.x - 8; x <= (int)stem.x + 8; ++x) {
            ink += compare_differs(compare_pixel(picture, x, y), ground, 100);
        }
    }
    return ink;
}

static void its_head_is_smaller(void)
{
    Stage* const stage = stage_play(stage_scene("playing-dark"));
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        SeenBar* bar = NULL;
        SeenStroke* const stroke = stroke_of(stage, limb, &bar);
        if (CHECK(stroke)) {
            const Stem stem = near_stem(&stage->model.view, bar, stroke);
            cairo_surface_t* const written = stage_picture(stage);
            stroke->free = true;
            cairo_surface_t* const own = stage_picture(stage);
            stroke->free = false;
            check_case("limb %d: %d and %d pixels", limb, ink_of_head(own, stem),
                       ink_of_head(written, stem));
            CHECK(ink_of_head(own, stem) < 0.85 * ink_of_head(written, stem));
            CHECK(ink_of_head(own, stem) > 0.35 * ink_of_head(written, stem));
            cairo_surface_destroy(written);
            cairo_surface_destroy(own);
        }
    }
    stage_end(stage);
}

int main(void)
{
    RUN(a_free_stroke_has_a_dashed_stem_near_and_far);
    RUN(so_it_has_on_a_light_ground);
    RUN(its_head_is_smaller);
    return tests_end();
}
