// model: a book and what is believed of its instruments -> levels and planes, with uncertainties.
//
// One sparse linear least squares problem (contract section 2): each reading a row, each cause of error a
// column with its prior (effect/), each point and each plane an unknown. Solved for corrections to
// approximate levels. Uncertainties are one standard deviation, a priori, relative to the fixed benchmarks as
// given. Metres, and gradients as ratios. Parts that hang together with no benchmark are undetermined: NaN,
// and one finding for each way they can move.
#pragma once

#include <memory>
#include <span>
#include <string>
#include <vector>

#include "adjust/adjust.h"
#include "model/column_index.h"
#include "model/joint_prior.h"
#include "model/sights.h"

namespace fallwright {

struct PointLevel {
    double level = 0, sd = 0;  // NaN where undetermined
    std::uint32_t readings = 0;
    bool checked = false;  // no single sight or step cuts it from the datum
};

struct LightPlane {
    double level = 0, sd = 0;  // at the instrument; NaN where nothing is read in the set-up, or undetermined
    std::array<double, 2> gradient{0, 0}, gradient_sd{0, 0};  // of the light itself: main, cross
};

struct ReadingFit {
    double residual = 0;  // booked - computed, in the sense of the staff
    double sd = 0;
    double redundancy = 0;
    double w = 0, detectable = 0;  // NaN where the redundancy is 0
};

struct Summary {
    std::int64_t observations = 0, unknowns = 0, dof = 0;
    double sigma0 = 0;  // NaN at dof 0
    double chi2 = 0, chi2_low = 0, chi2_high = 0;
    bool ok = true;
};

// A sum of levels of points, c_1 h_1 + c_2 h_2 + ...
struct PointTerm {
    std::int32_t point;
    double coefficient;
};

class Model {
  public:
    explicit Model(Points points_read) : points(std::move(points_read)) {}

    Points points;
    bool assumed_datum = false;
    std::vector<PointLevel> levels;  // per point
    std::vector<LightPlane> planes;  // per set-up
    Sights sights;
    Summary summary;
    Findings findings;

    // How a reading (row of `sights`) or a step fits; residual of a step: booked rise - computed.
    ReadingFit fit(std::size_t row) const;
    ReadingFit step_fit(std::size_t step) const;

    // Variance of a sum of levels, and covariance of two; NaN where undetermined.
    double variance_of(std::span<const PointTerm> sum) const;
    double covariance_of(std::span<const PointTerm> a, std::span<const PointTerm> b) const;

    // The error of a determined sum in independent parts (adjust/adjust.h).
    std::vector<adjust::Part> parts_of(std::span<const PointTerm> sum) const;

    // For those who add columns or rows of their own (checks, suspects, plans).
    std::vector<adjust::Column> level_columns;  // per point; -1 where fixed
    std::vector<adjust::Column> plane_columns;  // per set-up; -1 where nothing is read
    ColumnIndex effect_columns;
    std::vector<JointPrior> joint_priors;  // of checked instruments; their columns have no other
    adjust::Problem problem;
    adjust::Solution solution;
};

// `figures` and `where` belong to the book. checked: what checks on site say of its instruments.
std::unique_ptr<Model> build_model(const Book& book, const Figures& figures, const Where& where,
                                   CheckedInstruments checked = {});

}  // namespace fallwright
