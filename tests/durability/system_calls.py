#!/usr/bin/env python3
"""The system calls of an add: durable before the answer. Usage: system_calls.py -- COMMAND...   (needs strace)

What the program really asks the system for is read off strace: the order of create, lock, sync of the folder, write,
sync and the answer on standard output. Then the same calls are made to fail, and the program is killed at each of
them, by strace's injection: a call that fails is exit 2 and an unchanged book, a kill is an unchanged book or one
entry more, and the next add works.
"""

import collections
import os
import re
import signal
import sys

import adder

CALL = re.compile(r"^(?:\d+ +)?(\w+)\((.*)\) += (-?\d+|\?)", re.S)
WATCHED = "openat,flock,fcntl,newfstatat,read,write,pwrite64,writev,pwritev,fsync,fdatasync,ftruncate,rename,unlink"

Event = collections.namedtuple("Event", "what call occurrence text answer")


def events(trace, book):
    """What happened to the book, its folder and standard output, in order; with the how manieth call of its name."""
    seen, found = collections.Counter(), []
    for line in trace.read_text(errors="replace").splitlines():
        match = CALL.match(line)
        if not match:
            continue
        call, text, answer = match.groups()
        seen[call] += 1
        what = meaning(call, text, int(answer) if answer != "?" else -1, book)
        if what:
            found.append(Event(what, call, seen[call], text, answer))
    return found


def meaning(call, text, answer, book):
    on_book, on_folder = f"<{book}>" in text.split(",")[0], f"<{book.parent}>" in text.split(",")[0]
    if call == "openat" and f'"{book}"' in text and answer >= 0:
        return "create" if "O_CREAT" in text else "open"
    if call in ("flock", "fcntl") and on_book and ("LOCK_EX" in text or "F_WRLCK" in text) and answer == 0:
        return "lock"
    if call == "newfstatat" and f'"{book}"' in text and answer == 0:
        return "look at the path"
    if call in ("write", "pwrite64", "writev", "pwritev"):
        return "answer" if text.startswith("1<") else "write" if on_book else None
    if call in ("fsync", "fdatasync"):
        return "sync" if on_book else "sync the folder" if on_folder else None
    return call if call in ("ftruncate", "rename", "unlink") and f"{book}" in text else None


class Traced:
    def __init__(self, tool, folder):
        self.tool, self.trace = tool, folder / "trace"

    def add(self, book, entry, *inject):
        before = ["strace", "-f", "-y", "-s", "100", "-o", str(self.trace), "-e", f"trace={WATCHED}"]
        for each in inject:
            before += ["-e", f"inject={each}"]
        return self.tool.add(book, entry, before=before)

    def events(self, book):
        return events(self.trace, book)


def in_order(found, wanted):
    """Whether `wanted` is what happened, other events between them left out; the positions."""
    at, positions = 0, []
    for what in wanted:
        while at < len(found) and found[at].what != what:
            at += 1
        if at == len(found):
            return None
        positions.append(at)
        at += 1
    return positions


def durable_before_answer(found, count, what, wanted, first_write=None):
    names = [each.what for each in found]
    count.check(f"{what}: {', '.join(wanted)}, in this order", in_order(found, wanted) is not None, names)
    writes = [i for i, each in enumerate(found) if each.what == "write"]
    answers = [i for i, each in enumerate(found) if each.what == "answer"]
    syncs = [i for i, each in enumerate(found) if each.what == "sync"]
    count.check(f"{what}: each write to the book is synced before the next thing said or written",
                writes and all(names[i + 1] == "sync" for i in writes), names)
    count.check(f"{what}: nothing is said before the last sync", answers and syncs and answers[0] > syncs[-1], names)
    count.check(f"{what}: {len(first_write or []) + 1} writes", len(writes) == len(first_write or []) + 1, names)
    if first_write:
        count.check(f"{what}: the line break comes first", f', "{first_write[0]}", 1' in found[writes[0]].text,
                    found[writes[0]].text)


def orders(traced, folder, count):
    steps = ["lock", "look at the path", "write", "sync", "answer"]
    new = folder / "new.book.jsonl"
    status, out, err = traced.add(new, adder.BEGIN)
    count.check("an add under strace is answered", status == 0 and out != "", (status, err))
    durable_before_answer(traced.events(new), count, "a new book",
                          ["create", "lock", "look at the path", "sync the folder", "write", "sync", "answer"])
    traced.add(new, "second")
    durable_before_answer(traced.events(new), count, "a book that is there", ["open", *steps])
    cut = adder.new_book(folder / "cut.book.jsonl", adder.FIRST_LINE.rstrip("\n"))
    traced.add(cut, "second")
    durable_before_answer(traced.events(cut), count, "a book without a line break at its end",
                          ["open", "lock", "look at the path", "write", "sync", "write", "sync", "answer"], ["\\n"])


def failing(traced, folder, count):
    """Each call that matters fails once, in a book that is there and in one that is not."""
    begun = adder.new_book(folder / "failing.book.jsonl")
    traced.add(begun, "before")
    normal, before = traced.events(begun), None
    for what, error in (("lock", "ENOLCK"), ("write", "ENOSPC"), ("write", "EIO"), ("sync", "EIO"), ("sync", "ENOSPC")):
        before = begun.read_bytes()
        call = next(each for each in normal if each.what == what)
        result = traced.add(begun, "never", f"{call.call}:error={error}:when={call.occurrence}")
        count.refused(f"{what} fails with {error}", result)
        count.check(f"{what} fails with {error}: the book holds what it held", begun.read_bytes() == before)
    call = next(each for each in normal if each.what == "write")
    result = traced.add(begun, "never", f"{call.call}:retval=5:when={call.occurrence}")
    count.refused("a write that takes 5 bytes", result)
    count.check("a write that takes 5 bytes: the book holds what it held", begun.read_bytes() == before)
    status, _, err = traced.add(begun, "after")
    count.check("then the next add works", status == 0 and adder.Book(begun).texts == ["before", "after"], err)
    failing_creation(traced, folder, count)


def failing_creation(traced, folder, count):
    book = folder / "never.book.jsonl"
    traced.add(book, adder.BEGIN)
    normal = traced.events(book)
    os.unlink(book)
    for what in ("sync the folder", "write", "sync"):
        call = next(each for each in normal if each.what == what)
        count.refused(f"a new book, {what} fails", traced.add(book, adder.BEGIN, f"{call.call}:error=EIO:when={call.occurrence}"))
        count.check(f"a new book, {what} fails: no book is left behind", not book.exists())


def killed(traced, folder, count):
    """Killed on entering each call from the opening of the book on."""
    killed_at_each_call(traced, count, folder / "there.book.jsonl", adder.FIRST_LINE, "killed")
    killed_at_each_call(traced, count, folder / "cut.book.jsonl", adder.FIRST_LINE.rstrip("\n"), "killed")
    killed_at_each_call(traced, count, folder / "new.book.jsonl", None, adder.BEGIN)


def killed_at_each_call(traced, count, book, start, entry):
    restored(book, start)
    traced.add(book, entry)
    before = 0 if start is None else 1
    for each in traced.events(book):
        restored(book, start)
        where = f"{book.name.split('.')[0]}: killed at '{each.what}'"
        status, out, _ = traced.add(book, entry, f"{each.call}:signal=SIGKILL:when={each.occurrence}")
        count.check(f"{where}, not answered", status in (-signal.SIGKILL, 128 + signal.SIGKILL) and out == "", status)
        there = adder.Book(book)
        count.check(f"{where}: the book is as before or has one entry more",
                    len(there.entries) in (before, before + 1) and not there.torn, (there.entries, there.torn))
        if each.what == "answer":
            count.check(f"{where}: the entry is there", len(there.entries) == before + 1)
        status, _, err = traced.tool.add(book, "next" if there.begun else adder.BEGIN)
        after = adder.Book(book)
        count.check(f"{where}: the next add works",
                    status == 0 and len(after.entries) == len(there.entries) + 1 and not after.torn, err)


def restored(book, start):
    book.unlink(missing_ok=True)
    if start is not None:
        adder.new_book(book, start)


def test(tool, folder, count):
    tool.add(adder.new_book(folder / "settings.book.jsonl"), "so that the name of the device is there")
    traced = Traced(tool, folder)
    for part in (orders, failing, killed):
        part(traced, folder, count)


if __name__ == "__main__":
    sys.exit(adder.main(__doc__, test))
