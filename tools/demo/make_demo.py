#!/usr/bin/python3
"""Writes examples/lane.book.jsonl, the demo book: a lane is levelled, a storm drain designed under it, laid and checked, the
lane made good over it.

    make_demo.py            write the book
    make_demo.py --check    exit 1 if the book on disk differs from what would be written
    make_demo.py --truth    print what is really there, to hold adjusted results against

The job is told in order by the functions morning, first_setup, second_setup, close, and those of drain.py and road.py. truth.py draws
the errors. Standard library only.
"""

import argparse
import json
import sys
from datetime import datetime, timedelta, timezone
from pathlib import Path

import drain
import road
import truth

BOOK = Path(__file__).resolve().parents[2] / "examples" / "lane.book.jsonl"
DEVICE = "q4"
SURVEYOR, STAFF_HOLDER = "R. Quill", "O. Fenn"
STATION = 8.0
SECTIONS = [16.0, 40.0, 72.0, 96.0]
SECTION_OFFSETS = [-4.0, -2.2, 2.2, 4.0]
LEVELLED = {"CP1": 47.042}  # of the first day
S1 = {"name": "S1", "place": truth.on_plan(30.0, 3.4), "bearing": truth.bearing_of_segment(0), "light": 48.735}
S2 = {"name": "S2", "place": truth.on_plan(74.0, -3.1), "bearing": 254.0, "light": 48.502}


class Day:
    """The book being written: ids of one device, a clock that only goes forward, readings as a person books them."""

    def __init__(self):
        self.lines = []
        self.clock = datetime(2026, 4, 14, 8, 5, tzinfo=timezone(timedelta(hours=1)))
        self.read = {}

    def entry(self, kind, seconds=40, by=SURVEYOR, **fields):
        """Appends one entry and returns its id."""
        self.clock += timedelta(seconds=seconds)
        name = f"{DEVICE}-{len(self.lines) + 1}"
        head = {"kind": kind, "id": name, "at": self.clock.isoformat(), "by": by}
        self.lines.append(json.dumps(head | fields, ensure_ascii=False))
        return name

    def true_figure(self, setup, point, what, at, level):
        """The next reading of the point in this set-up, before rounding."""
        key = (setup["name"], point)
        self.read[key] = self.read.get(key, 0) + 1
        return truth.reading(setup, point, what, at, level, self.read[key])

    def next_figure(self, setup, point):
        """What the next reading of a benchmark or change point will be, without taking it."""
        taken = self.read.get((setup["name"], point), 0)
        level = (truth.BENCHMARKS | truth.CHANGE_POINTS)[point]
        return round(truth.reading(setup, point, None, truth.PLACES[point], level, taken + 1), 3)

    @staticmethod
    def given(point):
        """The level the crew works from: the client's, or the change point's as levelled on the first day."""
        return truth.given_benchmark(point) if point in truth.BENCHMARKS else LEVELLED[point]

    def mark(self, setup, point, sight):
        """A benchmark or change point: the receiver is moved until it is on grade, the staff read to the millimetre."""
        level = (truth.BENCHMARKS | truth.CHANGE_POINTS)[point]
        r = self.true_figure(setup, point, None, truth.PLACES[point], level)
        return self.entry("reading", 75, setup=setup["name"], point=point, sight=sight, staff=round(r, 3))

    def ground(self, setup, ch, off=0.0, seconds=45, error=0.0, miskey=0.0):
        """A ground reading. error: by how much the foot stood wrong; miskey: how much the mark keyed differs from that read."""
        point = f"{ch:.3f} {off:.3f}"
        r = self.true_figure(setup, point, "ground", truth.on_plan(ch, off), truth.ground(ch, off)) - error
        where = {"line": "R1", "ch": ch} | ({"off": off} if off else {}) | {"what": "ground"}
        value = by_receiver(f"{setup['name']} {point} {self.read[(setup['name'], point)]}", r)
        if miskey:
            value["mark"] = round(value["mark"] + miskey, 3)
        return self.entry("reading", seconds, setup=setup["name"], **where, **value), value

    def section(self, setup, ch):
        """A cross section, left to right."""
        for off in SECTION_OFFSETS:
            self.ground(setup, ch, off, 35)


def by_receiver(name, r):
    """A reading as booked: the receiver stands at a full centimetre near the light and shows HIGH or LOW in millimetres;
    on grade, the figure of the staff is booked."""
    mark = round(round(r, 2) + truth.pick(f"hand {name}", [-0.02, -0.01, 0.0, 0.0, 0.01, 0.02]), 3)
    high = round(mark - r, 3)
    if high > 0:
        return {"mark": mark, "high": high}
    return {"mark": mark, "low": -high} if high < 0 else {"staff": mark}


def kit(day):
    """Instrument, staff, receiver and what the foot can find, as their check cards give them."""
    day.entry("instrument", name="laser 2", type="rotating-laser", reading_sd=truth.READING_SD, tilt=truth.TILT_GIVEN,
              tilt_sd=truth.TILT_SD, setting_tilt_sd=truth.SETTING_TILT_SD, cone=truth.CONE_GIVEN, cone_sd=truth.CONE_SD,
              aim_sd=0.5, grade_sd=3e-5, grade_step=1e-5, grade_limit=[0.1, 0.1], range=250.0,
              keypad={"main_plus": "rises", "cross_plus": "rises", "cross_side": "right", "grade_unit": "%"})
    day.entry("staff", name="staff 5", length=4.0, to=truth.STEP, scale_sd=truth.SCALE_SD, joints=truth.JOINTS)
    day.entry("receiver", name="receiver 2", window=0.045, dead_band=0.001)
    day.entry("what", name="ground", foot_sd=truth.FOOT_SD["ground"])


def morning(day):
    """The book, what is given, and the lane as it lies."""
    day.entry("book", 0, format="fallwright", version=1, title="Nettlebank Lane, Overmarl: levels for the storm drain",
              datum="Overmarl site datum", unit="m")
    day.entry("remark", text="The demo: a lane of about 100 m that falls about 1 in 160, levelled with a rotating laser from two "
              "set-ups, the second turned half round, and closed on both benchmarks. Ground every 8 m and four cross sections; "
              "one slip amended, one reading struck. Then a storm drain under it: designed, laid with the light set to its fall, "
              "two joints out, one of them laid anew the next day; then the lower lane made good over it, base and surface. Drawn from the error model by tools/demo/make_demo.py, seed: "
              f"{truth.SEED}.")
    day.entry("benchmark", point="BM1", level=truth.given_benchmark("BM1"), source="bolt in the gatepost of no. 2, client's list")
    day.entry("benchmark", point="BM2", level=truth.given_benchmark("BM2"), sd=truth.BENCHMARK_SD["BM2"],
              source="culvert headwall, levelled last autumn from BM1")
    kit(day)
    day.entry("line", name="R1", use="road", plan=truth.PLAN, start=0.0)
    for point, (e, n) in truth.PLACES.items():
        day.entry("place", point=point, e=e, n=n)


def first_setup(day):
    """From the top of the lane to the bend. A mark keyed 100 mm short is noticed and amended two stations on."""
    day.entry("setup", 900, name="S1", instrument="laser 2", place={"line": "R1", "ch": 30.0, "off": 3.4},
              plane={"main": 0, "cross": 0, "towards": "R1"}, staff="staff 5", receiver="receiver 2")
    day.mark(S1, "BM1", "back")
    for i in range(8):
        ch = i * STATION
        name, value = day.ground(S1, ch, miskey=-0.1 if ch == 24.0 else 0.0)
        if ch == 24.0:
            slip, keyed = name, value["mark"]
        if ch == 40.0:
            day.entry("amend", 30, of=slip, set={"mark": round(keyed + 0.1, 3)}, was={"mark": keyed},
                      why=f"mark keyed 100 mm short, {STAFF_HOLDER} called {keyed + 0.1:.2f}")
        if ch in SECTIONS:
            day.section(S1, ch)
    day.mark(S1, "CP1", "fore")


def second_setup(day):
    """From the bend down, the main axis pointing back up the lane; two stations are read again from here."""
    day.entry("setup", 4 * 3600, name="S2", instrument="laser 2", place={"line": "R1", "ch": 74.0, "off": -3.1},
              plane={"main": 0, "cross": 0, "bearing": S2["bearing"]}, staff="staff 5", receiver="receiver 2")
    day.mark(S2, "CP1", "back")
    for i in range(6, 14):
        ch = i * STATION
        if ch == 88.0:
            name, _ = day.ground(S2, ch, error=0.038)
            day.entry("strike", 25, of=name, why="staff stood on a loose stone, read again beside it")
        day.ground(S2, ch)
        if ch in SECTIONS:
            day.section(S2, ch)


def close(day):
    """The check at the end of the day: the other benchmark, then the one it began from."""
    day.mark(S2, "BM2", "inter")
    day.entry("remark", 120, by=STAFF_HOLDER, text="Laser left standing while the verge was marked out; dry and overcast, no wind.")
    day.clock += timedelta(hours=2)
    day.mark(S2, "BM1", "fore")


def demo_day():
    """The whole book."""
    day = Day()
    for part in (morning, first_setup, second_setup, close, drain.evening, drain.laying, drain.next_day, road.made_good, road.base, road.surface):
        part(day)
    return day


def stations():
    """Chainage and offset of all that is read along the lane."""
    return [(i * STATION, 0.0) for i in range(14)] + [(ch, off) for ch in SECTIONS for off in SECTION_OFFSETS]


def straight_line(x, y):
    """Gradient, level at 0 and root mean square of what is left, by ordinary least squares."""
    n, mean_x, mean_y = len(x), sum(x) / len(x), sum(y) / len(y)
    gradient = sum((a - mean_x) * b for a, b in zip(x, y)) / sum((a - mean_x) ** 2 for a in x)
    at_0 = mean_y - gradient * mean_x
    return gradient, at_0, (sum((b - at_0 - gradient * a) ** 2 for a, b in zip(x, y)) / n) ** 0.5


def print_truth():
    """True values, one a line: errors first, then levels by the names the core gives the points."""
    for axis, tilt in zip(("main", "cross"), truth.instrument_tilt()):
        print(f"instrument tilt {axis:5} {tilt * 1e6:8.2f} e-6")
    for s in (S1, S2):
        for axis, tilt, body in zip(("main", "cross"), truth.setting_tilt(s["name"]), truth.instrument_tilt()):
            print(f"{s['name']} setting tilt {axis:5} {tilt * 1e6:8.2f} e-6, light {(tilt + body) * 1e6:8.2f} e-6")
        print(f"{s['name']} plane at the laser {s['light']:.4f}")
    print(f"cone {truth.cone() * 1e6:8.2f} e-6\nstaff scale {truth.draw('staff scale', truth.SCALE_SD) * 1e6:.1f} e-6")
    for point, level in (truth.BENCHMARKS | truth.CHANGE_POINTS).items():
        print(f"{point} {level:.4f}")
    for ch, off in stations():
        side = "" if not off else f" {'R' if off > 0 else 'L'}{abs(off):.3f}"
        print(f"R1 {ch:.3f}{side} ground {truth.ground(ch, off):.4f}")
    on_line = [ch for ch, off in stations() if off == 0]
    gradient, level_at_0, rms = straight_line(on_line, [truth.ground(ch) for ch in on_line])
    print(f"best straight line through the true ground: gradient {gradient:.7f}, 1 in {-1 / gradient:.1f} falling, "
          f"at 0 {level_at_0:.4f}, rms {rms:.4f}")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--check", action="store_true", help="compare with the book on disk, write nothing")
    parser.add_argument("--truth", action="store_true", help="print the true values, write nothing")
    args = parser.parse_args()
    text = "\n".join(demo_day().lines) + "\n"
    if args.truth:
        print_truth()
    elif not args.check:
        BOOK.write_bytes(text.encode())
    elif not BOOK.exists() or BOOK.read_bytes() != text.encode():
        sys.exit(f"{BOOK.name} is not what make_demo.py writes: run tools/demo/make_demo.py")


if __name__ == "__main__":
    main()
