#!/usr/bin/python3
"""Volumes, balance, planes, ponds and flatness against other ways of working them out, on random and degenerate surfaces.

    compare.py EARTHWORK_BORDER FALLWRIGHT [--count 200] [--seed 1]

Volumes: exact integrals in rational numbers over SciPy's Delaunay triangles where these are unique (spots in general position), over the
core's own triangles elsewhere (grids, rows, spots on a circle, twice the same), whose areas must add up to SciPy's convex hull. The
integral of max(height, 0) over a triangle is twice its area times the second divided difference of max(x, 0)^3 / 6 at the heights of
its corners (Hermite, Genocchi). Goal: 1e-10 of the area times the range of heights.
Books: the same surfaces as books of given levels with sds, through the command line: sds of volumes by exact derivatives, the best plane by
numpy, ponds by joining corners in order of level (Kruskal), flatness by looking at all threes. Goal: the printing.
Ends with "N passed, N failed" and a non-zero exit on a failure.
"""

import argparse
import itertools
import json
import subprocess
import sys
import tempfile
from fractions import Fraction as Q
from pathlib import Path

import numpy as np
from scipy.spatial import ConvexHull, Delaunay

ROOM = 1e-10
FIGURES = 2e-5  # of six significant figures, sums of printed ones included


class Count:
    passed = failed = 0

    def expect(self, holds, what):
        if holds:
            self.passed += 1
        else:
            self.failed += 1
            print("does not hold:", what)

    def near(self, got, wanted, room, what):
        self.expect(abs(got - float(wanted)) <= room, f"{what}: got {got}, wanted {float(wanted)}, room {room:.3g}")


def above(heights):
    """Twice the second divided difference of max(x, 0)^3 / 6: the integral of max(height, 0) over a triangle of area 1."""
    f = lambda x: max(x, 0) ** 3 / Q(6)
    slope = lambda x: max(x, 0) ** 2 / Q(2)
    first = lambda a, b: slope(a) if a == b else (f(b) - f(a)) / (b - a)
    x = sorted(heights)
    if x[0] == x[2]:
        return max(x[0], Q(0))
    return 2 * (first(x[1], x[2]) - first(x[0], x[1])) / (x[2] - x[0])


def twice(a, b, c):
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


class Surface:
    """Spots as rational numbers, positions to the millimetre; triangles as triples of spots."""

    def __init__(self, spots, triangles):
        self.at = [(Q(round(e * 1000), 1000), Q(round(n * 1000), 1000)) for e, n, _ in spots]
        self.level = [Q(l) for _, _, l in spots]
        self.triangles = triangles
        self.area = [abs(twice(*(self.at[i] for i in t))) / 2 for t in triangles]

    def heights(self, level, east, north):
        return [l - Q(level) - Q(east) * e - Q(north) * n for l, (e, n) in zip(self.level, self.at)]

    def work(self, heights):
        cut = sum(a * above([heights[i] for i in t]) for a, t in zip(self.area, self.triangles))
        fill = sum(a * above([-heights[i] for i in t]) for a, t in zip(self.area, self.triangles))
        return cut, fill

    def weights(self, heights, spot):
        """Derivatives of cut and fill: the volumes are cubic in between, so a tiny central difference is exact enough."""
        h = Q(1, 10**12)
        moved = lambda by: self.work([x + (by if i == spot else 0) for i, x in enumerate(heights)])
        (up_cut, up_fill), (down_cut, down_fill) = moved(h), moved(-h)
        return (up_cut - down_cut) / (2 * h), (up_fill - down_fill) / (2 * h)


def ask(program, spots, under=(), plane=(0, 0, 0), placed=0):
    text = "".join(f"spot {e!r} {n!r} {l!r}\n" for e, n, l in spots) + "".join(f"under {e!r} {n!r} {l!r}\n" for e, n, l in under)
    text += f"plane {plane[0]!r} {plane[1]!r} {plane[2]!r}\nplaced {placed}\n"
    done = subprocess.run([program], input=text, capture_output=True, text=True, check=True)
    answer = {"triangle": [], "weight": {}}
    for line in done.stdout.splitlines():
        word, *rest = line.split()
        if word == "triangle":
            answer[word].append(tuple(int(x) for x in rest))
        elif word == "weight":
            answer[word][int(rest[0])] = (float(rest[1]), float(rest[2]))
        else:
            answer[word] = [float(x) for x in rest]
    return answer


def clip(outline, a, b):
    """What of a convex outline lies left of the way from a to b, exactly."""
    kept = []
    for p, q in zip(outline, outline[1:] + outline[:1]):
        at_p, at_q = twice(a, b, p), twice(a, b, q)
        if at_p >= 0:
            kept.append(p)
        if (at_p > 0 > at_q) or (at_p < 0 < at_q):
            share = at_p / (at_p - at_q)
            kept.append((p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])))
    return kept


def height_at(surface, triangle, place):
    a, b, c = (surface.at[i] for i in triangle)
    second, third = twice(a, place, c) / twice(a, b, c), twice(a, b, place) / twice(a, b, c)
    la, lb, lc = (surface.level[i] for i in triangle)
    return la + second * (lb - la) + third * (lc - la)


def between(upper, lower):
    """Cut and fill where two surfaces lie over one another, triangle by triangle, exactly."""
    ccw = lambda s, t: t if twice(*(s.at[i] for i in t)) > 0 else (t[0], t[2], t[1])
    cut = fill = area = Q(0)
    for t, u in itertools.product([ccw(upper, t) for t in upper.triangles], [ccw(lower, u) for u in lower.triangles]):
        common = [upper.at[i] for i in t]
        for i, j in ((0, 1), (1, 2), (2, 0)):
            common = clip(common, lower.at[u[i]], lower.at[u[j]]) if common else common
        heights = [height_at(upper, t, p) - height_at(lower, u, p) for p in common]
        for k in range(2, len(common)):
            part = twice(common[0], common[k - 1], common[k]) / 2
            area += part
            cut += part * above([heights[0], heights[k - 1], heights[k]])
            fill += part * above([-heights[0], -heights[k - 1], -heights[k]])
    return area, cut, fill


def general(rng, n):
    return [(round(e, 3), round(m, 3), round(l, 3)) for e, m, l in rng.uniform([0, 0, -1], [100, 80, 1], (n, 3))]


def degenerate(rng, kind):
    level = lambda: round(float(rng.uniform(-1, 1)), 3)
    if kind == 0:  # a regular grid: four corners on every circle
        return [(10.0 * i, 10.0 * j, level()) for i in range(int(rng.integers(2, 7))) for j in range(int(rng.integers(2, 7)))]
    if kind == 1:  # a row and one spot beside it
        return [(float(i), 0.0, level()) for i in range(int(rng.integers(2, 15)))] + [(3.3, 7.0, level())]
    if kind == 2:  # on a circle of whole millimetres, and its middle
        ring = [(65, 0), (63, 16), (60, 25), (56, 33), (52, 39), (39, 52), (33, 56), (25, 60), (16, 63), (0, 65)]
        return [(s * x / 1000, t * y / 1000, level()) for x, y in ring for s in (1, -1) for t in (1, -1)] + [(0.0, 0.0, level())]
    spots = general(rng, int(rng.integers(4, 20)))  # some twice
    return spots + [(e, n, level()) for e, n, _ in spots[:3]]


def unique(spots):
    seen = {}
    for i, (e, n, _) in enumerate(spots):
        seen.setdefault((round(e * 1000), round(n * 1000)), i)
    return seen


def check_volume(count, program, spots, rng, scipy_is_unique):
    plane = [round(float(x), 4) for x in rng.uniform([-0.5, -0.02, -0.02], [0.5, 0.02, 0.02])]
    placed = round(float(rng.uniform(0.7, 1.3)), 2)
    answer = ask(program, spots, plane=plane, placed=placed)
    used = list(unique(spots).values())
    corners = np.array([spots[i][:2] for i in used])
    triangles = answer["triangle"]
    if scipy_is_unique:
        triangles = [tuple(used[int(i)] for i in t) for t in Delaunay(corners).simplices]
        count.expect({frozenset(t) for t in triangles} == {frozenset(t) for t in answer["triangle"]}, f"triangles of {len(spots)} spots")
    surface = Surface(spots, triangles)
    hull = ConvexHull(corners).volume
    count.near(float(sum(surface.area)), hull, ROOM * hull, "area against the convex hull")
    heights = surface.heights(*plane)
    room = ROOM * hull * max(1.0, float(max(heights) - min(heights)))
    cut, fill = surface.work(heights)
    count.near(answer["plane"][0], cut, room, "cut")
    count.near(answer["plane"][1], fill, room, "fill")
    spot = used[int(rng.integers(len(used)))]
    for got, wanted in zip(answer["weight"][spot], surface.weights(heights, spot)):
        count.near(got, wanted, ROOM * hull, "weight")
    raised = Q(answer["balance"][0])
    cut, fill = surface.work([h - raised for h in heights])
    count.near(float(Q(placed) * cut - fill), 0, 10 * room, "what is left over at the level of balance")


def check_between(count, program, rng):
    spots, under = general(rng, int(rng.integers(3, 10))), general(rng, int(rng.integers(3, 10)))
    answer = ask(program, spots, under)
    lower = ask(program, under)
    wanted = between(Surface(spots, answer["triangle"]), Surface(under, lower["triangle"]))
    for got, exact, what in zip(answer["between"], wanted, ("area", "cut", "fill")):
        count.near(got, exact, ROOM * 8000 * 2, f"between two surfaces: {what}")


def evaluate(program, lines):
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "surface.book.jsonl"
        path.write_text("".join(json.dumps(line) + "\n" for line in lines))
        return json.loads(subprocess.run([program, "evaluate", str(path), "--json"], capture_output=True, text=True, check=True).stdout)


def book(spots, sds, **fields):
    lines = [{"kind": "book", "format": "fallwright", "version": 1, "curvature": False}]
    for i, ((e, n, level), sd) in enumerate(zip(spots, sds)):
        lines += [{"kind": "benchmark", "point": f"p{i}", "level": level, "sd": sd}, {"kind": "place", "point": f"p{i}", "e": e, "n": n}]
    return lines + [{"kind": "surface", "name": "G", "points": [f"p{i}" for i in range(len(spots))], **fields}]


def close(got, wanted):
    return abs(got - wanted) <= FIGURES * max(abs(got), abs(wanted)) + 1e-6


def check_ponds(count, found, surface, rim):
    """Levels of water by joining corners in order of level: a corner's water is the level at which it first hangs together with the rim."""
    n = len(surface.level)
    sides = {frozenset(s) for t in surface.triangles for s in itertools.combinations(t, 2)}
    parent, wet_to, members = list(range(n + 1)), {}, {i: [i] for i in range(n + 1)}

    def root(i):
        while parent[i] != i:
            i = parent[i]
        return i

    def join(a, b, level):
        a, b = root(a), root(b)
        if a == b:
            return
        outside = root(n)
        for inner, outer in ((a, b), (b, a)):
            if outer == outside:
                wet_to.update({i: level for i in members[inner] if i != n})
        parent[b] = a
        members[a] += members[b]

    edges = [(max(surface.level[a], surface.level[b]), a, b) for a, b in (sorted(s) for s in sides)]
    edges += [(surface.level[i], i, n) for i in rim]
    for level, a, b in sorted(edges):
        join(a, b, level)
    depth = {i: float(wet_to[i] - surface.level[i]) for i in range(n) if wet_to[i] > surface.level[i]}
    for pond in found["ponds"]:
        low = int(pond["low"]["point"][1:])
        count.expect(low in depth and close(pond["depth"], depth[low]), f"pond at {low}: {pond['depth']} against {depth.get(low)}")
        water = wet_to[low]
        basin, todo = {low}, [low]
        while todo:
            here = todo.pop()
            for side in sides:
                if here in side:
                    (other,) = side - {here}
                    if other not in basin and surface.level[other] < water:
                        basin.add(other)
                        todo.append(other)
        volume = sum(a * above([water - surface.level[i] for i in t]) for a, t in zip(surface.area, surface.triangles) if basin & set(t))
        count.expect(close(pond["volume"], float(volume)), f"pond at {low} holds {pond['volume']} against {float(volume)}")
    deepest = max(depth.values(), default=0)
    listed = max((p["depth"] for p in found["ponds"]), default=0)
    count.expect(abs(deepest - listed) < 0.001 + 1e-5, f"deepest water {deepest}, listed {listed}")


def check_book(count, program, spots, rng):
    sds = [round(float(s), 4) for s in rng.uniform(0.001, 0.01, len(spots))]
    level, shrinkage = round(float(rng.uniform(-0.3, 0.3)), 3), 0.1
    found = evaluate(program, book(spots, sds, to={"level": level}, shrinkage=shrinkage, bearing=30))["surfaces"][0]
    triangles = [tuple(int(i) for i in t) for t in Delaunay(np.array([s[:2] for s in spots])).simplices]
    surface = Surface(spots, triangles)
    heights = surface.heights(level, 0, 0)
    volume = found["volumes"][0]
    cut, fill = (float(x) for x in surface.work(heights))
    weights = np.array([[float(x) for x in surface.weights(heights, i)] for i in range(len(spots))])
    variance = lambda w: float(np.sqrt(((w * np.array(sds)) ** 2).sum()))
    for key, wanted in (("cut", cut), ("fill", fill), ("net", cut - fill), ("surplus", cut - fill / (1 - shrinkage)), ("cut_sd", variance(weights[:, 0])),
                        ("fill_sd", variance(weights[:, 1])), ("net_sd", variance(weights[:, 0] - weights[:, 1])),
                        ("surplus_sd", variance(weights[:, 0] - weights[:, 1] / (1 - shrinkage)))):
        count.expect(close(volume[key], wanted), f"{key}: {volume[key]} against {wanted}")
    check_plane(count, found["plane"], np.array(spots), np.array(sds))
    check_ponds(count, found, surface, set(ConvexHull(np.array([s[:2] for s in spots])).vertices.tolist()))


def check_plane(count, plane, spots, sds):
    middle = spots[:, :2].mean(axis=0)
    a = np.column_stack([np.ones(len(spots)), spots[:, :2] - middle])
    inverse = np.linalg.pinv(a)
    level, east, north = inverse @ spots[:, 2]
    sd = np.sqrt(((inverse * sds) ** 2).sum(axis=1))
    beta = np.radians(30)
    turn = np.array([[np.sin(beta), np.cos(beta)], [np.cos(beta), -np.sin(beta)]])
    main, cross = turn @ np.array([east, north])
    turned = np.sqrt(((turn @ inverse[1:] * sds) ** 2).sum(axis=1))
    off = spots[:, 2] - a @ np.array([level, east, north])
    left = np.eye(len(spots)) - a @ inverse
    for key, wanted, place in (("level", level, 1e-5), ("east", east, 1e-7), ("north", north, 1e-7), ("sd", sd[0], 1e-5), ("east_sd", sd[1], 1e-7),
                               ("north_sd", sd[2], 1e-7), ("main", main, 1e-7), ("cross", cross, 1e-7), ("main_sd", turned[0], 1e-7),
                               ("cross_sd", turned[1], 1e-7), ("rms", np.sqrt((off**2).mean()), 1e-5)):
        count.near(plane[key], wanted, 0.6 * place, f"plane {key}")
    for key, i in (("high", int(off.argmax())), ("low", int(off.argmin()))):
        count.near(plane[key]["off"], off[i], 0.6e-5, f"plane {key}")
        count.near(plane[key]["sd"], np.sqrt(((left[i] * sds) ** 2).sum()), 0.6e-5, f"plane {key} sd")


TABLE = [(0.1, 2), (1, 4), (4, 10), (10, 12), (15, 15)]  # DIN 18202 table 3, row 3: TO-06


def limit(base):
    for (a, x), (b, y) in zip(TABLE, TABLE[1:]):
        if a <= base <= b:
            return np.floor(x + (base - a) / (b - a) * (y - x) + 0.5 + 1e-9) / 1000
    return None


def check_flatness(count, program, rng):
    """A grid with one spot left out and levels near the limits: all threes looked at."""
    size = int(rng.integers(3, 6))
    spots = [(1.5 * i, 1.5 * j, round(float(rng.normal(10, 0.004)), 5)) for i in range(size) for j in range(size)][:-1]
    found = evaluate(program, book(spots, [0.001] * len(spots), flatness=["din-18202-row-3"]))["surfaces"][0]["flatness"][0]
    checks = outside = 0
    worst = 0.0
    for (i, a), (j, c) in itertools.combinations(enumerate(spots), 2):
        base = float(np.hypot(c[0] - a[0], c[1] - a[1]))
        for b in spots:
            if np.hypot(b[0] - (a[0] + c[0]) / 2, b[1] - (a[1] + c[1]) / 2) < 1e-9 and limit(base) is not None:
                value = b[2] - (a[2] + c[2]) / 2
                printed = abs(Q(str(b[2])) - (Q(str(a[2])) + Q(str(c[2]))) / 2) * 100000 + Q(1, 2)  # half away from zero
                checks += 1
                outside += printed // 1 > round(limit(base) * 100000)
                worst = max(worst, abs(value) / limit(base))
    count.expect((found["checks"], found["outside"]) == (checks, outside), f"flatness {found['checks'], found['outside']} against {checks, outside}")
    count.near(abs(found["worst"]["value"]) / found["worst"]["limit"], worst, 3e-3, "worst share of a limit")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("border")
    parser.add_argument("fallwright")
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    args = parser.parse_args()
    rng, count = np.random.default_rng(args.seed), Count()
    for k in range(args.count):
        check_volume(count, args.border, general(rng, int(rng.integers(3, 60))), rng, True)
        check_volume(count, args.border, degenerate(rng, k % 4), rng, False)
        if k % 4 == 0:
            check_between(count, args.border, rng)
            check_book(count, args.fallwright, general(rng, int(rng.integers(4, 30))), rng)
            check_flatness(count, args.fallwright, rng)
    print(f"{count.passed} passed, {count.failed} failed")
    sys.exit(1 if count.failed else 0)


if __name__ == "__main__":
    main()
