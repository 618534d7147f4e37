// SPDX-License-Identifier: ISC
/* painter.h - from the view to the pane: the still picture and its lit copy are
   painted by Cairo only when something changed; what moves is cut from them. */
#pragma once

#include "../desk/model.h"
#include "../pane/pane.h"

#include <cairo.h>

typedef struct {
    cairo_surface_t* layers[PANE_LAYERS];
    int width; /* real pixels; 0: no surfaces yet */
    int height;
} Painter;

/* Shows the desk's view in the pane: repaints what is out of date, and moves the
   rest.  False if there is no memory for the pictures; the pane then shows what it
   had. */
bool painter_show(Painter* painter, Model* model, Pane* pane, int width, int height);

void painter_free(Painter* painter);
