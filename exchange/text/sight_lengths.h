// Which booked distance is the length of which sight.
//
// "BS dist", "FS dist" say it. One column, "Dist" or "Sight distance", belongs to the only sight of its row;
// in a row with two sights it belongs to neither: asked about. A column just called "Dist" whose figures
// never fall and pass 120 m, longer than sights are, runs on along the ground: those are chainages, asked
// about, not used.
#pragma once

#include <vector>

#include "exchange/text/level_run.h"
#include "exchange/text/sheet_record.h"

namespace fallwright::text {

class SightLengths {
  public:
    SightLengths(const std::vector<Record>& records, const SheetForm& form, SheetFindings& findings);

    // Not given where there is none.
    Amount length(const RunStep& step) const;

  private:
    bool run_on(const std::vector<Record>& records) const;

    bool use_plain_ = true;
};

}  // namespace fallwright::text
