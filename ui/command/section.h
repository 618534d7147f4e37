// SPDX-License-Identifier: ISC
/* section.h - options of a section of the song, as typed: the one that options now speak of, and
   the next where a groove or preset begins it.  Each is the `take` of a row in options.c: false,
   with a message, if it can't be. */
#pragma once

#include "request.h"

bool section_groove(Request* request, const char* value);
bool section_preset(Request* request, const char* value);
bool section_hands(Request* request, const char* value);
bool section_feet(Request* request, const char* value);
bool section_turnaround(Request* request, const char* value);
bool section_kit(Request* request, const char* value);
bool section_bars(Request* request, const char* value);
bool section_tempo(Request* request, const char* value);
bool section_meter(Request* request, const char* value);
bool section_set(Request* request, const char* value);
bool section_left_handed(Request* request, const char* value);
bool section_click(Request* request, const char* value);
bool section_ride_on(Request* request, const char* value);
bool section_count_in(Request* request, const char* value);
