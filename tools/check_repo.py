#!/usr/bin/env python3
"""Checks of the tree itself: layering, sizes, words, documents, symbols. Usage: tools/check_repo.py [GROUP...]

Groups: layers sizes words sections evidence symbols. symbols looks at the objects of the release build.
Prints one line a check, each problem with its place, and at the end "N passed, N failed".
"""

import sys

from repo import evidence, layers, sections, sizes, symbols, words

GROUPS = {"layers": layers, "sizes": sizes, "words": words, "sections": sections,
          "evidence": evidence, "symbols": symbols}


def main(names):
    unknown = [name for name in names if name not in GROUPS]
    if unknown:
        sys.exit(f"no such group: {' '.join(unknown)}; there are {' '.join(GROUPS)}")
    passed = failed = 0
    for name in names or GROUPS:
        for statement, problems in GROUPS[name].checks():
            print(f"{'FAILED' if problems else 'ok    '}  {name}: {statement}")
            for problem in problems:
                print(f"        {problem}")
            passed, failed = passed + (not problems), failed + bool(problems)
    print(f"{passed} passed, {failed} failed")
    return failed > 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
