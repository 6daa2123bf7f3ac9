"""The linear model of a reading, written apart from the core after docs/methods/levels.md, by NumPy and dense.

A row is a dictionary of terms by name. `truth=True` gives it as things are: body turned as it stands, every distance real. Else as
the book knows it: a set-up without a place counts from the first placed point read in it, an unknown sight is what the crew states, an unknown
direction has a tilt of its own.
"""

import math
from dataclasses import dataclass

import numpy as np

from layouts import axes
from scene import EXPECTATION, FOOT

CURVE = (1 - 0.13) / (2 * 6_371_000.0)
LEAN = math.radians(1.0)


@dataclass
class Sight:
    u: float
    v: float
    d: float
    known: bool = True  # its direction


def sight(scene, reading, truth):
    setup, point = scene.setups[reading.setup], scene.points[reading.point]
    u, v = axes(setup, point.at)
    d = math.hypot(u, v)
    if truth or (setup.placed and point.placed):
        return Sight(u, v, d)
    d = round(d, 1) if reading.dist else scene.assumed_sight
    if setup.placed or not point.placed:
        return Sight(0.0, 0.0, d, False)
    first = next((r for r in scene.readings if r.setup == reading.setup and scene.points[r.point].placed), reading)
    u0, v0 = axes(setup, scene.points[first.point].at)
    return Sight(u - u0, v - v0, d)


class Model:
    """Priors by name (mean, sd), and terms of readings."""

    def __init__(self, scene, truth):
        self.scene, self.truth, self.priors = scene, truth, {}

    def add(self, terms, name, coefficient, sd, mean=0.0):
        if sd and coefficient:
            terms[name] = terms.get(name, 0.0) + coefficient
            self.priors[name] = (mean, sd)

    def body(self, terms, setup, at):
        kit, means = self.scene.instrument, self.scene.means
        both = math.hypot(kit["tilt_sd"], kit["setting_tilt_sd"])
        if not at.known:
            self.add(terms, f"way {setup.name} {self.point}", at.d, both)
            return
        for axis, length in (("x", at.u), ("y", at.v)):
            if self.truth or setup.oriented:
                self.add(terms, f"tilt {axis}", length, kit["tilt_sd"], means.get(f"tilt {axis}", 0.0))
                self.add(terms, f"setting {axis} {setup.name}", length, kit["setting_tilt_sd"])
            else:
                self.add(terms, f"own {axis} {setup.name}", length, both)

    def dialled(self, terms, setup, at):
        (gx, gy), kit = setup.plane, self.scene.instrument
        for axis, g, length in (("x", gx, at.u), ("y", gy, at.v)):
            if g:
                self.add(terms, f"grade {axis} {setup.name}", length, kit["grade_sd"])
        self.add(terms, f"aim {setup.name}", gx * at.v - gy * at.u, math.radians(kit["aim_sd"]))

    def terms(self, reading):
        """(terms, constant): what the height of the light less the point is made of, the plane and the level apart."""
        scene, setup, terms = self.scene, self.scene.setups[reading.setup], {}
        self.point = reading.point
        at = sight(scene, reading, self.truth)
        kit = scene.instrument
        if scene.laser:
            self.body(terms, setup, at)
            self.dialled(terms, setup, at)
            self.add(terms, "cone", at.d, kit["cone_sd"], scene.means.get("cone", 0.0))
        else:
            self.add(terms, "cone", at.d, kit["collimation_sd"])
        self.add(terms, f"foot {setup.name} {reading.point}", -1.0, FOOT[scene.points[reading.point].what])
        return terms, setup.plane[0] * at.u + setup.plane[1] * at.v + CURVE * at.d**2

    def noise(self, reading, figure):
        """sd of what belongs to this reading alone, rounding included."""
        kit, at, setup = self.scene.instrument, sight(self.scene, reading, self.truth), self.scene.setups[reading.setup]
        return math.hypot(kit["reading_sd"], kit["sd_per_m"] * at.d, figure * math.hypot(*setup.plane) * LEAN)


def staff_terms(scene, model, terms, sign, figure):
    """Zero, scale and joints at an upright-positive figure."""
    staff = scene.staff
    model.add(terms, "zero", sign, staff.get("zero_sd", 0))
    model.add(terms, "scale", sign * figure, staff.get("scale_sd", 0))
    for at, sd in staff.get("joints", []):
        model.add(terms, f"joint {at}", sign * (figure > at), sd)


class Dense:
    """The rows of a book as one projector M, by the model of what the book knows; weighted benchmarks and, where a line has a
    design, expectations are rows. Columns of slips are vectors over the readings, then the benchmarks."""

    def __init__(self, scene, figures, expect=True):
        model, rows = Model(scene, False), []
        for reading, figure in zip(scene.readings, figures):
            terms, _ = model.terms(reading)
            sign = -1 if reading.inverted else 1
            staff_terms(scene, model, terms, sign, figure)
            terms[f"c {reading.setup}"] = 1.0
            if not (reading.point in scene.benchmarks and scene.benchmarks[reading.point][0] == 0):
                terms[f"h {reading.point}"] = -1.0
            rows.append((terms, model.noise(reading, figure)))
        rows += [({f"h {p}": 1.0}, sd) for p, (sd, _) in scene.benchmarks.items() if sd > 0]
        seen = {r.point for r in scene.readings}
        if expect:
            rows += [({f"h {p}": 1.0}, EXPECTATION) for p in scene.points if p in seen and scene.points[p].design is not None]
        rows += [({name: 1.0}, sd) for name, (_, sd) in model.priors.items()]
        index = {name: j for j, name in enumerate(dict.fromkeys(name for terms, _ in rows for name in terms))}
        self.a = np.zeros((len(rows), len(index)))
        for i, (terms, sd) in enumerate(rows):
            for name, c in terms.items():
                self.a[i, index[name]] = c / sd
        self.sd = np.array([sd for _, sd in rows])
        q, r = np.linalg.qr(self.a * (1 / np.linalg.norm(self.a, axis=0)))
        assert np.abs(np.diag(r)).min() > 1e-9, "a book of the simulator hangs together"
        self.q = q

    def project(self, column):
        """A column over the first rows, whitened and with what the unknowns can follow taken out."""
        c = np.zeros(len(self.sd))
        c[: len(column)] = column
        c /= self.sd
        return c - self.q @ (self.q.T @ c)
