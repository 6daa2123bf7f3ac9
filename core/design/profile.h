// profile: the level wanted along a line, and its gradient and curvature, from corners and vertical curves.
//
// Between two corners a straight grade. A vertical curve of length L is the parabola centred on its corner, L
// measured along chainage, that touches the grades g1 before and g2 after it at its ends (tangent points):
//
//   level(x) = level(tangent point) + g1 x + (g2 - g1) / (2 L) x^2      x from the lower tangent point, 0..L
//   gradient(x) = g1 + (g2 - g1) / L x                                   one curvature (g2 - g1) / L all
//   along
//
// so its middle lies (g2 - g1) L / 8 above the corner, and it has a summit or a low point where the gradient
// is 0 inside it. Source: any textbook of route surveying; tested against published tables (VC-01, VC-04).
//
// A curve is refused where it has no room: it overlaps another, reaches past a neighbouring corner or past an
// end of the profile, or stands where the profile steps or ends. Nobody can tell what was meant, so there is
// no design over its length; the rest stands. Metres and ratios. Beyond the ends: absent.
#pragma once

#include <cstdint>
#include <vector>

#include "design/vertices.h"

namespace fallwright {

// Which side of a chainage is meant where the profile steps or breaks.
enum class Side : std::uint8_t { Before, After };

// One straight grade or one parabola. bend: its curvature, 0 where straight.
struct ProfilePiece {
    double from = 0, to = 0;  // chainages
    DesignLevel level;        // at `from`
    DesignLevel gradient;     // at `from`, rise per length with chainage
    DesignLevel bend;
    bool curved = false;
};

// Why a curve is refused.
enum class CurveTrouble : std::uint8_t { AtEnd, PastEnd, Steps, Overlaps };
struct RefusedCurve {
    double ch = 0;  // of its corner
    CurveTrouble why = CurveTrouble::Overlaps;
};

class Profile {
  public:
    Profile() = default;
    // Corners by rising chainage, at least least_chainage apart. A single corner: a level there, no gradient.
    explicit Profile(std::vector<ProfileVertex> vertices);

    bool any() const { return !vertices_.empty(); }
    double from() const { return vertices_.front().ch; }  // only where any()
    double to() const { return vertices_.back().ch; }

    // Absent beyond the ends and along refused curves. Within least_chainage of an end or of a step is at it.
    // On the outer side of an end: what a chamber there says.
    DesignLevel level(double ch, Side side) const;
    DesignLevel gradient(double ch, Side side) const;   // rise per length with chainage
    DesignLevel curvature(double ch, Side side) const;  // change of gradient per metre, sag positive

    // By rising chainage.
    const std::vector<ProfileVertex>& vertices() const { return vertices_; }
    const std::vector<ProfilePiece>& pieces() const { return pieces_; }
    const std::vector<RefusedCurve>& refused() const { return refused_; }

  private:
    const ProfileVertex* border_at(double ch) const;
    const ProfilePiece* piece_at(double ch, Side side) const;

    std::vector<ProfileVertex> vertices_;
    std::vector<ProfilePiece> pieces_;
    std::vector<RefusedCurve> refused_;
};

}  // namespace fallwright
