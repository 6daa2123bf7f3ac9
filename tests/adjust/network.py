"""Random levelling networks for compare.py, drawn from a written seed.

A network is what a book comes to: points, set-ups, readings, steps between points, tilts and other set-up
columns with priors, columns an instrument shares, foot errors that one reading carries alone (private), and
columns that nothing reads. Sizes in metres. Nothing here knows the engine.
"""

import numpy as np


class Problem:
    def __init__(self):
        self.columns = 0
        self.priors = {}   # column -> (value, sd)
        self.rows = []     # (y, sd, [private prior sd, ...], {column: coefficient})

    def column(self, prior_sd=None, value=0.0):
        self.columns += 1
        if prior_sd is not None:
            self.priors[self.columns - 1] = (value, prior_sd)
        return self.columns - 1


def _read(rng, problem, truth, terms, sd, privates=()):
    error = rng.normal() * sd + sum(rng.normal() * p for p in privates)
    y = sum(c * truth.setdefault(j, rng.normal() * problem.priors.get(j, (0, 0.01))[1])
            for j, c in terms.items()) + error
    problem.rows.append((y, sd, list(privates), terms))


def _part(rng, problem, truth, count, datum, instrument):
    """One connected part: `count` readings in set-ups, now and then a step; `datum` a prior sd or None."""
    points = [problem.column()]
    if datum is not None:
        problem.priors[points[0]] = (0.0, datum)
    done = 0
    while done < count:
        if rng.random() < 0.1:
            a, b = points[rng.integers(len(points))], problem.column()
            points.append(b)
            _read(rng, problem, truth, {b: 1.0, a: -1.0}, rng.choice([0.0005, 0.001, 0.003]))
            done += 1
            continue
        done += _set_up(rng, problem, truth, points, min(count - done, int(rng.integers(2, 9))), instrument)
    return points


def _set_up(rng, problem, truth, points, sights, instrument):
    height = problem.column()
    tilted = instrument["tilted"]
    free = rng.random() < instrument["matched"]
    tilts = [problem.column(None if free else 2e-5) for _ in range(2)] if tilted or free else []
    foot = rng.random() < 0.3
    for k in range(sights):
        known = k == 0 or (rng.random() < 0.5 and len(points) > 1)
        if known:
            point = points[rng.integers(max(0, len(points) - 12), len(points))]
        else:
            point = problem.column()
            points.append(point)
        terms = {height: 1.0, point: -1.0}
        for tilt in tilts:
            terms[tilt] = 0.0 if rng.random() < 0.1 else rng.uniform(-60, 60)
        for shared in instrument["shared"]:
            terms[shared] = rng.uniform(2, 60)
        privates = [rng.choice([0.0003, 0.001, 0.01])] if foot else []
        if foot and rng.random() < 0.3:
            privates.append(2e-5 * rng.uniform(5, 80))
        _read(rng, problem, truth, terms, rng.choice([0.0008, 0.0012, 0.003]), privates)
    return sights


def _instrument(rng, problem, matched):
    shared = [problem.column(5e-5 if rng.random() < 0.6 else None) for _ in range(rng.integers(0, 4))]
    return {"tilted": rng.random() < 0.5, "shared": shared, "matched": matched}


def draw(seed, deficient):
    """A network of 5 to 500 readings. `deficient` takes its datum, adds parts without one, unread columns, or
    planes without a prior that too few points may show."""
    rng = np.random.default_rng(seed)
    problem, truth = Problem(), {}
    readings = int(np.exp(rng.uniform(np.log(5), np.log(500))))
    how = rng.integers(5) if deficient else -1
    matched = 0.5 if how == 4 else 0.0
    datum = None if how == 0 else float(rng.choice([0.0005, 0.002, 0.1, 3.0]))
    instrument = _instrument(rng, problem, matched)
    parts = int(rng.integers(2, 6)) if how in (1, 3) and readings >= 12 else 1
    for part in range(parts):
        with_datum = datum if part == 0 or rng.random() < 0.3 else None
        if rng.random() < 0.3:
            instrument = _instrument(rng, problem, matched)
        _part(rng, problem, truth, max(2, readings // parts), with_datum, instrument)
    if how == 2 or (how == 3 and rng.random() < 0.7) or (how == 1 and parts == 1):
        for _ in range(rng.integers(1, 4)):
            problem.column()
    if rng.random() < 0.1:
        problem.column(0.01, 0.003)       # a prior that no row carries
    if rng.random() < 0.1:
        problem.rows.append((0.001, 0.002, [], {}))
    return _shuffled(rng, problem)


def _shuffled(rng, problem):
    """Columns renumbered and rows reordered at random, so that the order drawn helps nobody."""
    result = Problem()
    result.columns = problem.columns
    number = rng.permutation(problem.columns)
    result.priors = {int(number[j]): p for j, p in problem.priors.items()}
    for i in rng.permutation(len(problem.rows)):
        y, sd, privates, terms = problem.rows[i]
        result.rows.append((y, sd, privates, {int(number[j]): c for j, c in terms.items()}))
    return result
