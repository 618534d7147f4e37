// SPDX-License-Identifier: ISC
#include "controls.h"

#define CONTROL_ROW(name, symbol, least, most, normal) {symbol, least, most, normal, false},
#define SELECTION_ROW(name, symbol, least, most, normal) {symbol, least, most, normal, true},
const ControlRow control_rows[CONTROL_COUNT] = {CONTROL_ROWS(CONTROL_ROW, SELECTION_ROW)};
#undef CONTROL_ROW
#undef SELECTION_ROW

#define READOUT_ROW(name, symbol, least, most) {symbol, least, most, least, false},
const ControlRow readout_rows[READOUT_COUNT] = {READOUTS(READOUT_ROW)};
#undef READOUT_ROW

#define KIND_CONTROL(NAME, name, class, Type, type, CONTROL, ...)                                  \
    [ENTRY_##NAME] = CONTROL_##CONTROL,
const Control kind_controls[ENTRY_KINDS] = {ENTRY_KIND_ROWS(KIND_CONTROL)};
#undef KIND_CONTROL

/* Every id can be picked. */
#define CONTROL_MOST(name, symbol, least, most, normal) MOST_##name = (most),
enum { CONTROLS(CONTROL_MOST) };
#undef CONTROL_MOST
#define PICKS_ALL(NAME, name, class, Type, type, CONTROL, ...)                                     \
    _Static_assert((int)MOST_##CONTROL == (int)ID_MOST, "a kind's control picks every id");
ENTRY_KIND_ROWS(PICKS_ALL)
#undef PICKS_ALL
_Static_assert((int)MOST_KEPT == (int)KEPT_MAX, "each value is a slot");
