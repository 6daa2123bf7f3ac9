#!/usr/bin/python3
"""Writes examples/car-park.book.jsonl: a small car park, its ground levelled on a grid, then its tarmac.

    car_park.py            write the book
    car_park.py --check    exit 1 if the book on disk differs from what would be written
    car_park.py --truth    print what is really there: levels and volumes of the true spots

Errors are drawn by truth.py under names of their own. Nothing of the core is used. Standard library only.
"""

import argparse
import json
import math
import sys
from datetime import datetime, timedelta, timezone
from pathlib import Path

import truth
from make_demo import by_receiver

BOOK = Path(__file__).resolve().parents[2] / "examples" / "car-park.book.jsonl"
DEVICE = "v2"
SURVEYOR = "L. Tarrow"
E0, N0 = 412.0, 708.0
SPACING = 6.0
COLUMNS, ROWS = "JKLNPQ", range(1, 6)  # 30 m east, 24 m north
LEVEL, EAST, NORTH = 31.350, -1 / 50, -1 / 250  # of the finished plane at J1; it falls east to the kerb, then north along it
THICKNESS = 0.380
STRIP = 0.150
GULLY = {"G1": (E0 + 30.0, N0 + 24.0, 0.012)}  # below the plane
LOW = {"Q1": 0.029, "Q3": 0.041, "L4": 0.012}  # laid too low
BENCHMARKS = {"BM1": (405.50, 702.00, 31.842, 0.0), "BM2": (449.00, 738.20, 30.915, 0.002)}
SETUPS = {"S1": {"name": "car park S1", "place": (424.0, 701.0), "bearing": 0.0, "light": 32.914},
          "S2": {"name": "car park S2", "place": (420.0, 736.5), "bearing": 90.0, "light": 32.706}}
LASER = {"reading_sd": truth.READING_SD, "tilt": truth.TILT_GIVEN, "tilt_sd": truth.TILT_SD,
         "setting_tilt_sd": truth.SETTING_TILT_SD, "cone": truth.CONE_GIVEN, "cone_sd": truth.CONE_SD}


def grid():
    """Name, east and north of every corner."""
    for i, column in enumerate(COLUMNS):
        for row in ROWS:
            yield f"{column}{row}", E0 + SPACING * i, N0 + SPACING * (row - 1)


def finished(e, n):
    """The plane as designed."""
    return LEVEL + EAST * (e - E0) + NORTH * (n - N0)


def ground(name, e, n):
    """The field as it was: a gentle fall east, a hump, rough grass."""
    hump = 0.06 * math.sin((e - E0) / 9) * math.cos((n - N0) / 11)
    return 31.085 - 0.0115 * (e - E0) - 0.004 * (n - N0) + hump + truth.draw(f"car park ground {name}", 0.018)


def tarmac(name, e, n):
    """The surface as laid."""
    return finished(e, n) - LOW.get(name, 0.0) + truth.draw(f"car park tarmac {name}", 0.0025)


def gully(name):
    e, n, below = GULLY[name]
    return finished(e, n) - below


class Site:
    """The book being written."""

    def __init__(self):
        self.lines, self.times = [], {}
        self.clock = datetime(2026, 6, 2, 7, 40, tzinfo=timezone(timedelta(hours=1)))

    def entry(self, kind, seconds=35, **fields):
        self.clock += timedelta(seconds=seconds)
        head = {"kind": kind, "id": f"{DEVICE}-{len(self.lines) + 1}", "at": self.clock.isoformat(), "by": SURVEYOR}
        self.lines.append(json.dumps(head | fields, ensure_ascii=False))

    def figure(self, setup, point, what, at, level):
        key = (setup, point)
        self.times[key] = self.times.get(key, 0) + 1
        return truth.reading(SETUPS[setup], f"car park {point}", what, at, level, self.times[key])

    def mark(self, setup, point, sight):
        """A benchmark, read to the millimetre."""
        e, n, level, _ = BENCHMARKS[point]
        r = self.figure(setup, point, None, (e, n), level)
        self.entry("reading", 80, setup=setup, point=point, sight=sight, staff=round(r, 3))

    def spot(self, setup, point, what, at, level):
        r = self.figure(setup, point, what, at, level)
        self.entry("reading", setup=setup, point=point, what=what, **by_receiver(f"car park {setup} {point}", r))

    def set_up(self, name, hours):
        self.clock += timedelta(hours=hours)
        e, n = SETUPS[name]["place"]
        self.entry("setup", 600, name=name, instrument="laser 4", place={"e": e, "n": n},
                   plane={"main": 0, "cross": 0, "bearing": SETUPS[name]["bearing"]}, staff="staff 7", receiver="receiver 4")


def given(site):
    site.entry("book", 0, format="fallwright", version=1, title="Hollowmere depot: car park", datum="Hollowmere site datum", unit="m")
    site.entry("remark", text="A car park of 30 m by 24 m: the field levelled on a 6 m grid, cut and fill to a formation that falls 1 in 50 to the "
               "east kerb; then the tarmac as laid, kerbed all round with one gully: where water will stand, how flat, the plane that fits. "
               f"Drawn from the error model by tools/demo/car_park.py, seed: {truth.SEED}.")
    for name, (e, n, level, sd) in BENCHMARKS.items():
        shown = round(level + truth.draw(f"car park benchmark {name}", sd), 3)
        extra = {"sd": sd, "source": "levelled from BM1 in May"} if sd else {"source": "bolt in the plinth of the gate, site list"}
        site.entry("benchmark", point=name, level=shown, **extra)
    site.entry("instrument", name="laser 4", type="rotating-laser", **LASER, aim_sd=0.5, grade_sd=3e-5, grade_step=1e-5,
               grade_limit=[0.1, 0.1], range=250.0)
    site.entry("staff", name="staff 7", length=4.0, to=truth.STEP, scale_sd=truth.SCALE_SD, joints=truth.JOINTS)
    site.entry("receiver", name="receiver 4", window=0.045, dead_band=0.001)
    for what in ("ground", "finished"):
        site.entry("what", name=what, foot_sd=truth.FOOT_SD[what])
    for name, (e, n, *_) in BENCHMARKS.items():
        site.entry("place", point=name, e=e, n=n)


def places(site, suffix):
    for name, e, n in grid():
        site.entry("place", 2, point=name + suffix, e=e, n=n)


def field(site):
    """The first day: the ground, and what is to be moved."""
    places(site, "")
    site.set_up("S1", 0)
    site.mark("S1", "BM1", "back")
    for name, e, n in grid():
        site.spot("S1", name, "ground", (e, n), ground(name, e, n))
    site.mark("S1", "BM2", "fore")
    site.entry("surface", name="field", what="ground", grid=SPACING, strip=STRIP, bulking=0.25, shrinkage=0.1,
               to={"name": "formation", "level": LEVEL, "at": [E0, N0], "main": "1 in 50 fall", "cross": 0.004, "bearing": 90, "by": THICKNESS})


def laid(site):
    """Weeks later: the tarmac."""
    places(site, " top")
    for name, (e, n, _) in GULLY.items():
        site.entry("place", point=name, e=e - 0.5, n=n - 0.5)
    site.set_up("S2", 24 * 23)
    site.mark("S2", "BM2", "back")
    for name, e, n in grid():
        site.spot("S2", f"{name} top", "finished", (e, n), tarmac(name, e, n))
    for name, (e, n, _) in GULLY.items():
        site.spot("S2", name, "finished", (e - 0.5, n - 0.5), gully(name))
    site.mark("S2", "BM1", "fore")
    site.entry("surface", name="car park", what="finished", bearing=90, edge="kerbed", outlets=list(GULLY), contours=0.1,
               to=[{"name": "as designed", "level": LEVEL, "at": [E0, N0], "main": "1 in 50 fall", "cross": 0.004, "bearing": 90},
                   {"name": "the field", "surface": "field"}], flatness=["din-18202-row-3"])
    site.entry("want", surface="car park", setup="S2")


def site_book():
    site = Site()
    for part in (given, field, laid):
        part(site)
    return site


def print_truth():
    for name, e, n in grid():
        print(f"{name} ground {ground(name, e, n):.4f} tarmac {tarmac(name, e, n):.4f} designed {finished(e, n):.4f}")
    weights = {name: (1 if name[0] in "JQ" else 2) * (1 if name[1] in "15" else 2) for name, _, _ in grid()}
    net = sum(weights[name] * (ground(name, e, n) - STRIP - finished(e, n) + THICKNESS) for name, e, n in grid())
    print(f"cut less fill to formation by the corner weights: {net * SPACING**2 / 4:.2f} m3")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--check", action="store_true", help="compare with the book on disk, write nothing")
    parser.add_argument("--truth", action="store_true", help="print the true values, write nothing")
    args = parser.parse_args()
    text = "\n".join(site_book().lines) + "\n"
    if args.truth:
        print_truth()
    elif not args.check:
        BOOK.write_bytes(text.encode())
    elif not BOOK.exists() or BOOK.read_bytes() != text.encode():
        sys.exit(f"{BOOK.name} is not what car_park.py writes: run tools/demo/car_park.py")


if __name__ == "__main__":
    main()
