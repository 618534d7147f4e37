// SPDX-License-Identifier: ISC
#include "uris.h"

#include <lv2/atom/atom.h>
#include <lv2/midi/midi.h>
#include <lv2/time/time.h>

#define MAP_DRAFT(NAME, name, ...) [FIGURE_##NAME] = map->map(h, FOURLIMB_TERMS #name "Draft"),

Uris uris_map(LV2_URID_Map* const map)
{
    void* const h = map->handle;
    return (Uris){
        .atom_Blank = map->map(h, LV2_ATOM__Blank),
        .atom_Bool = map->map(h, LV2_ATOM__Bool),
        .atom_Double = map->map(h, LV2_ATOM__Double),
        .atom_Float = map->map(h, LV2_ATOM__Float),
        .atom_Int = map->map(h, LV2_ATOM__Int),
        .atom_Long = map->map(h, LV2_ATOM__Long),
        .atom_Object = map->map(h, LV2_ATOM__Object),
        .atom_Sequence = map->map(h, LV2_ATOM__Sequence),
        .atom_String = map->map(h, LV2_ATOM__String),
        .atom_Tuple = map->map(h, LV2_ATOM__Tuple),
        .atom_URID = map->map(h, LV2_ATOM__URID),
        .atom_Vector = map->map(h, LV2_ATOM__Vector),
        .atom_eventTransfer = map->map(h, LV2_ATOM__eventTransfer),
        .midi_MidiEvent = map->map(h, LV2_MIDI__MidiEvent),
        .time_Position = map->map(h, LV2_TIME__Position),
        .time_bar = map->map(h, LV2_TIME__bar),
        .time_barBeat = map->map(h, LV2_TIME__barBeat),
        .time_beat = map->map(h, LV2_TIME__beat),
        .time_beatUnit = map->map(h, LV2_TIME__beatUnit),
        .time_beatsPerBar = map->map(h, LV2_TIME__beatsPerBar),
        .time_beatsPerMinute = map->map(h, LV2_TIME__beatsPerMinute),
        .time_frame = map->map(h, LV2_TIME__frame),
        .time_speed = map->map(h, LV2_TIME__speed),
        .fl_Look = map->map(h, FOURLIMB_TERMS "Look"),
        .fl_Message = map->map(h, FOURLIMB_TERMS "Message"),
        .fl_ToldSection = map->map(h, FOURLIMB_TERMS "ToldSection"),
        .fl_bankMessages = map->map(h, FOURLIMB_TERMS "bankMessages"),
        .fl_bar = map->map(h, FOURLIMB_TERMS "bar"),
        .fl_droppedStrokes = map->map(h, FOURLIMB_TERMS "droppedStrokes"),
        .fl_noteIn = map->map(h, FOURLIMB_TERMS "noteIn"),
        .fl_place = map->map(h, FOURLIMB_TERMS "place"),
        .fl_entryNames = map->map(h, FOURLIMB_TERMS "entryNames"),
        .fl_drafts = {FIGURE_KIND_ROWS(MAP_DRAFT)},
        .fl_ownEntries = map->map(h, FOURLIMB_TERMS "ownEntries"),
        .fl_sessionEntries = map->map(h, FOURLIMB_TERMS "sessionEntries"),
        .fl_refused = map->map(h, FOURLIMB_TERMS "refused"),
        .fl_deleteEntry = map->map(h, FOURLIMB_TERMS "deleteEntry"),
        .fl_deletedEntry = map->map(h, FOURLIMB_TERMS "deletedEntry"),
        .fl_saveFigure = map->map(h, FOURLIMB_TERMS "saveFigure"),
        .fl_saveGroove = map->map(h, FOURLIMB_TERMS "saveGroove"),
        .fl_saveKit = map->map(h, FOURLIMB_TERMS "saveKit"),
        .fl_savedFigure = map->map(h, FOURLIMB_TERMS "savedFigure"),
        .fl_savedGroove = map->map(h, FOURLIMB_TERMS "savedGroove"),
        .fl_savedKit = map->map(h, FOURLIMB_TERMS "savedKit"),
        .fl_sectionControls = map->map(h, FOURLIMB_TERMS "sectionControls"),
        .fl_sectionPlace = map->map(h, FOURLIMB_TERMS "sectionPlace"),
        .fl_unreadEntries = map->map(h, FOURLIMB_TERMS "unreadEntries"),
        .fl_wants = map->map(h, FOURLIMB_TERMS "wants"),
        .fl_keptSelections = map->map(h, FOURLIMB_TERMS "keptSelections"),
        .fl_unreadKept = map->map(h, FOURLIMB_TERMS "unreadKept"),
        .fl_keep = map->map(h, FOURLIMB_TERMS "keep"),
        .fl_nameKept = map->map(h, FOURLIMB_TERMS "nameKept"),
        .fl_dropKept = map->map(h, FOURLIMB_TERMS "dropKept"),
        .fl_takeBackKept = map->map(h, FOURLIMB_TERMS "takeBackKept"),
        .fl_useKept = map->map(h, FOURLIMB_TERMS "useKept"),
    };
}
