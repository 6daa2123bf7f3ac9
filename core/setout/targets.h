// targets: what the staff must read from one set-up along one line. Inside setout only.
#pragma once

#include <string>

#include "model/predict.h"
#include "setout/setout.h"

namespace fallwright {

struct Target {
    double staff = NAN, sd = NAN;
    double d = NAN;  // from the instrument; NaN where its place is not known
};

class Targets {
  public:
    // Every reason why targets cannot be told becomes one finding.
    Targets(const SetoutBasis& basis, std::size_t line, std::size_t setup, Findings& findings);

    Target at(const DesignLevel& design, double ch, double off);

    // Of the staff used in the set-up; 10 m where nothing says so.
    double staff_length() const { return staff_length_; }
    double range() const { return range_; }  // NaN where not given

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
