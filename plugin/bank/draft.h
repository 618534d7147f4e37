// SPDX-License-Identifier: ISC
/* draft.h - drafts from their texts.  Inside the bank room. */
#pragma once

#include "messages.h"
#include "overlay.h"

/* The draft of a kind that a text is; NULL, with the reason in `why`, if it isn't one. */
Single* draft_read(FigureKind kind, const char* text, size_t size, char why[SINGLE_WHY_ROOM]);

/* Those of a session's texts, by kind, "" for none.  What can't be read is told, where
   `messages` is not NULL. */
Drafts draft_all(char* const texts[FIGURE_KINDS], Messages* messages);
