// SPDX-License-Identifier: ISC
/* test_instantiate.c - what a host may get wrong before the first block: no
   activation, a sample rate that is none, no way to map URIs. */
#include "../help/check.h"
#include "raw.h"

#include <lv2/log/log.h>
#include <math.h>
#include <stdarg.h>

static Host* host;
static Raw* raw;
static Played played, wanted; /* too large for a stack */
static char logged[512];

__attribute__((format(printf, 3, 0))) static int log_vprintf(const LV2_Log_Handle handle,
                                                             const LV2_URID type,
                                                             const char* const format,
                                                             va_list arguments)
{
    (void)handle;
    (void)type;
    return vsnprintf(logged, sizeof logged, format, arguments);
}

__attribute__((format(printf, 3, 4))) static int
log_printf(const LV2_Log_Handle handle, const LV2_URID type, const char* const format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const int length = log_vprintf(handle, type, format, arguments);
    va_end(arguments);
    return length;
}

/* An instance, or NULL; what it says is in `logged`. */
static LilvInstance* instantiate(const double rate, const bool maps)
{
    LV2_Log_Log log = {NULL, log_printf, log_vprintf};
    const LV2_Feature map = {LV2_URID__map, &raw->map};
    const LV2_Feature logs = {LV2_LOG__log, &log};
    const LV2_Feature* const features[] = {&logs, maps ? &map : NULL, NULL};
    *logged = '\0';
    return lilv_plugin_instantiate(host_plugin(host), rate, features);
}

static void a_rate_that_makes_no_sense_is_refused_and_told(void)
{
    const double rates[] = {0.0,        -48000.0, 1e-300,           999.0,
                            10000001.0, 1e300,    (double)INFINITY, -(double)INFINITY,
                            (double)NAN};
    for (size_t i = 0; i < sizeof rates / sizeof *rates; ++i) {
        char rate[32];
        check_case("%g", rates[i]);
        LilvInstance* const instance = instantiate(rates[i], true);
        CHECK(instance == NULL);
        snprintf(rate, sizeof rate, "%g Hz", rates[i]);
        CHECK(strstr(logged, rate) != NULL);
        if (instance) {
            lilv_instance_free(instance);
        }
    }
}

/* 8000 of telephony to 768000, the fastest of converters sold (from memory). */
static void any_rate_in_use_will_do(void)
{
    const double rates[] = {1000.0, 8000.0, 44100.0, 48000.0, 192000.0, 768000.0, 10000000.0};
    for (size_t i = 0; i < sizeof rates / sizeof *rates; ++i) {
        check_case("%g", rates[i]);
        LilvInstance* const instance = instantiate(rates[i], true);
        CHECK(instance != NULL);
        CHECK_TEXT(logged, "");
        if (instance) {
            lilv_instance_free(instance);
        }
    }
}

static void a_host_that_maps_no_uris_is_refused_by_name(void)
{
    CHECK(instantiate(RATE, false) == NULL);
    CHECK(strstr(logged, LV2_URID__map) != NULL);
}

static void run_before_it_is_activated_it_plays_the_same(void)
{
    raw_play(raw, &wanted, BAR_FRAMES);
    lilv_instance_free(raw->instance);
    raw->instance = instantiate(RATE, true);
    raw_connect(raw);
    played.frames = 0;
    played.count = played.lost = played.wrong = 0;
    raw_forge(raw, true);
    while (played.frames < BAR_FRAMES) {
        raw_run(raw, &played, BLOCK);
        raw_forge(raw, false);
    }
    CHECK(wanted.count > 0);
    CHECK_INT(played.wrong, 0);
    CHECK(same_events(&played, &wanted));
}

int main(void)
{
    host = bundle_host(RATE);
    raw = raw_open(host);
    RUN(a_rate_that_makes_no_sense_is_refused_and_told);
    RUN(any_rate_in_use_will_do);
    RUN(a_host_that_maps_no_uris_is_refused_by_name);
    RUN(run_before_it_is_activated_it_plays_the_same);
    raw_close(raw);
    host_close(host);
    return tests_end();
}
