// small_matrix: inverse of a symmetric positive definite matrix of tested errors.
//
// Inside trial only.
#pragma once

#include "effect/checked.h"

namespace fallwright {

// Of the rows and columns that `meant` names; the others become 0. By elimination on the diagonal, largest
// first, so that what is known well and what hardly at all stand together.
ErrorMatrix inverse(ErrorMatrix matrix, const std::array<bool, tested_errors>& meant);

// matrix x vector.
ErrorVector times(const ErrorMatrix& matrix, const ErrorVector& vector);

}  // namespace fallwright
