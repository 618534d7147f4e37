// SPDX-License-Identifier: ISC
/* engraver.h - LilyPond, where it is installed, makes a PDF of what it can read. */
#pragma once

#include "../file/bytes.h"

enum { ENGRAVER_WHY_ROOM = 256 };

/* Appends the PDF.  It works in a folder of its own under $TMPDIR, which is gone afterwards.
   False, with the reason and what to do in `why`. */
bool engraver_pdf(const Bytes* source, Bytes* pdf, char why[ENGRAVER_WHY_ROOM]);
