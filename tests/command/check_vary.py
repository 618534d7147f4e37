#!/usr/bin/python3
# SPDX-License-Identifier: ISC
"""check_vary.py VARIED SHOWN NUMBER - is the first bar of a row of `fourlimb vary` what `fourlimb
show` has in its first bar?  Both are read as fractions of beats, each by its own letters."""

import re
import sys
from fractions import Fraction


def places(beats, letters):
    """Where letters stand: beats and parts of them, as many as a beat has signs."""
    return {
        Fraction(i, len(beat)) + number
        for number, beat in enumerate(beats)
        for i, sign in enumerate(beat)
        if sign in letters
    }


def varied(text, number):
    row = re.search(rf"^ *{number}  .*\n +\|([^|]*)\|", text, re.M)
    beats = row.group(1).split(" ")
    return places(beats, "rR(bB"), places(beats, "lL)bB")


def shown(text):
    bar = re.search(r"^bar 1\b.*\n((?: .*\n)*)", text, re.M).group(1)
    feet = dict(re.findall(r"^ +(right|left) foot, kick +(\S.*)$", bar, re.M))
    return tuple(places(feet.get(side, "").split(" "), "goOfd") for side in ("right", "left"))


def main(varied_path, shown_path, number):
    want = varied(open(varied_path, encoding="utf-8").read(), number)
    got = shown(open(shown_path, encoding="utf-8").read())
    if want != got or not any(want):
        print(f"{number}: plays {got}, told as {want}")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
