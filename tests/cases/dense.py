"""Rows and priors as one dense orthogonal least squares: every error an unknown of its own, its prior one more row."""

import numpy


class Dense:
    """An unknown whose prior has no width is known. After solve(): x, sd by name; fit by tag: residual, sd, redundancy."""

    def __init__(self):
        self.rows, self.priors, self.known = [], [], {}

    def prior(self, name, mean, sd):
        if sd == 0:
            self.known[name] = mean
        elif all(name != p[0] for p in self.priors):
            self.priors.append((name, mean, sd))

    def row(self, tag, terms, value, sd):
        value -= sum(c * self.known[k] for k, c in terms.items() if k in self.known)
        self.rows.append((tag, {k: c for k, c in terms.items() if k not in self.known and c != 0}, value, sd))

    def solve(self):
        carried = {k for _, terms, _, _ in self.rows for k in terms}
        rows = self.rows + [("", {k: 1}, mean, sd) for k, mean, sd in self.priors if k in carried]
        names = sorted(carried)
        index = {k: i for i, k in enumerate(names)}
        a = numpy.zeros((len(rows), len(names)))
        for i, (_, terms, _, sd) in enumerate(rows):
            for k, c in terms.items():
                a[i, index[k]] = c / sd
        y = numpy.array([value / sd for _, _, value, sd in rows])
        u, s, vt = numpy.linalg.svd(a, full_matrices=False)
        self.whole = bool(s[-1] > 1e-7 * s[0])
        x = vt.T @ ((u.T @ y) / s)
        self.x = dict(zip(names, x))
        self.sd = dict(zip(names, numpy.sqrt(((vt.T / s) ** 2).sum(axis=1))))
        residual, leverage = y - a @ x, (u**2).sum(axis=1)
        self.fit = {r[0]: (residual[i] * r[3], r[3], 1 - leverage[i]) for i, r in enumerate(rows) if r[0]}
        self.chi2, self.observations, self.unknowns = float(residual @ residual), len(rows), len(names)
