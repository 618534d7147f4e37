// SPDX-License-Identifier: ISC
/* test_own_tempo.c - a host that names neither tempo nor meter gets the groove's,
   and with another groove the other's, from the line on. */
#include "stage.h"

/* Grooves 3 and 2 are in 4/4, at 120 and at 150; the feet run in sixteenths. */
enum { BAR = 96000, SIXTEENTH = 6000, NEW_SIXTEENTH = 4800, KICK = 48, BARS = 4 };

static Stage stage, other;

/* A host that tells only its frame and that it rolls. */
static void tell_frame(Stage* const told)
{
    LV2_Atom_Forge* const forge = host_input(told->host);
    LV2_Atom_Forge_Frame object;
    lv2_atom_forge_frame_time(forge, 0);
    lv2_atom_forge_object(forge, &object, 0, host_urid(told->host, LV2_TIME__Position));
    stage_key(told, LV2_TIME__frame);
    lv2_atom_forge_long(forge, 0);
    stage_key(told, LV2_TIME__speed);
    lv2_atom_forge_float(forge, 1.0f);
    lv2_atom_forge_pop(forge, &object);
}

/* Another groove is asked for in the second bar and comes with the third. */
static void play_change(Stage* const played, const uint32_t block)
{
    stage_open(played, 120.0, 4, 4);
    stage_set(played, "groove", 3);
    stage_set(played, "feet", 50);
    stage_set(played, "turnaround", -1);
    stage_set(played, "kit", 2);
    stage_set(played, "change_at", 2);
    tell_frame(played);
    stage_run(played, BAR + 5000, block);
    stage_set(played, "groove", 2);
    stage_run(played, (BARS - 1) * BAR - 5000, block);
}

static void the_groove_s_tempo_is_played(void)
{
    play_change(&stage, 512);
    for (int i = 0; i < 32; ++i) {
        check_case("sixteenth %d", i + 1);
        CHECK_INT(stage_struck(&stage, KICK, i * SIXTEENTH, i * SIXTEENTH + 1), 1);
    }
}

static void from_the_line_on_the_other_s_is_played(void)
{
    play_change(&stage, 512);
    for (int i = 0; i < 32; ++i) {
        const int64_t frame = 2 * BAR + i * NEW_SIXTEENTH;
        check_case("sixteenth %d from the line, at frame %d", i + 1, (int)frame);
        CHECK_INT(stage_struck(&stage, KICK, frame, frame + 1), 1);
    }
}

static void it_comes_in_alike_in_any_block_size(void)
{
    static const uint32_t blocks[] = {64, 333, 1024, 8192};
    play_change(&other, 512);
    for (size_t k = 0; k < sizeof blocks / sizeof *blocks; ++k) {
        play_change(&stage, blocks[k]);
        check_case("blocks of %u", blocks[k]);
        CHECK_INT(stage.count, other.count);
        for (uint32_t i = 0; i < stage.count && i < other.count; ++i) {
            CHECK_INT(stage.notes[i].frame, other.notes[i].frame);
        }
    }
}

int main(void)
{
    RUN(the_groove_s_tempo_is_played);
    RUN(from_the_line_on_the_other_s_is_played);
    RUN(it_comes_in_alike_in_any_block_size);
    stage_close(&stage);
    stage_close(&other);
    return tests_end();
}
