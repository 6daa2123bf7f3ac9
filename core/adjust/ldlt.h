// Sparse L D L^T of the scaled normal matrix, with pivot control.
//
// L has a unit diagonal, which is not stored. Where a pivot marks a null vector its unknown is held at 0: its
// row and column of L below the diagonal are 0 from there on, its inverse pivot is 0. What the pivots are
// held against, and why some stand beside the factor, is said in modes.h.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "adjust/modes.h"
#include "adjust/rows.h"
#include "adjust/tree.h"

namespace fallwright::adjust {

struct Ldlt {
    std::vector<std::size_t> start;  // per position: its column of L, diagonal left out
    std::vector<Column> row;         // ascending within a column
    std::vector<double> value;
    std::vector<double> inverse_pivot;  // 0 where the pivot marks a null vector
    std::vector<double> strong;  // inverse_pivot, 0 also where a weak direction stands beside the factor
    std::vector<Mode> modes;     // by ascending pivot

    Column positions() const { return static_cast<Column>(inverse_pivot.size()); }
    std::span<const Column> rows_of(Column at) const {
        return {row.data() + start[at], start[at + 1] - start[at]};
    }
    std::span<const double> values_of(Column at) const {
        return {value.data() + start[at], start[at + 1] - start[at]};
    }
    // b becomes x, L D L^T x = b, along the strong pivots only: the modes are the caller's.
    void solve_strong(std::vector<double>& b) const;
};

// Up-looking: position by position, its row of L by a triangular solve along the tree (Davis 2005). The
// column of the normal matrix is summed from the rows on the fly.
Ldlt factorise(const ScaledRows& rows, const Tree& tree);

}  // namespace fallwright::adjust
