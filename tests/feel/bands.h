// SPDX-License-Identifier: ISC
/* bands.h - the published bands of tests/data/feel-bands.tsv. */
#pragma once

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* True if `got` lies between the 10th and the 90th percentile; says both if FEEL
   is set in the environment, or if it doesn't. */
static inline bool band_holds(const char* const series, const char* const statistic,
                              const double got)
{
    char line[512];
    bool found = false, holds = false;
    FILE* const file = fopen(FOURLIMB_SOURCE "/tests/data/feel-bands.tsv", "r");
    while (file && !found && fgets(line, sizeof line, file)) {
        char name[32], what[32];
        double low = 0.0, middle = 0.0, high = 0.0;
        if (sscanf(line, "%31s %31s %lf %lf %lf", name, what, &low, &middle, &high) == 5 &&
            !strcmp(name, series) && !strcmp(what, statistic)) {
            found = true;
            holds = got >= low && got <= high;
            if (getenv("FEEL") || !holds) {
                printf("# %s %s: got %.3g, published %.3g to %.3g, median %.3g\n", series,
                       statistic, got, low, high, middle);
            }
        }
    }
    if (file) {
        fclose(file);
    }
    return found && holds;
}
