// SPDX-License-Identifier: ISC
/* As pugl.h beside it, of Pugl's own pugl/gl.h. */
#pragma once

#include "pugl.h"

const PuglBackend* puglGlBackend(void);
PuglStatus puglEnterContext(PuglView* view);
PuglStatus puglLeaveContext(PuglView* view);
