// SPDX-License-Identifier: ISC
/* take.c - take SERVER BARS: rolls a JACK server's transport from bar 0 at 150 in 4/4, as
   fast as the machine can, and prints every MIDI message that a port called midi_out sent
   in so many bars: frame, bytes. */
#include "jack_driver.h"

#include <stdio.h>
#include <stdlib.h>

static bool always(void)
{
    return true;
}

static int print(const JackDriver* const driver, const size_t stretch, const int64_t end)
{
    const Heard* heard;
    const size_t count = jack_driver_heard(driver, &heard);
    int printed = 0;
    for (size_t i = 0; i < count; ++i) {
        if (heard[i].stretch == stretch && heard[i].frame < end) {
            printf("%lld %zu %02x %02x %02x\n", (long long)heard[i].frame, heard[i].size,
                   heard[i].bytes[0], heard[i].bytes[1], heard[i].bytes[2]);
            ++printed;
        }
    }
    return printed;
}

int main(const int count, char** const arguments)
{
    static const Tempo tempo = {150.0, 4.0, 4};
    const int bars = count == 3 ? atoi(arguments[2]) : 0;
    JackDriver* const driver = bars > 0 ? jack_driver_open(arguments[1], always) : NULL;
    const Rolled* rolled;
    if (!driver || !jack_driver_listen(driver, "midi_out", always)) {
        fprintf(stderr, "usage: take SERVER BARS, where a plugin has a port midi_out\n");
        return 1;
    }
    const int64_t end = (int64_t)(bars * 4 * 60.0 / 150.0 * jack_driver_rate(driver));
    const Move stop = {end, MOVE_STOP, 0};
    const size_t stretch = jack_driver_rolled(driver, &rolled);
    const bool played = jack_driver_set(driver, &tempo, 0) && jack_driver_hurry(driver, true) &&
                        jack_driver_play(driver, &stop, 1) && jack_driver_hurry(driver, false);
    const int printed = played ? print(driver, stretch, end) : 0;
    jack_driver_close(driver);
    if (!printed) {
        fprintf(stderr, played ? "the plugin played nothing\n" : "the transport didn't play\n");
    }
    return printed ? 0 : 1;
}
