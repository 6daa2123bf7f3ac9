// targets: what the staff must read from one set-up along one line.
//
// For every level wanted on the line: the row of a reading as the model has it (model/predict.h), and how
// sure that is, plane, design and the noise of the one reading together. Metres, NaN where it cannot be told;
// why is a finding, each reason once.
#pragma once

#include <string>

#include "model/predict.h"
#include "setout/setout.h"

namespace fallwright {

// What the staff reads on one level wanted.
struct Target {
    double staff = NAN, sd = NAN;
    double d = NAN;  // from the instrument; NaN where its place is not known
};

// Made once for a table of a line from one set-up; asking for many levels then costs one prediction each.
class Targets {
  public:
    // All of basis and findings outlive this. Every reason why targets cannot be told becomes one finding.
    Targets(const SetoutBasis& basis, std::size_t line, std::size_t setup, Findings& findings);

    // NaN beyond what the plane can tell: it hangs nowhere, slopes without a bearing, or the design leans on
    // a point that was not read.
    Target at(const DesignLevel& design, double ch, double off);

    // Of the staff used in the set-up, metres; 10 m where nothing says so, which no staff on site exceeds.
    double staff_length() const { return staff_length_; }
    // Of the instrument, metres; NaN where its entry gives none.
    double range() const { return range_; }

  private:
    std::string setup_name() const;
    bool plane_hangs();
    // Why no target can be told there, with its finding; false where one can.
    bool refused(const SightPlace& place);
    void say(Code code, const std::string& message, const std::string& cure);

    const SetoutBasis& basis_;
    std::size_t setup_;
    const SetupTerms& terms_;
    PlanLine line_;
    Predictor predictor_;
    std::int32_t staff_ = -1;
    double staff_length_ = 0, range_ = NAN;
    Findings& findings_;
    std::vector<std::string> said_;  // each message once
    bool hangs_ = false;
};

}  // namespace fallwright
