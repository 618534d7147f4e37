// SPDX-License-Identifier: ISC
/* groove_folder.h - a bundle of our own around the built plugin, whose bank
   holds one groove that tells where it is: a hat on every sixteenth, and on
   every bar line a key that names the bar's place in four. */
#pragma once

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

enum { FOLDER_ROOM = 512, FOLDER_FILES = 4 };

/* The kit below; bars 0, 1, 2, 3, 4 ... have BAR_KEYS 0, 1, 2, 3, 0 ... */
enum { HAT_KEY = 42, BAR_KEYS = 4 };
/* The kit has no keys for the click: those of General MIDI 2, Metronome Click
   and Metronome Bell (tests/data/gm-percussion.tsv). */
enum { CLICK_KEY = 33, CLICK_ACCENT_KEY = 34 };
static const uint8_t bar_keys[BAR_KEYS] = {36, 35, 44, 56};

/* The groove's own tempo and meter, for hosts that have none. */
enum { GROOVE_TEMPO = 100, GROOVE_BEATS = 4 };

typedef struct {
    char path[FOLDER_ROOM];
} GrooveFolder;

static const char bank_text[] =
    "@prefix fl: <urn:fourlimb:terms#> .\n"
    "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
    "<urn:test:kit> a fl:Kit ; fl:id 1 ; rdfs:label \"Kit\" ; fl:key\n"
    "[ fl:voice fl:kick ; fl:note 36 ] , [ fl:voice fl:kickLeft ; fl:note 35 ] ,\n"
    "[ fl:voice fl:snare ; fl:note 38 ] , [ fl:voice fl:sideStick ; fl:note 37 ] ,\n"
    "[ fl:voice fl:hatClosed ; fl:note 42 ] , [ fl:voice fl:hatHalfOpen ; fl:note 45 ] ,\n"
    "[ fl:voice fl:hatOpen ; fl:note 46 ] , [ fl:voice fl:hatPedal ; fl:note 44 ] ,\n"
    "[ fl:voice fl:ride ; fl:note 51 ] , [ fl:voice fl:rideBell ; fl:note 53 ] ,\n"
    "[ fl:voice fl:crash ; fl:note 49 ] , [ fl:voice fl:crash2 ; fl:note 57 ] ,\n"
    "[ fl:voice fl:china ; fl:note 52 ] , [ fl:voice fl:splash ; fl:note 55 ] ,\n"
    "[ fl:voice fl:tomHigh ; fl:note 50 ] , [ fl:voice fl:tomMid ; fl:note 47 ] ,\n"
    "[ fl:voice fl:tomLow ; fl:note 48 ] , [ fl:voice fl:tomFloor ; fl:note 43 ] ,\n"
    "[ fl:voice fl:cowbell ; fl:note 56 ] .\n"
    "<urn:test:hands> a fl:HandsFigure ; fl:id 1 ; rdfs:label \"Sixteenths\" ;\n"
    "fl:line [ fl:limb fl:rightHand ; fl:voice fl:hatClosed ; fl:grid 4 ; fl:steps \"oooo\" ] .\n"
    /* Eight quarters: longer than any bar met, so that only bar lines sound. */
    "<urn:test:a> a fl:FeetFigure ; fl:id 1 ; rdfs:label \"A\" ; fl:bars 1 ; fl:line\n"
    "[ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 1 ; fl:steps \"O... ....\" ] .\n"
    "<urn:test:b> a fl:FeetFigure ; fl:id 2 ; rdfs:label \"B\" ; fl:bars 1 ; fl:line\n"
    "[ fl:limb fl:rightFoot ; fl:voice fl:kickLeft ; fl:grid 1 ; fl:steps \"O... ....\" ] .\n"
    "<urn:test:c> a fl:FeetFigure ; fl:id 3 ; rdfs:label \"C\" ; fl:bars 1 ; fl:line\n"
    "[ fl:limb fl:rightFoot ; fl:voice fl:hatPedal ; fl:grid 1 ; fl:steps \"O... ....\" ] .\n"
    "<urn:test:d> a fl:FeetFigure ; fl:id 4 ; rdfs:label \"D\" ; fl:bars 1 ; fl:line\n"
    "[ fl:limb fl:rightFoot ; fl:voice fl:cowbell ; fl:grid 1 ; fl:steps \"O... ....\" ] .\n"
    "<urn:test:groove> a fl:Groove ; fl:id 1 ; rdfs:label \"Groove\" ; fl:tempo 100 ;\n"
    "fl:beatsPerBar 4 ; fl:beatUnit 4 ; fl:form \"ABCD\" ; fl:part\n"
    "[ fl:letter \"A\" ; fl:hands <urn:test:hands> ; fl:feet <urn:test:a> ] ,\n"
    "[ fl:letter \"B\" ; fl:hands <urn:test:hands> ; fl:feet <urn:test:b> ] ,\n"
    "[ fl:letter \"C\" ; fl:hands <urn:test:hands> ; fl:feet <urn:test:c> ] ,\n"
    "[ fl:letter \"D\" ; fl:hands <urn:test:hands> ; fl:feet <urn:test:d> ] .\n";

static const char* const folder_files[FOLDER_FILES] = {"fourlimb.so", "manifest.ttl", "groove.ttl",
                                                       "bank/bank.ttl"};

static inline bool link_built(const GrooveFolder* const folder, const char* const name)
{
    char from[FOLDER_ROOM * 2], to[FOLDER_ROOM * 2];
    snprintf(from, sizeof from, "%s/%s", FOURLIMB_BUILD "/lv2/fourlimb.lv2", name);
    snprintf(to, sizeof to, "%s/%s", folder->path, name);
    return !symlink(from, to);
}

static inline bool write_bank(const GrooveFolder* const folder)
{
    char path[FOLDER_ROOM * 2];
    snprintf(path, sizeof path, "%s/bank", folder->path);
    if (mkdir(path, 0700)) {
        return false;
    }
    snprintf(path, sizeof path, "%s/%s", folder->path, folder_files[FOLDER_FILES - 1]);
    FILE* const file = fopen(path, "w");
    return file && fputs(bank_text, file) >= 0 && !fclose(file);
}

/* False, with a line printed, if the folder can't be made. */
static inline bool groove_folder_make(GrooveFolder* const folder)
{
    const char* const temporary = getenv("TMPDIR");
    snprintf(folder->path, sizeof folder->path, "%s/fourlimb-XXXXXX",
             temporary && *temporary ? temporary : "/tmp");
    const bool good = mkdtemp(folder->path) && link_built(folder, folder_files[0]) &&
                      link_built(folder, folder_files[1]) && link_built(folder, folder_files[2]) &&
                      write_bank(folder);
    if (!good) {
        perror(folder->path);
    }
    return good;
}

static inline void groove_folder_remove(const GrooveFolder* const folder)
{
    char path[FOLDER_ROOM * 2];
    for (int i = 0; i < FOLDER_FILES; ++i) {
        snprintf(path, sizeof path, "%s/%s", folder->path, folder_files[i]);
        unlink(path);
    }
    snprintf(path, sizeof path, "%s/bank", folder->path);
    rmdir(path);
    rmdir(folder->path);
}
