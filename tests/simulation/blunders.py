"""What may go wrong in a job: every place where it could have happened, how large, what it does to the figures.

The table is that of docs/methods/simulation.md: a kind's weight is split equally over its instances. Each instance is a column:
what a slip of size 1 adds to the light's height at each reading (so to an upright figure), after that to each weighted benchmark.
"""

import math

import numpy as np

import reassigned
from model import sight
from slip import Slip

NOTHING = 0.9
WEIGHTS = {
    "misread": 0.044, "digits-swapped": 0.008, "offset-reversed": 0.006, "offset-omitted": 0.003, "staff-inverted": 0.002,
    "staff-section": 0.006, "wrong-point": 0.003, "wrong-setup": 0.003, "wrong-benchmark": 0.012, "moved-change-point": 0.010,
    "grade-left-in": 0.014, "grade-reversed": 0.003, "axes-swapped": 0.003, "aim-off": 0.003, "knocked": 0.020, "settling": 0.010,
    "instrument-out": 0.003, "wrong-distance": 0.003, "other-beam": 0.003,
}
MISREAD = ((1.0, 0.010), (0.1, 0.012), (0.01, 0.012), (0.05, 0.004))
MISREAD_FREE = (0.3, 0.006)


class Job:
    """What the instances are looked for in: the book as it would be booked, nothing wrong."""

    def __init__(self, scene, book):
        self.scene, self.book, self.figures = scene, book, book.figures
        self.count = len(scene.readings)
        self.weighted = [p for p, (sd, _) in scene.benchmarks.items() if sd > 0]
        self.sights = [sight(scene, r, False) for r in scene.readings]

    def unit(self, *which):
        column = np.zeros(self.count + len(self.weighted))
        for i in which:
            column[i] = -1.0 if self.scene.readings[i].inverted else 1.0
        return column

    def light(self, setup, of):
        """A column of the light of one set-up: of(sight, reading's place in time)."""
        column = np.zeros(self.count + len(self.weighted))
        for i, r in enumerate(self.scene.readings):
            if r.setup == setup:
                column[i] = of(self.sights[i], i)
        return column

    def lit(self, kind, k, more, of, weight, size):
        """A slip of the light of one set-up, which a further reading there shows too. of(sight, minute, reading's place in time)"""
        readings = self.scene.readings
        column = self.light(k, lambda s, i: of(s, readings[i].minute, i))
        now = lambda setup, point, at, minute, figure: of(at, minute, self.count) if setup == k else 0.0
        return Slip(kind, [self.name(k), *more], column, weight, size, now=now)

    def of_setup(self, k):
        return [i for i, r in enumerate(self.scene.readings) if r.setup == k]

    def known(self, k):
        """Whether the book says which way its axes look from each of its readings."""
        setup = self.scene.setups[k]
        return self.scene.laser and setup.oriented and all(self.sights[i].known for i in self.of_setup(k))

    def name(self, k):
        return self.scene.setups[k].name


def free(sd):
    return lambda rng: float(rng.normal(0, sd))


def fixed(b):
    return lambda rng: b


def misread(job):
    total = sum(share for _, share in MISREAD) + MISREAD_FREE[1]

    def size(rng):
        at = rng.random() * total
        for digit, share in MISREAD:
            if at < share:
                return digit if at < share / 2 else -digit
            at -= share
        return float(rng.normal(0, MISREAD_FREE[0]))

    for i in range(job.count):
        yield Slip("misread", [f"r{i}"], job.unit(i), 1.0, size)


def digits_swapped(job):
    for i, true in enumerate(job.figures):
        digits = f"{round(true * 1000):04d}"
        for j in range(3):
            swapped = digits[:j] + digits[j + 1] + digits[j] + digits[j + 2:]
            if swapped != digits and len(digits) == 4:
                yield Slip("digits-swapped", [f"r{i}"], job.unit(i), 1 / 3, fixed(int(swapped) / 1000 - round(true, 3)))


def offset_reversed(job):
    for i, split in enumerate(job.book.split):
        if split and split[1] != 0:
            yield Slip("offset-reversed", [f"r{i}"], job.unit(i), 1.0, fixed(-2 * split[1]), reassigned.Reverse(i))


def offset_omitted(job):
    window = job.scene.window
    for i, split in enumerate(job.book.split):
        if window and not (split and split[1] != 0):
            yield Slip("offset-omitted", [f"r{i}"], job.unit(i), 1.0, free(window / math.sqrt(3)))


def staff_inverted(job):
    """Upside down, of an upright reading; an inverted one booked without its minus."""
    for i, reading in enumerate(job.scene.readings):
        true = job.figures[i]
        if reading.inverted:
            yield Slip("staff-inverted", [f"r{i}"], job.unit(i), 0.5, fixed(-2 * true), reassigned.Upright(i))
        else:
            yield Slip("staff-inverted", [f"r{i}"], job.unit(i), 0.5, fixed(reassigned.LENGTH - 2 * true))


def staff_section(job):
    joints = [at for at, _ in job.scene.staff.get("joints", [])] or [1.30]
    for k in range(len(job.scene.setups)):
        for at in joints:
            above = [i for i in job.of_setup(k) if job.figures[i] > at]
            if above and len(above) < len(job.of_setup(k)):
                now = lambda setup, point, at, minute, figure, k=k, j=at: float(setup == k and figure > j)
                yield Slip("staff-section", [job.name(k), f"r{above[0]}"], job.unit(*above), 1.0, free(0.05), floor=at, now=now)


def wrong_benchmark(job):
    scene = job.scene

    def column(points):
        c = np.zeros(job.count + len(job.weighted))
        for i, r in enumerate(scene.readings):
            c[i] = r.point in points and scene.benchmarks[r.point][0] == 0
        for j, p in enumerate(job.weighted):
            c[job.count + j] = p in points
        return c

    def digits_or_free(rng):
        return float(rng.choice([1.0, 0.1, 0.01, -1.0, -0.1, -0.01])) if rng.random() < 0.5 else float(rng.normal(0, 0.1))

    for p in scene.benchmarks:
        yield Slip("wrong-benchmark", [p], column([p]), 1.0, digits_or_free, levels={p: 1.0})
    sources = {}
    for p, (_, source) in scene.benchmarks.items():
        sources.setdefault(source, []).append(p)
    for points in sources.values():
        if len(points) > 1 and len(sources) > 1:
            yield Slip("wrong-benchmark", points, column(points), 1.0, free(0.1), levels={p: 1.0 for p in points})


def moved_change_point(job):
    readings = job.scene.readings
    for p in dict.fromkeys(r.point for r in readings):
        for k in sorted({r.setup for r in readings if r.point == p})[1:]:
            mine = job.of_setup(k)
            carries = next(i for i in mine if any(r.setup < k and r.point == readings[i].point for r in readings))
            later = [i for i, r in enumerate(readings) if r.point == p and r.setup >= k]
            column = np.zeros(job.count + len(job.weighted))
            column[later] = -1.0
            now = lambda setup, point, at, minute, figure, p=p: -float(point == p)
            yield Slip("moved-change-point", [p, job.name(k)], column, 1.0 if readings[carries].point == p else 0.1, free(0.02), now=now)


def grades(job):
    for k, setup in enumerate(job.scene.setups):
        if not job.known(k):
            continue
        gx, gy = setup.plane
        axes = (("main", 5 / 7, lambda s, t, i: s.u, gx), ("cross", 2 / 7, lambda s, t, i: s.v, gy))
        for axis, share, of, g in axes:
            yield job.lit("grade-left-in", k, [axis], of, share, free(0.005))
            if g:
                yield job.lit("grade-reversed", k, [axis], of, 1.0, fixed(-2 * g))
        if gx and gy and gx != gy:
            yield job.lit("axes-swapped", k, [], lambda s, t, i, x=gx, y=gy: (y - x) * s.u + (x - y) * s.v, 1.0, fixed(1.0))
        if gx or gy:
            yield job.lit("aim-off", k, [], lambda s, t, i, x=gx, y=gy: x * s.v - y * s.u, 0.5, free(math.radians(5)))
            yield job.lit("aim-off", k, [], lambda s, t, i, x=gx, y=gy: x * s.u + y * s.v, 0.5, fixed(-2.0))


def knocked(job):
    for k in range(len(job.scene.setups)):
        mine = job.of_setup(k)
        for first in mine[1:]:
            yield job.lit("knocked", k, [f"r{first}"], lambda s, t, i, f=first: float(i >= f), 1 / (len(mine) - 1), free(0.02))


def settling(job):
    for k in range(len(job.scene.setups)):
        mine = job.of_setup(k)
        if len(mine) > 1:
            began = job.scene.readings[mine[0]].minute
            yield job.lit("settling", k, [f"r{mine[0]}"], lambda s, t, i, b=began: t - b, 1.0, free(0.0002))


def instrument_out(job):
    """Its tilt too where every bearing is known: else each stand's tilt is one of its own."""
    tilts = all(job.known(k) for k in range(len(job.scene.setups)))
    change = reassigned.Out(("tilt x", "tilt y", "cone") if tilts else ("cone",))
    yield Slip("instrument-out", ["I"], np.zeros(job.count + len(job.weighted)), 1.0, fixed(1.0), change)


def other_beam(job):
    if not job.scene.laser:
        return
    for k in range(len(job.scene.setups)):
        mine = job.of_setup(k)
        for run in range(1, 5):
            starts = len(mine) - run + 1
            for j in range(max(starts, 0)):
                beam = np.abs(job.unit(*mine[j: j + run]))  # another light: an inverted staff shows it the other way round
                yield Slip("other-beam", [f"r{i}" for i in mine[j: j + run]], beam, 0.25 / starts, free(1.0))


KINDS = (misread, digits_swapped, offset_reversed, offset_omitted, staff_inverted, staff_section, reassigned.wrong_point,
         reassigned.wrong_setup, wrong_benchmark, moved_change_point, grades, knocked, settling, instrument_out,
         reassigned.wrong_distance, other_beam)


def instances(job):
    """{kind: slips} of what could have happened; their weights add up to the share of the kind's weight that this job holds."""
    found = {}
    for kind in KINDS:
        for slip in kind(job):
            found.setdefault(slip.kind, []).append(slip)
    for kind, slips in found.items():
        total = job.count if kind in ("digits-swapped", "staff-inverted") else sum(s.weight for s in slips)
        for s in slips:
            s.weight /= total
    return found


def odds(found):
    """Prior probability of each kind, and of nothing."""
    weights = {kind: WEIGHTS[kind] * sum(s.weight for s in slips) for kind, slips in found.items()}
    total = NOTHING + sum(weights.values())
    return {None: NOTHING / total, **{kind: w / total for kind, w in weights.items()}}
