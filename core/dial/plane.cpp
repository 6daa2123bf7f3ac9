#include "dial/plane.h"

#include <cmath>

#include "quantity/angle.h"

namespace fallwright {

namespace {

constexpr double fine_enough = 0.0002;  // of a gradient, one standard deviation
constexpr double certain = 3;           // a gradient is this many of its sds or more

// Sums about the middle of the points.
struct Scatter {
    double e = 0, n = 0, level = 0;  // the middle
    double ee = 0, en = 0, nn = 0;

    explicit Scatter(const std::vector<PlanePoint>& points) {
        const auto count = static_cast<double>(points.size());
        for (const PlanePoint& point : points) {
            e += point.e / count;
            n += point.n / count;
            level += point.level / count;
        }
        for (const PlanePoint& point : points) {
            ee += (point.e - e) * (point.e - e);
            en += (point.e - e) * (point.n - n);
            nn += (point.n - n) * (point.n - n);
        }
    }
    double determinant() const { return ee * nn - en * en; }
    double largest() const {
        const double half = (ee - nn) / 2;
        return (ee + nn) / 2 + std::sqrt(half * half + en * en);
    }
    // As determinant over the largest: the difference of nearly equal numbers would lose it.
    double smallest() const {
        const double most = largest();
        return most > 0 ? std::fmax(determinant() / most, 0.0) : 0;
    }
};

Finding on_one_line(const char* message) {
    return finding(Code::DialCollinear, {}, message);
}

}  // namespace

Axes in_axes(const Slope& slope, const Heading& heading) {
    return {slope.east * heading.e + slope.north * heading.n,
            slope.east * heading.n - slope.north * heading.e};
}

Slope in_field(const Axes& axes, const Heading& heading) {
    return {axes.main * heading.e + axes.cross * heading.n, axes.main * heading.n - axes.cross * heading.e};
}

Axes turned(const Axes& axes, const Heading& from, const Heading& to) {
    return in_axes(in_field(axes, from), to);
}

double steepest(const Slope& slope) {
    return std::sqrt(slope.east * slope.east + slope.north * slope.north);
}

double bearing_of(double east, double north) {
    if (east == 0 && north == 0) return 0;
    const double angle = atan_degrees(east / (north + 0.0));  // -0 would turn due east into due west
    if (north < 0) return 180 + angle;
    return angle < 0 ? 360 + angle : angle;
}

double FittedPlane::at(double east, double north) const {
    return level + slope.east * (east - e) + slope.north * (north - n);
}

std::vector<Axes> FittedPlane::weight_in(const Heading& heading) const {
    std::vector<Axes> weights;
    weights.reserve(weight.size());
    for (const std::array<double, 2>& each : weight) weights.push_back(in_axes({each[0], each[1]}, heading));
    return weights;
}

Result<FittedPlane> fit_plane(const std::vector<PlanePoint>& points) {
    if (points.size() < 3) return on_one_line("fewer than three points hold no plane");
    const Scatter scatter(points);
    FittedPlane plane;
    plane.spread_along = std::sqrt(scatter.largest());
    plane.spread_across = std::sqrt(scatter.smallest());
    if (plane.spread_across <= least_spread * plane.spread_along)
        return on_one_line("the points lie on one line, so the fall across it is anything");
    plane.e = scatter.e;
    plane.n = scatter.n;
    plane.level = scatter.level;
    const double determinant = scatter.determinant();
    for (const PlanePoint& point : points) {
        const double e = point.e - scatter.e;
        const double n = point.n - scatter.n;
        plane.weight.push_back({(scatter.nn * e - scatter.en * n) / determinant,
                                (scatter.ee * n - scatter.en * e) / determinant});
        plane.slope.east += plane.weight.back()[0] * (point.level - scatter.level);
        plane.slope.north += plane.weight.back()[1] * (point.level - scatter.level);
    }
    for (const PlanePoint& point : points) plane.residual.push_back(plane.at(point.e, point.n) - point.level);
    return plane;
}

Result<Slope> plane_of_two(const PlanePoint& from, const PlanePoint& to, double crossfall) {
    const double e = to.e - from.e;
    const double n = to.n - from.n;
    const double length = std::sqrt(e * e + n * n);
    if (!(length > 0)) return finding(Code::DialBaselineShort, {}, "the two points are at one place");
    return in_field({(to.level - from.level) / length, crossfall}, {true, e / length, n / length});
}

double shortest_baseline(double noise, double gradient_sd) {
    return std::sqrt(2.0) * noise / gradient_sd;
}

bool worth_setting(double gradient, double sd) {
    return sd <= fine_enough || certain * sd <= std::fabs(gradient);
}

}  // namespace fallwright
