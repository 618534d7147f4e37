// SPDX-License-Identifier: ISC
/* answers.h - what the plugin answers to edits: drafts in force, what was saved, what was
   refused, and the notes that a drummer's pads send. */
#pragma once

#include "model.h"

void answers_draft(Model* model, FigureKind kind, const char* text, size_t size);
void answers_saved(Model* model, int64_t id);
void answers_saved_groove(Model* model, int64_t id);
void answers_deleted(Model* model, int64_t id);
void answers_saved_kit(Model* model, int64_t id);
void answers_refused(Model* model, const char* why, size_t size);
void answers_note(Model* model, int note);
