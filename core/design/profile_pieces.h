// profile_pieces: straight grades and parabolas from corners. Inside design only.
#pragma once

#include "design/profile.h"

namespace fallwright {

// Tangent points this close are one, metres: feet turned into metres leave less.
constexpr double least_length = 1e-6;

struct Pieces {
    std::vector<ProfilePiece> laid;  // by rising chainage; a hole where a curve is refused
    std::vector<RefusedCurve> refused;
};
Pieces lay_pieces(const std::vector<ProfileVertex>& vertices);

}  // namespace fallwright
