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

import approval

ROOT = pathlib.Path(__file__).resolve().parents[2]

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


def broken(text):
    """Why a drawing could not be shown at all; "" where it can."""
    try:
        xml.fromstring(text)
    except xml.ParseError as error:
        return f"is no XML: {error}"
    return ""


def main(argv):
    if len(argv) < 2:
        sys.exit(__doc__)
    with tempfile.TemporaryDirectory() as folder:
        figures = drawn(argv[1], folder)
    return approval.end(approval.APPROVED, ".svg", figures, "--approve" in argv, broken)


if __name__ == "__main__":
    sys.exit(main(sys.argv))
