"""Evidence is run: every file under cases/ is one that some runner takes, and no folder of evidence is empty."""

import re

from . import tree

# The case runner (./test cases), the solver's certified regressions (./test adjust), the pairs of a spreadsheet and
# what must come of it (./test unit).
RUN = re.compile(r"cases/\w+/[\w-]+\.(case|failing)|cases/published/[\w-]+\.reg|cases/import/[\w-]+\.(csv|expected)")


def stray(names):
    return [f"{name}: neither a case file nor a document, so it is never run" for name in names
            if not RUN.fullmatch(name) and not name.endswith(".md")]


def unpaired(names):
    have = set(names)
    pairs = {".csv": ".expected", ".expected": ".csv"}
    return [f"{name}: its other half is missing" for name in names for ending, other in pairs.items()
            if name.endswith(ending) and name[: -len(ending)] + other not in have]


def unreasoned(names):
    """A known failure says why it fails, on a line of commentary before its first case."""
    return [f"{name}: opens with a case; a known failure begins with its reason" for name in names
            if name.endswith(".failing") and tree.text(name).lstrip().startswith("case")]


def empty_folders(names):
    folders = {name.rsplit("/", 1)[0] for name in names if name.count("/") > 1}
    used = {name.rsplit("/", 1)[0] for name in names if RUN.fullmatch(name)}
    if not used:
        return ["cases holds no case at all"]
    return [f"{folder} holds no case" for folder in sorted(folders - used)]


def checks():
    names = tree.files("cases/*")
    yield "every file of cases is run", stray(names)
    yield "every spreadsheet stands beside what must come of it", unpaired(names)
    yield "known failures say why", unreasoned(names)
    yield "no kind of evidence is empty", empty_folders(names)
