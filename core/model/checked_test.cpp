#include "model/checked.h"

#include <gtest/gtest.h>

#include "model/solved.h"

namespace fallwright {

namespace {

const std::string start = R"({"kind":"benchmark","point":"BM","level":50}
{"kind":"instrument","name":"L","type":"rotating-laser"}
)";

std::string setup(const std::string& name, const std::vector<std::string>& points) {
    std::string text = R"({"kind":"setup","name":")" + name + R"(","instrument":"L"})" + "\n";
    for (const std::string& point : points) {
        text.append(R"({"kind":"reading","point":")").append(point).append("\",\"staff\":1}\n");
    }
    return text;
}

std::string step(const std::string& from, const std::string& to) {
    return R"({"kind":"step","from":")" + from + R"(","to":")" + to + R"(","rise":0})" + "\n";
}

}  // namespace

TEST(Checked, ASingleSightChecksNothingHoweverOftenItIsTaken) {
    const SolvedBook solved(start + setup("S", {"BM", "A", "A", "A"}));
    EXPECT_FALSE(solved.level("A").checked);
    EXPECT_TRUE(solved.level("BM").checked);
}

TEST(Checked, TwoWaysFromTheDatumCheckAllThatLiesOnThem) {
    const SolvedBook solved(start + setup("S", {"BM", "A", "side"}) + setup("T", {"A", "B"}) +
                            setup("U", {"B", "BM"}) + step("B", "hanging"));
    EXPECT_TRUE(solved.level("A").checked && solved.level("B").checked);
    EXPECT_FALSE(solved.level("side").checked || solved.level("hanging").checked);
}

TEST(Checked, APartBehindABridgeIsNotCheckedThoughItIsARing) {
    const SolvedBook solved(start + setup("S", {"BM", "A"}) + step("A", "B") + step("B", "C") +
                            step("C", "A"));
    for (const char* name : {"A", "B", "C"}) EXPECT_FALSE(solved.level(name).checked) << name;
}

TEST(Checked, TwoStepsBetweenTheSamePointsAreTwoWays) {
    EXPECT_FALSE(SolvedBook(start + step("BM", "A")).level("A").checked);
    EXPECT_TRUE(SolvedBook(start + step("BM", "A") + step("BM", "A")).level("A").checked);
}

TEST(Checked, AllBenchmarksAreOneDatum) {
    const std::string second = R"({"kind":"benchmark","point":"TBM","level":50,"sd":0.01}
)";
    EXPECT_TRUE(SolvedBook(start + second + setup("S", {"BM", "TBM", "A"}) + setup("T", {"TBM", "A"}))
                    .level("A")
                    .checked);
    EXPECT_FALSE(SolvedBook(start + second + setup("S", {"BM", "TBM", "A"})).level("A").checked);
}

}  // namespace fallwright
