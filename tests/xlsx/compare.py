#!/usr/bin/env python3
"""Workbooks of books, recalculated by LibreOffice, against the answers of the command line.

Usage: compare.py PAPER FALLWRIGHT BOOK...     (fallwright-paper and fallwright)

Before LibreOffice sees a workbook, the values beside its formulas are taken out and it is told to calculate
everything on loading, so what it shows is its own. Compared are all levels and steps of the booked pages, sums,
checks and misclosures, to the last digit of the answers; levels, stations, falls and readings as typed numbers.
Then a reading is changed in the workbook and in the book, and both must go on agreeing. Names that look like
formulas must come back as they were. Each comparison that can fail counts as one test.
"""

import csv
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import zipfile

ALWAYS = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"""
# Comma, quotes, UTF-8, from row 1, no language, no quotes where not needed, numbers as numbers, not as shown,
# no formulas, no spaces off, every sheet in a file of its own.
CSV_OPTIONS = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1"
SHEETS = ("Book", "Level book", "Levels", "Stations", "Falls", "Readings")
# Columns of the level book and the members of a page's rows.
PAGE = {"back": 2, "inter": 3, "fore": 4, "rise": 5, "fall": 6, "collimation": 7, "level": 8, "adjusted": 11}
BY_STEPS, REMARK, ENTRY = 9, 12, 13
HOSTILE = ["=1+1", "+2-1", "-3", "@SUM(A1)", "=HYPERLINK(\"x\";\"y\")", "'quoted", "1e3", "007", "TRUE", "a & <b>", "2026-05-04"]

failures, passed = [], 0


def check(holds, what):
    global passed
    if holds:
        passed += 1
    else:
        failures.append(what)
        print("FAILED", what)


def run(*command):
    return subprocess.run([str(word) for word in command], capture_output=True, text=True, check=True).stdout


def forget_values(path, change=None):
    """Takes the values of formulas out; change: (sheet's file, cell, value) of one typed number."""
    with zipfile.ZipFile(path) as old:
        parts = {name: old.read(name) for name in old.namelist()}
    formulas = 0
    for name in parts:
        if name.startswith("xl/worksheets/sheet"):
            text = parts[name].decode()
            text, found = re.subn(r'(<c r="[A-Z]+\d+"[^>]*?)(?: t="str")?>(<f>[^<]*</f>)<v>[^<]*</v>', r"\1>\2", text)
            formulas += found
            if change and name == change[0]:
                text, found = re.subn(rf'(<c r="{change[1]}"[^>]*><v>)[^<]*', rf"\g<1>{change[2]}", text)
                assert found == 1, change
            parts[name] = text.encode()
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as new:
        for name, data in parts.items():
            new.writestr(name, data)
    return formulas


def recalculate(folder, paths):
    profile = folder / "profile" / "user"
    profile.mkdir(parents=True)
    (profile / "registrymodifications.xcu").write_text(ALWAYS)
    run("soffice", f"-env:UserInstallation=file://{folder}/profile", "--headless", "--convert-to", CSV_OPTIONS,
        "--outdir", folder / "csv", *paths)


def sheet(folder, stem, name):
    with open(folder / "csv" / f"{stem}-{name}.csv", newline="", encoding="utf-8") as file:
        return list(csv.reader(file))


def rounded(value, places=5):
    """The printing rule: to 1e-10 first, then half away from zero."""
    fine = round(abs(value) * 1e10)
    step = 10 ** (10 - places)
    made = (fine + step // 2) // step / 10**places
    return -made if value < 0 and made else made


def number(text):
    """Shares stay as shown, all their digits."""
    if text in ("", None):
        return None
    return float(text[:-1]) / 100 if text.endswith("%") else float(text)


def in_cell(text):
    """A text of more than 8000 bytes is cut."""
    data = text.encode()
    return text if len(data) <= 8000 else data[:8000].decode(errors="ignore") + "..."


def same(cell, expected, places=5, slack=0.0):
    found = number(cell)
    if found is None or expected is None:
        return found is None and expected is None
    return abs(rounded(found, places) - expected) <= slack + 1e-12


def compare_page(name, page, rows, start):
    """The page whose first row is rows[start]; the row after its last."""
    # Adjusted levels carry a share rounded to 1e-7 m in a metric book, unrounded in feet.
    slack = {"adjusted": 1.01e-5}
    for i, ours in enumerate(page["rows"]):
        row = rows[start + i]
        wrong = [key for key, column in PAGE.items() if not same(row[column], ours[key], 5, slack.get(key, 0))]
        check(not wrong and row[0] == in_cell(ours["point"]) and row[ENTRY] == ours["id"], f"{name}: page row {ours['id']}: {wrong}")
        if page["agrees"] is not None:
            check(same(row[BY_STEPS], ours["level"]), f"{name}: level by rise and fall of {ours['id']}")
    after = start + len(page["rows"])
    if page["agrees"] is None:
        return after
    sums = rows[after]
    for key, column in (("sum_back", 2), ("sum_fore", 4), ("sum_rise", 5), ("sum_fall", 6)):
        check(same(sums[column] or "0", page[key]), f"{name}: {key}")
    check(rows[after + 3][BY_STEPS] == ("agrees" if page["agrees"] else "DOES NOT AGREE"), f"{name}: agrees")
    return after + 4


def compare_level_book(name, answer, rows):
    closures, at = [], 1
    for page in answer["pages"]:
        while not re.match(r"\d+  (Booked page|Sloped plane)", rows[at][0]):
            at += 1
        at = compare_page(name, page, rows, at + 1)
        if at < len(rows) and rows[at][0] == "closes on":
            at += 1
            while at < len(rows) and rows[at][0]:
                closures.append(rows[at])
                at += 1
    check(len(closures) == len(answer["closures"]), f"{name}: closures {len(closures)}")
    for row, ours in zip(closures, answer["closures"]):
        word = {True: "within", False: "outside", None: ""}[ours["ok"]]
        check(same(row[8], ours["misclosure"]) and row[9] == word, f"{name}: closure on {ours['to']}")


def compare_rows(name, rows, expected):
    """expected: (word in the first column, numbers by column) a row."""
    check(len(rows) == len(expected), f"{name}: {len(rows)} rows for {len(expected)}")
    for row, (first, numbers) in zip(rows, expected):
        wrong = [column for column, (value, places) in numbers.items() if not same(row[column], value, places)]
        check(row[0] == in_cell(first) and not wrong, f"{name}: {first[:60]} {wrong}")


def compare_results(name, answer, folder, stem):
    compare_rows(f"{name} levels", sheet(folder, stem, "Levels")[1:],
                 [(x["point"], {1: (x["level"], 5), 2: (x["sd"], 5), 3: (x["readings"], 0)}) for x in answer["levels"]])
    stations = [(line["name"], {1: (x["ch"], 5), 2: (x["off"], 5), 4: (x["level"], 5), 5: (x["sd"], 5), 6: (x["design"], 5),
                                7: (x["deviation"], 5), 11: (x["probability"], 4), 12: (x["dig"], 5)})
                for line in answer["lines"] for x in line["stations"]]
    compare_rows(f"{name} stations", sheet(folder, stem, "Stations")[1:], stations)
    falls = [(line["name"], {1: (x["from"], 5), 2: (x["to"], 5), 5: (x["gradient"], 7), 6: (x["sd"], 7), 8: (x["design"], 7),
                             10: (x["backfall_probability"], 4)}) for line in answer["lines"] for x in line["falls"]]
    compare_rows(f"{name} falls", sheet(folder, stem, "Falls")[1:], falls)
    steps = sum(1 for line in open(f"{folder}/{stem}.book.jsonl", encoding="utf-8") if '"kind":"step"' in line.replace(" ", ""))
    readings = sheet(folder, stem, "Readings")[1:]
    ids = {row[0] for row in readings}
    ours = [(x["id"], {10: (x["value"], 5), 11: (x["off_plane"], 5), 12: (x["residual"], 5), 13: (x["sd"], 5)})
            for x in answer["readings"] if x["id"] in ids]
    check(len(answer["readings"]) - len(ours) == steps, f"{name}: all readings but the {steps} steps are there")
    compare_rows(f"{name} readings", readings, ours)


def changed_book(source, target):
    """The first back sight of the first page 1 m larger; its cell is the level book's C3."""
    text = source.read_text(encoding="utf-8")
    changed = re.sub(r'("staff": ?)1\.', r"\g<1>2.", text, count=1)
    assert changed != text
    target.write_text(changed, encoding="utf-8")


def hostile_book(path):
    lines = [{"kind": "book", "format": "fallwright", "version": 1, "title": "=A1&\"&D\""},
             {"kind": "benchmark", "point": HOSTILE[0], "level": 10, "source": "=now()"},
             {"kind": "instrument", "name": "L", "type": "optical-level"}, {"kind": "setup", "name": "=S1", "instrument": "L"}]
    lines += [{"kind": "reading", "id": f"=ID{i}", "point": point, "staff": 1 + i / 100, "dist": 20} for i, point in enumerate(HOSTILE)]
    lines += [{"kind": "reading", "point": "bell \x07 and " + "long " * 9000, "staff": 1.5, "dist": 20}]
    path.write_text("".join(json.dumps(line) + "\n" for line in lines), encoding="utf-8")


def formulas_elsewhere(path):
    with zipfile.ZipFile(path) as file:
        return [name for name in file.namelist() if name.startswith("xl/worksheets/") and not name.endswith("sheet2.xml")
                and b"<f>" in file.read(name)]


def main(paper, program, books):
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        stems = []
        for book in books:
            stem = pathlib.Path(book).name.removesuffix(".book.jsonl")
            (folder / f"{stem}.book.jsonl").write_bytes(pathlib.Path(book).read_bytes())
            stems.append(stem)
        changed_book(folder / f"{stems[0]}.book.jsonl", folder / "changed.book.jsonl")
        hostile_book(folder / "hostile.book.jsonl")
        for stem in [*stems, "hostile"]:
            run(paper, "export", folder / f"{stem}.book.jsonl", "--to", folder / f"{stem}.xlsx")
            check(not formulas_elsewhere(folder / f"{stem}.xlsx"), f"{stem}: formulas in the level book only")
        first = (folder / f"{stems[0]}.xlsx").read_bytes()
        run(paper, "export", folder / f"{stems[0]}.book.jsonl", "--to", folder / f"{stems[0]}.xlsx")
        check(first == (folder / f"{stems[0]}.xlsx").read_bytes(), "same book, same bytes")
        answers = {stem: json.loads(run(program, "evaluate", "--json", folder / f"{stem}.book.jsonl"))
                   for stem in [*stems, "changed", "hostile"]}
        (folder / "changed.xlsx").write_bytes((folder / f"{stems[0]}.xlsx").read_bytes())
        back = answers["changed"]["pages"][0]["rows"][0]["back"]
        formulas = sum(forget_values(folder / f"{stem}.xlsx") for stem in [*stems, "hostile"])
        forget_values(folder / "changed.xlsx", ("xl/worksheets/sheet2.xml", "C3", back))
        recalculate(folder, [folder / f"{stem}.xlsx" for stem in answers])
        for stem, answer in answers.items():
            compare_level_book(stem, answer, sheet(folder, stem, "Level book"))
            if stem != "changed":
                compare_results(stem, answer, folder, stem)
        points = [row[0] for row in sheet(folder, "hostile", "Levels")[1:]]
        check(points[: len(HOSTILE)] == HOSTILE, "names that look like formulas or numbers stay text")
        check(points[-1].endswith("...") and len(points) == len(HOSTILE) + 1, "a name too long for a cell is cut")
    print(f"{formulas} formulas in {len(books)} workbooks were calculated by LibreOffice")


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], sys.argv[3:])
    print(f"{passed} passed, {len(failures)} failed")
    sys.exit(bool(failures))
