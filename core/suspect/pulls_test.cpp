// Sums along a tripod, odds of one and of several columns, against the same by other ways.
#include <gtest/gtest.h>

#include <cmath>

#include "suspect/data_set.h"
#include "suspect/odds.h"
#include "suspect/tripod_pulls.h"

namespace fallwright {

namespace {

void expect_same(const Pull& a, const Pull& b, const std::string& what) {
    EXPECT_NEAR(a.pull, b.pull, 1e-6 * (1 + std::fabs(b.pull))) << what;
    EXPECT_NEAR(a.information, b.information, 1e-7 * (1 + b.information)) << what;
}

TEST(TripodPulls, KnocksAndRunsSumUpToWhatASolveGives) {
    const SuspectedBook book = data_book(with_reading(12, 1.561));
    TripodPulls pulls(book.evidence(), book.causes());
    int knocks = 0, runs = 0, others = 0;
    book.causes().each([&](const Cause& cause) {
        const Shifts shifts = book.causes().columns(cause) == 1 ? book.causes().column(cause) : Shifts{};
        const Pull solved = book.evidence().measure(shifts).found;
        if (cause.kind == SuspectKind::Knocked) {
            expect_same(pulls.from(cause.row), solved, "knock " + std::to_string(cause.row));
            ++knocks;
        } else if (cause.kind == SuspectKind::OtherBeam) {
            expect_same(pulls.run(cause.row, cause.count), solved, "run " + std::to_string(cause.row));
            ++runs;
        } else if (cause.kind == SuspectKind::GradeLeftIn || cause.kind == SuspectKind::Settling) {
            expect_same(pulls.of(book.causes().row_of_tripod(cause, shifts), shifts), solved, "set-up");
            ++others;
        } else if (cause.kind == SuspectKind::Misread) {
            expect_same(book.evidence().one(static_cast<std::uint32_t>(cause.row)), solved, "reading");
        }
    });
    EXPECT_EQ(knocks, 14);
    EXPECT_EQ(runs, 52);
    EXPECT_EQ(others, 6);
}

// ln of the ratio of two normal densities of one observation x: sd 1 without, sd sqrt(1 + s^2) with.
TEST(Odds, AFreeSizeIsAWiderNormal) {
    const double x = 2.3, s = 1.7, wide = 1 + s * s;
    const double ratio = -x * x / (2 * wide) - std::log(wide) / 2 + x * x / 2;
    EXPECT_NEAR(odds_free({x, 1}, s).log_odds, ratio, 1e-12);
    EXPECT_NEAR(odds_known({x, 1}, 2).log_odds, -(x - 2) * (x - 2) / 2 + x * x / 2, 1e-12);
}

TEST(Odds, ColumnsThatShareNothingMultiply) {
    const std::vector<double> pull = {3, -1, 0.5}, information = {4, 0, 0, 0, 2, 0, 0, 0, 1},
                              sd = {0.5, 1, 2};
    double sum = 0;
    for (std::size_t i = 0; i < 3; ++i) sum += odds_free({pull[i], information[4 * i]}, sd[i]).log_odds;
    const JointOdds joint = odds_joint(pull, information, sd);
    EXPECT_NEAR(joint.found.log_odds, sum, 1e-12);
    EXPECT_EQ(joint.which, 0U);
}

// The same column twice with half the variance each is that column once.
TEST(Odds, TwoEqualColumnsAreOne) {
    const double s = 0.8;
    const std::vector<double> pull = {2, 2}, information = {3, 3, 3, 3};
    const std::vector<double> sd = {s / std::sqrt(2.0), s / std::sqrt(2.0)};
    EXPECT_NEAR(odds_joint(pull, information, sd).found.log_odds, odds_free({2, 3}, s).log_odds, 1e-12);
}

TEST(Odds, SharesOfSizesAreAMixture) {
    Sizes sizes;
    sizes.known(0.25, 1);
    sizes.known(0.75, -1);
    const Pull found = {0.4, 2};
    const double mixed =
        0.25 * std::exp(odds_known(found, 1).log_odds) + 0.75 * std::exp(odds_known(found, -1).log_odds);
    EXPECT_NEAR(odds_of(found, sizes).log_odds, std::log(mixed), 1e-12);
    EXPECT_NEAR(odds_of({0, 0}, sizes).log_odds, 0, 1e-12);
}

TEST(Odds, SumsOfLogarithmsNeitherOverflowNorForget) {
    LogSum sum(1000);
    sum.add(1000);
    EXPECT_NEAR(sum.log(), 1000 + std::log(2.0), 1e-12);
    sum.add(never);
    sum.add(-1000);
    EXPECT_NEAR(sum.log(), 1000 + std::log(2.0), 1e-12);
    sum.add(1001);
    EXPECT_NEAR(sum.log(), 1000 + std::log(2.0 + std::exp(1.0)), 1e-12);
    sum.add(5000);
    EXPECT_EQ(sum.log(), 5000);
}

}  // namespace

}  // namespace fallwright
