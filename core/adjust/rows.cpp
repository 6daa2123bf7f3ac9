#include "adjust/rows.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fallwright::adjust {

Incidence incidence_of(const Problem& problem) {
    Incidence result;
    result.start.assign(problem.columns() + 1, 0);
    for (const Column column : problem.column) ++result.start[column + 1];
    for (std::size_t j = 0; j < problem.columns(); ++j) result.start[j + 1] += result.start[j];
    result.row.resize(problem.column.size());
    std::vector<std::size_t> next(result.start.begin(), result.start.end() - 1);
    for (std::size_t i = 0; i < problem.rows(); ++i)
        for (std::size_t p = problem.start[i]; p < problem.start[i + 1]; ++p)
            result.row[next[problem.column[p]]++] = static_cast<RowIndex>(i);
    return result;
}

namespace {

// Whitens rows into value, and sums up the diagonal of the normal matrix without priors, per position.
std::vector<double> whiten(const Problem& problem, ScaledRows& rows) {
    std::vector<double> diagonal(rows.order.size(), 0.0);
    for (std::size_t i = 0; i < problem.rows(); ++i) {
        const double whitener = 1.0 / std::sqrt(problem.sd[i] * problem.sd[i] + problem.folded[i]);
        rows.whitener[i] = whitener;
        for (std::size_t p = problem.start[i]; p < problem.start[i + 1]; ++p) {
            const double value = problem.coefficient[p] * whitener;
            rows.place[p] = rows.position[problem.column[p]];
            rows.value[p] = value;
            diagonal[rows.place[p]] += value * value;
        }
    }
    return diagonal;
}

// The scale of each position; one that nothing carries keeps scale 1 and a diagonal of 0.
void scale_columns(const Problem& problem, const std::vector<double>& diagonal, ScaledRows& rows) {
    for (std::size_t k = 0; k < rows.order.size(); ++k) {
        const Column column = rows.order[k];
        const double sd = problem.prior_sd[column];
        const double weight = sd > 0 ? 1.0 / (sd * sd) : 0.0;
        const double total = diagonal[k] + weight;
        rows.carried[k] = diagonal[k] > 0;
        if (total > 0) rows.scale[k] = 1.0 / std::sqrt(total);
        rows.prior[k] = weight * rows.scale[k] * rows.scale[k];
    }
    for (std::size_t p = 0; p < rows.place.size(); ++p) rows.value[p] *= rows.scale[rows.place[p]];
}

void sort_by_lowest(ScaledRows& rows) {
    std::vector<Column> lowest(rows.rows(), -1);
    rows.lowest_start.assign(rows.order.size() + 1, 0);
    for (std::size_t i = 0; i < lowest.size(); ++i) {
        const auto places = rows.places(i);
        if (places.empty()) continue;
        lowest[i] = *std::min_element(places.begin(), places.end());
        ++rows.lowest_start[lowest[i] + 1];
    }
    for (std::size_t k = 0; k < rows.order.size(); ++k) rows.lowest_start[k + 1] += rows.lowest_start[k];
    rows.by_lowest.resize(rows.lowest_start.back());
    std::vector<std::size_t> next(rows.lowest_start.begin(), rows.lowest_start.end() - 1);
    for (std::size_t i = 0; i < lowest.size(); ++i)
        if (lowest[i] >= 0) rows.by_lowest[next[lowest[i]]++] = static_cast<RowIndex>(i);
}

}  // namespace

ScaledRows scale_rows(const Problem& problem, Incidence incidence, std::vector<Column> order) {
    ScaledRows rows;
    rows.problem = &problem;
    rows.incidence = std::move(incidence);
    rows.order = std::move(order);
    const std::size_t count = rows.order.size();
    rows.position.resize(count);
    for (std::size_t k = 0; k < count; ++k) rows.position[rows.order[k]] = static_cast<Column>(k);
    rows.place.resize(problem.column.size());
    rows.value.resize(problem.column.size());
    rows.whitener.resize(problem.rows());
    rows.scale.assign(count, 1.0);
    rows.prior.resize(count);
    rows.carried.resize(count);
    scale_columns(problem, whiten(problem, rows), rows);
    sort_by_lowest(rows);
    return rows;
}

}  // namespace fallwright::adjust
