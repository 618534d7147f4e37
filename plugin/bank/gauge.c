// SPDX-License-Identifier: ISC
#include "gauge.h"

/* Turtle 1.1, section 6.5.  Where a text goes on wrongly the parser stops reading, so
   only what a right text can hold need be told apart. */
enum State {
    OUTSIDE,
    NAME_ESCAPE, /* after \ in a prefixed name: \( is no bracket */
    COMMENT,
    IRI,
    QUOTED_ONCE, /* one quote: a text begins, or three of them */
    QUOTED_TWICE,
    SHORT,
    SHORT_ESCAPE,
    LONG,
    LONG_ESCAPE,
    LONG_ONE, /* one quote inside a long text */
    LONG_TWO
};

Gauge gauge_begin(void)
{
    return (Gauge){.depth = 0, .state = OUTSIDE};
}

static bool opens(const char sign)
{
    return sign == '(' || sign == '[';
}

static void count(Gauge* const gauge, const char sign)
{
    if (opens(sign)) {
        ++gauge->depth;
    } else if ((sign == ')' || sign == ']') && gauge->depth && !gauge->unsure) {
        --gauge->depth;
    }
}

static enum State outside(Gauge* const gauge, const char sign)
{
    switch (sign) {
    case '#':
        return COMMENT;
    case '<':
        return IRI;
    case '\\':
        return NAME_ESCAPE;
    case '"':
    case '\'':
        gauge->quote = sign;
        return QUOTED_ONCE;
    default:
        return OUTSIDE;
    }
}

static enum State inside_short(const Gauge* const gauge, const char sign)
{
    return sign == gauge->quote || sign == '\n' || sign == '\r' ? OUTSIDE
           : sign == '\\'                                       ? SHORT_ESCAPE
                                                                : SHORT;
}

static enum State inside_long(const Gauge* const gauge, const char sign)
{
    return sign == gauge->quote ? LONG_ONE : sign == '\\' ? LONG_ESCAPE : LONG;
}

/* serd before 0.32 takes the sign after a quote in a long text as it is, be it a \
   that begins an escape: then both it and the escape may be right. */
static enum State after_one(Gauge* const gauge, const char sign)
{
    gauge->unsure |= sign == '\\';
    return sign == gauge->quote ? LONG_TWO : inside_long(gauge, sign);
}

static enum State after_two(const Gauge* const gauge, const char sign)
{
    return sign == gauge->quote ? OUTSIDE : inside_long(gauge, sign);
}

static bool ends_comment(const char sign)
{
    return sign == '\n' || sign == '\r' || !sign;
}

static enum State next(Gauge* const gauge, const char sign)
{
    const bool is_quote = sign == gauge->quote;
    switch ((enum State)gauge->state) {
    case OUTSIDE:
        return outside(gauge, sign);
    case COMMENT:
        return ends_comment(sign) ? OUTSIDE : COMMENT;
    case IRI:
        return sign == '>' ? OUTSIDE : IRI;
    case QUOTED_ONCE:
        return is_quote ? QUOTED_TWICE : inside_short(gauge, sign);
    case QUOTED_TWICE:
        return is_quote ? LONG : outside(gauge, sign);
    case SHORT:
        return inside_short(gauge, sign);
    case LONG:
        return inside_long(gauge, sign);
    case LONG_ONE:
        return after_one(gauge, sign);
    case LONG_TWO:
        return after_two(gauge, sign);
    case SHORT_ESCAPE:
        return SHORT;
    case LONG_ESCAPE:
        return LONG;
    case NAME_ESCAPE:
        break;
    }
    return OUTSIDE;
}

void gauge_take(Gauge* const gauge, const char sign)
{
    const bool escaped = gauge->state == NAME_ESCAPE;
    gauge->newest = sign;
    gauge->state = (int)next(gauge, sign);
    if (gauge->unsure || (gauge->state == OUTSIDE && !escaped)) {
        count(gauge, sign);
    }
}

void gauge_next_sentence(Gauge* const gauge)
{
    gauge->unsure = false;
    gauge->depth = opens(gauge->newest);
    gauge->state = (int)outside(gauge, gauge->newest);
}
