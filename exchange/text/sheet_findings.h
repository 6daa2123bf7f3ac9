// SheetFindings: gathers what is noticed in a sheet, with its row and column, a bounded number of each code.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <string_view>

#include "base/finding.h"

namespace fallwright::text {

// Where in the sheet: row from 1 (0: the sheet as a whole), column from 0 (-1: the row as a whole).
struct Spot {
    std::size_t row = 0;
    int column = -1;
    std::string_view header;
};

// A, B, ..., Z, AA, ...: as the spreadsheet letters its columns.
std::string column_letters(int column);

// 'text', cut to 40 characters, line ends as spaces: how findings quote a cell.
std::string quoted(std::string_view text);

class SheetFindings {
  public:
    explicit SheetFindings(std::size_t per_code) : per_code_(per_code) {}

    // An empty cure takes the catalogue's. After an error only errors are gathered: nothing will be imported,
    // and what seems to follow from the rest may follow from the error.
    void add(Code code, const Spot& spot, std::string message, std::string cure = {});

    bool any_error() const { return any_error_; }

    // What was gathered, in the order it was added; then a finding for each code of which some are not
    // listed.
    Findings take();

  private:
    std::size_t per_code_;
    bool any_error_ = false;
    std::array<std::size_t, static_cast<std::size_t>(Code::count_)> counts_{};
    Findings findings_;
};

}  // namespace fallwright::text
