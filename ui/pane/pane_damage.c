// SPDX-License-Identifier: ISC
/* What the next redraw has to draw, and where. */
#include "pane_inside.h"

bool pane_is_empty(const PaneRect rect)
{
    return rect.width <= 0 || rect.height <= 0;
}

static int least(const int a, const int b)
{
    return a < b ? a : b;
}

static int most(const int a, const int b)
{
    return a > b ? a : b;
}

PaneRect pane_within(const PaneRect rect, const int width, const int height)
{
    const int left = most(rect.x, 0);
    const int top = most(rect.y, 0);
    const int64_t right = (int64_t)rect.x + rect.width;
    const int64_t bottom = (int64_t)rect.y + rect.height;
    return (PaneRect){left, top, (int)(right < width ? right : width) - left,
                      (int)(bottom < height ? bottom : height) - top};
}

/* One rectangle around all: what moves is mostly in one place. */
void pane_damage(Pane* const pane, const PaneRect part)
{
    const PaneRect more = pane_within(part, pane->width, pane->height);
    const PaneRect old = pane->dirty ? pane->damage : (PaneRect){0};
    pane->dirty = true;
    if (pane_is_empty(more)) {
        pane->damage = old;
    } else if (pane_is_empty(old)) {
        pane->damage = more;
    } else {
        const int left = least(old.x, more.x);
        const int top = least(old.y, more.y);
        pane->damage = (PaneRect){left, top, most(old.x + old.width, more.x + more.width) - left,
                                  most(old.y + old.height, more.y + more.height) - top};
    }
}

void pane_damage_all(Pane* const pane)
{
    pane_damage(pane, (PaneRect){0, 0, pane->width, pane->height});
}

/* ---- Quads */

static bool same_rect(const PaneRect a, const PaneRect b)
{
    return a.x == b.x && a.y == b.y && a.width == b.width && a.height == b.height;
}

static bool same_number(const float a, const float b)
{
    return a <= b && a >= b;
}

static bool same_quad(const PaneQuad* const a, const PaneQuad* const b)
{
    return same_rect(a->place, b->place) && a->layer == b->layer &&
           same_rect(a->source, b->source) && same_number(a->red, b->red) &&
           same_number(a->green, b->green) && same_number(a->blue, b->blue) &&
           same_number(a->alpha, b->alpha);
}

/* A quad that one of both doesn't have is empty. */
static void replace_quad(Pane* const pane, const int i, const PaneQuad* const quad)
{
    if (i >= pane->quad_count || !quad || !same_quad(&pane->quads[i], quad)) {
        pane_damage(pane, i < pane->quad_count ? pane->quads[i].place : (PaneRect){0});
        pane_damage(pane, quad ? quad->place : (PaneRect){0});
    }
    if (quad) {
        pane->quads[i] = *quad;
    }
}

void pane_show(Pane* const pane, const PaneQuad* const quads, const int count)
{
    const int shown = least(most(count, 0), PANE_QUADS_MAX);
    for (int i = 0; i < most(shown, pane->quad_count); ++i) {
        replace_quad(pane, i, i < shown ? &quads[i] : NULL);
    }
    pane->quad_count = shown;
}
