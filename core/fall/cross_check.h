// cross_check: do two readings, the distance between them and what the instrument shows belong together?
//
// Two readings on a level plane, r1 at the near and r2 at the far point, L apart, say that the ground rises
// by (r1 - r2) / L. After the light was matched to the ground the instrument shows a gradient G. Where the
// two differ by more than their uncertainty allows, one of these is so:
//   distance       the distance would have to be (r1 - r2) / G
//   reading        the difference of the readings would have to be G L
//   pivoting head  the light was tilted until the far point read the near point's figure. The head pivots, so
//   what is
//                  shown is (r1 - r2) / (L + a), a being how far the near point is ahead of the laser; a
//                  would have to be (r1 - r2) / G - L, and the near point is then off the plane by G a
// The mark that fits both points in one pass, for a known: r2 - (r2 - r1) (L + a) / L.
// Metres, ratios, one standard deviation. Derivation: docs/methods/fall.md.
#pragma once

namespace fallwright {

struct FallCheckInput {
    double near_reading = 0, far_reading = 0;
    double distance = 0;     // between the points, above 0
    double gradient_sd = 0;  // of (r1 - r2) / L, the distance's share in it
    double shown = 0, shown_sd = 0;
};

struct FallCheck {
    double gradient = 0;      // (r1 - r2) / L
    double disagreement = 0;  // gradient - shown
    double sd = 0;
    bool agrees = true;  // within 1.96 sd
    // What each explanation asks for; NaN where what is shown is level.
    double distance_wanted = 0;
    double difference_wanted = 0;  // of r1 - r2
    double ahead_wanted = 0;       // a of the pivoting head; negative: the laser stands beyond the near point
    double near_off = 0;           // how far the plane then passes above (+) the mark at the near point
};

FallCheck check_fall(const FallCheckInput& input);

// The mark that both points read once the plane is tilted to the ground, the near point `ahead` of the laser.
double one_pass_mark(double near_reading, double far_reading, double distance, double ahead);
// What the instrument shows after the far point was matched to the near point's figure.
double pivoted_gradient(double near_reading, double far_reading, double distance, double ahead);

}  // namespace fallwright
