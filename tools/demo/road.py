"""The road of the demo: the lower lane made good over the drain, in layers, and how they were read.

The part of the demo that comes last: made_good (the design, its layers and the table they are held to), base and surface (a
level set-up each morning, three points across every eight metres). All errors are drawn by names of their own (truth.py), so no
figure of the lane or the drain changes. Metres; gradients as rise per length.
"""

import truth

LINE = "R2"
FROM, TO, EVERY = 56.0, 104.0, 8.0  # chainages of the lane
FALL, CROSSFALL = 1 / 160, -0.020  # as the lane fell before
LEVEL = 46.955  # of the finished surface at FROM, on the centre line
EDGE = 2.2
LAYERS = [("finished", 0.040), ("base", 0.080), ("sub-base", 0.150)]
BUILT_SD = {"base": 0.006, "finished": 0.0025}
HOLLOW = {(80.0, EDGE, "finished"): -0.009}  # one low spot at the edge
STAND = {"ch": 76.0, "off": -3.4}


def across(off):
    """From the left edge: one crossfall over the whole width, as a lane is drained to one side."""
    return CROSSFALL * off


def depth(what):
    """Of a layer's top under the finished surface."""
    names = [name for name, _ in LAYERS]
    return sum(thickness for _, thickness in LAYERS[:names.index(what)])


def built(ch, off, what):
    """Level the layer really has."""
    level = LEVEL - FALL * (ch - FROM) + across(off) - depth(what)
    return level + truth.draw(f"built {ch:.3f} {off:.3f} {what}", BUILT_SD[what]) + HOLLOW.get((ch, off, what), 0.0)


def setup(name, light):
    place = truth.on_plan(STAND["ch"], STAND["off"])
    return {"name": name, "place": place, "bearing": truth.bearing_of_segment(1), "light": light}


SETUPS = {"S6": setup("S6", 48.312), "S7": setup("S7", 48.297)}


def stations():
    """Chainage and offset of what is read of a layer."""
    count = round((TO - FROM) / EVERY)
    return [(FROM + i * EVERY, off) for i in range(count + 1) for off in (-EDGE, 0.0, EDGE)]


def made_good(day):
    """What is wanted of the lane over the drain."""
    day.clock += truth.hours(20)
    day.entry("remark", text="The lane over the lower run made good: 40 mm of surface on 80 mm of base on 150 mm of sub-base, crossfall as "
              "before. Keep the traffic away from who holds the staff.")
    day.entry("line", name=LINE, use="road", plan=[[round(x, 4) for x in truth.on_plan(ch)] for ch in (FROM, TO)], start=FROM,
              profile=[{"ch": FROM, "level": LEVEL}, {"ch": TO, "gradient": "1 in 160 fall"}],
              crossfall=CROSSFALL, edges=[EDGE, EDGE], layers=[{"what": what, "thickness": thickness} for what, thickness in LAYERS])
    day.entry("tolerance", line=LINE, preset="pavement")


def read_layer(day, name, what, hours):
    """A level set-up, tied to the second benchmark and closed on it."""
    day.clock += truth.hours(hours)
    day.entry("setup", 600, name=name, instrument="laser 2", place={"line": "R1"} | STAND, plane={"main": 0, "cross": 0, "towards": "R1"},
              staff="staff 5", receiver="receiver 2")
    day.mark(SETUPS[name], "BM2", "back")
    for ch, off in stations():
        r = day.true_figure(SETUPS[name], f"{LINE} {ch:.3f} {off:.3f} {what}", what, truth.on_plan(ch, off), built(ch, off, what))
        where = {"line": LINE, "ch": ch} | ({"off": off} if off else {}) | {"what": what}
        day.entry("reading", 40, setup=name, **where, staff=round(r, 3))
    day.mark(SETUPS[name], "BM2", "fore")


def base(day):
    read_layer(day, "S6", "base", 8)


def surface(day):
    """The morning after, before the lane is opened."""
    day.entry("want", 20, line=LINE, every=EVERY, what=["finished", "formation"])
    read_layer(day, "S7", "finished", 22)


def point(e):
    """Name of the point read, as the core gives it."""
    off = e.get("off", 0.0)
    side = f" {'R' if off > 0 else 'L'}{abs(off):.3f}" if off else ""
    return f"{LINE} {e['ch']:.3f}{side} {e['what']}"
