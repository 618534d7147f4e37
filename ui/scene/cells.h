// SPDX-License-Identifier: ISC
/* cells.h - pages of dials: seven columns, two rows, where dial.h's table has them. */
#pragma once

#include "target_list.h"

/* TargetsOf: a page's dials, or the words of one; with what else stands on Output; what a
   figure is edited by, and its rows in the staff. */
void cells_targets(const View* view, const Geometry* geometry, TargetList* list);
void cells_output_targets(const View* view, const Geometry* geometry, TargetList* list);
void cells_edit_targets(const View* view, const Geometry* geometry, TargetList* list);

/* The dial of a panel that stands in a cell of its table; CONTROL_COUNT if none does. */
int cells_control(Panel panel, int column, int row);

/* True if a page has a second row, which small windows show in the first one's place. */
bool cells_have_rows(Panel panel);

/* The row that a small window shows. */
int cells_row(const View* view);
