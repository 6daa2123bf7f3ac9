#!/usr/bin/env python3
"""Drawings of the demo books against the approved ones in tests/record/approved.

usage: check_figures.py PROGRAM             PROGRAM: build/release/tests/record/draw_figures
       check_figures.py PROGRAM --approve   takes what is drawn now as approved

A drawing that changes is looked at (a browser shows SVG) and approved in the commit that changes it. Ends with
"N passed, N failed".
"""

import pathlib
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as xml

ROOT = pathlib.Path(__file__).resolve().parents[2]
APPROVED = ROOT / "tests" / "record" / "approved"

# Book, drawing, line or surface ("": all of them).
DRAWN = (
    ("lane", "long-section", "D1"),
    ("lane", "cross-sections", "R1"),
    ("lane", "deviations", "D1"),
    ("lane", "trench", "D1"),
    ("lane", "plan", ""),
    ("lane", "network", ""),
    ("lane", "rod", "D1"),
    ("car-park", "surface", "car park"),
    ("bend", "cross-sections", "R2"),
    ("crest", "long-section", "A1"),
    ("trench", "long-section", "D4"),
    ("trench", "pegs", "D4"),
    ("feet", "long-section", "W1"),
    ("feet", "deviations", "W1"),
    ("steps", "network", ""),
    ("two-benchmarks", "network", ""),
)


def drawn(program, folder):
    """{file name: text} of all drawings."""
    for book, name, subject in DRAWN:
        path = ROOT / "examples" / f"{book}.book.jsonl"
        subprocess.run([program, str(path), folder, name, subject], check=True, stdout=subprocess.DEVNULL)
    return {path.name: path.read_text(encoding="utf-8") for path in pathlib.Path(folder).glob("*.svg")}


def fault(name, text):
    """Why a drawing is not the approved one; "" where it is."""
    try:
        xml.fromstring(text)
    except xml.ParseError as error:
        return f"is no XML: {error}"
    path = APPROVED / name
    if not path.exists():
        return "was never approved"
    before, now = path.read_text(encoding="utf-8").splitlines(), text.splitlines()
    for number, (old, new) in enumerate(zip(before, now), 1):
        if old != new:
            return f"differs from line {number} on: {old[:120]} | {new[:120]}"
    return "" if len(before) == len(now) else f"has {len(now)} lines, approved are {len(before)}"


def approve(figures):
    APPROVED.mkdir(exist_ok=True)
    for path in APPROVED.glob("*.svg"):
        if path.name not in figures:
            path.unlink()
    for name, text in figures.items():
        (APPROVED / name).write_text(text, encoding="utf-8")
    print(f"{len(figures)} drawings approved")


def main(argv):
    if len(argv) < 2:
        sys.exit(__doc__)
    with tempfile.TemporaryDirectory() as folder:
        figures = drawn(argv[1], folder)
    if "--approve" in argv:
        approve(figures)
        return 0
    faults = {name: fault(name, text) for name, text in sorted(figures.items())}
    faults.update({path.name: "is not drawn any more" for path in APPROVED.glob("*.svg") if path.name not in figures})
    failed = {name: why for name, why in faults.items() if why}
    for name, why in failed.items():
        print(f"{name}: {why}")
    if failed:
        print("Look at them; what is right is approved by: tests/record/check_figures.py PROGRAM --approve")
    print(f"{len(faults) - len(failed)} passed, {len(failed)} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv))
