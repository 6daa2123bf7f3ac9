#!/usr/bin/env python3
"""Documentation examples run. Usage: tools/check_docs.py FALLWRIGHT [FILE.md...]; without files, all documents.

In each fenced block headed ```console every line "$ fallwright ..." is run at the root of the tree, a copy of the
examples in a folder of its own, and the lines after it must be its output; a line of three dots stands for any
number of lines. ```console exit=N: the last command of the block ends with N. A block without a command fails.
"""

import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
from repo import tree  # noqa: E402

BLOCK = re.compile(r"^```console(?: exit=(\d+))?[ \t]*\n(.*?)^```", re.M | re.S)


def commands(block):
    """[(command line, expected lines)]"""
    found = []
    for line in block.splitlines():
        if line.startswith("$ "):
            found.append((line[2:], []))
        elif found:
            found[-1][1].append(line)
    return found


def matches(expected, got):
    """Whether lines are those expected, with three dots for any number of them."""
    pattern = "".join(r"(?:.*\n)*?" if line.strip() == "..." else re.escape(line.rstrip()) + r" *\n" for line in expected)
    return re.fullmatch(pattern, "".join(line.rstrip() + "\n" for line in got)) is not None


def run(command, program, folder):
    words = shlex.split(command)
    if words[0] != "fallwright":
        return None
    done = subprocess.run([program, *words[1:]], cwd=folder, capture_output=True, text=True, stdin=subprocess.DEVNULL)
    return done.returncode, (done.stdout + done.stderr).splitlines()


def check(where, block, status, program, folder):
    parts = commands(block)
    if not parts:
        yield f"{where}: a console block without a command"
    for number, (command, expected) in enumerate(parts):
        result = run(command, program, folder)
        wanted = status if number == len(parts) - 1 else 0
        if result is None:
            yield f"{where}: only fallwright is run here, not: {command}"
        elif result[0] != wanted:
            yield f"{where}: {command}: exit {result[0]}, not {wanted}: {' / '.join(result[1][-3:])}"
        elif expected and not matches(expected, result[1]):
            yield f"{where}: {command}: says something else now:\n" + "\n".join("    | " + line for line in result[1])
        else:
            yield None


def main(program, names):
    outcomes = []
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree(tree.ROOT / "examples", pathlib.Path(folder) / "examples")
        for name in names or tree.suffixed(".md"):
            content = tree.text(name)
            for match in BLOCK.finditer(content):
                where = f"{name}:{content.count(chr(10), 0, match.start()) + 1}"
                outcomes += check(where, match.group(2), int(match.group(1) or 0), program, folder)
    if not outcomes:
        outcomes.append("no document shows a command: nothing was run")
    problems = [each for each in outcomes if each]
    print("\n".join(problems + [f"{len(outcomes) - len(problems)} passed, {len(problems)} failed"]))
    return bool(problems)


if __name__ == "__main__":
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    sys.exit(main(str(pathlib.Path(sys.argv[1]).resolve()), sys.argv[2:]))
