// SPDX-License-Identifier: ISC
/* bands.h - the published bands of tests/data/feel-bands.tsv. */
#pragma once

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    bool found;
    double low, middle, high; /* the 10th, 50th and 90th percentile */
} Band;

static inline Band band_of(const char* const series, const char* const statistic)
{
    char line[512];
    Band band = {.found = false};
    FILE* const file = fopen(FOURLIMB_SOURCE "/tests/data/feel-bands.tsv", "r");
    while (file && !band.found && fgets(line, sizeof line, file)) {
        char name[32], what[32];
        band.found = sscanf(line, "%31s %31s %lf %lf %lf", name, what, &band.low, &band.middle,
                            &band.high) == 5 &&
                     !strcmp(name, series) && !strcmp(what, statistic);
    }
    if (file) {
        fclose(file);
    }
    return band;
}

/* True if `got` lies between the 10th and the 90th percentile; says both if FEEL
   is set in the environment, or if it doesn't. */
static inline bool band_holds(const char* const series, const char* const statistic,
                              const double got)
{
    const Band band = band_of(series, statistic);
    const bool holds = band.found && got >= band.low && got <= band.high;
    if (band.found && (getenv("FEEL") || !holds)) {
        printf("# %s %s: got %.3g, published %.3g to %.3g, median %.3g\n", series, statistic, got,
               band.low, band.high, band.middle);
    }
    return holds;
}
