// gap_check: gaps and irregularities of a row against the limits of its tolerance. Inside evenness only.
#pragma once

#include "evenness/rows.h"

namespace fallwright {

// tolerance: nullptr where the surface has none.
class GapChecker {
  public:
    GapChecker(const EvennessBasis& basis, const RowOfReadings& row, const Tolerance* tolerance);

    GapCheck straightedge() const;
    // Only where the tolerance has gaps by distance.
    GapCheck spots() const;
    std::vector<IrregularityCheck> irregularities() const;

  private:
    Gap gap_of(const RowLine& line, std::size_t i, const Rest& rest) const;
    void find_sd(Gap& gap, std::size_t i, const Rest& rest) const;
    void judge(Gap& gap, bool both_ways, bool from_memory) const;
    void gather(const std::vector<Gap>& by_reading, GapCheck& to) const;
    IrregularityCheck count(const IrregularityLimit& limit, const std::vector<Gap>& gaps) const;
    std::vector<Gap> gaps_by_reading() const;

    const EvennessBasis& basis_;
    const RowOfReadings& row_;
    const Tolerance* tolerance_;
    double confidence_, length_;
};

}  // namespace fallwright
