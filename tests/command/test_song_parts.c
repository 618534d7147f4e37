// SPDX-License-Identifier: ISC
/* test_song_parts.c - a song's plan as the real plugin plays it: with feel and liberty at 0 every
   stroke that is written sounds at its place, whose seconds follow from the plan alone, and nothing
   else does; a stop takes out what stands in it and touches nothing else; a crescendo moves no stroke;
   a fill stands before the section's end. */
#include "../../plugin/bank/songs.h"
#include "../../plugin/engine/song/song_beats.h"
#include "../../plugin/engine/song/song_time.h"
#include "../../ui/command/performance.h"
#include "../../ui/command/song_parts.h"
#include "../../ui/file/timeline.h"
#include "../bank/factory.h"
#include "../help/check.h"
#include "../plugin/bundle.h"
#include "../song/written.h"

#include <math.h>

enum { NOTES = 20000 };

typedef struct {
    double seconds;
    uint8_t key;
    uint8_t velocity;
    bool used;
} Note;

static Performance performance;
static Song song; /* too large for a stack, as these are */
static SongMap map;
static Note wanted[NOTES], got[NOTES];
static int wanted_count, got_count;

/* ---- Playing */

static void play(const char* const exactly, Note* const notes, int* const count)
{
    Section ports = {.bars = 0};
    Bytes file = {.bytes = NULL};
    const char* const symbols[] = {"looseness", "touch", "liberty", "push_hands"};
    for (int i = 0; *exactly && i < 4; ++i) {
        request_put(ports.settings, &ports.setting_count, symbols[i], 0.0f);
    }
    CHECK(performance_set(&performance, &ports));
    performance_begin(&performance, "Test");
    SongPlayed played = {
        .map = &map, .library = bank_library(performance.bank), .clicks = {-1, -1}};
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        played.controls[i] = host_get(performance.host, control_rows[i].symbol);
    }
    song_map_make(&map, &song, played.library);
    song_parts_add(&played, &performance.song);
    CHECK(reel_end(&performance.song, &file));
    bytes_free(&file);
    *count = 0;
    for (size_t i = 0; i < performance.song.event_count && *count < NOTES; ++i) {
        const ReelEvent* const event = &performance.song.events[i];
        if ((event->bytes[0] & 0xF0) == 0x90) {
            notes[(*count)++] = (Note){event->seconds, event->bytes[1], event->bytes[2], false};
        }
    }
}

/* Frames are whole where a part begins: one each, and a float's rounding of a tempo. */
static bool same(const Note* const a, const Note* const b, const double slack)
{
    return a->key == b->key && fabs(a->seconds - b->seconds) < slack;
}

static int missing(const double slack)
{
    int count = 0;
    for (int i = 0; i < wanted_count; ++i) {
        int found = 0;
        while (found < got_count && (got[found].used || !same(&wanted[i], &got[found], slack))) {
            ++found;
        }
        if (found < got_count) {
            got[found].used = true;
        } else if (++count == 1) {
            printf("# key %d at %.4f s is missing\n", wanted[i].key, wanted[i].seconds);
        }
    }
    return count;
}

/* ---- What is written, by the library and the plan alone */

static void want(const Stroke stroke, const int64_t tick, const Kit* const kit)
{
    int64_t until = 0;
    if (!song_beats_silent(&map, tick, &until) && wanted_count < NOTES) {
        wanted[wanted_count++] =
            (Note){song_time_seconds(&map, 0, tick), kit->notes[stroke.voice], 0, false};
    }
}

static void want_pass(const uint32_t row, const uint32_t pass, const Groove* const groove)
{
    const Library* const library = bank_library(performance.bank);
    const SongRow* const at = &map.rows[row];
    Selection selection = selection_of_groove(groove);
    selection.realign = at->meter_count > 1 ? REALIGN_BAR : REALIGN_PHRASE;
    const int64_t begin = at->tick + pass * at->pass_ticks;
    for (int64_t bar = 0; bar < at->pass_bars; ++bar) {
        StrokeList list = {.count = 0};
        const Meter meter = song_map_pass_meter(at, bar);
        const int64_t line = begin + song_map_pass_tick(at, bar);
        const int64_t ticks = meter_bar_ticks(meter);
        groove_strokes(&selection, meter, bar * ticks, (bar + 1) * ticks, &list);
        for (uint32_t i = 0; i < list.count; ++i) {
            want(list.strokes[i], line + list.strokes[i].tick - bar * ticks,
                 library_kit(library, 1));
        }
    }
}

static const Groove* groove_of(const SongSection* const section)
{
    return bank_value(performance.bank, ENTRY_GROOVE,
                      (uint32_t)*song_value(section, CONTROL_GROOVE));
}

/* Flams, drags and chokes sound otherwise than they are written; shuffles and pushes stand
   elsewhere. */
static bool is_plain(const Groove* const groove)
{
    bool plain = isnan(groove->feel.swing_ratio) && isnan(groove->feel.push_hands_ms) &&
                 isnan(groove->feel.push_snare_ms) && isnan(groove->feel.push_feet_ms);
    StrokeList list = {.count = 0};
    const Selection selection = selection_of_groove(groove);
    const int64_t bar = meter_bar_ticks(groove->meter);
    for (uint32_t i = 0; plain && i < groove->form_bars; ++i) {
        list.count = list.dropped = 0;
        groove_strokes(&selection, groove->meter, i * bar, (i + 1) * bar, &list);
        for (uint32_t at = 0; at < list.count; ++at) {
            plain &= list.strokes[at].level < LEVEL_FLAM && list.strokes[at].voice != VOICE_CHOKE;
        }
    }
    return plain;
}

static uint32_t any_plain(void)
{
    const Library* const library = bank_library(performance.bank);
    for (;;) {
        const int32_t at = written_any(0, (int32_t)library->groove_count - 1);
        if (is_plain(&library->grooves[at])) {
            return library->grooves[at].id;
        }
    }
}

/* ---- Tests */

/* Bars of eighths, so that no meter is another way to write the same. */
static void any_meters(SongSection* const section)
{
    section->meter_count = (uint32_t)written_any(2, 4);
    for (uint32_t i = 0; i < section->meter_count; ++i) {
        section->meters[i] = (Meter){written_any(5, 9), 8};
    }
    section->meters[0].beats_per_bar = 10.0; /* another than its neighbour's */
}

/* Meters; tempi that jump, ramp and slow down; levels; stops and rests. */
static void make_song(void)
{
    written_begin(&song, 1);
    for (int i = 0; i < 4; ++i) {
        SongSection* const section =
            written_add(&song, "A", (uint32_t)written_any(1, 6), (float)any_plain());
        section->times = (uint32_t)written_any(1, 2);
        section->tempo = written_any(0, 1) * written_any(80, 200);
        section->tempo_to = written_any(0, 1) * written_any(80, 200);
        section->ritard_beats = (uint32_t)(written_any(0, 1) * written_any(0, 4));
        section->level_to = written_any(0, 1) * written_any(40, 110);
        section->rests = !written_any(0, 7);
        if (!written_any(0, 2) && section->bars > 1) {
            any_meters(section);
        }
        section->stop_count = (uint32_t)written_any(0, 2);
        for (uint32_t stop = 0; stop < section->stop_count; ++stop) {
            section->stops[stop] = (SongStop){written_spot(section), written_spot(section)};
        }
        section->ending = (SongEnding)(written_any(0, 2) ? SONG_GOES_ON : SONG_STOP);
        section->ending_beats = (uint32_t)written_any(1, 4);
    }
}

static void every_stroke_of_a_plan_sounds_at_its_place_and_no_other(void)
{
    int strokes = 0;
    for (int round = 0; round < 40; ++round) {
        make_song();
        check_case("song %d", round);
        play("exactly", got, &got_count);
        wanted_count = 0;
        for (uint32_t row = 0; row < map.count; ++row) {
            for (uint32_t pass = 0; pass < song.sections[row].times; ++pass) {
                want_pass(row, pass, groove_of(&song.sections[row]));
            }
        }
        CHECK_INT(missing(0.002), 0);
        CHECK_INT(got_count, wanted_count);
        strokes += wanted_count;
    }
    CHECK(strokes > 5000);
}

static SongSection* one_section(const float groove)
{
    written_begin(&song, 1);
    SongSection* const section = written_add(&song, "A", 8, groove);
    section->tempo = 120.0;
    return section;
}

/* With all feel and liberty: two seconds a bar, the stop from bar 3, beat 3, to bar 4, beat 2. */
static void a_stop_takes_out_what_stands_in_it_alone(void)
{
    one_section(3.0f);
    play("", wanted, &wanted_count);
    SongSection* const section = &song.sections[0];
    section->stop_count = 1;
    section->stops[0] = (SongStop){{2, 2, 0}, {3, 1, 0}};
    play("", got, &got_count);
    const double begin = 5.0, end = 6.5, room = 0.1;
    int inside = 0;
    int kept = 0;
    for (int i = 0; i < got_count; ++i) {
        inside += got[i].seconds > begin + room && got[i].seconds < end - room;
    }
    for (int i = 0; i < wanted_count; ++i) {
        if (wanted[i].seconds < begin - room || wanted[i].seconds > end + room) {
            wanted[kept++] = wanted[i];
        }
    }
    wanted_count = kept;
    CHECK_INT(inside, 0);
    CHECK_INT(missing(0.0002), 0);
    CHECK(kept > 40 && got_count - kept <= 6); /* at the stop's two lines */
}

/* The level is what a normal stroke is played at, here exactly; it has a step each beat.  Accents go
   with it, and the feet's with their own depth, but none beyond 127. */
static void a_crescendo_is_louder_and_moves_no_stroke(void)
{
    int normal = 0;
    one_section(3.0f)->level = 60.0;
    play("exactly", wanted, &wanted_count);
    song.sections[0].level_to = 100.0;
    play("exactly", got, &got_count);
    CHECK_INT(got_count, wanted_count);
    for (int i = 0; i < got_count && i < wanted_count; ++i) {
        CHECK(same(&wanted[i], &got[i], 0.0002));
        CHECK(got[i].velocity >= wanted[i].velocity);
        if (wanted[i].velocity == 60) {
            CHECK_NEAR(got[i].velocity, 60.0 + 40.0 * got[i].seconds / 16.0, 40.0 / 32.0 + 0.6);
            ++normal;
        } else {
            const double level = 60.0 + 40.0 * floor(got[i].seconds * 2.0) / 32.0;
            CHECK_NEAR(got[i].velocity, fmin(127.0, wanted[i].velocity * level / 60.0), 2.5);
        }
    }
    CHECK(normal > 30);
}

/* Seven bars are no multiple of its phrase.  Before the fill it is as without; in it the hands are
   the turnaround's last two beats. */
static void a_fill_stands_before_the_sections_end(void)
{
    const Library* const library = bank_library(performance.bank);
    const Kit* const kit = library_kit(library, 1);
    SongSection* const section = one_section(1.0f);
    section->bars = 7;
    section->ending = SONG_FILL;
    section->ending_beats = 2;
    play("exactly", got, &got_count);
    const Figure* const fill = groove_of(section)->turnaround;
    int hands = 0;
    for (uint32_t i = 0; i < fill->stroke_count; ++i) {
        const Stroke stroke = fill->strokes[i];
        const int64_t before = fill->cycle_ticks - stroke.tick;
        if (before > 2 * TICKS_PER_QUARTER || limb_is_foot(stroke.limb)) {
            continue;
        }
        const double seconds = 14.0 - (double)before / (double)TICKS_PER_QUARTER / 2.0;
        bool found = false;
        for (int note = 0; note < got_count; ++note) {
            found |= fabs(got[note].seconds - seconds) < 0.001 &&
                     got[note].key == kit->notes[stroke.voice];
        }
        CHECK(found);
        ++hands;
    }
    CHECK(hands > 0);
    wanted_count = 0;
    song_map_make(&map, &song, library);
    want_pass(0, 0, groove_of(section));
    while (wanted_count && wanted[wanted_count - 1].seconds > 12.999) {
        --wanted_count;
    }
    CHECK_INT(missing(0.001), 0);
}

/* Three bars of seven eighths and one of eight, twice: each bar line has its first beat's strokes, and
   all is over after 58 eighths. */
static void bars_of_several_meters_stand_where_they_are_counted(void)
{
    SongSection* const section = one_section(3.0f);
    section->tempo = 150.0;
    section->meter_count = 4;
    for (int i = 0; i < 4; ++i) {
        section->meters[i] = (Meter){i == 3 ? 8.0 : 7.0, 8};
    }
    play("exactly", got, &got_count);
    static const int lines[] = {0, 7, 14, 21, 29, 36, 43, 50};
    for (int bar = 0; bar < 8; ++bar) {
        bool found = false;
        for (int note = 0; note < got_count; ++note) {
            found |= fabs(got[note].seconds - lines[bar] * 0.2) < 0.001;
        }
        check_case("bar %d", bar + 1);
        CHECK(found);
    }
    CHECK_NEAR(performance.song.seconds, 58 * 0.2, 1e-6);
    CHECK_INT(map.bars, performance.song.bars);
}

int main(void)
{
    unsetenv("XDG_DATA_HOME");
    setenv("HOME", "/nowhere/at/all", 1);
    if (!performance_open(&performance, BUNDLE)) {
        return 2;
    }
    RUN(every_stroke_of_a_plan_sounds_at_its_place_and_no_other);
    RUN(a_stop_takes_out_what_stands_in_it_alone);
    RUN(a_crescendo_is_louder_and_moves_no_stroke);
    RUN(a_fill_stands_before_the_sections_end);
    RUN(bars_of_several_meters_stand_where_they_are_counted);
    performance_close(&performance);
    return tests_end();
}
