#include "model/points.h"

#include <utility>

#include "base/stable_order.h"

namespace fallwright {

Points::Points(const Book& book, const Figures& figures) : index_(book.names.size(), -1) {
    std::vector<std::pair<std::uint32_t, NameId>> spoken;
    spoken.reserve(book.benchmarks.size() + book.readings.size() + 2 * book.steps.size());
    for (const Benchmark& benchmark : book.benchmarks) spoken.emplace_back(benchmark.entry, benchmark.point);
    for (std::size_t i = 0; i < book.readings.size(); ++i) {
        if (figures.usable[i]) spoken.emplace_back(book.readings[i].entry, book.readings[i].point);
    }
    for (const Step& step : book.steps) {
        spoken.emplace_back(step.entry, step.from);
        spoken.emplace_back(step.entry, step.to);
    }
    sort_stably(spoken, [](const auto& a, const auto& b) { return a.first < b.first; });
    for (const auto& [entry, name] : spoken) {
        if (index_[name] >= 0) continue;
        index_[name] = static_cast<std::int32_t>(names_.size());
        names_.push_back(name);
    }
}

}  // namespace fallwright
