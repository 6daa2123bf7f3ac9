#include <array>
#include <cmath>

#include "adjust/adjust.h"
#include "adjust/factor.h"

namespace fallwright::adjust {

bool Solution::determined(Column column) const {
    return !std::isnan(variance[column]);
}

double Solution::variance_of(std::span<const Term> terms) const {
    return factor->covariance(terms, terms);
}

double Solution::covariance_of(std::span<const Term> a, std::span<const Term> b) const {
    return factor->covariance(a, b);
}

std::vector<Part> Solution::parts_of(std::span<const Term> terms) const {
    return factor->parts(terms);
}

double Solution::covariance_of(Column a, Column b) const {
    double value = 0;
    if (factor->element(a, b, value)) return value;
    const std::array<Term, 1> left{Term{a, 1.0}};
    const std::array<Term, 1> right{Term{b, 1.0}};
    return factor->covariance(left, right);
}

}  // namespace fallwright::adjust
