"""The drain of the demo: what was wanted under the lane, how it was laid, and how that was read with the light set to its fall.

The part of the demo that comes after the lane was levelled: evening (the design and what is allowed), laying (two set-ups,
one on each side of the bend, receiver clamped, HIGH or LOW at every joint), next_day (the worst joint laid anew). All errors are
drawn by names of their own (truth.py), so no figure of the lane changes. Metres; gradients as rise per length.
"""

import math

import truth

LINE, FALL = "D1", 1 / 150
DIALLED = round(-FALL, 5)  # what the keypad takes
BORE, WALL, BEDDING = 0.225, 0.018, 0.100
STORM, ROUGHNESS = "24 l/s", 0.0006  # of the design's storm; of the pipe
PIPE = 6.0
CHAMBERS = [
    {"name": "MH1", "ch": 0.0, "in": 45.900, "cover": 47.275},
    {"name": "MH2", "ch": 54.0, "in": 45.540, "out": 45.520, "cover": 46.940},
    {"name": "MH3", "ch": 96.0, "in": 45.240, "cover": 46.690},
]
LANE_CH, LANE_OFF = 2.0, 1.0  # of its upper end, on the lane
BEND = 54.0
GROUND_EVERY = 12.0
LAID_SD = 0.003
OUT = {30.0: 0.019, 66.0: -0.021}  # two joints that went wrong, and by how much
AGAIN = 66.0  # the one that was laid anew
TOLERANCE = 0.010


def bearing(i):
    """Of each run: parallel to the lane."""
    return truth.bearing_of_segment(i)


def on_plan(ch, off=0.0):
    """East and north of a chainage of the drain; the end segments go on."""
    e, n = truth.on_plan(LANE_CH, LANE_OFF)
    for i, ahead in ((0, min(ch, BEND)), (1, max(0.0, ch - BEND))):
        beta = math.radians(bearing(i))
        e, n = e + ahead * math.sin(beta), n + ahead * math.cos(beta)
    beta = math.radians(bearing(0 if ch <= BEND else 1))
    return e + off * math.cos(beta), n - off * math.sin(beta)


PLAN = [[round(x, 4) for x in on_plan(ch)] for ch in (0.0, BEND, 96.0)]


def ground(ch):
    """The lane over the drain."""
    return truth.ground(LANE_CH + ch, LANE_OFF)


SETUPS = {
    "S3": {"name": "S3", "place": on_plan(-5.0, 0.6), "bearing": bearing(0), "light": 48.790, "plane": (DIALLED, 0.0)},
    "S4": {"name": "S4", "place": on_plan(101.0, -1.5), "bearing": bearing(1), "light": 47.915, "plane": (DIALLED, 0.0)},
    "S5": {"name": "S5", "place": on_plan(100.0, -1.6), "bearing": bearing(1), "light": 47.931, "plane": (DIALLED, 0.0)},
}
STANDS = {"S3": {"ch": -5.0, "off": 0.6}, "S4": {"ch": 101.0, "off": -1.5}, "S5": {"ch": 100.0, "off": -1.6}}


def design(ch, what="laid"):
    """Level wanted of the invert; at the middle chamber it steps."""
    upper, middle = CHAMBERS[:2]
    if ch < middle["ch"] or (ch == middle["ch"] and what == "laid in"):
        return upper["in"] - FALL * ch
    return middle["out"] - FALL * (ch - middle["ch"])


def laid(ch, what="laid", anew=False):
    """Level the invert really has."""
    error = truth.draw(f"laid {ch:.3f} {what}{' anew' if anew else ''}", LAID_SD)
    return design(ch, what) + error + (0 if anew else OUT.get(ch, 0.0))


def joints(from_ch, to_ch):
    """Chainage and surface of every spigot end of a run between two chambers, with the water."""
    count = round((to_ch - from_ch) / PIPE)
    for i in range(count + 1):
        yield from_ch + i * PIPE, "laid out" if i == 0 else "laid in" if i == count else "laid"


def evening(day):
    """The drain as designed that evening, what is allowed of it, and which tables are wanted."""
    day.clock += truth.hours(2)
    day.entry("remark", text="The drain: 225 mm at 1 in 150 under the lane, a little steeper than the lane itself; a drop of 20 mm at "
              "the bend. Dig only behind support and after a look for services: the competent person decides.")
    pipes = [{"from": ch, "to": ch + PIPE, "bore": BORE, "wall": WALL, "bedding": BEDDING} for ch, what in stations() if
             what in ("laid", "laid out")]
    day.entry("line", name=LINE, use="drain", plan=PLAN, start=0.0, pipes=pipes, chambers=CHAMBERS, outlets=[96.0])
    day.entry("rule", name="hydraulics", values={"flow": STORM, "roughness": ROUGHNESS})
    day.entry("tolerance", line=LINE, what="laid", below=-TOLERANCE, above=TOLERANCE, fall_min=1 / 200, source="specification of the works")
    for what in ("laid in", "laid out"):
        day.entry("tolerance", line=LINE, what=what, below=-TOLERANCE, above=TOLERANCE, source="specification of the works")


def stations():
    """Every joint of the drain."""
    for above, below in zip(CHAMBERS, CHAMBERS[1:]):
        yield from joints(above["ch"], below["ch"])


def set_up(day, name, back, clamp_at, seconds=1800):
    """The light set to the drain's fall and tied in, the receiver clamped where the drain wants it."""
    setup = SETUPS[name]
    east, north = (a - b for a, b in zip(truth.PLACES[back], setup["place"]))
    beta = math.radians(setup["bearing"])
    ch, what = clamp_at
    east_at, north_at = (a - b for a, b in zip(on_plan(ch), setup["place"]))
    further = (east_at - east) * math.sin(beta) + (north_at - north) * math.cos(beta)
    figure = day.next_figure(setup, back)
    mark = round(day.given(back) + figure + DIALLED * further - design(ch, what), 3)
    day.entry("setup", seconds, name=name, instrument="laser 2", place={"line": LINE} | STANDS[name],
              plane={"main": DIALLED, "cross": 0, "towards": LINE}, clamp=mark, staff="staff 5", receiver="receiver 2")
    day.mark(setup, back, "back")
    return mark


def read_joint(day, setup, mark, ch, what, anew=False):
    """Nothing but HIGH or LOW at the clamp; on grade is HIGH 0."""
    point = f"{LINE} {ch:.3f} {what}{' anew' if anew else ''}"
    r = day.true_figure(setup, point, "laid", on_plan(ch), laid(ch, what, anew))
    high = round(mark - round(r, 3), 3)
    value = {"high": high} if high >= 0 else {"low": -high}
    day.entry("reading", 240, setup=setup["name"], line=LINE, ch=ch, what=what, **value)


def read_ground(day, setup, from_ch, to_ch):
    """What is there to dig from, before the tarmac is broken."""
    ch = from_ch
    while ch <= to_ch:
        r = day.true_figure(setup, f"{LINE} {ch:.3f} ground", "ground", on_plan(ch), ground(ch))
        day.entry("reading", 60, setup=setup["name"], line=LINE, ch=ch, what="ground", staff=round(r, 3))
        ch += GROUND_EVERY


def laying(day):
    """The next two days in the trench, in short: one set-up a run, every joint read before the haunch is placed."""
    runs = zip(("S3", "S4"), ("BM1", "CP1"), (14, 23), zip(CHAMBERS, CHAMBERS[1:]))
    for name, back, later, (above, below) in runs:
        day.clock += truth.hours(later)
        mark = set_up(day, name, back, (above["ch"], "laid out"))
        day.entry("want", 20, line=LINE, setup=name, every=PIPE, what=["laid", "formation"])
        read_ground(day, SETUPS[name], above["ch"] + (6.0 if above["ch"] else 0.0), below["ch"])
        for ch, what in joints(above["ch"], below["ch"]):
            read_joint(day, SETUPS[name], mark, ch, what)
        day.mark(SETUPS[name], {"S3": "CP1", "S4": "BM2"}[name], "fore")


def next_day(day):
    """One of the two joints that are out is lifted and laid anew, and read from a new set-up."""
    day.clock += truth.hours(24)
    day.entry("relaid", line=LINE, what="laid", **{"from": AGAIN, "to": AGAIN}, why="21 mm low: both pipes lifted, bedding made good")
    mark = set_up(day, "S5", "BM2", (AGAIN, "laid"))
    read_joint(day, SETUPS["S5"], mark, AGAIN, "laid", anew=True)
    day.mark(SETUPS["S5"], "CP1", "fore")
