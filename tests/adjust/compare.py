"""The engine against a dense orthogonal solution on 500 random networks, a third of them rank-deficient.

    /usr/bin/python3 tests/adjust/compare.py ADJUST_BORDER [--count 500] [--seed 1]

The reference is NumPy's singular value decomposition (LAPACK) of the whitened rows with every private column
written out and every prior as a row, columns scaled to unit length. Goals: corrections within 1e-10 m, standard
deviations within 1e-8 relative, redundancies within 1e-9 (those under 1e-6 are 0), chi2 within 1e-9 relative;
the same rank, counts and determined unknowns; null vectors that span the null space of the decomposition.
In a rank-deficient network only determined unknowns and the rows are compared.
Ends with "N passed, N failed" and a non-zero exit on a failure.
"""

import argparse
import os
import subprocess
import sys

os.environ["OMP_NUM_THREADS"] = os.environ["OPENBLAS_NUM_THREADS"] = "1"  # small matrices: threads only wait

import numpy as np
import scipy.linalg

import network

CORRECTION, DEVIATION, REDUNDANCY, NULL = 1e-10, 1e-8, 1e-9, 1e-8


class Reference:
    """Dense solution. Private unknowns are columns after the problem's own."""

    def __init__(self, problem):
        n, rows = problem.columns, len(problem.rows)
        priors = dict(problem.priors)
        width = n + sum(len(r[2]) for r in problem.rows)
        a, b, private = [], [], n
        for y, sd, privates, terms in problem.rows:
            line = np.zeros(width, np.longdouble)
            for j, c in terms.items():
                line[j] = c
            for p in privates:
                line[private] = 1.0
                priors[private] = (0.0, p)
                private += 1
            a.append(line / np.longdouble(sd))
            b.append(y / np.longdouble(sd))
        carried = np.any(np.array(a).reshape(rows, width) != 0, axis=0)
        for j, (value, sd) in priors.items():
            line = np.zeros(width, np.longdouble)
            line[j] = 1.0 / np.longdouble(sd)
            a.append(line)
            b.append(value / np.longdouble(sd))
        self._solve(np.array(a), np.array(b), n, rows)
        self.sd = np.array([r[1] for r in problem.rows])
        self.residual = self.misfit[:rows] * self.sd
        self.observations = rows + sum(bool(carried[j]) for j in priors)
        self.unknowns = int(carried.sum())
        idle = sum(1 for j in range(width) if not carried[j] and j not in priors)
        self.rank = self.unknowns - (self.nullity - idle)

    def _solve(self, a, b, n, rows):
        # Square at least, so that the decomposition holds the whole null space.
        a = np.vstack([a, np.zeros((max(0, a.shape[1] - a.shape[0]), a.shape[1]), np.longdouble)])
        b = np.concatenate([b, np.zeros(len(a) - len(b), np.longdouble)])
        length = np.sqrt((a * a).sum(axis=0)).astype(float)
        self.scale = np.where(length > 0, 1.0 / np.where(length > 0, length, 1.0), 1.0)
        u, s, vt = scipy.linalg.svd((a * self.scale).astype(float), full_matrices=False, lapack_driver="gesvd")
        good = s > 1e-8 * s[0]
        u = u[:, good]
        self.root = (vt[good].T / s[good]) * self.scale[:, None]             # inverse = root root^T
        # A datum known to metres only costs the decomposition digits: refined with sums of 64-bit mantissas.
        x = np.zeros(a.shape[1], np.longdouble)
        for _ in range(3):
            x += self.root @ (self.root.T @ (a.T @ (b - a @ x)).astype(float))
        self.x, self.misfit = x[:n].astype(float), (b - a @ x).astype(float)
        self.redundancy = 1.0 - (u[:rows] ** 2).sum(axis=1)
        self.null = vt[~good].T                                              # scaled unknowns, orthonormal
        self.nullity = self.null.shape[1]
        self.determined = np.sqrt((self.null[:n] ** 2).sum(axis=1)) < NULL
        self.variance = (self.root[:n] ** 2).sum(axis=1)
        self.chi2 = float(self.misfit @ self.misfit)

    def covariance(self, left, right):
        return float((left @ self.root[:len(left)]) @ (right @ self.root[:len(right)]))

    def moves(self, sum_):
        scaled = sum_ * self.scale[:len(sum_)]
        return np.abs(scaled @ self.null[:len(sum_)]).max(initial=0.0) > NULL * np.linalg.norm(scaled)


def as_text(problem, sums, pairs):
    lines = [f"columns {problem.columns}"]
    lines += [f"prior {j} {v!r} {float(s)!r}" for j, (v, s) in problem.priors.items()]
    for y, sd, privates, terms in problem.rows:
        folded = float(sum(p * p for p in privates))
        tail = " ".join(f"{j} {float(c)!r}" for j, c in terms.items())
        lines.append(f"row {float(y)!r} {float(sd)!r} {folded!r} {len(privates)} {tail}")
    lines += ["ask " + " ".join(f"{j} {float(c)!r}" for j, c in enumerate(s) if c) for s in sums]
    lines += [f"ask2 {a} {b}" for a, b in pairs]
    return "\n".join(lines) + "\n"


class Answer:
    def __init__(self, text, n):
        of = {}
        for line in text.splitlines():
            word, *rest = line.split()
            of.setdefault(word, []).append([float(v) for v in rest])
        self.observations, self.unknowns, self.dof = (int(v) for v in of["count"][0][:3])
        self.chi2 = of["count"][0][3]
        self.x, self.variance = np.array(of.get("column", [])).reshape(-1, 2).T
        self.residual, self.redundancy = np.array(of.get("row", [])).reshape(-1, 2).T
        self.null = np.zeros((n, len(of.get("null", []))))
        for k, values in enumerate(of.get("null", [])):
            for j, component in zip(values[0::2], values[1::2]):
                self.null[int(j), k] = component
        self.sums = [v[0] for v in of.get("ask", [])]
        self.pairs = [v[0] for v in of.get("ask2", [])]


def off(got, expected, floor=0.0):
    """Largest relative difference."""
    got, expected = np.asarray(got), np.asarray(expected)
    return float((np.abs(got - expected) / np.maximum(np.abs(expected), floor)).max(initial=0.0))


def null_spaces_differ(reference, answer, n):
    """Angle between the two null spaces, in scaled unknowns; 1 if their dimensions differ."""
    ours = answer.null / reference.scale[:n, None]
    if ours.shape[1] != reference.nullity:
        return 1.0
    if ours.shape[1] == 0:
        return 0.0
    q = np.linalg.qr(ours / np.linalg.norm(ours, axis=0))[0]
    theirs = reference.null[:n]
    return float(np.abs(theirs - q @ (q.T @ theirs)).max())


def questions(rng, n):
    sums = []
    for _ in range(4):
        s = np.zeros(n)
        picked = rng.choice(n, size=min(n, int(rng.integers(1, 5))), replace=False)
        s[picked] = rng.choice([-1.0, 1.0, 0.5], size=len(picked))
        sums.append(s)
    return sums, [tuple(int(v) for v in rng.integers(0, n, size=2)) for _ in range(4)]


def asked_wrongly(reference, answer, sums, pairs, n):
    unit = np.eye(n)
    asked = [(s, s, got) for s, got in zip(sums, answer.sums)]
    asked += [(unit[a], unit[b], got) for (a, b), got in zip(pairs, answer.pairs)]
    for left, right, got in asked:
        free = reference.moves(left) or reference.moves(right)
        if free != bool(np.isnan(got)):
            return True
        if free:
            continue
        size = np.sqrt(reference.covariance(left, left) * reference.covariance(right, right))
        if abs(got - reference.covariance(left, right)) > 2 * DEVIATION * size:
            return True
    return False


def compare(problem, border, rng):
    """(list of what is off, dictionary of measured differences)."""
    n = problem.columns
    sums, pairs = questions(rng, n)
    run = subprocess.run([border], input=as_text(problem, sums, pairs), capture_output=True, text=True,
                         check=True)
    reference, answer = Reference(problem), Answer(run.stdout, n)
    known = reference.determined
    folded = np.where(reference.redundancy[:len(problem.rows)] < 1e-6, 0.0, reference.redundancy)
    measured = {
        "correction": float(np.abs(answer.x - reference.x)[known].max(initial=0.0)),
        "residual": float(np.abs(answer.residual - reference.residual).max(initial=0.0)),
        "deviation": off(np.sqrt(answer.variance[known]), np.sqrt(reference.variance[known])),
        "redundancy": float(np.abs(answer.redundancy - folded).max(initial=0.0)),
        "chi2": abs(answer.chi2 - reference.chi2) / max(reference.chi2, 1e-3),
        "null": null_spaces_differ(reference, answer, n),
    }
    goals = {"correction": CORRECTION, "residual": CORRECTION, "deviation": DEVIATION,
             "redundancy": REDUNDANCY, "chi2": 1e-9, "null": NULL}
    wrong = [f"{name} {measured[name]:.1e}" for name, goal in goals.items() if not measured[name] <= goal]
    counts = (answer.observations, answer.unknowns, answer.dof)
    expected = (reference.observations, reference.unknowns, reference.observations - reference.rank)
    if counts != expected:
        wrong.append(f"counts {counts} not {expected}")
    if not np.array_equal(known, ~np.isnan(answer.variance)):
        wrong.append("determined unknowns")
    if asked_wrongly(reference, answer, sums, pairs, n):
        wrong.append("covariances asked for")
    measured["deficient"] = float(reference.nullity > 0)
    return wrong, measured


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("border")
    parser.add_argument("--count", type=int, default=500)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    failed, worst = 0, {}
    for seed in range(given.seed, given.seed + given.count):
        problem = network.draw(seed, deficient=seed % 3 == 0)
        wrong, measured = compare(problem, given.border, np.random.default_rng([seed, 1]))
        for name, value in measured.items():
            worst[name] = worst.get(name, 0.0) + value if name == "deficient" else max(worst.get(name, 0.0), value)
        if wrong:
            failed += 1
            print(f"seed {seed}: " + "; ".join(wrong))
    deficient = int(worst.pop("deficient", 0))
    print("largest differences: " + ", ".join(f"{name} {value:.1e}" for name, value in worst.items()))
    print(f"{deficient} of {given.count} rank-deficient")
    print(f"{given.count - failed} passed, {failed} failed")
    return 1 if failed or given.count == 0 else 0


if __name__ == "__main__":
    sys.exit(main())
