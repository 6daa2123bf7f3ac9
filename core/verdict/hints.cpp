#include <cmath>
#include <string>
#include <utility>

#include "base/print.h"
#include "preset/tolerance.h"
#include "verdict/verdict.h"

namespace fallwright {

namespace {

struct Tally {
    int stations = 0, outside = 0;
};

// As rounded for the result, as a verdict would count it.
Tally tally(const Book& book, const Tolerance& tolerance, const Design& design, const LineFalls& found,
            const Model& model) {
    const LineJudge judge(book, design, found, model);
    const auto shown = [&book](double metres) { return rounded_to(book.in_unit(metres), length_places); };
    Tally count;
    for (const Station& station : found.stations) {
        if (judge.tolerance_of(book.names.text(station.what)) != &tolerance) continue;
        const double deviation = judge.judge(station).deviation;
        if (std::isnan(deviation)) continue;
        ++count.stations;
        const bool low = shown(deviation) < shown(tolerance.below.or_else(deviation));
        const bool high = shown(deviation) > shown(tolerance.above.or_else(deviation));
        if (low || high) ++count.outside;
    }
    return count;
}

// Whose figures they are.
std::string preset_of_levels(const Tolerance& tolerance) {
    for (const Tolerance::Used& used : tolerance.used) {
        const preset::TolerancePreset* row = preset::find_tolerance(used.name);
        if (row != nullptr && !std::isnan(row->below_mm)) return std::string(used.name);
    }
    return "";
}

}  // namespace

Findings verdict_hints(const Book& book, const Designs& designs, const std::vector<LineFalls>& found,
                       const Model& model) {
    Findings findings;
    const ByName lines(book.lines);
    for (const Tolerance& tolerance : book.tolerances) {
        if (!tolerance.from_memory.levels) continue;
        const auto at = static_cast<std::size_t>(lines(tolerance.line));
        const Tally count = tally(book, tolerance, designs.lines[at], found[at], model);
        if (count.stations == 0) continue;
        std::string message = "line " + book.name(tolerance.line) + ": " + std::to_string(count.outside) +
                              " of " + std::to_string(count.stations) + " levels of " +
                              book.name(tolerance.what) + " lie outside preset " +
                              preset_of_levels(tolerance) + ", which is from memory: a hint, no verdict";
        findings.push_back(finding(Code::PresetHint, {book.name(tolerance.line), book.name(tolerance.what)},
                                   std::move(message)));
    }
    return findings;
}

}  // namespace fallwright
