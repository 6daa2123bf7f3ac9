"""Slips that are more than an addition: another point, set-up or chainage, a figure booked the other way round, a body out of
adjustment. Each knows how to bring itself into the readings; apply() gives (readings, figures before rounding, b)."""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from layouts import rise
from slip import Slip
from truth import Book, rounded

LENGTH = 4.0  # of the staff
OUT = 10.0  # an instrument out of adjustment errs so many times as much


@dataclass
class Stand:
    """The staff stood elsewhere, or was read from elsewhere, than booked."""

    i: int
    point: str = None
    setup: int = None
    away: float = None  # metres along the line

    def apply(self, truth, rng):
        scene = truth.scene
        was = scene.readings[self.i]
        b = None
        if self.away is not None:
            old = scene.points[was.point]
            ch, off = old.on_line
            new = scene.points[scene.station(ch - self.away, off, old.what, rng)]
            setup = scene.setups[was.setup]
            b = old.design - new.design + rise(setup, new.at) - rise(setup, old.at)
            now = replace(was, point=new.name, booked_as=was.point)
        elif self.point is not None:
            now = replace(was, point=self.point, booked_as=was.point)
        else:
            now = replace(was, setup=self.setup, booked_in=was.setup)
        figures = list(truth.exact)
        figures[self.i] = truth.figure(now, truth.deviates[self.i])
        readings = list(scene.readings)
        readings[self.i] = now
        return readings, figures, figures[self.i] - truth.exact[self.i] if b is None else b


@dataclass
class Reverse:
    """HIGH taken for LOW."""

    i: int


@dataclass
class Upright:
    """A soffit booked without its minus."""

    i: int


@dataclass
class Out:
    """Errors of the body drawn anew, ten times as large; the column becomes what this does to each reading."""

    names: tuple

    def apply(self, truth, rng):
        model = truth.model
        for name in self.names:
            if name in model.priors:
                truth.errors[name] = model.priors[name][0] + OUT * model.priors[name][1] * float(rng.normal())
        figures = [truth.figure(r, z) for r, z in zip(truth.scene.readings, truth.deviates)]
        return truth.scene.readings, figures, 1.0


def one_edit(a, b):
    """Whether one letter changed, added, left out or exchanged with its neighbour makes a into b."""
    if len(a) > len(b):
        a, b = b, a
    if len(b) - len(a) > 1 or a == b:
        return False
    if len(a) < len(b):
        return any(b[:i] + b[i + 1:] == a for i in range(len(b)))
    differ = [i for i in range(len(a)) if a[i] != b[i]]
    return len(differ) == 1 or (len(differ) == 2 and differ[1] == differ[0] + 1 and a[differ[0]] == b[differ[1]] and
                                a[differ[1]] == b[differ[0]])


def without_digits(name):
    return "".join(c for c in name if not c.isdigit())


@lru_cache(maxsize=100000)
def near(a, b):
    return one_edit(a, b) and without_digits(a) != without_digits(b)


def pairs(job):
    """(reading, point its staff may have stood on instead)"""
    readings = job.scene.readings
    names = list(dict.fromkeys(r.point for r in readings))
    nearly = {name: [n for n in names if near(n, name)] for name in names}
    for i, reading in enumerate(readings):
        found = list(nearly[reading.point])
        mine = job.of_setup(reading.setup)
        at = mine.index(i)
        for j in mine[max(at - 1, 0): at] + mine[at + 1: at + 2]:
            found.append(readings[j].point)
        for name in dict.fromkeys(found):
            if name != reading.point:
                yield i, name


def wrong_point(job):
    for i, name in pairs(job):
        yield Slip("wrong-point", [f"r{i}"], job.unit(i), 1.0, lambda rng: 1.0, Stand(i, point=name))


def wrong_setup(job):
    for i, reading in enumerate(job.scene.readings):
        for k in (reading.setup - 1, reading.setup + 1):
            if 0 <= k < len(job.scene.setups):
                yield Slip("wrong-setup", [f"r{i}"], job.unit(i), 1.0, lambda rng: 1.0, Stand(i, setup=k))


def wrong_distance(job):
    for i, reading in enumerate(job.scene.readings):
        point = job.scene.points[reading.point]
        if point.on_line is None:
            continue
        for away in (1, 5, 10, 20, 30, -1, -5, -10, -20, -30):
            if 0 <= point.on_line[0] - away <= job.scene.line["length"]:
                yield Slip("wrong-distance", [f"r{i}"], job.unit(i), 1.0, lambda rng: 1.0, Stand(i, away=float(away)))


def spoil(truth, book, slip, rng):
    """(what is booked, b) with the slip in it, or None where no staff could show the figures."""
    readings, figures, levels, b = truth.scene.readings, truth.exact, dict(book.levels), slip.size(rng)
    if isinstance(slip.change, (Stand, Out)):
        clean = figures
        readings, figures, b = slip.change.apply(truth, rng)
        if isinstance(slip.change, Out):
            slip.column = np.zeros(len(slip.column))
            slip.column[: len(figures)] = [(-1 if r.inverted else 1) * (f - c) for r, f, c in zip(readings, figures, clean)]
    elif slip.change is None and not slip.levels:
        figures = [f + (-1 if r.inverted else 1) * b * c for f, c, r in zip(figures, slip.column, readings)]
        if any(c and f <= slip.floor for c, f in zip(slip.column, figures)):
            return None
    for p, share in slip.levels.items():
        levels[p] = round(levels[p] + b * share, 3)
    if not all(0.02 < f < LENGTH for f in figures):
        return None
    spoilt = Book(truth, [rounded(f) for f in figures], book.marks, readings, levels)
    if isinstance(slip.change, Reverse):
        mark, offset = spoilt.split[slip.change.i]
        spoilt.split[slip.change.i] = (mark, -offset)
    if isinstance(slip.change, Upright):
        spoilt.as_upright.add(slip.change.i)
    return spoilt, b
