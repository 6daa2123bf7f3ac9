// How sure it is that a point lies off the best straight line: closed forms of ordinary least squares.
#include <gtest/gtest.h>

#include <cmath>
#include <memory>

#include "fall/fit.h"

namespace fallwright {

namespace {

struct Walk {
    explicit Walk(const std::string& readings)
        : book(std::move(*read_book(
              R"({"kind":"book","format":"fallwright","version":1,"curvature":false}
{"kind":"benchmark","point":"BM","level":10}
{"kind":"instrument","name":"L","type":"rotating-laser","reading_sd":0.002,"tilt_sd":0.00005,"setting_tilt_sd":0.00005,"cone_sd":0}
{"kind":"what","name":"peg","foot_sd":0}
{"kind":"line","name":"R"}
{"kind":"setup","name":"1","instrument":"L","place":{"line":"R","ch":-10,"off":0},"plane":{"towards":"R"}}
{"kind":"reading","point":"BM","staff":1,"dist":10}
)" + readings))),
          figures(read_figures(*book)),
          where(locate(*book, 30)),
          model(build_model(*book, figures, where)),
          lines(find_falls(*book, *model)) {}

    double sd(std::size_t station) const {
        return off_fit_sd(lines.front(), lines.front().stations.at(station), *model);
    }

    std::unique_ptr<Book> book;
    Figures figures;
    Where where;
    std::unique_ptr<Model> model;
    std::vector<LineFalls> lines;
};

std::string peg(double ch, double staff, double off = 0) {
    return R"({"kind":"reading","line":"R","what":"peg","ch":)" + std::to_string(ch) + R"(,"off":)" +
           std::to_string(off) + R"(,"staff":)" + std::to_string(staff) + "}\n";
}

}  // namespace

// Of three points evenly spaced the middle one is off by (2 h2 - h1 - h3) / 3, the ends by half of that the
// other way.
TEST(OffFit, TiltAndHeightOfThePlaneAreNotInItsSd) {
    const Walk walk(peg(0, 1.1) + peg(20, 1.3) + peg(40, 1.4));
    EXPECT_NEAR(walk.sd(1), 0.002 * std::sqrt(6.0) / 3, 1e-12);
    EXPECT_NEAR(walk.sd(0), 0.002 * std::sqrt(6.0) / 6, 1e-12);
    EXPECT_NEAR(walk.sd(2), walk.sd(0), 1e-12);
}

TEST(OffFit, TwoPointsLieOnTheirLine) {
    const Walk walk(peg(0, 1.1) + peg(20, 1.3));
    EXPECT_NEAR(walk.sd(0), 0, 1e-9);
}

TEST(OffFit, APointBesideTheLineHasNone) {
    const Walk walk(peg(0, 1.1) + peg(20, 1.3) + peg(10, 1.2, 2));
    EXPECT_TRUE(std::isnan(walk.sd(2)));
}

}  // namespace fallwright
