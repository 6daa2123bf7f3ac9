"""Documents: a paragraph for each folder, fixed sections on method pages, links that lead somewhere."""

import re

from . import tree

ARCHITECTURE = "docs/architecture.md"
METHOD_SECTIONS = ["Purpose", "Formula", "Domain", "Worked example", "Sources"]
LINK = re.compile(r"\[[^\]]*\]\(([^)#\s]+)(?:#[^)]*)?\)")


def folders():
    """Top-level folders, and those one below where the architecture goes down to them."""
    found = set()
    for name in tree.files():
        parts = name.split("/")
        if len(parts) > 1:
            found.add(parts[0])
        if len(parts) > 2 and parts[0] in ("core", "exchange", "shells", "cases", "tests", "docs", "tools"):
            found.add("/".join(parts[:2]))
    return sorted(found)


def check_architecture():
    """Each folder is named in backquotes at the start of a list item, heading or paragraph: `core/base`."""
    if ARCHITECTURE not in tree.files():
        return [f"{ARCHITECTURE} is missing"]
    named = set(re.findall(r"^[-#*\s]*\**`([\w./-]+?)/?`", tree.text(ARCHITECTURE), re.M))
    problems = [f"{ARCHITECTURE}: no paragraph begins with `{each}/`" for each in folders() if each not in named]
    problems += [f"{ARCHITECTURE}: `{each}/` is no folder" for each in sorted(named)
                 if not (tree.ROOT / each).exists()]
    return problems


def check_methods():
    problems = []
    for name in tree.files("docs/methods/*.md"):
        sections = re.findall(r"^## (.+?)\s*$", tree.text(name), re.M)
        if [each for each in sections if each in METHOD_SECTIONS] != METHOD_SECTIONS:
            problems.append(f"{name}: its sections are {sections}, among them should be {METHOD_SECTIONS} in this order")
    if not tree.files("docs/methods/*.md"):
        problems.append("docs/methods has no page")
    return problems


def check_links():
    problems = []
    for name in tree.suffixed(".md"):
        folder = (tree.ROOT / name).parent
        for target in LINK.findall(tree.text(name)):
            if "://" not in target and not (folder / target).exists():
                problems.append(f"{name}: the link to {target} leads nowhere")
    return problems


def checks():
    yield "docs/architecture.md has a paragraph for each folder", check_architecture()
    yield "method pages have the fixed sections", check_methods()
    yield "links inside the documents lead somewhere", check_links()
