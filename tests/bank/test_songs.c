// SPDX-License-Identifier: ISC
/* test_songs.c - a song's plan in Turtle by the words of ttl/terms.ttl: what is read of it, and what
   people are told of what is wrong, with line, subject, property and what to do.  Ids and labels
   are those of presets/grooves.ttl. */
#include "../../plugin/bank/songs.h"
#include "../../plugin/bank/write_song.h"
#include "../help/check.h"
#include "../song/written.h"
#include "factory.h"

static Bank* bank;

#define HEAD                                                                                       \
    "@prefix fl: <urn:fourlimb:terms#> .\n"                                                        \
    "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"                                    \
    "@prefix groove: <urn:fourlimb:groove:> .\n"                                                   \
    "@prefix : <urn:test:> .\n"

static Songs read(const char* const text)
{
    Songs songs;
    songs_text(&songs, bank, "/plan.ttl", text, strlen(text));
    return songs;
}

static const char* groove_label(void)
{
    return bank_entry(bank, ENTRY_GROOVE, 4)->label;
}

static void a_plan_is_read_as_it_is_written(void)
{
    char text[2048];
    snprintf(text, sizeof text,
             HEAD ":s a fl:Song ; rdfs:label \"Try\" ; fl:tempo 140.5 ; fl:level 70 ; fl:take 7 ;\n"
                  "  fl:sections ( [ rdfs:label \"Up\" ; fl:beats 2 ; fl:groove 3 ] :v :v ) .\n"
                  ":v rdfs:label \"Verse\" ; fl:bars 8 ; fl:times 2 ; fl:groove \"%s\" ;\n"
                  "  fl:meter \"7/8 7/8 7/8 8/8\" ; fl:tempoTo 152 ; fl:levelTo 92 ;\n"
                  "  fl:ritardando 6 ; fl:ritardandoTo 60 ; fl:take 3 ; fl:crashStart false ;\n"
                  "  fl:ending \"let ring 2\" ; fl:stops \"4:3-5:1 6 8:2-\" ;\n"
                  "  fl:hits \"8:1 8:2& 8:3+1/3=kick+china\" ; fl:rideOn fl:china ;\n"
                  "  fl:controls \"feet_shift=-2 swing_ratio=1.5\" ; fl:turnaround \"none\" .\n",
             groove_label());
    Songs songs = read(text);
    CHECK_INT(songs.diagnostics.count, 0);
    if (CHECK_INT(songs.count, 1)) {
        const Song* const song = &songs.songs[0];
        const SongSection* const verse = &song->sections[2];
        CHECK_TEXT(song->title, "Try");
        CHECK_NEAR(song->tempo, 140.5, 0);
        CHECK_NEAR(song->level, 70, 0);
        CHECK_INT(song->take, 7);
        CHECK_INT(song->section_count, 3);
        CHECK_INT(song->sections[0].beats, 2);
        CHECK_INT(*song_value(&song->sections[0], CONTROL_GROOVE), 3);
        CHECK_TEXT(verse->name, "Verse");
        CHECK_INT(verse->bars, 8);
        CHECK_INT(verse->times, 2);
        CHECK_INT(*song_value(verse, CONTROL_GROOVE), bank_entry(bank, ENTRY_GROOVE, 4)->id);
        CHECK_INT(verse->meter_count, 4);
        CHECK_NEAR(verse->meters[3].beats_per_bar, 8, 0);
        CHECK_NEAR(verse->tempo, 0, 0);
        CHECK_NEAR(verse->tempo_to, 152, 0);
        CHECK_NEAR(verse->level_to, 92, 0);
        CHECK_INT(verse->ritard_beats, 6);
        CHECK_NEAR(verse->ritard_to, 60, 0);
        CHECK_INT(verse->take, 3);
        CHECK_INT(verse->crash, CRASH_NEVER);
        CHECK_INT(song->sections[0].crash, CRASH_AS_WRITTEN);
        CHECK_INT(verse->ending, SONG_RING);
        CHECK_INT(verse->ending_beats, 2);
        CHECK_NEAR(*song_value(verse, CONTROL_FEET_SHIFT), -2, 0);
        CHECK_NEAR(*song_value(verse, CONTROL_SWING_RATIO), 1.5, 0);
        CHECK_NEAR(*song_value(verse, CONTROL_RIDE_ON), RIDE_ON_CHINA, 0);
        CHECK_NEAR(*song_value(verse, CONTROL_TURNAROUND), TURNAROUND_NONE, 0);
    }
    songs_free(&songs);
}

static void check_spot(const SongSpot got, const int bar, const int beat, const int part)
{
    CHECK_INT(got.bar, bar);
    CHECK_INT(got.beat, beat);
    CHECK_INT(got.part, part);
}

static void places_are_counted_as_drummers_count(void)
{
    Songs songs = read(HEAD ":s a fl:Song ; rdfs:label \"S\" ; fl:sections ( :v ) .\n"
                            ":v rdfs:label \"V\" ; fl:bars 8 ; fl:groove 1 ; fl:meter \"4/4\" ;\n"
                            "  fl:hits \"1:1 2:3e 2:3& 2:3a 8:4+2/3=kick+china\" ;\n"
                            "  fl:stops \"4:3-5:1 6 7-8 8:2-\" .\n");
    if (CHECK_INT(songs.count, 1)) {
        const SongSection* const section = &songs.songs[0].sections[0];
        CHECK_INT(section->hit_count, 5);
        check_spot(section->hits[0].at, 0, 0, 0);
        check_spot(section->hits[1].at, 1, 2, SONG_PARTS / 4);
        check_spot(section->hits[2].at, 1, 2, SONG_PARTS / 2);
        check_spot(section->hits[3].at, 1, 2, 3 * SONG_PARTS / 4);
        check_spot(section->hits[4].at, 7, 3, 2 * SONG_PARTS / 3);
        CHECK_INT(section->hits[0].voices, 0);
        CHECK_INT(section->hits[4].voices, 1 << VOICE_KICK | 1 << VOICE_CHINA);
        CHECK_INT(section->stop_count, 4);
        check_spot(section->stops[0].from, 3, 2, 0);
        check_spot(section->stops[0].until, 4, 0, 0);
        check_spot(section->stops[1].until, 6, 0, 0);
        check_spot(section->stops[2].from, 6, 0, 0);
        check_spot(section->stops[2].until, 8, 0, 0);
        CHECK_INT(section->stops[3].until.bar, SONG_TO_THE_END);
    }
    songs_free(&songs);
}

/* A section in one line, the sixth, and what must be told of it. */
static const struct {
    const char* says;
    const char* told;
} faults[] = {
    {"fl:baars 4", "fl:baars: is no word for a section; expected one of fl:bars"},
    {"fl:bars 4", "fl:bars: is stated twice"},
    {"fl:times 0", "fl:times: \"0\": expected a whole number from 1 to 99"},
    {"fl:beats 2", "fl:beats: it has fl:bars, too; a pickup has fl:beats alone"},
    {"fl:hands \"Nobody\"", "fl:hands: there is no hands figure called \"Nobody\""},
    {"fl:feet :nobody", "fl:feet: there is no feet figure called \":nobody\""},
    {"fl:meter \"7/9\"", "fl:meter: \"7/9\": expected beats and beat unit, such as 4/4"},
    {"fl:meter \"\"", "fl:meter: \"\": expected a meter"},
    {"fl:tempo 401", "fl:tempo: \"401\": expected a number from 20 to 400"},
    {"fl:ritardandoTo 60", "fl:ritardandoTo: has no fl:ritardando beside it"},
    {"fl:ritardando 33", "fl:ritardando: has more beats than the section"},
    {"fl:level 128", "fl:level: \"128\": expected a number from 1 to 127"},
    {"fl:take 10000", "fl:take: \"10000\": expected a whole number"},
    {"fl:crashStart 2", "fl:crashStart: \"2\": expected true or false"},
    {"fl:rideOn fl:snare", "fl:rideOn: \"fl:snare\": expected"},
    {"fl:ending \"fil 2\"", "fl:ending: \"fil 2\": expected fill, stop, choke, hit or let ring"},
    {"fl:ending \"stop 0\"", "fl:ending: \"stop 0\": expected how many beats"},
    {"fl:ending \"stop 33\"", "fl:ending: has more beats than the section"},
    {"fl:ending \"fill\" ; fl:turnaround \"none\"", "fl:ending: its groove has no turnaround"},
    {"fl:hits \"1.1\"", "fl:hits: \"1.1\": expected bar:beat, such as 4:1"},
    {"fl:hits \"1\"", "fl:hits: \"1\": expected bar:beat"},
    {"fl:hits \"1:0\"", "fl:hits: \"1:0\": expected bar:beat"},
    {"fl:hits \"1:1+4/3\"", "fl:hits: \"1:1+4/3\": expected bar:beat"},
    {"fl:hits \"1:1 9:1\"", "fl:hits: hit 2 is beyond the section's bars"},
    {"fl:hits \"1:5\"", "fl:hits: hit 1 is beyond the section's bars or its bar's beats"},
    {"fl:hits \"1:1=kick+drum\"", "expected voices behind =, such as kick+crash"},
    {"fl:hits \"1:1=crash+china+snare\"", "fl:hits: hit 1 needs more than two hands"},
    {"fl:stops \"3:1-2:1\"", "fl:stops: stop 1 ends before it begins"},
    {"fl:stops \"8:1-9:2\"", "fl:stops: stop 1 is beyond the section's bars"},
    {"fl:stops \"x\"", "fl:stops: \"x\": expected from where to where"},
    {"fl:controls \"liberty\"", "fl:controls: \"liberty\": expected a control's symbol=number"},
    {"fl:controls \"nothing=1\"", "fl:controls: \"nothing=1\": expected a control's symbol=number"},
    {"fl:controls \"liberty=101\"",
     "fl:controls: \"liberty=101\": expected a number from 0 to 100"},
    {"fl:controls \"tempo=120\"", "fl:controls: \"tempo=120\": isn't a section's to set"},
};

static void every_fault_is_told_with_its_line(void)
{
    for (size_t i = 0; i < sizeof faults / sizeof *faults; ++i) {
        char text[1024];
        char want[512];
        snprintf(text, sizeof text,
                 HEAD ":s a fl:Song ; rdfs:label \"S\" ; fl:sections ( :v ) .\n"
                      ":v rdfs:label \"V\" ; fl:bars 8 ; fl:groove 1 ; fl:meter \"4/4\" ; %s .\n",
                 faults[i].says);
        if (strstr(faults[i].says, "fl:meter") || !strcmp(faults[i].says, "fl:bars 4")) {
            snprintf(text, sizeof text,
                     HEAD ":s a fl:Song ; rdfs:label \"S\" ; fl:sections ( :v ) .\n"
                          ":v rdfs:label \"V\" ; fl:bars 8 ; fl:groove 1 ; %s .\n",
                     faults[i].says);
        }
        snprintf(want, sizeof want, "plan.ttl:6: :v: ");
        Songs songs = read(text);
        check_case("%s", faults[i].says);
        CHECK_INT(songs.count, 0);
        const char* const told = songs.diagnostics.count ? songs.diagnostics.texts[0] : "";
        if (!strstr(told, faults[i].told) || strncmp(told, want, strlen(want)) != 0) {
            CHECK_TEXT(told, faults[i].told);
        }
        songs_free(&songs);
    }
}

static void a_section_without_a_name_of_its_own_is_told_by_its_label(void)
{
    Songs songs = read(HEAD ":s a fl:Song ; rdfs:label \"S\" ;\n"
                            "  fl:sections ( [ rdfs:label \"A\" ; fl:bars 4 ; fl:groove 1 ]\n"
                            "    [ rdfs:label \"Bridge\" ; fl:bars 4 ] ) .\n");
    CHECK_INT(songs.count, 0);
    if (CHECK_INT(songs.diagnostics.count, 1)) {
        CHECK_TEXT(songs.diagnostics.texts[0],
                   "plan.ttl:7: \"Bridge\": fl:groove: is missing; expected a groove, or fl:rests "
                   "true where nothing is played");
    }
    songs_free(&songs);
}

static void what_is_wrong_in_a_section_that_comes_again_is_told_once(void)
{
    Songs songs = read(HEAD ":s a fl:Song ; rdfs:label \"S\" ; fl:sections ( :v :v :v ) .\n"
                            ":v rdfs:label \"V\" ; fl:bars 8 .\n");
    CHECK_INT(songs.diagnostics.count, 1);
    songs_free(&songs);
}

static void a_list_without_end_is_refused(void)
{
    Songs songs = read(
        HEAD "@prefix rdf: <http://www.w3.org/1999/02/22-rdf-syntax-ns#> .\n"
             ":s a fl:Song ; rdfs:label \"S\" ; fl:sections :l .\n"
             ":l rdf:first :v ; rdf:rest :l .\n:v rdfs:label \"V\" ; fl:bars 1 ; fl:groove 1 .");
    CHECK_INT(songs.count, 0);
    CHECK(songs.diagnostics.count && strstr(songs.diagnostics.texts[0], "more than 64 sections"));
    songs_free(&songs);
}

/* ---- And back */

static void check_spots(const SongSpot got, const SongSpot want)
{
    CHECK_INT(got.bar, want.bar);
    CHECK_INT(got.beat, want.beat);
    CHECK_INT(got.part, want.part);
}

static void check_places(const SongSection* const got, const SongSection* const want)
{
    CHECK_INT(got->hit_count, want->hit_count);
    for (uint32_t i = 0; i < want->hit_count; ++i) {
        check_spots(got->hits[i].at, want->hits[i].at);
        CHECK_INT(got->hits[i].voices, want->hits[i].voices);
    }
    CHECK_INT(got->stop_count, want->stop_count);
    for (uint32_t i = 0; i < want->stop_count; ++i) {
        check_spots(got->stops[i].from, want->stops[i].from);
        check_spots(got->stops[i].until, want->stops[i].until);
    }
    CHECK_INT(got->control_count, want->control_count);
    for (uint32_t i = 0; i < want->control_count; ++i) {
        CHECK_INT(got->controls[i].control, want->controls[i].control);
        CHECK_NEAR(got->controls[i].value, want->controls[i].value, 0);
    }
}

static void check_section(const SongSection* const got, const SongSection* const want)
{
    CHECK_TEXT(got->name, want->name);
    CHECK_INT(got->bars, want->bars);
    CHECK_INT(got->beats, want->beats);
    CHECK_INT(got->times, want->times);
    CHECK_INT(got->rests, want->rests);
    CHECK_NEAR(got->tempo, want->tempo, 0);
    CHECK_NEAR(got->tempo_to, want->tempo_to, 0);
    CHECK_INT(got->ritard_beats, want->ritard_beats);
    CHECK_NEAR(got->ritard_to, want->ritard_to, 0);
    CHECK_NEAR(got->level, want->level, 0);
    CHECK_NEAR(got->level_to, want->level_to, 0);
    CHECK_INT(got->take, want->take);
    CHECK_INT(got->crash, want->crash);
    CHECK_INT(got->ending, want->ending);
    CHECK_INT(got->ending_beats, want->ending_beats);
    CHECK_INT(got->fill, want->fill);
    CHECK_INT(got->meter_count, want->meter_count);
    for (uint32_t i = 0; i < want->meter_count; ++i) {
        CHECK(meter_equal(got->meters[i], want->meters[i]));
    }
    check_places(got, want);
}

/* In 4/4, so that no place or ending is beyond its section. */
static void any_song(Song* const song)
{
    written_by_chance(song);
    snprintf(song->title, sizeof song->title, "A \"title\" with \\ and \n");
    for (uint32_t i = 0; i < song->section_count; ++i) {
        SongSection* const section = &song->sections[i];
        section->beats = 0;
        section->meter_count = 1;
        section->meters[0] = (Meter){4.0, 4};
        section->ritard_beats = section->ritard_beats > 4 ? 4 : section->ritard_beats;
        section->ritard_to = section->ritard_beats ? 60.125 : 0.0;
        section->take = (uint32_t)written_any(0, 9);
        section->crash = written_any(0, 2) == 0   ? CRASH_AS_WRITTEN
                         : written_any(0, 1) == 0 ? CRASH_NEVER
                                                  : CRASH_SECTION;
        section->ending_beats *= section->ending != SONG_GOES_ON;
        section->fill = 10 * (section->ending == SONG_FILL);
        for (uint32_t stop = 0; stop < section->stop_count; ++stop) {
            section->stops[stop].until = (SongSpot){SONG_TO_THE_END, 0, 0};
        }
        for (uint32_t hit = 0; hit < section->hit_count; ++hit) {
            section->hits[hit].voices = (uint32_t)written_any(0, 1) << VOICE_CHINA;
        }
        if (written_any(0, 1)) {
            song_put(section, CONTROL_TURNAROUND, (float)written_any(-1, 5));
            song_put(section, CONTROL_SWING_RATIO, 1.5f);
            song_put(section, CONTROL_FEET_SHIFT, -3.0f);
        }
        const float* const turnaround = song_value(section, CONTROL_TURNAROUND);
        if (turnaround && !(*turnaround < 0.0f) && !(*turnaround > 0.0f)) {
            song_put(section, CONTROL_TURNAROUND, 1.0f);
        }
    }
}

static void what_is_written_is_read_as_the_same_song(void)
{
    static Song song; /* too large for a stack */
    for (int round = 0; round < 200; ++round) {
        any_song(&song);
        char* const text = write_song(&song, bank);
        Songs songs = read(text ? text : "");
        check_case("song %d", round);
        CHECK_INT(songs.diagnostics.count, 0);
        if (songs.diagnostics.count) {
            printf("# %s\n", songs.diagnostics.texts[0]);
        } else if (CHECK_INT(songs.count, 1)) {
            CHECK_TEXT(songs.songs[0].title, song.title);
            CHECK_INT(songs.songs[0].take, song.take);
            CHECK_INT(songs.songs[0].section_count, song.section_count);
            for (uint32_t i = 0; i < song.section_count; ++i) {
                check_section(&songs.songs[0].sections[i], &song.sections[i]);
            }
        }
        songs_free(&songs);
        free(text);
    }
}

int main(void)
{
    bank = factory_open();
    RUN(a_plan_is_read_as_it_is_written);
    RUN(places_are_counted_as_drummers_count);
    RUN(every_fault_is_told_with_its_line);
    RUN(a_section_without_a_name_of_its_own_is_told_by_its_label);
    RUN(what_is_wrong_in_a_section_that_comes_again_is_told_once);
    RUN(a_list_without_end_is_refused);
    RUN(what_is_written_is_read_as_the_same_song);
    bank_free(bank);
    return tests_end();
}
