// SPDX-License-Identifier: ISC
/* view.h - everything that the window shows, as plain values: what the plugin said,
   and where the person is.  The desk fills it, the scene draws it. */
#pragma once

#include "../../plugin/engine/groove/controls.h"
#include "../../plugin/engine/written/figure.h"
#include "../../plugin/engine/written/library.h"
#include "../../plugin/engine/written/swing.h"
#include "../../plugin/talk/seen.h"
#include "pages.h"
#include "palette.h"
#include "shortlist_view.h"

enum { ENTRY_TOLD_ROOM = 192 };

/* One thing that can be picked; texts are UTF-8 and not owned. */
typedef struct {
    int32_t id; /* the port's value: 0 as written, -1 none */
    const char* label;
    const char* comment;
    const char* family;
    int difficulty;             /* 1 to 5, 0 if not said, or not asked yet */
    bool is_graded;             /* it was asked: desk/grades.h */
    const Figure* figure;       /* NULL for grooves and kit maps */
    const Groove* groove;       /* NULL for all others */
    bool is_own;                /* the user's or the session's, not the factory's */
    char meter[16];             /* "7/8", of a groove; "" if not said, as the next two */
    char tempo[16];             /* "110-200" */
    int tempo_low;              /* the same in numbers, 0 if not said */
    int tempo_high;             /* likewise */
    char length[24];            /* "2 bars" */
    char told[ENTRY_TOLD_ROOM]; /* meter, grid and so on; "" where there is nothing to tell */
} Entry;

/* Entries of one family stand together. */
typedef struct {
    const Entry* entries;
    int count;
    Successors left; /* what plays in place of those that left the bank */
} Shelf;

/* What a person can point at. */
typedef enum {
    TARGET_NONE,
    TARGET_DIAL,      /* index: Control */
    TARGET_CLICK,     /* the click's switch beside its row; its dial is another */
    TARGET_CARD,      /* index: EntryKind; opens its list */
    TARGET_CARD_UP,   /* the entry before */
    TARGET_CARD_DOWN, /* the entry after */
    TARGET_PUT_BACK,  /* index: EntryKind; plays what the groove has; ENTRY_KINDS: all of it */
    TARGET_WORD,      /* index: of the words that are chosen from */
    TARGET_TAB,       /* index: Panel */
    TARGET_PAGE,      /* the panel's other row, where one shows */
    TARGET_SHOW,      /* index: ShowItem */
    TARGET_BAR,       /* index: of the phrase */
    TARGET_THEME,     /* the window's own colours */
    TARGET_OPTION,    /* index: OptionItem */
    TARGET_EDIT,      /* index: EditItem */
    TARGET_ROW,       /* index: Limb; the limb's row while its figure is edited */
    TARGET_HEAD,      /* index: ListColumn, of the list */
    TARGET_FIND,      /* the list's field */
    TARGET_LIST_ROW,  /* index: line of the list */
    TARGET_LIST,      /* elsewhere in the list */
    TARGET_VARY,      /* index: row of the page of variations */
    TARGET_KEPT,      /* index: slot of what is kept, from 0 */
    TARGET_KEPT_LOT,  /* index: 0 the first eight, 1 the others */
    TARGET_READING,   /* the whole reading view */
} TargetKind;

typedef struct {
    TargetKind kind;
    int index;
} TargetId;

typedef enum { THEME_HOST, THEME_DARK, THEME_LIGHT, THEME_COUNT } Theme;

/* What of the window is kept for the next one, beside its colours. */
typedef enum { OPTION_HANDED, OPTION_TEXT, OPTION_MOTION, OPTION_ITEMS } OptionItem;

enum { BARS_SHOWN_MAX = 9999 }; /* as realign_bars: beyond it nothing is said */

enum { LIST_ROWS_MAX = 1024, FIND_ROOM = 48, TYPED_ROOM = 64, MESSAGE_ROOM = 256 };

/* What changes a figure, keeps it, and writes files. */
typedef enum {
    EDIT_PAIR,   /* hands, feet or fill */
    EDIT_GRID,   /* steps in a quarter that changes fall on */
    EDIT_LENGTH, /* steps until the figure starts again */
    EDIT_ROLLS,  /* over the bar line, or from each bar line */
    EDIT_UNDO,
    EDIT_REDO,
    EDIT_NAME,
    EDIT_SAVE,
    EDIT_DROP,
    EDIT_GROOVE, /* all that plays as a groove of one's own */
    EDIT_DELETE, /* the figure, if it is one's own */
    EDIT_FILE,   /* the phrase as a MIDI file */
    EDIT_LEARN,  /* keys of the kit map from the next notes */
    EDIT_PAGE,   /* the bar that is held while it is edited */
    EDIT_ITEMS
} EditItem;

/* A step of the bar shown, as written, where the figure isn't as it is kept. */
typedef struct {
    int32_t row; /* Limb */
    int32_t tick;
} EditMark;

enum { EDIT_MARKS_MAX = 128 };

typedef struct {
    bool is_open; /* a figure is being changed */
    LimbPair pair;
    FigureKind kind; /* the pair's figure, or the fill */
    int grid;        /* steps in a quarter */
    int steps;       /* length */
    bool rolls;
    int undo;
    int redo;
    char name[TYPED_ROOM];
    char note[MESSAGE_ROOM]; /* what came of the last thing done; "" if nothing */
    Swing swing;             /* of the grid, in the bar shown */
    int hover_limb;          /* the step pointed at; -1: none */
    int32_t hover_tick;      /* from the bar line, as written */
    int32_t cursor;          /* the step that keys change, likewise */
    int differ;              /* strokes that aren't as they are kept, */
    int mark_count;          /* and those of the bar shown */
    EditMark marks[EDIT_MARKS_MAX];
    bool is_learning;
    Voice learns; /* the voice whose key comes next */
} Edit;

/* A line of an open list: a heading, or an entry. */
typedef struct {
    bool is_heading;
    int entry;         /* the heading's first entry, or the entry */
    const char* words; /* of the heading; NULL: its family */
} ListRow;

/* A column by which a list may be sorted. */
typedef enum {
    LIST_BY_NONE, /* its lines stand under headings */
    LIST_BY_NAME,
    LIST_BY_METER,
    LIST_BY_TEMPO,
    LIST_BY_LENGTH,
    LIST_BY_DIFFICULTY,
    LIST_BY_RIGHT, /* strokes a second of the right foot */
    LIST_BY_LEFT,
    LIST_COLUMNS
} ListColumn;

typedef struct {
    ListColumn column;
    bool falls; /* the most comes first */
} ListOrder;

typedef struct {
    bool is_open;
    EntryKind shelf;
    ListOrder orders[ENTRY_KINDS];
    char find[FIND_ROOM]; /* UTF-8: what is looked for, as it is typed */
    int count;            /* lines that are found */
    ListRow rows[LIST_ROWS_MAX];
    int selected;            /* line; -1: none */
    int first;               /* line on top */
    int32_t began_with;      /* id that played when it was opened */
    int32_t playing;         /* id that plays while another waits */
    double tempo;            /* that lines were held against; 0: none was */
    char says[MESSAGE_ROOM]; /* what is looked for; where nothing is found: why */
} List;

enum { KEYS_ROOM = 40, KEY_LINES_MAX = 128 };

/* The list of keys: a heading has no keys. */
typedef struct {
    const char* words;
    char keys[KEYS_ROOM];
    int row; /* of the table of actions; -1: a heading */
} KeyLine;

typedef struct {
    bool is_open;
    int first; /* line on top */
    int lit;   /* line, from 1, of the last that was pressed; 0: none */
    int count;
    KeyLine lines[KEY_LINES_MAX];
} KeyList;

enum { FOLDER_ROOM = 512, FOLDERS_ROOM = 160 };

typedef enum { ASKED_FOLDER, ASKED_GROOVE, ASKED_KEPT, ASKED_DELETION } AskedWhat;

/* What is asked before anything of the user's is written: where a file is to be, once; what a
   groove is to be called; whether something is to be deleted. */
typedef struct {
    bool is_open; /* the question stands */
    AskedWhat what;
    bool is_known;            /* where files go was answered */
    bool straight;            /* what is to be written then */
    bool is_handout;          /* a folder for a bandmate, and no file */
    char folder[FOLDER_ROOM]; /* UTF-8 */
    char found[FOLDERS_ROOM]; /* what it could become, by Tab; "" until then */
    char name[TYPED_ROOM];    /* likewise: of the groove, or of what is to be deleted, */
    EntryKind kind;           /* and which that is */
    int32_t id;               /* or the slot, from 1, of what is kept */
    char why[64];             /* the name can't be taken; "" if it may be */
} Asking;

/* What one foot has to do. */
typedef struct {
    double rate;   /* strokes in the busiest second */
    double gap_ms; /* the shortest time between two; 0: there are not two */
} FootRate;

/* What a feet figure asks at the tempo now. */
typedef struct {
    bool is_known;
    FootRate feet[2]; /* right, left */
} Demand;

typedef struct {
    double width; /* logical pixels */
    double height;
    float values[CONTROL_COUNT]; /* of a kept selection that plays, what it holds */
    float readouts[READOUT_COUNT];
    bool has_place;  /* the plugin has said where it is */
    SeenPlace place; /* as last said */
    double now_tick; /* of place.bar, moved on since */
    bool has_bar[SEEN_BARS];
    SeenBar bars[SEEN_BARS]; /* from place.phrase on: the phrase and the bar after */
    int looked_at;           /* bar of the phrase shown while stopped or held; -1: the place's */
    bool held;               /* it is shown whatever plays: a figure of it is edited */
    Shelf shelves[ENTRY_KINDS];
    Demand demands[LIST_ROWS_MAX]; /* of the open feet list's lines */
    int32_t drafted[FIGURE_KINDS]; /* ids of figures that were changed and play so; 0: none */
    bool is_choosing;              /* the panel has a dial's words in the place of dials */
    Control choosing;
    Panel panel;
    Panel page_before; /* the page that a state took the place of */
    int page;          /* 0 or 1: the row that shows where the panel has room for one */
    TargetId focus;
    TargetId hover;
    bool has_keys; /* the window has the keyboard */
    bool reads;    /* the reading view, but while a list is open */
    TargetId pressed;
    bool is_dragged;
    bool is_typing;
    char typed[TYPED_ROOM];
    char refused[MESSAGE_ROOM]; /* why it isn't taken; "" if it may be */
    List list;
    KeyList keys;
    Asking asked;
    KeptShown kept;
    VaryPage vary;
    Shortlist shortlist;
    Edit edit;
    Theme theme;
    bool left_handed; /* limbs are the person's, the other way round: handed.h */
    bool still;       /* nothing moves but from beat to beat */
    double text;      /* how large all is, 1 as at first */
    Palette palette;
    uint32_t dropped;
    char message[MESSAGE_ROOM]; /* the bank's first diagnostic; "" if none */
} View;

bool view_target_same(TargetId a, TargetId b);

/* The bar with this number of the song, if it is of the phrase or the bar after, or
   what stood in its place last; NULL if the plugin hasn't said. */
const SeenBar* view_bar(const View* view, int64_t bar);

/* The bar that is shown large. */
int64_t view_shown(const View* view);

/* The bar that follows it, which is the same where it loops. */
const SeenBar* view_next(const View* view);

/* The first bar of the phrase shown, and how many it has. */
int64_t view_phrase(const View* view);
int view_phrase_bars(const View* view);

/* The entry with this id; NULL if there is none. */
const Entry* view_entry(const View* view, EntryKind shelf, int32_t id);

/* True if it plays otherwise than it is kept: a figure that was changed, or a groove that has
   it. */
bool view_is_edited(const View* view, EntryKind shelf, const Entry* entry);

/* The figure or groove in the bar shown: what plays now. */
int32_t view_playing(const View* view, EntryKind shelf);
