"""Books in which one thing went wrong: does the list hold it, how high, and do its probabilities mean what they say?

Parts (b), (c), (d). A listed entry holds the truth if it names it, among `alike` too, or if a column of what it names is alike to the
truth's (|rho| > 0.99 once all that the unknowns can follow is taken out, by the simulator's own dense model).
"""

import numpy as np

import blunders
import deciding
import judge
import layouts
import reassigned
import truth
from model import Dense

ALIKE = 0.99
DETECTABLE = 4.13  # sizes over their sd: found in 80 % at a 0.1 % false alarm
UNLISTED = 0.005  # probability counted for what the list left out: it leaves out what is under 0.01
OF_READINGS = {"misread", "digits-swapped", "offset-reversed", "offset-omitted", "staff-inverted", "wrong-point", "wrong-setup",
               "wrong-distance", "other-beam"}


class Case:
    """A job with its book, everything that could go wrong in it, and the projector of its model."""

    def __init__(self, layout, rng):
        self.rng, self.scene = rng, layouts.draw(layout, rng)
        self.truth, self.book = truth.clean(self.scene, rng)
        self.job = blunders.Job(self.scene, self.book)
        self.found = blunders.instances(self.job)
        self.odds = blunders.odds(self.found)
        self.dense = Dense(self.scene, self.book.figures)
        self.slip = self.size = None

    def spoil(self, kind):
        """One slip of the kind, drawn by its weights. False where no staff could show it."""
        slips = self.found[kind]
        weights = np.array([s.weight for s in slips])
        self.slip = slips[self.rng.choice(len(slips), p=weights / weights.sum())]
        errors = dict(self.truth.errors)
        done = reassigned.spoil(self.truth, self.book, self.slip, self.rng)
        if done is None:
            self.slip, self.truth.errors = None, errors
            return False
        self.spoilt, self.size = done
        self.strength = abs(self.size) * float(np.linalg.norm(self.dense.project(self.slip.column))) / DETECTABLE
        if isinstance(self.slip.change, reassigned.Out):
            self.changed, self.truth.errors = self.truth.errors, errors
        return True

    def shown(self):
        return (self.spoilt if self.slip else self.book).entries()

    def column_of(self, kind, about):
        """The column an answer's words stand for, None where this simulator has none like it."""
        if kind in OF_READINGS:
            which = [int(name[1:]) for name in about if name[1:].isdigit()]
            unit = self.job.unit(*which)
            return None if not which else np.abs(unit) if kind == "other-beam" else unit
        for slip in self.found.get(kind, []):
            if slip.about[: len(about)] == about[: len(slip.about)]:
                return slip.column
        return None

    def names(self, said):
        mine = self.slip.about
        if said["kind"] != self.slip.kind:
            return False
        if said["kind"] in ("settling", "staff-section"):
            return said["about"][:1] == mine[:1]
        return sorted(said["about"]) == sorted(mine) or (said["kind"] == "other-beam" and said["about"][0] == mine[0])

    def alike(self, said):
        column = self.column_of(said["kind"], said["about"])
        if column is None or not column.any() or not self.slip.column.any():
            return False
        a, b = self.dense.project(self.slip.column), self.dense.project(column)
        return abs(a @ b) > ALIKE * np.linalg.norm(a) * np.linalg.norm(b)

    def place(self, suspects):
        """Which entry holds the truth, None if none does."""
        said = [[entry, *entry["alike"]] for entry in suspects]
        for test in (self.names, self.alike):
            for i, each in enumerate(said):
                if any(test(s) for s in each):
                    return i
        return None


def judged(case, answer):
    suspects = answer["suspects"]
    at = case.place(suspects) if case.slip else None
    return {"groups": len(suspects), "at": at, "none": answer["none"], "kinds": len(case.found),
            "said": [s["probability"] for s in suspects], "first": suspects[0]["kind"] if suspects else None,
            "kind": case.slip.kind if case.slip else None}


def power(program, layout, kind, least, seed, wanted, patience=60):
    """Books with a slip of the kind at least `least` times the smallest detectable one, until `wanted` are found; given up where
    the first `patience` jobs hold none, or so many times the wanted number of jobs too few."""
    rng = np.random.default_rng([seed, layouts.LAYOUTS.index(layout), list(blunders.WEIGHTS).index(kind), least])
    cases = []
    for tried in range(patience * wanted):
        if len(cases) == wanted or (tried == patience and not cases):
            break
        case = Case(layout, rng)
        if kind in case.found and any(case.spoil(kind) and case.strength >= least for _ in range(15)):
            answer = program.ask(judge.SUSPECTS, list(case.shown()))
            cases.append({"layout": layout, "least": least, "seed": seed, "strength": case.strength, **judged(case, answer),
                          "settled": deciding.settle(program, case, answer)})
    return cases


def calibration(program, layout, seed):
    """A book by the prior weights, blunders drawn in half of the books; `weight` brings the halves back to the prior."""
    rng = np.random.default_rng([seed, layouts.LAYOUTS.index(layout), 77])
    case = Case(layout, rng)
    nothing = case.odds[None]
    wrong = rng.random() < 0.5
    if wrong:
        kinds = [k for k in case.odds if k]
        weights = np.array([case.odds[k] for k in kinds])
        while not case.spoil(str(rng.choice(kinds, p=weights / weights.sum()))):
            pass
    answer = program.ask(judge.SUSPECTS, list(case.shown()))
    return {"layout": layout, "seed": seed, "weight": 2 * ((1 - nothing) if wrong else nothing), **judged(case, answer)}
