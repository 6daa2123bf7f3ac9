#!/usr/bin/env python3
"""Exports and imports, seen from outside: other programs read what is written, and what comes back is the same.

    LandXML   xmllint reads it; its structure is checked against elements and attributes after the pattern of LandXML 1.2;
              imported again and exported again every point, corner and pipe is within 0.1 mm
    CSV       Python's csv module reads it, no cell would be run, levels come back within 0.1 mm
    GeoJSON   ogrinfo reads it; every place is where the PROJ library (gdaltransform) has it
    hostile   files that must be refused are, in one line, with exit code 2, in bounded time

usage: compare.py PROGRAM
"""

import csv
import io
import json
import math
import pathlib
import random
import subprocess
import sys
import tempfile
import time
import xml.etree.ElementTree as tree

ROOT = pathlib.Path(__file__).resolve().parents[2]
NEAR = 1e-4  # metres
SEED = 20260504


class Tally:
    passed = failed = 0

    def check(self, good, what):
        if good:
            self.passed += 1
        else:
            self.failed += 1
            if self.failed < 30:
                print(f"failed: {what}")


TALLY = Tally()
check = TALLY.check


def run(*words, text=None):
    return subprocess.run([str(word) for word in words], capture_output=True, text=True, input=text, check=False,
                          timeout=60)


# --- structure of LandXML 1.2, as other programs write and read it (the schema's text is not at hand):
# element: (attributes it must have, attributes it may have, children it may have)
STRUCTURE = {
    "LandXML": ("version date", "time language readOnly schemaLocation",
                "Units Project Application CgPoints Alignments PipeNetworks Surfaces"),
    "Units": ("", "", "Metric Imperial"),
    "Metric": ("areaUnit linearUnit volumeUnit temperatureUnit pressureUnit", "diameterUnit angularUnit directionUnit", ""),
    "Imperial": ("areaUnit linearUnit volumeUnit temperatureUnit pressureUnit", "diameterUnit angularUnit directionUnit", ""),
    "Project": ("name", "desc", ""),
    "Application": ("name", "version", ""),
    "CgPoints": ("", "", "CgPoint"),
    "CgPoint": ("name", "desc state pntSurv", "Feature"),
    "Feature": ("code", "", "Property"),
    "Property": ("label value", "", ""),
    "Alignments": ("", "", "Alignment"),
    "Alignment": ("name length staStart", "desc", "CoordGeom Profile"),
    "CoordGeom": ("", "name", "Line"),
    "Line": ("", "length", "Start End"),
    "Start": ("", "", ""),
    "End": ("", "", ""),
    "Profile": ("", "name", "ProfAlign"),
    "ProfAlign": ("name", "state", "PVI ParaCurve"),
    "PVI": ("", "", ""),
    "ParaCurve": ("length", "", ""),
    "PipeNetworks": ("", "name", "PipeNetwork"),
    "PipeNetwork": ("name pipeNetType", "alignmentRef", "Structs Pipes"),
    "Structs": ("", "", "Struct"),
    "Struct": ("name", "desc elevRim", "Center CircStruct Connection Invert"),
    "Center": ("", "", ""),
    "CircStruct": ("diameter", "", ""),
    "Connection": ("", "", ""),
    "Invert": ("elev flowDir refPipe", "", ""),
    "Pipes": ("", "", "Pipe"),
    "Pipe": ("name refStart refEnd", "", "CircPipe"),
    "CircPipe": ("diameter", "thickness", ""),
    "Surfaces": ("", "", "Surface"),
    "Surface": ("name", "", "SourceData Definition"),
    "SourceData": ("", "", "Breaklines"),
    "Breaklines": ("", "", "Breakline"),
    "Breakline": ("", "brkType", "PntList3D"),
    "PntList3D": ("", "", ""),
    "Definition": ("surfType", "", "Pnts Faces"),
    "Pnts": ("", "", "P"),
    "P": ("id", "", ""),
    "Faces": ("", "", "F"),
    "F": ("", "", ""),
}
SPACE = "{http://www.landxml.org/schema/LandXML-1.2}"
# How many numbers the content of an element holds.
NUMBERS = {"PVI": {2}, "ParaCurve": {2}, "Start": {2}, "End": {2}, "Center": {2}, "P": {3}, "F": {3}, "CgPoint": {2, 3}}


def bare(tag):
    return tag.replace(SPACE, "")


def check_structure(text, name):
    root = tree.fromstring(text)
    for element in root.iter():
        tag = bare(element.tag)
        if tag not in STRUCTURE:
            check(False, f"{name}: element {element.tag}")
            continue
        required, optional, children = (set(words.split()) for words in STRUCTURE[tag])
        given = set(element.keys())
        check(required <= given, f"{name}: {tag} lacks {required - given}")
        check(given <= required | optional, f"{name}: {tag} has {given - required - optional}")
        check({bare(child.tag) for child in element} <= children, f"{name}: children of {tag}")
        if tag in NUMBERS:
            count = len([float(word) for word in (element.text or "").split()])
            check(count in NUMBERS[tag], f"{name}: {tag} holds {count} numbers")
    pipes = {pipe.get("name") for pipe in root.iter(SPACE + "Pipe")}
    structs = [struct.get("name") for struct in root.iter(SPACE + "Struct")]
    for pipe in root.iter(SPACE + "Pipe"):
        check(pipe.get("refStart") in structs and pipe.get("refEnd") in structs, f"{name}: ends of {pipe.get('name')}")
    for invert in root.iter(SPACE + "Invert"):
        check(invert.get("refPipe") in pipes and invert.get("flowDir") in ("in", "out"), f"{name}: an invert")
    names = [point.get("name") for point in root.iter(SPACE + "CgPoint")]
    check(len(names) == len(set(names)), f"{name}: names of points")


def scale_of(root):
    return 0.3048 if root.find(f"{SPACE}Units/{SPACE}Imperial") is not None else 1.0


def floats(element, scale):
    return [float(word) * scale for word in (element.text or "").split()]


def contents(text):
    """{what: numbers in metres} of a LandXML file: points, corners of plans and profiles, pipes, chambers."""
    root = tree.fromstring(text)
    scale = scale_of(root)
    found = {}
    for point in root.iter(SPACE + "CgPoint"):
        found["point", point.get("name")] = floats(point, scale)
    for line in root.iter(SPACE + "Alignment"):
        name = line.get("name")
        found["start", name] = [float(line.get("staStart")) * scale]
        for kind in ("Start", "End", "PVI", "ParaCurve"):
            found[kind, name] = [value for each in line.iter(SPACE + kind) for value in floats(each, scale)]
        found["curve", name] = [float(each.get("length")) * scale for each in line.iter(SPACE + "ParaCurve")]
    for network in root.iter(SPACE + "PipeNetwork"):
        where = {struct.get("name"): floats(struct.find(SPACE + "Center"), scale) for struct in network.iter(SPACE + "Struct")}
        level = {}
        for struct in network.iter(SPACE + "Struct"):
            for invert in struct.iter(SPACE + "Invert"):
                level[struct.get("name"), invert.get("refPipe")] = float(invert.get("elev")) * scale
            for attribute in ("elevRim",):
                if struct.get(attribute):
                    found[attribute, network.get("name"), struct.get("name")] = [float(struct.get(attribute)) * scale]
        rows = []
        for pipe in network.iter(SPACE + "Pipe"):
            round_pipe = pipe.find(SPACE + "CircPipe")
            row = [*where[pipe.get("refStart")], *where[pipe.get("refEnd")], level[pipe.get("refStart"), pipe.get("name")],
                   level[pipe.get("refEnd"), pipe.get("name")], float(round_pipe.get("diameter")) * scale,
                   float(round_pipe.get("thickness", 0)) * scale]
            rows.append(row)
        found["pipes", network.get("name")] = [value for row in rows for value in row]
    for surface in root.iter(SPACE + "Surface"):
        spots = {p.get("id"): floats(p, scale) for p in surface.iter(SPACE + "P")}
        faces = sorted(sorted(tuple(round(value, 3) for value in spots[word]) for word in face.text.split())
                       for face in surface.iter(SPACE + "F"))
        found["faces", surface.get("name")] = [value for face in faces for corner in face for value in corner]
    return found


def same(first, second, name):
    # Corners of a surface that were no points are points by then.
    check(first.keys() <= second.keys(), f"{name}: {set(first) - set(second)} did not come back")
    for what in first.keys() & second.keys():
        near = len(first[what]) == len(second[what]) and all(
            abs(a - b) < NEAR for a, b in zip(first[what], second[what]))
        check(near, f"{name}: {what}: {first[what][:8]} became {second[what][:8]}")


def round_trip(program, book, folder, name):
    one, two = folder / "one.xml", folder / "two.xml"
    again = folder / "again.book.jsonl"
    again.unlink(missing_ok=True)
    written = run(program, "export", book, "--to", one)
    if written.returncode != 0:
        check("no point of the book has a place" in written.stderr, f"{name}: {written.stderr}")
        return False
    linted = run("xmllint", "--noout", one)
    check(linted.returncode == 0, f"{name}: xmllint: {linted.stderr[:300]}")
    text = one.read_text(encoding="utf-8")
    check_structure(text, name)
    taken = run(program, "import", one, again)
    check(taken.returncode == 0, f"{name}: import: {taken.stderr}")
    if taken.returncode != 0:
        return True
    evaluated = json.loads(run(program, "evaluate", again, "--json").stdout)
    for found in evaluated["findings"]:
        check(found["severity"] != "error", f"{name}: imported book: {found}")
    check(run(program, "export", again, "--to", two).returncode == 0, f"{name}: export again")
    same(contents(text), contents(two.read_text(encoding="utf-8")), name)
    return True


def csv_there_and_back(program, book, folder, name):
    file, again, two = folder / "levels.csv", folder / "csv.book.jsonl", folder / "two.csv"
    again.unlink(missing_ok=True)
    if run(program, "export", book, "--to", file).returncode != 0:
        return
    bytes_read = file.read_bytes()
    check(bytes_read.count(b"\n") == bytes_read.count(b"\r\n"), f"{name}: line ends")
    rows = list(csv.reader(io.StringIO(file.read_text(encoding="utf-8-sig"), newline=""), strict=True))
    check(len({len(row) for row in rows}) == 1, f"{name}: rows of one length")
    head = [cell.split(" (")[0] for cell in rows[0]]
    for row in rows[1:]:
        for column, cell in zip(head, row):
            if column in ("point", "checked", "held"):
                check(not cell.startswith(tuple("=+-@\t\r")), f"{name}: {cell} would be run")
            elif cell:
                float(cell)
    taken = run(program, "import", file, again)
    if not any(row[head.index("level")] for row in rows[1:]):
        return
    check(taken.returncode == 0, f"{name}: import of levels: {taken.stderr}")
    run(program, "export", again, "--to", two)
    back = {row[0]: row for row in csv.reader(io.StringIO(two.read_text(encoding="utf-8-sig"), newline=""))}
    feet = "(ft)" in rows[0][3]
    for row in rows[1:]:
        other = back.get(row[0])
        check(other is not None, f"{name}: {row[0]} did not come back")
        for i in (1, 2, 3):
            if other is not None and row[i]:
                near = other[i] != "" and abs(float(other[i]) - float(row[i])) * (0.3048 if feet else 1) < NEAR
                check(near, f"{name}: {row[0]}: {row[i]} became {other[i]}")


# --- random books
def random_book(draw):
    feet = draw.random() < 0.3
    e, n = draw.uniform(1e5, 7e5), draw.uniform(1e5, 9e5)
    lines = [{"kind": "book", "format": "fallwright", "version": 1, "title": "drawn", "unit": "ft" if feet else "m"},
             {"kind": "instrument", "name": "L", "type": "optical-level"},
             {"kind": "benchmark", "point": "BM", "level": round(draw.uniform(10, 90), 4)},
             {"kind": "place", "point": "BM", "e": round(e, 4), "n": round(n, 4)}]
    for k in range(draw.randint(1, 3)):
        count = draw.randint(2, 5)
        plan, length = [[round(e, 4), round(n, 4)]], 0.0
        for _ in range(count):
            step = [draw.uniform(8, 60), draw.uniform(-40, 40)]
            plan.append([round(plan[-1][0] + step[0], 4), round(plan[-1][1] + step[1], 4)])
            length += math.hypot(plan[-1][0] - plan[-2][0], plan[-1][1] - plan[-2][1])
        start = round(draw.choice([0, draw.uniform(-100, 900)]), 3)
        at = [start, *(round(start + length * part / 4, 3) for part in (1, 2, 3)), round(start + length, 3)]
        level = [round(40 - 0.01 * i * length / 4 + draw.uniform(-0.3, 0.3), 4) for i in range(5)]
        line = {"kind": "line", "name": f"L{k}", "plan": plan, "start": start}
        if draw.random() < 0.6:
            sign = draw.choice([1, -1])
            level.sort(reverse=sign > 0)
            line.update(use="drain", flow="with" if sign > 0 else "against",
                        pipes=[{"from": a, "to": b, "bore": 0.15, **({"wall": 0.006} if draw.random() < 0.5 else {})}
                               for a, b in zip(at, at[1:])],
                        profile=[{"ch": ch, "level": value} for ch, value in zip(at, level)])
            if draw.random() < 0.7:
                inner = level[2] + draw.uniform(0.05, 0.1)
                line["profile"] = [point for point in line["profile"] if point["ch"] != at[2]]
                line["chambers"] = [{"name": f"MH{k}", "ch": at[2], "in": round(inner, 4), "out": level[2],
                                     "cover": round(level[2] + 2, 3), "size": 1.2}]
        else:
            line.update(use="road", profile=[{"ch": ch, "level": value} for ch, value in zip(at, level)])
            line["profile"][2]["curve"] = round(length / 5, 3)
        lines.append(line)
    spots = []
    for i in range(draw.randint(4, 30)):
        spots.append(f"g{i}")
        lines.append({"kind": "benchmark", "point": f"g{i}", "level": round(draw.uniform(30, 33), 4), "sd": 0.005})
        lines.append({"kind": "place", "point": f"g{i}", "e": round(e + draw.uniform(0, 80), 3),
                      "n": round(n + draw.uniform(0, 80), 3)})
    lines.append({"kind": "surface", "name": "ground", "points": spots, "breaklines": [[spots[0], spots[-1]]]})
    lines += [{"kind": "setup", "name": "S", "instrument": "L"},
              {"kind": "reading", "point": "BM", "staff": 1.2, "dist": 20}, {"kind": "reading", "point": "=cmd", "staff": 1.5, "dist": 25}]
    return "".join(json.dumps(line) + "\n" for line in lines)


# --- projections
GRIDS = [
    ("national grid", {"ellipsoid": "airy-1830", "latitude": 49, "longitude": -2, "scale": 0.9996012717, "false_east": 400000,
                       "false_north": -100000, "shift": [446.448, -125.157, 542.06], "turn": [0.1502, 0.247, 0.8421],
                       "ppm": -20.4894}, "+ellps=airy", (90000, 650000, 10000, 1200000)),
    ("zone 32", {"ellipsoid": "grs-80", "latitude": 0, "longitude": 9, "scale": 0.9996, "false_east": 500000},
     "+ellps=GRS80", (200000, 800000, 10000, 8000000)),
    ("bessel", {"ellipsoid": "bessel-1841", "latitude": 0, "longitude": 12, "false_east": 4500000,
                "shift": [598.1, 73.7, 418.2], "turn": [0.202, 0.045, -2.455], "ppm": 6.7}, "+ellps=bessel",
     (4400000, 4600000, 5300000, 6000000)),
    ("international", {"ellipsoid": "international-1924", "latitude": 0, "longitude": 27, "false_east": 3500000,
                       "shift": [-96.062, -82.428, -121.753], "turn": [4.801, 0.345, -1.376], "ppm": 1.496}, "+ellps=intl",
     (3300000, 3700000, 6600000, 7700000)),
    ("clarke 1866", {"ellipsoid": "clarke-1866", "latitude": 30, "longitude": -90, "scale": 0.99995, "false_east": 500000,
                     "shift": [-8, 160, 176]}, "+ellps=clrk66", (300000, 700000, 10000, 900000)),
    ("krassowsky", {"ellipsoid": "krassowsky-1940", "latitude": 0, "longitude": 33, "false_east": 6500000,
                    "shift": [23.92, -141.27, -80.9], "turn": [0, 0.35, 0.82], "ppm": -0.12}, "+ellps=krass",
     (6300000, 6700000, 5500000, 7000000)),
    ("south", {"ellipsoid": "wgs-84", "latitude": 0, "longitude": 147, "scale": 0.9996, "false_east": 500000,
               "false_north": 10000000}, "+ellps=WGS84", (200000, 800000, 5000000, 9990000)),
    ("clarke 1880", {"ellipsoid": "clarke-1880-rgs", "latitude": 0, "longitude": 19, "shift": [-136, -108, -292]},
     "+a=6378249.145 +rf=293.465", (-90000, 90000, -3700000, -2500000)),
    ("airy modified", {"ellipsoid": "airy-modified", "latitude": 53.5, "longitude": -8, "scale": 1.000035,
                       "false_east": 200000, "false_north": 250000, "shift": [482.5, -130.6, 564.6],
                       "turn": [-1.042, -0.214, -0.631], "ppm": 8.15}, "+a=6377340.189 +rf=299.3249646", (20000, 360000, 20000, 450000)),
]


def projection_text(values, ellipsoid):
    words = [f"+proj=tmerc +lat_0={values['latitude']} +lon_0={values['longitude']} +k={values.get('scale', 1)}",
             f"+x_0={values.get('false_east', 0)} +y_0={values.get('false_north', 0)} {ellipsoid} +units=m +no_defs"]
    shift = [*values.get("shift", [0, 0, 0]), *values.get("turn", [0, 0, 0]), values.get("ppm", 0)]
    return " ".join(words) + " +towgs84=" + ",".join(str(value) for value in shift)


def projections(program, folder, draw):
    worst = 0.0
    for name, values, ellipsoid, (west, east, south, north) in GRIDS:
        book, file, again = folder / "grid.book.jsonl", folder / "grid.geojson", folder / "back.book.jsonl"
        again.unlink(missing_ok=True)
        points = {f"P{i}": (round(draw.uniform(west, east), 4), round(draw.uniform(south, north), 4)) for i in range(60)}
        head = [{"kind": "book", "format": "fallwright", "version": 1}, {"kind": "rule", "name": "projection", "values": values}]
        lines = head + [{"kind": "place", "point": key, "e": e, "n": n} for key, (e, n) in points.items()]
        book.write_text("".join(json.dumps(line) + "\n" for line in lines), encoding="utf-8")
        written = run(program, "export", book, "--to", file)
        check(written.returncode == 0, f"{name}: {written.stderr}")
        read = run("ogrinfo", "-so", "-al", file)
        check("Feature Count: 60" in read.stdout, f"{name}: ogrinfo: {read.stdout[:300]} {read.stderr[:300]}")
        features = json.loads(file.read_text(encoding="utf-8"))["features"]
        wanted = run("gdaltransform", "-s_srs", projection_text(values, ellipsoid), "-t_srs",
                     "+proj=longlat +ellps=WGS84 +towgs84=0,0,0 +no_defs",
                     text="".join(f"{e} {n} 0\n" for e, n in points.values()))
        for feature, row in zip(features, wanted.stdout.splitlines()):
            lon, lat = feature["geometry"]["coordinates"]
            theirs = [float(word) for word in row.split()]
            metre = 111320.0
            away = math.hypot((lon - theirs[0]) * metre * math.cos(math.radians(lat)), (lat - theirs[1]) * metre)
            worst = max(worst, away)
            check(away < 0.001, f"{name}: {feature['properties']['name']} is {away:.6f} m from where PROJ has it")
        again.write_text("".join(json.dumps(line) + "\n" for line in head), encoding="utf-8")
        check(run(program, "import", file, again).returncode == 0, f"{name}: import")
        for line in again.read_text(encoding="utf-8").splitlines():
            entry = json.loads(line)
            if entry["kind"] == "place":
                e, n = points[entry["point"]]
                check(math.hypot(entry["e"] - e, entry["n"] - n) < NEAR * 1.5, f"{name}: {entry['point']} came back elsewhere")
    print(f"  projections: {len(GRIDS)} grids, {60 * len(GRIDS)} places, at most {worst * 1e6:.1f} micrometres from PROJ")


# --- hostile files
def hostile(program, folder):
    xml = '<?xml version="1.0"?>\n<LandXML><Units><Metric linearUnit="meter"/></Units><CgPoints>'
    billion = "".join(f'<!ENTITY a{i} "' + f"&a{i - 1};" * 10 + '">' for i in range(1, 10))
    files = {
        "bomb.xml": '<?xml version="1.0"?>\n<!DOCTYPE x [<!ENTITY a0 "ha">' + billion + "]><LandXML>&a9;</LandXML>",
        "external.xml": '<!DOCTYPE x SYSTEM "file:///etc/hostname"><LandXML/>',
        "deep.xml": xml + "<CgPoints>" * 200000,
        "open.xml": xml + '<CgPoint name="A">1 2 3',
        "attributes.xml": xml + "<CgPoint " + " ".join(f'a{i}="1"' for i in range(100000)) + "/>",
        "zeros.xml": xml + "<CgPoint name='A'>1 2\0 3</CgPoint>",
        "number.xml": xml + "<CgPoint name='A'>1e999 2 3</CgPoint></CgPoints></LandXML>",
        "digits.xml": xml + "<CgPoint name='A'>" + "9" * 3000000 + " 2 3</CgPoint></CgPoints></LandXML>",
        "encoding.xml": '<?xml version="1.0" encoding="EBCDIC-US"?><LandXML/>',
        "half.xml": (xml + "<CgPoint name='A").encode("utf-16")[:-1],
        "mixed.xml": xml.encode() + b"<CgPoint name='\xc3\xb6\xf6'/>",
        "other.xml": "<html><body/></html>",
        "deep.geojson": "[" * 1000000,
        "objects.geojson": '{"type":"Feature","a":' * 100000,
        "torn.geojson": '{"type":"FeatureCollection","features":[{"type":"Feature","geometry":{"type":"Point","coord',
        "empty.csv": "",
        "cells.csv": "point,east,north\n" + "," * 200000,
        "quote.csv": 'point,east,north\n"A,1,2\n' + "x" * 100000,
        "book.csv": "PK\x03\x04 a workbook",
    }
    for name, content in files.items():
        file, book = folder / name, folder / "hostile.book.jsonl"
        file.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
        book.write_text('{"kind":"book","format":"fallwright","version":1}\n'
                        '{"kind":"rule","name":"projection","values":{"ellipsoid":"grs-80","latitude":0,"longitude":9}}\n',
                        encoding="utf-8")
        before = book.read_bytes()
        begin = time.monotonic()
        refused = subprocess.run(["sh", "-c", 'ulimit -v 1000000; exec "$@"', "sh", str(program), "import", str(file), str(book)],
                                 capture_output=True, text=True, check=False, timeout=60)
        took = time.monotonic() - begin
        check(refused.returncode == 2, f"{name}: exit {refused.returncode}: {refused.stdout[:200]} {refused.stderr[:200]}")
        check(took < 10, f"{name}: {took:.1f} s")
        check(book.read_bytes() == before, f"{name}: the book was changed")
        check(0 < len(refused.stderr) < 2000, f"{name}: says {refused.stderr[:200]!r}")


def well_formed(program, folder, draw):
    """Small texts without a document type: what expat calls not well formed is refused, what it takes is read as XML."""
    from xml.parsers import expat
    pieces = ["<a>", "</a>", "<b x='1'/>", "<b x=\"1\" y='2'>", "</b>", "text", "&amp;", "&#65;", "&x;", "<!-- c -->",
              "<![CDATA[x]]>", "<?pi?>", "]]>", "<", ">", "&", "'", "\n", "<a", "x='1'", "/>"]
    for _ in range(120):
        text = "".join(draw.choice(pieces) for _ in range(draw.randint(1, 8)))
        text = f"<r>{text}</r>" if draw.random() < 0.7 else text
        parser = expat.ParserCreate()
        try:
            parser.Parse(text, True)
            good = True
        except expat.ExpatError:
            good = False
        if not text.lstrip().startswith("<"):
            continue
        file = folder / "some.xml"
        file.write_text(text, encoding="utf-8")
        answer = run(program, "import", file, folder / "some.book.jsonl", "--as", "landxml")
        ours = "not LandXML" in answer.stderr
        check(ours == good, f"well formed {good}: {text!r}: {answer.stderr[:200]}")


def drawings(program, folder):
    """Sheets of a drawing are files of their own; each is SVG to a reader that knows nothing of us."""
    for figure, line, sheets in (("long-section", "D1", ["drawn.svg"]), ("cross-sections", "R2", ["drawn-1.svg", "drawn-2.svg", "drawn-3.svg"])):
        answer = run(program, "export", ROOT / "examples/lane.book.jsonl", "--to", folder / "drawn.svg", "--figure", figure, "--line", line)
        there = sorted(path.name for path in folder.glob("drawn*.svg"))
        check(answer.returncode == 0 and there == sheets, f"{figure}: {there}, {answer.stderr}")
        for name in there:
            check(tree.parse(folder / name).getroot().tag == "{http://www.w3.org/2000/svg}svg", f"{name} is no SVG")
            (folder / name).unlink()


def main(argv):
    program = pathlib.Path(argv[1]).resolve()
    draw = random.Random(SEED)
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        handed = 0
        for book in sorted((ROOT / "examples").glob("*.book.jsonl")):
            handed += round_trip(program, book, folder, book.name)
            csv_there_and_back(program, book, folder, book.name)
        check(handed >= 10, f"only {handed} demo books could be handed over as LandXML")
        drawn = 25
        for i in range(drawn):
            book = folder / "drawn.book.jsonl"
            book.write_text(random_book(draw), encoding="utf-8")
            check(round_trip(program, book, folder, f"drawn {i}"), f"drawn {i}: not handed over")
            csv_there_and_back(program, book, folder, f"drawn {i}")
        print(f"  round trips: {handed} demo books, {drawn} drawn ones")
        projections(program, folder, draw)
        hostile(program, folder)
        well_formed(program, folder, draw)
        drawings(program, folder)
    print(f"{TALLY.passed} passed, {TALLY.failed} failed")
    return 1 if TALLY.failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv))
