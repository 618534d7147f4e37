// SPDX-License-Identifier: ISC
/* Effects on the page of variations, and in the shortlist. */
#include "effects.h"

#include "shortlist.h"
#include "varying.h"

void effects_vary(Model* const model, const Press press)
{
    (void)press;
    varying_open(model);
}

void effects_vary_walk(Model* const model, const Press press)
{
    varying_walk(model, press.which);
}

void effects_vary_pages(Model* const model, const Press press)
{
    varying_walk(model, press.which * varying_rows_seen(model));
}

void effects_vary_deepen(Model* const model, const Press press)
{
    (void)press;
    varying_deepen(model, !model->view.vary.is_deep);
}

void effects_vary_keep(Model* const model, const Press press)
{
    (void)press;
    varying_keep(model);
}

void effects_vary_leave(Model* const model, const Press press)
{
    (void)press;
    varying_leave(model);
}

/* ---- The shortlist */

void effects_shortlist(Model* const model, const Press press)
{
    (void)press;
    shortlist_open(model);
}

void effects_shortlist_walk(Model* const model, const Press press)
{
    shortlist_walk(model, press.which);
}
