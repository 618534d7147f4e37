// SPDX-License-Identifier: ISC
/* test_ports.c - a control that moves is taken over once, wherever hosts keep its value:
   side by side in one array, each in a place of its own, nowhere. */
#include "../../plugin/lv2/ports.h"
#include "../help/check.h"

#include <math.h>
#include <stdlib.h>

/* A host that keeps its values `apart` floats from each other. */
typedef struct {
    Ports ports;
    uint32_t apart;
    float* values;
} Keeping;

static float* value_of(const Keeping* const keeping, const uint32_t control)
{
    return &keeping->values[(size_t)control * keeping->apart];
}

static void open_ports(Keeping* const keeping, const uint32_t apart)
{
    keeping->apart = apart;
    keeping->values = calloc((size_t)CONTROL_COUNT * apart, sizeof(float));
    ports_init(&keeping->ports);
    for (uint32_t i = 0; i < CONTROL_COUNT; ++i) {
        *value_of(keeping, i) = control_rows[i].normal;
        ports_connect(&keeping->ports, PORT_FIRST_CONTROL + i, value_of(keeping, i));
    }
}

static void close_ports(Keeping* const keeping)
{
    free(keeping->values);
}

/* Moves each control by itself. */
static void moves_are_taken_once(const uint32_t apart)
{
    Keeping keeping;
    open_ports(&keeping, apart);
    CHECK(!ports_take(&keeping.ports));
    for (uint32_t i = 0; i < CONTROL_COUNT; ++i) {
        check_case("%s, %u apart", control_rows[i].symbol, apart);
        *value_of(&keeping, i) = control_rows[i].normal + 1.0f;
        CHECK(ports_take(&keeping.ports));
        CHECK_NEAR(keeping.ports.values[i], control_rows[i].normal + 1.0f, 0.0);
        CHECK(!ports_take(&keeping.ports));
    }
    close_ports(&keeping);
}

static void a_control_that_moves_is_taken_once_where_all_lie_side_by_side(void)
{
    moves_are_taken_once(1);
}

static void a_control_that_moves_is_taken_once_where_each_lies_by_itself(void)
{
    moves_are_taken_once(7);
}

static void a_control_that_is_connected_to_nothing_has_its_default(void)
{
    Keeping keeping;
    open_ports(&keeping, 1);
    *value_of(&keeping, CONTROL_TAKE) = 7.0f;
    CHECK(ports_take(&keeping.ports));
    ports_connect(&keeping.ports, PORT_FIRST_CONTROL + CONTROL_TAKE, NULL);
    CHECK(ports_take(&keeping.ports));
    CHECK_NEAR(keeping.ports.values[CONTROL_TAKE], control_rows[CONTROL_TAKE].normal, 0.0);
    close_ports(&keeping);
}

static void a_control_that_is_connected_elsewhere_is_read_there(void)
{
    Keeping keeping;
    float elsewhere = control_rows[CONTROL_LEVEL].normal;
    open_ports(&keeping, 1);
    ports_take(&keeping.ports);
    ports_connect(&keeping.ports, PORT_FIRST_CONTROL + CONTROL_LEVEL, &elsewhere);
    CHECK(!ports_take(&keeping.ports));
    *value_of(&keeping, CONTROL_LEVEL) = 3.0f; /* nobody's any more */
    CHECK(!ports_take(&keeping.ports));
    elsewhere = 5.0f;
    CHECK(ports_take(&keeping.ports));
    CHECK_NEAR(keeping.ports.values[CONTROL_LEVEL], 5.0f, 0.0);
    close_ports(&keeping);
}

static void not_a_number_is_taken_once_and_zero_is_not_minus_zero(void)
{
    Keeping keeping;
    open_ports(&keeping, 1);
    *value_of(&keeping, CONTROL_TEMPO) = NAN;
    CHECK(ports_take(&keeping.ports));
    CHECK(!ports_take(&keeping.ports));
    *value_of(&keeping, CONTROL_TEMPO) = 0.0f;
    CHECK(ports_take(&keeping.ports));
    *value_of(&keeping, CONTROL_TEMPO) = -0.0f;
    CHECK(ports_take(&keeping.ports));
    close_ports(&keeping);
}

static void readouts_are_told_where_they_are_connected(void)
{
    Keeping keeping;
    float told[READOUT_COUNT] = {0.0f};
    float values[READOUT_COUNT];
    open_ports(&keeping, 1);
    for (uint32_t i = 0; i < READOUT_COUNT; ++i) {
        values[i] = (float)i + 1.0f;
        ports_connect(&keeping.ports, PORT_FIRST_READOUT + i, i ? &told[i] : NULL);
    }
    ports_take(&keeping.ports);
    ports_tell(&keeping.ports, values);
    for (uint32_t i = 0; i < READOUT_COUNT; ++i) {
        CHECK_NEAR(told[i], i ? values[i] : 0.0f, 0.0);
    }
    close_ports(&keeping);
}

int main(void)
{
    RUN(a_control_that_moves_is_taken_once_where_all_lie_side_by_side);
    RUN(a_control_that_moves_is_taken_once_where_each_lies_by_itself);
    RUN(a_control_that_is_connected_to_nothing_has_its_default);
    RUN(a_control_that_is_connected_elsewhere_is_read_there);
    RUN(not_a_number_is_taken_once_and_zero_is_not_minus_zero);
    RUN(readouts_are_told_where_they_are_connected);
    return tests_end();
}
