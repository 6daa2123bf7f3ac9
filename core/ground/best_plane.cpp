#include "ground/best_plane.h"

#include <algorithm>
#include <cmath>

#include "base/print.h"

namespace fallwright::ground {

namespace {

double sd_of(const Model& model, const std::vector<PointTerm>& sum) {
    const double variance = model.variance_of(sum);
    return std::isnan(variance) ? NAN : std::sqrt(std::max(0.0, variance));
}

class PlaneFinder {
  public:
    PlaneFinder(const std::vector<BookSpot>& spots, const Heading& heading, const FittedPlane& fit,
                const Model& model)
        : spots_(spots), fit_(fit), model_(model) {
        found_.heading = heading;
    }

    BestPlane run() {
        found_.e = fit_.e;
        found_.n = fit_.n;
        found_.level = fit_.level;
        found_.level_sd = sd_along(1 / static_cast<double>(spots_.size()), {0, 0});
        found_.slope = fit_.slope;
        found_.east_sd = sd_along(0, {1, 0});
        found_.north_sd = sd_along(0, {0, 1});
        fall();
        const Heading& main = found_.heading;
        found_.along = in_axes(fit_.slope, main);
        found_.along_sd = {sd_along(0, {main.e, main.n}), sd_along(0, {main.n, -main.e})};
        find_off();
        return std::move(found_);
    }

  private:
    // Of the level at the middle, with a share of each spot, or of the slope along a direction.
    double sd_along(double share, const EastNorth& way) const {
        std::vector<PointTerm> sum;
        sum.reserve(spots_.size());
        for (std::size_t i = 0; i < spots_.size(); ++i)
            sum.push_back({spots_[i].point, share + way.e * fit_.weight[i][0] + way.n * fit_.weight[i][1]});
        return sd_of(model_, sum);
    }

    void fall() {
        found_.steepest = ::fallwright::steepest(fit_.slope);
        const bool level = rounded_to(found_.steepest, gradient_places) == 0;
        found_.falls_to = level ? NAN : bearing_of(-fit_.slope.east, -fit_.slope.north);
        found_.steepest_sd =
            level ? NAN
                  : sd_along(0, {fit_.slope.east / found_.steepest, fit_.slope.north / found_.steepest});
    }

    void find_off() {
        double squares = 0;
        for (const double residual : fit_.residual) {
            found_.off.push_back(-residual);
            squares += residual * residual;
        }
        found_.rms = std::sqrt(squares / static_cast<double>(spots_.size()));
        const auto first = found_.off.begin(), last = found_.off.end();
        found_.lowest = off_at(std::min_element(first, last) - first);
        found_.highest = off_at(std::max_element(first, last) - first);
    }

    OffPlane off_at(std::ptrdiff_t spot) const {
        const auto at = static_cast<std::size_t>(spot);
        std::vector<PointTerm> sum;
        sum.reserve(spots_.size());
        const double e = spots_[at].e - fit_.e, n = spots_[at].n - fit_.n;
        for (std::size_t i = 0; i < spots_.size(); ++i) {
            const double share =
                1 / static_cast<double>(spots_.size()) + e * fit_.weight[i][0] + n * fit_.weight[i][1];
            sum.push_back({spots_[i].point, (i == at ? 1 : 0) - share});
        }
        return {static_cast<std::int32_t>(spot), found_.off[at], sd_of(model_, sum)};
    }

    const std::vector<BookSpot>& spots_;
    const FittedPlane& fit_;
    const Model& model_;
    BestPlane found_;
};

}  // namespace

Result<BestPlane> best_plane(const std::vector<BookSpot>& spots, const Heading& heading, const Model& model) {
    std::vector<PlanePoint> points;
    points.reserve(spots.size());
    for (const BookSpot& spot : spots) points.push_back({spot.e, spot.n, spot.level});
    const Result<FittedPlane> fit = fit_plane(points);
    if (!fit) return fit.finding();
    return PlaneFinder(spots, heading, *fit, model).run();
}

}  // namespace fallwright::ground
