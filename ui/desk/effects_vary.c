// SPDX-License-Identifier: ISC
/* Effects on the page of variations. */
#include "effects.h"

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
