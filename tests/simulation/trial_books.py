"""Checks of instruments, drawn: two-peg, four directions near and far, three stations with four facings. Part (a) for `trials`.

Own arithmetic after docs/methods: a shot is the height of the plane at its station, plus tilt of body and levelling-up along the way
to the staff, plus cone or collimation, plus curvature, less the peg's height, plus noise; booked to the tenth of a millimetre.
"""

import json
import math

import numpy as np

import judge
from model import CURVE
from scene import LASER, LEVEL

CHECKS = ("two-peg", "four directions", "three stations")
TITLES = {"two-peg": "two-peg", "four directions": "four directions near and far", "three stations": "three stations, four facings"}
SHOT_STEP = 0.0001


def shots(check, rng):
    """(station, peg, distance, facing or None, levelling-up) in the order they are read."""
    if check == "two-peg":
        apart, near = float(rng.uniform(40, 60)), float(rng.uniform(3, 8))
        half = round(apart / 2, 1)
        for station, pegs in (("A", (("P", half), ("Q", half))), ("B", (("P", round(near, 1)), ("Q", round(near + 2 * half, 1))))):
            for peg, d in pegs * 2:
                yield station, peg, d, None, 1
    elif check == "four directions":
        near, far = 5.0, float(rng.choice([30.0, 40.0]))
        for peg, d in (("far", far), ("near", near)):
            for facing in (0, 90, 180, 270):
                yield "A", peg, d, facing, f"{peg} {facing}"
        for facing in (0, 180):
            for peg, away in (("far", 0), ("near", 180)):
                yield "B", peg, (far - near) / 2, (facing + away) % 360, f"{facing}"
    else:
        for station, one, two in (("A", 20.0, 20.0), ("B", 14.6, 54.6), ("C", 54.6, 14.6)):
            for turn in (0, 90, 180, 270):
                yield station, "I", one, (turn + (0 if station == "B" else 180)) % 360, f"{turn}"
                yield station, "II", two, (turn + (180 if station == "C" else 0)) % 360, f"{turn}"


def booked(check, kit, cone, tilt, rng):
    """The shots of one check as the book has them, of an instrument with these errors."""
    heights, lights, leans, lines = {}, {}, {}, []
    for station, peg, d, facing, turn in shots(check, rng):
        h = heights.setdefault(peg, float(rng.normal(0, 0.2)))
        c = lights.setdefault(station, 1.5 + float(rng.normal(0, 0.1)))
        lean = leans.setdefault((station, turn), [float(rng.normal(0, kit.get("setting_tilt_sd", 0.0))) for _ in range(2)])
        # Unturned, the pegs lie on the main axis, behind and ahead of the middle station, both ahead of the outer one.
        angle = math.radians(facing if facing is not None else 180 if (station, peg) == ("A", "P") else 0)
        u, v = d * math.cos(angle), d * math.sin(angle)
        sd = math.hypot(kit["reading_sd"], kit["sd_per_m"] * d)
        figure = c - h + (tilt[0] + lean[0]) * u + (tilt[1] + lean[1]) * v + cone * d + CURVE * d * d
        figure += math.sqrt(sd**2 - SHOT_STEP**2 / 12) * float(rng.normal())
        shot = {"station": station, "peg": peg, "dist": d, "staff": round(round(figure / SHOT_STEP) * SHOT_STEP, 4)}
        lines.append({**shot, **({} if facing is None else {"facing": facing, "turn": f"{station} {turn}"})})
    return json.dumps({"kind": "trial", "name": "check", "instrument": "I", "at": "2026-05-04T06:00:00Z", "shots": lines})


def one(program, check, seed):
    """{what: [inside, counted]} of one check; errors twice as large as their priors, which it does not use."""
    rng = np.random.default_rng([seed, CHECKS.index(check), 5])
    laser = check != "two-peg" or rng.random() < 0.3
    kit = LASER if laser else LEVEL
    cone = float(rng.normal(0, kit["cone_sd"] if laser else kit["collimation_sd"])) * 2
    tilt = [float(rng.normal(0, 4e-5)) for _ in range(2)] if laser else [0.0, 0.0]
    entries = [json.dumps({"kind": "book", "format": "fallwright", "version": 1}),
               json.dumps({"kind": "instrument", "name": "I", "type": "rotating-laser" if laser else "optical-level"})]
    answer = program.ask("evaluate", [*entries, booked(check, kit, cone, tilt, rng)])
    return {"check": check, "cover": cover(answer["trials"][0], laser, cone, tilt)}


def cover(trial, laser, cone, tilt):
    found = {}

    def count(what, value, sd, real):
        hit = judge.within(value, sd, real, 5e-8)
        if hit is not None:
            found.setdefault(what, [0, 0])
            found[what][0] += hit
            found[what][1] += 1

    name = "cone" if laser else "collimation"
    count(name, trial.get(name), trial.get(name + "_sd"), cone)
    for axis in range(2):
        if trial.get("tilt"):
            count("tilt", trial["tilt"][axis], trial["tilt_sd"][axis], tilt[axis])
    return found


def table(tallies):
    yield "| check | books | cone | collimation | tilt |"
    yield "|---|---|---|---|---|"
    for check, (books, cells) in tallies.items():
        shares = [f"{100 * cells[n][0] / cells[n][1]:.2f}" if n in cells else "" for n in ("cone", "collimation", "tilt")]
        yield f"| {TITLES[check]} | {books} | " + " | ".join(shares) + " |"


def verdicts(tallies):
    for check, (_, cells) in tallies.items():
        for name, (inside, counted) in cells.items():
            share = 100 * inside / counted
            yield f"(a) {check}: {name} {share:.2f} % of {counted} inside", 94 <= share <= 96


def tally(results):
    tallies = {}
    for got in results:
        books, cells = tallies.setdefault(got["check"], (0, {}))
        for name, (inside, counted) in got["cover"].items():
            cell = cells.setdefault(name, [0, 0])
            cell[0] += inside
            cell[1] += counted
        tallies[got["check"]] = (books + 1, cells)
    return tallies
