#include "adjust/modes.h"

#include <algorithm>
#include <cmath>

namespace fallwright::adjust {

double Mode::largest() const {
    double most = 0;
    for (const double component : z) most = std::max(most, std::abs(component));
    return most;
}

double stiffness_of(const ScaledRows& rows, const Mode& mode, std::vector<double>& scratch) {
    double sum = 0;
    for_each_row(rows, mode, scratch, [&](RowIndex, double product) { sum += product * product; });
    for (std::size_t k = 0; k < mode.z.size(); ++k) sum += rows.prior[mode.place[k]] * mode.z[k] * mode.z[k];
    return sum;
}

double product_of(const ScaledRows& rows, const Mode& mode, const std::vector<double>& other,
                  std::vector<double>& scratch) {
    double sum = 0;
    for_each_row(rows, mode, scratch, [&](RowIndex row, double product) {
        const auto places = rows.places(row);
        const auto values = rows.values(row);
        double along = 0;
        for (std::size_t p = 0; p < places.size(); ++p) along += values[p] * other[places[p]];
        sum += product * along;
    });
    for (std::size_t k = 0; k < mode.z.size(); ++k)
        sum += rows.prior[mode.place[k]] * mode.z[k] * other[mode.place[k]];
    return sum;
}

namespace {

// Rounding is left out of null vectors, whose components decide what is determined; a weak direction only
// adds.
template <class Take>
void for_each_component(const Mode& mode, Take take) {
    const double least = mode.null() ? component_limit * mode.largest() : 0.0;
    for (std::size_t k = 0; k < mode.z.size(); ++k)
        if (std::abs(mode.z[k]) > least) take(mode.place[k], mode.z[k]);
}

}  // namespace

ModeIndex::ModeIndex(const std::vector<Mode>& modes, Column positions) {
    if (modes.empty()) return;
    start_.assign(static_cast<std::size_t>(positions) + 1, 0);
    for (const Mode& mode : modes)
        for_each_component(mode, [&](Column position, double) { ++start_[position + 1]; });
    for (std::size_t k = 0; k + 1 < start_.size(); ++k) start_[k + 1] += start_[k];
    entries_.resize(start_.back());
    std::vector<std::size_t> next(start_.begin(), start_.end() - 1);
    for (std::size_t m = 0; m < modes.size(); ++m)
        for_each_component(modes[m], [&](Column position, double component) {
            entries_[next[position]++] = {m, component};
        });
}

std::span<const ModeIndex::Entry> ModeIndex::at(Column position) const {
    if (start_.empty()) return {};
    return {entries_.data() + start_[position], start_[position + 1] - start_[position]};
}

}  // namespace fallwright::adjust
