// SPDX-License-Identifier: ISC
#include "picture_take.h"

#include <stdio.h>

typedef struct {
    double ticks_per_quarter;
    double ms_per_tick;
} PictureClock;

/* Keys as the published tables have them; toms are what is left. */
static int limb_of(const int key)
{
    static const struct {
        int key, limb;
    } limbs[] = {{35, KICK_LIMB},        {36, KICK_LIMB},     {37, SNARE_LIMB},
                 {38, SNARE_LIMB},       {40, SNARE_LIMB},    {22, CYMBAL_LIMB},
                 {42, CYMBAL_LIMB},      {26, CYMBAL_LIMB},   {46, CYMBAL_LIMB},
                 {51, CYMBAL_LIMB},      {53, CYMBAL_LIMB},   {59, CYMBAL_LIMB},
                 {44, PICTURE_HAT_FOOT}, {49, PICTURE_CRASH}, {52, PICTURE_CRASH},
                 {55, PICTURE_CRASH},    {57, PICTURE_CRASH}};
    int limb = PICTURE_TOM;
    for (unsigned i = 0; i < sizeof limbs / sizeof *limbs; ++i) {
        limb = limbs[i].key == key ? limbs[i].limb : limb;
    }
    return limb;
}

static void take_clear(PictureTake* const take)
{
    *take = (PictureTake){.ms = {.bars = WINDOW_BARS}, .velocity = {.bars = WINDOW_BARS}};
    for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
        for (int slot = 0; slot < SLOTS; ++slot) {
            take->ms.value[limb][slot] = take->velocity.value[limb][slot] = NOTHING;
        }
    }
}

static void take_stroke(PictureTake* const take, const PictureClock* const clock, const double tick,
                        const int key, const int velocity)
{
    const double sixteenths = tick / clock->ticks_per_quarter * 4.0;
    const int slot = (int)floor(sixteenths + 0.5);
    const int limb = limb_of(key);
    if (fabs(sixteenths - slot) > 0.42 || slot >= SLOTS || take->struck[limb][slot] >= velocity) {
        return;
    }
    take->key[limb][slot] = key;
    take->struck[limb][slot] = velocity;
    if (limb < WINDOW_LIMBS) {
        take->ms.value[limb][slot] =
            (tick - slot * clock->ticks_per_quarter / 4.0) * clock->ms_per_tick;
        take->velocity.value[limb][slot] = velocity;
    }
}

void picture_take_read(PictureTake* const take, const char* const folder, const char* const name)
{
    char path[1024], line[256];
    PictureClock clock = {0.0, 0.0};
    snprintf(path, sizeof path, "%s/feel-%s.csv", folder, name);
    FILE* const file = fopen(path, "r");
    if (!file) {
        perror(path);
        exit(1);
    }
    take_clear(take);
    while (fgets(line, sizeof line, file)) {
        double tick = 0.0, number = 0.0;
        int key = 0, velocity = 0;
        if (sscanf(line, "%*d, %*d, Header, %*d, %*d, %lf", &number) == 1) {
            clock.ticks_per_quarter = number;
        } else if (sscanf(line, "%*d, %*d, Tempo, %lf", &number) == 1) {
            clock.ms_per_tick = number / 1000.0 / clock.ticks_per_quarter;
        } else if (sscanf(line, "%*d, %lf, Note_on_c, %*d, %d, %d", &tick, &key, &velocity) == 3) {
            take_stroke(take, &clock, tick, key, velocity);
        }
    }
    fclose(file);
}

PicturePlaces picture_take_levels(const Window* const window, const WindowLimb limb)
{
    PicturePlaces places;
    const Row row = window_row(window, limb);
    place_means(&row, 8, places.mean, places.has);
    return places;
}

PicturePlaces picture_take_places(const Window* const window, const WindowLimb limb)
{
    PicturePlaces places = picture_take_levels(window, limb);
    const Row row = window_row(window, limb);
    for (int place = 0; place < 16; ++place) {
        places.mean[place] -= mean_of(row.x, row.count);
    }
    return places;
}

const char* picture_take_stream(const PictureTake* const take)
{
    const Row row = window_row(&take->ms, CYMBAL_LIMB);
    int of[4] = {0};
    for (int i = 0; i < row.count; ++i) {
        ++of[row.slot[i] % 4];
    }
    const double between = (double)(of[1] + of[3]) / row.count;
    return between > 0.35                                       ? "sixteenths"
           : between < 0.12 && (double)of[2] / row.count > 0.30 ? "eighths"
                                                                : NULL;
}
