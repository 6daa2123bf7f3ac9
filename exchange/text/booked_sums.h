// Sums at the foot of a page or of the sheet against the columns above them.
//
// A sum may be that of the whole column so far or of the page, since the last row of sums. A row called check
// or difference may hold sums, or sum of backsights less sum of foresights, or sum of rises less sum of
// falls, in any column and with either sign.
#pragma once

#include <array>
#include <vector>

#include "exchange/text/booked_check.h"

namespace fallwright::text {

class BookedSums {
  public:
    BookedSums(const BookedCheck& check, const SheetForm& form, SheetFindings& findings)
        : check_(check), form_(form), findings_(findings) {}

    // A row of sights.
    void add(const Record& record);
    // A row of sums or checks: a sum that differs is a finding import-sum.
    void compare(const Record& record);
    // Whether every figure of the row is the sum of its column: then it is a row of sums without a label.
    bool are_sums(const Record& record) const;
    // Whether every figure of the row is a sum or a difference of sums.
    bool fits(const Record& record) const;

  private:
    using Totals = std::array<Decimal, static_cast<std::size_t>(Column::Level)>;

    bool is_sum(const Record& record, Column column) const;
    bool is_difference(const Record& record, Column column) const;
    void report(const Record& record, Column column);

    const BookedCheck& check_;
    const SheetForm& form_;
    SheetFindings& findings_;
    Totals all_{};
    Totals page_{};
};

}  // namespace fallwright::text
