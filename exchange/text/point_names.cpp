#include "exchange/text/point_names.h"

namespace fallwright::text {

namespace {

constexpr Decimal far_apart = Decimal::ticks(1000000);  // 0.1 m: more than any booking of one point is out

bool far(std::optional<Decimal> a, std::optional<Decimal> b) {
    if (!a || !b) return false;
    const Decimal difference = *a - *b;
    return difference > far_apart || -difference > far_apart;
}

}  // namespace

PointNames::PointNames(const std::vector<Record>& records, const SheetForm& form, SheetFindings& findings)
    : form_(form), findings_(findings) {
    for (const std::string& name : form.options.points_in_use) taken_.insert(name);
    for (const Record& record : records) {
        const bool turning = record[Column::Back] || record[Column::Fore];
        if (record.kind != Record::Kind::Sights && !record.known_level) continue;
        sheet_names_.insert(record.point);
        if (turning || record.known_level) anchors_.insert(record.point);
        if (record.known_level) known_.insert(record.point);
    }
    find_reused(records);
}

void PointNames::find_reused(const std::vector<Record>& records) {
    std::map<std::string, std::size_t> last_setup;
    std::size_t setup = 0;
    for (const Record& record : records) {
        if (record[Column::Back] && record.kind == Record::Kind::Sights) ++setup;
        if (names_any_change_point(record.point)) reused_.insert(record.point);
        if (!record[Column::Inter] || record.kind != Record::Kind::Sights || on_line(record)) continue;
        const auto [place, first] = last_setup.try_emplace(record.point, setup);
        if (!first && place->second == setup && anchors_.count(record.point) == 0)
            reused_.insert(record.point);
        place->second = setup;
    }
}

bool PointNames::on_line(const Record& record) const {
    return record.chainage && (record.point.empty() || anchors_.count(record.point) == 0);
}

bool PointNames::same_as_above(const Record& above, const Record& record) {
    const bool unnamed = record.point.empty() || (record.named_by_remark && !above.named_by_remark);
    if (!unnamed) return folded(record.point) == folded(above.point);
    return !record.chainage || (above.chainage && above.chainage.length() == record.chainage.length() &&
                                above[Column::Offset].length() == record[Column::Offset].length());
}

std::string PointNames::called(const Record& record) {
    if (!record.point.empty()) return quoted(record.point);
    return record.chainage ? "ch " + record.chainage.written(record.chainage.unit) : "no name";
}

Spot PointNames::spot(const Record& record) const {
    return form_.columns.spot(record.row, form_.columns.at(form_.columns.point_column()));
}

std::string PointNames::fresh(const std::string& name, const Record& record) {
    std::size_t& number = last_number_.try_emplace(name, 1).first->second;
    std::string candidate = name;
    while (taken_.count(candidate) > 0 || (candidate != name && sheet_names_.count(candidate) > 0)) {
        candidate = name + " " + std::to_string(++number);
    }
    if (candidate != name) {
        findings_.add(
            Code::ImportRenamed, spot(record),
            quoted(name) + " stands for another point as well; this one is called " + quoted(candidate));
    }
    return candidate;
}

std::string PointNames::name(const Record& record, bool change_point, std::optional<Decimal> level) {
    const auto seen = seen_.find(record.point);
    const bool moved =
        seen != seen_.end() && far(seen->second.level, level) && known_.count(record.point) == 0;
    if (moved && reused_.count(record.point) == 0) {
        findings_.add(Code::ImportSamePoint, spot(record),
                      quoted(record.point) + " is also in row " + std::to_string(seen->second.row) +
                          ", more than 0.1 m higher or lower by the sights");
    }
    if (seen == seen_.end()) seen_[record.point] = {record.row, level};
    const bool another = reused_.count(record.point) > 0 || (moved && change_point);
    std::string name = another ? fresh(record.point, record) : record.point;
    taken_.insert(name);
    return name;
}

}  // namespace fallwright::text
