#!/usr/bin/python3
"""Adjusts the demo book a second way, dense and with numpy alone, to hold the core's answer against.

    solve_demo.py                print levels with sd, planes, chi2 and the fall of the lane, beside the truth
    solve_demo.py RESULT.json    also compare with the answer of `fallwright evaluate --json`: exit 1 if a level, its sd, chi2
                                 or the fall of the ground along the lane differs by more than the printing allows

Rows and priors as docs/formats states them; only what the demo uses. The book is read from its file, so that
what was booked is adjusted and not what was drawn.
"""

import json
import math
import sys

import numpy as np

import drain
import make_demo
import road
import truth

SETUPS = {"S1": make_demo.S1, "S2": make_demo.S2} | drain.SETUPS | road.SETUPS
LEVEL_PLACE = 0.6e-5  # half of the 0.01 mm printed, and a little for ties


class System:
    """Rows over named unknowns, each divided by its sd."""

    def __init__(self):
        self.columns, self.rows, self.priors = {}, [], {}

    def row(self, terms, value, sd):
        self.rows.append(({self.columns.setdefault(n, len(self.columns)): c for n, c in terms.items()}, value, sd))

    def solve(self):
        """Estimates, covariance, chi2 and degrees of freedom; every prior is an observation of its unknown."""
        for name, sd in self.priors.items():
            self.row({name: 1.0}, 0.0, sd)
        a, y = np.zeros((len(self.rows), len(self.columns))), np.zeros(len(self.rows))
        for i, (terms, value, sd) in enumerate(self.rows):
            for column, c in terms.items():
                a[i, column] = c / sd
            y[i] = value / sd
        x, _, rank, _ = np.linalg.lstsq(a, y, rcond=None)
        left = y - a @ x
        return x, np.linalg.inv(a.T @ a), float(left @ left), len(y) - int(rank)


def booked():
    """The book's entries with the amendment applied and the struck reading gone."""
    entries = [json.loads(line) for line in make_demo.BOOK.read_text().splitlines()]
    by_id = {e["id"]: e for e in entries}
    for e in entries:
        if e["kind"] == "amend":
            by_id[e["of"]].update(e["set"])
    clamps = {e["name"]: e.get("clamp") for e in entries if e["kind"] == "setup"}
    for e in entries:
        if e["kind"] == "reading" and "staff" not in e and "mark" not in e:
            e["mark"] = clamps[e["setup"]]
    struck = {e["of"] for e in entries if e["kind"] == "strike"}
    return [e for e in entries if e["id"] not in struck]


def where_read(e):
    """Point name as the core gives it, east and north, sd of the foot."""
    if "point" in e:
        return e["point"], truth.PLACES[e["point"]], truth.FOOT_SD[None]
    if e["line"] == drain.LINE:
        older = " (1)" if e["ch"] == drain.AGAIN and e["setup"] != "S5" else ""
        return f"{drain.LINE} {e['ch']:.3f} {e['what']}{older}", drain.on_plan(e["ch"]), truth.FOOT_SD["ground" if e["what"] == "ground" else "laid"]
    if e["line"] == road.LINE:
        return road.point(e), truth.on_plan(e["ch"], e.get("off", 0.0)), truth.FOOT_SD[e["what"]]
    off = e.get("off", 0.0)
    side = f" {'R' if off > 0 else 'L'}{abs(off):.3f}" if off else ""
    return f"R1 {e['ch']:.3f}{side} ground", truth.on_plan(e["ch"], off), truth.FOOT_SD["ground"]


def add_reading(system, e):
    """One row: r = c + tilt + cone + curvature - (level + foot) + scale r + joints, what is given taken to the left."""
    r = e["staff"] if "staff" in e else e["mark"] - e.get("high", 0.0) + e.get("low", 0.0)
    main, cross = SETUPS[e["setup"]].get("plane", (0.0, 0.0))
    point, at, foot_sd = where_read(e)
    name, setup = e["setup"], SETUPS[e["setup"]]
    beta = math.radians(setup["bearing"])
    east, north = at[0] - setup["place"][0], at[1] - setup["place"][1]
    u, v = east * math.sin(beta) + north * math.cos(beta), east * math.cos(beta) - north * math.sin(beta)
    d = math.hypot(u, v)
    foot = f"foot {name} {point}"
    terms = {f"plane {name}": 1, "tilt main": u, "tilt cross": v, f"setting main {name}": u, f"setting cross {name}": v,
             "cone": d, "scale": r, foot: -1}
    system.priors[foot] = foot_sd
    for joint in truth.JOINTS:
        if r > joint["at"]:
            terms[f"joint {joint['at']}"] = 1
            system.priors[f"joint {joint['at']}"] = joint["step_sd"]
    if main:
        terms |= {f"grade {name}": u, f"aim {name}": main * v - cross * u}
        system.priors |= {f"grade {name}": truth.GRADE_SD, f"aim {name}": math.radians(truth.AIM_SD)}
    known = main * u + cross * v + truth.TILT_GIVEN[0] * u + truth.TILT_GIVEN[1] * v + truth.CONE_GIVEN * d
    known += (1 - truth.REFRACTION) * d * d / (2 * truth.EARTH_RADIUS)
    if point == "BM1":
        known -= truth.given_benchmark(point)
    else:
        terms[point] = -1
    lean = r * math.hypot(main, cross) * math.radians(truth.LEAN)
    system.row(terms, r - known, math.hypot(truth.READING_SD, lean))


def adjusted():
    """Solves the demo: names to columns, estimates, covariance, chi2, degrees of freedom."""
    system = System()
    system.priors = {"tilt main": truth.TILT_SD, "tilt cross": truth.TILT_SD, "cone": truth.CONE_SD, "scale": truth.SCALE_SD}
    for name in SETUPS:
        system.priors |= {f"setting main {name}": truth.SETTING_TILT_SD, f"setting cross {name}": truth.SETTING_TILT_SD}
    for e in booked():
        if e["kind"] == "reading":
            add_reading(system, e)
    system.row({"BM2": 1.0}, truth.given_benchmark("BM2"), truth.BENCHMARK_SD["BM2"])
    return system.columns, *system.solve()


def true_levels():
    """Level of each point by the name the core gives it."""
    levels = truth.BENCHMARKS | truth.CHANGE_POINTS
    for ch, off in make_demo.stations():
        levels[where_read({"line": "R1", "ch": ch, "off": off})[0]] = truth.ground(ch, off)
    for e in booked():
        if e.get("line") == drain.LINE and e.get("what") == "ground":
            levels[where_read(e)[0]] = drain.ground(e["ch"])
    for e in booked():
        if e.get("line") == road.LINE and e["kind"] == "reading":
            levels[road.point(e)] = road.built(e["ch"], e.get("off", 0.0), e["what"])
    for ch, what in drain.stations():
        levels[f"{drain.LINE} {ch:.3f} {what}"] = drain.laid(ch, what, anew=ch == drain.AGAIN)
    return levels


def fall_of_lane(columns, x, covariance):
    """Gradient of the ground at offset 0 on chainage, its sd, rms of what is left."""
    ch = np.array([c for c, off in make_demo.stations() if off == 0])
    at = [columns[f"R1 {c:.3f} ground"] for c in ch]
    weight = (ch - ch.mean()) / ((ch - ch.mean()) ** 2).sum()
    gradient = float(weight @ x[at])
    left = x[at] - x[at].mean() - gradient * (ch - ch.mean())
    return gradient, float(weight @ covariance[np.ix_(at, at)] @ weight) ** 0.5, float((left**2).mean()) ** 0.5


def differences(result, columns, x, covariance, chi2, dof):
    """What the core says otherwise, one sentence each."""
    out = []
    for row in result["levels"]:
        if row["point"] in columns:
            c = columns[row["point"]]
            for what, ours in (("level", x[c]), ("sd", covariance[c, c] ** 0.5)):
                if abs(row[what] - ours) > LEVEL_PLACE:
                    out.append(f"{row['point']}: {what} {row[what]}, here {ours:.6f}")
    said = result["adjustment"]
    if said["dof"] != dof or abs(said["chi2"] - chi2) > 1e-5 * chi2:
        out.append(f"chi2 {said['chi2']} at {said['dof']}, here {chi2:.6f} at {dof}")
    gradient, sd, _ = fall_of_lane(columns, x, covariance)
    fit = next(f for line in result["lines"] if line["name"] == "R1" for f in line["fits"] if f["what"] == "ground")
    if abs(fit["gradient"] - gradient) > 0.6e-7 or abs(fit["sd"] - sd) > 0.6e-7:
        out.append(f"fall {fit['gradient']} sd {fit['sd']}, here {gradient:.8f} sd {sd:.8f}")
    return out


def main():
    columns, x, covariance, chi2, dof = adjusted()
    if len(sys.argv) > 1:
        with open(sys.argv[1], encoding="utf-8") as file:
            found = differences(json.load(file), columns, x, covariance, chi2, dof)
        sys.exit("\n".join(found) or 0)
    print(f"chi2 {chi2:.4f} at {dof} degrees of freedom, {len(columns)} unknowns")
    for point, true in true_levels().items():
        if point in columns:
            sd = covariance[columns[point], columns[point]] ** 0.5
            print(f"{point:26} {x[columns[point]]:.5f} sd {sd:.5f}, true {true:.4f}, off by {(x[columns[point]] - true) / sd:5.2f} sd")
    for name, setup in SETUPS.items():
        c = columns[f"plane {name}"]
        print(f"plane {name} {x[c]:.5f} sd {covariance[c, c] ** 0.5:.5f}, true {setup['light']:.4f}")
    gradient, sd, rms = fall_of_lane(columns, x, covariance)
    print(f"fall of the lane {gradient:.7f} sd {sd:.7f} (1 in {-1 / gradient:.1f}), rms {rms:.4f}")


if __name__ == "__main__":
    main()
