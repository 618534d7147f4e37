// SPDX-License-Identifier: ISC
#include "song_say.h"

#include "../../plugin/engine/groove/foot_load.h"
#include "../../plugin/engine/song/song_fill.h"
#include "../../plugin/engine/song/song_road.h"
#include "../../plugin/engine/song/song_settings.h"

#include <stdio.h>
#include <string.h>

void song_say_name(const SongMap* const map, const uint32_t row, const uint32_t pass,
                   char name[SONG_SAY_ROOM])
{
    const uint32_t number = song_road(map, row).number;
    int length = snprintf(name, SONG_SAY_ROOM, "%s", map->song->sections[row].name);
    if (number) {
        length += snprintf(name + length, SONG_SAY_ROOM - (size_t)length, " %u", number);
    }
    if (pass) {
        snprintf(name + length, SONG_SAY_ROOM - (size_t)length, " (%u)", pass + 1);
    }
}

static bool rolls(const Figure* const figure)
{
    return figure && !figure->bars;
}

static bool any_rolls(const SongPlayed* const played, const uint32_t row)
{
    float values[CONTROL_COUNT];
    memcpy(values, played->controls, sizeof values);
    song_settings_controls(played->map, played->map->rows[row].tick, values);
    const Settings settings = settings_from_controls(values);
    const Selection selection = selection_make(played->library, &settings, 120.0);
    bool any = rolls(selection.hands) || rolls(selection.feet);
    for (uint32_t bar = 0; selection.groove && bar < selection.groove->form_bars; ++bar) {
        const Part part = selection.groove->parts[selection.groove->form[bar]];
        any |= (!selection.hands && rolls(part.hands)) || (!selection.feet && rolls(part.feet));
    }
    return any;
}

/* What the engine does not play yet, so that nobody looks for it in the file. */
static void tell_section(const SongPlayed* const played, const uint32_t row)
{
    const SongSection* const section = &played->map->song->sections[row];
    const SongEnding ending = section->ending;
    const SongFill fill = song_fill(played->map, row, played->library, played->controls);
    static const char* const unfilled[] = {
        "", "no fill is heard longer than 16 beats yet",
        "no fill is heard over bars of several lengths yet, but in the last of them",
        "no fill is heard yet at the end of so many bars"};
    char name[SONG_SAY_ROOM];
    song_say_name(played->map, row, 0, name);
    if (section->hit_count) {
        fprintf(stderr, "fourlimb: %s: its hits aren't struck yet; stops around them are heard\n",
                name);
    }
    if (ending == SONG_HIT || ending == SONG_RING || ending == SONG_CHOKE) {
        fprintf(stderr, "fourlimb: %s: what its ending %s isn't heard yet; the silence is\n", name,
                ending == SONG_CHOKE ? "grips" : "strikes");
    }
    if (fill.why != SONG_FILL_WHOLE) {
        fprintf(stderr, "fourlimb: %s: %s\n", name, unfilled[fill.why]);
    }
    if (song_road(played->map, row).many_meters && any_rolls(played, row) &&
        !song_value(section, CONTROL_REALIGN)) {
        fprintf(stderr,
                "fourlimb: %s: between bars of several lengths figures that roll start again at "
                "each bar line\n",
                name);
    }
}

void song_say_unheard(const SongPlayed* const played)
{
    for (uint32_t row = 0; row < played->map->count; ++row) {
        tell_section(played, row);
    }
}

/* ---- The road map */

static void print_meters(const SongRow* const row)
{
    char text[SONG_METERS_MAX * 8] = "";
    const int64_t count = row->meter_count < row->pass_bars ? row->meter_count : row->pass_bars;
    size_t length = 0;
    for (int64_t i = 0; i < count && length < sizeof text; ++i) {
        length += (size_t)snprintf(text + length, sizeof text - length, "%s%g/%d", i ? " " : "",
                                   row->meters[i].beats_per_bar, row->meters[i].beat_unit);
    }
    printf("  %-19s", text);
}

static void print_way(const double from, const double to, const double last)
{
    char text[48];
    int length = snprintf(text, sizeof text, "%g", from);
    if (differs(from, to)) {
        length += snprintf(text + length, sizeof text - (size_t)length, " to %g", to);
    }
    if (last > 0.0) {
        snprintf(text + length, sizeof text - (size_t)length, ", rit. %.0f", last);
    }
    printf("  %-15s", text);
}

static void print_time(const double seconds)
{
    printf("  %d:%02d", (int)seconds / 60, (int)seconds % 60);
}

/* Strokes in the busiest second of the busier foot, at the section's highest tempo and in its
   first meter. */
static double foot_rate(const SongMap* const map, const Library* const library,
                        const uint32_t index)
{
    static FootLoad load; /* too large for a stack */
    const SongRow* const row = &map->rows[index];
    const double tempo = row->tempo > row->tempo_to ? row->tempo : row->tempo_to;
    float values[CONTROL_COUNT];
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].normal;
    }
    song_settings_controls(map, row->tick, values);
    const Settings settings = settings_from_controls(values);
    const Selection selection = selection_make(library, &settings, tempo);
    if (map->song->sections[index].rests || !selection.groove) {
        return 0.0;
    }
    foot_load_all(&load, &selection, row->meters[0], tempo);
    return load.found[0].rate > load.found[1].rate ? load.found[0].rate : load.found[1].rate;
}

static void print_row(const SongMap* const map, const uint32_t index, const double rate)
{
    const SongSection* const section = &map->song->sections[index];
    const SongRow* const row = &map->rows[index];
    const int64_t pickup = map->song->sections[0].beats ? 1 : 0;
    char name[SONG_SAY_ROOM];
    char bars[32];
    song_say_name(map, index, 0, name);
    snprintf(bars, sizeof bars, section->times > 1 ? "%u x %u" : "%u", section->bars,
             section->times);
    printf("  %4d  %-20s %6s", (int)(row->bar + 1 - pickup), name, bars);
    print_meters(row);
    print_way(row->tempo, row->tempo_to, row->ritard_ticks ? row->ritard_to : 0.0);
    print_way(row->level, row->level_to, 0.0);
    printf("  %5.1f", rate);
    print_time(song_time_seconds(map, 0, row->tick));
    putchar('\n');
}

static void print_hardest(const SongMap* const map, const uint32_t index, const double rate)
{
    char name[SONG_SAY_ROOM];
    song_say_name(map, index, 0, name);
    if (rate > 0.0) {
        printf("hardest for the feet: %s, %.1f strokes a second of one foot\n", name, rate);
    }
}

void song_say_road(const SongMap* const map, const Library* const library)
{
    uint32_t hardest = 0;
    double most = 0.0;
    printf("%s: %u sections, %d bars,", map->song->title, map->count, (int)map->bars);
    print_time(song_time_seconds(map, 0, map->ticks));
    printf("\n   bar  section                bars  meter                tempo            level     "
           "       foot/s    at\n");
    for (uint32_t row = 0; row < map->count; ++row) {
        const double rate = foot_rate(map, library, row);
        print_row(map, row, rate);
        hardest = rate > most ? row : hardest;
        most = rate > most ? rate : most;
    }
    print_hardest(map, hardest, most);
}
