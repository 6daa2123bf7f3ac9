"""A booked page as people keep it in a spreadsheet (OpenDocument, one flat XML file), and its levels read back.

Columns: point, set-up, back, inter, fore, rise, fall, height of collimation, level, level by rise and fall, how many
set-ups so far, level with the misclosure shared out by set-ups, remark. Under the rows the sums, and the misclosure.
Levels are rounded to the 1e-4 m that readings have; so is what they are compared with.
"""

import csv
import json
import subprocess

HEAD = """<?xml version="1.0" encoding="UTF-8"?>
<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
 xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"
 xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2" office:version="1.2"
 office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
<office:body><office:spreadsheet><table:table table:name="page">
"""
TAIL = "</table:table></office:spreadsheet></office:body></office:document>\n"
LEVEL, BY_RISE_AND_FALL, ADJUSTED = 8, 9, 11  # columns


def answer_of(program, book):
    """(rows of the page, level of the benchmark it closes on)"""
    answer = json.loads(subprocess.run([program, "levels", "--json", book], capture_output=True, text=True, check=True).stdout)
    rows, closure = answer["pages"][0]["rows"], answer["closures"][-1]
    return rows, round(rows[-1]["level"] - closure["misclosure"], 4)


def words(text):
    return f'<table:table-cell office:value-type="string"><text:p>{text or ""}</text:p></table:table-cell>'


def number(value):
    return "<table:table-cell/>" if value is None else f'<table:table-cell office:value-type="float" office:value="{value}"/>'


def formula(text):
    return f'<table:table-cell table:formula="of:={text}"/>'


def first_row(row):
    level = number(row["level"])
    return [number(None), number(None), formula("[.I1]+[.C1]"), level, level, number(1)]


def later_row(row, at):
    before, sight = f"IF(ISBLANK([.C{at - 1}]);[.D{at - 1}]+[.E{at - 1}];[.C{at - 1}])", f"([.D{at}]+[.E{at}])"
    turns = row["back"] is not None
    return [
        formula(f"MAX(0;{before}-{sight})"),
        formula(f"MAX(0;{sight}-{before})"),
        formula(f"[.I{at}]+[.C{at}]" if turns else f"[.H{at - 1}]"),
        formula(f"ROUND([.H{at - 1}]-{sight};4)"),
        formula(f"ROUND([.J{at - 1}]+[.F{at}]-[.G{at}];4)"),
        formula(f"[.K{at - 1}]+1" if turns else f"[.K{at - 1}]"),
    ]


def write(rows, closes_on, path):
    end = len(rows)
    with open(path, "w", encoding="utf-8") as file:
        file.write(HEAD)
        for at, row in enumerate(rows, 1):
            booked = [words(row["point"]), words(row["setup"]), *(number(row[sight]) for sight in ("back", "inter", "fore"))]
            worked = first_row(row) if at == 1 else later_row(row, at)
            # A change point belongs to the set-up it ends.
            setup = f"([.K{at}]-1)" if row["back"] is not None else f"[.K{at}]"
            adjusted = formula(f"ROUND([.I{at}]-[.I${end + 2}]*{setup}/[.K${end}];4)")
            file.write("<table:table-row>" + "".join([*booked, *worked, adjusted, words(row["remark"])]) + "</table:table-row>\n")
        sums = [number(None)] * 2 + [formula(f"SUM([.{column}1:.{column}{end}])") for column in "CDEFG"]
        misclosure = [number(None)] * 8 + [formula(f"[.I{end}]-{closes_on}")]
        for cells in (sums, misclosure):
            file.write("<table:table-row>" + "".join(cells) + "</table:table-row>\n")
        file.write(TAIL)


def differences(rows, path):
    with open(path, newline="", encoding="utf-8") as file:
        sheet = list(csv.reader(file))[: len(rows)]
    differ = sum(row[LEVEL] != row[BY_RISE_AND_FALL] or float(row[LEVEL]) != round(ours["level"], 4) for ours, row in zip(rows, sheet))
    adjusted = sum(abs(float(row[ADJUSTED]) - (ours["adjusted"] or ours["level"])) > 0.55e-4 for ours, row in zip(rows, sheet))
    return abs(len(sheet) - len(rows)) + differ + adjusted
