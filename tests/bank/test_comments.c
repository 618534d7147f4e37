// SPDX-License-Identifier: ISC
/* test_comments.c - comments that are right and wrong before the reader of comments; that it
   reads the factory's, which tests/bank/test_bank_check.c wants to be right. */
#include "../../plugin/check/comments.h"
#include "../help/check.h"
#include "factory.h"

/* ---- The factory's comments */

static Bank* bank;

static void what_a_comment_names_is_played(void)
{
    int read = 0;
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            const EntryInfo* const info = bank_entry(bank, (EntryKind)kind, i);
            const CommentRead reading = comment_read(
                factory_figure(bank, (EntryKind)kind, i), info->comment,
                !strcmp(info->family_uri, "urn:fourlimb:terms#compound") ? TICKS_PER_QUARTER / 2
                                                                         : TICKS_PER_QUARTER);
            check_case("%s %u: %s", kind_rows[kind].name, info->id, info->comment);
            CHECK_TEXT(reading.problem, "");
            read += reading.read;
        }
    }
    check_case("the reader reads");
    printf("# %d places named\n", read);
    CHECK(read >= 40);
}

/* ---- The reader, before comments that are wrong */

static Figure figure_with(const FigureKind kind, const Stroke* const strokes, const uint32_t count)
{
    return (Figure){.id = 1,
                    .kind = kind,
                    .cycle_ticks = 4 * TICKS_PER_QUARTER,
                    .step_ticks = TICKS_PER_QUARTER / 8,
                    .bars = 1,
                    .stroke_count = count,
                    .strokes = strokes};
}

enum { Q = TICKS_PER_QUARTER };

static void a_comment_that_names_counts_which_are_not_played_is_found(void)
{
    static const Stroke strokes[] = {{0, RIGHT_FOOT, VOICE_KICK, LEVEL_ACCENT, true},
                                     {Q, LEFT_FOOT, VOICE_HAT_PEDAL, LEVEL_NORMAL, true},
                                     {2 * Q, RIGHT_FOOT, VOICE_KICK, LEVEL_ACCENT, true},
                                     {3 * Q, RIGHT_FOOT, VOICE_KICK, LEVEL_NORMAL, true}};
    const Figure feet = figure_with(FIGURE_FEET, strokes, 4);
    static const char* const rows[][2] = {
        {"Kick on one, three and four, pedal on two, to end a march phrase.", ""},
        {"Kick on one, three and three-and, pedal on two.", "no kick on three-and"},
        {"Kick on one and three, pedal on two and four.", "no pedal on four"},
        {"Kick on one, hat closed by the foot on four-e.", "no foot on four-e"},
        {"Around a snare on two-and.", ""}, /* which the hands play */
        {"A KICK ON TWO.", "no kick on two"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        check_case("%s", rows[i][0]);
        CHECK_TEXT(comment_read(&feet, rows[i][0], Q).problem, rows[i][1]);
    }
    CHECK_INT(comment_read(&feet, rows[0][0], Q).read, 6); /* four counts, two voices */
}

static void a_comment_that_names_a_close_which_is_not_played_is_found(void)
{
    static const Stroke strokes[] = {{0, RIGHT_HAND, VOICE_CRASH, LEVEL_ACCENT, true},
                                     {2 * Q, LEFT_HAND, VOICE_SNARE, LEVEL_ACCENT, true},
                                     {3 * Q, RIGHT_HAND, VOICE_SNARE, LEVEL_ACCENT, true},
                                     {3 * Q, RIGHT_FOOT, VOICE_KICK, LEVEL_ACCENT, true}};
    const Figure fill = figure_with(FIGURE_TURNAROUND, strokes, 4);
    static const char* const rows[][2] = {
        {"Hertas, and a crash to close; quarters in the feet.", "no crash to close"},
        {"Snares, and a kick to close.", ""},
        {"Snare on three, both crashes and the kick on one.", "no kick on one"},
        {"The snare falls on three and four, then nothing.", ""},
        {"A china after the snare.", "no china"},
        {"Crash, snares and bells.", "no bell"},
        {"The snare in place of the hat, no china.", ""},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        check_case("%s", rows[i][0]);
        CHECK_TEXT(comment_read(&fill, rows[i][0], Q).problem, rows[i][1]);
    }
}

int main(void)
{
    bank = factory_open();
    RUN(a_comment_that_names_counts_which_are_not_played_is_found);
    RUN(a_comment_that_names_a_close_which_is_not_played_is_found);
    RUN(what_a_comment_names_is_played);
    bank_free(bank);
    return tests_end();
}
