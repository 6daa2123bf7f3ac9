"""The files of the tree, as git knows them (tracked and new, not ignored)."""

import pathlib
import subprocess

ROOT = pathlib.Path(__file__).resolve().parents[2]


def files(*patterns):
    """Paths relative to the root, sorted; all files where no pattern is given."""
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard", "--", *patterns],
        cwd=ROOT, capture_output=True, check=True, text=True).stdout
    return sorted({name for name in listed.split("\0") if name and (ROOT / name).is_file()})


def text(name):
    return (ROOT / name).read_text(encoding="utf-8")


def suffixed(*suffixes):
    return [name for name in files() if name.endswith(suffixes)]
