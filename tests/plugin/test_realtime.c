// SPDX-License-Identifier: ISC
/* run() makes no call that LV2 forbids to hard-real-time plugins
   (lv2:hardRTCapable: no heap, no files, nothing that may block).  This program
   stands in for those calls and counts the ones made while a block runs. */
#define _GNU_SOURCE
#undef _FORTIFY_SOURCE /* its headers define what this stands in for */
#include "keeper.h"

#include <dlfcn.h>
#include <stdarg.h>

/* Volatile: compilers know that malloc changes no variable of ours. */
static _Thread_local volatile bool running;
static _Thread_local volatile int forbidden_calls;

#define STAND_IN __attribute__((visibility("default")))

#if defined(__SANITIZE_ADDRESS__)
#define SANITIZED 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define SANITIZED 1
#endif
#endif

#ifndef SANITIZED
extern void* __libc_malloc(size_t size);
extern void* __libc_calloc(size_t count, size_t size);
extern void* __libc_realloc(void* old, size_t size);
extern void __libc_free(void* old);

STAND_IN void* malloc(const size_t size)
{
    forbidden_calls = forbidden_calls + running;
    return __libc_malloc(size);
}

STAND_IN void* calloc(const size_t count, const size_t size)
{
    forbidden_calls = forbidden_calls + running;
    return __libc_calloc(count, size);
}

STAND_IN void* realloc(void* const old, const size_t size)
{
    forbidden_calls = forbidden_calls + running;
    return __libc_realloc(old, size);
}

STAND_IN void free(void* const old)
{
    forbidden_calls = forbidden_calls + running;
    __libc_free(old);
}

STAND_IN int pthread_mutex_lock(pthread_mutex_t* const mutex)
{
    static int (*next)(pthread_mutex_t*);
    if (!next) {
        *(void**)&next = dlsym(RTLD_NEXT, "pthread_mutex_lock");
    }
    forbidden_calls = forbidden_calls + running;
    return next(mutex);
}

STAND_IN FILE* fopen(const char* const path, const char* const mode)
{
    static FILE* (*next)(const char*, const char*);
    if (!next) {
        *(void**)&next = dlsym(RTLD_NEXT, "fopen");
    }
    forbidden_calls = forbidden_calls + running;
    return next(path, mode);
}

STAND_IN int vfprintf(FILE* const stream, const char* const format, va_list arguments)
{
    static int (*next)(FILE*, const char*, va_list);
    if (!next) {
        *(void**)&next = dlsym(RTLD_NEXT, "vfprintf");
    }
    forbidden_calls = forbidden_calls + running;
    return next(stream, format, arguments);
}

STAND_IN int nanosleep(const struct timespec* const wanted, struct timespec* const left)
{
    static int (*next)(const struct timespec*, struct timespec*);
    if (!next) {
        *(void**)&next = dlsym(RTLD_NEXT, "nanosleep");
    }
    forbidden_calls = forbidden_calls + running;
    return next(wanted, left);
}
#endif

#ifndef SANITIZED
static Host* open_built(void)
{
    char why[HOST_WHY_ROOM];
    Host* const host = host_open(FOURLIMB_BUILD "/lv2/fourlimb.lv2", 48000.0, why);
    if (!host) {
        printf("# %s\n", why);
    }
    return host;
}

/* Starts, stops, jumps, tempi, every groove, bypass and tight rooms. */
static void run_blocks(Host* const host, const int blocks)
{
    char why[HOST_WHY_ROOM];
    for (int block = 0; block < blocks; ++block) {
        if (block % 97 == 0) {
            host_send_position(host, (HostPosition){.frame = (block % 31) * 100000L,
                                                    .speed = block % 5 ? 1.0f : 0.0f,
                                                    .tempo = 60.0f + (float)(block % 200)});
        }
        host_set(host, "groove", 1.0f + (float)(block / 50 % 100), why);
        host_set(host, "enabled", block % 61 ? 1.0f : 0.0f, why);
        host_set_room(host, block % 13 ? 8192 : 64);
        running = true;
        host_run(host, 256);
        running = false;
    }
}

#endif

static void a_block_makes_no_forbidden_call(void)
{
#ifdef SANITIZED
    test_skip("the sanitizer has stand-ins of its own");
#else
    Host* const host = open_built();
    if (CHECK(host)) {
        forbidden_calls = 0;
        run_blocks(host, 20000);
        CHECK_INT(forbidden_calls, 0);
    }
    host_close(host);
#endif
}

/* Taking drafts and saving, swapping what plays, telling of it. */
static void a_block_that_takes_drafts_makes_no_forbidden_call(void)
{
#ifdef SANITIZED
    test_skip("the sanitizer has stand-ins of its own");
#else
    Keeper* const keeper = keeper_open(WORKER_BY_HAND);
    keeper_transport(keeper, 1.0f);
    keeper_run(keeper, 256);
    forbidden_calls = 0;
    int told = 0, worked = 0;
    for (int block = 0; block < 600; ++block) {
        if (block % 3 == 0) {
            keeper_set(keeper, block % 5 ? FL "feetDraft" : FL "saveFigure",
                       block % 2 ? "" : feet_text(1, "", "O..o .oo. O..o .oo."));
        }
        keeper_look(keeper);
        running = true;
        keeper_run(keeper, 256);
        running = false;
        told +=
            keeper_told_text(keeper, FL "feetDraft") && *keeper_told_text(keeper, FL "feetDraft");
        if (block % 7 == 0 && atomic_exchange(&keeper->jobs, 0)) {
            keeper_work(keeper);
            ++worked;
        }
    }
    CHECK_INT(forbidden_calls, 0);
    CHECK(told > 100);
    CHECK(worked > 50);
    keeper_close(keeper);
#endif
}

/* Instantiation may call them, and the plugin's does: it reads the bank. */
static void calls_from_inside_the_plugin_are_counted(void)
{
#ifdef SANITIZED
    test_skip("the sanitizer has stand-ins of its own");
#else
    forbidden_calls = 0;
    running = true;
    Host* const host = open_built();
    running = false;
    CHECK(forbidden_calls > 1000);
    host_close(host);
#endif
}

int main(void)
{
    RUN(a_block_makes_no_forbidden_call);
    RUN(a_block_that_takes_drafts_makes_no_forbidden_call);
    RUN(calls_from_inside_the_plugin_are_counted);
    return tests_end();
}
