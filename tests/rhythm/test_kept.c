// SPDX-License-Identifier: ISC
/* test_kept.c - two selections that are kept, compared while it plays, through the built plugin:
   before the line the render of the one, from the line on that of the other, both as they
   play by their ports. */
#include "stage.h"

#define FL "urn:fourlimb:terms#"

enum { LENGTH = 16 * 24000 };
enum { NOW, BEAT, BAR_LINE, PHRASE_LINE, LINES };

typedef struct {
    const char* symbol;
    double value;
} Pick;

enum { PICKS = 8 };

/* As people compare: other feet under other hands, another last bar, moved, swung. */
static const Pick first[PICKS] = {{"groove", 3},     {"feet", 50},       {"turnaround", -1},
                                  {"feet_shift", 1}, {"phrase_bars", 2}, {"swing_ratio", 1},
                                  {"hands_grid", 0}, {"crash", 2}};
static const Pick second[PICKS] = {{"groove", 2},     {"feet", 240},      {"turnaround", 0},
                                   {"feet_shift", 0}, {"phrase_bars", 2}, {"swing_ratio", 2},
                                   {"hands_grid", 0}, {"crash", 1}};

typedef struct {
    int beats, unit;
    int64_t beat; /* the unit that the host tells: frames at 120 quarter notes a minute */
} StageMeter;

static const StageMeter meters[] = {{4, 4, 24000}, {7, 8, 12000}, {5, 4, 24000}, {12, 8, 12000}};
enum { METERS = sizeof meters / sizeof *meters };

static int64_t bar_of(const StageMeter* const meter)
{
    return (int64_t)meter->beats * 96000 / meter->unit;
}

static Stage one, other, changed;

static void pick(Stage* const stage, const Pick picks[PICKS])
{
    for (int i = 0; i < PICKS; ++i) {
        stage_set(stage, picks[i].symbol, picks[i].value);
    }
}

static void say(Stage* const stage, const char* const what, const int slot, const char* const name)
{
    LV2_Atom_Forge* const forge = host_input(stage->host);
    LV2_Atom_Forge_Frame object, tuple;
    lv2_atom_forge_frame_time(forge, 0);
    lv2_atom_forge_object(forge, &object, 0, host_urid(stage->host, FL "Message"));
    stage_key(stage, what);
    lv2_atom_forge_tuple(forge, &tuple);
    lv2_atom_forge_int(forge, slot);
    lv2_atom_forge_string(forge, name, (uint32_t)strlen(name));
    lv2_atom_forge_pop(forge, &tuple);
    lv2_atom_forge_pop(forge, &object);
    stage_block(stage, 64);
}

static void begin(Stage* const stage, const StageMeter* const meter, const int change_at)
{
    stage_open(stage, 120.0, meter->beats, meter->unit);
    stage_set(stage, "kit", 2);
    stage_set(stage, "change_at", change_at);
    stage_set(stage, "kept", 0);
}

static void keep_both(Stage* const stage)
{
    begin(stage, &meters[0], NOW);
    pick(stage, second);
    say(stage, FL "keep", 2, "second");
    pick(stage, first);
    say(stage, FL "keep", 1, "first");
}

static void roll(Stage* const stage, const int64_t frames)
{
    stage_tell(stage, 0.0, 1.0);
    stage_run(stage, frames, 512);
}

static void render(Stage* const stage, const StageMeter* const meter, const Pick picks[PICKS])
{
    begin(stage, meter, NOW);
    pick(stage, picks);
    roll(stage, LENGTH);
}

static void check_notes(const Stage* const got, const Stage* const want, const int64_t from,
                        const int64_t to)
{
    uint32_t i = 0, k = 0;
    for (;; ++i, ++k) {
        while (i < got->count && (!note_is_on(got->notes[i]) || got->notes[i].frame < from)) {
            ++i;
        }
        while (k < want->count && (!note_is_on(want->notes[k]) || want->notes[k].frame < from)) {
            ++k;
        }
        const int64_t at = i < got->count && got->notes[i].frame < to ? got->notes[i].frame : -1;
        const int64_t wanted =
            k < want->count && want->notes[k].frame < to ? want->notes[k].frame : -1;
        if (!CHECK_INT(at, wanted) || at < 0) {
            return;
        }
        CHECK_INT(got->notes[i].bytes[1], want->notes[k].bytes[1]);
        CHECK_INT(got->notes[i].bytes[2], want->notes[k].bytes[2]);
    }
}

static void what_is_kept_plays_as_it_did_whatever_the_ports_pick(void)
{
    for (int i = 0; i < METERS; ++i) {
        for (int slot = 1; slot <= 2; ++slot) {
            render(&one, &meters[i], slot == 1 ? first : second);
            begin(&changed, &meters[i], NOW);
            stage_set(&changed, "groove", 5);
            stage_set(&changed, "feet", 12);
            stage_set(&changed, "hands_grid", 3);
            stage_set(&changed, "kept", slot);
            roll(&changed, LENGTH / 2);
            stage_set(&changed, "feet", 120); /* nor while it plays */
            stage_set(&changed, "swing_ratio", 1.5);
            stage_run(&changed, LENGTH / 2, 512);
            check_case("%d/%d, slot %d", meters[i].beats, meters[i].unit, slot);
            CHECK(one.count > 40);
            CHECK(same_stage_notes(&changed, &one));
            CHECK_INT(changed.faults, 0);
        }
    }
}

/* Frame at which the port is moved, in the second phrase, on no line. */
static int64_t set_at(const StageMeter* const meter)
{
    return 2 * bar_of(meter) + 5000;
}

static int64_t line_of(const StageMeter* const meter, const int change_at)
{
    const int64_t lengths[LINES] = {1, meter->beat, bar_of(meter), 2 * bar_of(meter)};
    const int64_t length = lengths[change_at];
    return (set_at(meter) + length - 1) / length * length;
}

static void check_line(const StageMeter* const meter, const int change_at, const int from,
                       const int to)
{
    begin(&changed, meter, change_at);
    stage_set(&changed, "kept", from);
    roll(&changed, set_at(meter));
    stage_set(&changed, "kept", to);
    stage_run(&changed, LENGTH - set_at(meter), 512);
    const Stage* const before = from == 1 ? &one : &other;
    const Stage* const after = to == 1 ? &one : &other;
    check_case("%d/%d, %d to %d, change_at %d, before the line", meter->beats, meter->unit, from,
               to, change_at);
    check_notes(&changed, before, 0, line_of(meter, change_at));
    check_case("%d/%d, %d to %d, change_at %d, from the line on", meter->beats, meter->unit, from,
               to, change_at);
    check_notes(&changed, after, line_of(meter, change_at), LENGTH);
    CHECK_INT(changed.faults, 0);
}

static void one_comes_in_for_the_other_at_the_line(void)
{
    for (int i = 0; i < METERS; ++i) {
        render(&one, &meters[i], first);
        render(&other, &meters[i], second);
        for (int change_at = BAR_LINE; change_at < LINES; ++change_at) {
            check_line(&meters[i], change_at, 1, 2);
            check_line(&meters[i], change_at, 2, 1);
        }
    }
}

/* Straight ones: a shuffle begins with a quarter note. */
static void at_once_and_at_the_beat_it_is_there(void)
{
    Pick straight[PICKS];
    memcpy(straight, second, sizeof straight);
    straight[5].value = 1.0;
    begin(&changed, &meters[0], NOW);
    pick(&changed, straight);
    say(&changed, FL "keep", 2, "straight");
    for (int i = 0; i < METERS; ++i) {
        render(&one, &meters[i], first);
        render(&other, &meters[i], straight);
        for (int change_at = NOW; change_at <= BEAT; ++change_at) {
            check_line(&meters[i], change_at, 1, 2);
            check_line(&meters[i], change_at, 2, 1);
        }
    }
    keep_both(&changed);
}

/* Ramps over the lane pass what lies between: only where it arrives is played. */
static void a_lane_over_slots_is_discrete(void)
{
    render(&one, &meters[0], first);
    render(&other, &meters[0], second);
    begin(&changed, &meters[0], BAR_LINE);
    stage_set(&changed, "kept", 1);
    roll(&changed, set_at(&meters[0]));
    for (int i = 0; i <= 10; ++i) {
        host_write(changed.host, "kept", 1.0f + 0.1f * (float)i);
        stage_run(&changed, 1000, 250);
    }
    stage_run(&changed, LENGTH - set_at(&meters[0]) - 11000, 512);
    check_notes(&changed, &one, 0, line_of(&meters[0], BAR_LINE));
    check_notes(&changed, &other, line_of(&meters[0], BAR_LINE), LENGTH);
}

static void an_empty_slot_is_as_none(void)
{
    render(&one, &meters[0], first);
    begin(&changed, &meters[0], NOW);
    pick(&changed, first);
    stage_set(&changed, "kept", 9);
    roll(&changed, LENGTH);
    CHECK(same_stage_notes(&changed, &one));
}

static void what_is_dropped_while_it_plays_goes_at_the_line(void)
{
    render(&one, &meters[0], first);
    render(&other, &meters[0], second);
    begin(&changed, &meters[0], BAR_LINE);
    pick(&changed, second); /* what the ports pick */
    stage_set(&changed, "kept", 1);
    roll(&changed, set_at(&meters[0]) - 64);
    say(&changed, FL "dropKept", 1, "");
    stage_run(&changed, LENGTH - set_at(&meters[0]), 512);
    check_notes(&changed, &one, 0, line_of(&meters[0], BAR_LINE));
    check_notes(&changed, &other, line_of(&meters[0], BAR_LINE), LENGTH);
    CHECK_INT(changed.faults, 0);
    say(&changed, FL "takeBackKept", 0, "");
}

static void send(Stage* const stage, const char* const what, const char* const text)
{
    LV2_Atom_Forge* const forge = host_input(stage->host);
    LV2_Atom_Forge_Frame object;
    lv2_atom_forge_frame_time(forge, 0);
    lv2_atom_forge_object(forge, &object, 0, host_urid(stage->host, FL "Message"));
    stage_key(stage, what);
    lv2_atom_forge_string(forge, text, (uint32_t)strlen(text));
    lv2_atom_forge_pop(forge, &object);
    stage_block(stage, 64);
}

/* Feet that were edited when they were kept, and are nowhere else now. */
static void what_only_a_slot_had_goes_on_to_the_line_when_it_is_dropped(void)
{
    static const char edited[] =
        "@prefix fl: <urn:fourlimb:terms#> .\n<urn:test:f> a fl:FeetFigure ; fl:id 50 ; fl:bars 1 ;"
        " fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps "
        "\"oo..o.o.ooo.o..o\" ] .\n";
    begin(&changed, &meters[0], NOW);
    pick(&changed, first);
    send(&changed, FL "feetDraft", edited);
    say(&changed, FL "keep", 5, "edited");
    begin(&changed, &meters[0], BAR_LINE);
    pick(&changed, first);
    roll(&changed, LENGTH); /* the edited feet, as a draft */
    one.count = changed.count;
    memcpy(one.notes, changed.notes, sizeof one.notes);
    begin(&changed, &meters[0], BAR_LINE);
    send(&changed, FL "feetDraft", "");
    pick(&changed, second);
    render(&other, &meters[0], second);
    begin(&changed, &meters[0], BAR_LINE);
    pick(&changed, second);
    stage_set(&changed, "kept", 5);
    roll(&changed, set_at(&meters[0]) - 64);
    say(&changed, FL "dropKept", 5, "");
    stage_run(&changed, LENGTH - set_at(&meters[0]), 512);
    check_notes(&changed, &one, 0, line_of(&meters[0], BAR_LINE));
    check_notes(&changed, &other, line_of(&meters[0], BAR_LINE), LENGTH);
}

static void what_comes_back_while_its_slot_is_asked_for_comes_at_the_line(void)
{
    render(&one, &meters[0], first);
    render(&other, &meters[0], second);
    say(&changed, FL "dropKept", 1, "");
    begin(&changed, &meters[0], BAR_LINE);
    pick(&changed, second);
    stage_set(&changed, "kept", 1);
    roll(&changed, set_at(&meters[0]) - 64);
    say(&changed, FL "takeBackKept", 0, "");
    stage_run(&changed, LENGTH - set_at(&meters[0]), 512);
    check_notes(&changed, &other, 0, line_of(&meters[0], BAR_LINE));
    check_notes(&changed, &one, line_of(&meters[0], BAR_LINE), LENGTH);
}

static void another_name_changes_nothing_that_plays(void)
{
    render(&one, &meters[0], first);
    begin(&changed, &meters[0], NOW);
    stage_set(&changed, "kept", 1);
    roll(&changed, LENGTH / 2 - 64);
    say(&changed, FL "nameKept", 1, "by another name");
    stage_run(&changed, LENGTH / 2, 512);
    CHECK(same_stage_notes(&changed, &one));
}

static void two_instances_keep_for_themselves(void)
{
    keep_both(&other);
    begin(&other, &meters[0], NOW);
    pick(&other, second);
    say(&other, FL "keep", 1, "its own");
    render(&one, &meters[0], second);
    begin(&other, &meters[0], NOW);
    stage_set(&other, "kept", 1);
    roll(&other, LENGTH);
    CHECK(same_stage_notes(&other, &one));
    render(&one, &meters[0], first);
    begin(&changed, &meters[0], NOW);
    stage_set(&changed, "kept", 1);
    roll(&changed, LENGTH);
    CHECK(same_stage_notes(&changed, &one));
}

int main(void)
{
    keep_both(&changed);
    RUN(what_is_kept_plays_as_it_did_whatever_the_ports_pick);
    RUN(one_comes_in_for_the_other_at_the_line);
    RUN(at_once_and_at_the_beat_it_is_there);
    RUN(a_lane_over_slots_is_discrete);
    RUN(an_empty_slot_is_as_none);
    RUN(what_is_dropped_while_it_plays_goes_at_the_line);
    RUN(what_only_a_slot_had_goes_on_to_the_line_when_it_is_dropped);
    RUN(what_comes_back_while_its_slot_is_asked_for_comes_at_the_line);
    RUN(another_name_changes_nothing_that_plays);
    RUN(two_instances_keep_for_themselves);
    stage_close(&one);
    stage_close(&other);
    stage_close(&changed);
    return tests_end();
}
