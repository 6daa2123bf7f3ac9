"""Books in which nothing went wrong: do stated intervals hold, and does the sum of squares behave?

Parts (a) and (e). One book is one trial: a level, gradient, fall or fit is drawn at random from each book for the binomial limits of
the short run, as answers of one book share errors; the recorded run counts all of them.
"""

import numpy as np
from scipy import stats

import judge
import layouts
import trial_books
import truth
from model import Dense

ALARM = 0.4  # the probability from which people are told "likely"
NAMES = ("levels", "levels of benchmarks", "gradients of set-ups", "heights of the plane", "falls", "fits")


def one(program, layout, seed, checked=False):
    """What one book adds: {name: [inside, counted]}, where chi2 lies, and sums for exact tests. checked: the instrument was
    checked that morning, and what came of it is the prior of the readings."""
    rng = np.random.default_rng([seed, layouts.LAYOUTS.index(layout), *[1] * checked])
    scene = layouts.draw(layout, rng)
    real, book = truth.clean(scene, rng)
    entries = list(book.entries())
    if checked:
        check = str(rng.choice(trial_books.CHECKS)) if scene.laser else "two-peg"
        entries.append(trial_books.booked(check, scene.instrument, real.body("cone"), [real.body("tilt x"), real.body("tilt y")], rng))
    answer = program.ask("evaluate", entries)
    wrong = [f["code"] for f in answer["findings"] if f["severity"] == "error"]
    found = judge.coverage(real, answer)
    picked = pick(found, rng)
    return {"cover": found, "picked": picked, "where": judge.chi_square(answer), "chi2": answer["adjustment"]["chi2"],
            "dof": answer["adjustment"]["dof"], "bare": scene.mode == "bare", "errors": wrong, "layout": layout,
            "alarm": max([s["probability"] for s in answer["suspects"]], default=0.0) >= ALARM}


def prefixes(program, layout, seed):
    """Whether the book would have accused someone without cause at its end, or after any of its readings."""
    rng = np.random.default_rng([seed, layouts.LAYOUTS.index(layout)])
    scene = layouts.draw(layout, rng)
    _, book = truth.clean(scene, rng)
    alarms = []
    for count in range(1, len(scene.readings) + 1):
        suspects = program.ask(judge.SUSPECTS, list(book.entries(count)))["suspects"]
        alarms.append(max([s["probability"] for s in suspects], default=0.0) >= ALARM)
    return {"layout": layout, "end": alarms[-1], "ever": any(alarms), "judged": len(alarms)}


def agrees(program, layout, seed):
    """Whether the program has the simulator's own model: as many degrees of freedom, and the same smallest detectable sizes to
    the print of 0.01 mm."""
    rng = np.random.default_rng([seed, layouts.LAYOUTS.index(layout)])
    scene = layouts.draw(layout, rng)
    _, book = truth.clean(scene, rng)
    answer = program.ask("evaluate", list(book.entries()))
    dense = Dense(scene, book.figures, expect=False)
    if answer["adjustment"]["dof"] != dense.a.shape[0] - dense.a.shape[1]:
        return False
    own = [4.13 / np.linalg.norm(dense.project(np.eye(len(book.figures))[i])) for i in range(len(book.figures))]
    said = [r["detectable"] for r in answer["readings"]]
    return all(d is None or abs(d - mine) <= 1e-5 + 1e-4 * mine for d, mine in zip(said, own))


def pick(found, rng):
    """Whether one answer of the book, chosen at random, is inside its interval."""
    flags = [flag for inside, counted in found.values() for flag in [1] * inside + [0] * (counted - inside)]
    return int(rng.choice(flags))


class Tally:
    def __init__(self):
        self.books = self.bare = self.high = self.low = self.tested = self.picked = self.dof = self.alarms = 0
        self.chi2, self.cover, self.bare_cover, self.errors = 0.0, {}, {}, {}

    def add(self, got):
        self.books += 1
        self.bare += got["bare"]
        self.picked += got["picked"]
        self.alarms += got["alarm"]
        if got["where"]:
            self.tested += 1
            self.high += got["where"] == "high"
            self.low += got["where"] == "low"
            self.chi2 += got["chi2"]
            self.dof += got["dof"]
        for code in got["errors"]:
            self.errors[code] = self.errors.get(code, 0) + 1
        for into in [self.cover] + [self.bare_cover] * got["bare"]:
            for name, (inside, counted) in got["cover"].items():
                tally = into.setdefault(name, [0, 0])
                tally[0] += inside
                tally[1] += counted


def percent(part, whole):
    return f"{100 * part / whole:.2f}" if whole else ""


def table(tallies):
    """Lines of the recorded run: intervals by layout."""
    yield "| layout | books | " + " | ".join(NAMES) + " | chi2 outside | above | accused |"
    yield "|---|---|" + "---|" * (len(NAMES) + 3)
    for layout, t in tallies.items():
        cells = [percent(*t.cover.get(name, (0, 0))) for name in NAMES]
        yield (f"| {layouts.TITLES[layout]} | {t.books} | " + " | ".join(cells) +
               f" | {percent(t.high + t.low, t.tested)} | {percent(t.high, t.tested)} | {percent(t.alarms, t.books)} |")
        cells = [percent(*t.bare_cover.get(name, (0, 0))) for name in NAMES]
        yield f"| of these without places | {t.bare} | " + " | ".join(cells) + " | | | |"


def verdicts(tallies):
    """(what, holds) of the recorded run."""
    for layout, t in tallies.items():
        for name, (inside, counted) in t.cover.items():
            share = 100 * inside / counted
            yield f"(a) {layout}: {name} {share:.2f} % inside", 94 <= share <= 96
        yield f"(e) {layout}: chi2 outside {percent(t.high + t.low, t.tested)} %", 4 <= 100 * (t.high + t.low) / t.tested <= 6
        yield f"(e) {layout}: chi2 above {percent(t.high, t.tested)} %", 2 <= 100 * t.high / t.tested <= 3
        yield f"(b) {layout}: someone accused at the end in {percent(t.alarms, t.books)} % of clean books", t.alarms <= 0.01 * t.books


def limits(count, p, tail=0.0005):
    return stats.binom.ppf(tail, count, p), stats.binom.ppf(1 - tail, count, p)


def short_checks(tallies):
    """(what, holds) of few books: each check fails once in a thousand draws of a program that is right, on seeds that are fixed."""
    books = sum(t.books for t in tallies.values())
    picked, outside = sum(t.picked for t in tallies.values()), sum(t.high + t.low for t in tallies.values())
    chi2, dof = sum(t.chi2 for t in tallies.values()), sum(t.dof for t in tallies.values())
    alarms = sum(t.alarms for t in tallies.values())
    errors = {code: n for t in tallies.values() for code, n in t.errors.items() if code != "misclosure-too-large"}
    low, high = limits(books, 0.95)
    yield f"{picked} of {books} answers inside their 95 % intervals, {low:.0f} to {high:.0f} expected", low <= picked <= high
    low, high = limits(books, 0.05)
    yield f"chi2 of {outside} of {books} books outside its 95 % limits, {low:.0f} to {high:.0f} expected", low <= outside <= high
    low, high = stats.chi2.ppf(0.0005, dof), stats.chi2.ppf(0.9995, dof)
    yield f"sum of chi2 {chi2:.1f} on {dof}, {low:.1f} to {high:.1f} expected", low <= chi2 <= high
    most = stats.binom.ppf(0.9995, books, 0.01)
    yield f"{alarms} of {books} clean books accuse someone, at most {most:.0f} expected", alarms <= most
    yield f"no book has an entry the program cannot take: {errors}", not {k for k in errors if k != "chi-high"}
