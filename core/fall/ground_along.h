// ground_along: what is there along a line, between the places where the ground was read.
//
// The newest ground at an offset (points of an older surface, relaid since, do not count), straight between
// the two readings either side; at a reading its own level. Nothing beyond the first and the last reading at
// that offset, and nothing where no ground was read there: who wants a figure has to read it. Offsets that
// are written alike to three decimals are one, as in the names of points.
//
// The level comes with the points it is made of, so that whoever compares it with a design can take the joint
// covariance. Metres, offsets right positive.
#pragma once

#include <string_view>
#include <vector>

#include "fall/fit.h"

namespace fallwright {

// NaN and no terms where nothing is known.
struct LevelAlong {
    double level = 0;
    std::vector<PointTerm> terms;  // level is their sum; coefficients add up to 1
};

class GroundAlong {
  public:
    // `found` is that line's, of find_falls(); all of them outlive this.
    // what: another surface than the ground, for those who ask for it.
    GroundAlong(const Book& book, const LineFalls& found, const Model& model,
                std::string_view what = "ground");

    // Two binary searches.
    LevelAlong at(double ch, double off) const;
    // Where it was read on the line itself, rising.
    std::vector<double> chainages() const;

  private:
    struct Spot {
        double row, ch;  // row: the offset as names write it
        std::int32_t point;
    };
    double level_of(const Spot& spot) const;

    double row_of(double off) const;

    const Book* book_;
    const Model* model_;
    std::vector<Spot> spots_;  // by offset, then by chainage
};

}  // namespace fallwright
