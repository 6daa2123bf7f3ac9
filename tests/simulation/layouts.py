"""Six layouts, each drawn anew for every book: counts, spacings, fall, kit, times, benchmarks."""

import math

from scene import LASER, LEVEL, Scene, Setup

LAYOUTS = ("line", "shared", "loop", "traverse", "slope", "plane")
TITLES = {
    "line": "one set-up along a line",
    "shared": "two set-ups with common points",
    "loop": "closed loop",
    "traverse": "between two benchmarks and back",
    "slope": "sloped plane on one axis",
    "plane": "sloped on two axes, cross sections",
}


def kit(rng, layout, level_share):
    """The scene with its instrument, staff and receiver; nothing stands yet."""
    laser = rng.random() >= level_share
    given = rng.random() < 0.5
    figures, means = dict(LASER if laser else LEVEL), {}
    if given:
        figures["reading_sd"] = float(rng.choice([0.0010, 0.0012, 0.0015] if laser else [0.0006, 0.0008, 0.0010]))
    if given and laser:
        figures["tilt_sd"] = float(rng.choice([1e-5, 2e-5, 4e-5]))
        means = {axis: float(round(rng.normal(0, 2e-5), 6)) for axis in ("tilt x", "tilt y", "cone")}
    scene = Scene(layout, figures, given, laser, means, mode="bare" if rng.random() < 0.1 else "placed")
    if means and scene.mode == "bare":  # which way a tested tilt points cannot be told, so none was tested
        means |= {"tilt x": 0.0, "tilt y": 0.0}
    if rng.random() < 0.6:
        scene.staff = {"length": 4.0, "zero_sd": 0.0005, "scale_sd": 5e-5, "joints": [(1.3, 0.0004), (2.6, 0.0004)]}
    if laser and rng.random() < 0.6:
        scene.window = 0.045
    return scene


def stand(scene, rng, name, at, plane=(0.0, 0.0), bearing=None, headroom=1.0, reach=()):
    """A set-up whose light is `headroom` above the highest of the points within reach."""
    if bearing is None:
        bearing = float(rng.choice([0.0, 90.0, 180.0, 270.0])) + round(float(rng.normal(0, 5)), 1)
    told = bool(scene.means) or rng.random() < 0.8  # whoever tested the tilt books the bearing too
    oriented = scene.laser and (plane != (0.0, 0.0) or (scene.mode == "placed" and told))
    setup = Setup(name, at, 0.0, bearing, plane, scene.mode == "placed", oriented, scene.window is not None)
    high = max(scene.points[p].level - rise(setup, scene.points[p].at) for p in reach)
    setup.light = high + headroom + float(rng.uniform(-0.2, 0.2))
    scene.setups.append(setup)


def axes(setup, at):
    """Metres along the main axis and to its right."""
    e, n = at[0] - setup.at[0], at[1] - setup.at[1]
    b = math.radians(setup.bearing)
    return e * math.sin(b) + n * math.cos(b), e * math.cos(b) - n * math.sin(b)


def rise(setup, at):
    u, v = axes(setup, at)
    return setup.plane[0] * u + setup.plane[1] * v


class Clock:
    def __init__(self, rng, low, high):
        self.rng, self.low, self.high, self.now = rng, low, high, 0.0

    def __call__(self, factor=1.0):
        self.now = round(self.now + factor * float(self.rng.uniform(self.low, self.high)), 2)
        return self.now


def benchmark(scene, rng, name, at, level, source, weighted):
    scene.point(name, at, round(level, 3))
    scene.benchmarks[name] = (float(rng.choice([0.001, 0.002])) if weighted else 0.0, source)
    return name


def form(scene, rng):
    """How a figure is booked: with a receiver mostly a mark and what it shows."""
    return "mark" if scene.window and rng.random() < 0.8 else "staff"


def line(rng):
    """Benchmark, stations, some of them a second time, second benchmark, the first again. The laser stands for hours."""
    scene = kit(rng, "line", 0.3)
    count, spacing = int(rng.integers(12, 26)), float(rng.choice([3.0, 4.0, 5.0]))
    length = count * spacing
    what = "laid" if rng.random() < 0.6 else "finished"
    scene.line = dict(name="D", use="drain" if what == "laid" else "road", level=50.0, gradient=-1 / float(rng.integers(80, 250)),
                      crossfall=0.0, length=length)
    stations = [scene.station(i * spacing, 0.0, what, rng) for i in range(count + 1)]
    benchmark(scene, rng, "BM1", (5.0, -4.0), 50.1, "client's list", False)
    benchmark(scene, rng, "BM2", (-6.0, length + 3.0), 50.0 + scene.line["gradient"] * length, "site list", rng.random() < 0.5)
    ahead = float(rng.uniform(0.2, 0.8)) * length
    stand(scene, rng, "S1", (float(rng.choice([-4.0, 5.0, 8.0])), round(ahead, 1)), reach=scene.points)
    clock = Clock(rng, 2.0, 6.0)
    scene.read("BM1", clock(), "back")
    for i, each in enumerate(stations):
        scene.read(each, clock(), form=form(scene, rng))
        if i == count // 2:
            scene.read("BM1", clock())
    for each in stations[::-5]:
        scene.read(each, clock(), form=form(scene, rng))
    scene.read("BM2", clock())
    scene.read("BM1", clock())
    return scene


def shared(rng):
    """Two set-ups over one run of stations, a change point and several stations read from both; a soffit read from both."""
    scene = kit(rng, "shared", 0.3)
    count, spacing = int(rng.integers(12, 20)), float(rng.choice([4.0, 5.0]))
    length = count * spacing
    scene.line = dict(name="D", use="drain", level=50.0, gradient=-1 / float(rng.integers(80, 250)), crossfall=0.0, length=length)
    stations = [scene.station(i * spacing, 0.0, "laid", rng) for i in range(count + 1)]
    placed = scene.mode == "placed"
    benchmark(scene, rng, "BM1", (5.0, -4.0), 50.1, "client's list", False)
    benchmark(scene, rng, "BM2", (-6.0, length + 3.0), 50.0 + scene.line["gradient"] * length, "site list", rng.random() < 0.5)
    middle = 50.0 + scene.line["gradient"] * length / 2
    scene.point("CPA", (4.0, length / 2), middle + 0.2, placed=placed)
    scene.point("CPB", (-5.0, length / 2 + 6), middle + 0.1, placed=placed)
    scene.point("arch", (-3.0, length / 2 - 5), middle + 3.0, placed=placed)
    low = [p for p in scene.points if p != "arch"]
    overlap = stations[count // 2 - 2: count // 2 + 3]
    clock = Clock(rng, 1.0, 3.0)
    for k, mine in enumerate((stations[: count // 2 + 3], stations[count // 2 - 2:])):
        stand(scene, rng, f"S{k + 1}", (6.0 - 10 * k, round(length * (0.3 + 0.4 * k), 1)), reach=low)
        first, last = (("BM1", "CPA"), ("CPA", "BM2"))[k]
        scene.read(first, clock(5), "back")
        if k:
            scene.read("CPB", clock())
        for each in mine:
            scene.read(each, clock(), form=form(scene, rng))
        scene.read("arch", clock(), inverted=True)
        if k == 0:
            scene.read("BM1", clock())
            scene.read("CPB", clock())
        else:
            scene.read(overlap[0], clock(), form=form(scene, rng))
        scene.read(last, clock(), "fore")
    return scene


def around(scene, rng, names, middles, inters, clock, dist):
    """Set-ups between successive change points, each with its intermediate sights; names[i] to names[i + 1] from middles[i]."""
    for i, at in enumerate(middles):
        reach = [names[i], names[i + 1], *inters[i]]
        stand(scene, rng, f"S{i + 1}", at, reach=reach)
        scene.read(names[i], clock(5), "back", dist=dist)
        for each in inters[i]:
            scene.read(each, clock(), form=form(scene, rng), dist=dist)
        scene.read(names[i + 1], clock(), "fore", dist=dist)


def loop(rng):
    """Round a field and back to the one benchmark; from each set-up one or two points of the one before are read again."""
    scene = kit(rng, "loop", 0.5)
    count, radius = int(rng.integers(4, 6)), float(rng.uniform(30, 45))
    corner = lambda i: (radius * math.sin(2 * math.pi * i / count), radius * math.cos(2 * math.pi * i / count))
    placed = scene.mode == "placed"
    benchmark(scene, rng, "BM1", corner(0), 20.0, "client's list", False)
    scene.points["BM1"].placed = placed
    names = ["BM1"] + [scene.point(f"CP{'ABCDE'[i]}", corner(i + 1), 20 + float(rng.normal(0, 0.4)), placed=placed)
                       for i in range(count - 1)] + ["BM1"]
    middles, inters = [], []
    for i in range(count):
        a, b = corner(i), corner(i + 1)
        middles.append((round((a[0] + b[0]) / 2 + float(rng.normal(0, 3)), 1), round((a[1] + b[1]) / 2 + float(rng.normal(0, 3)), 1)))
        new = [scene.point(f"P{len(scene.points) + 10}", (middles[i][0] + float(rng.uniform(-25, 25)), middles[i][1] +
               float(rng.uniform(-25, 25))), 20 + float(rng.normal(0, 0.3)), placed=placed, what=None if j % 2 else "ground")
               for j in range(int(rng.integers(3, 7)))]
        inters.append((inters[-1][-2:] if i else []) + new)
    dist = not scene.laser and placed is False and rng.random() < 0.5
    around(scene, rng, names, middles, inters, Clock(rng, 0.6, 1.6), dist)
    return scene


def traverse(rng):
    """Along a road from one benchmark to two others of one list, and back over other change points; stations read on both ways."""
    scene = kit(rng, "traverse", 0.5)
    bay, bays = float(rng.uniform(45, 65)), int(rng.integers(2, 4))
    length = bay * bays
    gradient = -1 / float(rng.integers(150, 400))
    scene.line = dict(name="R", use="road", level=30.0, gradient=gradient, crossfall=0.0, length=length)
    placed = scene.mode == "placed"
    benchmark(scene, rng, "BM1", (7.0, 0.0), 30.1, "client's list", False)
    benchmark(scene, rng, "BM2", (7.0, length), 30.1 + gradient * length, "site list", True)
    benchmark(scene, rng, "BM3", (-8.0, length - 12), 30.2 + gradient * length, "site list", True)
    level = lambda ch: 30.0 + gradient * ch + float(rng.normal(0.1, 0.15))
    out = [scene.point(f"CP{'ABC'[i]}", (6.0, bay * (i + 1)), level(bay * (i + 1)), placed=placed) for i in range(bays - 1)]
    back = [scene.point(f"TP{'ABC'[i]}", (-6.0, bay * (i + 1) + 5), level(bay * (i + 1)), placed=placed) for i in range(bays - 1)]
    names = ["BM1", *out, "BM2", *back[::-1], "BM1"]
    bays_of = list(range(bays)) + list(range(bays))[::-1]
    middles = [(round(float(rng.uniform(-3, 3)) or 1.0, 1), round(bay * (k + 0.5) + float(rng.normal(0, 3)), 1)) for k in bays_of]
    inters = []
    for i, k in enumerate(bays_of):
        chainages = [bay * k + 4 + j * (bay - 8) / 5 for j in range(6)]
        inters.append([scene.station(ch, 0.0, "finished", rng) for ch in (chainages if i < bays else chainages[1::3])])
    inters[bays - 1].append("BM3")
    inters[bays].insert(0, "BM3")
    dist = not scene.laser and not placed and rng.random() < 0.5
    around(scene, rng, names, middles, inters, Clock(rng, 0.6, 1.6), dist)
    return scene


def slope(rng):
    """A drain laid to a plane of light set to its fall, from two stands, over a day; benchmarks at both ends."""
    scene = kit(rng, "slope", 0.0)
    count, pipe = int(rng.integers(10, 18)), 3.0
    length = count * pipe
    fall = -1 / float(rng.integers(40, 150))
    scene.line = dict(name="D", use="drain", level=50.0, gradient=fall, crossfall=0.0, length=length)
    stations = [scene.station(i * pipe, 0.0, "laid", rng) for i in range(count + 1)]
    benchmark(scene, rng, "BM1", (7.0, -3.0), 50.3, "client's list", False)
    benchmark(scene, rng, "BM2", (-8.0, length + 2.0), 50.3 + fall * length, "site list", rng.random() < 0.5)
    dialled = round(fall, 5)
    clock = Clock(rng, 3.0, 9.0)
    half = count // 2
    for k, mine in enumerate((stations[: half + 2], stations[half - 1:])):
        turned = rng.random() < 0.5
        stand(scene, rng, f"S{k + 1}", (1.0 - 2 * k, (-4.0, length + 4.0)[k]), (-dialled if turned else dialled, 0.0),
              180.0 if turned else 0.0, 1.3, scene.points)
        scene.read(("BM1", "BM2")[k], clock(3), "back")
        for i, each in enumerate(mine):
            scene.read(each, clock(), form=form(scene, rng))
            if i == len(mine) // 2:
                scene.read(("BM1", "BM2")[k], clock())
        scene.read(("BM2", "BM1")[k], clock())
        scene.read(("BM1", "BM2")[k], clock())
    return scene


def plane(rng):
    """Cross sections of a road under a plane of light with its gradient and crossfall, two stands, some sections from both."""
    scene = kit(rng, "plane", 0.0)
    sections, spacing = int(rng.integers(6, 10)), float(rng.choice([6.0, 8.0]))
    length = sections * spacing
    gradient, crossfall = -round(float(rng.uniform(0.008, 0.03)), 4), -round(float(rng.choice([0.02, 0.025, 0.03])), 4)
    scene.line = dict(name="R", use="road", level=80.0, gradient=gradient, crossfall=crossfall, length=length)
    rows = [[scene.station(i * spacing, off, "finished", rng) for off in (-3.5, 0.0, 3.5)] for i in range(sections + 1)]
    benchmark(scene, rng, "BM1", (-9.0, -3.0), 80.3, "client's list", False)
    benchmark(scene, rng, "BM2", (8.0, length + 2.0), 80.1 + gradient * length, "site list", rng.random() < 0.5)
    clock = Clock(rng, 1.0, 3.0)
    half = sections // 2
    for k, mine in enumerate((rows[: half + 2], rows[half:])):
        stand(scene, rng, f"S{k + 1}", ((7.0, -8.0)[k], round(length * (0.2 + 0.6 * k), 1)), (gradient, crossfall), 0.0, 1.3, scene.points)
        scene.read(("BM1", "BM2")[k], clock(3), "back")
        for row in mine:
            for each in row:
                scene.read(each, clock(), form=form(scene, rng))
        scene.read(("BM2", "BM1")[k], clock())
        scene.read(("BM1", "BM2")[k], clock())
    return scene


def draw(layout, rng):
    scene = {"line": line, "shared": shared, "loop": loop, "traverse": traverse, "slope": slope, "plane": plane}[layout](rng)
    if scene.mode == "bare":
        scene.assumed_sight = usual_sight(scene)
        if not scene.laser and not any(r.dist for r in scene.readings):  # nobody's sights are free who has not checked the level
            scene.instrument["collimation_sd"], scene.given = 1e-5, True
    return scene


def usual_sight(scene):
    """What the crew would say of its sights, to 5 m: their root mean square, as errors grow with distance."""
    sights = [math.hypot(*axes(scene.setups[r.setup], scene.points[r.point].at)) for r in scene.readings]
    return max(5.0, 5.0 * round(math.sqrt(sum(d * d for d in sights) / len(sights)) / 5))
