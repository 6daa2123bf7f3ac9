#!/usr/bin/env python3
"""Reports as PDF, taken apart by poppler and held against the same reports as text and HTML.

Usage: check.py FALLWRIGHT BOOK...     (its verb report starts fallwright-paper beside it)

Of each book in both forms and on both papers: exit code, title, author, paper, one sheet for the short form; fonts
embedded in part and readable as text; no pixels; every word of the text and every label of every drawing is in the
PDF; each page says "page i of n"; nothing is printed in the outer 8 mm; the same command gives the same bytes.
Then what must go wrong in one line and without half a file. Each comparison that can fail counts as one test.
"""

import collections
import html.parser
import json
import pathlib
import re
import resource
import shutil
import subprocess
import sys
import tempfile

import numpy

MADE_AT = "2026-05-05T06:00:00Z"
SIZES = {"A4": (595.276, 841.89), "Letter": (612, 792)}
# What text on a terminal has and paper has not: rules, marks of headings, brackets around a drawing's title, the colon
# between a fact's name and what it is.
TERMINAL = re.compile(r"^(?:[-=_]{3,}|#+|-)$")
LINE_LIMIT = 400

failures, passed = [], 0


def check(holds, what):
    global passed
    if holds:
        passed += 1
    else:
        failures.append(what)
        print("FAILED", what)


def run(*command, **more):
    return subprocess.run([str(word) for word in command], capture_output=True, text=True, check=False, **more)


def said(*command):
    done = run(*command)
    if done.returncode != 0:
        raise SystemExit(f"{command[0]} ended with {done.returncode}: {done.stderr}")
    return done.stdout


class Labels(html.parser.HTMLParser):
    """The texts of the drawings in a page."""

    def __init__(self):
        super().__init__()
        self.inside, self.found, self.figures = False, [], 0

    def handle_starttag(self, tag, attrs):
        self.inside = tag == "text"
        self.figures += tag == "figure"
        if self.inside:
            self.found.append("")

    def handle_endtag(self, tag):
        self.inside = False

    def handle_data(self, data):
        if self.inside:
            self.found[-1] += data


def squeezed(text):
    return re.sub(r"\s", "", text)


def words_of(text):
    words = [word.strip("[]") if word.startswith("[") or word.endswith("]") else word for word in text.split()]
    return collections.Counter(word.removesuffix(":") for word in words if word and not TERMINAL.match(word))


def check_words(name, pdf, text, page):
    """Words of the text, labels of the drawings. A word that paper broke is looked for without its gaps."""
    layout, raw = said("pdftotext", "-layout", pdf, "-"), said("pdftotext", "-raw", pdf, "-")
    there, whole = words_of(layout), squeezed(raw)
    lacking = [word for word, count in words_of(text).items() if there[word] < count and whole.count(word.strip("[]")) < count]
    check(not lacking, f"{name}: words of the text are not in the PDF: {lacking[:8]}")
    labels = Labels()
    labels.feed(page)
    lacking = [label for label in labels.found if squeezed(label) not in whole]
    check(not lacking, f"{name}: labels of drawings are not in the PDF: {lacking[:8]}")
    return len(labels.found)


def check_sheets(name, pdf, work, paper):
    info = dict(re.findall(r"^(.+?):\s+(.*)$", said("pdfinfo", "-f", 1, "-l", 9999, pdf), re.M))
    pages = int(info["Pages"])
    sizes = [tuple(map(float, size)) for size in re.findall(r"size:\s+([\d.]+) x ([\d.]+)", said("pdfinfo", "-f", 1, "-l", pages, pdf))]
    upright, turned = SIZES[paper], SIZES[paper][::-1]
    near = [any(abs(a - c) < 0.5 and abs(b - d) < 0.5 for c, d in (upright, turned)) for a, b in sizes]
    check(len(near) == pages and all(near), f"{name}: sheets are not {paper}: {set(sizes)}")
    numbered = [f"page {k} of {pages}" in said("pdftotext", "-layout", "-f", k, "-l", k, pdf, "-") for k in range(1, pages + 1)]
    check(all(numbered), f"{name}: pages without their number: {[k + 1 for k, good in enumerate(numbered) if not good]}")
    run("pdftoppm", "-r", 25.4, "-gray", pdf, work / "page")
    edge, printed = True, True
    for each in sorted(work.glob("page*.pgm")):
        head, grey = each.read_bytes().split(b"\n255\n", 1)
        width, height = map(int, head.split()[1:3])
        # One pixel a millimetre.
        pixels = numpy.frombuffer(grey, numpy.uint8).reshape(height, width)
        edge &= bool((numpy.concatenate([pixels[:8].ravel(), pixels[-8:].ravel(), pixels[:, :8].ravel(), pixels[:, -8:].ravel()]) > 250).all())
        # At a millimetre a pixel text is grey; a page of a few lines has some hundred such pixels.
        printed &= bool((pixels < 200).sum() > 200)
        each.unlink()
    check(edge, f"{name}: something is printed within 8 mm of an edge")
    check(printed, f"{name}: a sheet is all but empty")
    return pages


def check_file(name, pdf, title):
    info = said("pdfinfo", pdf)
    check(re.search(rf"^Title:\s+{re.escape(title)}$", info, re.M), f"{name}: the title is not '{title}'")
    check(re.search(r"^Creator:\s+Fallwright \d", info, re.M), f"{name}: what made it is not said")
    fonts = said("pdffonts", pdf).splitlines()[2:]
    check(fonts and all(re.search(r" yes yes yes +\d+ +0$", font) for font in fonts), f"{name}: fonts: {fonts}")
    check(len(said("pdfimages", "-list", pdf).splitlines()) == 2, f"{name}: there are pixels in it")


def check_report(fallwright, book, form, paper, work):
    name = f"{book.name} {form} {paper}"
    options = ["--paper", paper, "--made-at", MADE_AT] + (["--one-page"] if form == "one-page" else [])
    pdf, again, page = work / "report.pdf", work / "again.pdf", work / "report.html"
    done = run(fallwright, "report", book, *options, "--pdf", pdf)
    check(done.returncode == 0 and not done.stderr, f"{name}: exit {done.returncode}, {done.stderr}")
    if not pdf.exists():
        return
    run(fallwright, "report", book, *options, "--pdf", again)
    check(pdf.read_bytes() == again.read_bytes(), f"{name}: the same command gives other bytes")
    said(fallwright, "report", book, *options, "--html", page)
    title = json.loads(said(fallwright, "report", book, *options, "--json"))["title"]
    check_file(name, pdf, title)
    labels = check_words(name, pdf, said(fallwright, "report", book, *options, "--text"), page.read_text("utf-8"))
    pages = check_sheets(name, pdf, work, paper)
    check(form == "full" or pages == 1, f"{name}: the short form has {pages} pages")
    print(f"  {name}: {pages} pages, {labels} labels")


def refused(what, done, path=None, left=None):
    lines = done.stderr.splitlines()
    check(done.returncode == 2 and len(lines) == 1 and len(lines[0]) < LINE_LIMIT, f"{what}: exit {done.returncode}, {done.stderr!r}")
    if path is not None:
        now = path.read_bytes() if path.exists() else None
        check(now == left, f"{what}: a file is left that should not be")
        others = [each.name for each in path.parent.glob("*.part")] if path.parent.is_dir() else []
        check(not others, f"{what}: {others} are left")


def check_refusals(fallwright, book, work):
    report = [fallwright, "report", book, "--made-at", MADE_AT, "--pdf"]
    target = work / "none" / "report.pdf"
    refused("a folder that is not there", run(*report, target), target)
    refused("a folder as the file", run(*report, work))
    if pathlib.Path("/dev/full").exists():
        refused("a full disk", run(*report, "/dev/full"))
        check(not pathlib.Path("/dev/full").is_file(), "the full device is still one")
    target = work / "limited.pdf"
    target.write_bytes(b"old")
    small = 4096
    refused("a limit on the size of files", run(*report, target, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (small, small))), target, b"old")
    refused("no book", run(fallwright, "report", work / "none.book.jsonl", "--pdf", work / "x.pdf"), work / "x.pdf")
    alone = work / "alone"
    alone.mkdir()
    shutil.copy2(fallwright, alone / "fallwright")
    refused("fallwright-paper is not there", run(alone / "fallwright", *report[1:], work / "x.pdf"), work / "x.pdf")


def main(arguments):
    fallwright, books = pathlib.Path(arguments[0]).resolve(), [pathlib.Path(each) for each in arguments[1:]]
    with tempfile.TemporaryDirectory() as folder:
        work = pathlib.Path(folder)
        for book in books:
            check_report(fallwright, book, "full", "A4", work)
            check_report(fallwright, book, "one-page", "A4", work)
        check_report(fallwright, books[0], "full", "Letter", work)
        check_report(fallwright, books[0], "one-page", "Letter", work)
        check_refusals(fallwright, books[0], work)
        loaded = said("ldd", fallwright)
        check("cairo" not in loaded and "pango" not in loaded, "the command line loads what only paper needs")
    print(f"{passed} passed, {len(failures)} failed")
    return len(failures) > 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
