"""Evidence is run: the case runner takes *.case and *.failing, so nothing else may lie under cases/."""

from . import tree

RUN = (".case", ".failing")


def stray(names):
    return [f"{name}: neither a case file nor a document, so it is never run" for name in names
            if not name.endswith(RUN + (".md",))]


def unreasoned(names):
    """A known failure says why it fails, on a line of commentary before its first case."""
    return [f"{name}: opens with a case; a known failure begins with its reason" for name in names
            if name.endswith(".failing") and tree.text(name).lstrip().startswith("case")]


def empty_folders(names):
    folders = {name.rsplit("/", 1)[0] for name in names if name.count("/") > 1}
    used = {name.rsplit("/", 1)[0] for name in names if name.endswith(RUN)}
    if not used:
        return ["cases holds no case at all"]
    return [f"{folder} holds no case" for folder in sorted(folders - used)]


def checks():
    names = tree.files("cases/*")
    yield "every file of cases is run", stray(names)
    yield "known failures say why", unreasoned(names)
    yield "no kind of evidence is empty", empty_folders(names)
