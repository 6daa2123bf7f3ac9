#include "model/joint_prior.h"

#include <gtest/gtest.h>

#include <cmath>

#include "model/solved.h"

namespace fallwright {

namespace {

// Solves a book whose laser is checked: cone and tilts as given.
class CheckedBook {
  public:
    CheckedBook(const std::string& entries, CheckedInstruments checked)
        : book_(std::move(
              *read_book("{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1,\"curvature\":false}\n" +
                         entries))),
          figures_(read_figures(*book_)),
          where_(locate(*book_, 30)),
          model_(build_model(*book_, figures_, where_, std::move(checked))) {}

    const Model& model() const { return *model_; }
    const PointLevel& level(const std::string& name) const {
        return model_->levels[static_cast<std::size_t>(model_->points.at(book_->names.find(name)))];
    }

  private:
    std::unique_ptr<Book> book_;
    Figures figures_;
    Where where_;
    std::unique_ptr<Model> model_;
};

CheckedInstruments checked_laser(double correlation) {
    constexpr double tilt_sd = 2e-5, cone_sd = 3e-5;
    CheckedErrors errors;
    errors.value = {5e-5, 0, -4e-5, 0};
    errors.covariance[0][0] = tilt_sd * tilt_sd;
    errors.covariance[1][1] = 1e-10;
    errors.covariance[2][2] = cone_sd * cone_sd;
    errors.covariance[0][2] = errors.covariance[2][0] = correlation * tilt_sd * cone_sd;
    return {{{0, 0}, errors}};
}

// A laser that faces along its main axis reads A at 10 m and B at 50 m.
constexpr const char* readings =
    "{\"kind\":\"benchmark\",\"point\":\"A\",\"level\":10}\n"
    "{\"kind\":\"instrument\",\"name\":\"L\",\"type\":\"rotating-laser\",\"setting_tilt_sd\":0}\n"
    "{\"kind\":\"setup\",\"name\":\"S\",\"instrument\":\"L\",\"plane\":{\"bearing\":0}}\n"
    "{\"kind\":\"reading\",\"point\":\"A\",\"along\":10,\"staff\":1.5}\n"
    "{\"kind\":\"reading\",\"point\":\"B\",\"along\":50,\"staff\":1.5}\n";

}  // namespace

// By hand: both errors come to B over the 40 m that the sights differ by.
TEST(JointPrior, TwoErrorsOfOneCheckReachALevelTogether) {
    for (const double correlation : {0.0, 0.6, -0.9}) {
        const CheckedBook book(readings, checked_laser(correlation));
        EXPECT_NEAR(book.level("B").level, 10 + 40 * (5e-5 - 4e-5), 1e-9) << correlation;
        const double errors = 4e-10 + 9e-10 + 2 * correlation * 6e-10;
        const double readings_variance = 2 * (0.0012 * 0.0012 + 0.0003 * 0.0003);
        EXPECT_NEAR(book.level("B").sd, std::sqrt(readings_variance + 1600 * errors), 1e-9) << correlation;
    }
}

// Two readings with their feet, and the two errors that they carry: the cross tilt is none of them.
TEST(JointPrior, IsOneObservationForEachErrorCarried) {
    for (const double correlation : {0.0, 0.6}) {
        const CheckedBook book(readings, checked_laser(correlation));
        EXPECT_EQ(book.model().summary.observations, 6) << correlation;
        EXPECT_EQ(book.model().summary.unknowns, 6) << correlation;
        EXPECT_EQ(book.model().summary.dof, 0) << correlation;
        ASSERT_EQ(book.model().joint_priors.size(), 1u);
        EXPECT_EQ(book.model().joint_priors[0].columns.size(), 2u);
    }
}

TEST(JointPrior, OfAnotherStretchDoesNotCount) {
    CheckedInstruments later = checked_laser(0);
    later[{0, 1}] = later.at({0, 0});
    later.erase({0, 0});
    const CheckedBook book(readings, later);
    EXPECT_NEAR(book.level("B").level, 10, 1e-12);
    EXPECT_TRUE(book.model().joint_priors.empty());
}

// A body whose axes are not known has a tilt of its own; the cone holds.
TEST(JointPrior, TiltFoundDoesNotApplyToABodyWithoutBearing) {
    std::string unknown = readings;
    const std::string bearing = ",\"plane\":{\"bearing\":0}";
    unknown.erase(unknown.find(bearing), bearing.size());
    for (const std::string from : {"\"along\":10", "\"along\":50"}) {
        std::string dist = from;
        dist.replace(1, 5, "dist");
        unknown.replace(unknown.find(from), from.size(), dist);
    }
    EXPECT_NEAR(CheckedBook(unknown, checked_laser(0)).level("B").level, 10 - 40 * 4e-5, 1e-9);
}

// x1, x2, x3 of one covariance, conditioned one on the other, are that covariance again.
TEST(JointPrior, RowsAddUpToTheCovariance) {
    adjust::Problem problem;
    JointPrior prior;
    for (int i = 0; i < 3; ++i) prior.columns.push_back(problem.add_column());
    prior.covariance = {4, 2, -1, 2, 9, 3, -1, 3, 16};
    add_joint_prior(prior, problem);
    const std::array<adjust::Term, 3> all = {{{0, 1}, {1, 1}, {2, 1}}};
    problem.add_row(all, 0, 1e6);
    const adjust::Solution solution = adjust::solve(problem);
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t j = 0; j < 3; ++j)
            EXPECT_NEAR(solution.covariance_of(prior.columns[i], prior.columns[j]), prior.at(i, j), 1e-8);
    }
    EXPECT_EQ(solution.observations, 4);
}

}  // namespace fallwright
