#!/usr/bin/env python3
# SPDX-License-Identifier: ISC
"""names.py types SOURCE... - names of types that are defined in two places.
names.py functions BUILD AGREED SOURCE... - public functions whose name doesn't begin with their
file's: its stem, the stem's first words, its singular or plural, the folder's name, or what
AGREED has for the file ("file: prefix prefix", a line each).

Prints them, and fails if there are any.
"""
import os
import re
import subprocess
import sys

TYPE = re.compile(r"^(?:\} (\w+);|typedef [^;(\n]*\} (\w+);|typedef [^{;]*?\(\*(\w+)\)\([^;]*;|typedef [^{;()]*?(\w+);)", re.M)


def types(*sources):
    places, found = {}, 0
    for source in sources:
        with open(source, encoding="utf-8") as file:
            for match in TYPE.finditer(file.read()):
                name = next(filter(None, match.groups()))
                if f"struct {name} {name};" in match.group(): # a name alone, for a pointer
                    continue
                places.setdefault(name, []).append(source)
    for name, where in sorted(places.items()):
        if len(where) > 1:
            found += 1
            print(f"{name}: {' '.join(where)}")
    print(f"{len(places)} types, {found} of them defined more than once")
    return found


def prefixes(source, agreed):
    folder, name = os.path.split(source)
    stem = name.removesuffix(".c")
    words = stem.split("_")
    yield from ("_".join(words[:count]) for count in range(1, len(words) + 1))
    yield stem[:-3] + "y" if stem.endswith("ies") else stem.removesuffix("s")
    yield stem + "s"
    yield os.path.basename(folder)
    yield from agreed.get(source, [])
    yield from agreed.get(folder, [])


def functions_of(build, source):
    said = subprocess.run(["nm", "-P", "-g", "--defined-only", os.path.join(build, source[:-2] + ".o")],
                          check=True, capture_output=True, text=True)
    return [line.split()[0] for line in said.stdout.splitlines() if line.split()[1] in "TWi"]


def functions(build, agreed, *sources):
    lines = (line.split(":") for line in agreed.splitlines() if ":" in line)
    agreed = {place.strip(): words.split() for place, words in lines}
    count = found = 0
    for source in sources:
        begins = tuple(prefixes(source, agreed))
        for name in functions_of(build, source):
            count += 1
            if not any(name == begin or name.startswith(begin + "_") for begin in begins):
                found += 1
                print(f"{source}: {name}")
    print(f"{count} public functions, {found} of them named otherwise than their file")
    return found


sys.exit(1 if {"types": types, "functions": functions}[sys.argv[1]](*sys.argv[2:]) else 0)
