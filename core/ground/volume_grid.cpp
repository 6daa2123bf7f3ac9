#include "ground/volume_grid.h"

#include <cmath>
#include <map>
#include <utility>

namespace fallwright::ground {

namespace {

constexpr double near_corner = 0.1;   // of the spacing
constexpr double most_corners = 1e9;  // each way: what lies further out is on no grid of a site

using Cell = std::pair<std::int64_t, std::int64_t>;  // along, across

class GridMaker {
  public:
    GridMaker(double along, double across, const Heading& heading)
        : along_(along), across_(across), heading_(heading) {}

    GridSheet run(const std::vector<BookSpot>& spots) {
        if (!spots.empty()) found_.sheet.origin = {spots.front().e, spots.front().n};
        for (std::size_t i = 0; i < spots.size(); ++i) place(spots[i], static_cast<std::int32_t>(i));
        for (const auto& [cell, corner] : corners_) add_cell(cell);
        return std::move(found_);
    }

  private:
    void place(const BookSpot& spot, std::int32_t number) {
        const double e = spot.e - found_.sheet.origin.e, n = spot.n - found_.sheet.origin.n;
        const double u = (e * heading_.e + n * heading_.n) / along_;
        const double v = (e * heading_.n - n * heading_.e) / across_;
        const double i = std::floor(u + 0.5), j = std::floor(v + 0.5);
        const bool near = std::fabs(u - i) <= near_corner && std::fabs(v - j) <= near_corner;
        if (!near || std::fabs(i) > most_corners || std::fabs(j) > most_corners) {
            found_.off_grid.push_back(number);
            return;
        }
        const auto corner = static_cast<std::int32_t>(found_.sheet.at.size());
        const Cell cell = {static_cast<std::int64_t>(i), static_cast<std::int64_t>(j)};
        if (!corners_.emplace(cell, corner).second) {
            found_.off_grid.push_back(number);
            return;
        }
        found_.sheet.at.push_back({i * along_ * heading_.e + j * across_ * heading_.n,
                                   i * along_ * heading_.n - j * across_ * heading_.e});
        found_.sheet.level.push_back(spot.level);
        found_.sheet.spot.push_back(number);
    }

    // The cell that has this corner nearest to the beginning of the grid.
    void add_cell(const Cell& cell) {
        Sheet& sheet = found_.sheet;
        std::array<std::int32_t, 4> corner{};
        const std::array<Cell, 4> at = {{cell,
                                         {cell.first, cell.second + 1},
                                         {cell.first + 1, cell.second + 1},
                                         {cell.first + 1, cell.second}}};
        for (std::size_t k = 0; k < at.size(); ++k) {
            const auto found = corners_.find(at[k]);
            if (found == corners_.end()) return;
            corner[k] = found->second;
        }
        const auto middle = static_cast<std::int32_t>(sheet.at.size());
        Blend mean;
        EastNorth place;
        double level = 0;
        for (const std::int32_t each : corner) {
            mean.add(each, 0.25);
            const auto k = static_cast<std::size_t>(each);
            place.e += sheet.at[k].e / 4;
            place.n += sheet.at[k].n / 4;
            level += sheet.level[k] / 4;
        }
        sheet.at.push_back(place);
        sheet.level.push_back(level);
        sheet.blends.push_back(mean);
        for (std::size_t k = 0; k < corner.size(); ++k)
            sheet.triangles.push_back({middle, corner[k], corner[(k + 1) % 4]});
    }

    double along_, across_;
    Heading heading_;
    GridSheet found_;
    std::map<Cell, std::int32_t> corners_;
};

}  // namespace

GridSheet grid_sheet(const std::vector<BookSpot>& spots, double along, double across,
                     const Heading& heading) {
    return GridMaker(along, across, heading).run(spots);
}

}  // namespace fallwright::ground
