// The elements of the inverse of the scaled normal matrix at the places where L has one, and on the diagonal
// (Takahashi, Fagan, Chen 1973; Erisman, Tinney 1975). Weak directions are left out, as in Ldlt::strong.
//
// Any two columns of one row meet in L, so these elements are enough for the redundancy of every row.
#pragma once

#include <vector>

#include "adjust/ldlt.h"

namespace fallwright::adjust {

struct SelectedInverse {
    std::vector<double> diagonal;  // per position
    std::vector<double> value;     // beside Ldlt::value

    // Element at two positions; null where L has no place for it.
    const double* find(const Ldlt& l, Column a, Column b) const;
};

SelectedInverse selected_inverse(const Ldlt& l);

}  // namespace fallwright::adjust
