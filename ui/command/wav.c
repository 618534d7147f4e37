// SPDX-License-Identifier: ISC
#include "wav.h"

#include "outfile.h"
#include "progress.h"
#include "synth.h"

#include <errno.h>
#include <math.h>
#include <sndfile.h>
#include <stdio.h>
#include <string.h>

/* What rings on is cut where a quarter of a second stays 72 dB below full scale,
   or after 12 seconds. */
enum { QUIET_PARTS = 4, TAIL_MOST_SECONDS = 12 };
static const double quiet = 0.00025;
static const double peak_most = 0.891; /* -1 dB: room for resampling players */

/* RIFF counts its bytes in 32 bits; some kilobytes stay for the header. */
static const double riff_bytes_most = 4294900000.0;

/* One time through the song. */
typedef struct {
    const Reel* song;
    const WavForm* form;
    Synth* synth;
    size_t next;   /* event */
    int64_t block; /* that is run next */
    double peak;   /* so far */
    int64_t still; /* frames in a row that were quiet */
} Pass;

/* What both passes share. */
typedef struct {
    const Reel* song;
    const WavForm* form;
    double gain;
    double peak;    /* of the first pass, before the gain */
    int64_t blocks; /* in the whole file */
    Progress progress;
    char* why;
} Rendering;

static int64_t block_of(const Pass* const pass, const ReelEvent* const event)
{
    return (int64_t)floor(event->seconds * pass->form->rate / SYNTH_BLOCK + 0.5);
}

static void listen(Pass* const pass, const float samples[2 * SYNTH_BLOCK])
{
    double most = 0.0;
    for (int i = 0; i < 2 * SYNTH_BLOCK; ++i) {
        most = fmax(most, fabs((double)samples[i]));
    }
    pass->peak = fmax(pass->peak, most);
    pass->still = most < quiet ? pass->still + SYNTH_BLOCK : 0;
}

static void run_block(Pass* const pass, float samples[2 * SYNTH_BLOCK])
{
    const Reel* const song = pass->song;
    while (pass->next < song->event_count &&
           block_of(pass, &song->events[pass->next]) <= pass->block) {
        synth_send(pass->synth, song->events[pass->next++].bytes);
    }
    synth_run(pass->synth, samples);
    ++pass->block;
    listen(pass, samples);
}

/* Blocks up to the song's written end. */
static int64_t song_blocks(const Rendering* const rendering)
{
    return (int64_t)ceil(rendering->song->seconds * rendering->form->rate / SYNTH_BLOCK);
}

static bool rings_on(const Pass* const pass, const int64_t end)
{
    const int64_t tail = (pass->block - end) * SYNTH_BLOCK;
    return pass->next < pass->song->event_count ||
           (pass->still < pass->form->rate / QUIET_PARTS &&
            tail < (int64_t)TAIL_MOST_SECONDS * pass->form->rate);
}

static bool open_pass(const Rendering* const rendering, Pass* const pass)
{
    *pass = (Pass){.song = rendering->song, .form = rendering->form};
    pass->synth = synth_open(rendering->form->soundfont, rendering->form->rate, rendering->why);
    return pass->synth;
}

/* The first pass: how loud it gets and how long it rings. */
static bool measure(Rendering* const rendering)
{
    float samples[2 * SYNTH_BLOCK];
    Pass pass;
    if (!open_pass(rendering, &pass)) {
        return false;
    }
    const int64_t end = song_blocks(rendering);
    while (pass.block < end || rings_on(&pass, end)) {
        run_block(&pass, samples);
        progress_at(&rendering->progress, 0.5 * fmin(1.0, (double)pass.block / (double)end));
    }
    synth_close(pass.synth);
    rendering->peak = pass.peak;
    rendering->blocks = pass.block;
    rendering->gain = pass.peak > peak_most ? peak_most / pass.peak : 1.0;
    return true;
}

static bool write_blocks(Rendering* const rendering, Pass* const pass, SNDFILE* const file)
{
    float samples[2 * SYNTH_BLOCK];
    while (pass->block < rendering->blocks) {
        if (outfile_is_interrupted()) {
            errno = EINTR;
            return false;
        }
        run_block(pass, samples);
        for (int i = 0; i < 2 * SYNTH_BLOCK; ++i) {
            samples[i] = (float)((double)samples[i] * rendering->gain);
        }
        errno = 0;
        if (sf_writef_float(file, samples, SYNTH_BLOCK) != SYNTH_BLOCK) {
            errno = errno ? errno : EIO;
            return false;
        }
        progress_at(&rendering->progress,
                    0.5 + 0.5 * (double)pass->block / (double)rendering->blocks);
    }
    return true;
}

/* The second pass, a SaveWriter. */
static bool write_sound(const int descriptor, void* const context)
{
    Rendering* const rendering = (Rendering*)context;
    SF_INFO info = {.samplerate = rendering->form->rate, .channels = 2};
    info.format =
        SF_FORMAT_WAV | (rendering->form->bits == 24 ? SF_FORMAT_PCM_24 : SF_FORMAT_PCM_16);
    Pass pass;
    if (!open_pass(rendering, &pass)) {
        errno = ENOMEM; /* it could be opened a moment ago */
        return false;
    }
    errno = 0;
    SNDFILE* const file = sf_open_fd(descriptor, SFM_WRITE, &info, SF_FALSE);
    bool good = file && write_blocks(rendering, &pass, file);
    int error = errno;
    if (file && sf_close(file) && good) { /* its header is written anew here */
        good = false;
        error = errno;
    }
    if (good && pass.peak > rendering->peak * 1.0001) {
        good = false; /* another soundfont by now: what was measured isn't so */
        error = ESTALE;
    }
    synth_close(pass.synth);
    errno = error ? error : EIO;
    return good;
}

static bool fits_a_wav(const Rendering* const rendering)
{
    const double frames = (rendering->song->seconds + TAIL_MOST_SECONDS) * rendering->form->rate;
    const double bytes = frames * 2.0 * rendering->form->bits / 8.0;
    if (bytes <= riff_bytes_most) {
        return true;
    }
    snprintf(rendering->why, WAV_WHY_ROOM,
             "the song is %.0f minutes long; a WAV file of this kind holds %.0f: render fewer bars",
             rendering->song->seconds / 60.0,
             riff_bytes_most / (2.0 * rendering->form->bits / 8.0 * rendering->form->rate) / 60.0);
    return false;
}

bool wav_save(const Reel* const song, const char* const path, const bool replace,
              const WavForm* const form, WavReport* const report, char why[WAV_WHY_ROOM])
{
    char what[WAV_WHY_ROOM];
    snprintf(what, sizeof what, "rendering %s", path);
    Rendering rendering = {
        .song = song, .form = form, .progress = progress_begin(what), .why = why};
    if (outfile_refuses(path, replace, why) || !fits_a_wav(&rendering)) {
        return false;
    }
    const bool good =
        measure(&rendering) && outfile_save_by(path, write_sound, &rendering, replace, why);
    progress_end(&rendering.progress);
    *report =
        (WavReport){.seconds = (double)(rendering.blocks * SYNTH_BLOCK) / form->rate,
                    .peak = rendering.peak > 0.0 ? 20.0 * log10(rendering.peak * rendering.gain)
                                                 : (double)-INFINITY,
                    .lowered = -20.0 * log10(rendering.gain)};
    return good;
}
