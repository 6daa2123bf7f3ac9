"""Reads the catalogue of findings, core/base/findings.def, for the tools that write from it."""

import json
import pathlib
import re

ROOT = pathlib.Path(__file__).resolve().parents[2]
CATALOGUE = ROOT / "core" / "base" / "findings.def"

TEXT = r'"((?:[^"\\]|\\.)*)"'
HEADING = r"^// --- (?P<heading>.+)$"
ROW = rf"^FALLWRIGHT_FINDING\(\s*\w+\s*,\s*{TEXT}\s*,\s*(Error|Warning|Note)\s*,\s*{TEXT}\s*,\s*{TEXT}\s*\)"
PIECES = re.compile(rf"{HEADING}|{ROW}", re.MULTILINE)


def unquoted(text):
    """A C string literal of the catalogue; the escapes it uses are those of JSON."""
    return json.loads(f'"{text}"')


def sections(path=CATALOGUE):
    """[(heading, [(code, severity, meaning, cure)])] in the order of the file."""
    text = path.read_text(encoding="utf-8")
    found = []
    for piece in PIECES.finditer(text):
        if piece["heading"]:
            found.append((piece["heading"], []))
            continue
        _, code, severity, meaning, cure = piece.groups()
        found[-1][1].append((code, severity.lower(), unquoted(meaning), unquoted(cure)))
    rows = sum(len(rows) for _, rows in found)
    lines = len(re.findall(r"^FALLWRIGHT_FINDING\(", text, re.MULTILINE))
    if rows != lines:
        raise SystemExit(f"{path.name}: {lines} rows begin but only {rows} can be read")
    return found


def codes(path=CATALOGUE):
    return [row[0] for _, rows in sections(path) for row in rows]
