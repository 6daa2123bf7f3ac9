#!/usr/bin/env python3
"""Records of the demo books as text against the approved ones in tests/record/approved.

usage: check_records.py PROGRAM             PROGRAM: build/release/fallwright
       check_records.py PROGRAM --approve   takes what is made now as approved

A record that changes is read and approved in the commit that changes it. Ends with "N passed, N failed".
"""

import pathlib
import subprocess
import sys

import approval

ROOT = pathlib.Path(__file__).resolve().parents[2]
MADE_AT = "2026-05-05T06:00:00Z"
BOOKS = ("lane", "checked", "knocked", "feet", "two-benchmarks", "car-park")
FORMS = {"full": [], "one-page": ["--one-page"]}


def made(program):
    """{file name: text} of all records."""
    records = {}
    for book in BOOKS:
        for form, options in FORMS.items():
            command = [program, "report", ROOT / "examples" / f"{book}.book.jsonl", "--made-at", MADE_AT, *options]
            records[f"{book}-{form}.txt"] = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    return records


def main(argv):
    if len(argv) < 2:
        sys.exit(__doc__)
    return approval.end(approval.APPROVED, ".txt", made(argv[1]), "--approve" in argv)


if __name__ == "__main__":
    sys.exit(main(sys.argv))
