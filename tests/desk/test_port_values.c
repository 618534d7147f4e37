// SPDX-License-Identifier: ISC
/* What a host says of ports is shown as the plugin has it, or not at all. */
#include "../../plugin/engine/groove/settings.h"
#include "../help/check.h"
#include "fresh_desk.h"

#include <math.h>

/* The engine's own reading of the ports, for some that it counts by and a switch. */
static void a_control_is_shown_as_the_plugin_takes_it(void)
{
    static const float odd[] = {-7.0f, 0.3f, 0.5f, 1.5f, 2.5f, 2.7f, 3.5f, 1e9f, NAN};
    fresh();
    for (int i = 0; i < 9; ++i) {
        float values[CONTROL_COUNT];
        for (int control = 0; control < CONTROL_COUNT; ++control) {
            values[control] = odd[i];
            own_say(own, (Control)control, odd[i]);
        }
        const Settings settings = settings_from_controls(values);
        check_case("%g", (double)odd[i]);
        CHECK_NEAR(own_value(own, CONTROL_PHRASE_BARS), settings.phrase_bars, 0.0);
        CHECK_NEAR(own_value(own, CONTROL_FEET_CYCLE), settings.feet_regrid.cycle, 0.0);
        CHECK_NEAR(own_value(own, CONTROL_CHANNEL), settings.channel + 1, 0.0);
        CHECK_NEAR(own_value(own, CONTROL_ENABLED), settings.enabled, 0.0);
        CHECK_NEAR(own_value(own, CONTROL_TEMPO), settings.ladder.tempo, 0.0);
    }
}

/* Neither the nearest value in range, which nobody told. */
static void a_readout_out_of_its_range_says_nothing(void)
{
    static const float odd[] = {-1.0f, 32926.0f * 4.0f, NAN, INFINITY, -INFINITY};
    fresh();
    for (int i = 0; i < READOUT_COUNT; ++i) {
        const uint32_t port = (uint32_t)(PORT_FIRST_READOUT + i);
        for (int o = 0; o < 5; ++o) {
            own_port(own, port, readout_rows[i].most);
            CHECK_NEAR(own->model.view.readouts[i], readout_rows[i].most, 0.0);
            own_port(own, port, odd[o]);
            check_case("%s at %g", readout_rows[i].symbol, (double)odd[o]);
            CHECK_NEAR(own->model.view.readouts[i], 0.0, 0.0);
        }
    }
}

int main(void)
{
    RUN(a_control_is_shown_as_the_plugin_takes_it);
    RUN(a_readout_out_of_its_range_says_nothing);
    own_desk_close(own);
    return tests_end();
}
