#include "model/misclosure.h"

#include <cmath>
#include <map>

namespace fallwright {

namespace {

// Variance of the value the page takes (page.cpp): the fixed one, else the first; 0 where there is none.
double benchmark_variance(const Book& book, NameId point) {
    const Benchmark* first = nullptr;
    for (const Benchmark& benchmark : book.benchmarks) {
        if (benchmark.point != point) continue;
        if (benchmark.sd == 0) return 0;
        if (first == nullptr) first = &benchmark;
    }
    return first == nullptr ? 0 : first->sd * first->sd;
}

// What checked instruments bring in; their columns are taken out of `shared`.
double checked_variance(const Model& model, std::map<adjust::Column, double>& shared) {
    double variance = 0;
    for (const JointPrior& joint : model.joint_priors) {
        std::vector<double> sums;
        for (const adjust::Column column : joint.columns) {
            const auto found = shared.find(column);
            sums.push_back(found == shared.end() ? 0 : found->second);
            if (found != shared.end()) shared.erase(found);
        }
        for (std::size_t i = 0; i < sums.size(); ++i) {
            for (std::size_t j = 0; j < sums.size(); ++j) variance += sums[i] * sums[j] * joint.at(i, j);
        }
    }
    return variance;
}

}  // namespace

double misclosure_sd(const Book& book, const Model& model, const Closure& closure) {
    std::map<adjust::Column, double> shared;
    double variance = 0;
    for (const WaySight& sight : closure.way) {
        const std::int32_t row = model.sights.row_of[sight.reading];
        if (row < 0) return NAN;
        const auto at = static_cast<std::size_t>(row);
        variance += model.problem.sd[at] * model.problem.sd[at] + model.problem.folded[at];
        for (std::size_t k = model.problem.start[at]; k < model.problem.start[at + 1]; ++k) {
            shared[model.problem.column[k]] += sight.sign * model.problem.coefficient[k];
        }
    }
    variance += checked_variance(model, shared);
    // Levels and planes have no prior; they cancel along the way.
    for (const auto& [column, sum] : shared) {
        const double sd = model.problem.prior_sd[static_cast<std::size_t>(column)];
        variance += sum * sum * sd * sd;
    }
    if (!closure.loop)
        variance += benchmark_variance(book, closure.from) + benchmark_variance(book, closure.to);
    return std::sqrt(variance);
}

}  // namespace fallwright
