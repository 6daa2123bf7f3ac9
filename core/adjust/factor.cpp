#include "adjust/factor.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numeric>
#include <utility>

#include "base/stable_order.h"

namespace fallwright::adjust {

namespace {
constexpr double undetermined = std::numeric_limits<double>::quiet_NaN();
constexpr std::size_t usual_reach = 64;  // positions, memory asked for beforehand
}  // namespace

Factor::Factor(const ScaledRows& rows, Tree tree, Ldlt ldlt)
    : position_(rows.position),
      scale_(rows.scale),
      parent_(std::move(tree.parent)),
      l_(std::move(ldlt)),
      inverse_(selected_inverse(l_)),
      modes_(l_.modes, l_.positions()) {}

bool Factor::determined(Column column) const {
    for (const auto& entry : modes_.at(position_[column]))
        if (l_.modes[entry.mode].null()) return false;
    return true;
}

// The strong part of an element plus what the weak directions add. Entries of both lists ascend by mode.
double Factor::element_at(double strong, Column a, Column b) const {
    const auto left = modes_.at(a);
    const auto right = modes_.at(b);
    double sum = strong;
    std::size_t q = 0;
    for (const auto& entry : left) {
        while (q < right.size() && right[q].mode < entry.mode) ++q;
        const Mode& mode = l_.modes[entry.mode];
        if (mode.null() || q == right.size() || right[q].mode != entry.mode) continue;
        sum += entry.component * right[q].component / mode.stiffness;
    }
    return sum;
}

double Factor::variance(Column column) const {
    if (!determined(column)) return undetermined;
    const Column at = position_[column];
    return element_at(inverse_.diagonal[at], at, at) * scale_[at] * scale_[at];
}

bool Factor::element(Column a, Column b, double& value) const {
    value = undetermined;
    if (!determined(a) || !determined(b)) return true;
    const Column left = position_[a];
    const Column right = position_[b];
    const double* const strong = inverse_.find(l_, left, right);
    if (strong == nullptr) return false;
    value = element_at(*strong, left, right) * scale_[left] * scale_[right];
    return true;
}

double Factor::strong_variance(const ScaledRows& rows, std::size_t row) const {
    const auto places = rows.places(row);
    const auto values = rows.values(row);
    double sum = 0;
    for (std::size_t a = 0; a < places.size(); ++a) {
        sum += values[a] * values[a] * inverse_.diagonal[places[a]];
        for (std::size_t b = 0; b < a; ++b)
            sum += 2.0 * values[a] * values[b] * *inverse_.find(l_, places[a], places[b]);
    }
    return sum;
}

// Everything above the terms in the tree, ascending: the smallest position at hand is taken and replaced by
// its parent. The paths soon run together, so few are at hand: they stand descending, each once.
std::vector<Column> Factor::reach(std::span<const Term> terms) const {
    std::vector<Column> heads, result;
    heads.reserve(terms.size());
    result.reserve(usual_reach);
    for (const Term& term : terms) heads.push_back(position_[term.column]);
    std::sort(heads.begin(), heads.end(), std::greater<Column>());
    heads.erase(std::unique(heads.begin(), heads.end()), heads.end());
    while (!heads.empty()) {
        const Column at = heads.back();
        heads.pop_back();
        result.push_back(at);
        const Node above = parent_[at];
        if (above == no_node) continue;
        auto place = heads.end();
        while (place != heads.begin() && *(place - 1) < above) --place;
        if (place == heads.begin() || *(place - 1) != above) heads.insert(place, above);
    }
    return result;
}

// L^-1 times the scaled terms. All rows of a column of L lie above it, so within its reach.
Factor::Sparse Factor::forward(std::span<const Term> terms) const {
    Sparse y;
    // Where a good part of the unknowns is reached anyway, nothing is sought.
    if (terms.size() >= parent_.size() / 16) {
        y.position.resize(parent_.size());
        std::iota(y.position.begin(), y.position.end(), Column{0});
    } else {
        y.position = reach(terms);
    }
    if (work_.empty()) work_.assign(parent_.size(), 0.0);
    for (const Term& term : terms) {
        const Column at = position_[term.column];
        work_[at] += term.coefficient * scale_[at];
    }
    y.value.reserve(y.position.size());
    for (const Column at : y.position) {
        const double own = std::exchange(work_[at], 0.0);
        y.value.push_back(own);
        if (own == 0) continue;
        const auto rows = l_.rows_of(at);
        const auto values = l_.values_of(at);
        for (std::size_t p = 0; p < rows.size(); ++p) work_[rows[p]] -= values[p] * own;
    }
    return y;
}

// Whether a sum moves along some null vector. The entries are collected by mode and summed in a fixed order.
bool Factor::moves(std::span<const Term> terms) const {
    std::vector<std::pair<std::size_t, double>> products;
    for (const Term& term : terms) {
        const Column at = position_[term.column];
        for (const auto& entry : modes_.at(at))
            if (l_.modes[entry.mode].null())
                products.emplace_back(entry.mode, term.coefficient * scale_[at] * entry.component);
    }
    sort_stably(products, [](const auto& a, const auto& b) { return a.first < b.first; });
    for (std::size_t p = 0; p < products.size();) {
        double sum = 0, size = 0;
        const std::size_t mode = products[p].first;
        for (; p < products.size() && products[p].first == mode; ++p) {
            sum += products[p].second;
            size += std::abs(products[p].second);
        }
        if (std::abs(sum) > component_limit * size) return true;
    }
    return false;
}

std::vector<Part> Factor::parts(std::span<const Term> terms) const {
    const Sparse y = forward(terms);
    std::vector<Part> found;
    found.reserve(y.position.size() -
                  static_cast<std::size_t>(std::count(y.value.begin(), y.value.end(), 0.0)));
    for (std::size_t p = 0; p < y.position.size(); ++p) {
        const double coefficient = y.value[p] * std::sqrt(l_.inverse_pivot[y.position[p]]);
        if (coefficient != 0) found.push_back({y.position[p], coefficient});
    }
    return found;
}

std::vector<double> Factor::covariances_with(std::span<const Term> terms) const {
    const Sparse y = forward(terms);
    std::vector<double> z(parent_.size(), 0.0);  // by position
    for (std::size_t p = 0; p < y.position.size(); ++p)
        z[y.position[p]] = y.value[p] * l_.inverse_pivot[y.position[p]];
    for (Column at = l_.positions(); at-- > 0;) {
        const auto rows = l_.rows_of(at);
        const auto values = l_.values_of(at);
        for (std::size_t p = 0; p < rows.size(); ++p) z[at] -= values[p] * z[rows[p]];
    }
    std::vector<double> of_columns(position_.size());
    for (std::size_t column = 0; column < position_.size(); ++column)
        of_columns[column] = z[position_[column]] * scale_[position_[column]];
    return of_columns;
}

double Factor::covariance(std::span<const Term> a, std::span<const Term> b) const {
    if (moves(a) || moves(b)) return undetermined;
    const Sparse left = forward(a);
    const bool same = a.data() == b.data() && a.size() == b.size();
    const Sparse right = same ? Sparse{} : forward(b);
    const Sparse& other = same ? left : right;
    double sum = 0;
    std::size_t q = 0;
    for (std::size_t p = 0; p < left.position.size(); ++p) {
        while (q < other.position.size() && other.position[q] < left.position[p]) ++q;
        if (q == other.position.size()) break;
        if (other.position[q] != left.position[p]) continue;
        sum += left.value[p] * other.value[q] * l_.inverse_pivot[left.position[p]];
    }
    return sum;
}

}  // namespace fallwright::adjust
