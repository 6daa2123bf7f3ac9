#include "evenness/quarter_car.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace fallwright {

namespace {

constexpr double tyre = 653;        // K1, 1/s2
constexpr double spring = 63.3;     // K2, 1/s2
constexpr double unsprung = 0.15;   // mu
constexpr double damper = 6;        // C, 1/s
constexpr double speed = 80 / 3.6;  // m/s

constexpr std::size_t order = 5;  // the state and the slope it is driven by, which stays
using Square = std::array<std::array<double, order>, order>;

Square times(const Square& a, const Square& b) {
    Square c{};
    for (std::size_t i = 0; i < order; ++i) {
        for (std::size_t j = 0; j < order; ++j) {
            for (std::size_t k = 0; k < order; ++k) c[i][j] += a[i][k] * b[k][j];
        }
    }
    return c;
}

// exp(a): the series of a / 2^halvings, squared as often. Elements are under 250 at an interval of a
// metre, so that a 4096th is under 0.1 and 14 terms reach beyond a double's last digit.
Square exponential(Square a) {
    constexpr int halvings = 12;
    constexpr int terms = 14;
    double share = 1;
    for (int i = 0; i < halvings; ++i) share /= 2;
    Square sum{}, term{};
    for (std::size_t i = 0; i < order; ++i) {
        for (double& each : a[i]) each *= share;
        sum[i][i] = term[i][i] = 1;
    }
    for (int n = 1; n <= terms; ++n) {
        term = times(term, a);
        for (std::size_t i = 0; i < order; ++i) {
            for (std::size_t j = 0; j < order; ++j) {
                term[i][j] /= n;
                sum[i][j] += term[i][j];
            }
        }
    }
    for (int i = 0; i < halvings; ++i) sum = times(sum, sum);
    return sum;
}

CarState stepped(const CarStep& step, const CarState& z, double slope) {
    CarState next{};
    for (std::size_t i = 0; i < 4; ++i) {
        for (std::size_t j = 0; j < 4; ++j) next[i] += step.st[i][j] * z[j];
        next[i] += step.pr[i] * slope;
    }
    return next;
}

// What earlier states owe to a later one.
CarState stepped_back(const CarStep& step, const CarState& owed) {
    CarState before{};
    for (std::size_t i = 0; i < 4; ++i) {
        for (std::size_t j = 0; j < 4; ++j) before[j] += step.st[i][j] * owed[i];
    }
    return before;
}

double sign(double v) {
    return v > 0 ? 1 : v < 0 ? -1 : 0;
}

}  // namespace

CarStep car_step(double dx) {
    const double dt = dx / speed;
    Square a{};
    a[0][1] = dt;
    a[1] = {-spring * dt, -damper * dt, spring * dt, damper * dt, 0};
    a[2][3] = dt;
    a[3] = {spring / unsprung * dt, damper / unsprung * dt, -(tyre + spring) / unsprung * dt,
            -damper / unsprung * dt, tyre / unsprung * dt};
    const Square whole = exponential(a);
    CarStep step{};
    for (std::size_t i = 0; i < 4; ++i) {
        for (std::size_t j = 0; j < 4; ++j) step.st[i][j] = whole[i][j];
        step.pr[i] = whole[i][4];
    }
    return step;
}

std::size_t averaged_samples(double dx) {
    constexpr double rounding_room = 1e-9;
    return std::max<std::size_t>(1, static_cast<std::size_t>(std::llround(tyre_base / dx + rounding_room)));
}

QuarterCar::QuarterCar(double dx) : dx_(dx), step_(car_step(dx)) {}

std::vector<double> QuarterCar::averaged(const std::vector<double>& heights) const {
    const std::size_t k = averaged_samples(dx_);
    if (k == 1) return heights;
    std::vector<double> even;
    for (std::size_t i = 0; i + k <= heights.size(); ++i) {
        double sum = 0;
        for (std::size_t j = 0; j < k; ++j) sum += heights[i + j];
        even.push_back(sum / static_cast<double>(k));
    }
    return even;
}

// A shorter profile begins with its own mean slope.
std::size_t QuarterCar::start_intervals(std::size_t heights) const {
    const auto wanted = static_cast<std::size_t>(std::llround(start_up / dx_));
    return std::max<std::size_t>(1, std::min(wanted, heights - 1));
}

CarState QuarterCar::beginning(const std::vector<double>& heights) const {
    const std::size_t at = start_intervals(heights.size());
    const double slope = (heights[at] - heights[0]) / (static_cast<double>(at) * dx_);
    return {slope, 0, slope, 0};
}

std::vector<double> QuarterCar::motion(const std::vector<double>& heights) const {
    if (heights.size() < 2) return {};
    return motion(heights, beginning(heights));
}

std::vector<double> QuarterCar::motion(const std::vector<double>& heights, const CarState& from) const {
    std::vector<double> found;
    CarState z = from;
    for (std::size_t i = 1; i < heights.size(); ++i) {
        z = stepped(step_, z, (heights[i] - heights[i - 1]) / dx_);
        found.push_back(z[0] - z[2]);
    }
    return found;
}

double QuarterCar::index(const std::vector<double>& heights) const {
    const std::vector<double> moved = motion(averaged(heights));
    if (moved.empty()) return NAN;
    double sum = 0;
    for (const double each : moved) sum += std::fabs(each);
    return sum / static_cast<double>(moved.size());
}

std::vector<double> QuarterCar::sensitivity(const std::vector<double>& heights) const {
    const std::vector<double> even = averaged(heights);
    std::vector<double> of_even(even.size(), 0);
    const std::vector<double> moved = motion(even);
    const auto n = static_cast<double>(moved.size());
    CarState owed{};
    for (std::size_t i = moved.size(); i-- > 0;) {
        owed[0] += sign(moved[i]) / n;
        owed[2] -= sign(moved[i]) / n;
        double of_slope = 0;
        for (std::size_t j = 0; j < 4; ++j) of_slope += step_.pr[j] * owed[j];
        of_even[i + 1] += of_slope / dx_;
        of_even[i] -= of_slope / dx_;
        owed = stepped_back(step_, owed);
    }
    if (!moved.empty()) {
        const std::size_t at = start_intervals(even.size());
        const double of_start = (owed[0] + owed[2]) / (static_cast<double>(at) * dx_);
        of_even[at] += of_start;
        of_even[0] -= of_start;
    }
    const std::size_t k = averaged_samples(dx_);
    std::vector<double> of_each(heights.size(), 0);
    for (std::size_t i = 0; i < of_even.size(); ++i) {
        for (std::size_t j = 0; j < k; ++j) of_each[i + j] += of_even[i] / static_cast<double>(k);
    }
    return of_each;
}

double QuarterCar::index_of_noise(std::size_t count) const {
    const std::size_t k = averaged_samples(dx_);
    if (count < k + 1) return NAN;
    // The answer to one height that is 1 m too large, all others 0: a point of its own, averaged.
    constexpr double long_enough = 60;  // metres, after which nothing moves any more
    const std::size_t intervals = count - k;
    const auto last = std::min(intervals + k, static_cast<std::size_t>(long_enough / dx_) + k);
    std::vector<double> one(last + 1, 0);
    for (std::size_t j = 1; j <= k && j < one.size(); ++j) one[j] = 1 / static_cast<double>(k);
    const std::vector<double> answer = motion(one, CarState{});
    const double root = 0.7978845608028654;  // sqrt(2 / pi): mean of |e| of a normal error of sd 1
    double variance = 0, sum = 0;
    for (std::size_t i = 0; i < intervals; ++i) {
        if (i < answer.size()) variance += answer[i] * answer[i];
        sum += root * std::sqrt(variance);
    }
    return sum / static_cast<double>(intervals);
}

}  // namespace fallwright
