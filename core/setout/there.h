// there: the ground there is, against the surfaces to be dug to. Inside setout only.
#pragma once

#include "fall/ground_along.h"
#include "fall/over_design.h"
#include "setout/setout.h"

namespace fallwright {

class There {
  public:
    There(const SetoutBasis& basis, std::size_t line);

    // dig, trench depth and cover of a row; side: of the row's own surface where the profile steps.
    void fill(SetoutRow& row, Side side) const;
    // Down to the trench bottom from the higher edge.
    OverDesign trench(double ch, Side side) const;
    // To the trench bottom where it is known, else to where one would dig, on the line.
    OverDesign depth(double ch, Side side) const;

  private:
    void fill_dig(SetoutRow& row, Side side) const;
    void fill_trench(SetoutRow& row, Side side) const;
    void fill_cover(SetoutRow& row, Side side) const;
    OverDesign to_dig(double ch, double off, Side side, std::string& dig_to) const;

    const SetoutBasis& basis_;
    const Design& design_;
    GroundAlong ground_;
    DesignSurface profile_, formation_, crown_;
    std::string profile_name_;
    LevelOf level_of_;
};

}  // namespace fallwright
