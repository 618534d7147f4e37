// SPDX-License-Identifier: ISC
/* block.h - one block of an instance: controls and events in, MIDI and news out.  Audio
   thread; allocates nothing. */
#pragma once

#include "plugin.h"

/* Plays what the worker has made since, if anything; block_run begins with it. */
void block_take_snapshot(Plugin* plugin);

void block_run(Plugin* plugin, uint32_t frames);
