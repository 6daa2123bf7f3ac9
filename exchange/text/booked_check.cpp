#include "exchange/text/booked_check.h"

#include <algorithm>

#include "base/print.h"

namespace fallwright::text {

namespace {

Decimal magnitude(Decimal value) {
    return value < Decimal() ? -value : value;
}

using PlacesCount = std::array<std::size_t, 8>;

int most_common(const PlacesCount& count) {
    return static_cast<int>(std::max_element(count.begin(), count.end()) - count.begin());
}

bool is_height(Column column) {
    return column == Column::Level || column == Column::Collimation;
}

}  // namespace

BookedCheck::BookedCheck(const std::vector<Record>& records, const SheetForm& form, SheetFindings& findings)
    : form_(form), findings_(findings) {
    std::array<PlacesCount, static_cast<std::size_t>(Column::amounts)> counts{};
    for (const Record& record : records) {
        for (std::size_t i = 0; i < record.amounts.size(); ++i) {
            const Amount& amount = record.amounts[i];
            if (amount && record.kind == Record::Kind::Sights)
                ++counts[i][static_cast<std::size_t>(amount.places)];
        }
    }
    for (std::size_t i = 0; i < counts.size(); ++i) typical_places_[i] = most_common(counts[i]);
}

bool BookedCheck::agrees(const Amount& booked, Column column, Decimal exact) const {
    if (!booked) return true;
    const int places = std::max<int>(booked.places, typical_places_[static_cast<std::size_t>(column)]);
    const Decimal difference = magnitude(booked.length() - exact);
    return difference + difference <= booked.step(places);
}

bool BookedCheck::agrees(const Record& record, Column column, Decimal exact) const {
    return agrees(record[column], column, exact);
}

std::string BookedCheck::written(Column column, Decimal exact) const {
    const LengthUnit unit = form_.columns.unit(column);
    const auto ticks = static_cast<double>(exact.ticks());
    const int places =
        std::max(typical_places_[static_cast<std::size_t>(column)], unit == LengthUnit::Metre ? 3 : 0);
    return fixed(ticks / static_cast<double>(scale_of(unit).ticks), places);
}

void BookedCheck::report(const Record& record, Column column, Decimal exact, std::string_view carried) {
    findings_.add(Code::ImportDiffers, form_.columns.spot(record.row, column),
                  written(column, record[column].length()) + " is booked, the sights give " +
                      written(column, exact) + std::string(carried));
}

void BookedCheck::compare(const Record& record, Column column, Decimal exact) {
    if (agrees(record, column, exact)) return;
    const Decimal size = record[column].length() - exact;
    const bool carried = is_height(column) && last_.row > 0 && size == last_.size;
    report(record, column, exact,
           carried ? " (the difference of row " + std::to_string(last_.row) + " carried on)" : std::string());
    if (is_height(column) && !carried) last_ = {record.row, size};
}

void BookedCheck::compare_rise(const Record& record, Decimal rise) {
    compare(record, Column::Rise, rise);
    compare(record, Column::RiseFall, rise);
    compare(record, Column::Fall, record[Column::Fall].negative() ? rise : -rise);
}

}  // namespace fallwright::text
