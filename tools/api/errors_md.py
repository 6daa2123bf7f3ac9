#!/usr/bin/env python3
"""Writes docs/errors.md from core/base/findings.def."""

import sys

import findings_def
from generated import write_or_check

HEAD = """# What Fallwright says, and what to do about it

Made by tools/api/errors_md.py from core/base/findings.def; do not edit by hand.

Every finding has a code that never changes, a sentence of its own that names where, and the cure. An **error** means that
something is left out or cannot be told: the rest is evaluated all the same, and with `--strict` the command ends with 1.
A **warning** means that everything is evaluated but a person should look. A **note** is said once, so that nobody is surprised.
"""


def cell(text):
    return text.replace("|", "\\|")


def page():
    parts = [HEAD]
    for heading, rows in findings_def.sections():
        parts.append(f"\n## {heading[0].upper()}{heading[1:]}\n\n| code | | what it means | what to do |\n|---|---|---|---|\n")
        parts.extend(f"| `{code}` | {severity} | {cell(meaning)}. | {cell(cure)} |\n" for code, severity, meaning, cure in rows)
    return "".join(parts)


if __name__ == "__main__":
    sys.exit(write_or_check(findings_def.ROOT / "docs" / "errors.md", page(), __doc__))
