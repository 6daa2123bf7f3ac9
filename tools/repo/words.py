"""Form of text: encoding, white space, words and paths that do not belong into the tree."""

import re

from . import tree

BINARY = (".png", ".pdf", ".xlsx", ".sqlite", ".woff2", ".ico")
# Written in pieces, so that this file does not find itself.
FORBIDDEN = re.compile(
    "|".join([r"\bTO" + "DO\\b", r"\bFIX" + "ME\\b", r"\bXX" + "X\\b", r"(?i:\btrans" + "cript)", "(?i:seed docu" + "ment)",
              r"(?<![\w.])/wor" + "k/", r"(?<![\w.])/ro" + "ot/", r"/tmp/help" + "er", r"(?i:\bfarm-(?:ben" + "ch|stu" + "dio))",
              r"deb\.debi" + r"an\.org", r"registry\.np" + r"mjs", r"(?i:artif" + "actory)", r"(?i:\bnex" + r"us/repository)",
              r"\bpy" + r"pi\.org", r"\.inter" + r"nal\b:\d+"]))
# Data keep what their makers put at the ends of lines, and the encodings that they test.
DATA = ("cases/", "examples/csv/")
DATA_ENDINGS = (".csv", ".jsonl", ".svg")
# Plain ASCII in the core keeps every compiler in agreement; shells and people's text say more.
ASCII_ONLY = ("core/", "store/", "cmake/")


def problems_of(name):
    raw = (tree.ROOT / name).read_bytes()
    try:
        content = raw.decode("utf-8")
    except UnicodeDecodeError as error:
        if not name.startswith(DATA):
            yield "form", f"{name}: not UTF-8 at byte {error.start}"
        return
    data = name.startswith(DATA) or name.endswith(DATA_ENDINGS)
    plain = name.startswith(ASCII_ONLY) and "_test" not in name
    for number, line in enumerate(content.split("\n"), 1):
        where = f"{name}:{number}"
        if not data and line != line.rstrip(" \t\r"):
            yield "form", f"{where}: white space at the end of the line"
        if "\t" in line and name.endswith((".h", ".cpp", ".py", ".mjs")):
            yield "form", f"{where}: a tab"
        if plain and not line.isascii():
            yield "form", f"{where}: not ASCII"
        found = FORBIDDEN.search(line)
        if found:
            yield "words", f"{where}: {found.group(0)!r} does not belong here"
    if content and not content.endswith("\n") and not data:
        yield "form", f"{name}: no line break at the end"


def checks():
    found = {"form": [], "words": []}
    for name in tree.files():
        if not name.endswith(BINARY):
            for kind, problem in problems_of(name):
                found[kind].append(problem)
    yield "text is UTF-8, code ASCII, no white space at line ends", found["form"]
    yield "no unfinished business and no paths or hosts of one machine", found["words"]
