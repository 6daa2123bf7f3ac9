// Soft directions of the normal matrix, found at small pivots.
//
// For N = L D L^T the vector z_k = L^-T e_k has its support in the subtree of k, z_k = 1 at k, and
// z_k^T N z_k = D_k. So N^-1 = sum over k of z_k z_k^T / D_k. A pivot that may have lost too many digits to
// cancellation is worked out again as the sum of squares of the rows' products with z_k: the error of z_k
// enters squared only, and a sum of squares cannot cancel. (The two halves of a line of n steps leave a pivot
// of 1/n, which subtraction from 1 has rounded to n units of its last place, so that sds at the end of a
// hundred thousand steps would be good to six digits.) What is then under
// pivot_limit is a null vector; what is not, but is small, is kept as a weak direction beside the factor, so
// that solutions, variances and redundancies take its part from the rows as well and not from differences of
// large numbers (a line hanging from one benchmark that is known to a metre only).
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "adjust/rows.h"

namespace fallwright::adjust {

// Pivots under this, on the unit diagonal, mark a null vector or a weak direction; so do those that are under
// it for a z whose largest component is made 1.
constexpr double weak_pivot = 1e-6;
// Half a unit of the last place of 1, and the bound of a pivot's relative error from which on it is worked
// out again: sds at the free end of a line of a million steps keep 1e-8.
constexpr double rounding = 1.0 / 9007199254740992.0;
constexpr double pivot_error = 1e-10;
// Components under this, relative to the largest in the scaled unknowns, are rounding.
constexpr double component_limit = 1e-8;

struct Mode {
    Column first = 0;           // lowest position of the pivot's subtree
    std::vector<Column> place;  // ascending positions that move; the last is the pivot
    std::vector<double> z;      // scaled unknowns, 1 at the pivot
    double stiffness = 0;       // z^T N z, the pivot; 0 for a null vector

    Column pivot() const { return place.back(); }
    bool null() const { return stiffness == 0; }
    double largest() const;  // component in magnitude
};

// Calls visit(row, product of the row with z) for each row that meets the subtree. `scratch` is 0 at every
// position, before and after.
template <class Visit>
void for_each_row(const ScaledRows& rows, const Mode& mode, std::vector<double>& scratch, Visit visit) {
    for (std::size_t k = 0; k < mode.place.size(); ++k) scratch[mode.place[k]] = mode.z[k];
    for (const RowIndex row : rows.rows_from(mode.first, mode.pivot())) {
        const auto places = rows.places(row);
        const auto values = rows.values(row);
        double product = 0;
        for (std::size_t p = 0; p < places.size(); ++p) product += values[p] * scratch[places[p]];
        visit(row, product);
    }
    for (const Column position : mode.place) scratch[position] = 0;
}

// z^T N z from the rows and priors: at least 0, and right to the rounding of the products.
double stiffness_of(const ScaledRows& rows, const Mode& mode, std::vector<double>& scratch);

// z^T N other, the same way; `other` holds a value for every position.
double product_of(const ScaledRows& rows, const Mode& mode, const std::vector<double>& other,
                  std::vector<double>& scratch);

// Which modes move a position, by ascending mode. Components of null vectors that are rounding are left out;
// those of weak directions are all there, as they are only ever added.
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
