// SPDX-License-Identifier: ISC
#include "ports.h"

#include <stddef.h>
#include <string.h>

void ports_init(Ports* const ports)
{
    *ports = (Ports){.are_moved = true};
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        ports->controls[i] = &control_rows[i].normal;
    }
    for (int i = 0; i < READOUT_COUNT; ++i) {
        ports->readouts[i] = &ports->nowhere;
    }
    ports_start(ports);
}

void ports_start(Ports* const ports)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        ports->values[i] = control_rows[i].normal;
    }
}

static void connect_control(Ports* const ports, const uint32_t control, const float* const value)
{
    const float* const now = value ? value : &control_rows[control].normal;
    ports->are_moved |= ports->controls[control] != now; /* some hosts connect in each block */
    ports->controls[control] = now;
}

static void connect_readout(Ports* const ports, const uint32_t readout, float* const value)
{
    float* const now = value ? value : &ports->nowhere;
    ports->are_moved |= ports->readouts[readout] != now;
    ports->readouts[readout] = now;
}

void ports_connect(Ports* const ports, const uint32_t port, void* const data)
{
    if (port == PORT_CONTROL) {
        ports->control = (const LV2_Atom_Sequence*)data;
    } else if (port == PORT_MIDI_OUT) {
        ports->midi_out = (LV2_Atom_Sequence*)data;
    } else if (port == PORT_NOTIFY) {
        ports->notify_out = (LV2_Atom_Sequence*)data;
    } else if (port < PORT_FIRST_READOUT) {
        connect_control(ports, port - PORT_FIRST_CONTROL, (const float*)data);
    } else if (port < PORT_FIRST_READOUT + READOUT_COUNT) {
        connect_readout(ports, port - PORT_FIRST_READOUT, (float*)data);
    }
}

static void look_where(Ports* const ports)
{
    int control = 1, readout = 1;
    while (control < CONTROL_COUNT &&
           ports->controls[control] == ports->controls[control - 1] + 1) {
        ++control;
    }
    while (readout < READOUT_COUNT &&
           ports->readouts[readout] == ports->readouts[readout - 1] + 1) {
        ++readout;
    }
    ports->has_controls_in_row = control == CONTROL_COUNT;
    ports->has_readouts_in_row = readout == READOUT_COUNT;
    ports->are_moved = false;
}

static void gather(const Ports* const ports, float values[CONTROL_COUNT])
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = *ports->controls[i];
    }
}

bool ports_take(Ports* const ports)
{
    float gathered[CONTROL_COUNT];
    if (ports->are_moved) {
        look_where(ports);
    }
    const float* const now = ports->has_controls_in_row ? ports->controls[0] : gathered;
    if (!ports->has_controls_in_row) {
        gather(ports, gathered);
    }
    /* NOLINTNEXTLINE(bugprone-suspicious-memory-comparison,cert-exp42-c,cert-flp37-c) */
    if (!memcmp(now, ports->values, sizeof ports->values)) {
        return false;
    }
    memcpy(ports->values, now, sizeof ports->values);
    return true;
}

void ports_tell(const Ports* const ports, const float values[READOUT_COUNT])
{
    if (ports->has_readouts_in_row) {
        memcpy(ports->readouts[0], values, READOUT_COUNT * sizeof *values);
        return;
    }
    for (int i = 0; i < READOUT_COUNT; ++i) {
        *ports->readouts[i] = values[i];
    }
}
