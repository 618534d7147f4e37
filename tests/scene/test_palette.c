// SPDX-License-Identifier: ISC
/* Every word and mark can be read.  Contrast is that of W3C, Web Content
   Accessibility Guidelines 2.1: relative luminance and contrast ratio; success
   criterion 1.4.3 asks 4.5 to 1 of text, 1.4.11 asks 3 to 1 of graphical objects. */
#include "../../ui/scene/palette.h"
#include "../help/check.h"

static const double text_least = 4.5;
static const double mark_least = 3.0;

static Colour hex(const unsigned rgb)
{
    return (Colour){(rgb >> 16 & 255U) / 255.0, (rgb >> 8 & 255U) / 255.0, (rgb & 255U) / 255.0};
}

/* 21 to 1 is the guidelines' own "contrasts can range from 1 to 21".  #777777 on
   white is 4.47 cut or 4.48 rounded, and #767676 the lightest grey that passes with
   4.54 (W3C, Understanding 1.4.3, and its technique G18).  The ratios of the pure
   colours follow from the coefficients 0.2126, 0.7152, 0.0722 by hand: red on white
   1.05 / 0.2626, green on black 0.7652 / 0.05, blue on white 1.05 / 0.1222. */
static void contrast_is_that_of_the_guidelines(void)
{
    static const struct {
        unsigned a, b;
        double contrast;
    } rows[] = {
        {0x000000, 0xFFFFFF, 21.0},          {0xFFFFFF, 0x000000, 21.0},
        {0x777777, 0xFFFFFF, 4.478},         {0x767676, 0xFFFFFF, 4.542},
        {0xFF0000, 0xFFFFFF, 1.05 / 0.2626}, {0x00FF00, 0x000000, 0.7652 / 0.05},
        {0x0000FF, 0xFFFFFF, 1.05 / 0.1222}, {0x123456, 0x123456, 1.0},
    };
    for (unsigned i = 0; i < sizeof rows / sizeof *rows; ++i) {
        check_case("%06X on %06X", rows[i].a, rows[i].b);
        CHECK_NEAR(palette_contrast(hex(rows[i].a), hex(rows[i].b)), rows[i].contrast, 0.001);
    }
}

static bool is_colour(const Colour colour)
{
    return colour.red >= 0.0 && colour.red <= 1.0 && colour.green >= 0.0 && colour.green <= 1.0 &&
           colour.blue >= 0.0 && colour.blue <= 1.0;
}

/* What palette.h promises, pair by pair, asked of the colours themselves. */
static void check_palette(const Palette* const palette)
{
    const Colour grounds[] = {palette->ground, palette->shade, palette->raised};
    for (int g = 0; g < 3; ++g) {
        CHECK(is_colour(grounds[g]));
        CHECK(palette_contrast(palette->ink, grounds[g]) >= text_least);
        CHECK(palette_contrast(palette->soft, grounds[g]) >= text_least);
        CHECK(palette_contrast(palette->accent, grounds[g]) >= text_least);
        CHECK(palette_contrast(palette->edge, grounds[g]) >= mark_least);
    }
    CHECK(palette_contrast(palette->ground, palette->ink) >= text_least);
    CHECK(palette_contrast(palette->on_accent, palette->accent) >= text_least);
    CHECK(is_colour(palette->ink) && is_colour(palette->soft) && is_colour(palette->accent));
    CHECK(is_colour(palette->edge) && is_colour(palette->rule) && is_colour(palette->on_accent));
    CHECK(palette_readable(palette));
}

static void the_windows_own_palettes_can_be_read(void)
{
    check_case("dark");
    check_palette(&palette_dark);
    check_case("light");
    check_palette(&palette_light);
}

/* xorshift, Marsaglia 2003: the same colours on every machine. */
static unsigned next(unsigned* const state)
{
    *state ^= *state << 13;
    *state ^= *state >> 17;
    *state ^= *state << 5;
    return *state;
}

static void any_hosts_colours_make_a_palette_that_can_be_read(void)
{
    unsigned state = 20261125;
    for (int i = 0; i < 5000; ++i) {
        const unsigned background = next(&state) & 0xFFFFFFU;
        const unsigned text = next(&state) & 0xFFFFFFU;
        check_case("%06X on %06X", text, background);
        const Palette palette = palette_around(hex(background), hex(text));
        check_palette(&palette);
    }
}

/* Greys, where black and white are equally far, and the corners of the cube. */
static void hard_host_colours_make_one_too(void)
{
    for (unsigned grey = 0; grey < 256; ++grey) {
        check_case("grey %u", grey);
        const Palette palette = palette_around(hex(grey * 0x010101U), hex(grey * 0x010101U));
        check_palette(&palette);
    }
    for (unsigned corner = 0; corner < 64; ++corner) {
        const unsigned a = corner & 7U, b = corner >> 3U;
        const Colour background = {a & 1U, a >> 1 & 1U, a >> 2 & 1U};
        const Colour text = {b & 1U, b >> 1 & 1U, b >> 2 & 1U};
        check_case("corner %u", corner);
        const Palette palette = palette_around(background, text);
        check_palette(&palette);
    }
}

static void a_hosts_own_colours_are_kept_where_they_can_be_read(void)
{
    const Palette palette = palette_around(hex(0x202020), hex(0xE0E0E0));
    CHECK_NEAR(palette.ground.red, 0x20 / 255.0, 1e-9);
    CHECK_NEAR(palette.ink.red, 0xE0 / 255.0, 1e-9);
}

static void an_unreadable_palette_is_told(void)
{
    Palette palette = palette_dark;
    palette.soft = palette.ground;
    CHECK(!palette_readable(&palette));
    palette = palette_dark;
    palette.edge = palette.shade;
    CHECK(!palette_readable(&palette));
}

int main(void)
{
    RUN(contrast_is_that_of_the_guidelines);
    RUN(the_windows_own_palettes_can_be_read);
    RUN(any_hosts_colours_make_a_palette_that_can_be_read);
    RUN(hard_host_colours_make_one_too);
    RUN(a_hosts_own_colours_are_kept_where_they_can_be_read);
    RUN(an_unreadable_palette_is_told);
    return tests_end();
}
