// SPDX-License-Identifier: ISC
/* ui.c - the plugin's own window as an LV2 UI: hands on what the host says, and
   asks the plugin to go on telling.  The host's user interface thread only. */
#include "../../plugin/talk/encode.h"
#include "../desk/controller.h"
#include "../desk/incoming.h"
#include "export.h"
#include "host_options.h"
#include "kept.h"
#include "painter.h"

#include <lv2/atom/util.h>
#include <lv2/core/lv2_util.h>
#include <lv2/log/log.h>
#include <lv2/log/logger.h>
#include <lv2/options/options.h>
#include <lv2/ui/ui.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define FOURLIMB_UI_URI "urn:fourlimb:groove#ui"

/* The plugin stops telling three seconds after it was last asked. */
static const double ask_again_seconds = 1.0;

static const double show_again_seconds = 1.0;

enum { WHY_ROOM = 256 };

/* What the host offers; NULL: nothing. */
typedef struct {
    LV2_URID_Map* map;
    LV2_Log_Log* log;
    LV2UI_Resize* resize;
    LV2UI_Touch* touch;
    const LV2_Options_Option* options;
    void* parent;
} Offer;

typedef struct {
    LV2UI_Write_Function write;
    LV2UI_Controller controller;
    Offer offer;
    LV2_Log_Logger logger;
    Uris uris;
    LV2_Atom_Forge forge;
    char* bundle_path;
    Bank* bank;
    Model model;
    Pane* pane;
    Painter painter;
    int width; /* real pixels */
    int height;
    double scale;
    double asked_at; /* seconds; negative: not yet */
    LV2_URID asked;  /* for which property */
    double show_at;  /* seconds: not before, after a refusal */
    bool failed;     /* said so once */
} Window;

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + (double)time.tv_nsec * 1e-9;
}

/* ---- To the plugin */

static void write_value(void* const handle, const uint32_t port, const float value)
{
    const Window* const window = (const Window*)handle;
    window->write(window->controller, port, sizeof value, 0, &value);
}

static void touch_value(void* const handle, const uint32_t port, const bool is_held)
{
    const Window* const window = (const Window*)handle;
    window->offer.touch->touch(window->offer.touch->handle, port, is_held);
}

static void say_kept(void* const handle, const LV2_URID property, const KeptWord* const word)
{
    Window* const window = (Window*)handle;
    LV2_Atom_Forge_Frame frame;
    union {
        LV2_Atom atom;
        uint8_t bytes[ENCODE_HEAD_BYTES + KEPT_WORD_MOST + 64];
    } message;
    lv2_atom_forge_set_buffer(&window->forge, message.bytes, sizeof message);
    encode_begin(&window->forge, &frame, property, &window->uris);
    encode_kept(&window->forge, word);
    lv2_atom_forge_pop(&window->forge, &frame);
    window->write(window->controller, PORT_CONTROL, lv2_atom_total_size(&message.atom),
                  window->uris.atom_eventTransfer, &message);
}

static void say_text(void* const handle, const LV2_URID property, const char* const text)
{
    Window* const window = (Window*)handle;
    const size_t room = ENCODE_HEAD_BYTES + strlen(text) + 64;
    LV2_Atom* const message = calloc(1, room);
    LV2_Atom_Forge_Frame frame;
    if (!message) {
        return;
    }
    lv2_atom_forge_set_buffer(&window->forge, (uint8_t*)message, room);
    encode_begin(&window->forge, &frame, property, &window->uris);
    lv2_atom_forge_string(&window->forge, text, (uint32_t)strlen(text));
    lv2_atom_forge_pop(&window->forge, &frame);
    window->write(window->controller, PORT_CONTROL, lv2_atom_total_size(message),
                  window->uris.atom_eventTransfer, message);
    free(message);
}

static void ask(Window* const window, const double seconds)
{
    union {
        LV2_Atom atom;
        uint8_t bytes[256];
    } message;
    const LV2_URID property = controller_asks(&window->model);
    const bool is_news = window->asked_at < 0.0 || property != window->asked;
    if (!is_news && seconds - window->asked_at < ask_again_seconds) {
        return;
    }
    window->asked_at = seconds;
    window->asked = property;
    lv2_atom_forge_set_buffer(&window->forge, message.bytes, sizeof message.bytes);
    encode_look(&window->forge, property, &window->uris);
    window->write(window->controller, PORT_CONTROL, lv2_atom_total_size(&message.atom),
                  window->uris.atom_eventTransfer, &message);
}

/* ---- From the host */

static HostOptions host_options(const Window* const window)
{
    return (HostOptions){window->offer.map, &window->uris, window->offer.options};
}

static void take_colours(Window* const window)
{
    Colour background;
    Colour text;
    const HostOptions host = host_options(window);
    if (host_options_colours(&host, &background, &text)) {
        model_host_colours(&window->model, background, text);
    }
}

static bool take_event(void* const handle, const PaneEvent* const event)
{
    Window* const window = (Window*)handle;
    if (event->kind == PANE_RESIZE) {
        window->width = event->width;
        window->height = event->height;
        controller_resize(&window->model, event->width, event->height, window->scale);
        return true;
    }
    if (event->kind == PANE_PRESS) {
        pane_take_focus(window->pane);
    }
    return controller_input(&window->model, event);
}

/* ---- The bank, and files */

static void read_bank_again(void* const handle, const char* const entries)
{
    Window* const window = (Window*)handle;
    Bank* const bank = bank_open_bundle(window->bundle_path, entries);
    if (bank && controller_bank(&window->model, bank)) {
        bank_free(window->bank);
        window->bank = bank;
    } else {
        bank_free(bank);
        model_say(&window->model,
                  "There is no memory for the bank's new lists: close something, and "
                  "open this window again");
    }
}

static void write_handout(void* const handle)
{
    Window* const window = (Window*)handle;
    export_handout(&window->model);
}

static void write_file(void* const handle, const bool straight)
{
    Window* const window = (Window*)handle;
    export_write(&window->model, straight);
}

static void keep_options(void* const handle)
{
    kept_write(&((Window*)handle)->model);
}

/* ---- Life */

static void close_window(Window* const window)
{
    pane_close(window->pane);
    painter_free(&window->painter);
    controller_close(&window->model);
    bank_free(window->bank);
    free(window->bundle_path);
    free(window);
}

static bool open_pane(Window* const window)
{
    char why[WHY_ROOM] = "";
    const HostOptions host = host_options(window);
    window->scale = host_options_scale(&host);
    window->width = (int)lround(FIRST_WIDTH * window->scale);
    window->height = (int)lround(FIRST_HEIGHT * window->scale);
    const PaneRequest request = {
        .parent = (uintptr_t)window->offer.parent,
        .width = window->width,
        .height = window->height,
        .min_width = (int)lround(LEAST_WIDTH * window->scale),
        .min_height = (int)lround(LEAST_HEIGHT * window->scale),
        .title = "Fourlimb",
        .event = take_event,
        .handle = window,
    };
    window->pane = pane_open(&request, why);
    if (!window->pane) {
        lv2_log_error(&window->logger, "Fourlimb: its window can't be opened: %s\n", why);
    }
    return window->pane != NULL;
}

static bool open_all(Window* const window, const char* const bundle_path)
{
    const ModelOutput output = {.handle = window,
                                .write = write_value,
                                .touch = window->offer.touch ? touch_value : NULL,
                                .say = say_text,
                                .say_kept = say_kept,
                                .read_bank = read_bank_again,
                                .write_file = write_file,
                                .write_handout = write_handout,
                                .file_folder = export_folder,
                                .folder_of = export_folder_of,
                                .complete = export_complete,
                                .keep = keep_options};
    window->bundle_path = strdup(bundle_path);
    window->bank = window->bundle_path ? bank_open_bundle(bundle_path, "") : NULL;
    if (!window->bank || !controller_open(&window->model, window->bank, &window->uris, output)) {
        lv2_log_error(&window->logger, "Fourlimb: no memory for its window\n");
        return false;
    }
    if (!open_pane(window)) {
        return false;
    }
    controller_resize(&window->model, window->width, window->height, window->scale);
    take_colours(window);
    kept_read(&window->model);
    if (window->offer.resize) {
        window->offer.resize->ui_resize(window->offer.resize->handle, window->width,
                                        window->height);
    }
    return true;
}

static LV2UI_Handle instantiate(const LV2UI_Descriptor* const descriptor,
                                const char* const plugin_uri, const char* const bundle_path,
                                const LV2UI_Write_Function write, const LV2UI_Controller controller,
                                LV2UI_Widget* const widget,
                                const LV2_Feature* const* const features)
{
    (void)descriptor;
    Offer offer = {0};
    const char* const missing = lv2_features_query(
        features, LV2_URID__map, &offer.map, true, LV2_LOG__log, &offer.log, false, LV2_UI__resize,
        &offer.resize, false, LV2_UI__touch, &offer.touch, false, LV2_OPTIONS__options,
        &offer.options, false, LV2_UI__parent, &offer.parent, false, NULL);
    Window* const window =
        missing || strcmp(plugin_uri, FOURLIMB_GROOVE_URI) != 0 ? NULL : calloc(1, sizeof(Window));
    if (!window) {
        return NULL;
    }
    window->write = write;
    window->controller = controller;
    window->offer = offer;
    window->asked_at = -1.0;
    lv2_log_logger_init(&window->logger, offer.map, offer.log);
    window->uris = uris_map(offer.map);
    lv2_atom_forge_init(&window->forge, offer.map);
    if (!open_all(window, bundle_path)) {
        close_window(window);
        return NULL;
    }
    *widget = (LV2UI_Widget)pane_window(window->pane);
    return window;
}

static void cleanup(const LV2UI_Handle ui)
{
    close_window((Window*)ui);
}

static void port_event(const LV2UI_Handle ui, const uint32_t port, const uint32_t size,
                       const uint32_t format, const void* const buffer)
{
    if (ui) { /* jalv 1.6.6 that closes in full swing may tell a window that is gone */
        incoming_port_event(&((Window*)ui)->model, port, size, format, buffer);
    }
}

/* After a refusal not at every call: it may last. */
static bool show(Window* const window, const double seconds)
{
    if (seconds < window->show_at || painter_show(&window->painter, &window->model, window->pane,
                                                  window->width, window->height)) {
        return true;
    }
    window->model.is_dirty = true;
    window->show_at = seconds + show_again_seconds;
    return false;
}

static void say_refused(Window* const window)
{
    if (!window->failed) {
        window->failed = true;
        lv2_log_error(&window->logger,
                      "Fourlimb: its picture of %d by %d can't be shown: no memory, too large, or "
                      "the host draws itself; tried again every second\n",
                      window->width, window->height);
    }
}

/* Nonzero ends the window: it was closed, or its parent is gone. */
static int idle(const LV2UI_Handle ui)
{
    Window* const window = (Window*)ui;
    const double seconds = now();
    ask(window, seconds);
    controller_tick(&window->model, seconds);
    if (!pane_poll(window->pane)) {
        return 1;
    }
    const bool shown = show(window, seconds);
    if (!pane_poll(window->pane)) {
        return 1;
    }
    if (!shown) {
        say_refused(window);
    }
    return 0;
}

static int resize(const LV2UI_Feature_Handle ui, const int width, const int height)
{
    pane_resize(((Window*)ui)->pane, width, height);
    return 0;
}

static const LV2UI_Idle_Interface idle_interface = {idle};

static const LV2UI_Resize resize_interface = {NULL, resize};

static const void* extension_data(const char* const uri)
{
    return !strcmp(uri, LV2_UI__idleInterface) ? (const void*)&idle_interface
           : !strcmp(uri, LV2_UI__resize)      ? (const void*)&resize_interface
                                               : NULL;
}

static const LV2UI_Descriptor descriptor = {
    FOURLIMB_UI_URI, instantiate, cleanup, port_event, extension_data,
};

LV2_SYMBOL_EXPORT const LV2UI_Descriptor* lv2ui_descriptor(const uint32_t index)
{
    return index == 0 ? &descriptor : NULL;
}
