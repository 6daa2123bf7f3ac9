"""Part (d): the reading that would decide is taken, from the truth, and the book asked again."""

import json

from judge import SUSPECTS
from model import sight
from reassigned import LENGTH, Out
from scene import Reading, Setup
from truth import Book, rounded

APART = 4.0  # sd by which the truth's prediction differs from every other


def take(case, settle):
    """Entries of the deciding reading, or None where the staff does not reach."""
    scene = case.scene
    last = scene.readings[-1].minute
    if "from" in settle:
        stand = Setup("anew", middle(scene, settle["from"], settle["point"]), 0.0, 0.0, placed=scene.mode == "placed", oriented=False)
        stand.light = 1.2 + max(scene.points[p].level for p in (settle["from"], settle["point"]))
        scene.setups.append(stand)
        taken = [Reading(len(scene.setups) - 1, p, last + 8 + i, s) for i, (p, s) in
                 enumerate(((settle["from"], "back"), (settle["point"], "inter")))]
    else:
        k = next(i for i, s in enumerate(scene.setups) if s.name == settle["setup"])
        inverted = next(r.inverted for r in scene.readings if r.point == settle["point"])
        taken = [Reading(k, settle["point"], last + 2, inverted=inverted)]
    figures = [figure(case, r) for r in taken]
    lines = []
    if all(0.02 < f < LENGTH for f in figures):
        more = Book(case.truth, [rounded(f) for f in figures], [0.0] * len(taken), taken)
        lines = [more.setup(scene.setups[-1], more.at(last + 7))] if "from" in settle else []
        lines += [renamed(more.reading(i, r, r.setup), f"d{i}") for i, r in enumerate(taken)]
    if "from" in settle:
        scene.setups.pop()
    return lines or None


def renamed(line, name):
    return json.dumps({**json.loads(line), "id": name})


def middle(scene, a, b):
    (e, n), (f, m) = scene.points[a].at, scene.points[b].at
    return round((e + f) / 2 + 3.0, 1), round((n + m) / 2, 1)


def figure(case, reading):
    """A fresh reading: right in itself, but what is wrong with stand, staff or point still is."""
    case.truth.errors, kept = getattr(case, "changed", case.truth.errors), case.truth.errors
    clean = case.truth.figure(reading, float(case.rng.normal()))
    case.truth.errors = kept
    if isinstance(case.slip.change, Out):
        return clean
    at = sight(case.scene, reading, False) if reading.setup < len(case.scene.setups) else None
    b = case.size * case.slip.now(reading.setup, reading.point, at, reading.minute, clean)
    return clean + (-b if reading.inverted else b)


def told_apart(case, predicts):
    """Whether the reading tells the truth from something, and from everything that the book itself tells from the truth."""
    mine = next((p for p in predicts if p["kind"] != "none" and case.names(p)), None)
    if mine is None:
        return False
    others = [p for p in predicts if p is not mine]
    apart = [abs(p["staff"] - mine["staff"]) >= APART * max(p["sd"], mine["sd"]) for p in others]
    return any(apart) and all(a or (p["kind"] != "none" and case.alike(p)) for a, p in zip(apart, others))


def settle(program, case, answer):
    """None where nothing is offered or it tells too little; else whether the truth comes first after it."""
    offered = answer["suspects"][0]["settle_by"] if answer["suspects"] else None
    if offered is None or not told_apart(case, offered["predicts"]):
        return None
    more = take(case, offered)
    if more is None:
        return None
    after = program.ask(SUSPECTS, list(case.shown()) + more)
    return case.place(after["suspects"]) == 0
