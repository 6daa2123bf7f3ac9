"""A booked page as a spreadsheet with formulas (OpenDocument, one flat XML file), and its levels read back."""

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


def page_of(program, book):
    answer = json.loads(subprocess.run([program, "levels", "--json", book], capture_output=True, text=True, check=True).stdout)
    return answer["pages"][0]["rows"]


def cell(value):
    if value is None:
        return "<table:table-cell/>"
    return f'<table:table-cell office:value-type="float" office:value="{value}"/>'


def formula(text):
    return f'<table:table-cell table:formula="of:={text}"/>'


def write(page, path):
    """Columns: back, inter, fore, collimation, level, rise, fall, level by rise and fall. Levels rounded to the 1e-4 m that
    readings have; the last row sums."""
    with open(path, "w", encoding="utf-8") as file:
        file.write(HEAD)
        for row, booked in enumerate(page, 1):
            first = row == 1
            level = cell(booked["level"]) if first else formula(f"ROUND([.D{row - 1}]-[.B{row}]-[.C{row}];4)")
            plane = formula(f"[.E{row}]+[.A{row}]") if booked["back"] is not None else formula(f"[.D{row - 1}]")
            sight = f"([.B{row}]+[.C{row}])"
            before = f"IF(ISBLANK([.A{row - 1}]);[.B{row - 1}]+[.C{row - 1}];[.A{row - 1}])"
            rise = cell(None) if first else formula(f"MAX(0;{before}-{sight})")
            fall = cell(None) if first else formula(f"MAX(0;{sight}-{before})")
            again = cell(booked["level"]) if first else formula(f"ROUND([.H{row - 1}]+[.F{row}]-[.G{row}];4)")
            cells = [cell(booked["back"]), cell(booked["inter"]), cell(booked["fore"]), plane, level, rise, fall, again]
            file.write("<table:table-row>" + "".join(cells) + "</table:table-row>\n")
        sums = [formula(f"SUM([.{column}1:.{column}{len(page)}])") for column in "ACFG"]
        file.write("<table:table-row>" + "".join(sums) + "</table:table-row>\n" + TAIL)


def differences(page, path):
    with open(path, newline="", encoding="utf-8") as file:
        rows = list(csv.reader(file))[:-1]
        levels = [float(row[4]) for row in rows if row[4] == row[7]]
    return abs(len(levels) - len(page)) + sum(round(ours["level"], 4) != theirs for ours, theirs in zip(page, levels))
