#!/usr/bin/env python3
"""A full disk leaves an intact book and is said in one clear line. Usage: full_disk.py -- COMMAND...

The disk is a tmpfs of 64 KiB, mounted by root or through sudo. Where neither may mount (a container without the
right to), that is said, and a limit on the size of files stands in: the other way to a write that is not taken
whole, tried in any case.
"""

import sys

import adder

def fill_by_adding(tool, book, count):
    """Adds until the disk takes no more; the bytes of the book at that time."""
    for number in range(200):
        before = book.read_bytes()
        result = tool.add(book, f"entry {number} " + "x" * 1500)
        if result[0] != 0:
            count.refused(f"add number {number + 1} on a disk of 64 KiB", result)
            return before
    return None


def on_small_disk(tool, disk, count):
    book = adder.new_book(disk / "lane.book.jsonl")
    (disk / "other").write_bytes(b"x" * 16384)
    before = fill_by_adding(tool, book, count)
    count.check("the disk came to its end", before is not None)
    count.check("the book holds what it held, byte for byte", book.read_bytes() == before)
    fresh = disk / "fresh.book.jsonl"
    count.refused("a new book on the full disk", tool.add(fresh, adder.BEGIN))
    count.check("no empty book is left behind", not fresh.exists(), list(disk.iterdir()))
    (disk / "other").unlink()
    status, out, err = tool.add(book, "after room was made")
    there = adder.Book(book)
    count.check("with room again the next add works", status == 0 and there.texts[-1] == "after room was made", err)
    count.check("no piece is torn", not there.torn, there.torn)


def under_a_limit(tool, folder, count):
    book = adder.new_book(folder / "limited.book.jsonl")
    tool.add(book, "before")
    before = book.read_bytes()
    for room in (0, 1, 40):
        result = tool.add(book, "too long " + "x" * 200, preexec_fn=adder.limit_file_size(len(before) + room))
        count.refused(f"a file that may grow by {room} bytes only", result)
        count.check(f"room for {room} bytes: the book holds what it held", book.read_bytes() == before)
    new_under_a_limit(tool, folder, count)
    status, _, err = tool.add(book, "after")
    count.check("without the limit the next add works", status == 0 and adder.Book(book).texts == ["before", "after"], err)


def new_under_a_limit(tool, folder, count):
    fresh = folder / "fresh.book.jsonl"
    count.refused("a new book that may have 10 bytes", tool.add(fresh, adder.BEGIN, preexec_fn=adder.limit_file_size(10)))
    count.check("no beginning of a book is left behind", not fresh.exists())


def test(tool, folder, count):
    with adder.small_disk(folder / "small", "size=64k") as mounted:
        if mounted:
            on_small_disk(tool, folder / "small", count)
    under_a_limit(tool, folder, count)


if __name__ == "__main__":
    sys.exit(adder.main(__doc__, test))
