// LevelRun: the records as a run of levels: set-ups, sights in booked order, points told apart, benchmarks.
//
//   A back sight starts a set-up. A change point is a row with foresight and backsight, or a row with the
//   foresight followed by one with the backsight of the same point.
//   Benchmarks: points the sheet says are known (known_level.h), and the point of a back sight with a booked
//   level where nothing above gives it one: at the first that is how books begin; later on it is asked about.
//   All other booked results are compared, not imported.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/text/known_points.h"
#include "exchange/text/sheet_record.h"

namespace fallwright::text {

struct RunStep {
    enum class Kind : std::uint8_t { Heading, Back, Inter, Fore };
    Kind kind = Kind::Heading;
    const Record* record = nullptr;
    std::string point;        // empty: read on the line, at the record's chainage
    std::string_view remark;  // of the record; said once
};

struct LevelRun {
    std::vector<RunStep> steps;
    std::vector<RunBenchmark> benchmarks;
    std::size_t setups = 0;
};

// The result points into `records`.
LevelRun follow(const std::vector<Record>& records, const SheetForm& form, SheetFindings& findings);

}  // namespace fallwright::text
