// SPDX-License-Identifier: ISC
/* geometry.h - where everything stands, in logical pixels from the window's top
   left, for any size from the least up.  Rows grow before they get apart. */
#pragma once

#include "ink.h"
#include "view.h"

#include <stddef.h>

enum { LEAST_WIDTH = 720, LEAST_HEIGHT = 420, FIRST_WIDTH = 960, FIRST_HEIGHT = 540 };

/* How real pixels become logical ones: a window smaller than the least is scaled
   down as a whole and stands in the middle. */
typedef struct {
    double scale; /* real pixels to a logical one */
    double x;     /* real pixels left of the picture */
    double y;
    double width; /* logical */
    double height;
} Fit;

Fit geometry_fit(int width, int height, double scale);

typedef struct {
    bool compact;
    bool list;         /* a list of entries is open, under the staff */
    bool keys;         /* the list of keys is: keys.h */
    bool kept;         /* the shortlist is open, under the staff */
    bool low;          /* the staff takes less height, for what is open under it */
    bool reads;        /* the reading view: reading.h */
    bool edits;        /* a figure is edited: its pair has most of the staff, the other folds */
    LimbPair edited;   /* then whose it is */
    bool edit_swings;  /* on swung steps */
    double step_least; /* pixels that a step has */
    int edit_grid;     /* steps in a quarter that a figure is edited on; 0: none is */
    int32_t edit_tick; /* of the bar: its page is shown */
    double unit;       /* its pixels to those of a window of 1280 by 760 */
    double width;
    double height;
    double scale;   /* of the staff's rows, 1 to 1.6 */
    double sign[2]; /* of signs, by pair: the same but where a pair is folded */
    double top;     /* the line under the top row */
    double labels;  /* left of the limbs' labels */
    double staff;   /* left of the rows' ground */
    double beat_1;
    double right;
    double count_hands; /* base line of the syllables */
    double count_feet;
    double count_size[2]; /* of beat numbers, by pair */
    double said_size[2];  /* of syllables */
    double line[LIMB_COUNT];
    Box ground[2];              /* under the left hand, under the left foot */
    double row_top[LIMB_COUNT]; /* the reach of each limb's signs */
    double row_bottom[LIMB_COUNT];
    double turns_top;
    double turns;
    double click;
    double quiet; /* base line of what is counted down, between staff and tabs */
    double panel; /* the line over the tabs */
    Box tabs;
    Box overview;
    double cells; /* top of the dials */
    double help;  /* base line; 0: none */
    Box list_box;
    double list_rows; /* top of the first line */
    double row_height;
} Geometry;

Geometry geometry_of(const View* view);

/* The bar shown large: beats in it, how wide one is, and how many beats of the
   next bar are seen.  While a figure is edited whose steps would be too narrow to hit, a
   page of the bar is shown: from beat `first` on. */
typedef struct {
    double beats;
    double beat;
    double ahead;
    double ticks; /* in a beat */
    double first;
    double seen; /* beats of the page; all of them where the bar is one page */
} BarSpace;

BarSpace geometry_bar(const Geometry* geometry, Meter meter);

/* True if the limb's pair is folded while the other is edited. */
bool geometry_folds(const Geometry* geometry, int limb);

/* How far left of a bar's one its line stands, so that strokes on it are free. */
double geometry_clear(const Geometry* geometry);

/* True if what is open takes the staff's place. */
bool geometry_covers(const Geometry* geometry);

/* Lines of the list that are seen. */
int geometry_list_rows(const Geometry* geometry);

/* ---- The parts: boxes of what can be pointed at, and where things stand in them */

/* Where a base line begins, or the middle of a sign; left of a switch, at its middle. */
typedef struct {
    double x;
    double y;
} At;

typedef struct {
    Box enabled;
    Box groove;
    Box change_at; /* no width: it stands in the panel */
    Box clock;
    Box tempo;
    At on;
    At on_word;
    At groove_word;
    At groove_sign;
    At groove_name;
    double groove_room;
    double groove_mark; /* base line of what is said in a box after the name */
    At change_word;
    At clock_word; /* in a small window the right end */
    At tempo_word;
    At tempo_note; /* the middle of its head */
    At tempo_equals;
    At tempo_number;
    At meter[2];      /* its numbers' middles, one over the other */
    At news;          /* what comes next, the fill, or what the meter does */
    double news_room; /* 0: none */
} TopRow;

TopRow geometry_top(const Geometry* geometry);

/* Hands' or feet's. */
typedef struct {
    Box box;
    Box up;
    Box down;
    At title;
    double title_width; /* and what is clear behind it */
    At up_sign;
    At down_sign;
    Box name;      /* where nothing stands over the foot */
    double over;   /* what that takes from the name's height */
    At held;       /* while its pair is edited: which bar's page is held; under it what plays */
    At line;       /* over the foot, */
    At foot;       /* the last */
    double room;   /* of a line; the last one's ends before the dots */
    double indent; /* of what stands after a sign */
    At dots;
    Box put_back;
} CardPlaces;

/* The box that says in so many letters what was changed: after the groove's name, or in its
   place where that has none left. */
Box geometry_changed(const TopRow* top, const char* name, size_t letters);

CardPlaces geometry_card(const Geometry* geometry, LimbPair pair);

/* The label beside a limb's row; of LIMB_COUNT the click's. */
typedef struct {
    Box box;
    At on;
    At name;
    At voice;
    double voice_room;
    At rate; /* right end */
    At rate_unit;
    At record;
    At closest;
    double closest_room;
} LabelPlaces;

LabelPlaces geometry_label(const Geometry* geometry, int limb);

/* A limb's row while its figure is edited. */
Box geometry_row(const Geometry* geometry, int limb);

/* A bar of the phrase, of how many, and the one that is shown large.  Of more than eight those
   eight are near that this one is of; the others are far, in a row under them. */
enum { NEAR_BARS = 8 };
bool geometry_is_far(int bar, int bars, int now);
Box geometry_bar_box(const Geometry* geometry, int bar, int bars, int now);

typedef struct {
    Box ground;
    double one;   /* x of the first beat, free of the bar line */
    double beats; /* how wide all beats are together */
    Box playhead; /* over these */
    At letter;
    double right;    /* of the words */
    double lines[2]; /* hands, feet */
    double turns;    /* y; 0: there is no room for them */
} SmallPlaces;

SmallPlaces geometry_small(Box bar);

/* A page's tab, left; right what has a key: the states, then the ShowItems.  A small window has
   their keys alone, in its top row. */
Box geometry_tab(const Geometry* geometry, Panel panel);
Box geometry_show(const Geometry* geometry, ShowItem item);

/* Where a page stands that has the bars' place too. */
Box geometry_page_box(const Geometry* geometry);

/* The line between a group of tabs and the one before; x, 0: there is none before this panel. */
double geometry_tab_line(const Geometry* geometry, Panel panel);

/* A small window's other row of dials. */
Box geometry_page(const Geometry* geometry);

typedef struct {
    At words;
    Box cap;     /* of the key, where it has one: its words come after it */
    At key;      /* its middle */
    double mark; /* y of the line under an open one */
} TabPlaces;

TabPlaces geometry_tab_places(const Geometry* geometry, Box tab);

/* One of seven columns and two rows; small windows show one row at a time, and the other
   is above the window. */
Box geometry_cell(const Geometry* geometry, int page, int column, int row);

/* One of a dial's words, up to 14 of them, in the place of all dials. */
Box geometry_word(const Geometry* geometry, int word);

typedef struct {
    At label;
    double label_room;
    At value;
    At on;
    At on_word;
    Box choice;
    Box typing;
    Box button;
    At button_word; /* its middle */
    double sign;    /* y */
    double rule;    /* y */
} CellPlaces;

CellPlaces geometry_in_cell(Box cell);

/* The line that explains: in a small window, where something is explained, the quiet one.  Its
   room is 0 where there is none. */
typedef struct {
    At at;
    double room;
} Line;

Line geometry_help(const Geometry* geometry, bool explains);

Box geometry_find(const Geometry* geometry);
Box geometry_list_row(const Geometry* geometry, int row);

typedef struct {
    At title;
    double title_room;
    At letters;
    double letters_room;
    At nothing;
    At comment;          /* of what is chosen, */
    At told;             /* and what there is to tell of it, under that */
    double comment_room; /* 0: none */
    At count;            /* right end */
    double heads;        /* base line of the columns' names */
    double rule;
} ListPlaces;

ListPlaces geometry_list(const Geometry* geometry);

/* Where the columns of a line stand, from the window's left; numbers end there. */
typedef struct {
    double sign;
    double name;
    double name_room;
    double meter;
    double tempo;
    double length;
    double length_room;
    double dots;
    double rate[2]; /* of the right foot and the left */
    double picture;
    double picture_room;
} ListColumns;

ListColumns geometry_columns(const Geometry* geometry, EntryKind kind);

/* A column's name, which sorts; no width where the list hasn't it. */
Box geometry_head(const Geometry* geometry, EntryKind kind, ListColumn column);

/* Around a number of a beat, whose middle is x and base line y. */
Box geometry_number(double x, double y, double size);

/* x of a tick of the bar shown. */
double geometry_tick(const Geometry* geometry, BarSpace space, double tick);
