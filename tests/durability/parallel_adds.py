#!/usr/bin/env python3
"""Many adders at once lose nothing and never give one id twice. Usage: parallel_adds.py -- COMMAND...

Eight programs, one after another 50 times each, all at the same time: on a book that is there, and on one that each
of them tries to begin. They come at once also to the settings folder, where no name of the device is kept yet.
"""

import collections
import concurrent.futures
import sys

import adder

WORKERS, ADDS = 8, 50


def work(tool, book, worker):
    """Whoever finds the book begun is refused, with exit 2, and goes on as all do."""
    if tool.add(book, adder.BEGIN)[0] not in (0, 2):
        return [(None, "", "neither begun nor refused")]
    return [tool.add(book, f"worker {worker} entry {number}") for number in range(ADDS)]


def run(tool, book, count, what):
    with concurrent.futures.ThreadPoolExecutor(WORKERS) as pool:
        results = list(pool.map(lambda worker: work(tool, book, worker), range(WORKERS)))
    there = adder.Book(book)
    refused = [each for worker in results for each in worker if each[0] != 0]
    count.check(f"{what}: all {WORKERS * ADDS} adds are answered", not refused, refused[:3])
    wanted = {f"worker {worker} entry {number}" for worker in range(WORKERS) for number in range(ADDS)}
    count.check(f"{what}: all {WORKERS * ADDS} are there, each once",
                sorted(there.texts) == sorted(wanted), len(there.texts))
    count.check(f"{what}: it is begun once, in its first line",
                there.begun == 1 and there.entries[0]["kind"] == "book", there.begun)
    count.check(f"{what}: no piece is torn", not there.torn, there.torn[:3])
    twice = [each for each, times in collections.Counter(there.ids).items() if times > 1]
    count.check(f"{what}: {len(there.ids)} ids, no two alike", len(there.ids) >= WORKERS * ADDS and not twice, twice)
    count.check(f"{what}: what one worker was answered stands in its order",
                all([text for text in there.texts if text.startswith(f"worker {worker} ")] ==
                    [f"worker {worker} entry {number}" for number in range(ADDS)] for worker in range(WORKERS)))
    return there


def test(tool, folder, count):
    run(tool, folder / "none-yet.book.jsonl", count, "a book not begun")
    there = run(tool, adder.new_book(folder / "begun.book.jsonl"), count, "a book begun")
    devices = {each.rsplit("-", 1)[0] for each in there.ids}
    count.check("all adders of this machine write one device's ids", len(devices) == 1, devices)


if __name__ == "__main__":
    sys.exit(adder.main(__doc__, test))
