// SPDX-License-Identifier: ISC
/* kinds.h - the one table of what can be picked.  Each kind is a row; enums, readers,
   writers, lists, names of files and of properties are made of it. */
#pragma once

/* NAME, name: of enums, and of files, options and properties (fl:handsDraft);
   Class: after fl: in Turtle;  Type, type: the struct of its values, and the functions
   that read and write them;  CONTROL: the control that picks one;  whether one can be
   drafted or saved by itself, naming no other entry;  then in words: one of them, many,
   the heading of their list, and what plays where one is missing. */

/* Figures, which can be drafted, come first. */
#define FIGURE_KIND_ROWS(X)                                                                        \
    X(HANDS, hands, HandsFigure, Figure, figure, HANDS, true, "hands figure", "hands", "Hands",    \
      "the groove's own hands play instead")                                                       \
    X(FEET, feet, FeetFigure, Figure, figure, FEET, true, "feet figure", "feet", "Feet",           \
      "the groove's own feet play instead")                                                        \
    X(TURNAROUND, turnaround, Turnaround, Figure, figure, TURNAROUND, true, "turnaround",          \
      "turnarounds", "Fill", "the groove's own turnaround plays instead")

/* What names others comes after them: they are read in this order. */
#define ENTRY_KIND_ROWS(X)                                                                         \
    FIGURE_KIND_ROWS(X)                                                                            \
    X(GROOVE, groove, Groove, Groove, groove, GROOVE, false, "groove", "grooves", "Groove",        \
      "the bank's first groove plays instead")                                                     \
    X(KIT, kit, Kit, Kit, kit, KIT, true, "kit map", "kits", "Kit map",                            \
      "the bank's first kit map is used instead")

#define FIGURE_KIND(NAME, ...) FIGURE_##NAME,
typedef enum { FIGURE_KIND_ROWS(FIGURE_KIND) FIGURE_KINDS } FigureKind;
#undef FIGURE_KIND

#define ENTRY_KIND(NAME, ...) ENTRY_##NAME,
typedef enum { ENTRY_KIND_ROWS(ENTRY_KIND) ENTRY_KINDS } EntryKind;
#undef ENTRY_KIND

/* A figure's kind is its entry's. */
#define SAME_KIND(NAME, ...)                                                                       \
    _Static_assert((int)FIGURE_##NAME == (int)ENTRY_##NAME, "figures come first");
FIGURE_KIND_ROWS(SAME_KIND)
#undef SAME_KIND

/* What people and files call a kind. */
typedef struct {
    const char* name;       /* hands */
    const char* class_name; /* HandsFigure */
    const char* word;       /* hands figure */
    const char* plural;     /* hands */
    const char* title;      /* Hands */
    const char* instead;    /* what plays where one is missing */
} KindRow;

extern const KindRow kind_rows[ENTRY_KINDS];
