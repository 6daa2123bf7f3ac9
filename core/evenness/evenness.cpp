#include "evenness/evenness.h"

#include <algorithm>
#include <cmath>

#include "evenness/gap_check.h"
#include "evenness/roughness_check.h"
#include "evenness/rows.h"

namespace fallwright {

namespace {

const Tolerance* tolerance_of(const EvennessBasis& basis, NameId what) {
    for (const Tolerance& tolerance : basis.book.tolerances) {
        if (tolerance.line == basis.design.line().name && tolerance.what == what) return &tolerance;
    }
    return nullptr;
}

// rms and the largest of values with their position.
OffLine summed(const RowOfReadings& row, const std::vector<double>& off) {
    OffLine found;
    double sum = 0, squares = 0;
    found.worst = 0;
    found.worst_at = row.line.x.front();
    for (std::size_t i = 0; i < off.size(); ++i) {
        sum += off[i];
        squares += off[i] * off[i];
        if (std::fabs(off[i]) <= std::fabs(found.worst)) continue;
        found.worst = off[i];
        found.worst_at = row.line.x[i];
    }
    const auto n = static_cast<double>(off.size());
    found.mean = sum / n;
    found.rms = std::sqrt(squares / n);
    return found;
}

std::size_t index_at(const RowOfReadings& row, double position) {
    const auto at = std::lower_bound(row.line.x.begin(), row.line.x.end(), position);
    return static_cast<std::size_t>(at - row.line.x.begin());
}

OffLine off_straight(const Model& model, const RowOfReadings& row) {
    const std::vector<double>& x = row.line.x;
    const std::vector<double>& h = row.line.h;
    const auto n = static_cast<double>(x.size());
    double mean_x = 0, mean_h = 0, spread = 0, gradient = 0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        mean_x += x[i] / n;
        mean_h += h[i] / n;
    }
    for (const double each : x) spread += (each - mean_x) * (each - mean_x);
    for (std::size_t i = 0; i < x.size(); ++i) gradient += (x[i] - mean_x) * (h[i] - mean_h) / spread;
    std::vector<double> off;
    for (std::size_t i = 0; i < x.size(); ++i) off.push_back(h[i] - mean_h - gradient * (x[i] - mean_x));
    OffLine found = summed(row, off);
    const std::size_t worst = index_at(row, found.worst_at);
    std::vector<double> weights;
    for (std::size_t i = 0; i < x.size(); ++i)
        weights.push_back((i == worst ? 1 : 0) - 1 / n - (x[i] - mean_x) * (x[worst] - mean_x) / spread);
    found.worst_sd = std::sqrt(variance_in(model, row, weights));
    return found;
}

// Only where the whole row has a design. The sd is that of the level against the benchmarks; what a design
// hangs under is not in it (stations have it).
OffLine off_design(const Model& model, const RowOfReadings& row) {
    std::vector<double> off;
    for (std::size_t i = 0; i < row.line.h.size(); ++i) {
        if (std::isnan(row.design.h[i])) return {};
        off.push_back(row.line.h[i] - row.design.h[i]);
    }
    OffLine found = summed(row, off);
    const Station& worst = *row.stations[index_at(row, found.worst_at)];
    found.worst_sd = model.levels[static_cast<std::size_t>(worst.point)].sd;
    return found;
}

std::vector<Chord> chords_of(const Model& model, const RowOfReadings& row) {
    std::vector<Chord> chords;
    for (std::size_t i = 1; i + 1 < row.line.x.size(); ++i) {
        chords.push_back(
            {row.line.x[i], row.line.x[i + 1] - row.line.x[i - 1], -under(row.line, i - 1, i, i + 1),
             std::sqrt(variance_of_rest(model, row, i - 1, i, i + 1)), -under(row.design, i - 1, i, i + 1)});
    }
    return chords;
}

EvenRow evenness_of_row(const EvennessBasis& basis, const RowOfReadings& row) {
    EvenRow found;
    found.what = row.what;
    found.along = row.along;
    found.at = row.at;
    found.from = row.line.x.front();
    found.to = row.line.x.back();
    found.stations = row.line.x.size();
    for (std::size_t i = 1; i < row.line.x.size(); ++i)
        found.spacing = std::max(found.spacing, row.line.x[i] - row.line.x[i - 1]);
    found.off_straight = off_straight(basis.model, row);
    found.off_design = off_design(basis.model, row);
    found.chords = chords_of(basis.model, row);
    const GapChecker gaps(basis, row, tolerance_of(basis, row.what));
    found.straightedge = gaps.straightedge();
    found.spots = gaps.spots();
    found.irregularities = gaps.irregularities();
    if (row.along && basis.design.line().use == LineUse::Road) check_roughness(basis, row, found);
    return found;
}

}  // namespace

bool asks_evenness(const LineEntry& line) {
    return line.use == LineUse::Road || line.use == LineUse::Kerb || line.use == LineUse::Slab;
}

std::vector<EvenRow> evenness_of(const EvennessBasis& basis) {
    std::vector<EvenRow> found;
    if (!asks_evenness(basis.design.line())) return found;
    for (const RowOfReadings& row : rows_of(basis)) found.push_back(evenness_of_row(basis, row));
    return found;
}

bool uneven(const EvennessBasis& basis) {
    const auto asks = [&basis](const Tolerance& tolerance) {
        const EvennessLimits& even = tolerance.even;
        return tolerance.line == basis.design.line().name &&
               (even.gap.has() || even.gaps.count > 0 || !even.irregularities.empty());
    };
    if (std::none_of(basis.book.tolerances.begin(), basis.book.tolerances.end(), asks)) return false;
    const auto outside = [](const GapCheck& check) {
        return std::any_of(check.places.begin(), check.places.end(),
                           [](const Gap& gap) { return gap.judged.verdict == Verdict::Outside; });
    };
    const std::vector<EvenRow> rows = evenness_of(basis);
    return std::any_of(rows.begin(), rows.end(), [&outside](const EvenRow& row) {
        return outside(row.straightedge) || outside(row.spots) ||
               std::any_of(row.irregularities.begin(), row.irregularities.end(),
                           [](const IrregularityCheck& each) { return each.verdict == Verdict::Outside; });
    });
}

std::vector<Section> sections_of(const EvennessBasis& basis, const LineJudge& judge) {
    std::vector<Section> sections;
    if (!asks_evenness(basis.design.line())) return sections;
    for (const StationsAt& at : stations_by_chainage(basis)) {
        if (at.stations.size() < 2) continue;
        Section section;
        section.ch = at.ch;
        section.what = at.what;
        for (const Station* station : at.stations) section.points.push_back({station, judge.judge(*station)});
        for (std::size_t i = 1; i < section.points.size(); ++i) {
            const SectionPoint& a = section.points[i - 1];
            const SectionPoint& b = section.points[i];
            const double width = b.station->off - a.station->off;
            if (width < least_offset) continue;
            const auto level = [&basis](const SectionPoint& p) {
                return basis.model.levels[static_cast<std::size_t>(p.station->point)].level;
            };
            const std::array<PointTerm, 2> sum = {{{b.station->point, 1}, {a.station->point, -1}}};
            section.slopes.push_back({a.station->off, b.station->off, (level(b) - level(a)) / width,
                                      std::sqrt(std::max(0.0, basis.model.variance_of(sum))) / width,
                                      (b.verdict.design - a.verdict.design) / width});
        }
        sections.push_back(std::move(section));
    }
    return sections;
}

}  // namespace fallwright
