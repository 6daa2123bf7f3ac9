#include "trial/join_checks.h"

#include <cmath>

#include "trial/small_matrix.h"

namespace fallwright {

namespace {

// An entry that says next to nothing of an error says this much, so that rounding in what a check does not
// see stays without weight.
constexpr double hardly_believed = 0.01;

struct Sum {
    ErrorMatrix information{};
    ErrorVector pull{};
    std::array<bool, tested_errors> seen{};
};

void add(const TrialOutcome& outcome, Sum& sum) {
    for (std::size_t i = 0; i < tested_errors; ++i) {
        sum.pull[i] += outcome.pull[i];
        sum.seen[i] = sum.seen[i] || outcome.seen[i];
        for (std::size_t j = 0; j < tested_errors; ++j) sum.information[i][j] += outcome.information[i][j];
    }
}

CheckedErrors joined(Sum sum, const EntryErrors& entry) {
    std::array<bool, tested_errors> open{};
    for (std::size_t i = 0; i < tested_errors; ++i) open[i] = entry.sd[i] > 0;
    for (std::size_t i = 0; i < tested_errors; ++i) {
        for (std::size_t j = 0; j < tested_errors; ++j) {
            if (!open[j]) sum.pull[i] -= sum.information[i][j] * entry.value[j];
        }
        if (!open[i]) continue;
        const double sd = std::fmin(entry.sd[i], hardly_believed);
        const double weight = 1 / (sd * sd);
        sum.information[i][i] += weight;
        sum.pull[i] += weight * entry.value[i];
    }
    CheckedErrors checked;
    checked.covariance = inverse(sum.information, open);
    checked.value = times(checked.covariance, sum.pull);
    checked.seen = sum.seen;
    for (std::size_t i = 0; i < tested_errors; ++i) {
        if (!open[i]) checked.value[i] = entry.value[i];
    }
    return checked;
}

}  // namespace

EntryErrors entry_errors(const InstrumentErrors& errors) {
    return {{errors.tilt[0], errors.tilt[1], errors.cone, errors.collimation},
            {errors.tilt_sd, errors.tilt_sd, errors.cone_sd, errors.collimation_sd}};
}

CheckedInstruments join_checks(const std::vector<TrialOutcome>& outcomes,
                               const std::vector<InstrumentErrors>& errors) {
    std::map<std::pair<std::size_t, std::int32_t>, Sum> sums;
    for (const TrialOutcome& outcome : outcomes) {
        if (outcome.consistent && !outcome.shots.empty())
            add(outcome, sums[{outcome.instrument, outcome.stretch}]);
    }
    CheckedInstruments checked;
    for (const auto& [which, sum] : sums) checked[which] = joined(sum, entry_errors(errors[which.first]));
    return checked;
}

}  // namespace fallwright
