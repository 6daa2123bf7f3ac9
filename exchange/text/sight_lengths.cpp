#include "exchange/text/sight_lengths.h"

#include <algorithm>

namespace fallwright::text {

namespace {

constexpr Decimal longest_sight = Decimal::ticks(1200000000);  // 120 m
constexpr std::size_t fewest_to_tell = 3;

bool two_sights(const Record& record) {
    return record[Column::Back] && record[Column::Fore];
}

}  // namespace

bool SightLengths::run_on(const std::vector<Record>& records) const {
    std::size_t count = 0;
    Decimal before;
    for (const Record& record : records) {
        const Amount& distance = record[Column::Distance];
        if (!distance || record.kind != Record::Kind::Sights) continue;
        if (count++ > 0 && distance.length() < before) return false;
        before = distance.length();
    }
    return count >= fewest_to_tell && before > longest_sight;
}

SightLengths::SightLengths(const std::vector<Record>& records, const SheetForm& form, SheetFindings& findings)
    : use_plain_(!run_on(records)) {
    if (!use_plain_) {
        findings.add(
            Code::ImportDistance, form.columns.spot(form.columns.header_row(), Column::Distance),
            "these distances run on from row to row and pass 120 m: they are not used as lengths of sights",
            "call the column Chainage, or Sight distance if that is what they are");
    }
    for (const Record& record : records) {
        const Column column = record[Column::SightLength] ? Column::SightLength : Column::Distance;
        const bool used = column == Column::SightLength || use_plain_;
        if (record.kind != Record::Kind::Sights || !record[column] || !two_sights(record) || !used) continue;
        findings.add(Code::ImportDistance, form.columns.spot(record.row, column),
                     "one distance beside two sights is not used");
    }
}

Amount SightLengths::length(const RunStep& step) const {
    const Record& record = *step.record;
    const Column own = step.kind == RunStep::Kind::Back ? Column::BackLength : Column::ForeLength;
    if (step.kind != RunStep::Kind::Inter && record[own]) return record[own];
    if (two_sights(record)) return {};
    if (record[Column::SightLength]) return record[Column::SightLength];
    return use_plain_ ? record[Column::Distance] : Amount();
}

}  // namespace fallwright::text
