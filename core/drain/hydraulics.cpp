#include "drain/hydraulics.h"

#include <algorithm>
#include <cassert>
#include <limits>

#include "drain/root.h"

namespace fallwright::drain {

namespace {

constexpr double full_angle = 2 * 3.14159265358979323846;
// The bracket of a fall begins there; a smaller one is none.
constexpr double flattest = 1e-18;
// A few microlitres an hour; less has no depth that arithmetic could tell from none.
constexpr double least_flow = 1e-12;

// What stands in the logarithm of Colebrook-White: the part of the roughness and that of the viscosity.
struct Resisting {
    double rough, smooth;
    double sum() const { return rough + smooth; }
};

Resisting resisting(const Friction& friction, double radius, double root) {
    return {friction.roughness / (14.8 * radius), 2.51 * friction.viscosity / (4 * radius * root)};
}

double root_of_head(double radius, double fall) {
    return std::sqrt(8 * gravity * radius * fall);
}

// d ln V / d ln R: how fast the velocity grows with the hydraulic radius.
double growth(const Friction& friction, double radius, double fall) {
    if (friction.law == Friction::Law::Manning) return 2.0 / 3;
    const Resisting part = resisting(friction, radius, root_of_head(radius, fall));
    const double sum = part.sum();
    return 0.5 + (part.rough + 1.5 * part.smooth) / (sum * -std::log(sum));
}

Uniform uniform(const Friction& friction, double fall, double depth, const Wetted& wet) {
    const double v = velocity(friction, wet.radius, fall);
    return {depth, wet, v, v * wet.area};
}

Uniform uniform_at_angle(const Friction& friction, double bore, double fall, double angle) {
    return uniform(friction, fall, depth_at_angle(bore, angle), wetted_at_angle(bore, angle));
}

// d ln Q / d theta, where it is 0. Beyond the fastest depth the area still grows, at the crown it stands.
double hump(const Friction& friction, double bore, double fall) {
    const auto slope = [&](double angle) {
        const Wetted wet = wetted_at_angle(bore, angle);
        const double grown = growth(friction, wet.radius, fall);
        // dA / dtheta = D^2 (1 - cos theta) / 8 = T^2 / 4, dP / dtheta = D / 2.
        return (1 + grown) * wet.top * wet.top / 4 / wet.area - grown * bore / 2 / wet.perimeter;
    };
    return root_between(slope, fastest_angle, full_angle);
}

}  // namespace

Friction Friction::colebrook_white(double roughness, double viscosity) {
    assert(roughness >= 0 && viscosity > 0);
    Friction friction;
    friction.roughness = roughness;
    friction.viscosity = viscosity;
    return friction;
}

Friction Friction::by_manning(double n) {
    assert(n > 0);
    Friction friction;
    friction.law = Law::Manning;
    friction.manning = n;
    return friction;
}

double velocity(const Friction& friction, double radius, double fall) {
    if (!(fall > 0) || !(radius > 0)) return 0;
    if (friction.law == Friction::Law::Manning) {
        const double third = std::cbrt(radius);
        return third * third * std::sqrt(fall) / friction.manning;
    }
    const double root = root_of_head(radius, fall);
    if (!(root > 0)) return 0;
    return std::max(0.0, -2 * root * std::log10(resisting(friction, radius, root).sum()));
}

double Uniform::froude() const {
    if (!(wet.top > 0)) return std::numeric_limits<double>::infinity();
    return velocity / std::sqrt(gravity * wet.area / wet.top);
}

Uniform uniform_at_depth(const Friction& friction, double bore, double fall, double depth) {
    return uniform(friction, fall, depth, wetted(bore, depth));
}

Uniform uniform_full(const Friction& friction, double bore, double fall) {
    return uniform_at_depth(friction, bore, fall, bore);
}

Uniform greatest_velocity(const Friction& friction, double bore, double fall) {
    return uniform_at_angle(friction, bore, fall, fastest_angle);
}

Uniform greatest_flow(const Friction& friction, double bore, double fall) {
    const Uniform full = uniform_full(friction, bore, fall);
    if (!(full.velocity > 0)) return full;
    return uniform_at_angle(friction, bore, fall, hump(friction, bore, fall));
}

Branches depths_of_flow(const Friction& friction, double bore, double fall, double flow) {
    Branches found;
    if (!(fall > 0) || !(flow >= 0)) return found;
    if (flow <= least_flow) {
        found.lower = uniform_at_depth(friction, bore, fall, 0);
        return found;
    }
    const Uniform most = greatest_flow(friction, bore, fall);
    if (flow > most.flow) return found;
    const auto short_of = [&](double angle) {
        return uniform_at_angle(friction, bore, fall, angle).flow - flow;
    };
    found.lower = uniform_at_angle(friction, bore, fall, root_between(short_of, 0, most.wet.angle));
    if (short_of(full_angle) <= 0)
        found.upper =
            uniform_at_angle(friction, bore, fall, root_between(short_of, most.wet.angle, full_angle));
    return found;
}

double critical_depth(double bore, double flow) {
    if (!(flow > least_flow)) return 0;
    // As a quotient of the two sides' square roots, so that neither end of the bracket is infinite.
    const auto tranquil = [&](double angle) {
        const Wetted wet = wetted_at_angle(bore, angle);
        return std::sqrt(gravity * wet.area) * wet.area - flow * std::sqrt(wet.top);
    };
    return depth_at_angle(bore, root_between(tranquil, 1e-9, full_angle));
}

double fall_of_velocity(const Friction& friction, double radius, double wanted) {
    if (!(wanted > 0)) return 0;
    if (!(radius > 0)) return NAN;
    if (friction.law == Friction::Law::Manning) {
        const double third = std::cbrt(radius);
        const double root = wanted * friction.manning / (third * third);
        return root * root > steepest ? NAN : root * root;
    }
    const auto spare = [&](double fall) { return velocity(friction, radius, fall) - wanted; };
    if (spare(steepest) < 0) return NAN;
    return spare(flattest) >= 0 ? 0 : root_between(spare, flattest, steepest);
}

double fall_of_flow(const Friction& friction, double bore, double depth, double flow) {
    const Wetted wet = wetted(bore, depth);
    if (!(flow > 0)) return 0;
    return wet.area > 0 ? fall_of_velocity(friction, wet.radius, flow / wet.area) : NAN;
}

double fall_carrying(const Friction& friction, double bore, double flow) {
    if (!(flow > 0)) return 0;
    const auto spare = [&](double fall) { return greatest_flow(friction, bore, fall).flow - flow; };
    if (spare(steepest) < 0) return NAN;
    if (spare(flattest) >= 0) return 0;
    return root_between(spare, flattest, steepest);
}

}  // namespace fallwright::drain
