#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "base/print.h"
#include "dial/dial.h"
#include "dial/setter.h"
#include "fall/cross_check.h"

namespace fallwright {

namespace {

class PointDialler {
  public:
    PointDialler(const DialBasis& basis, const std::vector<NameId>& points, double crossfall,
                 std::size_t setup, NameId surface = no_name)
        : basis_(basis),
          points_(points),
          surface_(surface),
          crossfall_(crossfall),
          setup_(setup),
          setter_(basis, setup, dials_.findings) {}

    Dials run() {
        if (!setter_.can_tilt()) {
            setter_.say(Code::DialNoTilt, all_names(), "an optical level cannot be set to " + names());
        } else if (take_points()) {
            points_.size() == 2 ? dial_two() : dial_best_fit();
        }
        return std::move(dials_);
    }

  private:
    bool take_points() {
        if (points_.size() < 2) {
            setter_.say(Code::DialCollinear, {}, "a plane needs two points and a crossfall, or three points");
            return false;
        }
        for (const NameId name : points_) {
            const std::int32_t index = basis_.model.points.at(name);
            const Spot& spot = basis_.where.points[name];
            const double level = index < 0 ? NAN : basis_.model.levels[static_cast<std::size_t>(index)].level;
            const bool one_grid = spots_.empty() || spots_.front().frame == spot.frame;
            if (std::isnan(level) || !spot.known || !one_grid) {
                setter_.say(
                    Code::UnknownReference, {basis_.book.name(name)},
                    basis_.book.name(name) + (std::isnan(level) ? " has no level" : " has no place there"));
                return false;
            }
            indices_.push_back(index);
            spots_.push_back(spot);
            plane_points_.push_back({spot.e, spot.n, level});
        }
        return true;
    }

    void dial_two() {
        const Result<Slope> slope = plane_of_two(plane_points_[0], plane_points_[1], crossfall_);
        if (!slope) {
            setter_.say(slope.finding().code, all_names(), slope.finding().message);
            return;
        }
        const double e = spots_[1].e - spots_[0].e;
        const double n = spots_[1].n - spots_[0].n;
        const double length = std::sqrt(e * e + n * n);
        const Heading heading = {true, e / length, n / length};
        const double weight = 1 / length;
        const double sd = sd_of({{indices_[1], weight}, {indices_[0], -weight}});
        WantedPlane wanted = {
            in_axes(*slope, heading), heading, crossfall_ != 0, spots_[0], spots_[1], names(), all_names()};
        if (!tells(wanted.along.main, sd)) return;
        Dial dial;
        dial.points = points_;
        if (!setter_.set(wanted, dial)) return;
        dial.grades_sd = {sd, 0};
        if (wanted.along.main != 0) {
            dial.grades_sd = {std::fabs(dial.grades.main / wanted.along.main) * sd,
                              std::fabs(dial.grades.cross / wanted.along.main) * sd};
        }
        dial.take_up = take_up(length, heading);
        say_not_proved(dial);
        dials_.dials.push_back(std::move(dial));
    }

    void dial_best_fit() {
        const Result<FittedPlane> plane = fit_plane(plane_points_);
        if (!plane) {
            setter_.say(plane.finding().code, all_names(), plane.finding().message);
            return;
        }
        WantedPlane wanted;
        wanted.heading = basis_.where.headings[setup_];
        wanted.along = in_axes(plane->slope, wanted.heading);
        wanted.name = names();
        wanted.about = all_names();
        farthest_pair(wanted);
        Dial dial;
        dial.surface = surface_;
        dial.points = points_;
        dial.grades_sd = sd_of_fit(*plane, wanted.heading);
        if (!tells(wanted.along.main, dial.grades_sd.main) ||
            !tells(wanted.along.cross, dial.grades_sd.cross))
            return;
        if (setter_.set(wanted, dial)) dials_.dials.push_back(std::move(dial));
    }

    // From the joint covariance of the levels, so that what they share counts once.
    Axes sd_of_fit(const FittedPlane& plane, const Heading& heading) const {
        const std::vector<Axes> weights = plane.weight_in(heading);
        std::vector<PointTerm> main;
        std::vector<PointTerm> cross;
        for (std::size_t i = 0; i < indices_.size(); ++i) {
            main.push_back({indices_[i], weights[i].main});
            cross.push_back({indices_[i], weights[i].cross});
        }
        return {sd_of(main), sd_of(cross)};
    }

    // The stretch over which costs count: from the laser's nearest to its farthest point, or the first to the
    // last.
    void farthest_pair(WantedPlane& wanted) const {
        wanted.from = spots_.front();
        wanted.to = spots_.back();
        const Spot& at = basis_.where.setups[setup_];
        if (!at.known || at.frame != wanted.from.frame) return;
        const auto nearer = [&at](const Spot& a, const Spot& b) { return square(at, a) < square(at, b); };
        const auto ends = std::minmax_element(spots_.begin(), spots_.end(), nearer);
        wanted.from = *ends.first;
        wanted.to = *ends.second;
    }

    static double square(const Spot& a, const Spot& b) {
        return (a.e - b.e) * (a.e - b.e) + (a.n - b.n) * (a.n - b.n);
    }

    double sd_of(const std::vector<PointTerm>& sum) const { return std::sqrt(basis_.model.variance_of(sum)); }

    bool tells(double gradient, double sd) {
        if (worth_setting(gradient, sd)) return true;
        setter_.say(Code::DialBaselineShort, all_names(),
                    names() + " tell a gradient of " + trimmed(gradient * 100, 3) + " % only to " +
                        trimmed(sd * 100, 3) + " %");
        return false;
    }

    // Both points read on the flat plane of the set-up itself, and the laser's place known.
    std::optional<TakeUp> take_up(double length, const Heading& heading) const {
        const Spot& at = basis_.where.setups[setup_];
        const bool flat = basis_.model.sights.setups[setup_].level();
        const double first = read_flat(indices_[0]);
        const double last = read_flat(indices_[1]);
        if (!at.known || !flat || std::isnan(first) || std::isnan(last)) return std::nullopt;
        const bool in_order = square(at, spots_[0]) <= square(at, spots_[1]);
        const std::size_t near = in_order ? 0 : 1;
        const Axes ahead = in_axes({spots_[near].e - at.e, spots_[near].n - at.n},
                                   in_order ? heading : Heading{true, -heading.e, -heading.n});
        const double crossfall = in_order ? crossfall_ : -crossfall_;
        const double mark =
            one_pass_mark(in_order ? first : last, in_order ? last : first, length, ahead.main);
        return TakeUp{points_[near], points_[1 - near], mark + crossfall * ahead.cross};
    }

    // The last upright figure of that point in the set-up; NaN where it is not read there.
    double read_flat(std::int32_t point) const {
        double figure = NAN;
        for (const SightRow& row : basis_.model.sights.rows) {
            if (row.point == point && static_cast<std::size_t>(row.setup) == setup_) figure = row.upright;
        }
        return figure;
    }

    void say_not_proved(const Dial& dial) {
        if (!dial.take_up) return;
        const std::string near = basis_.book.name(dial.take_up->near);
        dials_.findings.push_back(
            finding(Code::MatchNotProved, {near},
                    "the fall is taken up once " + near + " is read again at the mark"));
    }

    std::vector<std::string> all_names() const {
        if (surface_ != no_name) return {basis_.book.name(surface_)};
        std::vector<std::string> all;
        for (const NameId name : points_) all.push_back(basis_.book.name(name));
        return all;
    }

    std::string names() const {
        if (surface_ != no_name) return "surface " + basis_.book.name(surface_);
        std::string text;
        for (const NameId name : points_) text += (text.empty() ? "" : ", ") + basis_.book.name(name);
        return text;
    }

    const DialBasis& basis_;
    const std::vector<NameId>& points_;
    NameId surface_;  // whose points these are; none: points as named
    double crossfall_;
    std::size_t setup_;
    Dials dials_;
    DialSetter setter_;
    std::vector<std::int32_t> indices_;
    std::vector<Spot> spots_;
    std::vector<PlanePoint> plane_points_;
};

}  // namespace

Dials dial_surface(const DialBasis& basis, const DialSurface& surface, std::size_t setup) {
    return PointDialler(basis, surface.points, 0, setup, surface.name).run();
}

Dials dial_points(const DialBasis& basis, const std::vector<NameId>& points, double crossfall,
                  std::size_t setup) {
    return PointDialler(basis, points, crossfall, setup).run();
}

}  // namespace fallwright
