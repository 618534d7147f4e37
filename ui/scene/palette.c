// SPDX-License-Identifier: ISC
#include "palette.h"

#include <math.h>

#define HEX(rgb)                                                                                   \
    {                                                                                              \
        ((rgb) >> 16 & 255) / 255.0, ((rgb) >> 8 & 255) / 255.0, ((rgb)&255) / 255.0               \
    }

const Palette palette_dark = {
    .ground = HEX(0x14181A),
    .shade = HEX(0x1D2426),
    .raised = HEX(0x232B2D),
    .rule = HEX(0x3A4548),
    .edge = HEX(0x7D898B),
    .soft = HEX(0xA9B3B4),
    .ink = HEX(0xF0F3F1),
    .accent = HEX(0x4FD0B2),
    .on_accent = HEX(0x06211B),
};

const Palette palette_light = {
    .ground = HEX(0xF6F7F5),
    .shade = HEX(0xE9ECEA),
    .raised = HEX(0xFFFFFF),
    .rule = HEX(0xC2C9C6),
    .edge = HEX(0x6F7976),
    .soft = HEX(0x4D5754),
    .ink = HEX(0x111514),
    .accent = HEX(0x00705D),
    .on_accent = HEX(0xFFFFFF),
};

static double linear(const double channel)
{
    return channel <= 0.03928 ? channel / 12.92 : pow((channel + 0.055) / 1.055, 2.4);
}

static double luminance(const Colour colour)
{
    return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) +
           0.0722 * linear(colour.blue);
}

double palette_contrast(const Colour a, const Colour b)
{
    const double first = luminance(a) + 0.05;
    const double second = luminance(b) + 0.05;
    return first > second ? first / second : second / first;
}

static Colour mix(const Colour from, const Colour to, const double share)
{
    return (Colour){from.red + (to.red - from.red) * share,
                    from.green + (to.green - from.green) * share,
                    from.blue + (to.blue - from.blue) * share};
}

/* Between two colours, as little toward the second as keeps the contrast with what
   it stands on. */
static Colour between(const Colour from, const Colour to, const double share, const Colour ground,
                      const double contrast)
{
    double at = share;
    while (at < 1.0 && palette_contrast(mix(from, to, at), ground) < contrast) {
        at += 0.02;
    }
    return mix(from, to, at < 1.0 ? at : 1.0);
}

Palette palette_around(const Colour background, const Colour text)
{
    static const Colour black = GREY(0.0);
    static const Colour white = GREY(1.0);
    const bool is_dark = palette_contrast(background, white) > palette_contrast(background, black);
    const Colour end = is_dark ? white : black;
    Palette palette = {.ground = background, .ink = text};
    /* On a middling ground, away from the text: nearer to it nothing could be read. */
    const bool is_far = palette_contrast(end, mix(background, end, 0.08)) >= 7.0;
    const Colour other = is_dark ? black : white;
    palette.shade = mix(background, is_far ? end : other, 0.05);
    palette.raised = mix(background, is_far ? end : other, 0.08);
    const Colour hardest = is_far ? palette.raised : background; /* nearest to the text */
    if (palette_contrast(text, hardest) < 7.0) {
        palette.ink = end;
    }
    palette.rule = mix(background, palette.ink, 0.2);
    palette.edge = between(background, palette.ink, 0.45, hardest, 3.0);
    palette.soft = between(background, palette.ink, 0.6, hardest, 4.5);
    const Palette* const like = is_dark ? &palette_dark : &palette_light;
    palette.accent = between(like->accent, end, 0.0, hardest, 4.5);
    palette.on_accent = is_dark ? black : white;
    return palette;
}

bool palette_readable(const Palette* const palette)
{
    const Colour grounds[] = {palette->ground, palette->shade, palette->raised};
    const Colour texts[] = {palette->soft, palette->ink, palette->accent};
    bool good = palette_contrast(palette->ground, palette->ink) >= 4.5 &&
                palette_contrast(palette->on_accent, palette->accent) >= 4.5;
    for (int g = 0; g < 3; ++g) {
        for (int t = 0; t < 3; ++t) {
            good = good && palette_contrast(texts[t], grounds[g]) >= 4.5;
        }
        good = good && palette_contrast(palette->edge, grounds[g]) >= 3.0;
    }
    return good;
}
