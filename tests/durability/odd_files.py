#!/usr/bin/env python3
"""Files that are not as they should be, and files others change. Usage: odd_files.py -- COMMAND...

Replaced, removed or filled between open and lock (this script holds the lock meanwhile); last bytes that are no line
break; read-only, a folder, a pipe, no folder. Where root runs this, "read-only" is tried as the user nobody, for
root may write everything.
"""

import os
import shutil
import sys
import time

import adder

NOBODY = 65534


def replaced(tool, folder, count):
    book = adder.new_book(folder / "replaced.book.jsonl")
    with adder.hold(book):
        running = tool.start(book, "mine")
        count.check("an adder waits for the lock", adder.wait_until_waiting(running))
        new = adder.new_book(folder / "new", adder.FIRST_LINE + '{"kind":"remark","text":"theirs"}\n')
        os.rename(new, book)
        time.sleep(0.1)
    _, err = running.communicate(timeout=60)
    count.check("a file replaced between open and lock: the entry is in the new one",
                running.returncode == 0 and adder.Book(book).texts == ["theirs", "mine"], err)


def removed(tool, folder, count):
    book = adder.new_book(folder / "removed.book.jsonl", adder.FIRST_LINE + '{"kind":"remark","text":"old"}\n')
    with adder.hold(book):
        running = tool.start(book, "mine")
        count.check("an adder waits for the lock of the one to be removed", adder.wait_until_waiting(running))
        os.unlink(book)
    _, err = running.communicate(timeout=60)
    count.check("a file removed between open and lock: a new book holds the entry, or the add is refused",
                (running.returncode == 0 and adder.Book(book).texts == ["mine"]) or
                (running.returncode == 2 and not book.exists() and err), (running.returncode, err))


def last_bytes(tool, folder, count):
    whole = adder.FIRST_LINE + '{"kind":"remark","text":"old"}'
    for name, end, texts, torn in (
            ("no line break at the end", "", ["old", "mine"], 0),
            ("CR LF at the end", "\r\n", ["old", "mine"], 0),
            ("a torn end", '\n{"kind":"rem', ["old", "mine"], 1),
            ("a torn end of NULs", '\n{"kind":"rem' + 600 * "\0", ["old", "mine"], 1),
            ("a whole line with NULs behind", 3 * "\0", ["old", "mine"], 0)):
        book = adder.new_book(folder / "end.book.jsonl", whole + end)
        status, _, err = tool.add(book, "mine")
        there = adder.Book(book)
        count.check(f"{name}: the entry stands on a line of its own",
                    status == 0 and there.texts == texts and len(there.torn) == torn, (err, book.read_bytes()))
        count.check(f"{name}: not one byte above is changed", book.read_bytes().startswith((whole + end).encode()))


def refused(tool, folder, count):
    (folder / "a-folder").mkdir()
    count.refused("a book not begun takes no remark", tool.add(folder / "none.book.jsonl", "mine"))
    count.check("and no file is left behind", not (folder / "none.book.jsonl").exists())
    count.refused("a book begun is not begun again",
                  tool.add(adder.new_book(folder / "begun.book.jsonl"), adder.BEGIN))
    count.refused("a folder in place of a book", tool.add(folder / "a-folder", "mine"))
    count.refused("a folder that is not there", tool.add(folder / "none" / "a.book.jsonl", adder.BEGIN))
    count.refused("a file in place of a folder", tool.add(adder.new_book(folder / "file") / "a.book.jsonl", adder.BEGIN))
    os.mkfifo(folder / "pipe")
    count.refused("a pipe", tool.add(folder / "pipe", "mine"))
    count.refused("a device", tool.add("/dev/full", "mine"))
    count.refused("a name that is too long", tool.add(folder / ("x" * 300), adder.BEGIN))
    os.symlink("circle", folder / "circle")
    count.refused("links in a circle", tool.add(folder / "circle", "mine"))


def become_nobody():
    os.setgroups([])
    os.setgid(NOBODY)
    os.setuid(NOBODY)


def read_only(tool, folder, count):
    """As a user who may read but not write; the command is copied where that user may run it."""
    place = folder / "shared"
    place.mkdir()
    os.chmod(folder, 0o755)
    command = shutil.copy(tool.words[0], place / "command")
    theirs = adder.Adder([str(command), *tool.words[1:]], folder)
    theirs.environment["FALLWRIGHT_DEVICE"] = "nobody"
    become = {"preexec_fn": become_nobody} if os.geteuid() == 0 else {}
    book = adder.new_book(place / "read-only.book.jsonl")
    before = book.read_bytes()
    os.chmod(book, 0o444)
    count.refused("a read-only book", theirs.add(book, "mine", **become))
    os.chmod(place, 0o555)
    count.refused("a new book in a read-only folder", theirs.add(place / "new.book.jsonl", adder.BEGIN, **become))
    count.check("the read-only book holds what it held", book.read_bytes() == before)
    os.chmod(book, 0o666)
    status, _, err = theirs.add(book, "mine", **become)
    count.check("a book that may be written in a folder that may not takes entries",
                status == 0 and adder.Book(book).texts == ["mine"], err)
    os.chmod(place, 0o755)


def read_only_disk(tool, folder, count):
    place = folder / "disk"
    with adder.small_disk(place, "size=1m") as remount:
        if not remount:
            return
        book = adder.new_book(place / "lane.book.jsonl")
        remount("ro")
        count.refused("a book on a read-only disk", tool.add(book, "mine"))
        count.refused("a new book on a read-only disk", tool.add(place / "new.book.jsonl", adder.BEGIN))


def links(tool, folder, count):
    (folder / "books").mkdir()
    (folder / "link.book.jsonl").symlink_to("books/there.book.jsonl")
    begin_and_add(tool, folder / "link.book.jsonl", folder / "books" / "there.book.jsonl", count,
                  "a link is followed, also to a book not begun")
    empty = adder.new_book(folder / "empty.book.jsonl", "")
    begin_and_add(tool, empty, empty, count, "an empty file is a book not begun")


def begin_and_add(tool, named, book, count, what):
    began, added = tool.add(named, adder.BEGIN), tool.add(named, "mine")
    there = adder.Book(book)
    count.check(what, began[0] == added[0] == 0 and there.begun == 1 and there.texts == ["mine"], (began, added))


def test(tool, folder, count):
    for part in (replaced, removed, last_bytes, refused, read_only, read_only_disk, links):
        part(tool, folder, count)


if __name__ == "__main__":
    sys.exit(adder.main(__doc__, test))
