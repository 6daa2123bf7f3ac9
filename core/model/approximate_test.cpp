#include "model/approximate.h"

#include <gtest/gtest.h>

#include "model/solved.h"

namespace fallwright {

namespace {

const std::string start = R"({"kind":"benchmark","point":"BM","level":50}
{"kind":"instrument","name":"L","type":"rotating-laser"}
{"kind":"place","point":"BM","e":0,"n":10}
{"kind":"place","point":"A","e":0,"n":40}
{"kind":"setup","name":"S","instrument":"L","place":{"e":0,"n":0},"plane":{"main":0.01,"bearing":0}}
{"kind":"reading","point":"BM","staff":1.5}
{"kind":"reading","point":"A","staff":2}
)";

Approximate of(const SolvedBook& solved) {
    std::vector<double> known(solved.model().points.size(), NAN);
    const std::int32_t bm = solved.point("BM");
    if (bm >= 0) known[static_cast<std::size_t>(bm)] = 50;
    return approximate(solved.book(), solved.model().points, solved.model().sights, solved.where(), known);
}

}  // namespace

TEST(Approximate, CarriesTheDialledPlaneAndSteps) {
    const SolvedBook solved(start + R"({"kind":"step","from":"Q","to":"A","rise":0.25}
)");
    const Approximate found = of(solved);
    EXPECT_NEAR(found.planes.at(0), 50 + 1.5 - 0.1, 1e-12);
    EXPECT_NEAR(found.levels.at(static_cast<std::size_t>(solved.point("A"))), 51.4 + 0.4 - 2, 1e-12);
    EXPECT_NEAR(found.levels.at(static_cast<std::size_t>(solved.point("Q"))), 49.8 - 0.25, 1e-12);
}

TEST(Approximate, PartsWithoutABenchmarkStartAt100) {
    const SolvedBook solved(start + R"({"kind":"setup","name":"T","instrument":"L"}
{"kind":"reading","point":"X","staff":1}
{"kind":"reading","point":"Y","staff":-2}
)");
    const Approximate found = of(solved);
    EXPECT_EQ(found.levels.at(static_cast<std::size_t>(solved.point("X"))), 100);
    EXPECT_NEAR(found.planes.at(1), 101, 1e-12);
    EXPECT_NEAR(found.levels.at(static_cast<std::size_t>(solved.point("Y"))), 103, 1e-12);
}

TEST(Approximate, ASharedHeadHasThePlaneOfItsTripod) {
    const SolvedBook solved(start + R"({"kind":"setup","name":"T","instrument":"L","head":"S"}
{"kind":"setup","name":"U","instrument":"L"}
)");
    const Approximate found = of(solved);
    EXPECT_EQ(found.planes.at(1), found.planes.at(0));
    EXPECT_TRUE(std::isnan(found.planes.at(2)));
}

}  // namespace fallwright
