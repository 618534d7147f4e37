// SPDX-License-Identifier: ISC
/* One take at every sample rate and block size: the same keys and velocities in the same order,
   each at the frame where its place in the song falls, to the nearest one. */
#include "../../ui/command/host.h"
#include "../help/check.h"

#include <lv2/atom/util.h>
#include <math.h>
#include <stdlib.h>

enum { BARS = 32, NOTES_MOST = 4096 };
static const double tempo = 113.0;

typedef struct {
    int count;
    int key[NOTES_MOST];
    int velocity[NOTES_MOST];
    double quarter[NOTES_MOST]; /* where it is in the song */
} Notes;

static void gather(const Host* const host, const int64_t start, const double rate,
                   Notes* const notes)
{
    LV2_ATOM_SEQUENCE_FOREACH (host_midi(host), event) {
        const uint8_t* const bytes = (const uint8_t*)event + sizeof(LV2_Atom_Event);
        if (bytes[0] >> 4 == 9 && bytes[2] && notes->count < NOTES_MOST) {
            const double frame = (double)(start + event->time.frames);
            notes->key[notes->count] = bytes[1];
            notes->velocity[notes->count] = bytes[2];
            notes->quarter[notes->count++] = frame / rate * tempo / 60.0;
        }
    }
}

static void play(const double rate, const uint32_t block, Notes* const notes)
{
    char why[HOST_WHY_ROOM];
    Host* const host = host_open(FOURLIMB_BUILD "/lv2/fourlimb.lv2", rate, why);
    if (!host) {
        printf("# %s\n", why);
        exit(2);
    }
    const int64_t end = (int64_t)(BARS * 4 * 60.0 / tempo * rate);
    notes->count = 0;
    host_set(host, "take", 7.0f, why);
    host_set(host, "click", 0.0f, why);
    host_send_position(
        host, (HostPosition){
                  .speed = 1.0f, .tempo = (float)tempo, .beats_per_bar = 4.0f, .beat_unit = 4});
    for (int64_t at = 0; at < end; at += block) {
        host_run(host, end - at < block ? (uint32_t)(end - at) : block);
        gather(host, at, rate, notes);
    }
    host_close(host);
}

static Notes first, other;

/* Frames are a half off at most in each of the two. */
static void check_same(const double rate, const double other_rate)
{
    const double apart = (0.5 / rate + 0.5 / other_rate + 1e-9) * tempo / 60.0;
    int differ = 0;
    CHECK_INT(other.count, first.count);
    for (int i = 0; i < first.count && i < other.count; ++i) {
        differ += first.key[i] != other.key[i] || first.velocity[i] != other.velocity[i] ||
                  fabs(first.quarter[i] - other.quarter[i]) > apart;
    }
    CHECK_INT(differ, 0);
}

static void a_take_is_the_same_at_every_rate_and_block_size(void)
{
    static const double rates[] = {44100.0, 48000.0, 88200.0, 96000.0, 192000.0};
    static const uint32_t blocks[] = {64, 333, 1024, 8192};
    play(48000.0, 256, &first);
    CHECK(first.count > 8 * BARS);
    for (size_t r = 0; r < sizeof rates / sizeof *rates; ++r) {
        for (size_t b = 0; b < sizeof blocks / sizeof *blocks; ++b) {
            play(rates[r], blocks[b], &other);
            check_case("%g Hz in blocks of %u", rates[r], (unsigned)blocks[b]);
            check_same(48000.0, rates[r]);
        }
    }
}

int main(void)
{
    setenv("XDG_DATA_HOME", FOURLIMB_BUILD "/nobody", 1);
    RUN(a_take_is_the_same_at_every_rate_and_block_size);
    return tests_end();
}
