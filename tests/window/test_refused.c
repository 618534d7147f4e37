// SPDX-License-Identifier: ISC
/* A picture that can't be shown: refused by OpenGL, which the test stands in for. */
#include "rig.h"

#include "../help/check.h"
#include "../live/child.h"
#include "../pane/xvfb.h"

#include <GL/gl.h>
#include <dlfcn.h>
#include <string.h>

static bool refuses;

/* The window finds this one first (-rdynamic): while `refuses`, a size is asked for
   that OpenGL answers with GL_INVALID_VALUE (OpenGL 2.1, 3.8.1; from memory). */
__attribute__((visibility("default"))) void glTexImage2D(const GLenum target, const GLint level,
                                                         const GLint internal, const GLsizei width,
                                                         const GLsizei height, const GLint border,
                                                         const GLenum format, const GLenum type,
                                                         const GLvoid* const pixels)
{
    void (*real)(GLenum, GLint, GLint, GLsizei, GLsizei, GLint, GLenum, GLenum, const GLvoid*);
    void* const library = dlopen("libGL.so.1", RTLD_NOW);
    void* const symbol = dlsym(library, "glTexImage2D");
    memcpy(&real, &symbol, sizeof real);
    real(target, level, internal, refuses ? -1 : width, height, border, format, type, pixels);
    dlclose(library);
}

static bool is_same(Rig* const rig)
{
    cairo_surface_t* const got = rig_picture(rig);
    cairo_surface_t* const want = rig_wanted(rig);
    const bool same = got && rig_difference(got, want, 0) == 0;
    cairo_surface_destroy(want);
    cairo_surface_destroy(got);
    return same;
}

static int count_of(const char* text, const char* const word)
{
    int count = 0;
    while ((text = strstr(text, word))) {
        ++count;
        text += strlen(word);
    }
    return count;
}

static bool has_complained(Rig* const rig)
{
    return count_of(rig->said, "can't be shown") > 0;
}

static bool later(void)
{
    Rig rig;
    const RigOffer usual = {.features = RIG_ALL};
    refuses = true;
    bool held = rig_open(&rig, &usual) && CHECK(rig_waits(&rig, has_complained)) &&
                CHECK(rig_rest(&rig, 0.1)) && CHECK(!is_same(&rig)) &&
                CHECK_INT(count_of(rig.said, "can't be shown"), 1);
    refuses = false;
    held = held && CHECK(rig_waits(&rig, is_same)) &&
           CHECK_INT(count_of(rig.said, "can't be shown"), 1);
    rig_close(&rig);
    return held;
}

static void a_refused_picture_is_told_once_and_shown_as_soon_as_it_can_be(void)
{
    CHECK_INT(apart(later), 1);
}

static bool orphaned(void)
{
    Rig rig;
    const RigOffer usual = {.features = RIG_ALL};
    bool held = rig_open(&rig, &usual) && CHECK(rig_rest(&rig, 0.05));
    if (held) {
        XDestroyWindow(rig.display, rig.parent);
        XSync(rig.display, False);
        rig_tell(&rig, PORT_FIRST_CONTROL + CONTROL_GROOVE, 9.0f);
        held = CHECK(rig_ends(&rig)) && CHECK_TEXT(rig.said, "");
    }
    rig_close(&rig);
    return held;
}

static void a_window_that_is_gone_complains_of_no_picture(void)
{
    CHECK_INT(apart(orphaned), 1);
}

int main(void)
{
    child_guard(NULL);
    if (xvfb_open()) {
        RUN(a_refused_picture_is_told_once_and_shown_as_soon_as_it_can_be);
        RUN(a_window_that_is_gone_complains_of_no_picture);
        xvfb_end();
    }
    return tests_end();
}
