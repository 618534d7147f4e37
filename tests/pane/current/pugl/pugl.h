// SPDX-License-Identifier: ISC
/* What ui/pane/pane_view_current.c asks of Pugl, by name and type as Pugl 0.5.7 declares it (its own
   pugl/pugl.h), so that a machine without that one still sees the file compile.  Nothing runs. */
#pragma once

#include <stdbool.h>
#include <stdint.h>

typedef struct PuglWorldImpl PuglWorld;
typedef struct PuglViewImpl PuglView;
typedef struct PuglBackendImpl PuglBackend;
typedef union PuglEventUnion PuglEvent;
typedef uintptr_t PuglNativeView;
typedef uint16_t PuglSpan;
typedef uint32_t PuglWorldFlags;

typedef enum { PUGL_SUCCESS, PUGL_FAILURE } PuglStatus;
typedef enum { PUGL_PROGRAM, PUGL_MODULE } PuglWorldType;
typedef enum { PUGL_SHOW_PASSIVE } PuglShowCommand;
typedef enum { PUGL_DEFAULT_SIZE } PuglSizeHint;
typedef enum { PUGL_WINDOW_TITLE } PuglStringHint;
typedef enum {
    PUGL_CONTEXT_VERSION_MAJOR,
    PUGL_CONTEXT_VERSION_MINOR,
    PUGL_CONTEXT_PROFILE,
    PUGL_DOUBLE_BUFFER,
    PUGL_SWAP_INTERVAL,
    PUGL_RESIZABLE
} PuglViewHint;
typedef enum { PUGL_FALSE, PUGL_TRUE, PUGL_OPENGL_COMPATIBILITY_PROFILE } PuglViewHintValue;
typedef PuglStatus (*PuglEventFunc)(PuglView* view, const PuglEvent* event);

PuglWorld* puglNewWorld(PuglWorldType type, PuglWorldFlags flags);
void puglFreeWorld(PuglWorld* world);
void* puglGetNativeWorld(PuglWorld* world);
PuglView* puglNewView(PuglWorld* world);
void puglFreeView(PuglView* view);
PuglWorld* puglGetWorld(PuglView* view);
PuglStatus puglSetBackend(PuglView* view, const PuglBackend* backend);
PuglStatus puglSetEventFunc(PuglView* view, PuglEventFunc event_func);
PuglStatus puglSetViewHint(PuglView* view, PuglViewHint hint, int value);
PuglStatus puglSetViewString(PuglView* view, PuglStringHint key, const char* value);
PuglStatus puglSetSizeHint(PuglView* view, PuglSizeHint hint, unsigned width, unsigned height);
PuglStatus puglSetParent(PuglView* view, PuglNativeView parent);
PuglStatus puglRealize(PuglView* view);
PuglStatus puglShow(PuglView* view, PuglShowCommand command);
PuglNativeView puglGetNativeView(const PuglView* view);
const char* puglStrerror(PuglStatus status);
