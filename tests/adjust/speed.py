"""Processor time of one solve() beside SciPy's sparse LU on the same normal equations in the same run.

    /usr/bin/python3 tests/adjust/speed.py ADJUST_SPEED [KIND ROWS]...

SciPy gets the normal matrix ready made, scaled to unit diagonal (it takes far longer otherwise), and does splu(N, permc_spec="COLAMD") and one solve; the engine starts
from the rows and gives all variances and redundancies as well. A measurement, not a test: it sets no goal.
"""

import os
import subprocess
import sys
import tempfile
import time

os.environ["OMP_NUM_THREADS"] = os.environ["OPENBLAS_NUM_THREADS"] = "1"

import numpy as np
import scipy.sparse
import scipy.sparse.linalg

USUAL = ["line", "20000", "line", "200000", "line", "1000000", "sights", "200000", "tilts", "200000",
         "days", "200000", "parts", "200000", "area", "200000"]


def arrays(name):
    with open(name, "rb") as file:
        for kind in (np.uint64, np.int32, float, float, float, float, float):
            count = int(np.fromfile(file, np.uint64, 1)[0])
            yield np.fromfile(file, kind, count)


def normal_equations(name):
    start, column, coefficient, y, sd, prior_value, prior_sd = arrays(name)
    a = scipy.sparse.csr_matrix((coefficient, column, start.astype(np.int64)), (len(y), len(prior_sd)))
    weight = 1.0 / sd ** 2
    prior = np.where(prior_sd > 0, 1.0 / np.where(prior_sd > 0, prior_sd, 1.0) ** 2, 0.0)
    n = (a.T @ scipy.sparse.diags(weight) @ a + scipy.sparse.diags(prior)).tocsc()
    scale = scipy.sparse.diags(1.0 / np.sqrt(n.diagonal()))
    return (scale @ n @ scale).tocsc(), scale @ (a.T @ (weight * y) + prior * prior_value)


def scipy_seconds(name):
    """(processor seconds of the best solve, of how many it is the best)"""
    n, b = normal_equations(name)
    best, times = np.inf, 3 if n.shape[0] < 300000 else 1
    for _ in range(times):
        begin = time.process_time()
        scipy.sparse.linalg.splu(n, permc_spec="COLAMD").solve(b)
        best = min(best, time.process_time() - begin)
    return best, times


def main():
    program, *kinds = sys.argv[1:]
    for kind, rows in zip((kinds or USUAL)[0::2], (kinds or USUAL)[1::2]):
        with tempfile.NamedTemporaryFile() as file:
            line = subprocess.run([program, kind, rows, file.name], capture_output=True, text=True,
                                  check=True).stdout.split()
            ours = float(line[line.index("seconds") + 1])
            theirs, _ = scipy_seconds(file.name)
        print(f"{kind:7s} {' '.join(line)}  scipy {theirs:.3f}  ratio {ours / theirs:.2f}", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
