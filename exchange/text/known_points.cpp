#include "exchange/text/known_points.h"

#include <utility>

#include "base/stable_order.h"

namespace fallwright::text {

KnownPoints::KnownPoints(const std::vector<Record>& records, const SheetForm& form, SheetFindings& findings) {
    for (const Record& record : records) {
        const bool listed = record.kind == Record::Kind::Figures && record[Column::Level];
        if (listed) listed_.try_emplace(record.point, record[Column::Level]);
        if (record.known_level) add_known(record, form, findings);
    }
}

void KnownPoints::add_known(const Record& record, const SheetForm& form, SheetFindings& findings) {
    const Spot spot = form.columns.spot(record.row, Column::Level);
    if (record.point.empty()) {
        return findings.add(Code::ImportRow, spot, "a known level without a point", "name the point");
    }
    const auto before = index_.find(record.point);
    if (before != index_.end()) {
        const RunBenchmark& first = benchmarks_[before->second];
        if (first.level.length() == record.known_level.length()) return;
        findings.add(Code::ImportRow, spot,
                     quoted(record.point) + " is known as " + first.level.written(first.level.unit) +
                         " in row " + std::to_string(first.row) + " and as " +
                         record.known_level.written(record.known_level.unit) + " here",
                     "keep the right one");
    }
    add(record.point, record.known_level, record.row);
}

std::optional<Decimal> KnownPoints::level(const std::string& point) const {
    const auto place = index_.find(point);
    if (place == index_.end()) return std::nullopt;
    return benchmarks_[place->second].level.length();
}

Amount KnownPoints::booked(const Record& record) const {
    if (record[Column::Level]) return record[Column::Level];
    const auto listed = listed_.find(record.point);
    return listed == listed_.end() ? Amount() : listed->second;
}

void KnownPoints::add(const std::string& point, const Amount& level, std::size_t row) {
    if (!index_.try_emplace(point, benchmarks_.size()).second) return;
    benchmarks_.push_back({point, level, row});
}

std::vector<RunBenchmark> KnownPoints::take() {
    sort_stably(benchmarks_, [](const RunBenchmark& a, const RunBenchmark& b) { return a.row < b.row; });
    return std::move(benchmarks_);
}

}  // namespace fallwright::text
