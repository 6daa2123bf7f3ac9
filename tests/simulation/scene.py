"""A job as it really is: where everything stands, how high it lies, and what is read from where. No error in it yet.

Metres; e and n of the grid, or, on a line without plan, offset (right positive) and chainage. A bearing counts clockwise from n.
"""

from dataclasses import dataclass, field
from typing import Optional

FOOT = {None: 0.0003, "laid": 0.001, "finished": 0.001, "formation": 0.005, "ground": 0.010, "peg": 0.001}
LASER = dict(reading_sd=0.0012, sd_per_m=0.0, tilt_sd=2e-5, setting_tilt_sd=1.3e-5, cone_sd=2e-5, aim_sd=0.5, grade_sd=3e-5)
LEVEL = dict(reading_sd=0.0008, sd_per_m=1.2e-5, collimation_sd=5e-5)
EXPECTATION = 0.025  # sd of what was built about its design
STEP = 0.001  # every figure is booked to the millimetre


@dataclass
class Point:
    name: str
    at: tuple  # e, n
    level: float  # the truth
    what: Optional[str] = None
    on_line: Optional[tuple] = None  # chainage, offset of a point named by its line
    placed: bool = True  # whether the book says where it is
    design: Optional[float] = None


@dataclass
class Setup:
    name: str
    at: tuple
    light: float  # height of the plane at the instrument
    bearing: float = 0.0  # of the main axis
    plane: tuple = (0.0, 0.0)
    placed: bool = True
    oriented: bool = True  # whether the book says the bearing
    receiver: bool = False


@dataclass
class Reading:
    setup: int
    point: str
    minute: float
    sight: str = "inter"
    form: str = "staff"  # or mark
    inverted: bool = False
    dist: bool = False  # whether the book says how far
    booked_as: Optional[str] = None  # of a wrong name; the staff stands on `point`
    booked_in: Optional[int] = None  # of a wrong set-up


@dataclass
class Scene:
    layout: str
    instrument: dict  # the figures of LASER or LEVEL, as the book gives them
    given: bool  # whether the book gives them, or leaves the defaults
    laser: bool
    means: dict = field(default_factory=dict)  # tested tilt and cone, where the book gives them
    points: dict = field(default_factory=dict)
    benchmarks: dict = field(default_factory=dict)  # point: (sd, source)
    setups: list = field(default_factory=list)
    readings: list = field(default_factory=list)  # in time order
    line: Optional[dict] = None  # name, use, level, gradient, crossfall, length
    staff: dict = field(default_factory=dict)  # zero_sd, scale_sd, joints [(at, sd)], length
    window: Optional[float] = None
    mode: str = "placed"  # or "bare": set-ups, and points off the line, without place
    assumed_sight: float = 30.0  # of a book that tells no distances

    def point(self, name, at, level, **more):
        self.points[name] = Point(name, at, level, **more)
        return name

    def design(self, ch, off):
        line = self.line
        return line["level"] + line["gradient"] * ch + line["crossfall"] * off

    def station(self, ch, off, what, rng):
        """A point of the line, built about its design."""
        ch = round(ch, 3)
        name = line_name(self.line["name"], ch, off, what)
        if name not in self.points:
            design = self.design(ch, off)
            self.points[name] = Point(name, (off, ch), design + rng.normal(0, EXPECTATION), what, (ch, off), True, design)
        return name

    def read(self, point, minute, sight="inter", **more):
        """From the set-up that stands last."""
        self.readings.append(Reading(len(self.setups) - 1, point, minute, sight, **more))


def line_name(line, ch, off, what):
    side = f" {'L' if off < 0 else 'R'}{abs(off):.3f}" if abs(off) >= 5e-4 else ""
    return f"{line} {ch:.3f}{side} {what}"
