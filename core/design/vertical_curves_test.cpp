// Published vertical curves and cross-sections: what a line with such figures is designed to.
#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "design/designed.h"
#include "quantity/length.h"

namespace fallwright {

namespace {

// Two grades, in per cent, meeting under a curve of length L at its corner; room for it on both sides.
std::string curve(double ch, double level, double g1, double g2, double length) {
    const auto text = [](double value) { return std::to_string(value); };
    return R"({"kind":"line","name":"R1","use":"road","profile":[{"ch":)" + text(ch - length) +
           R"(,"level":)" + text(level - g1 / 100 * length) + R"(},{"ch":)" + text(ch) + R"(,"gradient":")" +
           text(g1) + R"( %","curve":)" + text(length) + R"(},{"ch":)" + text(ch + length) +
           R"(,"gradient":")" + text(g2) +
           R"( %"}]})"
           "\n";
}

double station(const char* text) {
    return parse_chainage(text, Unit::Foot)->feet();
}

OwnPoint find(const Designed& d, OwnPointKind kind) {
    for (const OwnPoint& point : d.line().own_points(Designed::nothing)) {
        if (point.kind == kind) return {d.book().in_unit(point.ch), kind};
    }
    return {NAN, kind};
}

std::string crossed(const std::string& crossfall) {
    return R"({"kind":"line","name":"R1","use":"road","profile":[{"ch":1100,"level":10},{"ch":1300,"level":10}],)"
           R"("crossfall":)" +
           crossfall + "}\n";
}

}  // namespace

// VC-01 J. Mahun, open-access surveying notes, vertical curves, problem 2: printed to 0.01 ft, and grades.
TEST(PublishedCurves, CrestTable) {
    const Designed d(curve(5650, 1325, 5, -3.5, 500), "ft");
    struct Row {
        const char* station;
        double level, grade;
    };
    const std::array<Row, 6> rows = {{{"54+00", 1312.50, 5.0},
                                      {"55+00", 1316.65, 3.3},
                                      {"56+00", 1319.10, 1.6},
                                      {"57+00", 1319.85, -0.1},
                                      {"58+00", 1318.90, -1.8},
                                      {"59+00", 1316.25, -3.5}}};
    for (const Row& row : rows) {
        EXPECT_NEAR(d.level("finished", station(row.station)), row.level, 0.0005) << row.station;
        EXPECT_NEAR(100 * d.gradient(station(row.station)), row.grade, 0.0005) << row.station;
    }
    // Recomputed for the reference, not printed: the highest point.
    EXPECT_NEAR(find(d, OwnPointKind::Summit).ch, 5694.12, 0.005);
    EXPECT_NEAR(d.level("finished", find(d, OwnPointKind::Summit).ch), 1319.853, 0.0005);
}

// VC-04 J. Mahun, the same notes, problem 1: figures of the statement; answers recomputed for the reference.
TEST(PublishedCurves, TangentPointsAndLowPointOfASag) {
    const Designed d(curve(7426.5, 772.3, -4, 2, 750), "ft");
    EXPECT_NEAR(find(d, OwnPointKind::CurveStart).ch, 7051.5, 0.0005);
    EXPECT_NEAR(find(d, OwnPointKind::CurveEnd).ch, 7801.5, 0.0005);
    EXPECT_NEAR(find(d, OwnPointKind::Low).ch, 7551.5, 0.0005);
    EXPECT_NEAR(d.level("finished", 7051.5), 787.3, 0.0005);
    EXPECT_NEAR(d.level("finished", 7801.5), 779.8, 0.0005);
    EXPECT_NEAR(d.level("finished", 7551.5), 777.3, 0.0005);
}

// VC-05 M. Rogers, Highway Engineering, table 6.12 from TD 9/93: K is the length over which the gradient
// changes by one per cent, L = K (p - q).
TEST(PublishedCurves, GradientChangesByOnePerCentInKMetres) {
    for (const double k :
         {182., 100., 55., 30., 17., 10., 6.5, 37., 26., 20., 13., 9., 400., 285., 200., 142.}) {
        const Designed crest(curve(5000, 50, 3, -4, 7 * k));
        const Designed sag(curve(5000, 50, -4, 3, 7 * k));
        EXPECT_NEAR(crest.gradient(5000 + k) - crest.gradient(5000), -0.01, 1e-9) << k;
        EXPECT_NEAR(sag.gradient(5000 + k) - sag.gradient(5000), 0.01, 1e-9) << k;
    }
}

// VC-06 M. Rogers, Highway Engineering, example 6.6: 700 m and 385 m between +3 % and -4 % at 100 km/h, whose
// K are 100 and 55 in the same table.
TEST(PublishedCurves, LengthsOfAnExampleHaveTheKOfTheTable) {
    const Designed desirable(curve(1000, 50, 3, -4, 700));
    const Designed absolute(curve(1000, 50, 3, -4, 385));
    EXPECT_NEAR(-0.01 / desirable.line().curvature(1000, Side::After).constant, 100, 1e-6);
    EXPECT_NEAR(-0.01 / absolute.line().curvature(1000, Side::After).constant, 55, 1e-6);
}

// VC-08 K of the AASHTO Green Book, from memory, with the constants that a county's design sheet prints: eye
// 3.5 ft, object 2.0 ft above the road; headlights 2 ft above it, their light rising 1 degree. Over a crest
// of such a K the eye just sees the object at the stopping distance, over one of a unit less it does not; in
// a sag the light just falls that far.
TEST(PublishedCurves, SightReachesTheStoppingDistance) {
    struct Row {
        double sight, crest, sag;
    };
    const std::array<Row, 14> rows = {{{80, 3, 10},
                                       {115, 7, 17},
                                       {155, 12, 26},
                                       {200, 19, 37},
                                       {250, 29, 49},
                                       {305, 44, 64},
                                       {360, 61, 79},
                                       {425, 84, 96},
                                       {495, 114, 115},
                                       {570, 151, 136},
                                       {645, 193, 157},
                                       {730, 247, 181},
                                       {820, 312, 206},
                                       {910, 384, 231}}};
    const auto clear_over_crest = [](double k, double sight) {
        const Designed d(curve(90000, 500, 50, -50, 100 * k), "ft");
        const double eye = 90000 - sight / 2;
        const double from = d.level("finished", eye) + 3.5;
        const double to = d.level("finished", eye + sight) + 2.0;
        double least = INFINITY;
        for (int step = 0; step <= 400; ++step) {
            const double x = sight * step / 400;
            least = std::min(least, from + (to - from) * x / sight - d.level("finished", eye + x));
        }
        return least;
    };
    const auto light_above_sag = [](double k, double sight) {
        const Designed d(curve(90000, 500, -50, 50, 100 * k), "ft");
        const double light =
            d.level("finished", 90000) + 2 + (d.gradient(90000) + std::tan(M_PI / 180)) * sight;
        return light - d.level("finished", 90000 + sight);
    };
    for (const Row& row : rows) {
        EXPECT_GE(clear_over_crest(row.crest, row.sight), 0) << row.sight;
        EXPECT_LT(clear_over_crest(row.crest - 1, row.sight), 0) << row.sight;
        // 35 mph is printed 49 for 49.02; the table's 3.5 S stands for 3.49 S.
        EXPECT_GE(light_above_sag(row.sag, row.sight), -0.05) << row.sight;
        EXPECT_LT(light_above_sag(row.sag - 1, row.sight), 0) << row.sight;
    }
}

// VC-09 M. Rogers, Highway Engineering, section 6.6.5: crossfall 2.5 %; the channel of a 7.3 m road lies
// 0.091 m below its centre line (derived).
TEST(PublishedCrossSections, CamberFallsToBothChannels) {
    const Designed d(crossed(R"(["-2.5 %","-2.5 %"])"));
    EXPECT_NEAR(d.level("finished", 1200, 3.65), 10 - 0.091, 0.0005);
    EXPECT_NEAR(d.level("finished", 1200, -3.65), 10 - 0.091, 0.0005);
}

// VC-10 Road geometry examination question with its solution: a lane of 4.4 m, camber 2 %, superelevation 6
// %, run on in proportion, 4 % at the beginning of the curve.
TEST(PublishedCrossSections, OuterEdgeUnderCamberAndSuperelevation) {
    EXPECT_NEAR(Designed(crossed(R"(["-2 %","-2 %"])")).level("finished", 1150.55, -4.4), 10 - 0.088, 0.0005);
    EXPECT_NEAR(Designed(crossed(R"("-6 %")")).level("finished", 1250.55, -4.4), 10 + 0.264, 0.0005);
    EXPECT_NEAR(Designed(crossed(R"("-6 %")")).level("finished", 1250.55, 4.4), 10 - 0.264, 0.0005);
    EXPECT_NEAR(Designed(crossed(R"(["4 %","-4 %"])")).level("finished", 1225.55, -4.4), 10 + 0.176, 0.0005);
}

// VC-11 Highway question: a carriageway 12.5 m wide whose outer edge lies 0.50 m higher is crossed at 1
// in 25.
TEST(PublishedCrossSections, OneInTwentyFiveRisesHalfAMetreInTwelveAndAHalf) {
    const Designed d(crossed(R"("1 in 25 rise")"));
    EXPECT_NEAR(d.level("finished", 1200, 12.5) - d.level("finished", 1200), 0.5, 1e-12);
}

}  // namespace fallwright
