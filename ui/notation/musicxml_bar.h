// SPDX-License-Identifier: ISC
/* musicxml_bar.h - the notes of a bar.  Inside the notation room. */
#pragma once

#include "staff_voices.h"
#include "xml.h"

/* `grain`: ticks of a division; all that is written are multiples of it. */
void musicxml_bar_notes(Xml* xml, const StaffVoices* voices, const StrokeList* strokes,
                        const Sheet* sheet, int64_t grain);
