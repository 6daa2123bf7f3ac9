#!/usr/bin/env python3
"""man/fallwright.1 and completions/fallwright, made from what the commands say of themselves.

Usage: tools/man_page.py FALLWRIGHT [--check]     writes both, or says whether they are as they would be written.

A command's text, options and examples come from its --help; what stands around them (files, exit status, where to
read on) is kept here.
"""

import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
MAN, COMPLETIONS = ROOT / "man" / "fallwright.1", ROOT / "completions" / "fallwright"
OPTION = re.compile(r"^  (?:(-\w),)?(--[\w-]+)(.*)$")
VERB = re.compile(r"^  (\w[\w-]*)\s{2,}(\S.*)$")

HEAD = """.\\" Made by tools/man_page.py from what the commands say of themselves.
.TH FALLWRIGHT 1 "" "Fallwright {version}" "User Commands"
.SH NAME
fallwright \\- levels and falls with staff, laser and receiver
.SH SYNOPSIS
.B fallwright
.I COMMAND
.RI [ ARGUMENT ...]
.RI [ OPTION ...]
.SH DESCRIPTION
Fallwright is the book of a job that is levelled: readings go in as they are taken, off the staff or off the receiver with HIGH or LOW; out
come levels, the fall that is there, the booked page with its checks, what to set on the laser, what the staff must read, how deep to dig,
and whether what was laid is within its tolerance, each number with its uncertainty and each likely mistake named.
.PP
A book is a text file, one JSON object a line, appended to and never rewritten; an entry is on the disk before the answer comes. What was seen
is kept, amended or struck with a reason; the rest is computed.
.PP
Lengths and gradients are typed as the trade writes them: 1.432, 12mm, 4.70ft, 1/4in per ft, '1 in 80', 1.25%, 16.7mm/m.
.SH OPTIONS OF EVERY COMMAND
.TP
.B \\-\\-help
what it does, its options and an example
.TP
.B \\-\\-json
the answer as JSON, for other programs
.TP
.B \\-\\-strict
exit 1 if something is outside or an error finding stands
.SH COMMANDS
"""
EVERYWHERE = ("-h,--help", "--json", "--strict")
TAIL = """.SH EXIT STATUS
.TP
.B 0
done
.TP
.B 1
with \\-\\-strict: something is outside, or an error finding stands
.TP
.B 2
unusable input, or a file that cannot be read or written; one line says what, where and the cure
.SH FILES
.TP
.I *.book.jsonl
books
.TP
.I PREFIX/share/fallwright/app
the app that serve gives out
.SH CAUTION
Levels and falls are only as good as the benchmarks and checks behind them. Work in and near excavations, buried services, laser light and
traffic have rules of their own: follow the local codes and the competent person in charge.
"""


def help_of(program, *words):
    return subprocess.run([program, *words, "--help"], capture_output=True, text=True, check=True).stdout


def verbs(program):
    """[(name, what it does)] in the order of the help."""
    listed = help_of(program).split("Subcommands:", 1)[1]
    return [match.groups() for match in map(VERB.match, listed.splitlines()) if match]


class Verb:
    """What a verb's help says: positionals and options as (term, text), and its examples."""

    def __init__(self, program, name, what):
        self.name, self.what = name, what
        self.positionals, self.options, self.examples = [], [], []
        section, last = None, None
        for line in help_of(program, name).splitlines():
            if re.match(r"^\S.*:$", line):
                section, last = line[:-1], None
            elif not line.strip():
                last = None
            elif section in ("Example", "Examples"):
                self.examples.append(line.strip())
            elif section is not None:
                last = self.take(section, line, last)

    def take(self, section, line, last):
        """A new item, or the going on of the last one's text."""
        into = self.positionals if section == "Positionals" else self.options
        if line.startswith("  ") and not line.startswith("   "):
            parts = re.split(r"\s{2,}", line.strip(), maxsplit=1)
            into.append([self.term(parts[0]), parts[1] if len(parts) > 1 else ""])
            return into
        if last:
            last[-1][1] = (last[-1][1] + " " + line.strip()).strip()
        return last

    @staticmethod
    def term(text):
        """Without the types and marks of the help: "--over TEXT" is "--over"."""
        return re.sub(r"\s+(TEXT|INT|UINT|FLOAT|REQUIRED|\.\.\.|:\{.*\}|\{.*\}).*$", "", text)


def roff(text):
    return text.replace("\\", "\\e").replace("-", "\\-").replace("\u00b1", "\\(+-").replace("'", "\\(aq")


def man_page(version, all_verbs):
    page = HEAD.format(version=version)
    for verb in all_verbs:
        words = " ".join(term.upper() for term, _ in verb.positionals)
        page += f".SS {roff(verb.name)} {roff(words)}".rstrip() + f"\n{roff(verb.what)}.\n"
        for term, text in [*verb.positionals, *verb.options]:
            if term in EVERYWHERE:
                continue
            name = roff(term.upper() if not term.startswith("-") else term)
            page += f".TP\n.B {name}\n{roff(text) or roff(term)}\n"
        for example in verb.examples:
            page += f".PP\n.EX\n{roff(example)}\n.EE\n"
    return page + TAIL


def completions(all_verbs):
    cases = ""
    for verb in all_verbs:
        words = " ".join(word for term, _ in verb.options for word in term.split(",") if word.startswith("--"))
        cases += f"        {verb.name}) options='{words}' ;;\n"
    names = " ".join(verb.name for verb in all_verbs)
    return f"""# bash completion for fallwright. Made by tools/man_page.py from what the commands say of themselves.

_fallwright() {{
    local current=${{COMP_WORDS[COMP_CWORD]}} options
    COMPREPLY=()
    if [ "$COMP_CWORD" -eq 1 ]; then
        mapfile -t COMPREPLY < <(compgen -W '{names} --help --version' -- "$current")
        return
    fi
    case ${{COMP_WORDS[1]}} in
{cases}        *) return ;;
    esac
    if [[ $current == -* ]]; then
        mapfile -t COMPREPLY < <(compgen -W "$options" -- "$current")
    else
        compopt -o filenames 2> /dev/null
        mapfile -t COMPREPLY < <(compgen -f -- "$current")
    fi
}}
complete -F _fallwright fallwright
"""


def main(program, check):
    version = subprocess.run([program, "--version"], capture_output=True, text=True, check=True).stdout.split()[-1]
    all_verbs = [Verb(program, name, what) for name, what in verbs(program)]
    failed = 0
    for path, text in ((MAN, man_page(version, all_verbs)), (COMPLETIONS, completions(all_verbs))):
        if not check:
            path.parent.mkdir(exist_ok=True)
            path.write_text(text, encoding="utf-8")
        elif not path.exists() or path.read_text(encoding="utf-8") != text:
            failed += 1
            print(f"{path.relative_to(ROOT)} is not what the commands say of themselves: run tools/man_page.py FALLWRIGHT")
    if check:
        print(f"{2 - failed} passed, {failed} failed")
    return failed


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], "--check" in sys.argv[2:]))
