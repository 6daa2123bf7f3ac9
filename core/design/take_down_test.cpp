#include <gtest/gtest.h>

#include "design/designed.h"

namespace fallwright {

namespace {

const std::string before = R"({"kind":"instrument","name":"i","type":"optical-level"}
{"kind":"setup","name":"S","instrument":"i"}
{"kind":"line","name":"D1","use":"drain","profile":[{"ch":0,"level":20},{"ch":40,"level":19}],"pipes":[{"from":0,"to":20,"bore":0.15,"wall":0.01,"collar":0.02},{"from":20,"to":40,"bore":0.225,"wall":0.015}]}
)";

std::string reading(const std::string& fields) {
    return R"({"kind":"reading","staff":1.5,)" + fields + "}\n";
}

TakenDown taken(const std::string& readings) {
    return Designed(before + readings).taken_down();
}

}  // namespace

TEST(TakeDown, GoesFromWhereTheStaffStoodToTheInvert) {
    const TakenDown down = taken(
        reading(R"("line":"D1","ch":8,"what":"laid")") +
        reading(R"("line":"D1","ch":9,"what":"laid","on":"invert")") +
        reading(R"("line":"D1","ch":10,"what":"laid","on":"soffit","inverted":true)") +
        reading(R"("line":"D1","ch":11,"what":"laid","on":"crown")") +
        reading(R"("line":"D1","ch":12,"what":"laid","on":"collar")") + reading(R"("point":"elsewhere")"));
    const std::vector<double> metres = {0, 0, 0.15, 0.16, 0.18, 0};
    ASSERT_EQ(down.readings.size(), metres.size());
    for (std::size_t i = 0; i < metres.size(); ++i) EXPECT_NEAR(down.readings[i], metres[i], 1e-12) << i;
    EXPECT_TRUE(down.findings.empty());
}

TEST(TakeDown, WherePipesMeetLaidInBelongsToTheUpstreamPipe) {
    const TakenDown down = taken(reading(R"("line":"D1","ch":20,"what":"laid in","on":"crown")") +
                                 reading(R"("line":"D1","ch":20,"what":"laid out","on":"crown")"));
    EXPECT_NEAR(down.readings[0], 0.16, 1e-12);
    EXPECT_NEAR(down.readings[1], 0.24, 1e-12);
}

TEST(TakeDown, CannotTellWithoutAPipeAndSaysSoOnce) {
    const TakenDown down = taken(reading(R"("line":"D1","ch":30,"what":"laid","on":"collar")") +
                                 reading(R"("line":"D1","ch":50,"what":"laid","on":"collar")") +
                                 reading(R"("point":"P","on":"soffit")"));
    for (const double metres : down.readings) EXPECT_TRUE(std::isnan(metres));
    ASSERT_EQ(down.findings.size(), 2u);
    EXPECT_EQ(down.findings[1].about.size(), 2u);
    EXPECT_EQ(
        down.findings[1].message,
        "the staff stood on the collar on line D1, and no pipe there tells how far the invert lies below it");
}

TEST(TakeDown, LeavesSurfacesThatCountFromWhereTheStaffStood) {
    const TakenDown down = taken(reading(R"("line":"D1","ch":8,"what":"crown","on":"crown")"));
    EXPECT_EQ(down.readings[0], 0);
    ASSERT_EQ(down.findings.size(), 1u);
    EXPECT_EQ(down.findings[0].code, Code::OnNotLaid);
}

}  // namespace fallwright
