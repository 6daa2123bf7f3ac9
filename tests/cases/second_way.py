#!/usr/bin/python3
"""Random books of readings, each solved a second way, as a case file on standard output.

    second_way.py [--books N] [--seed S]

The second way knows nothing of the product: the rows of docs/methods (contract section 2) are written down here once more, and
solved as one dense orthogonal least squares by NumPy (dense.py). Levels, planes, their sd, residuals, redundancies, counts and
chi2 must agree with the product to its last printed digit.
"""

import argparse
import math
import random

from dense import Dense

REFRACTION, EARTH, ASSUMED_SIGHT = 0.13, 6371000.0, 30.0
FOOT = {None: 0.0003, "peg": 0.001, "bed": 0.003, "ground": 0.010}


class Site:
    """Points with true levels, some of them placed, and the kit."""

    def __init__(self, rng):
        self.rng = rng
        self.level = {f"P{i}": 100 + rng.uniform(-0.8, 0.8) for i in range(9)}
        self.place = {f"P{i}": (round(rng.uniform(-50, 50), 2), round(rng.uniform(-50, 50), 2)) for i in range(7)}
        off = lambda sd: 0 if rng.random() < 0.15 else sd
        self.laser = dict(reading_sd=0.0012, sd_per_m=off(1e-5), tilt_sd=off(2e-5), setting_tilt_sd=off(1.3e-5), cone=1e-5,
                          cone_sd=off(2e-5), aim_sd=off(0.5), grade_sd=off(3e-5), grade_gain_sd=off(0.002), grade_step=1e-5)
        self.tilt = (round(rng.uniform(-3e-5, 3e-5), 7), round(rng.uniform(-3e-5, 3e-5), 7))
        self.optical = dict(reading_sd=0.0008, sd_per_m=1.2e-5, collimation=2e-5, collimation_sd=off(5e-5))
        self.staff = dict(zero=0.002, zero_sd=off(0.0005), scale=1e-4, scale_sd=off(2e-4), joint=off(0.0005))


SHARES = ("sd_per_m", "tilt_sd", "setting_tilt_sd", "cone", "cone_sd", "collimation", "collimation_sd", "aim_sd", "grade_sd",
          "grade_gain_sd", "grade_step", "scale", "scale_sd")


class RandomBook:
    def __init__(self, rng, twins):
        self.rng, self.site, self.dense, self.lines, self.heads, self.twins = rng, Site(rng), Dense(), [], [], twins
        self.signs, self.stretch = {}, ""
        self.unit = rng.choice([1.0, 1.0, 0.3048])
        self.seen = ["P0", "P1"]
        self.kit()
        kinds = ["level", rng.choice(["level", "free"]), rng.choice(["sloped", "head", "matched"]),
                 rng.choice(["unplaced", "unplaced free", "optical"]), rng.choice(["optical", "sloped", "matched", "head"])]
        for n, kind in enumerate(kinds, 1):
            self.setup(f"S{n}", kind)
            if rng.random() < 0.1:
                self.adjust()
        a, b = rng.sample(self.seen, 2)
        rise = round(self.site.level[b] - self.site.level[a] + rng.gauss(0, 0.002), 3)
        self.lines.append(f"step {a} {b} {self.length(rise)} sd {self.length(0.002)}")
        self.dense.row("step", {"h " + b: 1, "h " + a: -1}, rise, 0.002)
        self.dense.solve()

    def length(self, metres):
        return f"{metres / self.unit:.10g}"

    def words(self, fields):
        return " ".join(f"{k} {v:.10g}" if k in SHARES else f"{k} {self.length(v)}" for k, v in fields.items())

    def kit(self):
        site, dense, rng = self.site, self.dense, self.rng
        fixed = round(site.level["P0"], 3)
        weighted = round(site.level["P1"] + rng.gauss(0, 0.002), 3)
        self.lines += [f"benchmark P0 {self.length(fixed)}", f"benchmark P1 {self.length(weighted)} sd {self.length(0.002)}"]
        self.lines += [f"place {p} e {self.length(e)} n {self.length(n)}" for p, (e, n) in site.place.items()]
        self.lines += [f"laser L {self.words(site.laser)} tilt [{site.tilt[0]}, {site.tilt[1]}]", f"optical O {self.words(site.optical)}"]
        staff = {k: v for k, v in site.staff.items() if k != "joint"}
        self.lines.append(f"staff F {self.words(dict(length=6, **staff))} joints [{{at: {self.length(1.5)}, step_sd: {self.length(site.staff['joint'])}}}]")
        dense.prior("h P0", fixed, 0)
        dense.row("", {"h P1": 1}, weighted, 0.002)
        self.stretch_unknowns()
        dense.prior("collimation", site.optical["collimation"], site.optical["collimation_sd"])
        dense.prior("zero", site.staff["zero"], site.staff["zero_sd"])
        dense.prior("scale", site.staff["scale"], site.staff["scale_sd"])
        dense.prior("joint", 0, site.staff["joint"])

    def stretch_unknowns(self):
        """The laser's own errors, anew after each adjustment."""
        for axis in (0, 1):
            self.dense.prior(f"tilt {axis}{self.stretch}", self.site.tilt[axis], self.site.laser["tilt_sd"])
            self.dense.prior(f"gain {axis}{self.stretch}", 0, self.site.laser["grade_gain_sd"])
        self.dense.prior("cone" + self.stretch, self.site.laser["cone"], self.site.laser["cone_sd"])

    def adjust(self):
        self.stretch += "'"
        self.lines.append('{"kind":"adjusted","instrument":"L","why":"knocked"}')
        self.stretch_unknowns()

    def setup(self, name, kind):
        rng = self.rng
        s = dict(name=name, kind=kind, place=None, bearing=None, g=(0.0, 0.0), shown=None, head=None, origin=None,
                 optical=kind == "optical", staff=rng.random() < 0.6, aim="aim " + name, c=101.8 + rng.uniform(-0.2, 0.2))
        if kind in ("level", "free", "sloped") or (kind == "matched" and not self.heads) or (kind == "head" and not self.heads):
            s["place"] = (round(rng.uniform(-30, 30), 2), round(rng.uniform(-30, 30), 2))
        if kind not in ("free", "unplaced free", "optical"):
            s["bearing"] = round(rng.uniform(0, 360), 1)
        if kind in ("sloped", "head", "matched"):
            s["g"] = (round(rng.uniform(-0.01, 0.01), 4), round(rng.choice([0, rng.uniform(-0.01, 0.01)]), 4))
        if kind in ("head", "matched") and self.heads:
            s["head"] = self.heads.pop(rng.randrange(len(self.heads))) if not self.twins else rng.choice(self.heads)
            for key in ("place", "bearing", "aim", "staff"):
                s[key] = s["head"][key]
            s["c"] = s["head"]["c"] + rng.gauss(0, 0.001)
        if kind == "matched":
            s["true"], s["shown"] = s["g"][0], round(s["g"][0] + rng.gauss(0, 3e-5), 6) if rng.random() < 0.6 else None
            s["g"] = (None, s["g"][1])
        if kind == "level":
            self.heads.append(s)
        self.write_setup(s)
        self.setup_unknowns(s)
        self.readings(s)

    def write_setup(self, s):
        text = f"setup {s['name']} {'O' if s['optical'] else 'L'}" + (" staff F" if s["staff"] else "")
        if s["head"]:
            text += f" head {s['head']['name']}"
        elif s["place"]:
            text += f" place {{e: {self.length(s['place'][0])}, n: {self.length(s['place'][1])}}}"
        if not s["optical"] and s["bearing"] is not None:
            main = "null" if s["g"][0] is None else s["g"][0]
            bearing = "" if s["head"] else f", bearing: {s['bearing']}"
            text += f" plane {{main: {main}, cross: {s['g'][1]}{bearing}}}"
        if s["shown"] is not None:
            text += f" shown {{main: {s['shown']}}}"
        self.lines.append(text)

    def setup_unknowns(self, s):
        d, laser, name = self.dense, self.site.laser, s["name"]
        both = math.hypot(laser["tilt_sd"], laser["setting_tilt_sd"])
        for axis in (0, 1):
            d.prior(f"set {axis} {name}", 0, laser["setting_tilt_sd"])
            d.prior(f"own {axis} {name}", 0, both)
            d.prior(f"grade {axis} {name}", 0, laser["grade_sd"])
        d.prior(s["aim"], 0, math.radians(laser["aim_sd"]))
        if s["head"]:
            d.prior("head " + name, 0, 0.001)
        if s["shown"] is not None:
            d.row("", {"g " + name: 1}, s["shown"], math.hypot(laser["grade_sd"], laser["grade_step"] / math.sqrt(12)))

    def readings(self, s):
        rng, placed = self.rng, [p for p in self.seen if p in self.site.place]
        known = rng.sample(placed, min(len(placed), 4 if s["kind"] == "matched" else 2))
        others = [p for p in self.site.level if p not in known and (p in self.site.place or s["g"] == (0.0, 0.0))]
        others = [p for p in others if s["kind"] != "matched" or p in self.site.place]
        chosen = known + rng.sample(others, min(3, len(others)))
        for point in chosen:
            self.reading(s, point)
        self.seen += [p for p in chosen if p not in self.seen]

    def offsets(self, s, point):
        """u, v and d of a point as the product is told them; u is None where it cannot know."""
        origin = s["place"] or s["origin"]
        if origin is None and point in self.site.place:
            origin = s["origin"] = self.site.place[point]
        if s["optical"] or point not in self.site.place or origin is None:
            return None, None, None
        e, n = (a - b for a, b in zip(self.site.place[point], origin))
        b = math.radians(s["bearing"] or 0)
        u, v = e * math.sin(b) + n * math.cos(b), e * math.cos(b) - n * math.sin(b)
        return u, v, math.sqrt(u * u + v * v) if s["place"] else None

    def reading(self, s, point):
        rng = self.rng
        sloped = s["g"] != (0.0, 0.0)
        # A staff that hangs stands under another surface: a point of its own, which has no place.
        hangs = not sloped and rng.random() < 0.15
        target = point + "-roof" if hangs else point
        u, v, d = self.offsets(s, target)
        fields = {}
        if d is None and rng.random() < 0.7:
            d = fields["dist"] = round(rng.uniform(5, 60), 1)
        d = ASSUMED_SIGHT if d is None else d
        if sloped and rng.random() < 0.3:
            fields["dist_sd"] = 0.05
        if rng.random() < 0.2:
            fields["sd"] = 0.0015
        what = rng.choice([None, None, "peg", "ground"])
        gx = s.get("true", s["g"][0])
        light = s["c"] + (gx * u + s["g"][1] * v if sloped else 0)
        r = round(light - self.site.level[point] + rng.gauss(0, 0.0012), 3)
        if hangs:
            r = round(r - 4.0, 3)
        self.row(s, target, r, (u, v, d), FOOT[what], fields)
        text = f"reading {target} staff {self.length(r)} {self.words(fields)}" + (f" what {what}" if what else "")
        self.lines.append(text.rstrip())

    def row(self, s, target, r, uvd, foot, fields):
        sign, d = -1 if r < 0 else 1, uvd[2]
        dense, laser, name = self.dense, self.site.laser, s["name"]
        booked = abs(r)
        terms = {"c " + (s["head"]["name"] if s["head"] else name): 1, "h " + target: -1, f"foot {name} {target}": -1}
        dense.prior(f"foot {name} {target}", 0, foot)
        if s["head"]:
            terms["head " + name] = 1
        value = sign * booked - (1 - REFRACTION) * d * d / (2 * EARTH)
        if s["staff"]:
            terms.update({"zero": sign, "scale": sign * booked, "joint": sign * (booked > 1.5)})
        own = self.site.optical if s["optical"] else laser
        sd = fields.get("sd", math.hypot(own["reading_sd"], own["sd_per_m"] * d))
        terms["collimation" if s["optical"] else "cone" + self.stretch] = d
        if not s["optical"]:
            value, sd = self.plane_terms(s, target, terms, value, sd, booked, uvd, fields)
        self.signs[f"{name}.{target}"] = sign
        dense.row(f"{name}.{target}", terms, value, sd)

    def plane_terms(self, s, point, terms, value, sd, booked, uvd, fields):
        u, v, d = uvd
        name, laser = s["name"], self.site.laser
        if u is None:
            lone = f"lone {name} {point}"
            self.dense.prior(lone, 0, math.hypot(laser["tilt_sd"], laser["setting_tilt_sd"]) * d)
            terms[lone] = 1
            return value, sd
        for axis, along in ((0, u), (1, v)):
            if s["bearing"] is None:
                terms[f"own {axis} {name}"] = along
            else:
                terms[f"tilt {axis}{self.stretch}"] = along
                terms[f"set {axis} {name}"] = along
            if s["g"][axis] is None:
                terms["g " + name] = along
            elif s["g"][axis] != 0:
                value -= s["g"][axis] * along
                terms[f"gain {axis}{self.stretch}"] = s["g"][axis] * along
                terms[f"grade {axis} {name}"] = along
        gx, gy = (s["shown"] or 0) if s["g"][0] is None else s["g"][0], s["g"][1]
        terms[s["aim"]] = gx * v - gy * u
        lean = booked * math.hypot(gx, gy) * math.radians(1)
        misplaced = abs(gx * u + gy * v) / d * fields.get("dist_sd", 0) if d > 0 else 0
        return value, math.sqrt(sd * sd + lean * lean + misplaced * misplaced)

    def case(self, number, seed):
        d, out = self.dense, []

        def expect(path, metres):
            out.append(f"  expect {path} {metres / self.unit:.7f} ± 0.0000055")

        out.append(f"case       second-way-{seed}-{number} a random book")
        out += ["book" + (" unit ft" if self.unit != 1 else ""), *("  " + line for line in self.lines), "end", "run evaluate"]
        for name in sorted(d.x):
            if name.startswith("h "):
                expect(f"levels[{name[2:]}].level", d.x[name])
                expect(f"levels[{name[2:]}].sd", d.sd[name])
            if name.startswith("c "):
                expect(f"setups[{name[2:]}].plane", d.x[name])
                expect(f"setups[{name[2:]}].sd", d.sd[name])
        for tag, (residual, sd, redundancy) in d.fit.items():
            if tag == "step":
                continue
            expect(f"readings[{tag}].residual", self.signs[tag] * residual)
            expect(f"readings[{tag}].sd", sd)
            out.append(f"  expect readings[{tag}].redundancy {max(redundancy, 0):.6f} ± 0.000055")
        out += [f"  expect adjustment.observations {d.observations}", f"  expect adjustment.unknowns {d.unknowns}",
                f"  expect adjustment.chi2 {d.chi2:.9g} ± {1e-5 * max(d.chi2, 1e-3):.3g}", ""]
        return "\n".join(out)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--books", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--twins", action="store_true", help="one tripod may carry several planes, which share its aim")
    args = parser.parse_args()
    print("source     the same rows solved as one dense orthogonal least squares (tests/cases/second_way.py, NumPy)")
    print("provenance derived\n")
    done, tried = 0, 0
    while done < args.books:
        tried += 1
        book = RandomBook(random.Random(args.seed * 1000003 + tried), args.twins)
        if book.dense.whole:
            done += 1
            print(book.case(tried, args.seed))


if __name__ == "__main__":
    main()
