#!/usr/bin/python3
"""Verdicts and joint probabilities against a simulation outside the core.

    /usr/bin/python3 tests/verdict/simulate.py PROGRAM [--draws 1000000]

Small books with a line, read in one or several set-ups, are written down once more as rows and priors (docs/methods/levels.md),
solved as one dense least squares by NumPy, and drawn from: a million draws of all deviations at once. Each station's probability
must agree with the normal distribution to its last printed digit, and the joint one with the share of draws in which every station
is within, to three standard errors and half the last printed digit. Correlations from none to 0.99, 2 to 200 stations, one to six
set-ups, weighted benchmarks, a hanging design, one-sided limits. Ends with "N passed, N failed" and a non-zero exit on a failure.
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
from scipy.stats import norm

PLACES = 4
PRINTED = 0.5 * 10.0**-PLACES
FIRST, GRADIENT = 50.0, -0.01  # design level at chainage 0, and its fall


class Job:
    """A book in the making, and the same as rows of a least squares problem: terms by name, value, sd."""

    def __init__(self, seed, laser, foot):
        self.rng = np.random.default_rng(seed)
        self.laser, self.foot, self.under = laser, foot, None
        self.entries, self.rows, self.priors = [], [], {}
        self.stations, self.truth = [], {}
        self.entry(kind="book", format="fallwright", version=1, curvature=False)
        self.entry(kind="instrument", name="L", type="rotating-laser", **laser)
        self.entry(kind="what", name="laid", foot_sd=foot)
        self.entry(kind="what", name="mark", foot_sd=0)
        for effect in ("tilt_sd", "setting_tilt_sd", "cone_sd"):
            assert effect in laser

    def entry(self, **fields):
        self.entries.append(json.dumps(fields))

    def line(self, under=None):
        start = {"ch": 0, "level": FIRST} if under is None else {"ch": 0, "under": under, "by": 1}
        self.under = under
        self.entry(kind="line", name="D", use="drain", profile=[start, {"ch": 400, "gradient": GRADIENT}])

    def benchmark(self, ch, off, level, sd=0.0):
        name = self.name(ch, off, "mark")
        self.entry(kind="benchmark", point=name, level=level, sd=sd)
        self.truth[name] = level
        self.rows.append(({name: 1.0}, level, sd if sd > 0 else 1e-7))

    @staticmethod
    def name(ch, off, what):
        side = "" if abs(off) < 5e-4 else f" {'L' if off < 0 else 'R'}{abs(off):.3f}"
        return f"D {ch:.3f}{side} {what}"

    def setup(self, name, ch, off):
        self.at, self.now, self.plane = (ch, off), name, 51.5
        self.entry(kind="setup", name=name, instrument="L", place={"line": "D", "ch": ch, "off": off}, plane={"towards": "D"})

    def read(self, ch, off, what, level, sight="inter", sd=None):
        """One reading of a point whose true level is given (the first time), with the noise of the kit."""
        point = self.name(ch, off, what)
        known = point in self.truth
        level = self.truth.setdefault(point, level)
        sd = sd or self.laser["reading_sd"]
        staff = round(self.plane - level + self.rng.normal(0, 1e-4), 5)
        self.entry(kind="reading", setup=self.now, line="D", ch=ch, off=off, what=what, sight=sight, staff=staff, sd=sd)
        u, v = ch - self.at[0], off - self.at[1]
        terms = {f"c {self.now}": 1.0, point: -1.0}
        for axis, length in (("x", u), ("y", v)):
            self.add(terms, f"tilt {axis}", length, self.laser["tilt_sd"])
            self.add(terms, f"setting {axis} {self.now}", length, self.laser["setting_tilt_sd"])
        self.add(terms, "cone", math.hypot(u, v), self.laser["cone_sd"])
        if what == "laid" and self.foot > 0:
            self.add(terms, f"foot {self.now} {point}", -1.0, self.foot)
        self.rows.append((terms, staff, sd))
        if what == "laid" and not known:
            self.stations.append((point, ch))

    def add(self, terms, name, coefficient, sd):
        if sd > 0 and coefficient != 0:
            terms[name] = coefficient
            self.priors[name] = sd

    def tolerance(self, below=None, above=None):
        limits = {k: v for k, v in (("below", below), ("above", above)) if v is not None}
        self.limits = (below if below is not None else -math.inf, above if above is not None else math.inf)
        self.entry(kind="tolerance", line="D", what="laid", **limits)

    def solve(self):
        """Mean and covariance of the deviations, station by station."""
        names = sorted({k for terms, _, _ in self.rows for k in terms})
        index = {k: i for i, k in enumerate(names)}
        rows = self.rows + [({k: 1.0}, 0.0, sd) for k, sd in self.priors.items()]
        a, y = np.zeros((len(rows), len(names))), np.zeros(len(rows))
        for i, (terms, value, sd) in enumerate(rows):
            for k, c in terms.items():
                a[i, index[k]] = c / sd
            y[i] = value / sd
        x, *_ = np.linalg.lstsq(a, y, rcond=None)
        r = np.linalg.qr(a, mode="r")
        picks = np.zeros((len(self.stations), len(names)))
        design = np.zeros(len(self.stations))
        for i, (point, ch) in enumerate(self.stations):
            picks[i, index[point]] = 1
            design[i] = GRADIENT * ch + (FIRST if self.under is None else -1)
            if self.under is not None:
                picks[i, index[self.under]] -= 1
        half = np.linalg.solve(r.T, picks.T).T
        return picks @ x - design, half


def walk(job, setup, stations, tol):
    """Reads stations spread about the design by about a third of the tolerance."""
    for ch in stations:
        job.read(ch, 0.0, "laid", FIRST + GRADIENT * ch + job.rng.normal(0, tol / 3), setup)


KIT = dict(reading_sd=0.0012, tilt_sd=2e-5, setting_tilt_sd=1.3e-5, cone_sd=2e-5)
BARE = dict(reading_sd=0.001, tilt_sd=0, setting_tilt_sd=0, cone_sd=0)


def one_setup(seed, count, laser, foot, back_sd, tol, spread=1.0, above=None):
    job = Job(seed, laser, foot)
    job.line()
    job.benchmark(0, 5, 50.0)
    job.setup("S1", 5, 5)
    job.read(0, 5, "mark", 50.0, "back", back_sd)
    for i in range(count):
        ch = round(2 + 90 * i / max(count - 1, 1), 3)
        job.read(ch, 0.0, "laid", FIRST + GRADIENT * ch + job.rng.uniform(-spread, spread) * tol / 2)
    job.tolerance(None if above else -tol, above or tol)
    return job


def many_setups(seed, setups, each, tol, weighted=0.0, shared=False, laser=KIT):
    """A run of set-ups along the line, tied by change points; benchmarks at both ends where weighted."""
    job = Job(seed, laser, 0.001)
    job.line()
    job.benchmark(0, 5, 50.0, weighted)
    length = 40.0
    for k in range(setups):
        begin = k * length
        job.setup(f"S{k + 1}", begin + length / 2, 4)
        job.read(begin, 5, "mark", 50.0, "back")
        for i in range(each):
            ch = round(begin + 1 + (length - 2) * i / max(each - 1, 1), 3)
            job.read(ch, 0.0, "laid", FIRST + GRADIENT * ch + job.rng.uniform(-0.5, 0.5) * tol)
        if shared and k > 0:
            for ch in (begin - 1, begin - 20):
                point = min((p for p in job.stations), key=lambda p: abs(p[1] - ch))
                job.read(point[1], 0.0, "laid", None)
        job.read(begin + length, 5, "mark", 50.0 - 0.1 * k, "fore")
    if weighted:
        job.benchmark(setups * length, 5, job.truth[job.name(setups * length, 5, "mark")], weighted)
    job.tolerance(-tol, tol)
    return job


def hanging(seed):
    job = Job(seed, KIT, 0.001)
    job.entry(kind="line", name="X")
    job.line(under="D 0.000 L2.000 mark")
    job.benchmark(0, 5, 50.0)
    job.setup("S1", 5, 5)
    job.read(0, 5, "mark", 50.0, "back")
    job.read(0, -2, "mark", FIRST + 1, "inter", 0.003)
    for ch in range(5, 65, 5):
        job.read(ch, 0.0, "laid", FIRST + GRADIENT * ch + job.rng.uniform(-0.002, 0.002))
    job.tolerance(-0.006, 0.006)
    return job


def jobs():
    bare = lambda **more: {**BARE, **more}
    yield "2 stations, correlation 0.99", one_setup(1, 2, BARE, 0, 0.00995, 0.015)
    yield "200 stations, correlation 0.99", one_setup(2, 200, BARE, 0, 0.00995, 0.015)
    yield "200 stations, correlation 0.99, near the middle", one_setup(3, 200, BARE, 0, 0.00995, 0.010, 0.3)
    yield "2 stations, independent", one_setup(4, 2, BARE, 0.001, 1e-7, 0.002)
    yield "200 stations, independent", one_setup(5, 200, BARE, 0.001, 1e-7, 0.006)
    yield "20 stations, independent, few within", one_setup(6, 20, BARE, 0.001, 1e-7, 0.003)
    yield "2 stations, usual kit", one_setup(7, 2, KIT, 0.001, None, 0.005)
    yield "30 stations, usual kit", one_setup(8, 30, KIT, 0.001, None, 0.006)
    yield "200 stations, usual kit", one_setup(9, 200, KIT, 0.001, None, 0.008)
    yield "200 stations, a bad tilt", one_setup(10, 200, bare(tilt_sd=1e-4, setting_tilt_sd=1e-4), 0.0005, None, 0.015)
    yield "60 stations, tilt and cone", one_setup(11, 60, bare(tilt_sd=5e-5, cone_sd=1e-4), 0, None, 0.010)
    yield "40 stations, one-sided", one_setup(12, 40, KIT, 0.001, None, 0.006, above=0.005)
    yield "3 set-ups of 20", many_setups(13, 3, 20, 0.008)
    yield "4 set-ups of 50, points in two of them", many_setups(14, 4, 50, 0.010, shared=True)
    yield "6 set-ups of 30 between weighted benchmarks", many_setups(15, 6, 30, 0.010, weighted=0.002)
    yield "2 set-ups of 100, a bad tilt", many_setups(16, 2, 100, 0.012, laser=bare(tilt_sd=1e-4, setting_tilt_sd=5e-5, cone_sd=2e-5))
    yield "12 stations under a measured point", hanging(17)


def answer(program, job):
    with tempfile.NamedTemporaryFile("w", suffix=".book.jsonl") as book:
        book.write("\n".join(job.entries) + "\n")
        book.flush()
        said = subprocess.run([program, "check", "--json", book.name], capture_output=True, text=True, check=True).stdout
    return next(line for line in json.loads(said)["lines"] if line["name"] == "D")


def share_within(rng, mean, half, limits, draws, chunk=20000):
    within = 0
    for begin in range(0, draws, chunk):
        errors = rng.standard_normal((min(chunk, draws - begin), half.shape[1]))
        deviations = mean + errors @ half.T
        within += int(np.all((deviations >= limits[0]) & (deviations <= limits[1]), axis=1).sum())
    return within / draws


def thin(half):
    """The same covariance with as few columns as stations."""
    return half if half.shape[1] <= half.shape[0] else np.linalg.qr(half.T, mode="r").T


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("program")
    parser.add_argument("--draws", type=int, default=1000000)
    options = parser.parse_args()
    passed = failed = 0
    for number, (title, job) in enumerate(jobs()):
        line = answer(options.program, job)
        found = {job.name(s["ch"], s["off"], "laid"): s for s in line["stations"] if s["what"] == "laid"}
        mean, half = job.solve()
        sd = np.sqrt((half**2).sum(axis=1))
        single = norm.cdf((job.limits[1] - mean) / sd) - norm.cdf((job.limits[0] - mean) / sd)
        worst = max(abs(single[i] - found[point]["probability"]) for i, (point, _) in enumerate(job.stations))
        share = share_within(np.random.default_rng(900 + number), mean, thin(half), job.limits, options.draws)
        error = math.sqrt(max(share * (1 - share), 1 / options.draws) / options.draws)
        joint = line["all_within"]["laid"]
        off = abs(joint - share)
        good = [worst <= PRINTED + 1e-6, off <= 3 * error + PRINTED]
        passed, failed = passed + sum(good), failed + 2 - sum(good)
        print(f"{title}: single {worst:.1e}, joint {joint:.4f}, simulated {share:.4f}, {off / error:.1f} standard errors"
              f"{'' if all(good) else '  DOES NOT HOLD'}")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
