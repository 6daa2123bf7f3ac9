#!/usr/bin/env python3
"""Whether the program and the schema are of one mind about single entries.

usage: agree.py PROGRAM

Each case of api/cases/entries.jsonl becomes a book of its own. What the schema accepts must draw no finding about its
form from the program, and what the schema refuses must draw one: the two are written apart, and drift apart otherwise.
Findings about other entries (a set-up that is not there, no reading) do not matter here.
"""

import json
import pathlib
import subprocess
import sys
import tempfile

from schemas import ROOT

HEAD = [{"kind": "book", "format": "fallwright", "version": 1}, {"kind": "remark", "id": "K1-2", "text": "rain"}]
FORM = {
    "missing-field", "wrong-type", "out-of-range", "bad-sd", "bad-id", "bad-time", "no-value", "value-twice", "high-and-low",
    "no-point", "wire-order", "unknown-of", "amend-not-applied",
}  # fmt: skip
LATER_VERSION = {"unknown-kind", "unknown-field"}


def findings_about(program, entries, line, folder):
    book = pathlib.Path(folder) / "one.book.jsonl"
    book.write_text("".join(json.dumps(entry) + "\n" for entry in entries), encoding="utf-8")
    run = subprocess.run([program, "evaluate", "--json", str(book)], capture_output=True, text=True, check=False)
    answer = json.loads(run.stdout)
    findings = [answer["error"]] if "error" in answer else answer["findings"]
    names = {f"#{line}", entries[line - 1].get("id")}
    return {finding["code"] for finding in findings if names & set(finding["about"])}


def disagreement(program, case, folder):
    entry = case["entry"]
    entries = [entry] if entry.get("kind") == "book" else [*HEAD, entry]
    codes = findings_about(program, entries, len(entries), folder)
    form = sorted(codes & FORM)
    if case["ok"]:
        unknown = [] if "later version" in case["why"] else sorted(codes & LATER_VERSION)
        return f"the schema accepts it, the program says {', '.join(form + unknown)}" if form or unknown else None
    return None if form else "the schema refuses it, the program does not"


def main(program):
    cases = [json.loads(line) for line in (ROOT / "api" / "cases" / "entries.jsonl").read_text(encoding="utf-8").splitlines()]
    failed = 0
    with tempfile.TemporaryDirectory() as folder:
        for number, case in enumerate(cases, 1):
            fault = disagreement(program, case, folder)
            if fault:
                failed += 1
                print(f"api/cases/entries.jsonl:{number} ({case['why']}): {fault}")
    print(f"{len(cases) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1]))
