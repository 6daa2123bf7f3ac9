#!/usr/bin/python3
"""How even a road is, against routes outside the core.

    /usr/bin/python3 tests/evenness/compare.py PROGRAM [--draws 2000]

Roads of random profiles are written as books and given to PROGRAM check --json. Then, from the same levels:

  - the roughness index by direct integration of the quarter car in time (SciPy, DOP853, heights and not slopes, piece by
    piece of the profile): 0.05 to 0.5 m between readings, 12 to 120 m, steep and level, metres and feet;
  - its sd, and the index that noise alone makes, by drawing that noise (exp(A dt) by SciPy);
  - the largest gap under the straightedge by the convex hull (SciPy) of every window.

Ends with "N passed, N failed" and a non-zero exit on a failure.
"""

import argparse
import json
import math
import os
import subprocess
import sys
import tempfile

os.environ["OMP_NUM_THREADS"] = os.environ["OPENBLAS_NUM_THREADS"] = "1"

import numpy as np
from scipy.integrate import solve_ivp
from scipy.linalg import expm
from scipy.spatial import ConvexHull

K1, K2, MU, C, SPEED = 653.0, 63.3, 0.15, 6.0, 80 / 3.6  # IR-01
START, TYRE, FOOT = 11.0, 0.25, 0.3048


def road(seed, count, dx, grade, rough):
    """Heights of a road as random as real ones: a walk, smoothed, about a grade; to a tick of the book."""
    rng = np.random.default_rng(seed)
    walk = np.cumsum(rng.normal(0, rough * math.sqrt(dx), count))
    walk -= np.linspace(walk[0], walk[-1], count)
    x = dx * np.arange(count)
    return np.round(100 + grade * x + walk + 0.002 * np.sin(x / rng.uniform(0.3, 4)), 7)


def averaged(y, dx):
    k = max(1, math.floor(TYRE / dx + 0.5 + 1e-9))
    return np.convolve(y, np.ones(k) / k, mode="valid")


def by_integration(y, dx):
    """Mean of |zs' - zu'| / V at the ends of the intervals; the car in heights, driven by the straight between readings."""
    y = averaged(np.asarray(y), dx)
    at = min(int(START / dx + 0.5), len(y) - 1)
    slope = (y[at] - y[0]) / (at * dx)
    z = np.array([y[0], slope * SPEED, y[0], slope * SPEED])
    dt, moved = dx / SPEED, []
    for a, b in zip(y[:-1], y[1:]):
        def push(t, s):
            spring, damper = K2 * (s[2] - s[0]), C * (s[3] - s[1])
            return [s[1], spring + damper, s[3], (-spring - damper + K1 * (a + (b - a) * t / dt - s[2])) / MU]
        z = solve_ivp(push, (0, dt), z, method="DOP853", rtol=1e-10, atol=1e-12).y[:, -1]
        moved.append(abs(z[1] - z[3]) / SPEED)
    return np.mean(moved)


def recursion(ys, dx):
    """Index of many profiles (rows) at once."""
    k = max(1, math.floor(TYRE / dx + 0.5 + 1e-9))
    ys = np.stack([ys[:, j:ys.shape[1] - k + 1 + j] for j in range(k)]).mean(axis=0)
    a = np.array([[0, 1, 0, 0, 0], [-K2, -C, K2, C, 0], [0, 0, 0, 1, 0],
                  [K2 / MU, C / MU, -(K1 + K2) / MU, -C / MU, K1 / MU], [0, 0, 0, 0, 0]])
    whole = expm(a * dx / SPEED)
    st, pr = whole[:4, :4], whole[:4, 4]
    at = min(int(START / dx + 0.5), ys.shape[1] - 1)
    slope = (ys[:, at] - ys[:, 0]) / (at * dx)
    z = np.stack([slope, 0 * slope, slope, 0 * slope])
    total = np.zeros(len(ys))
    for i in range(1, ys.shape[1]):
        z = st @ z + np.outer(pr, (ys[:, i] - ys[:, i - 1]) / dx)
        total += np.abs(z[0] - z[2])
    return total / (ys.shape[1] - 1)


def gap_by_hull(x, y, length):
    worst = 0.0
    for a in range(len(x)):
        n = int(np.searchsorted(x, x[a] + length + 1e-9, side="right"))
        if n - a < 3:
            continue
        xs, ys = x[a:n], y[a:n] - np.linspace(y[a], y[n - 1], n - a)
        points = np.column_stack([xs, ys / max(np.ptp(ys), 1e-9)])
        floor = np.array([[xs[0], points[:, 1].min() - 1], [xs[-1], points[:, 1].min() - 1]])
        hull = ConvexHull(np.vstack([points, floor])).vertices
        top = np.sort(hull[hull < n - a])
        worst = max(worst, float((np.interp(xs, xs[top], ys[top]) - ys).max()))
    return worst


def answer(program, y, dx, noise, unit):
    scale = FOOT if unit == "ft" else 1.0
    lines = [dict(kind="book", format="fallwright", version=1, curvature=False, unit=unit),
             dict(kind="what", name="finished", foot_sd=0), dict(kind="line", name="R", use="road"),
             dict(kind="instrument", name="L", type="rotating-laser", tilt_sd=0, setting_tilt_sd=0, cone_sd=0, reading_sd=noise / scale),
             dict(kind="staff", name="rod", length=50), dict(kind="benchmark", point="A", level=0),
             dict(kind="setup", name="S", instrument="L", staff="rod"),
             dict(kind="reading", point="A", staff=0.0)]
    light = math.ceil(y.max()) + 1
    lines[5]["level"] = light / scale
    for i, level in enumerate(y):
        lines.append(dict(kind="reading", line="R", ch=i * dx / scale, what="finished", staff=(light - level) / scale))
    with tempfile.NamedTemporaryFile("w", suffix=".book.jsonl") as book:
        book.write("\n".join(map(json.dumps, lines)) + "\n")
        book.flush()
        said = subprocess.run([program, "check", "--json", book.name], capture_output=True, text=True, check=True).stdout
    return json.loads(said)["lines"][0]["evenness"][0], scale


CASES = [  # readings, dx, grade, rough, noise, unit
    (101, 0.25, 0.0, 0.002, 0.0003, "m"), (49, 0.25, 0.04, 0.004, 0.0002, "m"), (401, 0.25, -0.02, 0.003, 0.0005, "m"),
    (61, 0.5, 0.01, 0.003, 0.0004, "m"), (121, 0.1, 0.0, 0.002, 0.0003, "m"), (151, 0.2, -0.05, 0.003, 0.0003, "m"),
    (261, 0.05, 0.02, 0.002, 0.0002, "m"), (100, 0.3048, 0.01, 0.003, 0.0003, "ft"), (201, 0.125, 0.0, 0.002, 0.0003, "m"),
    (45, 0.25, 0.0, 0.0, 0.0004, "m"),
]


class Tally:
    passed = failed = 0

    def hold(self, what, got, wanted, off):
        good = abs(got - wanted) <= off
        self.passed, self.failed = self.passed + good, self.failed + (not good)
        if not good:
            print(f"  {what}: {got} against {wanted}, more than {off:.2g} apart  DOES NOT HOLD")


def check(tally, program, number, case, draws):
    count, dx, grade, rough, noise, unit = case
    y = road(100 + number, count, dx, grade, rough)
    row, scale = answer(program, y, dx, noise, unit)
    found = row["roughness"][0]
    index = by_integration(y, dx) * 1000
    # A level is kept to 1e-7 m: a slope to 1e-7 / dx.
    tally.hold("index", found["index"], index, 2e-5 * index + 5e-5 / dx * 1e-1)
    rng = np.random.default_rng(number)
    shaken = recursion(y + rng.normal(0, noise, (draws, count)), dx) * 1000
    alone = recursion(rng.normal(0, noise, (draws, count)), dx) * 1000
    tally.hold("noise alone", found["noise"], alone.mean(), 4 * alone.std() / math.sqrt(draws) + 0.03 * alone.mean())
    # The sd is that of small errors: where noise turns the signs of the motion it is too large, not too small.
    few = recursion(y + rng.normal(0, noise / 50, (draws, count)), dx) * 1000
    if rough > 0:
        tally.hold("sd", found["sd"] / 50, few.std(), 0.08 * few.std())
        expected = math.sqrt(index**2 + found["noise"] ** 2)
        tally.hold("index with noise", expected, shaken.mean(), 0.05 * shaken.mean())
    edge = row["straightedge"]
    gap = gap_by_hull(dx * np.arange(count), y, edge["over"] * scale)
    tally.hold("gap", edge["worst"]["gap"] * scale, gap, 1.1e-5)
    print(f"{count} readings {dx} m apart, grade {grade}: index {found['index']:.4f}, integrated {index:.4f}; noise {found['noise']:.3f}, "
          f"drawn {alone.mean():.3f}; with both {shaken.mean():.3f}; gap {edge['worst']['gap'] * scale * 1000:.2f} mm, by hull {gap * 1000:.2f}")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("program")
    parser.add_argument("--draws", type=int, default=2000)
    options = parser.parse_args()
    tally = Tally()
    for number, case in enumerate(CASES):
        check(tally, options.program, number, case, options.draws)
    print(f"{tally.passed} passed, {tally.failed} failed")
    return 1 if tally.failed else 0


if __name__ == "__main__":
    sys.exit(main())
