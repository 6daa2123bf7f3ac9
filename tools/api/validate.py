#!/usr/bin/env python3
"""Validates books, documentation and recorded answers against the schemas of api/schema/v1.

usage: validate.py [FOLDER...]

Always: every line of examples/*.book.jsonl, every line of the jsonl blocks of docs/formats/*.md, the entries of
api/cases/entries.jsonl, api/examples/v1, and whether the pages of docs/formats name every field. A FOLDER holds pairs NAME.request.json and NAME.response.json.
Lines that are wrong on purpose are listed in api/cases/wrong_lines.json and must fail.
Exit status 1 where anything fails.
"""

import json
import pathlib
import re
import sys

from schemas import ROOT, Schemas

BRANCH = {
    kind: f"entry.schema.json#/$defs/{kind.capitalize()}Entry"
    for kind in (
        "book benchmark instrument staff receiver line place setup reading step what tolerance trial surface want rule "
        "relaid adjusted amend strike remark"
    ).split()
}


def once(pairs):
    """Refuses an object in which a key stands twice; json.loads alone would keep the last."""
    found = dict(pairs)
    if len(found) != len(pairs):
        raise ValueError("a key stands twice")
    return found


def parsed(text):
    def refuse(word):
        raise ValueError(f"{word} is no JSON number")

    return json.loads(text, object_pairs_hook=once, parse_constant=refuse)


class Tally:
    def __init__(self):
        self.passed = 0
        self.failed = 0

    def note(self, where, faults, must_fail=False):
        if bool(faults) == must_fail:
            self.passed += 1
            return
        self.failed += 1
        print(f"{where}: {'; '.join(faults) if faults else 'is valid, but must not be'}")


def entry_faults(schemas, line):
    """Faults of one line of a book, told by the branch of its kind."""
    try:
        entry = parsed(line)
    except ValueError as error:
        return [str(error)]
    faults = schemas.faults("entry.schema.json", entry)
    kind = entry.get("kind") if isinstance(entry, dict) else None
    if faults and kind in BRANCH:
        return schemas.faults(BRANCH[kind], entry) or faults
    return faults


def lines_of(path):
    text = path.read_bytes().decode("utf-8-sig")
    return [(number, line.rstrip("\r")) for number, line in enumerate(text.split("\n"), 1) if line.strip()]


def check_books(schemas, tally):
    wrong = json.loads((ROOT / "api" / "cases" / "wrong_lines.json").read_text(encoding="utf-8"))
    for path in sorted((ROOT / "examples").glob("*.book.jsonl")):
        name = path.relative_to(ROOT).as_posix()
        on_purpose = wrong.pop(name, {})
        for number, line in lines_of(path):
            tally.note(f"{name}:{number}", entry_faults(schemas, line), on_purpose.pop(str(number), None) is not None)
        for number in on_purpose:
            tally.note(f"{name}:{number}", ["listed in wrong_lines.json, but there is no such line"])
    for name in wrong:
        tally.note(name, ["listed in wrong_lines.json, but there is no such book"])


def check_documentation(schemas, tally):
    for path in sorted((ROOT / "docs" / "formats").glob("*.md")):
        name = path.relative_to(ROOT).as_posix()
        inside = False
        for number, line in lines_of(path):
            if line.startswith("```"):
                inside = line.strip() == "```jsonl"
            elif inside:
                tally.note(f"{name}:{number}", entry_faults(schemas, line))


def fields_of(schema):
    """Names of all fields a schema describes, inner ones too."""
    if isinstance(schema, dict):
        if isinstance(schema.get("properties"), dict):
            yield from schema["properties"]
        for value in schema.values():
            yield from fields_of(value)
    elif isinstance(schema, list):
        for value in schema:
            yield from fields_of(value)


def check_pages_are_whole(schemas, tally):
    """Every field of a schema is named on the page that explains it."""
    for page, name in (("book.md", "entry"), ("result.md", "evaluate"), ("result.md", "suspects"), ("result.md", "trial"), ("result.md", "fall"), ("result.md", "dial"), ("result.md", "setout"), ("result.md", "plan"), ("result.md", "drain"), ("result.md", "drains"), ("result.md", "staff"), ("result.md", "figures"), ("result.md", "report"), ("exchange.md", "export"), ("exchange.md", "import")):
        text = (ROOT / "docs" / "formats" / page).read_text(encoding="utf-8")
        words = {*re.findall(r"\w+", text), *re.findall(r"[\w-]+", text)}
        missing = sorted(set(fields_of(schemas.by_name[f"{name}.schema.json"])) - words)
        tally.note(f"docs/formats/{page}", [f"does not name these fields of {name}: {', '.join(missing)}"] if missing else [])


def check_cases(schemas, tally):
    """Each line of entries.jsonl: {why, ok, entry}."""
    path = ROOT / "api" / "cases" / "entries.jsonl"
    for number, line in lines_of(path):
        case = parsed(line)
        faults = entry_faults(schemas, json.dumps(case["entry"]))
        tally.note(f"api/cases/entries.jsonl:{number} ({case['why']})", faults, must_fail=not case["ok"])


def called(number, entry):
    """What findings and corrections call the entry on a line."""
    names = {f"#{number}"}
    if isinstance(entry, dict) and isinstance(entry.get("id"), str):
        names.add(entry["id"])
    return names


def lines_passed_over(schemas, request, response):
    """Lines of the request's book that the schema refuses and the answer says nothing about; corrected ones may be so."""
    entries = []
    for number, line in enumerate(request["book"].removeprefix("\ufeff").split("\n"), 1):
        if line.strip():
            try:
                entries.append((number, line, parsed(line)))
            except ValueError:
                entries.append((number, line, None))
    corrected = {entry.get("of") for _, _, entry in entries if isinstance(entry, dict) and isinstance(entry.get("of"), str)}
    known = corrected.union(*(finding["about"] for finding in response["findings"]))
    for number, line, entry in entries:
        if not known & called(number, entry) and entry_faults(schemas, line):
            yield f"line {number} is no valid entry, and no finding names it"


def response_schema(request, response):
    if isinstance(response, dict) and "error" in response:
        return "error.schema.json"
    verb = "drains" if request["verb"] == "drain" and "book" in request else request["verb"]
    verb = "figures" if verb == "report" and "figure" in request.get("options", {}) else verb
    return f"{verb}.schema.json"


def check_folder(schemas, folder, tally):
    requests = sorted(folder.rglob("*.request.json"))
    if not requests:
        tally.note(str(folder), ["holds no *.request.json"])
    for path in requests:
        name = path.name.removesuffix(".request.json")
        answer = path.with_name(f"{name}.response.json")
        try:
            request = parsed(path.read_text(encoding="utf-8"))
            response = parsed(answer.read_text(encoding="utf-8"))
        except (OSError, ValueError) as error:
            tally.note(str(path), [str(error)])
            continue
        refused = isinstance(response, dict) and "error" in response
        faults = schemas.faults("request.schema.json", request)
        # A request that the schema refuses is recorded only to show the error it is answered with.
        tally.note(str(path), [] if refused else faults)
        faults = schemas.faults(response_schema(request, response), response)
        if not faults and not refused and request["verb"] in ("evaluate", "levels"):
            faults = list(lines_passed_over(schemas, request, response))
        tally.note(str(answer), faults)


def main(folders):
    schemas = Schemas()
    tally = Tally()
    check_books(schemas, tally)
    check_documentation(schemas, tally)
    check_pages_are_whole(schemas, tally)
    check_cases(schemas, tally)
    for folder in [ROOT / "api" / "examples" / "v1", *map(pathlib.Path, folders)]:
        check_folder(schemas, folder, tally)
    print(f"{tally.passed} passed, {tally.failed} failed")
    return 1 if tally.failed or not tally.passed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
