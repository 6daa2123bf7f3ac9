#include <cassert>
#include <cmath>

#include "adjust/adjust.h"

namespace fallwright::adjust {

Column Problem::add_column() {
    prior_value.push_back(0.0);
    prior_sd.push_back(0.0);
    return static_cast<Column>(prior_sd.size() - 1);
}

void Problem::add_prior(Column at, double value, double psd) {
    assert(at >= 0 && static_cast<std::size_t>(at) < columns());
    assert(std::isfinite(value) && std::isfinite(psd) && psd > 0);
    assert(prior_sd[at] == 0);
    prior_value[at] = value;
    prior_sd[at] = psd;
}

std::size_t Problem::add_row(std::span<const Term> terms, double value, double noise, double folded_variance,
                             int privates) {
    assert(std::isfinite(value) && std::isfinite(noise) && noise > 0);
    assert(std::isfinite(folded_variance) && folded_variance >= 0 && privates >= 0);
    for (const Term& term : terms) {
        assert(term.column >= 0 && static_cast<std::size_t>(term.column) < columns());
        assert(std::isfinite(term.coefficient));
        column.push_back(term.column);
        coefficient.push_back(term.coefficient);
    }
    start.push_back(column.size());
    y.push_back(value);
    sd.push_back(noise);
    folded.push_back(folded_variance);
    private_columns += privates;
    return y.size() - 1;
}

void Problem::reserve(std::size_t row_count, std::size_t term_count) {
    start.reserve(row_count + 1);
    y.reserve(row_count);
    sd.reserve(row_count);
    folded.reserve(row_count);
    column.reserve(term_count);
    coefficient.reserve(term_count);
}

void Problem::fit() {
    column.shrink_to_fit();
    coefficient.shrink_to_fit();
    prior_value.shrink_to_fit();
    prior_sd.shrink_to_fit();
}

}  // namespace fallwright::adjust
