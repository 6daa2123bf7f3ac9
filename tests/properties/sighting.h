// sighting: one set-up of a random book, and what a person reads from it.
#pragma once

#include <string>

#include "properties/site.h"

namespace fallwright::properties {

class Sighting {
  public:
    Sighting(Draw& draw, const Wishes& wishes, const Site& site, std::size_t number);

    const Json& entry() const { return entry_; }
    // Another set-up on the same tripod, only its plane turned; for a placed and oriented laser.
    Sighting turned(Draw& draw, std::size_t number) const;
    bool can_turn() const { return placed_ && entry_["instrument"] == "L1" && has_bearing(); }
    // On a sloped plane only what has a place.
    bool can_read(const Spot& spot) const { return !sloped_ || spot.on_grid; }
    Json reading(Draw& draw, const Spot& spot) const;

  private:
    bool has_bearing() const { return entry_.contains("plane") && entry_["plane"].contains("bearing"); }
    void place(Draw& draw, const Site& site);
    void set_plane(Draw& draw);
    void slope(Draw& draw, Json& plane);
    void write_distance(Draw& draw, const Spot& spot, Json& line) const;
    double true_figure(const Spot& spot) const;
    void write_value(Draw& draw, double figure, bool soffit, Json& line) const;
    void write_clamped(Draw& draw, double figure, bool soffit, Json& line) const;

    const Wishes& wishes_;
    Json entry_;
    double height_ = 0;  // of the plane at the instrument
    bool placed_ = false, sloped_ = false;
    double e_ = 0, n_ = 0;
    double main_ = 0, cross_ = 0, bearing_ = 0;
};

}  // namespace fallwright::properties
