// near_spots: which spots lie near a place. Inside ground only.
//
// Spots stand in square cells, so that a search looks at the few cells about the place. What is found comes
// in the order of cells, then of spots, so it is the same everywhere.
#pragma once

#include <cmath>
#include <cstdint>
#include <unordered_map>
#include <vector>

#include "ground/surface_of_book.h"

namespace fallwright::ground {

class NearSpots {
  public:
    // cell: side, above 0.
    NearSpots(const std::vector<BookSpot>& spots, double cell) : spots_(spots), cell_(cell) {
        for (std::size_t i = 0; i < spots.size(); ++i)
            cells_[key(index(spots[i].e), index(spots[i].n))].push_back(static_cast<std::int32_t>(i));
    }

    // Calls each(spot) for all within `reach` east or west and north or south of the place.
    template <class Each>
    void about(double e, double n, double reach, Each each) const {
        for (std::int64_t i = index(e - reach); i <= index(e + reach); ++i) {
            for (std::int64_t j = index(n - reach); j <= index(n + reach); ++j) {
                const auto found = cells_.find(key(i, j));
                if (found == cells_.end()) continue;
                for (const std::int32_t spot : found->second) {
                    const BookSpot& at = spots_[static_cast<std::size_t>(spot)];
                    if (std::fabs(at.e - e) <= reach && std::fabs(at.n - n) <= reach) each(spot);
                }
            }
        }
    }

    // Pairs that a search of each spot with reach `cell` looks at, about.
    double pairs() const {
        double sum = 0;
        for (const auto& [at, inside] : cells_) {
            const auto count = static_cast<double>(inside.size());
            sum += count * count;
        }
        return sum * neighbours / 2;
    }

  private:
    static constexpr double neighbours = 9;

    std::int64_t index(double x) const { return static_cast<std::int64_t>(std::floor(x / cell_)); }
    static std::uint64_t key(std::int64_t i, std::int64_t j) {
        constexpr std::uint64_t mixer = 0x9e3779b97f4a7c15u;
        return static_cast<std::uint64_t>(i) * mixer ^ static_cast<std::uint64_t>(j);
    }

    const std::vector<BookSpot>& spots_;
    double cell_;
    std::unordered_map<std::uint64_t, std::vector<std::int32_t>> cells_;
};

}  // namespace fallwright::ground
