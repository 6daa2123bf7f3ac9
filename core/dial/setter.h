// setter: one wanted plane on one set-up: axes, keypad, limits, costs, proof. Inside dial only.
#pragma once

#include <string>

#include "dial/dial.h"
#include "model/predict.h"

namespace fallwright {

// A plane to be set, along a direction and to its right, over a stretch between two spots.
struct WantedPlane {
    Axes along;
    Heading heading;
    bool across_given = true;  // false: level across is wanted, but nobody insists
    Spot from, to;
    std::string name;                // for sentences: "D1 from 0.000 to 36.000"
    std::vector<std::string> about;  // the line or the points it is of
};

class DialSetter {
  public:
    DialSetter(const DialBasis& basis, std::size_t setup, Findings& findings);

    // Whether this set-up can set any plane; says why not.
    bool can_tilt() const;
    // Fills the dial, which has its line and stretch; false, with a finding, where nothing can be set.
    bool set(const WantedPlane& wanted, Dial& dial);

    // A finding once, however many stretches have it.
    void say(Code code, std::vector<std::string> about, std::string message);

  private:
    bool choose_aim(const WantedPlane& wanted, Dial& dial);
    bool choose_axes(const WantedPlane& wanted, Dial& dial);
    bool with_one_axis(const WantedPlane& wanted, std::size_t free, Dial& dial);
    void key_in(const WantedPlane& wanted, Dial& dial);
    void compare_with_book(Dial& dial);
    void find_costs(const WantedPlane& wanted, Dial& dial);
    void check_range(const WantedPlane& wanted, Dial& dial);
    bool locked(std::size_t axis) const;
    std::string name() const { return basis_.book.name(setup_.name); }
    std::string length(double metres) const;
    void refuse(Code code, const WantedPlane& wanted, std::string message);

    const DialBasis& basis_;
    std::size_t index_;
    const Setup& setup_;
    const Instrument& machine_;
    Findings& findings_;
    Heading main_;
};

}  // namespace fallwright
