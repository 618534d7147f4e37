// SPDX-License-Identifier: ISC
/* soundfont.h - where a General MIDI soundfont is on this machine. */
#pragma once

#include <stdbool.h>

enum { SOUNDFONT_ROOM = 4096 };

/* The file that was asked for, or if that is NULL the one sought in the usual
   folders: soundfonts, sounds/sf2 and sounds/sf3 under the data folders of the
   XDG Base Directory Specification, the user's first; a default-GM before any
   other; one without drums is passed by.  False, with a message that says what to install, if there is none. */
bool soundfont_find(const char* asked, char path[SOUNDFONT_ROOM]);
