// SPDX-License-Identifier: ISC
/* empty.c - a plugin that does nothing: the floor that others stand on. */
#include <lv2/core/lv2.h>
#include <stddef.h>

static LV2_Handle instantiate(const LV2_Descriptor* const descriptor, const double rate,
                              const char* const bundle, const LV2_Feature* const* const features)
{
    static char instance;
    (void)descriptor;
    (void)rate;
    (void)bundle;
    (void)features;
    return &instance;
}

static void connect_port(const LV2_Handle instance, const uint32_t port, void* const data)
{
    (void)instance;
    (void)port;
    (void)data;
}

static void run(const LV2_Handle instance, const uint32_t frames)
{
    (void)instance;
    (void)frames;
}

static void cleanup(const LV2_Handle instance)
{
    (void)instance;
}

static const LV2_Descriptor nothing = {
    "urn:fourlimb:empty", instantiate, connect_port, NULL, run, NULL, cleanup, NULL};

LV2_SYMBOL_EXPORT const LV2_Descriptor* lv2_descriptor(const uint32_t index)
{
    return index ? NULL : &nothing;
}
