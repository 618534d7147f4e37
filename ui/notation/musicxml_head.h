// SPDX-License-Identifier: ISC
/* musicxml_head.h - what stands before the notes: names, instruments, meter, tempo, swing.
   Inside the notation room. */
#pragma once

#include "musicxml.h"
#include "staff_voices.h"
#include "xml.h"

typedef struct {
    const NotationScore* score;
    Xml xml;
    int64_t grain; /* ticks of a division */
    char letter;   /* of the bar written last */
    StaffVoices voices;
} MusicXmlWriter;

/* All before the part. */
void musicxml_head_put(MusicXmlWriter* writer);

/* What the first bar begins with. */
void musicxml_head_put_bar(MusicXmlWriter* writer);

/* A direction-type of words; a direction is open. */
void musicxml_head_words(Xml* xml, const char* text);
