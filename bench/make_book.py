#!/usr/bin/env python3
"""A book of N readings: a line run there and back with a rotating laser half turned at every other set-up, tied across
every 50 bays, ground read on both sides of each set-up; places and times. The same bytes for the same N.

    bench/make_book.py N FILE
"""

import random
import sys

BAYS_BETWEEN_TIES = 50


def place_of(point):
    return 3 * (point % 2), 60 * point


class Writer:
    def __init__(self, file):
        self.file, self.clock = file, 0

    def entry(self, text):
        self.clock += 20
        day, second = divmod(self.clock, 86400)
        hour, minute = second // 3600, second // 60 % 60
        at = f"2026-{3 + day // 28:02d}-{1 + day % 28:02d}T{hour:02d}:{minute:02d}:{second % 60:02d}Z"
        self.file.write(f'{{"kind":{text},"at":"{at}"}}\n')


def write(readings, file):
    draw = random.Random(20260504)
    out = Writer(file)
    file.write('{"kind":"book","format":"fallwright","version":1,"title":"a line there and back"}\n')
    out.entry('"benchmark","point":"P0","level":50')
    out.entry('"place","point":"P0","e":0,"n":0')
    out.entry('"instrument","name":"L","type":"rotating-laser"')
    levels, setup, read = [50.0], 0, 0
    while read < readings:
        bay = len(levels) - 1
        levels.append(levels[-1] + draw.uniform(-0.5, 0.5))
        e, n = place_of(bay + 1)
        out.entry(f'"place","point":"P{bay + 1}","e":{e},"n":{n}')
        for run in (0, 1):
            back, fore = (bay, bay + 1) if run == 0 else (bay + 1, bay)
            if run == 1 and bay % BAYS_BETWEEN_TIES == BAYS_BETWEEN_TIES - 1:
                fore = bay + 1 - BAYS_BETWEEN_TIES
            setup += 1
            (e1, n1), (e2, n2) = place_of(back), place_of(fore)
            place, bearing = f'{{"e":{(e1 + e2) / 2 + 5},"n":{(n1 + n2) / 2}}}', 180 * (setup % 2)
            out.entry(f'"setup","name":"S{setup}","instrument":"L","place":{place},"plane":{{"bearing":{bearing}}}')
            plane = max(levels[back], levels[fore]) + 1.2

            def sight(point, level, kind, where=""):
                staff = plane - level + draw.gauss(0, 0.0012)
                out.entry(f'"reading","setup":"S{setup}","point":"{point}","sight":"{kind}","staff":{staff:.3f}{where}')
            sight(f"P{back}", levels[back], "back")
            for side in (-3, 3):
                ground = levels[back] - draw.uniform(0, 0.5)
                sight(f"G{setup}{side:+d}", ground, "inter", f',"along":{draw.uniform(5, 30):.1f},"across":{side}')
            sight(f"P{fore}", levels[fore], "fore")
            read += 4


def main():
    with open(sys.argv[2], "w", encoding="ascii") as file:
        write(int(sys.argv[1]), file)


if __name__ == "__main__":
    main()
