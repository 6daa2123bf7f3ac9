// Inside ground only. The boundary of a surface: what lies inside, and what it leaves of a triangle. All
// decisions are exact; only the corners of pieces are rounded.
#pragma once

#include <array>
#include <vector>

#include "ground/mesh.h"
#include "ground/vertices.h"

namespace fallwright::ground {

// The corners on the grid, counterclockwise, none twice in a row. Finding ground-boundary.
Result<std::vector<Place>> set_boundary(const std::vector<EastNorth>& inside, const Grid& grid);

using Corners = std::array<Place, 3>;

enum class Share : std::uint8_t { Whole, Cut, Nothing };

class Boundary {
  public:
    // Outlives this.
    explicit Boundary(const std::vector<Place>& ring);

    Share share(const Corners& triangle) const;
    // Of a triangle that is cut.
    std::vector<EastNorth> piece(const Corners& triangle) const;
    // On the boundary counts as inside.
    bool holds(Place at) const;
    // Between millimetres; on the boundary by chance.
    bool holds(EastNorth at) const;
    // Where the way from one place to another meets the boundary, as shares of the way, rising.
    std::vector<double> meets(EastNorth from, EastNorth to) const;

  private:
    using Side = std::int32_t;  // from corner i to the one after it
    Place from(Side i) const { return ring_[index(i)]; }
    Place to(Side i) const { return ring_[index(i) + 1 == ring_.size() ? 0 : index(i) + 1]; }
    std::size_t strip_of(std::int64_t north) const;
    // Every side that comes into the strips between two northings, some more than once.
    template <class Visit>
    void each_near(std::int64_t south, std::int64_t north, Visit visit) const;
    bool holds_centre(const Corners& triangle) const;

    const std::vector<Place>& ring_;
    // Strips of equal width from south to north; each knows the sides that come into it.
    std::int32_t south_ = 0, north_ = 0;
    std::vector<std::vector<Side>> strips_;
};

}  // namespace fallwright::ground
