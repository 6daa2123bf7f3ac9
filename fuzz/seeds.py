#!/usr/bin/env python3
"""Seed corpora for the fuzz targets, made from cases/ and examples/; nothing of it is kept in the tree.

Usage: seeds.py EMITTED OUT     (EMITTED: the requests that run_cases --emit writes)

OUT/TARGET/ for each target, OUT/words.dict for all of them. Large inputs are left out: what goes wrong, goes wrong
with small ones, and a run of seconds must get past its seeds.
"""

import hashlib
import json
import pathlib
import re
import sys

LONGEST = {"book": 8192, "evaluate": 3000, "request": 4000, "csv": 4096, "landxml": 8192, "geojson": 4096}  # bytes
MOST = {"book": 1500, "evaluate": 120, "request": 250, "csv": 1000, "landxml": 100, "geojson": 100}  # seeds
ROOT = pathlib.Path(__file__).resolve().parent.parent


def requests(emitted):
    for path in sorted(pathlib.Path(emitted).glob("*.request.json")):
        yield path.read_text(encoding="utf-8", errors="surrogateescape")


def books(all_requests):
    for path in sorted(ROOT.glob("examples/*.book.jsonl")):
        text = path.read_text(encoding="utf-8")
        yield text
        # Its beginning is a book as well, and small enough.
        lines = text.splitlines(keepends=True)
        yield "".join(lines[:18])
    for request in all_requests:
        try:
            book = json.loads(request).get("book")
        except json.JSONDecodeError:
            continue
        if isinstance(book, str):
            yield book


def sheets():
    for path in sorted([*ROOT.glob("cases/import/*.csv"), *ROOT.glob("examples/csv/*")]):
        yield b" " + path.read_bytes()


def land_files():
    """The example, and its parts one by one."""
    for path in sorted(ROOT.glob("examples/exchange/*.xml")):
        text = path.read_text(encoding="utf-8")
        yield text
        head, tail = text[: text.index("</Units>") + 8], "</LandXML>"
        for part in ("CgPoints", "Alignments", "PipeNetworks", "Surfaces"):
            found = re.search(f"<{part}.*</{part}>", text, re.S)
            if found:
                yield head + found.group() + tail


def geo_files():
    position, line = "[-1.5,52.25]", "[[-1.5,52.25],[-1.4,52.25]]"
    for kind, coordinates in (("Point", position), ("MultiPoint", line), ("LineString", line), ("Polygon", "[" + line + "]")):
        properties = '{"name":"P1","level":47.5,"sd":0.002,"unit":"m","standing":"held","kind":"point","use":"drain","start":5}'
        feature = f'{{"type":"Feature","geometry":{{"type":"{kind}","coordinates":{coordinates}}},"properties":{properties}}}'
        yield feature
        yield f'{{"type":"FeatureCollection",\n"features":[{feature}]}}'


def write(out, target, inputs):
    """Different inputs, evenly chosen where there are too many."""
    folder = out / target
    folder.mkdir(parents=True, exist_ok=True)
    chosen = {}
    for each in inputs:
        data = each if isinstance(each, bytes) else each.encode("utf-8", errors="surrogateescape")
        if 0 < len(data) <= LONGEST[target]:
            chosen[hashlib.sha256(data).hexdigest()[:20]] = data
    step = max(1, -(-len(chosen) // MOST[target]))
    kept = list(chosen.items())[::step]
    for name, data in kept:
        (folder / name).write_bytes(data)
    print(f"{target}: {len(kept)} seeds")


def words(out, texts):
    """Names of fields, kinds and options, as a dictionary for mutations."""
    found = {word for text in texts for word in re.findall(r'"([A-Za-z_]{2,24})"', text)}
    for path in ROOT.glob("api/schema/**/*.json"):
        found |= set(re.findall(r'"([A-Za-z_]{2,24})"', path.read_text(encoding="utf-8")))
    numbers = ["1e308", "-1e9", "1e-9", "0", "null", "true", "[]", "{}", "-0.0005", "100000"]
    lines = [f'"\\"{word}\\""' for word in sorted(found)] + [f'"{number}"' for number in numbers]
    (out / "words.dict").write_text("\n".join(lines) + "\n", encoding="ascii")
    print(f"words: {len(lines)}")


def main(emitted, out):
    asked = list(requests(emitted))
    all_books = list(books(asked))
    out = pathlib.Path(out)
    write(out, "book", all_books)
    write(out, "evaluate", all_books)
    write(out, "request", asked)
    write(out, "csv", sheets())
    write(out, "landxml", land_files())
    write(out, "geojson", geo_files())
    words(out, all_books)


if __name__ == "__main__":
    main(*sys.argv[1:])
