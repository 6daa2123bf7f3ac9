// What must hold for every pipe, law, fall and flow.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "drain/hydraulics.h"

namespace fallwright::drain {

namespace {

// A pipe of 20 mm to 3 m, smooth to as rough as the law goes, at 1 in 10000 to 1 in 5.
struct Drawn {
    double bore = *rc::gen::inRange(20, 3000) / 1000.0;
    double fall = 1.0 / *rc::gen::inRange(5, 10000);
    bool manning = *rc::gen::arbitrary<bool>();
    Friction friction = manning ? Friction::by_manning(*rc::gen::inRange(8, 40) / 1000.0)
                                : Friction::colebrook_white(bore * *rc::gen::inRange(0, 500) / 10000.0);
    double share(int from, int to) const { return *rc::gen::inRange(from, to) / 1e6; }
};

bool near(double a, double b, double relative) {
    return std::fabs(a - b) <= relative * std::fmax(std::fabs(a), std::fabs(b));
}

}  // namespace

RC_GTEST_PROP(HydraulicsProperty, DepthOfTheFlowOfADepth, ()) {
    const Drawn pipe;
    const double depth = pipe.bore * pipe.share(1000, 1000000);
    const Uniform at = uniform_at_depth(pipe.friction, pipe.bore, pipe.fall, depth);
    RC_PRE(at.flow > 1e-9);
    const Uniform most = greatest_flow(pipe.friction, pipe.bore, pipe.fall);
    RC_ASSERT(at.flow <= most.flow * (1 + 1e-12));
    const Branches found = depths_of_flow(pipe.friction, pipe.bore, pipe.fall, at.flow);
    // On the hump itself a depth is known only to the root of the last bit.
    const double sharp = std::fabs(depth - most.depth) < 0.01 * pipe.bore ? 1e-6 : 1e-10;
    RC_ASSERT(near(depth < most.depth ? found.lower.depth : found.upper.depth, depth, sharp));
}

RC_GTEST_PROP(HydraulicsProperty, RisesToTheHumpAndFallsBeyond, ()) {
    const Drawn pipe;
    const auto flow_at = [&](double depth) {
        return uniform_at_depth(pipe.friction, pipe.bore, pipe.fall, depth).flow;
    };
    const double hump = greatest_flow(pipe.friction, pipe.bore, pipe.fall).depth;
    RC_ASSERT(hump >= fastest_depth * pipe.bore && hump <= pipe.bore);
    const double low = pipe.share(0, 999000), high = low + 0.001;
    RC_ASSERT(flow_at(low * hump) <= flow_at(high * hump));
    RC_ASSERT(flow_at(hump + low * (pipe.bore - hump)) >= flow_at(hump + high * (pipe.bore - hump)));
}

// More fall, more bore, less roughness: faster, and a lower depth for the same flow.
RC_GTEST_PROP(HydraulicsProperty, MonotoneInFallBoreAndRoughness, ()) {
    const Drawn pipe;
    const double more = 1 + pipe.share(1000, 1000000);
    const Uniform full = uniform_full(pipe.friction, pipe.bore, pipe.fall);
    RC_PRE(full.velocity > 0);
    RC_ASSERT(uniform_full(pipe.friction, pipe.bore, pipe.fall * more).velocity > full.velocity);
    RC_ASSERT(uniform_full(pipe.friction, pipe.bore * more, pipe.fall).velocity > full.velocity);
    Friction rougher = pipe.friction;
    rougher.manning *= more;
    rougher.roughness *= more;
    RC_ASSERT(uniform_full(rougher, pipe.bore, pipe.fall).velocity <= full.velocity);
    const double flow = full.flow * pipe.share(1000, 1000000);
    RC_ASSERT(depths_of_flow(pipe.friction, pipe.bore, pipe.fall * more, flow).lower.depth <
              depths_of_flow(pipe.friction, pipe.bore, pipe.fall, flow).lower.depth);
    RC_ASSERT(critical_depth(pipe.bore, flow * more) > critical_depth(pipe.bore, flow));
}

RC_GTEST_PROP(HydraulicsProperty, FallOfTheVelocityOfAFall, ()) {
    const Drawn pipe;
    const double depth = pipe.bore * pipe.share(50000, 1000000);
    const Uniform at = uniform_at_depth(pipe.friction, pipe.bore, pipe.fall, depth);
    RC_PRE(at.velocity > 0);
    RC_ASSERT(near(fall_of_velocity(pipe.friction, at.wet.radius, at.velocity), pipe.fall, 1e-9));
    RC_ASSERT(near(fall_of_flow(pipe.friction, pipe.bore, depth, at.flow), pipe.fall, 1e-9));
    const double least = fall_carrying(pipe.friction, pipe.bore, at.flow);
    RC_ASSERT(least <= pipe.fall * (1 + 1e-9));
    RC_ASSERT(near(greatest_flow(pipe.friction, pipe.bore, least).flow, at.flow, 1e-9));
}

// A pipe drawn in another unit is the same pipe: Manning's velocity goes with the 2/3 power of the scale.
RC_GTEST_PROP(HydraulicsProperty, ManningScales, ()) {
    const Drawn pipe;
    const Friction friction = Friction::by_manning(0.013);
    const double scale = *rc::gen::inRange(1, 1000) / 100.0;
    const double speed = uniform_full(friction, pipe.bore, pipe.fall).velocity;
    const double scaled = uniform_full(friction, pipe.bore * scale, pipe.fall).velocity;
    RC_ASSERT(near(scaled, speed * std::cbrt(scale * scale), 1e-12));
    RC_ASSERT(near(greatest_flow(friction, pipe.bore * scale, pipe.fall).depth,
                   greatest_flow(friction, pipe.bore, pipe.fall).depth * scale, 1e-9));
}

}  // namespace fallwright::drain
