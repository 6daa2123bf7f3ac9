#!/usr/bin/python3
"""Reads the example books as a careful person would, without the core: is every line JSON of a known kind with known fields, does
every name stand for something, and do points reached by two ways (set-ups, steps, benchmarks) agree within what noise allows?

    check_books.py [BOOK …]     default: all of examples/; exit 1 on the first book that does not hold

examples/five-errors.book.jsonl must show its five errors and no other; the books of a slip must disagree by that slip. Standard library only.
"""

import json
import math
import sys
from pathlib import Path

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
FEET = 0.3048
FIELDS = {
    "book": "format version title datum unit curvature",
    "benchmark": "point level sd source",
    "instrument": "name type reading_sd sd_per_m tilt tilt_sd setting_tilt_sd cone cone_sd collimation collimation_sd aim_sd "
                  "grade_sd grade_gain_sd grade_step grade_limit range keypad",
    "staff": "name length to zero zero_sd scale scale_sd joints",
    "receiver": "name window dead_band",
    "line": "name use plan start profile flow crossfall edges pipes chambers joins outlets layers whats",
    "trial": "name instrument shots limit",
    "place": "point e n line ch off",
    "setup": "name instrument place plane head head_sd shown clamp staff receiver",
    "reading": "setup point line ch off what sight staff mark high low offset top bottom dist dist_sd along across inverted sd to "
               "with receiver shoe on planned",
    "step": "from to rise sd",
    "what": "name foot_sd",
    "tolerance": "line what below above fall_min fall_max gap over gaps irregularities preset source",
    "surface": "name points what breaklines inside to strip bulking shrinkage grid bearing towards edge outlets flatness contours",
    "want": "line surface setup every what",
    "rule": "name preset values",
    "relaid": "line what from to why",
    "adjusted": "instrument why",
    "amend": "of set why was",
    "strike": "of why",
    "remark": "text",
}
FOOT = {"laid": 0.001, "finished": 0.001, "soffit": 0.001, "invert": 0.001, "kerb": 0.001, "peg": 0.001, "formation": 0.005,
        "ground": 0.010, None: 0.0003}
FIVE = [(6, "duplicate name"), (9, "torn line"), (11, "value twice"), (12, "beyond the staff"), (14, "unknown set-up")]


def entries(path, errors):
    """(line number, entry) of all lines that can be read, amended, without what was struck or is only planned."""
    found = []
    for number, text in enumerate(path.read_text().splitlines(), 1):
        try:
            found.append((number, json.loads(text)))
        except ValueError:
            errors.append((number, "torn line"))
    by_id = {e["id"]: e for _, e in found if "id" in e}
    for number, e in found:
        if set(e) - {"kind", "id", "at", "by"} - set(FIELDS.get(e["kind"], "").split()):
            errors.append((number, f"unknown kind or field in {e}"))
        if e["kind"] == "amend" and all(by_id[e["of"]].get(k) == v for k, v in e.get("was", {}).items()):
            by_id[e["of"]].update(e["set"])
    struck = {e["of"] for _, e in found if e["kind"] == "strike"}
    return [(n, e) for n, e in found if e.get("id") not in struck and not e.get("planned")]


def known_names(book, errors):
    """What each kind of name stands for; a name used twice is an error."""
    names = {}
    for number, e in book:
        if "name" in e and e["kind"] != "rule":
            if (e["kind"], e["name"]) in names:
                errors.append((number, "duplicate name"))
            names.setdefault((e["kind"], e["name"]), e)
    return names


def figure(e):
    """The reading as upright height, positive for upright and negative for inverted staffs, off what was booked."""
    if "top" in e:
        return (e["top"] + e["staff"] + e["bottom"]) / 3
    sign = -1 if e.get("inverted") else 1
    if "staff" in e:
        return sign * e["staff"]
    mark = e["mark"] if "mark" in e else e["clamp"]
    return sign * mark - e.get("high", 0) + e.get("low", 0) + sign * e.get("offset", 0)


def reading_error(e, setup, names):
    """What is wrong with one reading, or nothing."""
    if setup is None or ("line" in e and ("line", e["line"]) not in names):
        return "unknown set-up" if setup is None else "unknown line"
    if sum(("staff" in e, "mark" in e, ("high" in e or "low" in e) and "mark" not in e)) != 1:
        return "value twice" if "staff" in e else "no value"
    staff = names.get(("staff", e.get("with", setup.get("staff"))), {})
    if abs(e.get("staff", e.get("mark", 0))) > staff.get("length", 10):
        return "beyond the staff"
    return None


def point_name(e, relaid):
    """The point a reading stands on, by the naming rule for points on lines; surfaces before a relaying stay apart."""
    if "point" in e:
        return e["point"]
    off, what = e.get("off", 0), e.get("what", "ground")
    side = f" {'R' if off > 0 else 'L'}{abs(off):.3f}" if abs(off) >= 0.0005 else ""
    layer = sum(1 for r in relaid if r["what"] == what and r.get("from", e["ch"]) <= e["ch"] <= r.get("to", e["ch"]))
    return f"{e['line']} {e['ch']:.3f}{side} {what}" + (f" / {layer}" if layer else "")


def segments(line):
    """Start chainage, first point and direction of each segment of a line; one without plan runs north from its own origin."""
    plan, ch = line.get("plan", [[0, 0], [0, 1]]), line.get("start", 0)
    for (e0, n0), (e1, n1) in zip(plan, plan[1:]):
        length = math.hypot(e1 - e0, n1 - n0)
        yield ch, (e0, n0), ((e1 - e0) / length, (n1 - n0) / length)
        ch += length


def on_plan(at, names):
    """East and north of a place on the grid or on a line, and the direction of the line there."""
    if "e" in at:
        return (at["e"], at["n"]), None
    ch, (e, n), (de, dn) = [s for i, s in enumerate(segments(names["line", at["line"]])) if i == 0 or s[0] < at["ch"]][-1]
    ahead, off = at["ch"] - ch, at.get("off", 0)
    return (e + ahead * de + off * dn, n + ahead * dn - off * de), (de, dn)


def slope(setup, e, places, names):
    """How far the dialled plane rises along its main axis from the laser to the reading; the axis is aimed along the line the
    laser stands on, as the books here have it."""
    main = setup.get("plane", {}).get("main", 0)
    gradient = float(main.rstrip(" %")) / 100 if isinstance(main, str) else main
    if gradient == 0:
        return 0.0
    tripod = names["setup", setup["head"]] if "head" in setup else setup
    (e0, n0), (de, dn) = on_plan(tripod["place"], names)
    (e1, n1), _ = on_plan(e if "ch" in e else places[e["point"]], names)
    return gradient * ((e1 - e0) * de + (n1 - n0) * dn)


def links(book, names, errors):
    """Differences of level: (from node, to node, rise, allowance). A set-up's plane is the node "plane NAME"."""
    out, last, relaid = [], None, []
    places = {e["point"]: e for _, e in book if e["kind"] == "place"}
    foot = FOOT | {e["name"]: e["foot_sd"] for _, e in book if e["kind"] == "what"}
    for number, e in book:
        if e["kind"] == "benchmark":
            out.append(("datum", e["point"], e["level"], 4 * e.get("sd", 0)))
        elif e["kind"] == "step":
            out.append((e["from"], e["to"], e["rise"], 4 * e.get("sd", 0.002)))
        elif e["kind"] == "relaid":
            relaid.append(e)
        elif e["kind"] == "setup":
            last = e
        elif e["kind"] == "reading":
            setup = names.get(("setup", e["setup"])) if "setup" in e else last
            wrong = reading_error(e, setup, names)
            if wrong:
                errors.append((number, wrong))
                continue
            what = e.get("what", "ground" if "line" in e else None)
            rise = slope(setup, e, places, names) - figure({"clamp": setup.get("clamp")} | e)
            out.append((f"plane {setup['name']}", point_name(e, relaid), rise, 0.004 + 4 * foot.get(what, 0.010)))
    return out


def worst_disagreement(differences, factor):
    """Levels spread from the datum over the links; the link that disagrees most with them, over its allowance."""
    level, grew = {"datum": 0.0}, True
    if not any(a == "datum" for a, *_ in differences):
        level = {differences[0][0]: 0.0}
    while grew:
        grew = False
        for a, b, rise, _ in differences:
            if (a in level) != (b in level):
                level.setdefault(b, level.get(a, 0) + rise)
                level.setdefault(a, level[b] - rise)
                grew = True
    loose = [(a, b) for a, b, *_ in differences if a not in level or b not in level]
    gaps = [(abs(level[b] - level[a] - rise) * factor, allowed + 0.006, a, b) for a, b, rise, allowed in differences
            if a in level and b in level]
    return loose, max(gaps, key=lambda gap: gap[0] / gap[1])


def check(path):
    """Errors of one book, as (line, text); prints what was found."""
    errors = []
    book = entries(path, errors)
    if book[0][1].get("format") != "fallwright" or book[1][1]["kind"] != "remark":
        errors.append((1, "no book line with a remark after it"))
    factor = FEET if book[0][1].get("unit") == "ft" else 1.0
    loose, (gap, allowed, a, b) = worst_disagreement(links(book, known_names(book, errors), errors), factor)
    print(f"{path.name}: largest disagreement {gap * 1000:.1f} mm (of {allowed * 1000:.0f} mm) between {a} and {b}")
    if loose:
        errors.append((0, f"hang together with nothing: {loose}"))
    if gap > allowed:
        errors.append((0, f"{a} and {b} disagree by {gap:.4f} m"))
    return sorted(errors)


# What the books of a slip must show.
SLIPS = {
    "knocked.book.jsonl": [(0, "plane S1 and BM1 disagree by 0.0140 m")],
    "moved.book.jsonl": [(0, "plane 3 and nail disagree by 0.0150 m")],
    "high-for-low.book.jsonl": [(0, "plane 2 and C disagree by 0.0380 m")],
}


def main():
    holds = True
    for path in [Path(p) for p in sys.argv[1:]] or sorted(EXAMPLES.glob("*.book.jsonl")):
        errors = check(path)
        expected = FIVE if path.name == "five-errors.book.jsonl" else SLIPS.get(path.name, [])
        if errors != expected:
            holds = False
            print(f"  expected {expected}, found {errors}")
    sys.exit(0 if holds else 1)


if __name__ == "__main__":
    main()
