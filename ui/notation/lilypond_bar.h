// SPDX-License-Identifier: ISC
/* lilypond_bar.h - the notes of one bar, voice beside voice. */
#pragma once

#include "../file/bytes.h"
#include "staff_voices.h"

/* LilyPond's name of a voice (its manual, "Percussion notes"). */
const char* lilypond_bar_name(Voice voice);

/* Appends printf-like text. */
void lilypond_bar_put(Bytes* file, const char* format, ...) __attribute__((format(printf, 2, 3)));

void lilypond_bar_notes(Bytes* file, const StaffVoices* voices, const StrokeList* strokes,
                        const Sheet* sheet);
