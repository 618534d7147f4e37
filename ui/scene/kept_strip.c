// SPDX-License-Identifier: ISC
#include "kept_strip.h"

#include <math.h>
#include <stdio.h>

bool kept_strip_plays(const View* const view, const int index)
{
    return view->kept.playing == index + 1;
}

bool kept_strip_waits(const View* const view, const int index)
{
    return view->place.waiting && (int)view->values[CONTROL_KEPT] == index + 1 &&
           !kept_strip_plays(view, index);
}

int kept_strip_count(const View* const view)
{
    int count = 0;
    for (int i = 0; i < KEPT_MAX; ++i) {
        count += view->kept.rows[i].is_there;
    }
    return count;
}

static const double strip_height = 18.0;
static const double strip_word = 46.0; /* "kept" */

Box kept_strip_box(const Geometry* const g)
{
    const Box page = geometry_page_box(g);
    return (Box){page.x, page.y + page.height - strip_height, page.width, strip_height};
}

Box kept_strip_name(const Geometry* const g, const int index)
{
    const Box strip = kept_strip_box(g);
    const double word = g->compact ? 0.0 : strip_word;
    const double wide = (strip.width - word) / KEPT_LOT;
    return (Box){strip.x + word + wide * index, strip.y, wide, strip.height};
}

void kept_strip_targets(const View* const view, const Geometry* const g, TargetList* const list)
{
    for (int i = 0; i < KEPT_LOT; ++i) {
        const int slot = view->kept.lot + i;
        if (view->kept.rows[slot].is_there) {
            target_list_add(list, TARGET_KEPT, slot, GROUP_KEPT, kept_strip_name(g, i));
        }
    }
}

static void draw_strip_name(const Brush* const brush, const Target* const target)
{
    char number[16];
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const int index = target->id.index;
    const Box box = target->box;
    const double base = box.y + 13.0;
    const bool is_playing = kept_strip_plays(view, index);
    const Colour colour =
        is_playing || kept_strip_waits(view, index) ? colours->accent : colours->ink;
    snprintf(number, sizeof number, "%d", index + 1);
    const double wide = ink_text(brush->cairo, box.x + 2.0, base,
                                 brush_type(12.0, true, ALIGN_LEFT, colour), number);
    brush_fit(brush, box.x + wide + 7.0, base, box.width - wide - 10.0,
              brush_type(12.0, is_playing, ALIGN_LEFT,
                         brush_is_hovered(brush, target->id) ? colours->ink : colour),
              view->kept.rows[index].name);
    brush_focus(brush, target, 0.0);
}

void kept_strip_draw(const Brush* const brush)
{
    const Geometry* const g = brush->g;
    const Palette* const colours = brush->colours;
    const Box strip = kept_strip_box(g);
    const Type soft = brush_type(12.0, false, ALIGN_LEFT, colours->soft);
    const double y = floor(strip.y) + 0.5;
    ink_line(brush->cairo, strip.x, y, strip.x + strip.width, y, 1.0, colours->rule);
    if (!kept_strip_count(brush->view)) {
        ink_text_in(brush->cairo, strip.x, strip.y + 13.0, strip.width, soft,
                    "nothing is kept yet: S keeps what plays");
        return;
    }
    if (!g->compact) {
        ink_text(brush->cairo, strip.x, strip.y + 13.0, soft, "kept");
    }
    for (int i = 0; i < brush->targets->count; ++i) {
        if (brush->targets->targets[i].id.kind == TARGET_KEPT) {
            draw_strip_name(brush, &brush->targets->targets[i]);
        }
    }
}
