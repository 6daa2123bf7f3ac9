#include "effect/effect.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "effect/parts.h"

namespace fallwright {

namespace {

// A staff read at 3 m right of and 20 m along the main axis, 25 m off as the crow flies over a bend.
constexpr SightTerms sight = {20, 3, 25, 1.5, 1, true};

InstrumentErrors figures() {
    InstrumentErrors errors;
    errors.tilt = {1e-5, -2e-5};
    errors.tilt_sd = 3e-6;
    errors.setting_tilt_sd = 4e-6;
    errors.cone = 5e-5;
    errors.cone_sd = 6e-6;
    errors.collimation = -7e-5;
    errors.collimation_sd = 8e-6;
    errors.aim_sd = 0.01;
    errors.grade_sd = 9e-6;
    errors.grade_gain_sd = 0.002;
    return errors;
}

struct Stand {
    InstrumentErrors errors = figures();
    SetupTerms terms;
    Stand(double main, double cross, bool oriented = true) {
        terms.errors = &errors;
        terms.oriented = oriented;
        terms.g = {main, cross};
    }
    Prior prior(const Effect& effect) const { return effect.prior(terms); }
    double coefficient(const Effect& effect) const { return effect.coefficient(terms, sight); }
};

void expect_normal(const Prior& prior, double value, double sd) {
    EXPECT_TRUE(prior.present && !prior.free);
    EXPECT_EQ(prior.value, value);
    EXPECT_EQ(prior.sd, sd);
}

}  // namespace

// Contract section 2: tilt u and v, cone or collimation d, grade_gain gx u and gy v, grade_sd u (v), aim
// gx v - gy u.
TEST(Effect, EachColumnIsThatOfTheRow) {
    const Stand setup(0.02, -0.01);
    EXPECT_EQ(setup.coefficient(tilt_main), 20);
    EXPECT_EQ(setup.coefficient(tilt_cross), 3);
    EXPECT_EQ(setup.coefficient(setting_tilt_main), 20);
    EXPECT_EQ(setup.coefficient(setting_tilt_cross), 3);
    EXPECT_EQ(setup.coefficient(cone), 25);
    EXPECT_EQ(setup.coefficient(collimation), 25);
    EXPECT_DOUBLE_EQ(setup.coefficient(grade_gain_main), 0.4);
    EXPECT_DOUBLE_EQ(setup.coefficient(grade_gain_cross), -0.03);
    EXPECT_EQ(setup.coefficient(grade_setting_main), 20);
    EXPECT_EQ(setup.coefficient(grade_setting_cross), 3);
    EXPECT_DOUBLE_EQ(setup.coefficient(aim), 0.02 * 3 + 0.01 * 20);
}

// measurement.json prop-yaw-50-0, -0-50, -50-30 (derived for this project): 1 degree clockwise, first order.
TEST(Effect, AimCostsWhatATurnOfTheBodyCosts) {
    constexpr double degree = 0.017453292519943295;
    const Stand setup(0.01, 0.02);
    const auto millimetres = [&setup](double u, double v) {
        return 1000 * degree * aim.coefficient(setup.terms, {u, v, 0, 0, 1, true});
    };
    EXPECT_NEAR(millimetres(50, 0), -17.4532925199, 1e-4);
    EXPECT_NEAR(millimetres(0, 50), 8.72664625997, 1e-4);
    EXPECT_NEAR(millimetres(50, 30), -12.217304764, 1e-4);
}

TEST(Effect, PriorsAreTheInstrumentsFigures) {
    const Stand setup(0.02, -0.01);
    expect_normal(setup.prior(tilt_main), 1e-5, 3e-6);
    expect_normal(setup.prior(tilt_cross), -2e-5, 3e-6);
    expect_normal(setup.prior(setting_tilt_main), 0, 4e-6);
    expect_normal(setup.prior(cone), 5e-5, 6e-6);
    expect_normal(setup.prior(collimation), -7e-5, 8e-6);
    expect_normal(setup.prior(grade_gain_main), 0, 0.002);
    expect_normal(setup.prior(grade_setting_cross), 0, 9e-6);
    expect_normal(setup.prior(aim), 0, 0.01);
}

TEST(Effect, ABodyThatIsNotOrientedHasATiltOfItsOwn) {
    const Stand setup(0, 0, false);
    EXPECT_FALSE(setup.prior(tilt_main).present || setup.prior(tilt_cross).present);
    expect_normal(setup.prior(setting_tilt_cross), 0, std::sqrt(3e-6 * 3e-6 + 4e-6 * 4e-6));
}

TEST(Effect, AnAxisAtExactlyNothingHasNoGradeColumns) {
    const Stand level(0, 0), main_only(0.02, 0);
    for (const Effect* effect : {&grade_gain_main, &grade_setting_main, &aim})
        EXPECT_FALSE(level.prior(*effect).present) << effect->name;
    EXPECT_TRUE(main_only.prior(grade_setting_main).present);
    EXPECT_FALSE(main_only.prior(grade_setting_cross).present || main_only.prior(grade_gain_cross).present);
    EXPECT_TRUE(main_only.prior(aim).present);
}

TEST(Effect, AMatchedAxisIsFreeAboutWhatIsShown) {
    Stand setup(-0.0123, 0);
    setup.terms.matched = {true, true};
    setup.terms.shown[0] = {-0.0123};
    const Prior main = setup.prior(grade_setting_main);
    EXPECT_TRUE(main.free);
    EXPECT_EQ(main.value, -0.0123);
    EXPECT_TRUE(setup.prior(grade_setting_cross).free);
    EXPECT_EQ(setup.prior(grade_setting_cross).value, 0);
    EXPECT_FALSE(setup.prior(grade_gain_main).present);
    EXPECT_FALSE(setup.terms.level());
}

TEST(Effect, WhatAnInstrumentShowsExactlyIsExact) {
    Stand setup(-0.0123, 0);
    setup.errors.grade_sd = 0;
    setup.terms.matched[0] = true;
    setup.terms.shown[0] = {-0.0123};
    expect_normal(setup.prior(grade_setting_main), -0.0123, 0);
    setup.errors.grade_step = 0.001;
    EXPECT_TRUE(setup.prior(grade_setting_main).free);
    setup.terms.shown[0] = {};
    setup.errors.grade_step = 0;
    EXPECT_TRUE(setup.prior(grade_setting_main).free);
}

TEST(Effect, AnUncertaintyOfNothingSwitchesItOffUnlessAValueIsKnown) {
    Stand setup(0.02, 0);
    setup.errors = {};
    for (const Effect* effect : instrument_effects())
        EXPECT_FALSE(setup.prior(*effect).present) << effect->name;
    for (const Effect* effect : setup_effects()) EXPECT_FALSE(setup.prior(*effect).present) << effect->name;
    setup.errors.cone = 2e-5;
    expect_normal(setup.prior(cone), 2e-5, 0);
}

// The gradient of the light is the sum of the parts one metre along each axis.
TEST(Effect, GradientPartsAreOfTheirOwnAxisOnly) {
    const Stand setup(0.02, -0.01);
    const auto all = {instrument_effects(), std::span<const Effect* const>(setup_effects())};
    for (const auto& list : all) {
        for (const Effect* effect : list) {
            const double main = effect->coefficient(setup.terms, {1, 0, 1, 0, 1, true});
            const double cross = effect->coefficient(setup.terms, {0, 1, 1, 0, 1, true});
            EXPECT_EQ(effect->scope == Scope::Tripod, effect == &aim);
            EXPECT_EQ(effect->part == Part::MainGradient, main != 0 && cross == 0) << effect->name;
            EXPECT_EQ(effect->part == Part::CrossGradient, cross != 0 && main == 0) << effect->name;
        }
    }
    EXPECT_EQ(grade_setting(0)->part, Part::MainGradient);
    EXPECT_EQ(grade_setting(1)->part, Part::CrossGradient);
}

TEST(Effect, EachIsListedOnceAndHasANameOfItsOwn) {
    std::set<std::string_view> names;
    for (const Effect* effect : instrument_effects()) names.insert(effect->name);
    for (const Effect* effect : setup_effects()) names.insert(effect->name);
    EXPECT_EQ(names.size(), instrument_effects().size() + setup_effect_count);
    EXPECT_EQ(names.count(""), 0u);
}

}  // namespace fallwright
