#!/usr/bin/env python3
# SPDX-License-Identifier: ISC
"""circles.py BUILD SOURCE... - who calls whom, from the symbols of the built objects.

An object that asks for a symbol knows the object that defines it, and so does its folder.
Prints one circle for each knot of objects or folders, and fails if there is one.
"""
import os
import subprocess
import sys


def object_of(build, source):
    return os.path.join(build, source[: -len(".c")] + ".o")


def symbols(build, sources):
    """Which source defines a name, and which names each source asks for."""
    defined, asked = {}, {source: set() for source in sources}
    by_object = {object_of(build, source): source for source in sources}
    said = subprocess.run(["nm", "-A", "-P", "-g", *by_object], check=True, capture_output=True, text=True)
    for line in said.stdout.splitlines():
        place, name, kind = line.split()[:3]
        source = by_object[place.rstrip(":")]
        if kind in "Uwv":
            asked[source].add(name)
        else:
            defined[name] = source
    return defined, asked


def objects_graph(defined, asked):
    """{one: {another: a name that it asks for}}"""
    return {
        one: {defined[name]: name for name in sorted(names) if defined.get(name, one) != one}
        for one, names in asked.items()
    }


def folders_graph(objects):
    graph = {os.path.dirname(one): {} for one in objects}
    for one, edges in objects.items():
        for other, name in edges.items():
            here, there = os.path.dirname(one), os.path.dirname(other)
            if here != there:
                graph[here][there] = f"{os.path.basename(one)}: {name}"
    return graph


def way(graph, start, end):
    """The shortest from start to end, both named; None if there is none."""
    ways, seen = [[start]], set()
    for path in ways:
        for other in graph[path[-1]]:
            if other == end:
                return path + [other]
            if other not in seen:
                seen.add(other)
                ways.append(path + [other])
    return None


def knots(graph):
    """Each a shortest circle and all those that are on a circle with it."""
    left = set(graph)
    while left:
        circles = [circle for circle in (way(graph, one, one) for one in sorted(left)) if circle]
        if not circles:
            return
        circle = min(circles, key=len)
        knot = {one for one in left if one in circle or (way(graph, circle[0], one) and way(graph, one, circle[0]))}
        yield circle, knot
        left -= knot


def main(build, *sources):
    missing = [source for source in sources if not os.path.exists(object_of(build, source))]
    if missing or not sources:
        sys.exit(f"not built: {missing or 'anything'}")
    objects = objects_graph(*symbols(build, sources))
    found = 0
    for graph in objects, folders_graph(objects):
        for circle, knot in knots(graph):
            found += 1
            print(f"a knot of {len(knot)}: {' '.join(sorted(knot))}")
            print(f"  {circle[0]}")
            for one, other in zip(circle, circle[1:]):
                print(f"    -> {other} ({graph[one][other]})")
    edges = sum(map(len, objects.values()))
    print(f"{len(objects)} objects, {edges} arrows, {found} knots")
    sys.exit(1 if found else 0)


main(*sys.argv[1:])
