#include "model/budget.h"

#include <gtest/gtest.h>

#include <numeric>

#include "model/solved.h"

namespace fallwright {

namespace {

const std::string start = R"({"kind":"what","name":"mark","foot_sd":0.0004}
{"kind":"benchmark","point":"BM","level":50}
)";

std::string laser(const std::string& figures) {
    return R"({"kind":"instrument","name":"L","type":"rotating-laser","reading_sd":0.0012,"cone_sd":0,)" +
           figures + "}\n";
}

std::string setup(const std::string& plane) {
    return R"({"kind":"setup","name":"S","instrument":"L","plane":)" + plane + "}\n";
}

std::string reading(const std::string& point, double along, double across, const std::string& more = "") {
    return R"({"kind":"reading","point":")" + point + R"(","what":"mark","staff":1,"along":)" +
           std::to_string(along) + R"(,"across":)" + std::to_string(across) + more + "}\n";
}

double part(const Budget& budget, BudgetPart cause) {
    return budget[static_cast<std::size_t>(cause)];
}

double whole(const Budget& budget) {
    return std::accumulate(budget.begin(), budget.end(), 0.0);
}

Budget budget_of_point(const SolvedBook& solved, const std::string& name) {
    const std::array<PointTerm, 1> sum = {{{solved.point(name), 1}}};
    return budget_of(solved.book(), solved.model(), sum);
}

void expect_it_adds_up(const SolvedBook& solved) {
    const Model& model = solved.model();
    for (std::size_t i = 0; i < model.points.size(); ++i) {
        const PointTerm term = {static_cast<std::int32_t>(i), 1};
        const double variance = model.levels[i].sd * model.levels[i].sd;
        const Budget budget = budget_of(solved.book(), model, {&term, 1});
        EXPECT_NEAR(whole(budget), variance, 1e-9 * variance + 1e-20) << i;
        for (const double each : budget) EXPECT_GE(each, 0);
    }
}

}  // namespace

// One set-up between a fixed benchmark and a point: two readings, two feet, and a tilt times the distance
// between the two. By hand.
TEST(Budget, OfASingleSightIsThatOfItsClosedForm) {
    const SolvedBook solved(start + laser(R"("tilt_sd":2e-5,"setting_tilt_sd":1e-5)") +
                            setup("{\"bearing\":0}") + reading("BM", -30, 0) + reading("A", 20, 10));
    const Budget budget = budget_of_point(solved, "A");
    const double square = 50 * 50 + 10 * 10;
    EXPECT_NEAR(part(budget, BudgetPart::Reading), 2 * 0.0012 * 0.0012, 1e-15);
    EXPECT_NEAR(part(budget, BudgetPart::Foot), 2 * 0.0004 * 0.0004, 1e-15);
    EXPECT_NEAR(part(budget, BudgetPart::Instrument), square * 4e-10, 1e-15);
    EXPECT_NEAR(part(budget, BudgetPart::LevellingUp), square * 1e-10, 1e-15);
    EXPECT_EQ(part(budget, BudgetPart::Benchmark), 0);
    expect_it_adds_up(solved);
}

// A benchmark with an uncertainty of its own passes it on whole; a step adds its own. By hand.
TEST(Budget, OfAWeightedBenchmarkAndAStep) {
    const SolvedBook solved(R"({"kind":"benchmark","point":"W","level":50,"sd":0.003}
{"kind":"step","from":"W","to":"T","rise":1.5,"sd":0.002}
)");
    const Budget budget = budget_of_point(solved, "T");
    EXPECT_NEAR(part(budget, BudgetPart::Benchmark), 9e-6, 1e-15);
    EXPECT_NEAR(part(budget, BudgetPart::Carried), 4e-6, 1e-15);
    EXPECT_NEAR(whole(budget), 13e-6, 1e-15);
}

// Whatever the book has: shared feet, unknown directions, grades, staffs, heads, checks, benchmarks that
// disagree.
TEST(Budget, AddsUpToTheVarianceOfTheSolution) {
    const std::string staff =
        R"({"kind":"staff","name":"F","zero_sd":0.001,"scale_sd":1e-4,"joints":[{"at":0.5,"step_sd":0.001}]}
)";
    const std::string check =
        R"({"kind":"trial","name":"T","instrument":"L","shots":[
{"station":"1","peg":"a","dist":30,"facing":0,"staff":1.5},{"station":"1","peg":"a","dist":30,"facing":90,"staff":1.501},
{"station":"1","peg":"a","dist":30,"facing":180,"staff":1.502},{"station":"1","peg":"a","dist":30,"facing":270,"staff":1.5}]}
)";
    const std::string one_line = check.substr(0, check.find('[') + 1) + [&check] {
        std::string rest = check.substr(check.find('[') + 1, check.size());
        std::erase(rest, '\n');
        return rest + "\n";
    }();
    const std::string graded =
        R"({"kind":"setup","name":"G","instrument":"L","plane":{"main":0.01,"cross":-0.005,"bearing":40},"staff":"F","place":{"e":0,"n":0}}
)";
    const std::string head =
        R"({"kind":"setup","name":"H","instrument":"L","head":"G","plane":{"main":0.02,"bearing":40}}
)";
    const std::string unknown = R"({"kind":"setup","name":"U","instrument":"L"}
{"kind":"reading","point":"BM","what":"mark","staff":1.2,"dist":20}
{"kind":"reading","point":"B","what":"mark","staff":1.3,"dist":40}
{"kind":"reading","point":"B","what":"mark","staff":1.301,"dist":40}
{"kind":"step","from":"B","to":"C","rise":0.2}
{"kind":"benchmark","point":"C","level":50.1,"sd":0.002}
)";
    const SolvedBook solved(
        start + laser(R"("grade_gain_sd":0.001)") + staff + one_line + graded +
        reading("BM", -30, 5, R"(,"setup":"G")") + reading("A", 20, 10, R"(,"setup":"G")") +
        reading("A", 20, 10, R"(,"setup":"G")") + head + reading("A", 20, 10, R"(,"setup":"H")") +
        reading("D", 60, 1, R"(,"setup":"H")") + unknown);
    const Budget budget = budget_of_point(solved, "D");
    for (const BudgetPart cause :
         {BudgetPart::Reading, BudgetPart::Foot, BudgetPart::Instrument, BudgetPart::LevellingUp,
          BudgetPart::Grade, BudgetPart::Head, BudgetPart::Staff})
        EXPECT_GT(part(budget, cause), 0) << cause_words(cause);
    expect_it_adds_up(solved);
    const std::array<PointTerm, 2> difference = {{{solved.point("D"), 1}, {solved.point("B"), -0.5}}};
    const double variance = solved.model().variance_of(difference);
    EXPECT_NEAR(whole(budget_of(solved.book(), solved.model(), difference)), variance, 1e-9 * variance);
}

}  // namespace fallwright
