// SPDX-License-Identifier: ISC
/* fuzz_desk.c - whatever a host or the plugin tells the window, between whatever a person does
   in it: no value leaves it that is out of range or a part of a whole, every dial taken hold of
   is let go, and what is shown is UTF-8. */
#include "../../plugin/talk/encode.h"
#include "../../ui/desk/kept_told.h"
#include "../../ui/desk/mouse.h"
#include "../desk/own_desk.h"
#include "fuzz.h"

enum { ACTS_MOST = 96, MESSAGE_BYTES = 1 << 14 };
enum { URIDS = sizeof(Uris) / sizeof(LV2_URID) };

static OwnDesk* own;
static LV2_URID_Map map;
static LV2_Atom_Forge forge;
static union {
    LV2_Atom atom;
    uint64_t room[MESSAGE_BYTES / 8];
} message;

static Model* opened; /* as the desk opens: filling its lists takes long */

int LLVMFuzzerInitialize(int* const count, char*** const arguments)
{
    (void)count;
    (void)arguments;
    fuzz_alone();
    own = own_desk_open();
    map = (LV2_URID_Map){own->table, uri_table_map};
    lv2_atom_forge_init(&forge, &map);
    controller_tick(&own->model, 100.0);
    opened = malloc(sizeof *opened);
    *opened = own->model;
    return 0;
}

/* All but the lists goes, as the desk closes; what plays is made anew if there were drafts. */
static void finish(void)
{
    Model* const model = &own->model;
    editor_close(model);
    entries_close(model);
    kept_told_close(model);
    mouse_release(model);
    model_tick_trigger(model, true);
    FUZZ_WANT(!own->held);
    if (model->snapshot != opened->snapshot) {
        FUZZ_WANT(model_compose(model));
        opened->snapshot = model->snapshot;
    }
    *model = *opened;
    own->wrong = own->unbalanced = 0;
}

static LV2_URID any_urid(FuzzInput* const input)
{
    const uint32_t code = fuzz_byte(input);
    return code < URIDS ? ((const LV2_URID*)&own->uris)[code] : code;
}

/* As long as it says, in memory of that length: the sanitizers see what is read beyond. */
static void tell(void)
{
    const size_t size = sizeof message.atom + message.atom.size;
    void* const copy = malloc(size);
    memcpy(copy, &message, size);
    incoming_port_event(&own->model, PORT_NOTIFY, (uint32_t)size, own->uris.atom_eventTransfer,
                        copy);
    free(copy);
}

static void raw_atom(FuzzInput* const input)
{
    size_t size = fuzz_byte(input);
    message.atom.type = any_urid(input);
    const uint8_t* const body = fuzz_take(input, &size);
    memcpy(&message.atom + 1, body, size);
    message.atom.size = (uint32_t)size;
    tell();
}

/* An fl:Message of any property with a value of any type. */
static void any_message(FuzzInput* const input)
{
    LV2_Atom_Forge_Frame frame;
    const LV2_URID property = any_urid(input);
    const LV2_URID type = any_urid(input);
    size_t size = fuzz_two(input) % 4096;
    const uint8_t* const body = fuzz_take(input, &size);
    lv2_atom_forge_set_buffer(&forge, (uint8_t*)&message, MESSAGE_BYTES);
    encode_begin(&forge, &frame, property, &own->uris);
    lv2_atom_forge_atom(&forge, (uint32_t)size, type);
    lv2_atom_forge_write(&forge, body, (uint32_t)size);
    lv2_atom_forge_pop(&forge, &frame);
    tell();
}

static void place(FuzzInput* const input)
{
    LV2_Atom_Forge_Frame frame;
    LV2_Atom_Forge_Frame vector;
    uint32_t count = fuzz_byte(input) % 64;
    lv2_atom_forge_set_buffer(&forge, (uint8_t*)&message, MESSAGE_BYTES);
    encode_begin(&forge, &frame, own->uris.fl_place, &own->uris);
    lv2_atom_forge_vector_head(&forge, &vector, sizeof(double), own->uris.atom_Double);
    for (; count-- > 0 && input->left;) {
        const double number = fuzz_number(input);
        lv2_atom_forge_raw(&forge, &number, sizeof number);
    }
    lv2_atom_forge_pop(&forge, &vector);
    lv2_atom_forge_pop(&forge, &frame);
    tell();
}

/* A bar's value: a vector of doubles, then vectors of whole numbers. */
static void bar(FuzzInput* const input)
{
    LV2_Atom_Forge_Frame frame, tuple, vector;
    lv2_atom_forge_set_buffer(&forge, (uint8_t*)&message, MESSAGE_BYTES);
    encode_begin(&forge, &frame, own->uris.fl_bar, &own->uris);
    lv2_atom_forge_tuple(&forge, &tuple);
    lv2_atom_forge_vector_head(&forge, &vector, sizeof(double), own->uris.atom_Double);
    for (uint32_t count = fuzz_byte(input) % 48; count-- > 0 && input->left;) {
        const double number = fuzz_number(input);
        lv2_atom_forge_raw(&forge, &number, sizeof number);
    }
    lv2_atom_forge_pop(&forge, &vector);
    for (int i = 0; i < 4; ++i) {
        lv2_atom_forge_vector_head(&forge, &vector, sizeof(int32_t), own->uris.atom_Int);
        for (uint32_t count = fuzz_byte(input); count-- > 0 && input->left;) {
            const int32_t number = (int32_t)(fuzz_two(input) * 128U);
            lv2_atom_forge_raw(&forge, &number, sizeof number);
        }
        lv2_atom_forge_pop(&forge, &vector);
        lv2_atom_forge_pad(&forge, (uint32_t)forge.offset & 7);
    }
    lv2_atom_forge_pop(&forge, &tuple);
    lv2_atom_forge_pop(&forge, &frame);
    tell();
}

static void value(FuzzInput* const input)
{
    const uint32_t port = fuzz_byte(input);
    const double number = fuzz_number(input);
    const float sent = number > -3e38 && number < 3e38 ? (float)number : NAN;
    incoming_port_event(&own->model, port, sizeof sent, 0, &sent);
}

static void person(FuzzInput* const input)
{
    const View* const view = &own->model.view;
    const double scale = own->model.fit.scale;
    const uint32_t code = fuzz_byte(input);
    PaneEvent event = {.kind = (PaneEventKind)(code % (PANE_CLOSE + 1)),
                       .modifiers = code & 64    ? PANE_SHIFT
                                    : code & 128 ? PANE_CONTROL
                                                 : 0};
    if (event.kind == PANE_KEY) {
        const uint32_t key = fuzz_byte(input);
        event.key = key < 128 ? key : PANE_KEY_UP + key % 32;
        event.text = key < 128 && key >= ' ' && !(event.modifiers & PANE_CONTROL) ? key : 0;
    } else if (event.kind == PANE_RESIZE) {
        event.width = (int)(fuzz_two(input) % 4000) - 100;
        event.height = (int)(fuzz_two(input) % 3000) - 100;
    } else {
        event.x = scale * view->width * fuzz_byte(input) / 255.0;
        event.y = scale * view->height * fuzz_byte(input) / 255.0;
        event.button = event.kind == PANE_PRESS && code & 32 ? 3 : 1;
        event.scroll = code & 32 ? 1.0 : -1.0;
    }
    controller_input(&own->model, &event);
}

static void act(FuzzInput* const input)
{
    switch (fuzz_byte(input) % 8) {
    case 0:
        raw_atom(input);
        break;
    case 1:
        any_message(input);
        break;
    case 2:
        place(input);
        break;
    case 3:
        bar(input);
        break;
    case 4:
        value(input);
        break;
    case 5:
        controller_tick(&own->model, own->model.now + fuzz_byte(input) / 32.0);
        break;
    default:
        person(input);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t* const bytes, const size_t size)
{
    FuzzInput input = {bytes, size};
    for (int acts = 0; input.left && acts < ACTS_MOST; ++acts) {
        act(&input);
        FUZZ_WANT(!own->wrong && !own->unbalanced);
        FUZZ_WANT(fuzz_is_utf8(own->model.view.message));
        FUZZ_WANT(fuzz_is_utf8(own->model.view.edit.note));
    }
    finish();
    return 0;
}
