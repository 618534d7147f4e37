// SPDX-License-Identifier: ISC
/* uris.h - our names, and the numbers that the host gives to all we use. */
#pragma once

#include "../engine/written/kinds.h"

#include <lv2/urid/urid.h>

#define FOURLIMB_GROOVE_URI "urn:fourlimb:groove"
#define FOURLIMB_TERMS "urn:fourlimb:terms#"

typedef struct {
    LV2_URID atom_Blank;
    LV2_URID atom_Bool;
    LV2_URID atom_Double;
    LV2_URID atom_Float;
    LV2_URID atom_Int;
    LV2_URID atom_Long;
    LV2_URID atom_Object;
    LV2_URID atom_Sequence;
    LV2_URID atom_String;
    LV2_URID atom_Tuple;
    LV2_URID atom_URID;
    LV2_URID atom_Vector;
    LV2_URID atom_eventTransfer;
    LV2_URID midi_MidiEvent;
    LV2_URID time_Position;
    LV2_URID time_bar;
    LV2_URID time_barBeat;
    LV2_URID time_beat;
    LV2_URID time_beatUnit;
    LV2_URID time_beatsPerBar;
    LV2_URID time_beatsPerMinute;
    LV2_URID time_frame;
    LV2_URID time_speed;
    LV2_URID fl_Look;
    LV2_URID fl_Message;
    LV2_URID fl_ToldSection;
    LV2_URID fl_bankMessages;
    LV2_URID fl_bar;
    LV2_URID fl_droppedStrokes;
    LV2_URID fl_noteIn;
    LV2_URID fl_place;
    LV2_URID fl_entryNames;
    LV2_URID fl_drafts[FIGURE_KINDS]; /* fl:handsDraft and so on */
    LV2_URID fl_ownEntries;
    LV2_URID fl_sessionEntries;
    LV2_URID fl_refused;
    LV2_URID fl_deleteEntry;
    LV2_URID fl_deletedEntry;
    LV2_URID fl_saveFigure;
    LV2_URID fl_saveGroove;
    LV2_URID fl_saveKit;
    LV2_URID fl_savedFigure;
    LV2_URID fl_savedGroove;
    LV2_URID fl_savedKit;
    LV2_URID fl_sectionControls;
    LV2_URID fl_sectionPlace;
    LV2_URID fl_unreadEntries;
    LV2_URID fl_wants;
    LV2_URID fl_keptSelections;
    LV2_URID fl_unreadKept;
    LV2_URID fl_keep; /* and what else becomes of what is kept */
    LV2_URID fl_nameKept;
    LV2_URID fl_dropKept;
    LV2_URID fl_takeBackKept;
    LV2_URID fl_useKept;
} Uris;

Uris uris_map(LV2_URID_Map* map);
