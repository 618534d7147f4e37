// SPDX-License-Identifier: ISC
/* The table of dial.h. */
#include "dial.h"

#include <stddef.h>

static const char* const change_words[] = {"now", "on beat", "on bar", "on phrase"};
static const char* const realign_words[] = {"never", "each phrase", "each bar"};
static const char* const ride_words[] = {"as written", "closed hat", "half-open hat",
                                         "open hat",   "ride",       "ride bell",
                                         "crash",      "china",      "floor tom"};
static const char* const foot_words[] = {"right", "left"};
static const char* const swing_words[] = {"8ths", "16ths"};
static const char* const clock_words[] = {"host", "own"};
static const char* const click_words[] = {"off", "count-in", "always"};
static const char* const click_grid_words[] = {"beats", "8ths", "triplets", "16ths", "feet's grid"};
static const char* const rate_words[] = {"1/4", "1/3", "1/2", "2/3", "3/4", "full"};
static const char* const grid_words[] = {
    "as written",   "quarters",     "8ths",        "triplets", "16ths",
    "quintuplets",  "sextuplets",   "septuplets",  "32nds",    "9 a quarter",
    "10 a quarter", "11 a quarter", "12 a quarter"};

static const char* const crash_words[] = {"as written", "never", "phrase", "section"};

#define SWITCH(name, help)                                                                         \
    {                                                                                              \
        DIAL_SWITCH, FORM_NUMBER, name, "", NULL, NULL, 1, 1, -1, 0, 0, help                       \
    }

static const Dial dials[CONTROL_COUNT] = {
    [CONTROL_ENABLED] = SWITCH(
        "On", "Off ends every note and plays nothing; with the own clock it stops and starts it"),
    [CONTROL_GROOVE] = {DIAL_PICK, FORM_ENTRY, "Groove", "", NULL, NULL, 1, 1, -1, 0, 0,
                        "Groove: click or G opens the list; up and down walk it while it plays"},
    [CONTROL_HANDS] = {DIAL_PICK, FORM_ENTRY, "Hands", "", NULL, NULL, 1, 1, -1, 0, 0,
                       "Hands: up and down walk the figures while it plays, Enter opens the list"},
    [CONTROL_FEET] = {DIAL_PICK, FORM_ENTRY, "Feet", "", NULL, NULL, 1, 1, -1, 0, 0,
                      "Feet: up and down walk the figures while it plays, Enter opens the list"},
    [CONTROL_VARIATION] = {DIAL_VALUE, FORM_VARIED, "Variation", "", NULL, NULL, 1, 1, -1, 0, 0,
                           "Variation: what else the feet could do under the same hands"},
    [CONTROL_VARIATION_THEN] = {DIAL_VALUE, FORM_VARIED, "Then", "", NULL, NULL, 1, 1, -1, 0, 0,
                                "Then: a second variation, made of what the first one makes"},
    [CONTROL_GROW_EVERY] = {DIAL_VALUE, FORM_NUMBER, "Grow every", "phrases", NULL, "off", 1, 1, -1,
                            0, 0, "Grow every: after so many phrases the feet go one variation on"},
    [CONTROL_RIDE_ON] = {DIAL_VALUE, FORM_WORDS, "Ride on", "", ride_words, NULL, 1, 1,
                         PANEL_RHYTHM, 2, 0,
                         "Ride on: moves the hands' timekeeping to another cymbal; backbeats stay"},
    [CONTROL_PHRASE_BARS] = {DIAL_VALUE, FORM_NUMBER, "Phrase", "bars", NULL, "as written", 1, 1,
                             PANEL_FILLS, 0, 0,
                             "Phrase: bars until the groove starts again; it ends with the fill"},
    [CONTROL_TURNAROUND] =
        {DIAL_PICK, FORM_ENTRY, "Fill", "", NULL, NULL, 1, 1, PANEL_FILLS, 1, 0,
         "Fill: what takes over for the last beats of the phrase; Enter opens the list"},
    [CONTROL_FILL_EVERY] = {DIAL_VALUE, FORM_NUMBER, "Fill every", "bars", NULL, "each phrase", 1,
                            1, PANEL_FILLS, 2, 0,
                            "Fill every: a fill ends every so many bars, not at the phrase's end"},
    [CONTROL_FILL_BEATS] = {DIAL_VALUE, FORM_NUMBER, "Fill beats", "beats", NULL, "as written", 1,
                            1, PANEL_FILLS, 3, 0,
                            "Fill beats: of a longer fill only so many, its last, are played"},
    [CONTROL_CRASH] = {DIAL_VALUE, FORM_WORDS, "Crash", "", crash_words, NULL, 1, 1, PANEL_FILLS, 4,
                       0,
                       "Crash: on the first beat as the groove has it, never, of each phrase and "
                       "after fills, or of the section"},
    [CONTROL_FILL_NOW] =
        {DIAL_TRIGGER, FORM_NUMBER, "Fill now", "", NULL, NULL, 1, 1, PANEL_FILLS, 5, 0,
         "Fill now: one fill that ends on the next bar line it can reach whole; key N"},
    [CONTROL_CHANGE_AT] = {DIAL_CHOICE, FORM_WORDS, "Changes come in", "", change_words, NULL, 1, 1,
                           -1, 0, 0,
                           "Changes come in: when a new groove, figure, grid or cycle is heard"},
    [CONTROL_KEPT] = {DIAL_VALUE, FORM_NUMBER, "Kept", "", NULL, "off", 1, 1, -1, 0, 0,
                      "Kept: plays what is kept in this slot, whole; what else is picked waits"},
    [CONTROL_HANDS_GRID] =
        {DIAL_VALUE, FORM_WORDS, "Hands grid", "", grid_words, NULL, 1, 1, PANEL_RHYTHM, 0, 1,
         "Hands grid: puts the hands' steps on so many a quarter; their order stays"},
    [CONTROL_FEET_GRID] =
        {DIAL_VALUE, FORM_WORDS, "Feet grid", "", grid_words, NULL, 1, 1, PANEL_RHYTHM, 3, 1,
         "Feet grid: puts the feet's steps on so many a quarter; their order stays"},
    [CONTROL_HANDS_CYCLE] =
        {DIAL_VALUE, FORM_NUMBER, "Hands cycle", "steps", NULL, "as written", 1, 1, PANEL_RHYTHM, 1,
         1, "Hands cycle: steps until the figure starts again, cut or repeated to this length"},
    [CONTROL_FEET_CYCLE] =
        {DIAL_VALUE, FORM_NUMBER, "Feet cycle", "steps", NULL, "as written", 1, 1, PANEL_RHYTHM, 4,
         1, "Feet cycle: steps until the figure starts again; three sixteenths cross the bar line"},
    [CONTROL_HANDS_SHIFT] = {DIAL_VALUE, FORM_NUMBER, "Hands shift", "steps", NULL, NULL, 1, 1,
                             PANEL_RHYTHM, 2, 1,
                             "Hands shift: the figure so many steps later, or earlier below 0"},
    [CONTROL_FEET_SHIFT] = {DIAL_VALUE, FORM_NUMBER, "Feet shift", "steps", NULL, NULL, 1, 1,
                            PANEL_RHYTHM, 5, 1,
                            "Feet shift: the figure so many steps later, or earlier below 0"},
    [CONTROL_REALIGN] =
        {DIAL_VALUE, FORM_WORDS, "Figures start again", "", realign_words, NULL, 1, 1, PANEL_RHYTHM,
         0, 0,
         "Figures start again: where a figure that crosses the bar line is back at its start"},
    [CONTROL_LEAD_FOOT] = {DIAL_CHOICE, FORM_WORDS, "Lead foot", "", foot_words, NULL, 1, 1,
                           PANEL_RHYTHM, 1, 0,
                           "Lead foot: left swaps the feet, but for figures that close the hi-hat"},
    [CONTROL_SWING_RATIO] =
        {DIAL_VALUE, FORM_RATIO, "Swing", "", NULL, NULL, 0.05, 0.01, PANEL_FEEL, 0, 0,
         "Swing: long to short note; 1 as the groove has it, 1.001 straight, 2 the triplet"},
    [CONTROL_SWING_GRID] = {DIAL_CHOICE, FORM_WORDS, "Swing on", "", swing_words, NULL, 1, 1,
                            PANEL_FEEL, 1, 0,
                            "Swing on: which notes are made long and short, eighths or sixteenths"},
    [CONTROL_SWING_FOLLOW] =
        {DIAL_SWITCH, FORM_NUMBER, "Swing follows", "", NULL, NULL, 1, 1, PANEL_FEEL, 2, 0,
         "Swing follows tempo: evens out where the short note would be under 100 ms"},
    [CONTROL_PUSH_HANDS] = {DIAL_VALUE, FORM_PUSH, "Push hands", "ms", NULL, NULL, 1, 0.1,
                            PANEL_FEEL, 3, 0,
                            "Push hands: so many ms behind the click, exactly; minus is ahead"},
    [CONTROL_PUSH_SNARE] = {DIAL_VALUE, FORM_PUSH, "Push snare", "ms", NULL, NULL, 1, 0.1,
                            PANEL_FEEL, 4, 0,
                            "Push snare: so many ms behind the click, where its hand has the time"},
    [CONTROL_PUSH_FEET] = {DIAL_VALUE, FORM_PUSH, "Push feet", "ms", NULL, NULL, 1, 0.1, PANEL_FEEL,
                           5, 0, "Push feet: so many ms behind the click, exactly; minus is ahead"},
    [CONTROL_LOOSENESS] =
        {DIAL_VALUE, FORM_NUMBER, "Looseness", "ms", NULL, "on the grid", 1, 0.1, PANEL_FEEL, 0, 1,
         "Looseness: how far strokes stray from the click over eight bars; 0 is the grid"},
    [CONTROL_TOUCH] =
        {DIAL_VALUE, FORM_NUMBER, "Touch", "%", NULL, "even", 1, 0.1, PANEL_FEEL, 1, 1,
         "Touch: how much equal strokes differ in loudness; 0 a machine, 50 as measured"},
    [CONTROL_ACCENT] = {DIAL_VALUE, FORM_NUMBER, "Accent", "%", NULL, NULL, 1, 0.1, PANEL_FEEL, 2,
                        1, "Accent: how far the hands' accents stand above normal strokes"},
    [CONTROL_ACCENT_FEET] = {DIAL_VALUE, FORM_NUMBER, "Accent feet", "%", NULL, NULL, 1, 0.1,
                             PANEL_FEEL, 3, 1,
                             "Accent feet: how far the feet's accents stand above normal strokes"},
    [CONTROL_GHOST] = {DIAL_VALUE, FORM_NUMBER, "Ghost", "%", NULL, NULL, 1, 0.1, PANEL_FEEL, 4, 1,
                       "Ghost: how far ghost notes lie below normal strokes"},
    [CONTROL_LEVEL] = {DIAL_VALUE, FORM_NUMBER, "Level", "", NULL, NULL, 1, 1, PANEL_FEEL, 5, 1,
                       "Level: how hard normal strokes are played, as MIDI velocity"},
    [CONTROL_TAKE] =
        {DIAL_VALUE, FORM_NUMBER, "Take", "", NULL, NULL, 1, 1, PANEL_FEEL, 6, 1,
         "Take: another day with other habits of 4 to 6 ms; the same number plays the same"},
    [CONTROL_LIBERTY] = {DIAL_VALUE, FORM_NUMBER, "Liberty", "%", NULL, "as written", 1, 1,
                         PANEL_FEEL, 6, 0,
                         "Liberty: how freely a take leaves what is written (dashed stems)"},
    [CONTROL_RIGHT_HAND] =
        SWITCH("Right hand", "Right hand: off is silent and yours to play; key 1"),
    [CONTROL_LEFT_HAND] = SWITCH("Left hand", "Left hand: off is silent and yours to play; key 2"),
    [CONTROL_RIGHT_FOOT] =
        SWITCH("Right foot", "Right foot: off is silent and yours to play; key 3"),
    [CONTROL_LEFT_FOOT] = SWITCH("Left foot", "Left foot: off is silent and yours to play; key 4"),
    [CONTROL_CLOCK] =
        {DIAL_CHOICE, FORM_WORDS, "Clock", "", clock_words, NULL, 1, 1, -1, 0, 0,
         "Clock: the host's transport, or one of its own that On starts and stops; key C"},
    [CONTROL_TEMPO] =
        {DIAL_VALUE, FORM_NUMBER, "Tempo", "bpm", NULL, NULL, 1, 0.1, -1, 0, 0,
         "Tempo of the own clock in quarter notes a minute; key T, then type or tap it"},
    [CONTROL_LADDER_STEP] = {DIAL_VALUE, FORM_NUMBER, "Ladder step", "bpm", NULL, "no ladder", 1,
                             0.1, PANEL_PRACTICE, 0, 0,
                             "Ladder step: the own clock gets so much faster each time"},
    [CONTROL_LADDER_EVERY] = {DIAL_VALUE, FORM_NUMBER, "Step every", "phrases", NULL, NULL, 1, 1,
                              PANEL_PRACTICE, 1, 0,
                              "Step every: phrases at one tempo before it rises"},
    [CONTROL_LADDER_TOP] = {DIAL_VALUE, FORM_NUMBER, "Ladder top", "bpm", NULL, NULL, 1, 0.1,
                            PANEL_PRACTICE, 2, 0, "Ladder top: the tempo that the ladder ends on"},
    [CONTROL_COUNT_IN] = {DIAL_VALUE, FORM_NUMBER, "Count-in", "bars", NULL, "none", 1, 1,
                          PANEL_PRACTICE, 4, 0,
                          "Count-in: bars of click before the groove, on the own clock"},
    [CONTROL_CLICK] = {DIAL_VALUE, FORM_WORDS, "Click", "", click_words, NULL, 1, 1, PANEL_PRACTICE,
                       0, 1, "Click: off, in the count-in alone, or always; key 5"},
    [CONTROL_CLICK_GRID] = {DIAL_VALUE, FORM_WORDS, "Click on", "", click_grid_words, NULL, 1, 1,
                            PANEL_PRACTICE, 1, 1,
                            "Click on: what it marks, exactly and without swing"},
    [CONTROL_CLICK_LEVEL] = {DIAL_VALUE, FORM_NUMBER, "Click level", "", NULL, NULL, 1, 1,
                             PANEL_PRACTICE, 2, 1,
                             "Click level: its MIDI velocity; the first of a bar is louder"},
    [CONTROL_CLICK_CHANNEL] =
        {DIAL_VALUE, FORM_NUMBER, "Click channel", "", NULL, "as the drums", 1, 1, PANEL_OUTPUT, 1,
         0, "Click channel: its own MIDI channel, for a sound and fader of its own"},
    [CONTROL_GAP_PLAY] = {DIAL_VALUE, FORM_NUMBER, "Click plays", "bars", NULL, NULL, 1, 1,
                          PANEL_PRACTICE, 3, 1,
                          "Click plays: bars with the click before the silent ones"},
    [CONTROL_GAP_REST] = {DIAL_VALUE, FORM_NUMBER, "Click rests", "bars", NULL, "never", 1, 1,
                          PANEL_PRACTICE, 4, 1,
                          "Click rests: bars without it, in which you keep the time"},
    [CONTROL_PRACTICE_RATE] =
        {DIAL_VALUE, FORM_WORDS, "Speed", "", rate_words, NULL, 1, 1, PANEL_PRACTICE, 1, 2,
         "Speed: slower against the clock; at 1/2 a bar takes two of the host's"},
    [CONTROL_LOOP_BAR] = {DIAL_VALUE, FORM_NUMBER, "Loop bar", "", NULL, "whole phrase", 1, 1,
                          PANEL_PRACTICE, 0, 2,
                          "Loop bar: plays this bar of the phrase alone; L loops the one shown"},
    [CONTROL_CHANNEL] = {DIAL_VALUE, FORM_NUMBER, "Channel", "", NULL, NULL, 1, 1, PANEL_OUTPUT, 0,
                         0, "Channel: MIDI channel of the drums; General MIDI has them on 10"},
    [CONTROL_KIT] = {DIAL_PICK, FORM_ENTRY, "Kit map", "", NULL, NULL, 1, 1, PANEL_OUTPUT, 2, 0,
                     "Kit map: which MIDI key sounds which drum or cymbal"},
    [CONTROL_SPLIT_FEET] = {DIAL_SWITCH, FORM_NUMBER, "Left foot's own key", "", NULL, NULL, 1, 1,
                            PANEL_OUTPUT, 3, 0,
                            "Left foot's own key: sends its kick to the kit map's left kick"},
    [CONTROL_THROUGH] = {DIAL_SWITCH, FORM_NUMBER, "MIDI through", "", NULL, NULL, 1, 1,
                         PANEL_OUTPUT, 4, 0,
                         "MIDI through: notes played in go on to the output beside the groove"},
};

const Dial* dial_of(const Control control)
{
    return &dials[control];
}
