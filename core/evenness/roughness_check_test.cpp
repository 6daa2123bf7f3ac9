#include "evenness/roughness_check.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <functional>

#include "evenness/even_book.h"

namespace fallwright {

namespace {

const char* const road = R"("use":"road")";

std::string every(double dx, double from, double to, const std::function<double(double)>& height) {
    std::string text;
    for (int i = 0; from + i * dx <= to + 1e-9; ++i)
        text += EvenBook::at(from + i * dx, height(from + i * dx));
    return text;
}

double grade(double x) {
    return 100 + 0.02 * x;
}

double wave(double x) {
    return 100 + 0.004 * std::sin(x / 1.7) + 0.002 * std::sin(x / 0.6);
}

std::string refused(const std::string& readings) {
    return EvenBook(road, "", readings).row().roughness_refused;
}

}  // namespace

// IR-05 as a book: the readings are kept to 1e-7 m.
TEST(Roughness, OfAPlaneGradeIsNone) {
    const EvenRow row = EvenBook(road, "", every(0.25, 0, 25, grade)).row();
    ASSERT_EQ(row.roughness.size(), 1U);
    EXPECT_LT(row.roughness[0].index, 1e-6);
    EXPECT_NEAR(row.roughness[0].spacing, 0.25, 1e-9);
    EXPECT_TRUE(row.roughness_refused.empty());
}

TEST(Roughness, IsRefusedWithTheReason) {
    EXPECT_NE(refused(every(1, 0, 50, grade)).find("readings stand 1 m apart"), std::string::npos);
    EXPECT_NE(refused(every(0.25, 0, 10.75, grade)).find("shorter than the 11 m"), std::string::npos);
    EXPECT_EQ(refused(every(0.25, 0, 11, grade)), "");
    EXPECT_EQ(refused(every(0.5, 0, 20, grade)), "");
    EXPECT_NE(refused(every(0.55, 0, 22, grade)).find("0.5 m at most"), std::string::npos);
}

TEST(Roughness, AHolePartsTheRow) {
    const std::string two = every(0.25, 0, 12, grade) + every(0.25, 14, 20, grade);
    const EvenRow row = EvenBook(road, "", two).row();
    ASSERT_EQ(row.roughness.size(), 1U);
    EXPECT_NEAR(row.roughness[0].to, 12, 1e-9);
    EXPECT_NE(row.roughness_refused.find("from 14.000 to 20.000"), std::string::npos);
}

TEST(Roughness, IsOfRoadsOnly) {
    const EvenRow kerb = EvenBook(R"("use":"kerb")", "", every(0.25, 0, 12, grade)).row();
    EXPECT_TRUE(kerb.roughness.empty());
    EXPECT_TRUE(kerb.roughness_refused.empty());
}

// IR-08, IR-09: fine readings are of a class, coarse ones of none, and their noise is said.
TEST(Roughness, ClassFollowsFromWhatTheReadingsCarry) {
    const auto rough = [](double noise, double dx = 0.25) {
        return EvenBook(road, "", every(dx, 0, 50, wave), noise).row().roughness.at(0);
    };
    const Roughness fine = rough(0.00002);
    EXPECT_EQ(fine.staff_class, 1);
    EXPECT_NEAR(fine.level_sd, 0.00002, 1e-9);
    EXPECT_NEAR(fine.without_noise, fine.index, 0.01 * fine.index);
    EXPECT_EQ(rough(0.00002, 0.5).staff_class, 2);  // the wider interval is of class 2 at best
    const Roughness coarse = rough(0.0012);
    EXPECT_EQ(coarse.staff_class, 0);
    EXPECT_NEAR(coarse.noise, 60 * fine.noise, 0.001 * coarse.noise);
    EXPECT_NEAR(coarse.asks[1], 2 * coarse.asks[0], 1e-12);
}

RC_GTEST_PROP(Roughness, ScalesWithTheProfileAndForgetsTheGrade, ()) {
    const int factor = *rc::gen::inRange(2, 6);
    const double slope = *rc::gen::inRange(-50, 51) / 1000.0;
    const auto index = [](const std::function<double(double)>& height) {
        return EvenBook(road, "", every(0.25, 0, 20, height)).row().roughness.at(0).index;
    };
    const double once = index(wave);
    const double more = index([&](double x) { return 100 + factor * (wave(x) - 100); });
    const double tilted = index([&](double x) { return wave(x) + slope * x; });
    RC_ASSERT(std::fabs(more - factor * once) < 1e-6 * factor);
    RC_ASSERT(std::fabs(tilted - once) < 1e-6);
}

}  // namespace fallwright
