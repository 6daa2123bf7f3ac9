// reach: rows that cannot be worked to from where the instrument stands, and where to move it.
//
// The light must meet the staff: 0 <= target <= staff. Moving the light up by m moves every target up by m,
// so one set-up serves all rows in which it stands m higher with  -min(target) <= m <= staff - max(target);
// where that is empty the table needs more than one. And the light must carry: d <= range; of rows along a
// line from a to b all are in range between b - range and a + range. Inside setout only.
#pragma once

#include <string>
#include <vector>

#include "setout/setout.h"

namespace fallwright {

// A row with a target, as far as reach is concerned.
struct Reach {
    double ch = 0;
    double target = 0;
    double d = NAN;
};

class ReachCheck {
  public:
    ReachCheck(const Book& book, std::string setup, double staff, double range)
        : book_(book), setup_(std::move(setup)), staff_(staff), range_(range) {}

    // rows by chainage. At most one finding for each way of leaving the staff, and one for the range.
    void check(const std::vector<Reach>& rows, Findings& findings) const;

  private:
    void check_staff(const std::vector<Reach>& rows, bool above, Findings& findings) const;
    void check_range(const std::vector<Reach>& rows, Findings& findings) const;
    std::string cure(const std::vector<Reach>& rows, const std::vector<Reach>& out) const;
    // "its light stands 0.312 m to 1.204 m lower"; empty where no height serves all of these rows.
    std::string move_words(const std::vector<Reach>& rows) const;

    const Book& book_;
    std::string setup_;
    double staff_, range_;
};

}  // namespace fallwright
