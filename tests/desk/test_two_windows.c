// SPDX-License-Identifier: ISC
/* Two windows of one plugin in a host, and a person who does anything: keys, clicks, drags, sizes
   by chance, while the transport goes where it likes.  Both live, the host has every value that
   they show, both show one bar, and what stands there is what the plugin told; no file is written
   but where one was asked for.  Usage: test_two_windows [STEPS [SEED]]. */
#include "../../plugin/talk/encode.h"
#include "../help/check.h"
#include "../scene/shown_text.h"
#include "chance.h"
#include "home.h"

#include <math.h>

enum { RATE = 48000, BLOCK = 512, WINDOWS = 2, STEPS = 3000, SEED = 17 };

typedef struct {
    Stage stage; /* the host, and the first window */
    Model other;
    int saves;   /* asked for by a window */
    int unasked; /* files of phrases without an answer where */
} Pair;

static Pair pair;
static Chance luck = {SEED};
static int steps = STEPS;

static Model* window(const int which)
{
    return which ? &pair.other : &pair.stage.model;
}

/* As hosts do: what one window writes, the plugin has, and each other window is told. */
static void write_port(void* const handle, const uint32_t port, const float value)
{
    char why[HOST_WHY_ROOM];
    const Control control = (Control)(port - PORT_FIRST_CONTROL);
    if (!host_set(pair.stage.host, control_rows[control].symbol, value, why)) {
        check_case("%s", why);
        CHECK(false);
    }
    for (int i = 0; i < WINDOWS; ++i) {
        if ((void*)window(i) != handle) {
            incoming_port_event(window(i), port, sizeof value, 0, &value);
        }
    }
}

static void say_text(void* const handle, const LV2_URID property, const char* const text)
{
    const Uris* const uris = &pair.stage.uris;
    LV2_Atom_Forge* const forge = host_input(pair.stage.host);
    LV2_Atom_Forge_Frame frame;
    (void)handle;
    pair.saves += property == uris->fl_saveFigure || property == uris->fl_saveGroove ||
                  property == uris->fl_saveKit;
    lv2_atom_forge_frame_time(forge, 0);
    encode_begin(forge, &frame, property, uris);
    lv2_atom_forge_string(forge, text, (uint32_t)strlen(text));
    lv2_atom_forge_pop(forge, &frame);
}

static void write_file(void* const handle, const bool straight)
{
    Model* const model = (Model*)handle;
    (void)straight;
    pair.unasked += !model->view.asked.is_known;
}

static void begin(void)
{
    stage_open(&pair.stage);
    for (int i = 0; i < WINDOWS; ++i) {
        const ModelOutput output = {
            .handle = window(i), .write = write_port, .say = say_text, .write_file = write_file};
        if (i) {
            controller_open(window(i), pair.stage.bank, &pair.stage.uris, output);
        }
        window(i)->output = output;
        controller_input(window(i), &(PaneEvent){.kind = PANE_FOCUS_IN});
        controller_resize(window(i), 960, 540, 1.0);
    }
}

static void hand_on(void)
{
    LV2_ATOM_SEQUENCE_FOREACH (host_notify(pair.stage.host), event) {
        for (int i = 0; i < WINDOWS; ++i) {
            incoming_port_event(window(i), PORT_NOTIFY,
                                event->body.size + (uint32_t)sizeof event->body,
                                pair.stage.uris.atom_eventTransfer, &event->body);
        }
    }
    for (uint32_t i = 0; i < READOUT_COUNT; ++i) {
        const float value = host_get(pair.stage.host, readout_rows[i].symbol);
        for (int j = 0; j < WINDOWS; ++j) {
            incoming_port_event(window(j), PORT_FIRST_READOUT + i, sizeof value, 0, &value);
        }
    }
}

static void run(const int blocks, const bool asks)
{
    for (int block = 0; block < blocks; ++block) {
        for (int i = 0; asks && block % 20 == 0 && i < WINDOWS; ++i) {
            LV2_Atom_Forge* const forge = host_input(pair.stage.host);
            lv2_atom_forge_frame_time(forge, 0);
            encode_look(forge, controller_asks(window(i)), &pair.stage.uris);
        }
        host_run(pair.stage.host, BLOCK);
        pair.stage.seconds += (double)BLOCK / RATE;
        for (int i = 0; i < WINDOWS; ++i) {
            controller_tick(window(i), pair.stage.seconds);
        }
        hand_on();
    }
}

/* ---- Anything */

static void any_key(Model* const model)
{
    static const uint32_t named[] = {
        PANE_KEY_TAB,  PANE_KEY_ENTER, PANE_KEY_ESCAPE,    PANE_KEY_UP,     PANE_KEY_DOWN,
        PANE_KEY_LEFT, PANE_KEY_RIGHT, PANE_KEY_PAGE_DOWN, PANE_KEY_DELETE, PANE_KEY_BACKSPACE};
    const bool is_named = chance(&luck, 2);
    const uint32_t key =
        is_named ? named[chance(&luck, sizeof named / sizeof *named)] : ' ' + chance(&luck, 94);
    controller_input(model, &(PaneEvent){.kind = PANE_KEY,
                                         .key = key,
                                         .text = is_named ? 0 : key,
                                         .modifiers = chance(&luck, 4) ? 0 : PANE_SHIFT});
}

/* At something that can be pointed at, mostly. */
static void any_click(Model* const model)
{
    TargetList targets;
    const Geometry g = geometry_of(&model->view);
    targets_of(&model->view, &g, &targets);
    const Box box = targets.targets[chance(&luck, (uint32_t)targets.count)].box;
    const double scale = model->fit.scale;
    PaneEvent event = {.kind = PANE_PRESS,
                       .button = chance(&luck, 8) ? 1 : 3,
                       .x = (box.x + box.width * chance(&luck, 100) / 100.0) * scale,
                       .y = (box.y + box.height * chance(&luck, 100) / 100.0) * scale};
    controller_input(model, &event);
    if (chance(&luck, 3) == 0) {
        event.kind = PANE_MOTION;
        event.x += (double)chance(&luck, 80) - 40.0;
        event.y += (double)chance(&luck, 80) - 40.0;
        controller_input(model, &event);
    }
    event.kind = PANE_RELEASE;
    controller_input(model, &event);
}

static void anything(void)
{
    Model* const model = window((int)chance(&luck, WINDOWS));
    const uint32_t kind = chance(&luck, 40);
    if (kind == 0) {
        controller_resize(model, 300 + (int)chance(&luck, 2200), 200 + (int)chance(&luck, 1800),
                          chance(&luck, 3) ? 1.0 : 2.0);
    } else if (kind == 1) {
        stage_roll(&pair.stage, chance(&luck, 40), (float)chance(&luck, 4),
                   chance(&luck, 4) ? 1.0f : 0.0f);
    } else if (kind < 24) {
        any_key(model);
    } else {
        any_click(model);
    }
}

/* ---- What is shown is what was told */

static void check_values(void)
{
    for (int control = 0; control < CONTROL_COUNT; ++control) {
        const double has = (double)host_get(pair.stage.host, control_rows[control].symbol);
        for (int i = 0; i < WINDOWS; ++i) {
            check_case("%s in window %d", control_rows[control].symbol, i);
            CHECK_NEAR(window(i)->view.values[control], has, 1e-6);
        }
    }
}

static void check_places(void)
{
    const View* const one = &window(0)->view;
    const View* const other = &window(1)->view;
    check_case("place");
    CHECK(one->has_place && other->has_place);
    CHECK_INT(one->place.bar, other->place.bar);
    CHECK_INT(one->place.phrase_bars, other->place.phrase_bars);
    for (int bar = 0; bar < SEEN_BARS; ++bar) {
        check_case("bar %d", bar);
        CHECK_INT(one->has_bar[bar], other->has_bar[bar]);
        if (one->has_bar[bar] && one->left_handed == other->left_handed) {
            CHECK_INT(one->bars[bar].groove, other->bars[bar].groove);
            CHECK_INT(one->bars[bar].feet, other->bars[bar].feet);
            CHECK_INT(one->bars[bar].count, other->bars[bar].count);
        }
    }
}

/* The groove that the bar tells of, and the readout's tempo where it counts quarters, stand in
   the picture: where the top row is, which is not in the reading view or over typing. */
static int check_picture(const Model* const model)
{
    char text[32];
    const View* const view = &model->view;
    const SeenBar* const bar = view_bar(view, view_shown(view));
    const Entry* const groove = bar ? view_entry(view, ENTRY_GROOVE, (int32_t)bar->groove) : NULL;
    const double tempo = (double)view->readouts[READOUT_TEMPO_NOW];
    shown_draw(view);
    if (view->reads || view->is_typing || !groove) {
        return 0;
    }
    check_case("groove %s, tempo %g", groove->label, tempo);
    bool is_named = false;
    for (int i = 0; i < shown.count; ++i) {
        is_named = is_named || shown.texts[i].is_cut || !strcmp(shown.texts[i].text, groove->label);
    }
    CHECK(is_named);
    snprintf(text, sizeof text, "%.4g", tempo);
    CHECK(bar->meter.beat_unit != 4 || tempo <= 0.0 || shown_times(text) >= 1);
    return 1;
}

static int files_in(const char* const folder)
{
    int count = 0;
    DIR* const open = opendir(folder);
    const struct dirent* entry = NULL;
    while (open && (entry = readdir(open))) {
        count += entry->d_name[0] != '.';
    }
    if (open) {
        closedir(open);
    }
    return count;
}

static void anything_in_two_windows_does_no_harm(void)
{
    int looked = 0;
    begin();
    run(40, true);
    stage_roll(&pair.stage, 0, 0.0f, 1.0f);
    for (int step = 0; step < steps; ++step) {
        anything();
        run(2, step % 10 == 0);
        if (step % 60 == 59) {
            run(100, true); /* what is told has come */
            check_values();
            check_places();
            looked += check_picture(window(0)) + check_picture(window(1));
        }
    }
    check_case("%d steps", steps);
    CHECK(looked > 0 || steps < 600);
    CHECK_INT(pair.unasked, 0);
    CHECK(files_in(bench_path("fourlimb")) <=
          (pair.saves ? 2 * pair.saves + 2 : 1)); /* bench.ttl */
    printf("# %d steps, %d pictures, %d saves\n", steps, looked, pair.saves);
    controller_close(&pair.other);
    stage_close(&pair.stage);
}

int main(const int count, char** const arguments)
{
    steps = count > 1 ? atoi(arguments[1]) : STEPS;
    luck.state = count > 2 ? (uint64_t)atoll(arguments[2]) : SEED;
    bench_move_in();
    RUN(anything_in_two_windows_does_no_harm);
    bench_move_out();
    return tests_end();
}
