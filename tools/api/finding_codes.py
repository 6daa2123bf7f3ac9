#!/usr/bin/env python3
"""Writes api/schema/v1/finding-code.schema.json, the codes of findings, from core/base/findings.def."""

import json
import sys

import findings_def
from generated import write_or_check


def schema():
    document = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": "finding-code.schema.json",
        "title": "Codes of findings",
        "$comment": "Made by tools/api/finding_codes.py from core/base/findings.def; do not edit by hand",
        "description": "What a finding is called; codes are added, never renamed",
        "enum": findings_def.codes(),
    }
    return json.dumps(document, indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    path = findings_def.ROOT / "api" / "schema" / "v1" / "finding-code.schema.json"
    sys.exit(write_or_check(path, schema(), __doc__))
