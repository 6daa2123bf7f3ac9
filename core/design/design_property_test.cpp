// What must hold for every line, whatever its figures.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/print.h"
#include "design/designed.h"

namespace fallwright {

namespace {

// A whole number of millimetres, in metres.
double drawn(int from_mm, int to_mm) {
    return *rc::gen::inRange(from_mm, to_mm) / 1000.0;
}

struct Corner {
    double ch, level, curve;
};

struct DrawnPipe {
    double from, to, bore, wall, bedding;
};

// A line that anyone might draw: corners 8 m to 40 m apart, curves that have room, a chamber at an end or in
// the middle of a straight grade, with both inverts or with out alone, two pipes, a crossfall.
struct DrawnLine {
    std::vector<Corner> corners;
    std::vector<DrawnPipe> pipes;
    double chamber = 0, in = 0, out = 0;
    bool in_given = true;
    double left = 0, right = 0;
    bool with = true;

    double length() const { return corners.back().ch; }
};

DrawnLine draw_line() {
    DrawnLine line;
    const int corners = *rc::gen::inRange(2, 7);
    double ch = 0;
    for (int i = 0; i < corners; ++i) {
        const bool inner = i > 0 && i + 1 < corners;
        line.corners.push_back(
            {ch, 20 + drawn(-1000, 1000), inner && *rc::gen::arbitrary<bool>() ? drawn(1, 8000) : 0});
        ch += drawn(8000, 40000);
    }
    const double joint = drawn(1000, 7000);
    line.pipes = {{0, joint, 0.15, 0.01, 0.1},
                  {joint, line.length(), drawn(100, 600), drawn(0, 80), drawn(0, 200)}};
    const auto grade = static_cast<std::size_t>(*rc::gen::inRange(1, corners));
    const double middle = (line.corners[grade - 1].ch + line.corners[grade].ch) / 2;
    line.chamber = *rc::gen::element(0.0, line.length(), middle);
    line.in_given = *rc::gen::arbitrary<bool>();
    line.out = 20 + drawn(-1000, 1000);
    line.in = line.out + drawn(0, 200);
    line.left = drawn(-50, 50);
    line.right = drawn(-50, 50);
    line.with = *rc::gen::arbitrary<bool>();
    return line;
}

// The same line with its chainages counted from the other end.
DrawnLine turned(const DrawnLine& line) {
    DrawnLine back = line;
    back.corners.clear();
    const double length = line.length();
    for (auto corner = line.corners.rbegin(); corner != line.corners.rend(); ++corner)
        back.corners.push_back({length - corner->ch, corner->level, corner->curve});
    for (DrawnPipe& pipe : back.pipes)
        pipe = {length - pipe.to, length - pipe.from, pipe.bore, pipe.wall, pipe.bedding};
    back.chamber = length - line.chamber;
    std::swap(back.left, back.right);
    back.with = !line.with;
    return back;
}

std::string text(double value) {
    std::string out;
    append_significant(out, value, 15);
    return out;
}

std::string entry(const DrawnLine& line) {
    std::string out = R"({"kind":"line","name":"D1","use":"other","profile":[)";
    for (const Corner& corner : line.corners) {
        out += (&corner == &line.corners.front() ? R"({"ch":)" : R"(,{"ch":)") + text(corner.ch) +
               R"(,"level":)" + text(corner.level) + R"(,"curve":)" + text(corner.curve) + "}";
    }
    out += R"(],"pipes":[)";
    for (const DrawnPipe& pipe : line.pipes) {
        out += (&pipe == &line.pipes.front() ? R"({"from":)" : R"(,{"from":)") + text(pipe.from) +
               R"(,"to":)" + text(pipe.to) + R"(,"bore":)" + text(pipe.bore) + R"(,"wall":)" +
               text(pipe.wall) + R"(,"bedding":)" + text(pipe.bedding) + "}";
    }
    const std::string in = line.in_given ? R"("in":)" + text(line.in) + "," : "";
    return out + R"(],"chambers":[{"name":"C","ch":)" + text(line.chamber) + "," + in + R"("out":)" +
           text(line.out) + R"(}],"flow":")" + (line.with ? "with" : "against") + R"(","crossfall":[)" +
           text(line.left) + "," + text(line.right) + "]}";
}

constexpr const char* surfaces[] = {"laid", "laid in", "laid out", "soffit", "crown", "bed", "formation"};

}  // namespace

RC_GTEST_PROP(LineProperty, RunAgainstItsChainageHasTheSameDesign, ()) {
    const DrawnLine line = draw_line();
    const Designed there(entry(line));
    const Designed back(entry(turned(line)));
    for (int i = 0; i <= 20; ++i) {
        const double ch = i == 0 ? line.chamber : i == 1 ? line.pipes[0].to : line.length() * i / 20;
        const double off = drawn(-4000, 4000);
        for (const char* what : surfaces) {
            const double one = there.level(what, ch, off);
            const double other = back.level(what, line.length() - ch, -off);
            RC_ASSERT(std::fabs(one - other) < 1e-9);
        }
        const double gradient = there.line().gradient(ch, Side::After).constant;
        const double reversed = back.line().gradient(line.length() - ch, Side::Before).constant;
        RC_ASSERT(std::fabs(gradient + reversed) < 1e-9);
    }
    RC_ASSERT(there.designs().findings.size() == back.designs().findings.size());
}

RC_GTEST_PROP(LineProperty, ElevationsAreContinuousAndTangentAlongCurves, ()) {
    const DrawnLine line = draw_line();
    const Designed d(entry(line));
    for (const Corner& corner : line.corners) {
        if (corner.curve == 0) continue;
        const double ends[] = {corner.ch - corner.curve / 2, corner.ch + corner.curve / 2};
        for (const double end : ends) {
            const double step = 1e-6;
            RC_ASSERT(std::fabs(d.level("laid", end + step) - d.level("laid", end - step)) < 1e-6);
            RC_ASSERT(std::fabs(d.line().gradient(end, Side::Before).constant -
                                d.line().gradient(end, Side::After).constant) < 1e-9);
        }
        // Inside, the gradient is the slope of the levels, and its change is the curvature.
        const double x = corner.ch + (drawn(0, 800) - 0.4) * corner.curve;
        const double h = corner.curve / 100;
        const double slope = (d.level("laid", x + h) - d.level("laid", x - h)) / (2 * h);
        RC_ASSERT(std::fabs(slope - d.line().gradient(x, Side::After).constant) < 1e-7);
        const double change = (d.line().gradient(x + h, Side::After).constant -
                               d.line().gradient(x - h, Side::After).constant) /
                              (2 * h);
        RC_ASSERT(std::fabs(change - d.line().curvature(x, Side::After).constant) < 1e-6);
    }
}

// A summit is the highest level of its curve, a low point the lowest.
RC_GTEST_PROP(LineProperty, SummitsAndLowPointsAreTheExtremesOfTheirCurves, ()) {
    const DrawnLine line = draw_line();
    const Designed d(entry(line));
    for (const OwnPoint& point : d.line().own_points(Designed::nothing)) {
        if (point.kind != OwnPointKind::Summit && point.kind != OwnPointKind::Low) continue;
        const double sign = point.kind == OwnPointKind::Summit ? 1 : -1;
        for (const Corner& corner : line.corners) {
            if (std::fabs(point.ch - corner.ch) > corner.curve / 2) continue;
            for (int i = 0; i <= 10; ++i) {
                const double ch = corner.ch + (i / 10.0 - 0.5) * corner.curve;
                RC_ASSERT(sign * (d.level("laid", point.ch) - d.level("laid", ch)) > -1e-9);
            }
        }
    }
}

// The plane of a stretch and the levels of the line are the same, on both sides of it.
RC_GTEST_PROP(LineProperty, PlanesAreTheDesign, ()) {
    const DrawnLine line = draw_line();
    const Designed d(entry(line));
    for (const PlaneStretch& plane : d.line().planes(Designed::nothing)) {
        const double ch = plane.from + (plane.to - plane.from) * drawn(1, 999);
        const double off = plane.to_right ? 2.5 : -2.5;
        const double level = plane.level + plane.gradient * (ch - plane.from) + plane.crossfall * off;
        RC_ASSERT(std::fabs(level - d.level("laid", ch, off)) < 1e-7);
    }
}

// A profile that hangs under points has, for any levels of theirs, the levels of one that has them typed in.
RC_GTEST_PROP(LineProperty, HangingIsLinear, ()) {
    const DrawnLine line = draw_line();
    std::vector<double> found;
    std::string hung = R"({"kind":"line","name":"D1","use":"other","flow":"with","profile":[)";
    std::string typed = hung;
    std::string points;
    for (std::size_t i = 0; i < line.corners.size(); ++i) {
        const Corner& corner = line.corners[i];
        const std::string name = "P" + std::to_string(i);
        found.push_back(20 + drawn(-2000, 2000));
        const double by = drawn(-300, 300);
        const std::string head = std::string(i == 0 ? "" : ",") + R"({"ch":)" + text(corner.ch) +
                                 R"(,"curve":)" + text(corner.curve);
        hung.append(head).append(R"(,"under":")").append(name);
        hung.append(R"(","by":)").append(text(by)).append("}");
        typed.append(head).append(R"(,"level":)").append(text(found.back() - by)).append("}");
        points.append(R"({"kind":"benchmark","point":")").append(name).append("\",\"level\":20}\n");
    }
    const Designed one(hung + "]}\n" + points);
    const Designed other(typed + "]}");
    const LevelOf level_of = [&](NameId point) {
        return found[static_cast<std::size_t>(std::stoi(one.book().name(point).substr(1)))];
    };
    for (int i = 0; i <= 20; ++i) {
        const double ch = line.length() * i / 20;
        RC_ASSERT(std::fabs(one.line().level("laid", ch).value(level_of) - other.level("laid", ch)) < 1e-9);
    }
}

}  // namespace fallwright
