#!/usr/bin/env python3
"""Writes the requests and answers of api/examples/v1 anew, as its pairs.json lists them.

usage: refresh_examples.py [--check] PROGRAM        --check: write nothing; exit 1 where anything differs

The command line's --json is the answer of the one door, byte for byte, so the examples are taken from there.
"""

import argparse
import hashlib
import json
import pathlib
import subprocess
import sys
import tempfile

from schemas import ROOT

BOOK_NAME = "one.book.jsonl"
# Choices of which the command has one as a flag.
CHOSEN = {("form", "one-page"): ["--one-page"], ("form", "full"): [], ("as", "text"): ["--text"], ("as", "html"): []}
# What the command takes from the file itself.
OF_THE_FILE = ("fingerprint", "book_name")
FOLDER = ROOT / "api" / "examples" / "v1"
FLAGS = {"inverted", "ascii", "rod", "pegs", "as_it_is", "follow"}
# Options that the command line calls otherwise; of a drawing it wants the file, which --json leaves unwritten.
RENAMED = {"staff_length": "length", "style": "svg", "breaks": "break"}


def request_of(pair):
    request = {"verb": pair["verb"]}
    if "book" in pair:
        request["book"] = (ROOT / pair["book"]).read_text(encoding="utf-8")
    if "options" in pair:
        request["options"] = dict(pair["options"])
    if pair["verb"] == "report" and "figure" not in request["options"]:
        request["options"]["fingerprint"] = hashlib.sha256(request["book"].encode()).hexdigest()
        request["options"]["book_name"] = BOOK_NAME
    return request


def arguments(request, book):
    """The command line that asks the same."""
    options = dict(request.get("options", {}))
    words = [request["verb"], "--json"]
    positional = [str(book)] if "book" in request else []
    positional += options.pop("readings", [])
    if "reading" in options:
        positional.append(options.pop("reading"))
    for name, value in options.items():
        if name in OF_THE_FILE:
            continue
        if request["verb"] == "report" and (name, value) in CHOSEN:
            words += CHOSEN[name, value]
            continue
        flag = "--" + RENAMED.get(name, name).replace("_", "-")
        if name in FLAGS:
            words.append(flag)
        elif isinstance(value, list):
            words += [flag, *value]
        else:
            words.append(f"{flag}={value}")
    return [*words, "--", *positional]


def answer_to(program, request):
    with tempfile.TemporaryDirectory() as folder:
        book = pathlib.Path(folder) / BOOK_NAME
        book.write_text(request.get("book", ""), encoding="utf-8")
        run = subprocess.run([program, *arguments(request, book)], capture_output=True, text=True, check=False)
    if not run.stdout:
        raise SystemExit(f"{program} {request['verb']}: no answer: {run.stderr.strip()}")
    return run.stdout


def files(program):
    """{path: text} of everything the folder should hold beside pairs.json."""
    wanted = {}
    for pair in json.loads((FOLDER / "pairs.json").read_text(encoding="utf-8")):
        request = request_of(pair)
        wanted[FOLDER / f"{pair['name']}.request.json"] = json.dumps(request, ensure_ascii=False) + "\n"
        wanted[FOLDER / f"{pair['name']}.response.json"] = answer_to(program, request)
    return wanted


def main(argv):
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--check", action="store_true")
    parser.add_argument("program")
    given = parser.parse_args(argv)
    wanted = files(given.program)
    there = {path for path in FOLDER.glob("*.json") if path.name != "pairs.json"}
    differing = [path for path, text in wanted.items() if path not in there or path.read_text(encoding="utf-8") != text]
    for path in sorted({*differing, *(there - set(wanted))}):
        if given.check:
            print(f"{path.relative_to(ROOT)}: differs from what the program answers; refresh, look at the change, commit")
        elif path in wanted:
            path.write_text(wanted[path], encoding="utf-8")
        else:
            path.unlink()
    if given.check and not differing and there == set(wanted):
        print(f"api/examples/v1: {len(wanted)} files up to date")
        return 0
    return 1 if given.check else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
