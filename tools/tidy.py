#!/usr/bin/env python3
"""clang-tidy with the tree's rules. Usage: tools/tidy.py [--all | --list] [FILE...]

Without files: what changed. The base of the change is $FALLWRIGHT_BASE, else where HEAD left origin's main branch;
where that cannot be told (a fresh clone of main), the newest commit older than a working session; where there is
none, everything is looked at. A changed header stands for one source
that includes it. A file that was clean is not looked at again until it, a header of ours that it includes, or the
rules change; the memory of that is build/tidy. Compiler flags are those of the asan build.
"""

import concurrent.futures
import hashlib
import os
import pathlib
import re
import subprocess
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
from repo import tree  # noqa: E402

DATABASE = "build/asan"
SESSION = "4 hours ago"
MEMORY = tree.ROOT / "build/tidy"
INCLUDE = re.compile(r'^\s*#\s*include\s*"([^"]+)"', re.M)


def git(*arguments):
    done = subprocess.run(["git", *arguments], cwd=tree.ROOT, capture_output=True, text=True)
    return done.stdout.strip() if done.returncode == 0 else ""


def base():
    """The commit that the change starts from, or "" where there is none to be found."""
    given = os.environ.get("FALLWRIGHT_BASE", "")
    if given:
        return given
    for branch in ("origin/HEAD", "origin/main", "origin/master"):
        start = git("merge-base", "HEAD", branch)
        if start and start != git("rev-parse", "HEAD"):
            return start
    return git("rev-list", "-1", f"--before={SESSION}", "HEAD")


def changed():
    start = base()
    if not start:
        return None
    names = git("diff", "--name-only", start).split("\n") + git("ls-files", "--others", "--exclude-standard").split("\n")
    return {name for name in names if name}


def resolve(name, path):
    for folder in ("core", "", os.path.dirname(name), "exchange"):
        candidate = os.path.normpath(os.path.join(folder, path))
        if (tree.ROOT / candidate).is_file():
            return candidate
    return None


def headers(name, seen=None):
    """Our own headers that a file includes, directly or not."""
    seen = set() if seen is None else seen
    for path in INCLUDE.findall(tree.text(name)):
        header = resolve(name, path)
        if header and header not in seen:
            seen.add(header)
            headers(header, seen)
    return seen


def sources():
    return [name for name in tree.suffixed(".cpp") if not name.startswith("tests/compile_fail/")]


def touched(change):
    if change is None or ".clang-tidy" in change:
        return sources()
    chosen = {name for name in sources() if name in change}
    for header in (name for name in change if name.endswith(".h")):
        chosen |= set(reads(header, chosen))
    return sorted(chosen)


def reads(header, chosen):
    """One source that shows what is wrong in a header: a chosen one if it can, else its own, else the first that includes it."""
    including = [name for name in sources() if header in {resolve(name, path) for path in INCLUDE.findall(tree.text(name))}]
    if any(name in chosen for name in including):
        return []
    own = header.removesuffix(".h") + ".cpp"
    return [own] if own in including else including[:1]


def fingerprint(name):
    digest = hashlib.sha256((tree.ROOT / ".clang-tidy").read_bytes())
    for each in [name, *sorted(headers(name))]:
        digest.update((tree.ROOT / each).read_bytes())
    return MEMORY / digest.hexdigest()


def look(name):
    mark = fingerprint(name)
    if mark.exists():
        return name, True, ""
    done = subprocess.run(["clang-tidy", "--quiet", "-p", DATABASE, name], cwd=tree.ROOT, capture_output=True, text=True)
    if done.returncode == 0:
        mark.touch()
    return name, done.returncode == 0, done.stdout + (done.stderr if done.returncode else "")


def main(arguments):
    if "--all" in arguments:
        names = sources()
    else:
        names = [each for each in arguments if not each.startswith("--")] or touched(changed())
    if "--list" in arguments:
        print("\n".join(names))
        return 0
    MEMORY.mkdir(parents=True, exist_ok=True)
    failed = 0
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        for count, (name, clean, said) in enumerate(pool.map(look, names), 1):
            failed += not clean
            print(f"[{count}/{len(names)}] {'ok    ' if clean else 'FAILED'} {name}", flush=True)
            if not clean:
                print(said.strip(), flush=True)
    print(f"{len(names) - failed} passed, {failed} failed")
    return failed > 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
