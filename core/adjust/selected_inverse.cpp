#include "adjust/selected_inverse.h"

#include <algorithm>
#include <cstddef>

namespace fallwright::adjust {

const double* SelectedInverse::find(const Ldlt& l, Column a, Column b) const {
    if (a == b) return &diagonal[a];
    const Column low = std::min(a, b), high = std::max(a, b);
    const auto rows = l.rows_of(low);
    // Halved without a branch on what is found: where it lies cannot be foreseen, how often to halve can.
    const Column* place = rows.data();
    for (std::size_t left = rows.size(); left > 1; left -= left / 2)
        place += place[left / 2] <= high ? left / 2 : 0;
    if (rows.empty() || *place != high) return nullptr;
    return &value[l.start[low] + static_cast<std::size_t>(place - rows.data())];
}

namespace {

// One row of the pattern against those after it: sums -= Z times the column of L, both halves. The tail of a
// column's pattern lies within the pattern of the column that its first row names, both ascending, so one
// pass over the latter meets every pair; where they are as long, they are equal.
void multiply_tail(const Ldlt& l, const SelectedInverse& z, Column self, std::size_t a,
                   std::vector<double>& sums) {
    const auto rows = l.rows_of(self);
    const auto values = l.values_of(self);
    const Column column = rows[a];
    const double own = values[a];
    const double* const elements = z.value.data() + l.start[column];
    double sum = z.diagonal[column] * own;
    const auto take = [&](std::size_t b, double element) {
        sum += element * values[b];
        sums[b] -= element * own;
    };
    if (l.start[column + 1] - l.start[column] == rows.size() - a - 1) {
        for (std::size_t b = a + 1; b < rows.size(); ++b) take(b, elements[b - a - 1]);
    } else {
        const Column* const pattern = l.row.data() + l.start[column];
        std::size_t place = 0;
        for (std::size_t b = a + 1; b < rows.size(); ++b) {
            while (pattern[place] != rows[b]) ++place;
            take(b, elements[place]);
        }
    }
    sums[a] -= sum;
}

}  // namespace

SelectedInverse selected_inverse(const Ldlt& l) {
    SelectedInverse z;
    z.diagonal.resize(l.inverse_pivot.size());
    z.value.resize(l.value.size());
    std::vector<double> sums;
    for (Column self = l.positions(); self-- > 0;) {
        const auto values = l.values_of(self);
        sums.assign(values.size(), 0.0);
        for (std::size_t a = 0; a < values.size(); ++a) multiply_tail(l, z, self, a, sums);
        double diagonal = l.strong[self];
        for (std::size_t a = 0; a < sums.size(); ++a) {
            z.value[l.start[self] + a] = sums[a];
            diagonal -= values[a] * sums[a];
        }
        z.diagonal[self] = diagonal;
    }
    return z;
}

}  // namespace fallwright::adjust
