// joint_prior: a prior of several columns together, as a check of an instrument leaves it.
#pragma once

#include <vector>

#include "adjust/adjust.h"

namespace fallwright {

// Corrections with mean 0 and this covariance (columns x columns, row by row; positive definite).
struct JointPrior {
    std::vector<adjust::Column> columns;
    std::vector<double> covariance;

    // Places in `columns`, not columns.
    double at(std::size_t row, std::size_t column) const { return covariance[row * columns.size() + column]; }
};

// One observation for each column: what it is, given the columns before it. A column that hangs on none of
// those has a plain prior, the others a row. The columns have no prior yet.
void add_joint_prior(const JointPrior& prior, adjust::Problem& problem);

}  // namespace fallwright
