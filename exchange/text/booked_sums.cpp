#include "exchange/text/booked_sums.h"

#include <algorithm>

namespace fallwright::text {

namespace {

constexpr std::array summed = {Column::Back, Column::Inter, Column::Fore,
                               Column::Rise, Column::Fall,  Column::RiseFall};

// Falls count the same booked with a minus or without.
Decimal counted(const Record& record, Column column) {
    const Amount& amount = record[column];
    return column == Column::Fall ? amount.magnitude().length() : amount.length();
}

}  // namespace

void BookedSums::add(const Record& record) {
    for (const Column column : summed) {
        const auto index = static_cast<std::size_t>(column);
        all_[index] += counted(record, column);
        page_[index] += counted(record, column);
    }
}

bool BookedSums::is_sum(const Record& record, Column column) const {
    const Amount booked = column == Column::Fall ? record[column].magnitude() : record[column];
    const auto index = static_cast<std::size_t>(column);
    return check_.agrees(booked, column, all_[index]) || check_.agrees(booked, column, page_[index]);
}

bool BookedSums::is_difference(const Record& record, Column column) const {
    const auto total = [this](Column of) { return all_[static_cast<std::size_t>(of)]; };
    const Decimal sights = total(Column::Back) - total(Column::Fore);
    const Decimal rises = total(Column::Rise) - total(Column::Fall);
    const std::array<Decimal, 4> differences = {sights, -sights, rises, -rises};
    return std::any_of(differences.begin(), differences.end(),
                       [&](Decimal difference) { return check_.agrees(record[column], column, difference); });
}

void BookedSums::report(const Record& record, Column column) {
    const Spot spot = form_.columns.spot(record.row, column);
    const auto index = static_cast<std::size_t>(column);
    findings_.add(Code::ImportSum, spot,
                  check_.written(column, record[column].length()) +
                      " is booked as the sum, the column gives " + check_.written(column, all_[index]));
}

void BookedSums::compare(const Record& record) {
    const bool check = record.kind == Record::Kind::Check;
    for (const Column column : summed) {
        if (!record[column] || !form_.columns.has(column)) continue;
        if (!is_sum(record, column) && !(check && is_difference(record, column))) report(record, column);
    }
    if (!check || are_sums(record)) page_ = {};
}

bool BookedSums::are_sums(const Record& record) const {
    return std::all_of(summed.begin(), summed.end(), [&](Column column) { return is_sum(record, column); });
}

bool BookedSums::fits(const Record& record) const {
    return std::all_of(summed.begin(), summed.end(), [&](Column column) {
        return is_sum(record, column) || is_difference(record, column);
    });
}

}  // namespace fallwright::text
