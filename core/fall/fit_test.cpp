#include "fall/fit.h"

#include <gtest/gtest.h>

#include <cmath>
#include <memory>
#include <string>
#include <utility>

namespace fallwright {

namespace {

struct Fitted {
    std::unique_ptr<Book> book;
    Figures figures;
    Where where;
    std::unique_ptr<Model> model;
    std::vector<LineFalls> lines;

    explicit Fitted(const std::string& readings)
        : book(std::move(*read_book(R"({"kind":"book","format":"fallwright","version":1,"curvature":false}
{"kind":"what","name":"peg","foot_sd":0}
{"kind":"instrument","name":"L","type":"rotating-laser","reading_sd":0.0012,"tilt_sd":0,"setting_tilt_sd":0,"cone_sd":0}
{"kind":"line","name":"D1"}
{"kind":"setup","name":"S","instrument":"L","place":{"line":"D1","ch":0},"plane":{"towards":"D1"}}
)" + readings))),
          figures(read_figures(*book)),
          where(locate(*book, 30)),
          model(build_model(*book, figures, where)),
          lines(find_falls(*book, *model)) {}

    const LineFalls& line() const { return lines.at(0); }
};

std::string reading(double ch, double staff, const std::string& more = "") {
    return R"({"kind":"reading","line":"D1","what":"peg","ch":)" + std::to_string(ch) + R"(,"staff":)" +
           std::to_string(staff) + more + "}\n";
}

}  // namespace

TEST(Fit, ThreePointsLieAboutTheirLineByHand) {
    // Levels 100, 99.91, 99.80 at 0, 10, 20: -0.01 a metre; mean 99.90333 at 10.
    const Fitted found(reading(0, 1) + reading(10, 1.09) + reading(20, 1.2));
    const Fit& fit = found.line().fits.at(0);
    EXPECT_NEAR(fit.gradient, -0.01, 1e-12);
    EXPECT_NEAR(fit.level_at_0, 100.0 + 0.01 / 3, 1e-9);
    EXPECT_NEAR(found.line().stations[0].off_fit, -0.01 / 3, 1e-9);
    EXPECT_NEAR(found.line().stations[1].off_fit, 0.02 / 3, 1e-9);
    EXPECT_NEAR(fit.rms, std::sqrt(6.0) * 0.01 / 3 / std::sqrt(3.0), 1e-9);
}

// measurement-model section 2.4 (c), measurement.json prop-gradn-factor-3 (derived): the middle point adds
// nothing; sd of the gradient is sqrt 2 u_r / L whatever the unevenness.
TEST(Fit, UnevennessIsNotInItsUncertainty) {
    for (const double middle : {1.1, 1.3}) {
        const Fitted found(reading(0, 1) + reading(10, middle) + reading(20, 1.2));
        EXPECT_NEAR(found.line().fits.at(0).sd, std::sqrt(2.0) * 0.0012 / 20, 1e-10);
    }
}

TEST(Fit, OnlyPointsOnTheLineOfOneSurfaceAreFitted) {
    const Fitted found(reading(0, 1) + reading(10, 5, R"(,"off":0.0005)") + reading(20, 1.2) +
                       R"({"kind":"reading","line":"D1","what":"ground","ch":5,"staff":1}
)");
    ASSERT_EQ(found.line().fits.size(), 1u);
    EXPECT_NEAR(found.line().fits[0].gradient, -0.01, 1e-12);
    ASSERT_EQ(found.line().stations.size(), 4u);
    EXPECT_TRUE(std::isnan(found.line().stations[1].off_fit));
    EXPECT_TRUE(std::isnan(found.line().stations[3].off_fit));
}

TEST(Fit, FewerThanTwoChainagesHaveNone) {
    EXPECT_TRUE(Fitted("").line().stations.empty());
    const Fitted once(reading(5, 1) + reading(5, 1.002));
    EXPECT_TRUE(once.line().fits.empty());
    EXPECT_EQ(once.line().stations.size(), 1u);
}

}  // namespace fallwright
