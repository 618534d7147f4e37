// SPDX-License-Identifier: ISC
/* Positions in every form a host may send, beyond those recorded: fields
   missing, of any type, wild, or cut off. */
#include "hand_played.h"

static void a_start_plays_by_the_fields_it_has(void)
{
    Player player;
    bool good = open_player(&player);
    for (uint32_t bits = 0; good && bits < 1U << PLAIN_FIELDS; ++bits) {
        Told whole = position_at(0, 1);
        set_field(&whole, BEATS_PER_BAR, 3.0);
        begin_anew(&player);
        check_case("fields %02x", bits);
        const int64_t end = 2 * BAR_FRAMES;
        tell(&player, some_fields(&whole, bits), 0);
        play_to(&player, end, 1024);
        const double tempo = (bits & 1U << BEATS_PER_MINUTE) ? 120.0 : GROOVE_TEMPO;
        const double quarter = 60.0 * RATE / tempo;
        const double beats = (bits & 1U << BEATS_PER_BAR) ? 3.0 : GROOVE_BEATS;
        if (bits & 1U << SPEED) {
            check_hats_apart(&player, 0, quarter / 4.0, end);
            check_bars(&player, 0, llround(quarter * beats), end, 0);
        } else {
            CHECK_INT(player.count, 0);
        }
    }
    check_case("after all of them");
    close_player(&player);
}

/* Whatever is missing holds on: the true place, or parts of it, moves nothing. */
static void parts_of_the_true_place_change_nothing(void)
{
    Player player;
    bool good = open_player(&player);
    for (uint32_t bits = 0; good && bits < 1U << PLAIN_FIELDS; ++bits) {
        const Told truth = position_at(51200, 1);
        begin_anew(&player);
        check_case("fields %02x", bits);
        const int64_t end = 2 * BAR_FRAMES;
        tell(&player, position_at(0, 1), 0);
        play_to(&player, 51200, 1024);
        tell(&player, some_fields(&truth, bits), 0);
        play_to(&player, end, 1024);
        check_hats(&player, 0, end);
        check_bars(&player, 0, BAR_FRAMES, end, 0);
    }
    check_case("after all of them");
    close_player(&player);
}

/* A locate tells a place by its frame, whatever else is missing. */
static void a_jump_with_a_frame_goes_there_whatever_is_missing(void)
{
    const Told there = position_at(10 * BAR_FRAMES, 1);
    Player player;
    bool good = open_player(&player);
    for (uint32_t bits = 0; good && bits < 1U << PLAIN_FIELDS; ++bits) {
        begin_anew(&player);
        check_case("fields %02x", bits);
        tell(&player, position_at(0, 1), 0);
        play_to(&player, 1500, 500);
        const int64_t jump = 1500, end = jump + BAR_FRAMES;
        tell(&player, some_fields(&there, bits | 1U << FRAME), 0);
        play_to(&player, end, 500);
        check_hats(&player, jump, end);
        check_bars(&player, jump, BAR_FRAMES, end, 10);
    }
    check_case("after all of them");
    close_player(&player);
}

static void play_two_bars(Player* const player, const Told told)
{
    begin_anew(player);
    tell(player, told, 0);
    play_to(player, 2 * BAR_FRAMES, 256);
}

/* A place whose numbers are all whole, so that no type can cut them. */
static void every_field_may_be_of_any_number_type(void)
{
    const char types[] = {'I', 'L', 'F', 'D'};
    const Told plain = position_at(3 * BAR_FRAMES + QUARTER_FRAMES, 1);
    Player want, got = {.host = NULL};
    if (open_player(&want) && open_player(&got)) {
        play_two_bars(&want, plain);
        check_hats(&want, 0, 2 * BAR_FRAMES);
        check_bars(&want, 3 * QUARTER_FRAMES, BAR_FRAMES, 2 * BAR_FRAMES, 4);
        for (uint32_t i = 0; i < plain.count * sizeof types; ++i) {
            Told told = plain;
            told.types[i / sizeof types] = types[i % sizeof types];
            check_case("%s as %c", field_name(told.fields[i / sizeof types]),
                       types[i % sizeof types]);
            play_two_bars(&got, told);
            check_same_notes(&got, &want);
        }
    }
    close_player(&want);
    close_player(&got);
}

static void a_field_that_is_no_number_is_as_good_as_missing(void)
{
    const Told plain = position_at(0, 1);
    Player want, got = {.host = NULL};
    bool good = open_player(&want) && open_player(&got);
    for (uint32_t i = 0; good && i < plain.count; ++i) {
        Told told = plain;
        told.types[i] = 'S';
        check_case("%s", field_name(told.fields[i]));
        play_two_bars(&got, told);
        play_two_bars(&want, some_fields(&plain, ~(1U << i)));
        check_same_notes(&got, &want);
    }
    close_player(&want);
    close_player(&got);
}

typedef struct {
    Field field;
    char type;
    double value;
} Wild;

/* None of these is a place, a speed, a meter or a tempo of any transport. */
static const Wild wild[] = {
    {FRAME, 'D', (double)NAN},
    {FRAME, 'D', (double)INFINITY},
    {FRAME, 'F', -(double)INFINITY},
    {FRAME, 'D', 1e300},
    {SPEED, 'F', (double)NAN},
    {SPEED, 'F', (double)INFINITY},
    {SPEED, 'D', -(double)INFINITY},
    {BAR, 'D', (double)NAN},
    {BAR, 'D', 1e300},
    {BAR, 'L', 9e18},
    {BAR_BEAT, 'F', (double)NAN},
    {BAR_BEAT, 'F', (double)INFINITY},
    {BAR_BEAT, 'F', -4294967296.0},
    {BEAT, 'D', (double)NAN},
    {BEAT, 'D', 1e300},
    {BEAT_UNIT, 'I', 0.0},
    {BEAT_UNIT, 'I', 3.0},
    {BEAT_UNIT, 'I', -4.0},
    {BEAT_UNIT, 'L', 1e12},
    {BEAT_UNIT, 'F', (double)NAN},
    {BEATS_PER_BAR, 'F', 0.0},
    {BEATS_PER_BAR, 'F', -4.0},
    {BEATS_PER_BAR, 'F', 1e30},
    {BEATS_PER_BAR, 'F', (double)NAN},
    {BEATS_PER_MINUTE, 'F', 0.0},
    {BEATS_PER_MINUTE, 'F', -120.0},
    {BEATS_PER_MINUTE, 'F', 1e30},
    {BEATS_PER_MINUTE, 'F', (double)NAN},
    {BEATS_PER_MINUTE, 'D', 1e-300},
    {BEATS_PER_MINUTE, 'F', (double)INFINITY},
};

/* Alone, and inside an otherwise whole and true place. */
static void wild_numbers_are_ignored(void)
{
    Player player;
    bool good = open_player(&player);
    for (size_t i = 0; good && i < sizeof wild / sizeof *wild; ++i) {
        begin_anew(&player);
        Told whole = position_at(20480, 1);
        whole.types[wild[i].field] = wild[i].type;
        set_field(&whole, wild[i].field, wild[i].value);
        check_case("%s %g", field_name(wild[i].field), wild[i].value);
        tell(&player, position_at(0, 1), 0);
        play_to(&player, 10240, 1024);
        tell(&player, one_field(wild[i].field, wild[i].type, wild[i].value), 0);
        play_to(&player, 20480, 1024);
        tell(&player, whole, 0);
        play_to(&player, BAR_FRAMES, 1024);
        check_hats(&player, 0, BAR_FRAMES);
    }
    check_case("after all of them");
    close_player(&player);
}

/* Objects cut off at every byte hold the fields that are whole, and all here
   are true.  The sizes lie; what lies behind is none of the plugin's. */
static void positions_cut_off_anywhere_change_nothing(void)
{
    static union {
        LV2_Atom atom;
        uint64_t room[64];
    } whole;
    Player player;
    if (!open_player(&player)) {
        return;
    }
    tell(&player, position_at(0, 1), 0);
    play_to(&player, 1024, 1024);
    LV2_Atom_Forge forge = *host_input(player.host);
    lv2_atom_forge_set_buffer(&forge, (uint8_t*)&whole, sizeof whole);
    const Told truth = position_at(1024, 1);
    Player writer = player;
    for (uint32_t size = 0; size <= 192; ++size) {
        LV2_Atom_Forge_Frame frame;
        const Told now = position_at(player.now, 1);
        lv2_atom_forge_set_buffer(&forge, (uint8_t*)&whole, sizeof whole);
        lv2_atom_forge_object(&forge, &frame, 0, writer.position);
        for (uint32_t i = 0; i < truth.count; ++i) {
            lv2_atom_forge_key(&forge, player.fields[now.fields[i]]);
            forge_number(&forge, now.types[i], now.values[i]);
        }
        lv2_atom_forge_pop(&forge, &frame);
        whole.atom.size = size;
        LV2_Atom_Forge* const input = host_input(player.host);
        lv2_atom_forge_frame_time(input, 0);
        lv2_atom_forge_write(input, &whole, (uint32_t)sizeof(LV2_Atom) + size);
        play_to(&player, player.now + 1024, 1024);
    }
    check_hats(&player, 0, player.now);
    check_bars(&player, 0, BAR_FRAMES, player.now, 0);
    close_player(&player);
}

/* It is a stop as far as it goes, so that believing it would be heard. */
static void an_event_that_claims_more_than_there_is_ends_the_input(void)
{
    const uint32_t claims[] = {200, 4096, 65536, 0x7FFFFFF0U, 0xFFFFFFF0U, 0xFFFFFFFFU};
    Player player;
    const bool good = open_player(&player);
    for (size_t i = 0; good && i < sizeof claims / sizeof *claims; ++i) {
        begin_anew(&player);
        check_case("a claim of %u bytes", claims[i]);
        tell(&player, position_at(0, 1), 0);
        play_to(&player, 1024, 1024);
        LV2_Atom_Forge* const input = host_input(player.host);
        LV2_Atom_Forge_Frame frame;
        lv2_atom_forge_frame_time(input, 0);
        const LV2_Atom_Forge_Ref object = lv2_atom_forge_object(input, &frame, 0, player.position);
        lv2_atom_forge_key(input, player.fields[SPEED]);
        lv2_atom_forge_float(input, 0.0f);
        lv2_atom_forge_pop(input, &frame);
        lv2_atom_forge_deref(input, object)->size = claims[i];
        play_to(&player, BAR_FRAMES, 256);
        check_hats(&player, 0, BAR_FRAMES);
    }
    close_player(&player);
}

static void run_all(void)
{
    RUN(a_start_plays_by_the_fields_it_has);
    RUN(parts_of_the_true_place_change_nothing);
    RUN(a_jump_with_a_frame_goes_there_whatever_is_missing);
    RUN(every_field_may_be_of_any_number_type);
    RUN(a_field_that_is_no_number_is_as_good_as_missing);
    RUN(wild_numbers_are_ignored);
    RUN(positions_cut_off_anywhere_change_nothing);
    RUN(an_event_that_claims_more_than_there_is_ends_the_input);
}

int main(void)
{
    return run_in_folder(run_all);
}
