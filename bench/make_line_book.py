#!/usr/bin/env python3
"""A book of N stations as laid on a drain, a hundred to a set-up tied by change points, all near enough to their tolerance to
matter; with `plain` the same without the tolerance. The same bytes for the same N.

    bench/make_line_book.py N FILE [plain]
"""

import random
import sys

PER_SETUP, SPACING, FALL = 100, 1.0, -0.005


def write(stations, file, judged):
    draw = random.Random(20260417)
    entry = lambda text: file.write('{"kind":' + text + "}\n")
    file.write('{"kind":"book","format":"fallwright","version":1,"title":"a long drain"}\n')
    entry('"instrument","name":"L","type":"rotating-laser"')
    entry(f'"line","name":"D","use":"drain","profile":[{{"ch":0,"level":100}},{{"ch":{stations * SPACING},"gradient":{FALL}}}]')
    if judged:
        entry('"tolerance","line":"D","what":"laid","below":-0.045,"above":0.045')
    setups = (stations + PER_SETUP - 1) // PER_SETUP
    for k in range(setups):
        begin = k * PER_SETUP * SPACING
        middle, end = begin + PER_SETUP * SPACING / 2, begin + PER_SETUP * SPACING
        entry(f'"benchmark","point":"D {begin:.3f} R5.000 peg","level":{100 + FALL * begin:.4f},"sd":0.002')
        entry(f'"setup","name":"S{k}","instrument":"L","place":{{"line":"D","ch":{middle},"off":5}},"plane":{{"towards":"D"}}')
        plane = 101.5 + FALL * begin

        def read(ch, off, what, level, sight):
            staff = plane - level + draw.gauss(0, 0.0012)
            entry(f'"reading","setup":"S{k}","line":"D","ch":{ch},"off":{off},"what":"{what}","sight":"{sight}","staff":{staff:.4f}')
        read(begin, 5, "peg", 100 + FALL * begin, "back")
        for i in range(min(PER_SETUP, stations - k * PER_SETUP)):
            ch = begin + i * SPACING
            read(ch, 0, "laid", 100 + FALL * ch + draw.choice((-1, 1)) * draw.uniform(0.032, 0.034), "inter")
        read(end, 5, "peg", 100 + FALL * end, "fore")


if __name__ == "__main__":
    with open(sys.argv[2], "w", encoding="ascii") as output:
        write(int(sys.argv[1]), output, "plain" not in sys.argv[3:])
