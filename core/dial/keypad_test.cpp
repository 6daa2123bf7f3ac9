#include "dial/keypad.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace fallwright {

namespace {

Keypad keypad(bool main_rises, bool cross_rises, bool right, bool permille, bool nested) {
    return {main_rises, cross_rises, right, permille, nested};
}

}  // namespace

// mag-gimbal (derived for this project): a second tilt of 2 % about an axis tilted 5 %.
TEST(Keypad, ANestedSecondTiltGivesALittleMoreFall) {
    const Keypad nested = keypad(true, true, true, false, true);
    const Axes plane = grades_of({0.05, 0.02}, nested);
    EXPECT_NEAR(plane.main, 0.05, 1e-15);
    EXPECT_NEAR(plane.cross, 0.0200249843945, 1e-12);
    EXPECT_NEAR(tangents_for(plane, nested).cross, 0.02, 1e-15);
    EXPECT_EQ(grades_of({0.05, 0.02}, Keypad{}).cross, 0.02);
}

TEST(Keypad, SignSideAndUnitAreTheMachines) {
    const Axes rises = {0.0125, 0.02};  // ahead and to the right
    EXPECT_NEAR(as_keyed(rises, Keypad{}).main, 1.25, 1e-12);
    EXPECT_NEAR(as_keyed(rises, Keypad{}).cross, 2, 1e-12);
    // geo-1: gY if Y counts to the left is the negative.
    EXPECT_NEAR(as_keyed(rises, keypad(true, true, false, false, false)).cross, -2, 1e-12);
    EXPECT_NEAR(as_keyed(rises, keypad(true, false, false, false, false)).cross, 2, 1e-12);
    EXPECT_NEAR(as_keyed(rises, keypad(false, false, true, true, false)).main, -12.5, 1e-12);
    EXPECT_NEAR(as_keyed(rises, keypad(false, false, true, true, false)).cross, -20, 1e-12);
}

TEST(Keypad, RoundingIsToTheNearestStepOfTheMachine) {
    const Axes set = to_step({-0.0146722, 0.0000049}, 1e-5);
    EXPECT_NEAR(set.main, -0.01467, 1e-15);
    EXPECT_EQ(set.cross, 0);
    EXPECT_EQ(to_step({-0.0146722, 0}, 0).main, -0.0146722);
}

TEST(Keypad, DecimalsShowEveryStep) {
    EXPECT_EQ(keypad_places(Keypad{}, 1e-5), 3);  // 0.001 %
    EXPECT_EQ(keypad_places(Keypad{}, 5e-5), 3);  // 0.005 %
    EXPECT_EQ(keypad_places(Keypad{}, 1e-3), 1);  // 0.1 %
    EXPECT_EQ(keypad_places(Keypad{}, 0), 5);
    EXPECT_EQ(keypad_places(keypad(true, true, true, true, false), 1e-5), 2);
}

RC_GTEST_PROP(Keypad, DialThenReadBackReturnsTheDesignWithinHalfAStep, ()) {
    const auto coin = [] { return *rc::gen::arbitrary<bool>(); };
    const Keypad machine = keypad(coin(), coin(), coin(), coin(), coin());
    const double step = *rc::gen::element(1e-5, 5e-5, 1e-4, 1e-3);
    const auto pick = [] { return *rc::gen::inRange(-1000000, 1000001) / 1e7; };
    const Axes wanted = {pick(), pick()};
    const Axes keyed = as_keyed(to_step(tangents_for(wanted, machine), step), machine);
    const Axes back = grades_of(from_keyed(keyed, machine), machine);
    RC_ASSERT(std::fabs(back.main - wanted.main) <= step / 2 + 1e-12);
    // Half a step of the second tilt, and what half a step of the first does to the nesting.
    RC_ASSERT(std::fabs(back.cross - wanted.cross) <= 0.502 * step + 0.01 * step + 1e-12);
}

}  // namespace fallwright
