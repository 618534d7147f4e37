// SPDX-License-Identifier: ISC
/* pads.h - which strokes a played key can be meant for: the kit map backwards, by what is
   struck.  A hat is a hat however open, a crash any of the crashes, a tom any tom: which of
   them isn't judged.  Two limbs on one key are one stream; the written strokes tell them apart.
   Pure. */
#pragma once

#include "../written/library.h"

typedef enum {
    PAD_KICK,      /* both feet, or the right one where the left has a key of its own */
    PAD_KICK_LEFT, /* only then */
    PAD_PEDAL,
    PAD_SNARE, /* and its rim */
    PAD_HATS,
    PAD_RIDE, /* and its bell */
    PAD_CRASHES,
    PAD_TOMS,
    PAD_COWBELL,
    PAD_STREAMS,
    PAD_NONE = PAD_STREAMS /* a choke, a click, a key of no voice */
} PadStream;

/* `split`: the left foot's kick has its own key, where the kit map has two. */
PadStream pads_of_key(const Kit* kit, bool split, uint8_t key);
PadStream pads_of_stroke(const Kit* kit, bool split, Stroke stroke);
