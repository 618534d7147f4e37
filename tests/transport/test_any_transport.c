// SPDX-License-Identifier: ISC
/* What holds for any transport: notes don't depend on how it is cut into
   blocks, nothing sounds on after the stop, and output without room loses
   strokes, which are counted, but no note-off. */
#include "hand_played.h"

/* ---- Any blocks */

static void say(Recording* const recording, const Told position)
{
    recording->last = position;
    add_moment(recording, TOLD_POSITION);
}

static Told at_tempo(const int64_t frame, const double bar, const double bar_beat,
                     const double beats, const double unit, const double tempo)
{
    Told position = position_at(frame, 1);
    position.values[BAR] = bar;
    position.values[BAR_BEAT] = bar_beat;
    position.values[BEAT] = bar * beats + bar_beat;
    position.values[BEATS_PER_BAR] = beats;
    position.values[BEAT_UNIT] = unit;
    position.values[BEATS_PER_MINUTE] = tempo;
    return position;
}

static void roll(Recording* const recording, const int count)
{
    for (int i = 0; i < count; ++i) {
        add_block(recording, 500);
    }
}

/* Starts, a change of tempo, of meter, a loop around twice, a locate, stops. */
static void make_transport(Recording* const recording)
{
    *recording = (Recording){.rate = RATE};
    say(recording, position_at(0, 0));
    roll(recording, 3);
    say(recording, position_at(0, 1));
    roll(recording, 96);
    say(recording, at_tempo(48000, 0, 2, 4, 4, 90));
    roll(recording, 128);
    say(recording, at_tempo(112000, 1, 0, 7, 8, 90));
    roll(recording, 112);
    for (int loop = 0; loop < 2; ++loop) {
        say(recording, at_tempo(112000, 1, 0, 7, 8, 90));
        roll(recording, 224);
    }
    say(recording, position_at(10 * BAR_FRAMES + 123, 1));
    roll(recording, 77);
    say(recording, position_at(10 * BAR_FRAMES + 123 + 38500, 0));
    roll(recording, 5);
    say(recording, position_at(10 * BAR_FRAMES + 123 + 38500, 1));
    roll(recording, 50);
    say(recording, position_at(10 * BAR_FRAMES + 123 + 63500, 0));
    roll(recording, 5);
}

static void any_blocks_give_the_same_notes(void)
{
    const uint32_t cuts[] = {1,
                             16,
                             64,
                             441,
                             1024,
                             8192,
                             1000000,
                             RANDOM_CUTS | 1,
                             RANDOM_CUTS | 2,
                             RANDOM_CUTS | 3,
                             RANDOM_CUTS | 4};
    Recording recording;
    Player want, got = {.host = NULL};
    make_transport(&recording);
    const bool good = open_player(&want);
    if (good) {
        replay(&want, &recording, AS_RECORDED, recording.frames);
        CHECK(note_ons(&want) > 50);
    }
    for (size_t i = 0; good && i < sizeof cuts / sizeof *cuts; ++i) {
        check_case("cut into %u", cuts[i]);
        if (open_player(&got)) {
            replay(&got, &recording, cuts[i], recording.frames);
            check_same_notes(&got, &want);
        }
        close_player(&got);
    }
    close_player(&want);
    recording_free(&recording);
}

/* ---- No room */

/* The newest count of dropped strokes that notify told, or what was before. */
static int64_t dropped_told(Player* const player, const int64_t before)
{
    const LV2_URID wanted = host_urid(player->host, "urn:fourlimb:terms#droppedStrokes");
    const LV2_Atom_Sequence* const notify = host_notify(player->host);
    int64_t dropped = before;
    LV2_ATOM_SEQUENCE_FOREACH (notify, event) {
        const LV2_Atom_Object* const object = (const LV2_Atom_Object*)(const void*)&event->body;
        const LV2_Atom* value = NULL;
        lv2_atom_object_get(object, wanted, &value, 0);
        if (value) {
            dropped = ((const LV2_Atom_Long*)(const void*)value)->body;
        }
    }
    return dropped;
}

/* A bar, of 16 hats and a bar line, in a room of so many bytes.  What was told
   last holds until something else is. */
static int64_t play_in_room(Player* const player, const uint32_t bytes, const uint32_t block,
                            int64_t dropped)
{
    begin_anew(player);
    player_room(player, bytes);
    tell(player, position_at(0, 1), 0);
    while (player->now < BAR_FRAMES) {
        player_run(player, block);
        dropped = dropped_told(player, dropped);
    }
    player_room(player, 65536);
    tell(player, position_at(BAR_FRAMES, 0), 0);
    player_run(player, block);
    return dropped_told(player, dropped);
}

/* Blocks of a bar need room for all of it, small ones for a stroke or two. */
static void without_room_strokes_are_counted_and_note_offs_get_through(void)
{
    const uint32_t sizes[] = {250, 1000, BAR_FRAMES};
    Player player;
    const bool good = open_player(&player);
    for (size_t i = 0; good && i < sizeof sizes / sizeof *sizes; ++i) {
        size_t heard = 0;
        int64_t dropped = 0;
        for (uint32_t bytes = 0; bytes <= 1000; ++bytes) {
            check_case("%u bytes, blocks of %u", bytes, sizes[i]);
            dropped = play_in_room(&player, bytes, sizes[i], dropped);
            const size_t before = heard;
            heard = note_ons(&player);
            CHECK_INT((int64_t)heard + dropped, 17);
            CHECK(heard >= before);
            CHECK_INT(player.sounding_count, 0);
        }
        CHECK_INT(heard, 17);
    }
    close_player(&player);
}

/* A stroke is begun only where its end still fits behind it. */
static void whatever_room_there_is_a_stop_in_the_same_block_ends_all(void)
{
    Player player;
    const bool good = open_player(&player);
    for (uint32_t bytes = 0; good && bytes <= 1000; ++bytes) {
        begin_anew(&player);
        check_case("%u bytes", bytes);
        player_room(&player, bytes);
        tell(&player, position_at(0, 1), 0);
        tell(&player, position_at(BAR_FRAMES - 100, 0), BAR_FRAMES - 100);
        player_run(&player, BAR_FRAMES);
        CHECK_INT(player.sounding_count, 0);
        tell(&player, position_at(0, 1), 0);
        tell(&player, position_at(100, 0), 100);
        player_run(&player, 256);
        CHECK_INT(player.sounding_count, 0);
        CHECK_INT(note_ons(&player) > 0, bytes >= 8 + 2 * 24);
    }
    close_player(&player);
}

/* A note-off that finds no room is owed, and comes as soon as there is some. */
static void a_note_off_that_finds_no_room_comes_later(void)
{
    Player player;
    if (open_player(&player)) {
        tell(&player, position_at(0, 1), 0);
        play_to(&player, 64, 64);
        CHECK_INT(player.sounding_count, 2);
        player_room(&player, 8);
        tell(&player, position_at(64, 0), 0);
        play_to(&player, 64000, 64);
        CHECK_INT(player.sounding_count, 2);
        player_room(&player, 8 + 24);
        player_run(&player, 64);
        CHECK_INT(player.sounding_count, 1);
        player_run(&player, 64);
        CHECK_INT(player.sounding_count, 0);
    }
    close_player(&player);
}

/* ---- Chance */

static uint32_t below(uint32_t* const chance, const uint32_t end)
{
    return next_random(chance) % end;
}

/* A position that may be sane in all, some or none of its fields. */
static Told random_position(uint32_t* const chance)
{
    static const double speeds[] = {1, 1, 1, 1, 0, 0, 0.5, 2, -1};
    static const double units[] = {4, 4, 4, 8, 16, 2, 3, 0};
    static const double beats[] = {4, 4, 3, 7, 12, 2.5, 1, 0};
    Told told = position_at((int64_t)below(chance, 100 * BAR_FRAMES) - BAR_FRAMES,
                            speeds[below(chance, 9)]);
    if (below(chance, 2)) {
        told.values[BEAT_UNIT] = units[below(chance, 8)];
        told.values[BEATS_PER_BAR] = beats[below(chance, 8)];
    }
    if (below(chance, 2)) {
        told.values[BEATS_PER_MINUTE] = 20 + below(chance, 500);
    }
    if (below(chance, 4) == 0) {
        told.values[BAR_BEAT] = (double)below(chance, 2000) / 100.0 - 5.0;
    }
    return below(chance, 3) ? told : some_fields(&told, next_random(chance));
}

static void play_by_chance(Player* const player, const uint32_t seed)
{
    uint32_t chance = seed * 2654435761U + 1U;
    for (int block = 0; block < 40; ++block) {
        const uint32_t frames = below(&chance, 4) ? below(&chance, 3000) : below(&chance, 30000);
        for (uint32_t i = below(&chance, 4); i > 1; --i) {
            tell(player, random_position(&chance), (int64_t)below(&chance, frames + 2));
        }
        player_room(player, below(&chance, 8) ? 65536 : below(&chance, 200));
        player_run(player, frames);
    }
}

static void a_thousand_transports_leave_no_note_behind(void)
{
    size_t heard = 0;
    Player player;
    const bool good = open_player(&player);
    for (uint32_t seed = 1; good && seed <= 1000; ++seed) {
        begin_anew(&player);
        check_case("seed %u", seed);
        play_by_chance(&player, seed);
        heard += note_ons(&player);
        player_room(&player, 65536);
        tell(&player, one_field(SPEED, 'F', 0), 0);
        player_run(&player, 64);
        CHECK_INT(player.sounding_count, 0);
        if (!CHECK_TEXT(player.fault, "none")) {
            break;
        }
    }
    CHECK(heard > 10000);
    close_player(&player);
}

static void run_all(void)
{
    RUN(any_blocks_give_the_same_notes);
    RUN(without_room_strokes_are_counted_and_note_offs_get_through);
    RUN(whatever_room_there_is_a_stop_in_the_same_block_ends_all);
    RUN(a_note_off_that_finds_no_room_comes_later);
    RUN(a_thousand_transports_leave_no_note_behind);
}

int main(void)
{
    return run_in_folder(run_all);
}
