#!/usr/bin/env python3
"""A level book of N booked rows, as a person keeps it: an optical level, at each set-up a back sight, six points between and
a fore sight to the next change point; it closes on a second benchmark 12 mm out. The same bytes for the same N.

    bench/make_level_book.py N FILE
"""

import random
import sys

BETWEEN = 6
START, MISCLOSURE = 50.0, 0.012


def write(rows, file):
    draw = random.Random(20260504)
    body, point, setup, booked, level, change = [], 0, 0, 1, START, "BM1"

    def sight(name, more=""):
        staff = round(draw.uniform(0.5, 2.5), 3)
        body.append(f'{{"kind":"reading","point":"{name}","staff":{staff:.3f}{more}}}\n')
        return staff

    while booked < rows:
        setup += 1
        body.append(f'{{"kind":"setup","name":"{setup}","instrument":"L"}}\n')
        back = sight(change, ',"sight":"back"')
        for _ in range(min(BETWEEN, rows - booked - 1)):
            point += 1
            booked += 1
            sight(point)
        change = f"C{setup}"
        level += back - sight(change, ',"sight":"fore"')
        booked += 1
    file.write('{"kind":"book","format":"fallwright","version":1,"title":"a long level book"}\n')
    file.write(f'{{"kind":"benchmark","point":"BM1","level":{START:.3f}}}\n')
    file.write(f'{{"kind":"benchmark","point":"{change}","level":{level + MISCLOSURE:.3f}}}\n')
    file.write('{"kind":"instrument","name":"L","type":"optical-level"}\n')
    file.writelines(body)


def main():
    with open(sys.argv[2], "w", encoding="ascii") as file:
        write(int(sys.argv[1]), file)


if __name__ == "__main__":
    main()
