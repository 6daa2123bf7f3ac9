// KnownPoints: the benchmarks of a sheet, and levels listed in rows without a sight.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "exchange/text/sheet_record.h"

namespace fallwright::text {

struct RunBenchmark {
    std::string point;
    Amount level;
    std::size_t row = 0;
};

class KnownPoints {
  public:
    // Levels said to be known hold for the whole sheet, wherever they stand in it. Two that differ are an
    // error.
    KnownPoints(const std::vector<Record>& records, const SheetForm& form, SheetFindings& findings);

    std::optional<Decimal> level(const std::string& point) const;
    // The level booked on this row, else the first one listed for its point in a row without a sight.
    Amount booked(const Record& record) const;
    // The first level of a point stands.
    void add(const std::string& point, const Amount& level, std::size_t row);

    // In the order of their rows.
    std::vector<RunBenchmark> take();

  private:
    void add_known(const Record& record, const SheetForm& form, SheetFindings& findings);

    std::vector<RunBenchmark> benchmarks_;
    std::map<std::string, std::size_t> index_;
    std::map<std::string, Amount> listed_;
};

}  // namespace fallwright::text
