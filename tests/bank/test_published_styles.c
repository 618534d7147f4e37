// SPDX-License-Identifier: ISC
/* test_published_styles.c - grooves of the trade's styles have the strokes that handbooks,
   lessons and papers give them: tests/data/published-styles.tsv has what they say and who
   says it. */
#include "../../plugin/bank/names.h"
#include "../data/tsv.h"
#include "../help/check.h"
#include "factory.h"

#include <ctype.h>

enum { TEXT_ROOM = 256 };

/* ---- What is played, as the rows are written */

typedef struct {
    const StrokeList* list;
    int64_t begin; /* tick of step 0 */
    int64_t step;
} Played;

/* A voice of a row: what it is called, and whether steps may be left out. */
typedef struct {
    char name[24];
    bool at_least;
    const char* steps; /* behind the name; ends at ";" or the text's end */
} Line;

static bool is_called(const Stroke stroke, const char* const name)
{
    if (!strcmp(name, "hat")) {
        return stroke.voice == VOICE_HAT_CLOSED || stroke.voice == VOICE_HAT_HALF_OPEN ||
               stroke.voice == VOICE_HAT_OPEN;
    }
    if (!strcmp(name, "kick") && stroke.voice == VOICE_KICK_LEFT) {
        return true;
    }
    return stroke.voice == (uint8_t)name_index(voice_names, VOICE_COUNT, name);
}

static Line line_of(const char* const text)
{
    Line line = {.at_least = false};
    size_t length = 0;
    for (; isalpha((unsigned char)text[length]) && length + 1 < sizeof line.name; ++length) {
        line.name[length] = text[length];
    }
    line.at_least = text[length] == '+';
    line.steps = text + length + line.at_least;
    return line;
}

/* The sign that a row has behind that step: A, g or a space; 0 if the step isn't there. */
static char sign_at(const Line line, const int64_t step)
{
    const char* at = line.steps;
    while (*at && *at != ';') {
        char* end = NULL;
        const long found = strtol(at, &end, 10);
        if (end == at) {
            return 0;
        }
        if (found == step) {
            return *end == 'A' || *end == 'g' ? *end : ' ';
        }
        at = end + (*end == 'A' || *end == 'g');
    }
    return 0;
}

static bool has_level(const Stroke stroke, const char sign)
{
    return sign == 'A' ? stroke.level >= LEVEL_ACCENT : sign != 'g' || stroke.level == LEVEL_GHOST;
}

/* How many steps a line of a row has. */
static int count_steps(const Line line)
{
    int count = 0;
    for (int64_t step = 0; step < TEXT_ROOM; ++step) {
        count += sign_at(line, step) != 0;
    }
    return count;
}

/* Says in `problem` what is other than the row's line has it. */
static void compare_line(const Played played, const Line line, char problem[TEXT_ROOM])
{
    int found = 0;
    for (uint32_t i = 0; i < played.list->count; ++i) {
        const Stroke stroke = played.list->strokes[i];
        const int64_t tick = stroke.tick - played.begin;
        if (!is_called(stroke, line.name)) {
            continue;
        }
        const char sign = tick % played.step ? (char)0 : sign_at(line, tick / played.step);
        found += sign != 0;
        if (!sign && !line.at_least) {
            snprintf(problem, TEXT_ROOM, "%s on %.2f, where the source has none", line.name,
                     (double)tick / (double)played.step);
        } else if (sign && !has_level(stroke, sign)) {
            snprintf(problem, TEXT_ROOM, "%s on %.0f is not %c", line.name,
                     (double)tick / (double)played.step, sign);
        }
    }
    if (!*problem && found != count_steps(line)) {
        snprintf(problem, TEXT_ROOM, "%s: %d of the source's %d strokes", line.name, found,
                 count_steps(line));
    }
}

static void compare_order(const Played played, const char* const order, char problem[TEXT_ROOM])
{
    const size_t steps = strlen(order);
    const bool feet = strchr(order, 'F');
    char got[TEXT_ROOM / 2] = "";
    if (steps >= sizeof got) {
        snprintf(problem, TEXT_ROOM, "its order is too long: %zu steps", steps);
        return;
    }
    memset(got, '.', steps);
    for (uint32_t i = 0; i < played.list->count; ++i) {
        const Stroke stroke = played.list->strokes[i];
        const int64_t step = (stroke.tick - played.begin) / played.step;
        const bool is_foot = limb_is_foot(stroke.limb);
        if ((is_foot && !feet) || step < 0 || step >= (int64_t)steps) {
            continue;
        }
        got[step] = got[step] != '.' ? '2' : is_foot ? 'F' : sticking_letter(stroke.limb);
    }
    if (strcmp(got, order) != 0) {
        snprintf(problem, TEXT_ROOM, "limbs %s", got);
    }
}

static const char* compare(const Played played, const char* const voices, const char* const order)
{
    static char problem[TEXT_ROOM];
    *problem = '\0';
    for (const char* at = voices; at && *at && *at != '-';) {
        compare_line(played, line_of(at), problem);
        at = strchr(at, ';');
        at += at ? strspn(at, "; ") : 0;
    }
    if (*order != '-' && !*problem) {
        compare_order(played, order, problem);
    }
    return problem;
}

/* ---- The factory's grooves */

static Bank* bank;

static const Groove* groove_with(const uint32_t id)
{
    const Library* const library = bank_library(bank);
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        if (library->grooves[i].id == id) {
            return &library->grooves[i];
        }
    }
    return NULL;
}

/* The columns of the table. */
enum { GROOVE, BAR, BARS, STEPS, VOICES_OF_ROW, ORDER, TEMPO, SOURCE, COLUMNS };

/* What is other than in the row: its bars without turnaround or crash; in triplets as the
   groove swings, else even. */
static const char* check_row(const Tsv* const row, Groove groove)
{
    static StrokeList list;
    const int64_t bar = meter_bar_ticks(groove.meter);
    const int64_t begin = (tsv_integer(row, BAR) - 1) * bar;
    groove.turnaround = NULL;
    groove.crash_start = false;
    Selection selection = plain_choice(&groove, groove.form_bars);
    if (tsv_integer(row, STEPS) == 3 && groove.feel.swing_ratio > 1.0) {
        selection.swing.ratio = groove.feel.swing_ratio;
    }
    list.count = 0;
    groove_strokes(&selection, groove.meter, begin, begin + tsv_integer(row, BARS) * bar, &list);
    return compare((Played){&list, begin, TICKS_PER_QUARTER / tsv_integer(row, STEPS)},
                   row->fields[VOICES_OF_ROW], row->fields[ORDER]);
}

/* "160-180"; "-" if the source states none. */
static bool tempo_is_in(const double tempo, const char* const range)
{
    char* end = NULL;
    const double low = strtod(range, &end);
    return end == range || (tempo >= low && tempo <= strtod(end + 1, NULL));
}

/* At least 18: what the project set out to hold against a source. */
static void grooves_have_the_strokes_that_their_sources_give(void)
{
    int grooves = 0, last = 0;
    Tsv row = tsv_open("published-styles.tsv");
    while (tsv_next(&row)) {
        const int id = tsv_integer(&row, GROOVE);
        check_case("groove %d, bar %d: %s", id, tsv_integer(&row, BAR), row.fields[SOURCE]);
        CHECK_INT(row.count, COLUMNS);
        const Groove* const groove = groove_with((uint32_t)id);
        if (CHECK(groove)) {
            CHECK_TEXT(check_row(&row, *groove), "");
            CHECK(tempo_is_in(groove->tempo, row.fields[TEMPO]));
        }
        grooves += id != last;
        last = id;
    }
    printf("# %d grooves with a source\n", grooves);
    CHECK(grooves >= 18);
}

static void a_stroke_that_the_source_has_not_is_found(void)
{
    enum { S = TICKS_PER_QUARTER / 2 };
    static StrokeList list = {.count = 4,
                              .strokes = {{0, RIGHT_HAND, VOICE_RIDE, LEVEL_NORMAL, true},
                                          {2 * S, LEFT_HAND, VOICE_SNARE, LEVEL_ACCENT, true},
                                          {3 * S, LEFT_HAND, VOICE_SNARE, LEVEL_GHOST, true},
                                          {4 * S, RIGHT_FOOT, VOICE_KICK, LEVEL_NORMAL, true}}};
    static const char* const cases[][3] = {
        {"ride 0; snare 2A 3g; kick 4", "R.LLF", ""},
        {"kick+ 4", "R.LL.", ""},
        {"snare 2", "-", "snare on 3.00, where the source has none"},
        {"snare 2 3 5", "-", "snare: 2 of the source's 3 strokes"},
        {"snare 2 3A", "-", "snare on 3 is not A"},
        {"snare 2g 3", "-", "snare on 2 is not g"},
        {"ride 0; hat 0", "-", "hat: 0 of the source's 1 strokes"},
        {"kick+ 4 6", "-", "kick: 1 of the source's 2 strokes"},
        {"-", "R.RL", "limbs R.LL"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; ++i) {
        check_case("%s", cases[i][0]);
        CHECK_TEXT(compare((Played){&list, 0, S}, cases[i][0], cases[i][1]), cases[i][2]);
    }
}

int main(void)
{
    bank = factory_open();
    RUN(a_stroke_that_the_source_has_not_is_found);
    RUN(grooves_have_the_strokes_that_their_sources_give);
    bank_free(bank);
    return tests_end();
}
