#!/usr/bin/env python3
"""The verb drain against SciPy on random pipes: states, both depths of a flow, critical depth, falls found.

    /usr/bin/python3 tests/drain/compare.py PROGRAM [--count 300] [--seed 1]

The reference is written apart: the wet section from its angle, Colebrook-White and Manning as in
docs/methods/hydraulics.md, every root by scipy.optimize.brentq, the hump by minimize_scalar. Answers are printed to
6 significant figures (falls 1e-7, depths 0.01 mm), so they must agree to half of that and a little.
Ends with "N passed, N failed" and a non-zero exit on a failure.
"""

import argparse
import json
import subprocess
import sys

import numpy as np
from scipy.optimize import brentq, minimize_scalar

G = 9.80665
TIGHT = {"xtol": 1e-15, "rtol": 9e-16, "maxiter": 500}


class Pipe:
    def __init__(self, rng):
        self.bore = round(float(10 ** rng.uniform(-1.3, 0.4)), 5)
        self.fall = round(float(10 ** rng.uniform(-3.5, -0.8)), 7)
        self.n = round(float(rng.uniform(0.008, 0.03)), 4) if rng.random() < 0.4 else None
        self.rough = round(float(self.bore * 10 ** rng.uniform(-5, -1.6)), 8)
        self.viscosity = round(float(rng.uniform(0.8e-6, 1.8e-6)), 9)

    def wet(self, angle):
        area = self.bore**2 / 8 * (angle - np.sin(angle))
        return area, area / (self.bore * angle / 2), self.bore * np.sin(angle / 2)

    def velocity(self, radius, fall):
        if self.n:
            return radius ** (2 / 3) * np.sqrt(fall) / self.n
        root = np.sqrt(8 * G * radius * fall)
        inside = self.rough / (14.8 * radius) + 2.51 * self.viscosity / (4 * radius * root)
        return max(0.0, -2 * root * np.log10(inside))

    def flow(self, angle, fall=None):
        area, radius, _ = self.wet(angle)
        return area * self.velocity(radius, self.fall if fall is None else fall)

    def depth(self, angle):
        return self.bore * (1 - np.cos(angle / 2)) / 2

    def hump(self):
        return minimize_scalar(lambda angle: -self.flow(angle), bounds=(4.4, 2 * np.pi), method="bounded", options={"xatol": 1e-12}).x

    def critical(self, flow):
        def spare(angle):
            area, _, top = self.wet(angle)
            return G * area**3 - flow**2 * top

        return brentq(spare, 1e-4, 2 * np.pi - 1e-12, **TIGHT)

    def arguments(self):
        if self.n:
            return [f"--bore={self.bore}m", f"--manning={self.n}"]
        return [f"--bore={self.bore}m", f"--roughness={self.rough:.8f}m", f"--viscosity={self.viscosity}"]


class Tally:
    def __init__(self):
        self.passed = self.failed = 0

    def near(self, what, got, wanted, tolerance):
        if got is not None and abs(got - wanted) <= tolerance:
            self.passed += 1
        else:
            self.failed += 1
            print(f"{what}: got {got}, SciPy {wanted:.9g}")

    def figures(self, what, got, wanted):
        self.near(what, got, wanted, 6e-6 * abs(wanted) + 1e-10)


def ask(program, pipe, *more):
    run = subprocess.run([program, "drain", "--json", *pipe.arguments(), *more], capture_output=True, text=True, check=False)
    if not run.stdout:
        raise SystemExit(f"{pipe.arguments()} {more}: {run.stderr.strip()}")
    return json.loads(run.stdout)


def check_states(tally, pipe, got, name):
    full, hump = 2 * np.pi, pipe.hump()
    tally.figures(f"{name} full velocity", got["full"]["velocity"], pipe.velocity(pipe.bore / 4, pipe.fall))
    tally.figures(f"{name} full flow", got["full"]["flow"], pipe.flow(full))
    tally.figures(f"{name} greatest flow", got["greatest_flow"]["flow"], pipe.flow(hump))
    # A flat maximum is known by its value to the last bit, by its place to the square root of that.
    tally.near(f"{name} hump", got["greatest_flow"]["proportion"], pipe.depth(hump) / pipe.bore, 3e-6)


def check_flow(tally, program, pipe, share, name):
    hump = pipe.hump()
    flow = float(f"{share * pipe.flow(hump):.9g}")
    got = ask(program, pipe, f"--fall={pipe.fall}", f"--flow={flow:.12f}")
    check_states(tally, pipe, got, name)
    lower = brentq(lambda angle: pipe.flow(angle) - flow, 1e-3, hump, **TIGHT)
    # Near the hump the depth hangs on the flow's own last digit.
    slack = 6e-6 if share < 0.98 else 3e-5
    tally.near(f"{name} depth", got["part"]["proportion"], pipe.depth(lower) / pipe.bore, slack)
    if flow >= pipe.flow(2 * np.pi):
        upper = brentq(lambda angle: pipe.flow(angle) - flow, hump, 2 * np.pi, **TIGHT)
        tally.near(f"{name} upper depth", got["upper"]["proportion"], pipe.depth(upper) / pipe.bore, slack)
    tally.near(f"{name} critical", got["critical"]["proportion"], pipe.depth(pipe.critical(flow)) / pipe.bore, 6e-6)


def check_falls(tally, program, pipe, name):
    velocity = round(0.8 * pipe.velocity(pipe.bore / 4, pipe.fall), 6)
    got = ask(program, pipe, f"--velocity={velocity:.6f}")
    wanted = brentq(lambda fall: pipe.velocity(pipe.bore / 4, fall) - velocity, 1e-14, 1, **TIGHT)
    tally.near(f"{name} fall for a velocity", got["fall"], wanted, 6e-8)
    flow = float(f"{0.5 * pipe.flow(np.pi):.9g}")
    got = ask(program, pipe, f"--flow={flow:.12f}", "--depth=50 %")
    wanted = brentq(lambda fall: pipe.flow(np.pi, fall) - flow, 1e-14, 1, **TIGHT)
    tally.near(f"{name} fall for a flow", got["fall"], wanted, 6e-8)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    arguments = parser.parse_args()
    rng, tally = np.random.default_rng(arguments.seed), Tally()
    for number in range(arguments.count):
        pipe = Pipe(rng)
        if pipe.velocity(pipe.bore / 4, pipe.fall) < 0.05:
            continue
        name = f"pipe {number} {pipe.arguments()} fall {pipe.fall}:"
        check_flow(tally, arguments.program, pipe, rng.uniform(0.02, 0.9), name)
        if number % 5 == 0:
            check_flow(tally, arguments.program, pipe, rng.uniform(0.94, 0.999), name)
        check_falls(tally, arguments.program, pipe, name)
    print(f"{tally.passed} passed, {tally.failed} failed")
    return 1 if tally.failed or not tally.passed else 0


if __name__ == "__main__":
    sys.exit(main())
