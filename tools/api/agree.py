#!/usr/bin/env python3
"""Whether the program and the schema are of one mind about single entries.

usage: agree.py PROGRAM

Each case of api/cases/entries.jsonl, and each valid one with one field left out or given another value, is one line of
a book. What the schema accepts must draw no finding about its form from the program, and what the schema refuses must
draw one: the two are written apart, and drift apart otherwise. Findings about what entries mean to each other (a set-up
that is not there, a name used twice) do not matter here.
"""

import copy
import json
import pathlib
import subprocess
import sys
import tempfile

from schemas import ROOT, Schemas

HEAD = [{"kind": "book", "format": "fallwright", "version": 1}, {"kind": "remark", "id": "K1-2", "text": "rain"}]
FORM = {
    "missing-field", "wrong-type", "out-of-range", "bad-sd", "bad-id", "bad-time", "no-value", "value-twice", "high-and-low",
    "no-point", "unknown-of", "amend-not-applied",
}  # fmt: skip
LATER_VERSION = {"unknown-kind", "unknown-field"}
# A name like any other, and a gradient where one is meant: whether a text is a gradient is beyond a schema.
GRADIENT = "1 in 40 rise"
# These change what others read like, or stand first: each gets a book of its own.
ALONE = {"book", "amend", "strike"}


def leaves(value, path=()):
    """Paths of all members of objects, inner ones too; of lists the elements."""
    members = value.items() if isinstance(value, dict) else enumerate(value)
    for key, inner in members:
        yield (*path, key)
        if isinstance(inner, (dict, list)):
            yield from leaves(inner, (*path, key))


def parent_of(entry, path):
    for key in path[:-1]:
        entry = entry[key]
    return entry


def others(value):
    """Values of other types, and of the same type at the edge of what may be."""
    if isinstance(value, bool):
        return ["true", 1, [True]]
    if isinstance(value, (int, float)):
        return [-1, 0, GRADIENT, True, [value], {"value": value}]
    if isinstance(value, str):
        return [GRADIENT, 7, True, [value]]
    return [GRADIENT, 7, True, [] if isinstance(value, dict) else {}]


def variants(entry):
    """(what was done, the entry so changed): one field left out, or with another value."""
    for path in leaves(entry):
        name = ".".join(map(str, path))
        if not isinstance(path[-1], int):
            changed = copy.deepcopy(entry)
            del parent_of(changed, path)[path[-1]]
            yield f"without {name}", changed
        for other in others(parent_of(entry, path)[path[-1]]):
            changed = copy.deepcopy(entry)
            parent_of(changed, path)[path[-1]] = other
            yield f"{name} {json.dumps(other)}", changed


def cases():
    """(name, entry, whether unknown fields are meant); an id stands once in a book, so variants have none."""
    for line in (ROOT / "api" / "cases" / "entries.jsonl").read_text(encoding="utf-8").splitlines():
        case = json.loads(line)
        later = "later version" in case["why"]
        yield case["why"], case["entry"], later
        if case["ok"] and not later and case["entry"]["kind"] not in ALONE:
            fields = {key: value for key, value in case["entry"].items() if key != "id"}
            for change, entry in variants(fields):
                if isinstance(entry.get("kind"), str) and entry["kind"] != GRADIENT:
                    yield f"{case['why']}: {change}", entry, later


def findings(program, entries, folder):
    """{line: codes} of a book of these entries."""
    book = pathlib.Path(folder) / "entries.book.jsonl"
    book.write_text("".join(json.dumps(entry) + "\n" for entry in entries), encoding="utf-8")
    run = subprocess.run([program, "evaluate", "--json", str(book)], capture_output=True, text=True, check=False)
    answer = json.loads(run.stdout)
    line_of = {entry["id"]: number for number, entry in enumerate(entries, 1) if isinstance(entry.get("id"), str)}
    codes = {number: set() for number in range(1, len(entries) + 1)}
    for finding in [answer["error"]] if "error" in answer else answer["findings"]:
        for about in finding["about"]:
            number = line_of.get(about) or (int(about[1:]) if about[:1] == "#" and about[1:].isdigit() else 0)
            if number in codes:
                codes[number].add(finding["code"])
    return codes


def collected(program, folder):
    """(case, codes) for every case: most in one book, a few in one of their own."""
    together = [case for case in cases() if case[1].get("kind") not in ALONE]
    found = findings(program, [*HEAD, *(entry for _, entry, _ in together)], folder)
    for number, case in enumerate(together, len(HEAD) + 1):
        yield case, found[number]
    for case in cases():
        entry = case[1]
        if entry.get("kind") in ALONE:
            entries = [entry] if entry["kind"] == "book" else [*HEAD, entry]
            yield case, findings(program, entries, folder)[len(entries)]


def disagreement(accepted, codes, later):
    form = sorted(codes & FORM)
    if not accepted:
        return None if form else "the schema refuses it, the program does not"
    unknown = [] if later else sorted(codes & LATER_VERSION)
    return f"the schema accepts it, the program says {', '.join(form + unknown)}" if form or unknown else None


def main(program):
    schemas = Schemas()
    passed = failed = 0
    with tempfile.TemporaryDirectory() as folder:
        for (name, entry, later), codes in collected(program, folder):
            fault = disagreement(not schemas.faults("entry.schema.json", entry), codes, later)
            passed, failed = passed + (not fault), failed + bool(fault)
            if fault:
                print(f"{name}: {fault}")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1]))
