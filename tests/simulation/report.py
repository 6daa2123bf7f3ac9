"""What the books with blunders showed: by kind, by layout, and whether probabilities mean what they say."""

import math

import numpy as np
from scipy import stats

import blunders
from blunder_books import UNLISTED
from layouts import LAYOUTS, TITLES

FAR, TENTHS, ENOUGH = 3, 10, 200


def share(flags):
    flags = list(flags)
    return 100 * sum(flags) / len(flags) if flags else math.nan


def score(got):
    """Logarithm of the probability given to the truth, nats; and that of equal odds between the book's kinds and nothing."""
    p = got["said"][got["at"]] if got["at"] is not None else UNLISTED
    return math.log(max(p, 1e-4)), -math.log(got["kinds"] + 1)


def figures(cases):
    """How one set of cases did: (cases, listed, few groups, first from three times on, log score, equal odds, settled)."""
    far = [c for c in cases if c["strength"] >= FAR]
    settled = [c["settled"] for c in cases if c["settled"] is not None]
    scores = np.array([score(c) for c in cases])
    return {"cases": len(cases), "listed": share(c["at"] is not None for c in cases), "few": share(c["groups"] <= 2 for c in cases),
            "far": len(far), "first": share(c["at"] == 0 for c in far), "score": scores[:, 0].mean(), "equal": scores[:, 1].mean(),
            "decided": len(settled), "settled": share(settled)}


def number(value, places=1):
    return "" if math.isnan(value) else f"{value:.{places}f}"


def row(name, f):
    return (f"| {name} | {f['cases']} | {number(f['listed'])} | {number(f['few'])} | {number(f['first'])} of {f['far']} | "
            f"{number(f['score'], 2)} | {number(f['equal'], 2)} | {number(f['settled'])} of {f['decided']} |")


HEAD = ("| {} | cases | listed % | at most two groups % | first, from 3 times on % | log score | equal odds | first after the deciding "
        "reading % |\n|---|---|---|---|---|---|---|---|")


def power_tables(cases):
    yield HEAD.format("kind")
    for kind in blunders.WEIGHTS:
        mine = [c for c in cases if c["kind"] == kind]
        if mine:
            yield row(kind, figures(mine))
    yield row("all", figures(cases))
    yield ""
    yield HEAD.format("layout")
    for layout in LAYOUTS:
        yield row(TITLES[layout], figures([c for c in cases if c["layout"] == layout]))
    yield ""
    yield "Listed / first from 3 times on, in %, and how many were drawn:"
    yield ""
    yield "| kind | " + " | ".join(LAYOUTS) + " |"
    yield "|---" * (len(LAYOUTS) + 1) + "|"
    for kind in blunders.WEIGHTS:
        yield f"| {kind} | " + " | ".join(cell(cases, kind, layout) for layout in LAYOUTS) + " |"


def cell(cases, kind, layout):
    mine = [c for c in cases if c["kind"] == kind and c["layout"] == layout]
    if not mine:
        return "none"
    f = figures(mine)
    return f"{number(f['listed'], 0)} / {number(f['first'], 0)}, {f['cases']}"


def power_verdicts(cases):
    """Every layout holds all kinds alike; a kind alone must beat equal odds."""
    for layout in LAYOUTS:
        f = figures([c for c in cases if c["layout"] == layout])
        yield f"(c) {layout}: listed {f['listed']:.1f} % of {f['cases']}", f["listed"] >= 95
        yield f"(c) {layout}: at most two groups in {f['few']:.1f} %", f["few"] >= 75
        yield f"(c) {layout}: first {f['first']:.1f} % of {f['far']} from three times on", f["first"] >= 90
        yield f"(d) {layout}: first {f['settled']:.1f} % of {f['decided']} after the deciding reading", f["settled"] >= 97
    for kind in blunders.WEIGHTS:
        mine = [c for c in cases if c["kind"] == kind]
        if mine:
            f = figures(mine)
            yield f"(c) {kind}: log score {f['score']:.2f}, equal odds {f['equal']:.2f}", f["score"] > f["equal"]


def tenths(cases):
    """[(entries, stated, true, standard errors apart)] by tenths of the stated probability, weighted back to the prior; "nothing
    wrong" is an entry too."""
    said = [(c["none"], float(c["kind"] is None), c["weight"]) for c in cases]
    said += [(p, float(c["kind"] is not None and i == c["at"]), c["weight"]) for c in cases for i, p in enumerate(c["said"])]
    p, hit, weight = np.array(said).T
    for k in range(TENTHS):
        mine = (p >= k / TENTHS) & ((p < (k + 1) / TENTHS) | (k == TENTHS - 1))
        if not mine.any():
            continue
        w = weight[mine]
        stated, true = w @ p[mine] / w.sum(), w @ hit[mine] / w.sum()
        error = math.sqrt(max(w**2 @ (p[mine] * (1 - p[mine])), 1e-12)) / w.sum()
        yield int(mine.sum()), stated, true, (true - stated) / error


def calibration_table(cases):
    yield "| stated | entries | stated, mean | true | standard errors apart |"
    yield "|---|---|---|---|---|"
    for count, stated, true, apart in tenths(cases):
        at = min(int(stated * TENTHS), TENTHS - 1)
        yield f"| {at / TENTHS:.1f} to {(at + 1) / TENTHS:.1f} | {count} | {stated:.4f} | {true:.4f} | {apart:+.1f} |"


def calibration_verdicts(cases):
    for count, stated, true, apart in tenths(cases):
        if count >= ENOUGH:
            yield f"(c) stated {stated:.4f}, true {true:.4f} in {count} entries: {apart:+.1f} standard errors", abs(apart) <= 3


def prefix_table(books):
    yield "| layout | books | answers | accused at the end % | at any reading % |"
    yield "|---|---|---|---|---|"
    for layout in LAYOUTS:
        mine = [b for b in books if b["layout"] == layout]
        yield (f"| {TITLES[layout]} | {len(mine)} | {sum(b['judged'] for b in mine)} | {share(b['end'] for b in mine):.2f} | "
               f"{share(b['ever'] for b in mine):.2f} |")


def prefix_verdicts(books):
    for layout in LAYOUTS:
        ever = share(b["ever"] for b in books if b["layout"] == layout)
        yield f"(b) {layout}: someone accused at any reading of {ever:.2f} % of clean books", ever <= 3


def short_checks(cases):
    """Few cases of three times the smallest detectable: each fails once in a thousand draws of a program that does what it must."""
    count = len(cases)
    for what, hits, p in (("listed", sum(c["at"] is not None for c in cases), 0.95), ("first", sum(c["at"] == 0 for c in cases), 0.9),
                          ("with at most two groups", sum(c["groups"] <= 2 for c in cases), 0.75)):
        least = stats.binom.ppf(0.001, count, p)
        yield f"{hits} of {count} blunders {what}, at least {least:.0f} expected", hits >= least
    better = np.mean([a - b for a, b in map(score, cases)])
    yield f"log score {better:.2f} above equal odds", better > 0
