// curvature: how much higher than a plane the light stands at a distance, earth and air together.
#pragma once

#include "book/book.h"

namespace fallwright {

// (1-k) d^2/2R, metres at d metres; 0 where the book leaves it out. R 6371 km; k 0.13, or the book's rule of
// refraction. A line of sight and a plane of light are concerned alike.
class Curvature {
  public:
    // Of the book's refraction and its switch `curvature`.
    explicit Curvature(const Book& book);
    // d: metres, 0 or more; even a straight ray (k 0) rises by 0.8 mm at 100 m.
    double at(double d) const;

  private:
    double refraction_;
    bool counts_;
};

}  // namespace fallwright
