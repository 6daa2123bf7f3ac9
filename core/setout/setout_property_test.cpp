// What must hold for every table, whatever line, plane and ground.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "quantity/angle.h"
#include "setout/set_out_book.h"

namespace fallwright {

namespace {

// A whole number of millimetres, in metres.
double drawn(int from_mm, int to_mm) {
    return *rc::gen::inRange(from_mm, to_mm) / 1000.0;
}

std::string text(double value) {
    return std::to_string(value);
}

// A line on the grid with a crossfall and a curve, a set-up anywhere with any plane and bearing, a benchmark
// read in it, ground along the line.
struct Drawn {
    double level = 20 + drawn(-500, 500), fall = drawn(-20, 20), curve = drawn(0, 20000);
    double crossfall = drawn(-30, 30), edge = drawn(1000, 4000);
    double e = drawn(-40000, 40000), n = drawn(-40000, 40000);
    double main = drawn(-30, 30), cross = drawn(-30, 30), bearing = drawn(0, 360000);
    double tilt = drawn(-100, 100) / 1000, cone = drawn(-100, 100) / 1000;
    double staff = drawn(500, 3000), dig = drawn(-500, 2000);
    double every = drawn(700, 30000);

    std::string entries() const {
        return R"({"kind":"benchmark","point":"BM","level":22}
{"kind":"place","point":"BM","e":12.5,"n":-7.25}
{"kind":"instrument","name":"L","type":"rotating-laser","tilt":[)" +
               text(tilt) + "," + text(-tilt) + R"(],"cone":)" + text(cone) + R"(}
{"kind":"line","name":"R1","use":"road","plan":[[0,0],[30,10],[60,-20]],"crossfall":)" +
               text(crossfall) + R"(,"edges":[)" + text(edge) + "," + text(edge) +
               R"(],"profile":[{"ch":0,"level":)" + text(level) + R"(},{"ch":30,"gradient":)" + text(fall) +
               R"(,"curve":)" + text(curve) + R"(},{"ch":60,"level":)" + text(level) +
               R"(}],"layers":[{"what":"base","thickness":0.2}]}
{"kind":"setup","name":"S","instrument":"L","place":{"e":)" +
               text(e) + R"(,"n":)" + text(n) + R"(},"plane":{"main":)" + text(main) + R"(,"cross":)" +
               text(cross) + R"(,"bearing":)" + text(bearing) + R"(}}
{"kind":"reading","point":"BM","staff":)" +
               text(staff) + "}\n" + ground();
    }

    // Read with a level of its own, over its own benchmark.
    std::string ground() const {
        std::string all = R"({"kind":"instrument","name":"O","type":"optical-level"}
{"kind":"setup","name":"G","instrument":"O"}
{"kind":"reading","point":"BM","staff":1,"dist":10}
)";
        for (int ch = 0; ch <= 60; ch += 20)
            all += R"({"kind":"reading","line":"R1","what":"ground","dist":10,"ch":)" + std::to_string(ch) +
                   R"(,"staff":)" + text(2.5 + dig * ch / 60) + "}\n";
        return all;
    }
};

}  // namespace

RC_GTEST_PROP(SetoutProperties, DesignAndTargetMakeThePlaneEverywhere, ()) {
    const Drawn drawn_job;
    const SetOutBook b(drawn_job.entries(), true);
    const SetoutTable table = b.set_out(drawn_job.every).tables.front();
    RC_ASSERT(table.rows.size() >= 6u);
    const LightPlane& plane = b.model().planes[0];
    const SinCos main = sincos_degrees(drawn_job.bearing);
    const PlanLine line(b.book().lines[0], 0);
    for (const SetoutRow& row : table.rows) {
        // The plane in plain geometry: axes turned by the bearing, cone all round, the earth and refraction.
        const Spot spot = line.at(row.ch, row.off);
        const double east = spot.e - drawn_job.e;
        const double north = spot.n - drawn_job.n;
        const double u = east * main.sin + north * main.cos;
        const double v = east * main.cos - north * main.sin;
        const double d2 = u * u + v * v;
        const double light = plane.level + plane.gradient[0] * u + plane.gradient[1] * v +
                             b.book().instruments[0].cone * std::sqrt(d2) + 0.87 * d2 / (2 * 6371000.0);
        RC_ASSERT(std::fabs(row.design + row.target - light) < 1e-9);
        RC_ASSERT(row.sd > 0);
    }
}

RC_GTEST_PROP(SetoutProperties, DigIsGroundLessDesign, ()) {
    const Drawn drawn_job;
    const SetOutBook b(drawn_job.entries());
    const Setout setout = b.set_out(drawn_job.every, {"finished", "base", "formation"});
    for (const SetoutRow& row : setout.tables.front().rows) {
        RC_ASSERT(row.dig_to == "formation");
        RC_ASSERT(std::isnan(row.dig) == (row.off != 0));
        if (row.off != 0 || row.what != "formation") continue;
        // The optical level is at 23, so the ground is this plane through its readings.
        const double ground = 20.5 - drawn_job.dig * row.ch / 60;
        RC_ASSERT(std::fabs(row.dig - (ground - row.design)) < 1e-6);
    }
}

RC_GTEST_PROP(SetoutProperties, ATargetReadComesBackAsTheDesign, ()) {
    // Whoever reads the target at a row finds the point at its design.
    const Drawn drawn_job;
    const SetOutBook b(drawn_job.entries(), true);
    const std::vector<SetoutRow> rows = b.set_out(drawn_job.every).tables.front().rows;
    const SetoutRow& row = rows[*rc::gen::inRange<std::size_t>(0, rows.size())];
    RC_PRE(row.target > 0 && row.target < 10);
    const std::string reading = R"({"kind":"reading","setup":"S","line":"R1","what":"finished","ch":)" +
                                text(row.ch) + R"(,"off":)" + text(row.off) + R"(,"staff":)" +
                                text(row.target) + "}\n";
    const SetOutBook after(drawn_job.entries() + reading, true);
    const std::int32_t point = after.model().points.at(after.book().readings.back().point);
    const PointLevel& found = after.model().levels[static_cast<std::size_t>(point)];
    RC_ASSERT(std::fabs(found.level - row.design) < 5e-6);  // six decimals typed, chainage too
    // As uncertain as the target, and the foot on the surface.
    RC_ASSERT(std::fabs(found.sd - std::sqrt(row.sd * row.sd + 0.001 * 0.001)) < 2e-5);
}

}  // namespace fallwright
