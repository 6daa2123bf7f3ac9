#include "preset/cautions.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace fallwright::preset {

namespace {

constexpr double foot = 0.3048;

const ExcavationLimits& limits(std::string_view name) {
    const ExcavationLimits* found = find_excavation_limits(name);
    EXPECT_NE(found, nullptr) << name;
    return *found;
}

bool says(CautionOf of, std::string_view words) {
    return caution_text(of).text.find(words) != std::string_view::npos;
}

}  // namespace

// SA-01 and SA-03: 29 CFR 1926.652(a) and 1926.651.
TEST(PresetCautions, LimitsOfTheUnitedStates) {
    const ExcavationLimits& us = limits("united-states");
    EXPECT_DOUBLE_EQ(us.support, 5 * foot);
    EXPECT_NEAR(us.support, 1.524, 1e-12);
    EXPECT_DOUBLE_EQ(us.way_out, 4 * foot);
    EXPECT_DOUBLE_EQ(us.way_out_within, 25 * foot);
    EXPECT_DOUBLE_EQ(us.spoil, 2 * foot);
    EXPECT_DOUBLE_EQ(us.air, 4 * foot);
    EXPECT_DOUBLE_EQ(us.engineered, 20 * foot);
    EXPECT_EQ(&usual_excavation_limits(Unit::Foot), &us);
}

// SA-04: 1.2 m is industry's rule of thumb, no law. SA-05: Norway 1.0 m, Germany 1.25 m, Poland 0.6 m.
TEST(PresetCautions, LimitsOfOtherCountries) {
    const ExcavationLimits& gb = limits("great-britain");
    EXPECT_EQ(gb.support, 1.2);
    EXPECT_NE(gb.support_is.find("no legal limit"), std::string_view::npos);
    EXPECT_TRUE(std::isnan(gb.spoil));
    EXPECT_EQ(&usual_excavation_limits(Unit::Metre), &gb);
    EXPECT_EQ(limits("norway").spoil, 1.0);
    EXPECT_EQ(limits("norway").way_out, 1.0);
    EXPECT_TRUE(std::isnan(limits("norway").support));
    EXPECT_EQ(limits("germany").support, 1.25);
    EXPECT_EQ(limits("poland").spoil, 0.6);
    EXPECT_EQ(find_excavation_limits("none-of-these"), nullptr);
}

// SA-02: atan(1 / 0.75) is 53.1 degrees, atan(1 / 1.5) 33.7.
TEST(PresetCautions, SlopesBySoil) {
    for (const char* words : {"1.5 to 1 (34 degrees)", "0.75 to 1 (53 degrees)", "1 to 1 (45)", "20 ft"})
        EXPECT_TRUE(says(CautionOf::Slopes, words)) << words;
}

// SA-06 to SA-10: what each source says, in our words.
TEST(PresetCautions, TextsSayWhatTheirSourcesSay) {
    for (const char* words :
         {"Plan the work, locate and identify", "dig safely", "hand-dug", "live", "notify"})
        EXPECT_TRUE(says(CautionOf::Services, words)) << words;
    for (const char* words : {"1 mW", "5 mW", "telescope", "rained operator", "notices", "off", "at people"})
        EXPECT_TRUE(says(CautionOf::LaserLight, words)) << words;
    for (const char* words :
         {"oxygen", "toxic", "flammable", "from the surface", "safe system of work", "rescue"})
        EXPECT_TRUE(says(CautionOf::ConfinedSpace, words)) << words;
    for (const char* words : {"working space", "safety zone", "0.5 m", "1.2 m", "from memory"})
        EXPECT_TRUE(says(CautionOf::Traffic, words)) << words;
    for (const char* words : {"licensed", "code", "do not pass a drain"})
        EXPECT_TRUE(says(CautionOf::DrainageDesign, words)) << words;
    EXPECT_TRUE(says(CautionOf::Inspection, "each shift"));
}

TEST(PresetCautions, NothingIsCalledSafe) {
    for (const CautionText& each : caution_texts()) {
        EXPECT_EQ(each.text.find("no support needed"), std::string_view::npos);
        EXPECT_EQ(each.text.find("is safe"), std::string_view::npos);
        EXPECT_NE(each.text.back(), '.');
    }
}

}  // namespace fallwright::preset
