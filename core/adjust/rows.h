// The rows as the factorisation wants them: whitened, scaled, in elimination order.
//
// A row is divided by the square root of its variance V = sd^2 + folded, a column multiplied by
// scale_j = 1 / sqrt(N_jj), N_jj = sum a_ij^2 / V_i + 1 / psd_j^2, so that the normal matrix of the scaled
// rows (and priors) has a unit diagonal. It is never stored: its columns are summed up from the rows wherever
// they are wanted.
//
// Positions are places in the elimination order; columns are the caller's numbers.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "adjust/adjust.h"

namespace fallwright::adjust {

using RowIndex = std::int32_t;

// Which rows carry each column, ascending. A term counts even if its coefficient is 0: the columns of one
// set-up then keep one pattern, whatever their coefficients happen to be.
struct Incidence {
    std::vector<std::size_t> start;
    std::vector<RowIndex> row;

    std::span<const RowIndex> of(Column column) const {
        return {row.data() + start[column], start[column + 1] - start[column]};
    }
};

Incidence incidence_of(const Problem& problem);

struct ScaledRows {
    const Problem* problem;
    Incidence incidence;           // of no use once there is a factor: whoever is done with it frees its room
    std::vector<Column> order;     // position -> column
    std::vector<Column> position;  // column -> position

    std::vector<Column> place;     // per term: position of its column
    std::vector<double> value;     // per term: coefficient, whitened and scaled
    std::vector<double> whitener;  // per row: 1 / sqrt(V)
    std::vector<double> scale;     // per position
    std::vector<double> prior;     // per position: scale^2 / psd^2, 0 without a prior
    std::vector<bool> carried;     // per position: some row has a coefficient that is not 0

    // Rows by their lowest place, those without terms left out. If a row has any place in a subtree, its
    // lowest is there too, so the rows that meet a subtree are a range.
    std::vector<RowIndex> by_lowest;
    std::vector<std::size_t> lowest_start;  // per position, and the end

    Column positions() const { return static_cast<Column>(order.size()); }
    std::size_t rows() const { return whitener.size(); }
    std::span<const Column> places(std::size_t row) const {
        return {place.data() + problem->start[row], problem->start[row + 1] - problem->start[row]};
    }
    std::span<const double> values(std::size_t row) const {
        return {value.data() + problem->start[row], problem->start[row + 1] - problem->start[row]};
    }
    std::span<const RowIndex> rows_at(Column at) const { return incidence.of(order[at]); }
    // Rows whose lowest place is in first..last.
    std::span<const RowIndex> rows_from(Column first, Column last) const {
        return {by_lowest.data() + lowest_start[first], lowest_start[last + 1] - lowest_start[first]};
    }
};

// `order` holds every column once. The problem must outlive the result.
ScaledRows scale_rows(const Problem& problem, Incidence incidence, std::vector<Column> order);

}  // namespace fallwright::adjust
