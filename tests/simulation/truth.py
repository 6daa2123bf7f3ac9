"""Draws the errors of a job and writes its book: what was read, rounded, as the surveyor would book it."""

import json
import math
from datetime import datetime, timedelta, timezone

from model import Model, sight
from scene import STEP

START = datetime(2026, 5, 4, 7, 0, tzinfo=timezone.utc)


class Truth:
    """All errors of one job, each drawn when it is first asked for."""

    def __init__(self, scene, rng):
        self.scene, self.rng, self.model = scene, rng, Model(scene, True)
        self.errors = {}
        self.listed = {p: round(scene.points[p].level, 3) for p in scene.benchmarks}
        for p, (sd, _) in scene.benchmarks.items():
            scene.points[p].level = self.listed[p] - (rng.normal(0, sd) if sd else 0.0)
        self.deviates = [float(rng.normal()) for _ in scene.readings]
        self.exact = [self.figure(r, z) for r, z in zip(scene.readings, self.deviates)]

    def error(self, name):
        if name not in self.errors:
            mean, sd = self.model.priors[name]
            self.errors[name] = mean + sd * float(self.rng.normal())
        return self.errors[name]

    def body(self, name):
        """An error of the instrument itself; 0 where it has none of the kind."""
        kit, figure = self.scene.instrument, "cone_sd" if name == "cone" else "tilt_sd"
        sd = kit.get(figure, kit.get("collimation_sd", 0.0) if name == "cone" else 0.0)
        if sd:
            self.model.priors.setdefault(name, (self.scene.means.get(name, 0.0), sd))
        return self.error(name) if sd else 0.0

    def figure(self, reading, deviate):
        """What stands on the staff before rounding, upright positive or, for an inverted staff, from its foot down."""
        scene, setup = self.scene, self.scene.setups[reading.setup]
        terms, constant = self.model.terms(reading)
        height = setup.light + constant - scene.points[reading.point].level
        height += sum(c * self.error(name) for name, c in terms.items())
        r = -height if reading.inverted else height
        staff = scene.staff
        r += self.staff_error("zero", staff.get("zero_sd", 0))
        r += sum(self.staff_error(f"joint {at}", sd) for at, sd in staff.get("joints", []) if r > at)
        r /= 1 - self.staff_error("scale", staff.get("scale_sd", 0))
        sd = self.model.noise(reading, r)
        return r + math.sqrt(sd**2 - STEP**2 / 12) * deviate

    def staff_error(self, name, sd):
        if not sd:
            return 0.0
        self.model.priors[name] = (0.0, sd)
        return self.error(name)

    def light(self, setup):
        """Gradients of the light along the axes the answer speaks of, and the height the answer calls the plane's."""
        x, y = (g + (self.errors.get(f"grade {a} {setup.name}", 0.0) if g else 0.0) for a, g in zip("xy", setup.plane))
        if self.scene.laser:
            x += self.errors.get("tilt x", 0.0) + self.errors.get(f"setting x {setup.name}", 0.0)
            y += self.errors.get("tilt y", 0.0) + self.errors.get(f"setting y {setup.name}", 0.0)
        if setup.oriented:
            return x, y
        b = math.radians(setup.bearing)
        return x * math.cos(b) - y * math.sin(b), x * math.sin(b) + y * math.cos(b)


def rounded(figure):
    return round(round(figure / STEP) * STEP, 3)


class Book:
    """The entries of a job: what is booked. figures: one for each reading, of an inverted staff from its foot down."""

    def __init__(self, truth, figures, marks, readings=None, levels=None):
        self.scene, self.figures, self.levels = truth.scene, figures, levels or truth.listed
        self.readings, self.marks = readings or self.scene.readings, marks
        self.split = [mark_and_offset(f, m) if r.form == "mark" and not r.inverted else None
                      for f, m, r in zip(figures, marks, self.readings)]
        self.as_upright = set()  # inverted readings booked as if they were not

    def entries(self, count=None):
        """As JSON lines; with `count`, as far as that reading."""
        yield self.line(kind="book", format="fallwright", version=1)
        yield from self.head()
        told = set()
        for i, reading in enumerate(self.readings[:count]):
            stand = reading.setup if reading.booked_in is None else reading.booked_in
            for j in range(max(stand, reading.setup) + 1):
                if j not in told:
                    told.add(j)
                    yield self.setup(self.scene.setups[j], self.at(reading.minute - 0.2))
            yield self.reading(i, reading, stand)

    @staticmethod
    def line(**fields):
        return json.dumps({k: v for k, v in fields.items() if v is not None})

    @staticmethod
    def at(minute):
        return (START + timedelta(minutes=minute)).strftime("%Y-%m-%dT%H:%M:%S.%f")[:-3] + "Z"

    def place(self, at):
        return {"e": at[0], "n": at[1]} if self.scene.line is None else {"line": self.scene.line["name"], "ch": at[1], "off": at[0]}

    def head(self):
        scene = self.scene
        for p, (sd, source) in scene.benchmarks.items():
            yield self.line(kind="benchmark", point=p, level=self.levels[p], sd=sd or None, source=source)
        if scene.mode == "bare":
            yield self.line(kind="rule", name="assumed-sight", values={"d": scene.assumed_sight})
        kit = dict(scene.instrument) if scene.given else {}
        if scene.given and scene.laser:
            kit |= {"tilt": [scene.means["tilt x"], scene.means["tilt y"]], "cone": scene.means["cone"]}
        kit = {k: v for k, v in kit.items() if v != 0.0 or k in ("cone", "tilt")}
        yield self.line(kind="instrument", name="I", type="rotating-laser" if scene.laser else "optical-level", **kit)
        if scene.staff:
            joints = [{"at": at, "step_sd": sd} for at, sd in scene.staff["joints"]]
            yield self.line(kind="staff", name="T", **{**scene.staff, "joints": joints})
        if scene.window:
            yield self.line(kind="receiver", name="E", window=scene.window)
        if scene.line:
            yield self.the_line(scene.line)
        for p in scene.points.values():
            if p.placed and p.on_line is None:
                yield self.line(kind="place", point=p.name, **self.place(p.at))

    def the_line(self, line):
        profile = [{"ch": 0.0, "level": line["level"]}, {"ch": line["length"], "gradient": line["gradient"]}]
        return self.line(kind="line", name=line["name"], use=line["use"], profile=profile, crossfall=line["crossfall"] or None)

    def setup(self, setup, at):
        scene = self.scene
        plane = None
        if scene.laser:
            plane = {"main": setup.plane[0], "cross": setup.plane[1], **({"bearing": setup.bearing} if setup.oriented else {})}
        return self.line(kind="setup", at=at, name=setup.name, instrument="I", place=self.place(setup.at) if setup.placed else None,
                         plane=plane, staff="T" if scene.staff else None, receiver="E" if setup.receiver else None)

    def reading(self, i, reading, stand):
        scene = self.scene
        point = scene.points[reading.booked_as or reading.point]
        where = {"point": point.name}
        if point.on_line:
            ch, off = point.on_line
            where = {"line": scene.line["name"], "ch": ch, "off": off or None, "what": point.what}
        elif point.what:
            where["what"] = point.what
        dist = round(sight(scene, reading, True).d, 1) if reading.dist else None
        return self.line(kind="reading", id=f"r{i}", at=self.at(reading.minute), setup=scene.setups[stand].name, **where,
                         sight=reading.sight, dist=dist, inverted=(reading.inverted and i not in self.as_upright) or None, **self.value(i, reading))

    def value(self, i, reading):
        if self.split[i] is None:
            return {"staff": self.figures[i]}
        mark, offset = self.split[i]
        return {"mark": mark, ("low" if offset > 0 else "high"): abs(offset)}


def mark_and_offset(figure, shift):
    """The receiver's figures: upright reading = mark + low, or mark - high."""
    mark = round(figure + shift, 2)
    return mark, round(figure - mark, 3)


def clean(scene, rng):
    """(truth, book) of a job in which nothing went wrong."""
    truth = Truth(scene, rng)
    marks = [float(rng.uniform(-0.04, 0.04)) for _ in truth.exact]
    return truth, Book(truth, [rounded(f) for f in truth.exact], marks)
