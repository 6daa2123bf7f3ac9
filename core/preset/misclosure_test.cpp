#include "preset/misclosure.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "quantity/gradient.h"

namespace fallwright::preset {

namespace {

double allowed_mm(std::string_view name, int sets, double km) {
    const MisclosurePreset* preset = find_misclosure(name);
    EXPECT_NE(preset, nullptr) << name;
    return preset ? allowed_m(preset->rule(), sets, km) * 1000 : -1;
}

// Independent of the code: 304.8 mm a foot, 1.609344 km a mile.
double mm_per_root_km(double feet_per_root_mile) {
    return feet_per_root_mile * 304.8 / std::sqrt(1.609344);
}

}  // namespace

// AL-01 'Levelling (continued)', lecture slides: 5 sqrt(3) = 8.66 mm, printed.
TEST(Misclosure, FiveTimesRootOfSetUpsAsOnTheSlides) {
    EXPECT_NEAR(allowed_mm("construction-sets-5", 3, 99), 8.66, 0.005);
}

// AL-04 Ghilani and Wolf, Elementary Surveying, 14th edition, problem 5.37 (the question was seen, k from
// memory, answers recomputed): a 20 km loop of third order, a 10 km section of second order class I, a 30 km
// loop of first order class I.
TEST(Misclosure, ThreeLinesOfLevels) {
    EXPECT_NEAR(allowed_mm("fgcc-loop-third", 99, 20), 53.67, 0.005);
    EXPECT_NEAR(allowed_mm("fgcc-section-second-class-1", 99, 10), 18.97, 0.005);
    EXPECT_NEAR(allowed_mm("fgcc-loop-first-class-1", 99, 30), 21.91, 0.005);
}

// AL-05 US Army EN0593, paragraph 4-3: 8.4 mm sqrt(km) is 0.035 ft sqrt(mile), both printed.
TEST(Misclosure, ArmyFigureIsTheSameInFeetAndMiles) {
    EXPECT_NEAR(mm_per_root_km(0.035), 8.4, 0.01);
    EXPECT_EQ(rule_text(find_misclosure("us-army-second-order")->rule(), Unit::Foot),
              "0.0350 ft x sqrt(miles)");
    EXPECT_NEAR(allowed_mm("us-army-second-order", 0, 4), 16.8, 1e-9);
}

// AL-06 Division of National Mapping, Instructions for first-order levelling: 4 sqrt(K) mm; collimation at
// most 1.0 mm over 50 m, which is 4.1 seconds of arc (recomputed).
TEST(Misclosure, AustralianFirstOrder) {
    EXPECT_NEAR(allowed_mm("australia-first-order", 0, 1), 4, 1e-12);
    EXPECT_NEAR(Gradient::of(Length::metres(0.001), Length::metres(50)).degrees() * 3600, 4.1, 0.05);
}

// AL-08 USACE closure tables, from memory: the two columns agree with one another when converted, to 0.5 mm.
TEST(Misclosure, CorpsOfEngineersColumnsAgree) {
    constexpr std::array<std::pair<std::string_view, double>, 6> feet = {
        {{"usace-first-class-1", 0.013},
         {"usace-first-class-2", 0.017},
         {"usace-second-class-1", 0.025},
         {"usace-second-class-2", 0.035},
         {"usace-third", 0.05},
         {"usace-construction-layout", 0.1}}};
    for (const auto& [name, a] : feet) EXPECT_NEAR(allowed_mm(name, 0, 1), mm_per_root_km(a), 0.5) << name;
}

// AL-07 Indian textbook classes, C sqrt(D) metres as printed.
TEST(Misclosure, IndianClassesAreInMillimetres) {
    EXPECT_NEAR(allowed_mm("india-rough", 0, 1), 100, 1e-9);
    EXPECT_NEAR(allowed_mm("india-ordinary", 0, 1), 25, 1e-9);
    EXPECT_NEAR(allowed_mm("india-accurate", 0, 1), 12, 1e-9);
    EXPECT_NEAR(allowed_mm("india-precise", 0, 1), 6, 1e-9);
}

// AL-02 US National Geodetic Survey: these are standard deviations. AL-05: 9.0 rejects a running from the
// mean.
TEST(Misclosure, CriteriaThatAreNoLimitsAreNeverOffered) {
    int others = 0;
    for (const MisclosurePreset& preset : misclosure_presets()) {
        const bool offered = find_misclosure(preset.name) != nullptr;
        EXPECT_EQ(offered, preset.criterion == Criterion::Misclosure) << preset.name;
        if (offered) continue;
        ++others;
        EXPECT_NE(preset.use.find("not a misclosure limit"), std::string_view::npos) << preset.name;
    }
    EXPECT_EQ(others, 6);
    EXPECT_EQ(find_misclosure("no-such-preset"), nullptr);
}

TEST(Misclosure, NothingLevelledAllowsNothing) {
    EXPECT_EQ(allowed_mm("construction-sets-5", 0, 1), 0);
    EXPECT_EQ(allowed_mm("construction-sets-5", -1, 1), 0);
    EXPECT_EQ(allowed_mm("fgcc-loop-third", 5, -1), 0);
}

TEST(Misclosure, RulesInWordsFollowTheUnitOfTheBook) {
    EXPECT_EQ(rule_text(find_misclosure("construction-sets-5")->rule(), Unit::Metre), "5 mm x sqrt(set-ups)");
    EXPECT_EQ(rule_text(find_misclosure("construction-sets-5")->rule(), Unit::Foot),
              "0.0164 ft x sqrt(set-ups)");
    EXPECT_EQ(rule_text(find_misclosure("fgcc-loop-third")->rule(), Unit::Metre), "12 mm x sqrt(km)");
    EXPECT_EQ(rule_text(model_rule(), Unit::Metre), "1.96 standard deviations of the misclosure");
    EXPECT_EQ(model_rule().by, MisclosureRule::By::Model);
}

}  // namespace fallwright::preset
