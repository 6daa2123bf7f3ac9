#include <gtest/gtest.h>

#include "design/designed.h"

namespace fallwright {

namespace {

const std::string points = R"({"kind":"benchmark","point":"A","level":1}
{"kind":"benchmark","point":"B","level":1}
)";

std::string line(const std::string& fields) {
    return R"({"kind":"line","name":"D1","use":"drain",)" + fields + "}\n" + points;
}

}  // namespace

TEST(DesignLevel, AddsTermByTermAndDropsWhatCancels) {
    const DesignLevel x{1, {{1, 1}, {3, 0.5}}};
    const DesignLevel y{2, {{1, 1}, {2, 0.25}}};
    const DesignLevel sum = combined(1, x, -1, y);
    EXPECT_DOUBLE_EQ(sum.constant, -1);
    ASSERT_EQ(sum.hangs.size(), 2u);
    EXPECT_EQ(sum.hangs[0].point, 2u);
    EXPECT_DOUBLE_EQ(sum.hangs[0].coefficient, -0.25);
    EXPECT_EQ(sum.hangs[1].point, 3u);
    EXPECT_DOUBLE_EQ(sum.hangs[1].coefficient, 0.5);
}

TEST(DesignLevel, AbsentStaysAbsentUnlessItDoesNotCount) {
    const DesignLevel absent;
    EXPECT_FALSE(combined(1, absent, 1, {1, {}}).has());
    EXPECT_FALSE(raised(absent, 1).has());
    EXPECT_DOUBLE_EQ(combined(0, absent, 1, {1, {}}).constant, 1);
    EXPECT_TRUE(std::isnan(difference({1, {{1, 1}}}, {1, {}})));
    EXPECT_DOUBLE_EQ(difference({3, {{1, 1}}}, {1, {{1, 1}}}), 2);
}

TEST(DesignLevel, IsNotThereWhereItsPointHasNoLevel) {
    const DesignLevel level{1, {{1, 0.5}}};
    EXPECT_TRUE(std::isnan(level.value(Designed::nothing)));
    EXPECT_DOUBLE_EQ(level.value([](NameId) { return 10.0; }), 6);
}

TEST(Hanging, LiesUnderThePointAndCarriesItOn) {
    const Designed d(
        line(R"("profile":[{"ch":0,"under":"A","by":0.15},{"ch":40,"gradient":"1 in 80 fall"}])"));
    const DesignLevel level = d.line().level("laid", 20);
    EXPECT_NEAR(level.constant, -0.15 - 0.25, 1e-12);
    ASSERT_EQ(level.hangs.size(), 1u);
    EXPECT_NEAR(level.hangs[0].coefficient, 1, 1e-12);
    EXPECT_TRUE(d.line().gradient(20, Side::After).hangs.empty());
}

TEST(Hanging, BetweenTwoPointsLeansOnBothInProportion) {
    const Designed d(line(R"("profile":[{"ch":0,"under":"A"},{"ch":40,"under":"B","by":1}])"));
    const DesignLevel level = d.line().level("laid", 10);
    ASSERT_EQ(level.hangs.size(), 2u);
    EXPECT_NEAR(level.hangs[0].coefficient + level.hangs[1].coefficient, 1, 1e-12);
    for (const Hang& hang : level.hangs)
        EXPECT_NEAR(hang.coefficient, d.book().name(hang.point) == "A" ? 0.75 : 0.25, 1e-12);
    EXPECT_NEAR(level.constant, -0.25, 1e-12);
}

TEST(Hanging, UnderWhatIsNowhereHasNoDesignThereAndTheRestStands) {
    const Designed d(line(R"("profile":[{"ch":0,"level":20},{"ch":20,"level":19.8},{"ch":40,"under":"X"},
        {"ch":60,"gradient":"1 in 80 fall"},{"ch":80,"level":19},{"ch":100,"level":18.9}])"));
    EXPECT_EQ(d.count(Code::UnderUnknown), 1);
    EXPECT_EQ(d.message(Code::UnderUnknown),
              "line D1: the profile hangs under X, which nothing gives a level");
    EXPECT_DOUBLE_EQ(d.level("laid", 10), 19.9);
    EXPECT_DOUBLE_EQ(d.level("laid", 90), 18.95);
    for (const double ch : {21.0, 40.0, 60.0, 79.0}) EXPECT_TRUE(std::isnan(d.level("laid", ch))) << ch;
}

TEST(Hanging, UnderAPointThatIsToBeReadIsNoTrouble) {
    const Designed d(R"({"kind":"instrument","name":"i","type":"optical-level"}
{"kind":"setup","name":"S","instrument":"i"}
{"kind":"reading","point":"P","planned":true}
{"kind":"step","from":"P","to":"Q","rise":0.5}
{"kind":"line","name":"D1","use":"drain","profile":[{"ch":0,"under":"P"},{"ch":40,"under":"Q","by":1}]})");
    EXPECT_TRUE(d.designs().findings.empty());
    EXPECT_TRUE(d.line().level("laid", 10).has());
}

}  // namespace fallwright
