// SPDX-License-Identifier: ISC
/* interrupt.c - for LD_PRELOAD: the moment before a file is on the disk, or as it is first
   written to, the program gets the signal whose number INTERRUPT or INTERRUPT_EARLY has.
   So a kill in the middle of writing needs no luck. */
#include <signal.h>
#include <stdlib.h>
#include <sys/syscall.h>
#include <unistd.h>

__attribute__((visibility("default"))) int fsync(const int file)
{
    const char* const number = getenv("INTERRUPT");
    if (number) {
        raise(atoi(number));
    }
    return (int)syscall(SYS_fsync, file);
}

__attribute__((visibility("default"))) ssize_t write(const int file, const void* const bytes,
                                                     const size_t size)
{
    const char* const number = getenv("INTERRUPT_EARLY");
    if (number && file > STDERR_FILENO) {
        raise(atoi(number));
    }
    return syscall(SYS_write, file, bytes, size);
}
