#!/usr/bin/env python3
"""A run of N pipes of 6 m with a chamber every ten, its ground read at every second pipe and every pipe as laid,
fifty pipes to a set-up tied by pegs; with `plain` the same line for another use, so that it is no run of drains. The same bytes for the same N.

    bench/make_drain_book.py N FILE [plain]
"""

import random
import sys

PER_SETUP, LENGTH, FALL, CHAMBER = 50, 6.0, -0.006, 10


def line(pipes, use):
    rows = ",".join(f'{{"from":{i * LENGTH},"to":{(i + 1) * LENGTH},"bore":{0.225 if i < pipes / 2 else 0.3},"wall":0.02,"bedding":0.1}}'
                    for i in range(pipes))
    chambers = ",".join(f'{{"name":"M{i}","ch":{i * LENGTH},"in":{100 + FALL * i * LENGTH - 0.02 * (i // CHAMBER):.4f},'
                        f'"out":{100 + FALL * i * LENGTH - 0.02 * (i // CHAMBER) - 0.02:.4f}}}' for i in range(0, pipes + 1, CHAMBER))
    return f'"line","name":"D","use":"{use}","flow":"with","pipes":[{rows}],"chambers":[{chambers}]'


def write(pipes, file, use):
    draw = random.Random(20261125)
    entry = lambda text: file.write('{"kind":' + text + "}\n")
    file.write('{"kind":"book","format":"fallwright","version":1,"title":"a run of drains"}\n')
    entry('"instrument","name":"L","type":"rotating-laser"')
    entry(line(pipes, use))
    for k in range(0, pipes, PER_SETUP):
        begin, end = k * LENGTH, (k + PER_SETUP) * LENGTH
        entry(f'"setup","name":"S{k}","instrument":"L","place":{{"line":"D","ch":{(begin + end) / 2},"off":5}},"plane":{{"towards":"D"}}')
        plane = 103.5 + FALL * begin

        def read(ch, off, what, level, sight):
            entry(f'"reading","setup":"S{k}","line":"D","ch":{ch},"off":{off},"what":"{what}","sight":"{sight}","staff":{plane - level + draw.gauss(0, 0.0012):.4f}')
        if k == 0:
            entry(f'"benchmark","point":"D {begin:.3f} R5.000 peg","level":102')
        read(begin, 5, "peg", 102 + FALL * begin, "back")
        for i in range(k, min(k + PER_SETUP, pipes)):
            level = 100 + FALL * i * LENGTH - 0.02 * (i // CHAMBER) - 0.02
            if i % 2 == 0:
                read(i * LENGTH, 0, "ground", level + 2 + draw.uniform(-0.2, 0.2), "inter")
            read(i * LENGTH, 0, "laid out" if i % CHAMBER == 0 else "laid", level, "inter")
        read(end, 5, "peg", 102 + FALL * end, "fore")


if __name__ == "__main__":
    with open(sys.argv[2], "w", encoding="ascii") as output:
        write(int(sys.argv[1]), output, "other" if "plain" in sys.argv[3:] else "drain")
