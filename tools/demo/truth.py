"""What is really there on the demo lane, and how it errs: the side of the demo that no surveyor sees.

Everything random is drawn by name: draw("cone", sd) depends on SEED and the name only. Whoever adds a drain, a design or
laid inverts later adds names and changes no figure that stands already. Metres, gradients as rise per length, bearings in
degrees clockwise from grid north. The error model is that of docs/formats (a row of a reading); nothing of the core is used.
The seed is the first of six whose day is an ordinary one (chi2 4.5 at 4 degrees of freedom, every level within 2 sd of the
truth): the demo shows the program, it is no test of its uncertainties.
"""

import math
import random
from datetime import timedelta
from statistics import NormalDist

SEED = "Nettlebank Lane 14 April 2026, seed 6"

EARTH_RADIUS = 6_371_000.0
REFRACTION = 0.13

PLAN = [[200.000, 500.000], [251.922, 520.978], [309.598, 537.516]]
START_LEVEL = 47.300
GRADIENT = -1 / 160
CROSSFALL = -0.020  # falls to the right, rise per metre to the right
HALF_WIDTH = 2.2  # of the tarmac; beyond it the verge
UNEVEN_SD = 0.005
VERGE_SD = 0.015

BENCHMARKS = {"BM1": 47.655, "BM2": 47.1082}
CHANGE_POINTS = {"CP1": 47.0415}
PLACES = {"BM1": [192.350, 501.420], "BM2": [306.210, 541.380], "CP1": [249.400, 525.300]}

# What the instrument and staff entries of the book say: given figure and one standard deviation.
READING_SD = 0.0012
TILT_GIVEN, TILT_SD = [1.0e-5, -1.5e-5], 1.5e-5
SETTING_TILT_SD = 1.3e-5
CONE_GIVEN, CONE_SD = 1.0e-5, 1.0e-5
SCALE_SD = 5e-5
JOINTS = [{"at": 1.15, "step_sd": 0.0004}, {"at": 2.1, "step_sd": 0.0004}, {"at": 3.05, "step_sd": 0.0004}]
FOOT_SD = {"ground": 0.004, "laid": 0.001, "finished": 0.001, "base": 0.005, None: 0.0003}
GRADE_SD, AIM_SD, LEAN = 3e-5, 0.5, 1.0  # of a dialled plane: rise per length, degrees, degrees
BENCHMARK_SD = {"BM1": 0.0, "BM2": 0.002}
STEP = 0.001  # a reading is booked to the millimetre; READING_SD includes that rounding


def draw(name, sd):
    """A normal error of the given sd that belongs to this name and to no other."""
    return sd * NormalDist().inv_cdf(random.Random(f"{SEED}: {name}").random())


def pick(name, choices):
    """One of the choices, each as likely as the other."""
    return random.Random(f"{SEED}: {name}").choice(choices)


def hours(count):
    return timedelta(hours=count)


def on_plan(ch, off=0.0):
    """East and north of a chainage and an offset, right positive; the end segments go on beyond their ends."""
    start = 0.0
    for i, ((e0, n0), (e1, n1)) in enumerate(zip(PLAN, PLAN[1:])):
        length = math.hypot(e1 - e0, n1 - n0)
        if ch <= start + length or i == len(PLAN) - 2:
            along_e, along_n = (e1 - e0) / length, (n1 - n0) / length
            ahead = ch - start
            return e0 + ahead * along_e + off * along_n, n0 + ahead * along_n - off * along_e
        start += length
    raise AssertionError("a plan has a segment")


def bearing_of_segment(i):
    """Bearing of the i-th segment of the plan."""
    (e0, n0), (e1, n1) = PLAN[i], PLAN[i + 1]
    return math.degrees(math.atan2(e1 - e0, n1 - n0)) % 360


def ground(ch, off=0.0):
    """The level of the lane: straight fall and crossfall, a long wave, small unevenness; a rougher verge beyond the tarmac."""
    wave = 0.006 * math.sin(2 * math.pi * ch / 70)
    level = START_LEVEL + GRADIENT * ch + CROSSFALL * off + wave
    beyond = max(0.0, abs(off) - HALF_WIDTH)
    verge = 0.06 * beyond if off < 0 else -0.03 * beyond
    return level + verge + draw(f"uneven {ch:.3f} {off:.3f}", VERGE_SD if beyond else UNEVEN_SD)


def given_benchmark(name):
    """The level the client's list gives, to the millimetre."""
    return round(BENCHMARKS[name] + draw(f"benchmark {name}", BENCHMARK_SD[name]), 3)


def instrument_tilt():
    """True tilt of the body along main and cross, the same wherever it stands."""
    return [g + draw(f"tilt {axis}", TILT_SD) for g, axis in zip(TILT_GIVEN, ("main", "cross"))]


def setting_tilt(setup):
    """What one levelling-up adds to the tilt, along main and cross."""
    return [draw(f"setting tilt {setup} {axis}", SETTING_TILT_SD) for axis in ("main", "cross")]


def cone():
    """How far the light rises over each metre of sight."""
    return CONE_GIVEN + draw("cone", CONE_SD)


def staff_figure(height):
    """What stands on the staff at a true height above its foot: the joints below it, and its scale."""
    joints = sum(draw(f"joint {j['at']}", j["step_sd"]) for j in JOINTS if height > j["at"])
    return (height + joints) / (1 - draw("staff scale", SCALE_SD))


def reading(setup, point, what, at, level, times):
    """The reading of an upright staff before it is rounded. setup: dict of name, place, bearing, height of the light, and the
    plane set on it if it is not level. times: which reading of this point in this set-up, so that each has an error of its own."""
    east, north = at[0] - setup["place"][0], at[1] - setup["place"][1]
    beta = math.radians(setup["bearing"])
    u = east * math.sin(beta) + north * math.cos(beta)
    v = east * math.cos(beta) - north * math.sin(beta)
    d = math.hypot(u, v)
    body, setting = instrument_tilt(), setting_tilt(setup["name"])
    light = setup["light"] + (body[0] + setting[0]) * u + (body[1] + setting[1]) * v + cone() * d
    light += (1 - REFRACTION) * d * d / (2 * EARTH_RADIUS)
    light += dialled(setup, u, v)
    foot = draw(f"foot {setup['name']} {point}", FOOT_SD[what])
    lean = (light - level) * math.hypot(*setup.get("plane", (0, 0))) * math.radians(LEAN)
    noise = draw(f"reading {setup['name']} {point} {times}", math.sqrt(READING_SD**2 - STEP**2 / 12 + lean**2))
    return staff_figure(light - level - foot) + noise


def dialled(setup, u, v):
    """How far the plane set on the laser rises to a staff: what was keyed, how well it is set, and the aim."""
    main, cross = setup.get("plane", (0, 0))
    if main == cross == 0:
        return 0.0
    set_main = main + (draw(f"grade {setup['name']} main", GRADE_SD) if main else 0)
    set_cross = cross + (draw(f"grade {setup['name']} cross", GRADE_SD) if cross else 0)
    aim = math.radians(draw(f"aim {setup['name']}", AIM_SD))
    return set_main * u + set_cross * v + aim * (main * v - cross * u)
