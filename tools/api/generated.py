"""What every generator here does with its text: write it, or with --check say whether the file still agrees."""

import argparse
import sys

from findings_def import ROOT


def write_or_check(path, text, description, argv=None):
    """Exit status: 0 written or in agreement, 1 where --check finds a difference."""
    parser = argparse.ArgumentParser(description=description)
    parser.add_argument("--check", action="store_true", help="write nothing; exit 1 where the file differs")
    options = parser.parse_args(argv)
    name = path.relative_to(ROOT).as_posix()
    if not options.check:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return 0
    if path.is_file() and path.read_text(encoding="utf-8") == text:
        print(f"{name}: up to date")
        return 0
    print(f"{name}: differs from what it is made from; run the tool without --check and commit", file=sys.stderr)
    return 1
