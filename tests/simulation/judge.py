"""Asks the program about one book and holds its answers against the truth."""

import json
import os
import subprocess
import tempfile

import numpy as np

SUSPECTS = "suspects"  # the verb that lists what probably went wrong
NORMAL_95 = 1.959963985


class Program:
    """Runs a verb on a text of a book."""

    def __init__(self, path, folder=None):
        self.path = path
        handle, self.file = tempfile.mkstemp(suffix=".book.jsonl", dir=folder)
        os.close(handle)

    def ask(self, verb, lines):
        with open(self.file, "w", encoding="utf-8") as book:
            book.write("\n".join(lines) + "\n")
        run = subprocess.run([self.path, verb, self.file, "--json"], capture_output=True, text=True)
        if run.returncode != 0 or not run.stdout:
            raise RuntimeError(f"{verb} ended with {run.returncode}: {run.stderr}")
        return json.loads(run.stdout)


def within(value, sd, truth, half_print):
    """1 inside the 95 % interval, 0 outside, None where the answer claims no uncertainty."""
    if value is None or sd is None or sd < 20 * half_print:
        return None
    return int(abs(value - truth) <= NORMAL_95 * sd)


def coverage(truth, answer):
    """{what: [inside, counted]} of every interval the answer states."""
    scene, found = truth.scene, {}

    def count(what, value, sd, real, half_print):
        hit = within(value, sd, real, half_print)
        if hit is not None:
            tally = found.setdefault(what, [0, 0])
            tally[0] += hit
            tally[1] += 1

    for level in answer["levels"]:
        real = scene.points[level["point"]]
        count("levels of benchmarks" if level["point"] in scene.benchmarks else "levels", level["level"], level["sd"], real.level, 5e-6)
    for answered in answer["setups"]:
        setup = next(s for s in scene.setups if s.name == answered["name"])
        if setup.placed:
            count("heights of the plane", answered["plane"], answered["sd"], setup.light, 5e-6)
        for axis, real in zip(("main", "cross"), truth.light(setup)):
            if scene.laser and (setup.placed or scene.line):
                count("gradients of set-ups", answered[axis], answered[axis + "_sd"], real, 5e-8)
    for line in answer["lines"]:
        on_it = {p.on_line: p for p in scene.points.values() if p.on_line}
        seen = {r.point for r in scene.readings}
        for fit in line["fits"]:
            points = [p for (_, off), p in on_it.items() if off == 0 and p.what == fit["what"] and p.name in seen]
            slope = np.polyfit([p.on_line[0] for p in points], [p.level for p in points], 1)[0]
            count("fits", fit["gradient"], fit["sd"], slope, 5e-8)
        for fall in line["falls"]:
            a, b = on_it[fall["from"], 0.0], on_it[fall["to"], 0.0]
            count("falls", fall["gradient"], fall["sd"], (a.level - b.level) / (fall["to"] - fall["from"]), 5e-8)
    return found


def chi_square(answer):
    """'low', 'high' or 'in', and None where nothing is redundant."""
    chi = answer["adjustment"]
    if not chi["dof"]:
        return None
    return "high" if chi["chi2"] > chi["chi2_high"] else "low" if chi["chi2"] < chi["chi2_low"] else "in"
