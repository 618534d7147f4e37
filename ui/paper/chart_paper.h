// SPDX-License-Identifier: ISC
/* chart_paper.h - a chart as the bytes of a file: PDF, SVG or PNG. */
#pragma once

#include "../file/bytes.h"
#include "../scene/sheet.h"

/* True for names that end in .pdf, .svg and .png. */
bool chart_paper_kind(const char* path);

/* Draws it as the path's ending says, which must be one of these.  NULL if it could, else why
   not; the caller frees the bytes. */
const char* chart_paper_make(const Sheet* sheet, const char* path, Bytes* file);
