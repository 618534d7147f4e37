// SPDX-License-Identifier: ISC
/* test_rendered.c - playability of the bank's grooves against MIDI files: the command
   renders one limb alone, midicsv (another's) reads the file, and its notes are counted
   one by one.  Grooves with flams or drags are left out: a file has their grace notes. */
#include "../bank/factory.h"
#include "counted.h"

#include <unistd.h>

enum { NOTES_MAX = 20000, BARS = 12 };

static const double blur = 0.0005; /* a file's ticks and the plugin's frames are rounded */

static const char* const limb_names[] = {"right_hand", "left_hand", "right_foot", "left_foot"};

static double times[NOTES_MAX];

/* What is asked of fills. */
static struct {
    int every;
    int beats;
} fills;

static bool ornamented(const Figure* const figure)
{
    for (uint32_t i = 0; figure && i < figure->stroke_count; ++i) {
        if (figure->strokes[i].level > LEVEL_ACCENT) {
            return true;
        }
    }
    return false;
}

static bool groove_ornamented(const Groove* const groove)
{
    bool any = ornamented(groove->turnaround);
    for (int part = 0; part < PARTS_MAX; ++part) {
        any = any || ornamented(groove->parts[part].hands) || ornamented(groove->parts[part].feet);
    }
    return any;
}

/* The notes that begin in what midicsv says, in seconds; notes together are one. */
static uint32_t read_notes(FILE* const csv)
{
    char line[256];
    double division = 0.0, tempo = 0.0;
    uint32_t count = 0;
    while (fgets(line, sizeof line, csv)) {
        int track, velocity, a, b;
        long long tick;
        if (sscanf(line, "0, 0, Header, %d, %d, %lf", &a, &b, &division) == 3 ||
            sscanf(line, "%d, %lld, Tempo, %lf", &track, &tick, &tempo) == 3) {
            continue;
        }
        if (sscanf(line, "%d, %lld, Note_on_c, %d, %d, %d", &track, &tick, &a, &b, &velocity) ==
                5 &&
            velocity && count < NOTES_MAX) {
            const double at = (double)tick / division * tempo / 1e6;
            if (!count || at - times[count - 1] > blur) {
                times[count++] = at;
            }
        }
    }
    return count;
}

static uint32_t render_limb(const uint32_t groove, const int limb, const double tempo)
{
    char command[1024], path[256];
    const char* const folder = getenv("TMPDIR");
    snprintf(path, sizeof path, "%s/rendered-%d.mid", folder ? folder : "/tmp", (int)getpid());
    int at = snprintf(command, sizeof command,
                      FOURLIMB_BUILD
                      "/fourlimb render --force --groove %u --bars %d --tempo %g "
                      "--set looseness=0 --set touch=0 --set liberty=0 --set fill_every=%d "
                      "--set fill_beats=%d --out %s",
                      groove, BARS, tempo, fills.every, fills.beats, path);
    for (int other = 0; other < LIMB_COUNT; ++other) {
        at += snprintf(command + at, sizeof command - (size_t)at, " --set %s=%d", limb_names[other],
                       other == limb);
    }
    snprintf(command + at, sizeof command - (size_t)at, " >/dev/null && midicsv %s", path);
    FILE* const csv = popen(command, "r");
    const uint32_t count = csv ? read_notes(csv) : 0;
    CHECK(csv && pclose(csv) == 0);
    unlink(path);
    return count;
}

static void check_limb(const Playability* const playability, const uint32_t groove, const int limb,
                       const char* const label)
{
    const PlayStream stream = (PlayStream)limb;
    const uint32_t count = render_limb(groove, limb, playability->tempo);
    const Counted counted = count_stream(
        times, count, playability->limits.run_gap_ms[limb] / 1000.0, playability->limits.rate[limb],
        burst_rate_of(stream, playability->limits.rate[limb]), blur);
    check_case("%s, %s at %g", label, limb_names[limb], playability->tempo);
    check_counted(playability, stream, &counted, blur);
    CHECK_INT(playability->found[limb].torn, 0);
}

/* What the command selects with all controls but these at their defaults. */
static Selection as_rendered(const Library* const library, const uint32_t groove,
                             const double tempo)
{
    float values[CONTROL_COUNT];
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].normal;
    }
    values[CONTROL_GROOVE] = (float)groove;
    values[CONTROL_FILL_EVERY] = (float)fills.every;
    values[CONTROL_FILL_BEATS] = (float)fills.beats;
    const Settings settings = settings_from_controls(values);
    return selection_make(library, &settings, tempo);
}

/* True if even strokes on some grid are as far apart as a limit has them, to a hundredth:
   within what a file's ticks blur. */
static bool is_at_a_limit(const double tempo)
{
    static const double limits_s[] = {0.25, 0.125, 0.1, 60.0 / 517.0};
    for (int steps = 1; steps <= 24; ++steps) {
        const double gap = 60.0 / tempo / steps;
        for (size_t i = 0; i < sizeof limits_s / sizeof *limits_s; ++i) {
            const double bounce = limits_s[i] / burst_rate_of((PlayStream)RIGHT_FOOT, 1.0);
            if (fabs(gap / limits_s[i] - 1.0) < 0.01 || fabs(gap / bounce - 1.0) < 0.01) {
                return true;
            }
        }
    }
    return false;
}

static double beside_limits(const double tempo)
{
    double beside = tempo;
    while (is_at_a_limit(beside) && CHECK(beside < tempo + 40.0)) {
        beside += 0.37;
    }
    return beside;
}

/* At the highest tempo it is for, and a little: so no gap lies just at a limit. */
static void check_grooves(const uint32_t first, const uint32_t apart)
{
    static Playability playability;
    const PlayLimits limits = play_limits_default();
    Bank* const bank = factory_open();
    int looked_at = 0;
    uint32_t strokes = 0;
    for (uint32_t i = first; i < bank_count(bank, ENTRY_GROOVE); i += apart) {
        const Groove* const groove = &bank_library(bank)->grooves[i];
        if (groove_ornamented(groove)) {
            continue;
        }
        const EntryInfo* const entry = bank_entry(bank, ENTRY_GROOVE, i);
        const double tempo = beside_limits(entry->tempo_high + 0.37);
        const Selection selection = as_rendered(bank_library(bank), groove->id, tempo);
        playability_run(&playability, &selection, groove->meter, tempo, BARS, &limits);
        for (int limb = 0; limb < LIMB_COUNT; ++limb) {
            check_limb(&playability, groove->id, limb, entry->label);
            strokes += playability.found[limb].strokes;
        }
        ++looked_at;
    }
    printf("# %d grooves, %u strokes\n", looked_at, strokes);
    CHECK(looked_at >= 5);
    bank_free(bank);
}

static void the_bank_s_grooves_ask_what_their_midi_files_do(void)
{
    check_grooves(0, 5);
}

/* The groove, then the fill's last beats, and that every third bar: as it is played. */
static void fills_ask_what_is_really_played_of_them_and_before(void)
{
    fills.every = 3;
    fills.beats = 2;
    check_grooves(3, 11);
}

int main(void)
{
    if (system("command -v midicsv >/dev/null")) {
        test_skip("midicsv is not there");
    } else {
        RUN(the_bank_s_grooves_ask_what_their_midi_files_do);
        RUN(fills_ask_what_is_really_played_of_them_and_before);
    }
    return tests_end();
}
