// SPDX-License-Identifier: ISC
#include "rig.h"

#include "../help/check.h"
#include "../help/wait.h"

#include <dlfcn.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static const char bundle[] = FOURLIMB_BUILD "/lv2/fourlimb.lv2";

double rig_now(void)
{
    return wait_clock();
}

double rig_worked(void)
{
    struct timespec time;
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
    return (double)time.tv_sec + (double)time.tv_nsec * 1e-9;
}

/* ---- What the window calls */

static void keep(Rig* const rig, const RigDid did, const uint32_t port, const float value)
{
    if (rig->write_count < RIG_WRITES) {
        rig->writes[rig->write_count++] = (RigWrite){did, port, value};
    }
}

static void pass_message(Rig* const rig, const LV2_Atom* const atom)
{
    LV2_Atom_Forge* const forge = host_input(rig->plugin);
    lv2_atom_forge_frame_time(forge, 0);
    lv2_atom_forge_write(forge, atom, lv2_atom_total_size(atom));
    ++rig->gets;
}

static void write_port(const LV2UI_Controller controller, const uint32_t port, const uint32_t size,
                       const uint32_t protocol, const void* const buffer)
{
    Rig* const rig = (Rig*)controller;
    if (protocol == rig->uris.atom_eventTransfer) {
        CHECK_INT(port, PORT_CONTROL);
        pass_message(rig, (const LV2_Atom*)buffer);
        return;
    }
    char why[HOST_WHY_ROOM];
    float value = 0.0f;
    CHECK_INT(protocol, 0);
    CHECK_INT(size, sizeof value);
    memcpy(&value, buffer, sizeof value);
    keep(rig, RIG_WROTE, port, value);
    if (CHECK(port >= PORT_FIRST_CONTROL && port < PORT_FIRST_READOUT)) {
        CHECK(host_set(rig->plugin, control_rows[port - PORT_FIRST_CONTROL].symbol, value, why));
    }
}

static void touch_port(const LV2UI_Feature_Handle handle, const uint32_t port, const bool is_held)
{
    keep((Rig*)handle, is_held ? RIG_HELD : RIG_LET_GO, port, 0.0f);
}

static int resize_window(const LV2UI_Feature_Handle handle, const int width, const int height)
{
    Rig* const rig = (Rig*)handle;
    rig->asked_width = width;
    rig->asked_height = height;
    XResizeWindow(rig->display, rig->parent, (unsigned)width, (unsigned)height);
    XSync(rig->display, False);
    return 0;
}

__attribute__((format(printf, 3, 0))) static int print_log(const LV2_Log_Handle handle,
                                                           const LV2_URID type,
                                                           const char* const format,
                                                           va_list arguments)
{
    Rig* const rig = (Rig*)handle;
    const size_t length = strlen(rig->said);
    (void)type;
    return vsnprintf(rig->said + length, RIG_SAID - length, format, arguments);
}

__attribute__((format(printf, 3, 4))) static int
log_printf(const LV2_Log_Handle handle, const LV2_URID type, const char* const format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const int length = print_log(handle, type, format, arguments);
    va_end(arguments);
    return length;
}

static LV2_URID map_uri(const LV2_URID_Map_Handle handle, const char* const uri)
{
    return host_urid((Host*)handle, uri);
}

/* The mirror is moved by nobody: it writes nothing. */
static void write_nothing(void* const handle, const uint32_t port, const float value)
{
    (void)handle;
    (void)port;
    (void)value;
}

/* ---- Life */

static void offer_options(Rig* const rig)
{
    LV2_Options_Option* option = rig->options;
    memset(rig->options, 0, sizeof rig->options);
    if (rig->offer.scale > 0.0f) {
        *option++ = (LV2_Options_Option){LV2_OPTIONS_INSTANCE,
                                         0,
                                         host_urid(rig->plugin, LV2_UI__scaleFactor),
                                         sizeof(float),
                                         rig->uris.atom_Float,
                                         &rig->offer.scale};
    }
    if (rig->offer.has_colours) {
        const char* const keys[] = {LV2_UI__backgroundColor, LV2_UI__foregroundColor};
        const uint32_t* const values[] = {&rig->offer.background, &rig->offer.text};
        for (int i = 0; i < 2; ++i) {
            *option++ = (LV2_Options_Option){
                LV2_OPTIONS_INSTANCE, 0,        host_urid(rig->plugin, keys[i]), sizeof(uint32_t),
                rig->uris.atom_Int,   values[i]};
        }
    }
}

static void offer_features(Rig* const rig)
{
    const LV2_Feature all[] = {
        {LV2_UI__parent, (void*)rig->parent}, {LV2_UI__resize, &rig->resize},
        {LV2_UI__touch, &rig->touch},         {LV2_LOG__log, &rig->log},
        {LV2_OPTIONS__options, rig->options},
    };
    int count = 0;
    rig->map = (LV2_URID_Map){rig->plugin, map_uri};
    rig->log = (LV2_Log_Log){rig, log_printf, print_log};
    rig->resize = (LV2UI_Resize){rig, resize_window};
    rig->touch = (LV2UI_Touch){rig, touch_port};
    offer_options(rig);
    rig->given[count++] = (LV2_Feature){LV2_URID__map, &rig->map};
    for (int i = 0; i < 5; ++i) {
        if (rig->offer.features & 1U << i) {
            rig->given[count++] = all[i];
        }
    }
    for (int i = 0; i < count; ++i) {
        rig->features[i] = &rig->given[i];
    }
    rig->features[count] = NULL;
}

/* The library stays loaded, as in hosts. */
static const LV2UI_Descriptor* load(void)
{
    void* const library = dlopen(FOURLIMB_BUILD "/lv2/fourlimb.lv2/fourlimb_ui.so", RTLD_NOW);
    if (!library) {
        printf("# %s\n", dlerror());
        return NULL;
    }
    void* const symbol = dlsym(library, "lv2ui_descriptor");
    LV2UI_DescriptorFunction entry = NULL;
    memcpy(&entry, &symbol, sizeof entry);
    return entry ? entry(0) : NULL;
}

static void open_parent(Rig* const rig)
{
    const double scale = rig->offer.scale > 0.0f ? (double)rig->offer.scale : 1.0;
    rig->display = XOpenDisplay(NULL);
    if (rig->display) {
        rig->parent = XCreateSimpleWindow(
            rig->display, DefaultRootWindow(rig->display), rig->offer.x, rig->offer.y,
            (unsigned)(FIRST_WIDTH * scale), (unsigned)(FIRST_HEIGHT * scale), 0, 0, 0);
        XMapWindow(rig->display, rig->parent);
        /* Out of the way: nothing is pointed at unless a test does. */
        XWarpPointer(rig->display, None, DefaultRootWindow(rig->display), 0, 0, 0, 0, 1999, 1199);
        XSync(rig->display, False);
    }
}

static bool open_mirror(Rig* const rig)
{
    rig->bank = bank_open((BankSources){FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank", NULL, NULL});
    const bool good = rig->bank && controller_open(&rig->mirror, rig->bank, &rig->uris,
                                                   (ModelOutput){.write = write_nothing});
    const double scale = rig->offer.scale > 0.0f ? (double)rig->offer.scale : 1.0;
    controller_resize(&rig->mirror, (int)lround(FIRST_WIDTH * scale),
                      (int)lround(FIRST_HEIGHT * scale), scale);
    return good;
}

bool rig_prepare(Rig* const rig, const RigOffer* const offer)
{
    char why[HOST_WHY_ROOM] = "";
    memset(rig, 0, sizeof *rig);
    rig->offer = *offer;
    rig->plugin = host_open(bundle, RIG_RATE, why);
    CHECK_TEXT(why, "");
    if (!rig->plugin) {
        return false;
    }
    LV2_URID_Map map = {rig->plugin, map_uri};
    rig->uris = uris_map(&map);
    open_parent(rig);
    rig->descriptor = load();
    return CHECK(open_mirror(rig)) && CHECK(rig->descriptor);
}

bool rig_open_window(Rig* const rig)
{
    offer_features(rig);
    rig->widget = NULL;
    rig->ui = rig->descriptor->instantiate(rig->descriptor, FOURLIMB_GROOVE_URI, bundle, write_port,
                                           rig, &rig->widget, rig->features);
    rig->idle = (const LV2UI_Idle_Interface*)rig->descriptor->extension_data(LV2_UI__idleInterface);
    return rig->ui && rig->idle;
}

bool rig_open(Rig* const rig, const RigOffer* const offer)
{
    const bool good = rig_prepare(rig, offer) && CHECK(rig->display) && CHECK(rig_open_window(rig));
    CHECK_TEXT(rig->said, "");
    return good;
}

void rig_close_window(Rig* const rig)
{
    if (rig->ui) {
        rig->descriptor->cleanup(rig->ui);
    }
    rig->ui = NULL;
}

void rig_close(Rig* const rig)
{
    rig_close_window(rig);
    if (rig->display) {
        XCloseDisplay(rig->display);
    }
    if (rig->bank) {
        controller_close(&rig->mirror);
        bank_free(rig->bank);
    }
    host_close(rig->plugin);
}

/* ---- Telling */

static void hand_on(Rig* const rig, const uint32_t port, const uint32_t size,
                    const uint32_t protocol, const void* const buffer)
{
    const double before = rig_worked();
    controller_tick(&rig->mirror, rig_now());
    incoming_port_event(&rig->mirror, port, size, protocol, buffer);
    rig->others += rig_worked() - before;
    if (rig->ui) {
        rig->descriptor->port_event(rig->ui, port, size, protocol, buffer);
    }
}

void rig_tell(Rig* const rig, const uint32_t port, const float value)
{
    hand_on(rig, port, sizeof value, 0, &value);
}

void rig_tell_control(Rig* const rig, const Control control, const float value)
{
    char why[HOST_WHY_ROOM];
    CHECK(host_set(rig->plugin, control_rows[control].symbol, value, why));
    rig_tell(rig, (uint32_t)(PORT_FIRST_CONTROL + control), value);
}

void rig_message(Rig* const rig, const LV2_Atom* const atom)
{
    hand_on(rig, PORT_NOTIFY, lv2_atom_total_size(atom), rig->uris.atom_eventTransfer, atom);
}

void rig_roll(Rig* const rig, const int64_t bar, const float tempo, const float speed)
{
    host_send_position(rig->plugin, (HostPosition){.frame = (int64_t)((double)bar * 4.0 * 60.0 /
                                                                      (double)tempo * RIG_RATE),
                                                   .speed = speed,
                                                   .tempo = tempo,
                                                   .beats_per_bar = 4.0f,
                                                   .beat_unit = 4,
                                                   .has_place = true,
                                                   .bar = bar});
}

void rig_block(Rig* const rig, const uint32_t frames)
{
    const double before = rig_worked();
    host_run(rig->plugin, frames);
    rig->others += rig_worked() - before;
    const LV2_Atom_Sequence* const notify = host_notify(rig->plugin);
    LV2_ATOM_SEQUENCE_FOREACH (notify, event) {
        rig_message(rig, &event->body);
    }
    for (uint32_t i = 0; i < READOUT_COUNT; ++i) {
        const float value = host_get(rig->plugin, readout_rows[i].symbol);
        if (value < rig->told[i] || value > rig->told[i]) {
            rig->told[i] = value;
            rig_tell(rig, PORT_FIRST_READOUT + i, value);
        }
    }
}

bool rig_idle(Rig* const rig)
{
    const double start = rig_now();
    const double worked = rig_worked();
    const bool lives = rig->idle->idle(rig->ui) == 0;
    rig->longest = fmax(rig->longest, rig_now() - start);
    rig->hardest = fmax(rig->hardest, rig_worked() - worked);
    return lives;
}

static void pause_for(const double seconds)
{
    if (seconds > 0.0) {
        nanosleep(&(struct timespec){(time_t)seconds, (long)(fmod(seconds, 1.0) * 1e9)}, NULL);
    }
}

bool rig_play(Rig* const rig, const double seconds, const int rate)
{
    const double begin = rig_now();
    int64_t frames = 0;
    for (int call = 1; call <= (int)(seconds * rate); ++call) {
        for (; frames < (int64_t)call * RIG_RATE / rate; frames += 256) {
            rig_block(rig, 256);
        }
        if (!rig_idle(rig)) {
            return false;
        }
        pause_for(begin + (double)call / rate - rig_now());
    }
    return true;
}

bool rig_rest(Rig* const rig, const double seconds)
{
    const double end = rig_now() + seconds;
    bool lives = rig_idle(rig);
    while (lives && rig_now() < end) {
        pause_for(0.005);
        lives = rig_idle(rig);
    }
    return lives;
}

bool rig_waits(Rig* const rig, bool (*const until)(Rig* rig))
{
    Wait wait = wait_until("the window does what it should");
    while (!until(rig)) {
        if (!rig_idle(rig) || !wait_goes_on(&wait)) {
            return until(rig);
        }
    }
    return true;
}

bool rig_ends(Rig* const rig)
{
    Wait wait = wait_until("the window wants to end");
    while (rig_idle(rig)) {
        if (!wait_goes_on(&wait)) {
            return false;
        }
    }
    return true;
}

bool rig_has_keys(Rig* const rig)
{
    Window focus = None;
    int revert;
    XGetInputFocus(rig->display, &focus, &revert);
    return focus == (Window)rig->widget;
}
