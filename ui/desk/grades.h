// SPDX-License-Identifier: ISC
/* grades.h - how hard entries are, worked out when it is shown: a bank has some hundreds, each
   of which asks how it is played, and a window that opens shows two. */
#pragma once

#include "model.h"

/* Of every entry of a shelf. */
void grades_shelf(Model* model, EntryKind shelf);

/* Of hands and feet in the bar shown, for their cards. */
void grades_shown(Model* model);
