"""What bench/run measures: ratios side by side in one run, because machines are shared and noisy. Medians of pairs."""

import math
import os
import pathlib
import resource
import statistics
import subprocess
import sys
import tempfile
import time

import sheet

ROOT = pathlib.Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT / "tests/adjust"))
import speed  # noqa: E402

SIZES = (1000, 20000, 200000, 1000000)
BOOKED_ROWS = 20000
STATIONS = 10000
SUSPECTED = 2000
PIPES = 500
SPOTS = 1000000
PYTHON = "/usr/bin/python3"


def run(*command):
    """(user and system seconds, wall seconds) of one process; its output is thrown away."""
    begin = time.monotonic()
    with open(os.devnull, "w", encoding="ascii") as nothing:
        child = subprocess.Popen(command, stdout=nothing, stderr=nothing, cwd=ROOT)
        _, status, usage = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode != 0:
        raise SystemExit(f"bench: {' '.join(map(str, command))} ended with {child.returncode}")
    return usage.ru_utime + usage.ru_stime, time.monotonic() - begin


# A process counts its parent's memory as its own until it runs the program, so a bare interpreter starts it.
PEAK = """import os, sys
nothing = os.open(os.devnull, os.O_WRONLY)
child = os.posix_spawn(sys.argv[1], sys.argv[1:], os.environ, file_actions=[(os.POSIX_SPAWN_DUP2, nothing, 1)])
print(os.wait4(child, 0)[2].ru_maxrss * 1024)"""


def peak_bytes(*command):
    said = subprocess.run([PYTHON, "-I", "-S", "-c", PEAK, *command], capture_output=True, text=True, check=True).stdout
    return int(said)


class Report:
    def __init__(self):
        self.missed = 0
        print(f"{'what':74} {'value':>9} {'goal':>7}")

    def line(self, what, value, goal=None):
        met = goal is None or value <= goal
        self.missed += not met
        judged = "" if goal is None else "met" if met else "MISSED"
        print(f"{what:74} {value:9.3f} {'' if goal is None else f'{goal:7.3f}'} {judged}", flush=True)


def make_book(folder, size, generator="make_book.py"):
    book = folder / f"{size}.book.jsonl"
    subprocess.run([PYTHON, ROOT / "bench" / generator, str(size), book], check=True)
    return book


def against_scipy(report, build, folder):
    """One solve() and the whole command beside SciPy's LU on the same normal equations; memory; growth."""
    program, rows = build / "fallwright", build / "bench/book_rows"
    times = []
    for size in SIZES:
        book = make_book(folder, size)
        solves, files, users = [], [], []
        for _ in range(15 if size <= 20000 else 3):  # what takes a few hundredths of a second scatters
            with tempfile.NamedTemporaryFile(dir=folder) as dump:
                said = subprocess.run([rows, book, dump.name], capture_output=True, text=True, check=True).stdout.split()
                yardstick, runs = speed.scipy_seconds(dump.name)
            # The best of as many as the yardstick's, or it alone would be spared what the machine does beside.
            user = min(run(program, "evaluate", "--json", book)[0] for _ in range(runs))
            solves.append(float(said[1]) / yardstick)
            files.append(user / yardstick)
            users.append(user)
        peak = peak_bytes(program, "evaluate", "--json", book)
        judged = size >= 20000  # below, starting a process is most of it
        report.line(f"{size} readings: assemble, solve, all sds / SciPy's solve", statistics.median(solves), 1.0 if judged else None)
        report.line(f"{size} readings: file to JSON / SciPy's solve", statistics.median(files), 5.0 if judged else None)
        report.line(f"{size} readings: peak memory, KB a reading", peak / 1000 / size, 1.5 if judged else None)
        times.append(statistics.median(users))
        book.unlink()
    for size, larger, before, after in zip(SIZES, SIZES[1:], times, times[1:]):
        report.line(f"growth of file to JSON from {size} to {larger}, exponent", math.log(after / before) / math.log(larger / size), 1.2)


def start_up(report, build):
    ratios = []
    for _ in range(15):
        ours = run(build / "fallwright", "evaluate", ROOT / "examples/two-benchmarks.book.jsonl")[1]
        ratios.append(ours / run(PYTHON, "-c", "import numpy")[1])
    report.line("start-up on a small book / python3 -c 'import numpy'", statistics.median(ratios), 0.1)


def against_a_sheet(report, build, folder):
    """The same page recalculated by a spreadsheet; levels must be equal to the last digit, adjusted ones to half of it."""
    book = make_book(folder, BOOKED_ROWS, "make_level_book.py")
    page, closes_on = sheet.answer_of(build / "fallwright", book)
    source = folder / "page.fods"
    sheet.write(page, closes_on, source)
    ratios = []
    for _ in range(5):
        ours = run(build / "fallwright", "levels", "--json", book)[1]
        theirs = run("soffice", f"-env:UserInstallation=file://{folder}/profile", "--headless", "--convert-to", "csv", "--outdir", folder, source)[1]
        ratios.append(ours / theirs)
    report.line(f"{len(page)} booked rows / the same sheet recalculated", statistics.median(ratios), 0.02)
    report.line("levels that differ from the sheet's", sheet.differences(page, folder / "page.csv"), 0)


def suspicions(report, build, folder):
    """Everything that may have gone wrong in a book of 2,000 readings, weighed, in solves of the same book."""
    for generator in ("make_book.py", "make_level_book.py"):
        book = make_book(folder, SUSPECTED, generator)
        said = [subprocess.run([build / "bench/suspect_cost", book], capture_output=True, text=True, check=True).stdout.split() for _ in range(5)]
        report.line(f"{SUSPECTED} readings ({generator}): {said[0][1]} causes weighed / one solve", statistics.median(float(s[3]) for s in said), 10.0)


def joint_probabilities(report, build, folder):
    """A line of stations that are all near their limit, with the tolerance and without."""
    books = {}
    for wish in ("plain", "judged"):
        books[wish] = folder / f"line-{wish}.book.jsonl"
        subprocess.run([PYTHON, ROOT / "bench/make_line_book.py", str(STATIONS), books[wish], wish], check=True)
    ratios = []
    for _ in range(9):
        user = {wish: run(build / "fallwright", "evaluate", "--json", book)[0] for wish, book in books.items()}
        ratios.append(user["judged"] / user["plain"])
    report.line(f"{STATIONS} stations with joint probabilities / without", statistics.median(ratios), 3.0)


def run_of_drains(report, build, folder):
    """A run of pipes, as laid against its ground, and the same line for another use."""
    books = {}
    for wish in ("plain", "drain"):
        books[wish] = folder / f"run-{wish}.book.jsonl"
        subprocess.run([PYTHON, ROOT / "bench/make_drain_book.py", str(PIPES), books[wish], wish], check=True)
    ratios = []
    for _ in range(15):
        user = {wish: run(build / "fallwright", "evaluate", "--json", book)[0] for wish, book in books.items()}
        ratios.append(user["drain"] / user["plain"])
    peaks = {wish: peak_bytes(build / "fallwright", "evaluate", "--json", book) for wish, book in books.items()}
    report.line(f"a run of {PIPES} drains / evaluate without it", statistics.median(ratios), 3.0)
    report.line("the same, peak memory", peaks["drain"] / peaks["plain"], 3.0)


DELAUNAY = """import sys, time
import numpy
from scipy.spatial import Delaunay
points = numpy.fromfile(sys.argv[1]).reshape(-1, 2)
begin = time.process_time()
Delaunay(points)
print(time.process_time() - begin)"""


def surfaces(report, build, folder):
    """Spot levels to triangles and a volume to one level, beside the triangles alone of SciPy; contours beside the triangles."""
    program, points = build / "bench/surface_cost", folder / "points.bin"
    subprocess.run([program, "points", str(SPOTS), points], check=True)
    ratios, lines = [], []
    for _ in range(3):
        said = subprocess.run([program, "time", points], capture_output=True, text=True, check=True).stdout.split()
        ours = {name: float(value) for name, value in zip(said[::2], said[1::2])}
        theirs = float(subprocess.run([PYTHON, "-c", DELAUNAY, points], capture_output=True, text=True, check=True).stdout)
        ratios.append((ours["triangles"] + ours["volume"]) / theirs)
        lines.append(ours["contours"] / ours["triangles"])
    report.line(f"{SPOTS} spots: surface and volume to a level / SciPy's Delaunay", statistics.median(ratios), 0.2)
    report.line("the same, contours every 0.1 m / the triangles", statistics.median(lines), 3.0)


def paper(report, build):
    """Records as PDF, laid out and written, beside as many plain table pages by Cairo alone."""
    for name in ("lane", "car-park"):
        said = subprocess.run([build / "bench/paper_cost", ROOT / f"examples/{name}.book.jsonl"], capture_output=True, text=True, check=True).stdout.split()
        report.line(f"the record of {name}, {said[1]} pages / as many plain ones by Cairo", float(said[3]), 2.0)


def main():
    build = ROOT / sys.argv[1]
    print(f"load before: {os.getloadavg()[0]:.1f} on {os.cpu_count()} processors")
    report = Report()
    (ROOT / "build").mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory(dir=ROOT / "build", prefix="bench-") as name:
        folder = pathlib.Path(name)
        start_up(report, build)
        suspicions(report, build, folder)
        joint_probabilities(report, build, folder)
        run_of_drains(report, build, folder)
        surfaces(report, build, folder)
        paper(report, build)
        against_a_sheet(report, build, folder)
        against_scipy(report, build, folder)
    print(f"{report.missed} missed")
    return report.missed > 0


if __name__ == "__main__":
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    sys.exit(main())
