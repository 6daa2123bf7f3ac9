#!/usr/bin/env python3
"""The pipe of least dig under random roads against SciPy: every choice of breaks solved by scipy.optimize.linprog.

    /usr/bin/python3 tests/drain/follow.py PROGRAM [--count 60] [--seed 1]

A road is a book: a benchmark and readings of its ground to the millimetre, so that its levels are plain
differences. The reference knows nothing of how the program searches: for each choice of at most grades - 1 breaks
it writes the linear program of docs/methods/following-the-road.md and takes the best. Digs are compared as areas
over the least cover (inverts are printed to 0.01 mm: so to 0.01 mm times the length), and whether there is any pipe
at all.
Ends with "N passed, N failed" and a non-zero exit on a failure.
"""

import argparse
import itertools
import json
import pathlib
import subprocess
import sys
import tempfile

import numpy as np
from scipy.optimize import linprog

BORE, WALL = 0.225, 0.018


def random_road(rng):
    n = int(rng.integers(2, 13))
    x = np.unique(np.round(np.concatenate([[0.0], np.cumsum(rng.uniform(2, 15, n))]), 3))
    slope = rng.choice([0.0, 0.005, 0.01, 0.02])
    rough = rng.choice([0.0, 0.1, 0.3])
    level = np.round(50 - slope * x + rng.normal(0, 1, len(x)) * rough, 3)
    inner = list(x[1:-1])
    breaks = sorted(rng.choice(inner, min(int(rng.integers(0, 7)), len(inner)), replace=False)) if inner else []
    road = {"x": x, "level": level, "breaks": [float(b) for b in breaks], "cover": float(rng.choice([0.5, 0.9, 1.2])),
            "least": float(rng.choice([0, 0.00667, 0.0125, 0.025])), "steepest": float(rng.choice([0, 0.03, 0.1])),
            "grades": int(rng.integers(1, 5)), "against": bool(rng.random() < 0.3), "outfall": None, "inlet": None}
    highest = highest_of(road)
    run = distances(road)
    end = min(highest - road["least"] * (run[-1] - run))
    if rng.random() < 0.4:
        road["outfall"] = round(float(end - rng.uniform(-0.1, 1)), 3)
    if rng.random() < 0.3:
        road["inlet"] = round(float(highest[0] - rng.uniform(0, 0.5)), 3)
    return road


def highest_of(road):
    highest = road["level"] - road["cover"] - WALL - BORE
    return highest[::-1] if road["against"] else highest


def distances(road):
    return (road["x"][-1] - road["x"])[::-1] if road["against"] else road["x"]


def book_of(road):
    entries = [{"kind": "book", "format": "fallwright", "version": 1, "curvature": False},
               {"kind": "benchmark", "point": "BM", "level": 52.0},
               {"kind": "instrument", "name": "I", "type": "optical-level"},
               {"kind": "line", "name": "R", "use": "road", "plan": [[0, 0], [1000, 0]]},
               {"kind": "setup", "name": "S", "instrument": "I"},
               {"kind": "reading", "point": "BM", "sight": "back", "staff": 1.0}]
    entries += [{"kind": "reading", "line": "R", "ch": float(x), "what": "ground", "staff": round(53.0 - float(z), 3)}
                for x, z in zip(road["x"], road["level"])]
    return "\n".join(map(json.dumps, entries)) + "\n"


def answer_of(program, road, folder):
    book = folder / "road.book.jsonl"
    book.write_text(book_of(road))
    command = [program, "drain", book, "--json", "--line", "R", "--follow", "--bore", f"{BORE}m", "--wall", f"{WALL}",
               "--bedding", "0", "--cover", str(road["cover"]), "--fall-min", f"{road['least'] * 100} %",
               "--grades", str(road["grades"]), "--saving", "0", "--width", "1", "--direction", "against" if road["against"] else "with"]
    # Without a break of its own a road has its readings for breaks: one that takes none is asked for one grade.
    command += ["--break", *map(str, road["breaks"])] if road["breaks"] else []
    for name, option in (("outfall", "--outfall"), ("inlet", "--inlet")):
        if road[name] is not None:
            command.append(f"{option}={road[name]}")
    if road["steepest"]:
        command += ["--fall-max", f"{road['steepest'] * 100} %"]
    said = subprocess.run(command, capture_output=True, text=True)
    if said.returncode != 0:
        raise SystemExit(f"follow: {said.stderr}")
    return json.loads(said.stdout)["follow"]


def program_of(road, stops):
    """Best integral of the invert for given stops, or None."""
    run, highest = distances(road), highest_of(road)
    count = len(stops)
    gain = np.zeros(count)
    rows, most = [], []
    for i in range(count - 1):
        length = stops[i + 1] - stops[i]
        gain[i] += length / 2
        gain[i + 1] += length / 2
        fall = np.zeros(count)
        fall[i], fall[i + 1] = -1, 1
        rows.append(fall)
        most.append(-road["least"] * length)
        if road["steepest"]:
            rows.append(-fall)
            most.append(road["steepest"] * length)
    for place in np.union1d(run, stops):
        i = min(max(int(np.searchsorted(stops, place, side="right")) - 1, 0), count - 2)
        share = (place - stops[i]) / (stops[i + 1] - stops[i])
        row = np.zeros(count)
        row[i] += 1 - share
        row[i + 1] += share
        rows.append(row)
        most.append(np.interp(place, run, highest))
    for level, index, sign in ((road["outfall"], count - 1, -1), (road["inlet"], 0, 1)):
        if level is not None:
            row = np.zeros(count)
            row[index] = sign
            rows.append(row)
            most.append(sign * level)
    found = linprog(-gain, A_ub=np.array(rows), b_ub=np.array(most), bounds=[(None, None)] * count, method="highs")
    return -found.fun if found.status == 0 else None


def reference(road):
    run, highest = distances(road), highest_of(road)
    breaks = road["breaks"] or [float(x) for x in road["x"][1:-1]]
    breaks = sorted(road["x"][-1] - b for b in breaks) if road["against"] else breaks
    best = None
    for count in range(min(road["grades"], len(breaks) + 1)):
        for chosen in itertools.combinations(breaks, count):
            gain = program_of(road, np.array([run[0], *chosen, run[-1]]))
            if gain is not None and (best is None or gain > best):
                best = gain
    return None if best is None else np.trapz(highest, run) - best


def dug(road, choice):
    """Over the least cover, from the inverts in the answer."""
    grades = choice["grades"]
    x = [grades[0]["from"]] + [grade["to"] for grade in grades]
    y = [grades[0]["invert"]] + [grade["lower_invert"] for grade in grades]
    if road["against"]:
        x = [road["x"][-1] - each for each in x]
    return np.trapz(highest_of(road), distances(road)) - np.trapz(y, x)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--count", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1)
    arguments = parser.parse_args()
    rng = np.random.default_rng(arguments.seed)
    failed = 0
    with tempfile.TemporaryDirectory() as name:
        for index in range(arguments.count):
            road = random_road(rng)
            wanted = reference(road)
            choices = answer_of(arguments.program, road, pathlib.Path(name))["choices"]
            got = min((dug(road, choice) for choice in choices), default=None)
            good = (wanted is None) == (got is None) and (wanted is None or abs(got - wanted) <= 1e-5 * road["x"][-1] + 1e-6)
            proved = all(choice["proved"] for choice in choices)
            if not good or not proved:
                failed += 1
                print(f"road {index}: wanted {wanted}, got {got}, proved {proved}: {road}")
    print(f"{arguments.count - failed} passed, {failed} failed")
    return failed > 0


if __name__ == "__main__":
    sys.exit(main())
