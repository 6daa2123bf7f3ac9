#!/usr/bin/env python3
"""200 programs killed at random moments lose nothing that was answered. Usage: kill_adders.py [--kills N] -- COMMAND...

Four adders at a time work on one book; a written seed draws when each is killed, between its start and a little
after its usual end. A program that was done before the kill came counts as an adder, not as a kill. Entries are
from 20 bytes to 40 KB long. Then: every entry answered is there, whole and once; what is more is an entry that was
asked for; pieces that are no entries are beginnings of entries of killed programs; the next add works.
"""

import concurrent.futures
import random
import signal
import sys
import threading
import time

import adder

SEED = 20260504
ADDERS = 4


class Killer:
    def __init__(self, tool, book, kills):
        self.tool, self.book, self.wanted = tool, book, kills
        self.draw = random.Random(SEED)
        self.lock = threading.Lock()
        self.asked, self.answered, self.refused = set(), set(), []
        self.kills = 0
        started = time.monotonic()
        for number in range(20):
            self.note(f"timing {number}", *tool.add(book, f"timing {number}"))
        self.usual = (time.monotonic() - started) / 20

    def note(self, text, status, out, err):
        with self.lock:
            self.asked.add(text)
            if adder.answered(status, out):
                self.answered.add(text)
            elif status != -signal.SIGKILL:
                self.refused.append((status, err))
            self.kills += status == -signal.SIGKILL

    def one(self, worker, number):
        with self.lock:
            length = self.draw.choice([0, 200, 3000, 40000])
            # Four at a time on few processors take longer than one alone.
            delay = self.draw.uniform(0, ADDERS * self.usual)
        text = f"worker {worker} entry {number} " + "x" * length
        running = self.tool.start(self.book, text)
        time.sleep(delay)
        running.kill()
        out, err = running.communicate(timeout=120)
        self.note(text, running.returncode, out.decode(), err.decode())

    def work(self, worker):
        number = 0
        while self.kills < self.wanted:
            self.one(worker, number)
            number += 1

    def run(self):
        with concurrent.futures.ThreadPoolExecutor(ADDERS) as pool:
            list(pool.map(self.work, range(ADDERS)))


def test(tool, folder, count):
    kills = int(sys.argv[sys.argv.index("--kills") + 1]) if "--kills" in sys.argv else 200
    book = adder.new_book(folder / "killed.book.jsonl")
    killer = Killer(tool, book, kills)
    killer.run()
    last = tool.add(book, "after all kills")
    there = adder.Book(book)
    print(f"        {killer.kills} killed, {len(killer.answered)} answered of {len(killer.asked)} asked, "
          f"{len(there.texts)} there, {len(there.torn)} torn")
    count.check(f"at least {kills} programs were killed while they ran", killer.kills >= kills, killer.kills)
    count.check("no program was refused", not killer.refused, killer.refused[:3])
    lost = killer.answered - set(there.texts)
    count.check(f"all {len(killer.answered)} entries answered are there whole", killer.answered and not lost, len(lost))
    count.check("no entry is there twice", len(set(there.texts)) == len(there.texts))
    strange = set(there.texts) - killer.asked - {"after all kills"}
    count.check("no entry is there that was not asked for", not strange, strange)
    count.check("no two ids are alike", len(set(there.ids)) == len(there.ids))
    halves = [each for each in there.torn if each.count(b"{") > 1 or each.endswith(b"}")]
    count.check("torn pieces are beginnings of one entry each, never the middle or two", not halves, halves[:2])
    count.check("the next add works", last[0] == 0 and "after all kills" in there.texts, last)


if __name__ == "__main__":
    sys.exit(adder.main(__doc__, test))
