// Booked results against what the sights give, in exact decimals.
//
// A booked figure stands for anything within half its last digit. How fine that digit is: as typed, yet never
// coarser than most figures of its column, since spreadsheets drop zeros at the end (29.5 for 29.500).
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/decimal.h"
#include "exchange/text/sheet_record.h"

namespace fallwright::text {

class BookedCheck {
  public:
    BookedCheck(const std::vector<Record>& records, const SheetForm& form, SheetFindings& findings);

    // Whether the booked figure may stand for `exact`; also true where nothing is booked.
    bool agrees(const Record& record, Column column, Decimal exact) const;
    bool agrees(const Amount& booked, Column column, Decimal exact) const;

    // A finding import-differs where it may not. Each difference is listed; one that equals the last one in
    // levels, or in heights of collimation, is said to be carried on.
    void compare(const Record& record, Column column, Decimal exact);
    // `rise`: reading before minus this one. Rise, Fall and a signed column; a fall may be booked with a
    // minus.
    void compare_rise(const Record& record, Decimal rise);

    // `exact` as people write it in the unit of the column, with the decimals of the column.
    std::string written(Column column, Decimal exact) const;

  private:
    void report(const Record& record, Column column, Decimal exact, std::string_view carried);

    struct Difference {
        std::size_t row = 0;
        Decimal size;
    };

    const SheetForm& form_;
    SheetFindings& findings_;
    std::array<int, static_cast<std::size_t>(Column::amounts)> typical_places_{};
    Difference last_;
};

}  // namespace fallwright::text
