// Soft directions of the normal matrix, found at small pivots.
//
// For N = L D L^T the vector z_k = L^-T e_k has its support in the subtree of k, z_k = 1 at k, and
// z_k^T N z_k = D_k. So N^-1 = sum over k of z_k z_k^T / D_k. A pivot that has lost its digits to cancellation
// is worked out again as the sum of squares of the rows' products with z_k: the error of z_k enters squared
// only, and a sum of squares cannot cancel. What is then under pivot_limit is a null vector; what is not, but
// is small, is kept as a weak direction beside the factor, so that solutions, variances and redundancies take
// its part from the rows as well and not from differences of large numbers (a line hanging from one benchmark
// that is known to a metre only).
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "adjust/rows.h"

namespace fallwright::adjust {

// Pivots under this are worked out again from the rows. Above it a pivot keeps nine digits, sds their 1e-8.
constexpr double weak_pivot = 1e-6;
// Components under this, relative to the largest in the scaled unknowns, are rounding.
constexpr double component_limit = 1e-8;

struct Mode {
    Column first = 0;         // position of z.front(); z.back() stands at the pivot
    std::vector<double> z;    // scaled unknowns
    double stiffness = 0;     // z^T N z, the pivot; 0 for a null vector

    Column pivot() const { return first + static_cast<Column>(z.size()) - 1; }
    bool null() const { return stiffness == 0; }
    // The component at a position, 0 outside.
    double at(Column position) const {
        return position < first || position > pivot() ? 0.0 : z[position - first];
    }
};

// Calls visit(row, product of the row with z) once for each row that carries a position of the mode.
template <class Visit>
void for_each_row(const ScaledRows& rows, const Mode& mode, Visit visit) {
    const Column pivot = mode.pivot();
    for (Column position = mode.first; position <= pivot; ++position)
        for (const RowIndex row : rows.rows_at(position)) {
            const auto places = rows.places(row);
            const auto values = rows.values(row);
            double product = 0;
            bool last = true;  // a row is taken up at its last position in the range
            for (std::size_t p = 0; p < places.size(); ++p) {
                last = last && !(places[p] > position && places[p] <= pivot);
                product += values[p] * mode.at(places[p]);
            }
            if (last) visit(row, product);
        }
}

double stiffness_of(const ScaledRows& rows, const Mode& mode);

// Which modes move a position.
class ModeIndex {
  public:
    struct Entry {
        std::size_t mode;
        double component;
    };
    ModeIndex() = default;
    ModeIndex(const std::vector<Mode>& modes, Column positions);
    std::span<const Entry> at(Column position) const;

  private:
    std::vector<std::size_t> start_;  // empty without modes
    std::vector<Entry> entries_;
};

}  // namespace fallwright::adjust
