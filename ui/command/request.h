// SPDX-License-Identifier: ISC
/* request.h - what was asked for on the command line. */
#pragma once

#include "../find/wish.h"

#include <stdbool.h>

enum { SECTIONS_MAX = 64, SETTINGS_MAX = 64, CONTROL_SYMBOL_ROOM = 64, LOOKED_FOR_MAX = 32 };

/* symbol=value for one control. */
typedef struct {
    char symbol[CONTROL_SYMBOL_ROOM];
    float value;
} ControlSetting;

/* A stretch of the song: begins with --groove or --preset. */
typedef struct {
    const char* preset; /* as typed */
    ControlSetting preset_values[SETTINGS_MAX];
    int preset_count;
    const char* groove; /* as typed; NULL: the bank's first */
    const char* hands;  /* as typed, NULL: as written */
    const char* feet;
    const char* turnaround; /* as typed, or "none" */
    const char* kit;
    int bars;     /* 0: not said */
    double tempo; /* quarter notes a minute; 0: as written */
    int beats;    /* of the meter; 0: as written */
    int beat_unit;
    ControlSetting settings[SETTINGS_MAX];
    int setting_count;
    bool left_handed; /* whoever plays it: limbs are told the other way round */
} Section;

typedef struct {
    const char* soundfont; /* a file; NULL: sought */
    int rate;              /* frames a second */
    int bits;              /* 16 or 24 a sample */
} WavForm;

/* What --lighten says: which limbs, written as people say them; all false: nothing. */
typedef struct {
    bool limbs[4]; /* by Limb */
    int rate;      /* strokes a second for each */
} LightenWish;

typedef struct {
    Section sections[SECTIONS_MAX];
    int section_count;
    const char* out;
    const char* notation; /* a file; NULL: none */
    const char* bundle;   /* NULL: found beside the program or in the LV2 folders */
    const char* title;
    const char* operand; /* a kind to list, a file to check; NULL if none */
    double from;         /* of practice: quarter notes a minute, 0 if not said */
    double to;
    int steps;      /* 0 if not said */
    double minutes; /* of the song that is checked; 0 if not said */
    LightenWish lighten;
    const char* variation;     /* to vary further, as typed; NULL: the feet themselves */
    const char* save;          /* a name for what was lightened; NULL: it isn't kept */
    bool as_wav;               /* and not MIDI */
    bool presets;              /* list them */
    const char* family;        /* of what is listed; NULL: any */
    const char* plan_title;    /* of a song's plan to begin; NULL: none is begun */
    const char* plan_sections; /* its sections, as typed */
    const char* looked_for[LOOKED_FOR_MAX]; /* words of what is listed, after the operand */
    int looked_for_count;
    WishGrid grid; /* of what is listed */
    int limit;     /* most strokes a second of one limb; 0 if not said */
    WavForm wav;
    bool force;
    bool help; /* and nothing else */
} Request;

/* The first section, or an empty one: as the bank's first groove is written. */
const Section* request_first(const Request* request);

/* Reads "7" (each foot), "feet=7", "right-hand=9"; false if it says nothing of the kind. */
bool request_lighten(const char* text, LightenWish* wish);

/* Puts a control's value among `settings`, in place of what it had there.  False if
   they are full, which controls that the plugin has can't make them. */
bool request_put(ControlSetting settings[SETTINGS_MAX], int* count, const char* symbol,
                 float value);

/* The value, or NULL where the control isn't among them. */
const float* request_find(const ControlSetting* settings, int count, const char* symbol);

/* What the section's preset has for a control, or `otherwise`. */
double request_preset_value(const Section* section, const char* symbol, double otherwise);
