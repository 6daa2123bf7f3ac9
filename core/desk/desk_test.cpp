#include "desk/desk.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace fallwright::desk {

namespace {

using Json = nlohmann::json;

const char* const first = R"({"kind":"book","format":"fallwright","version":1})";

Json asked(const std::string& verb, const Json& options) {
    return Json::parse(answer(Json{{"verb", verb}, {"options", options}}.dump()));
}

// The code of the error; empty where there is none.
std::string refused(const std::string& response) {
    const Json parsed = Json::parse(response);
    return parsed.contains("error") ? parsed["error"]["code"].get<std::string>() : "";
}

}  // namespace

TEST(Desk, WhatIsNoRequestIsRefusedInWords) {
    for (const char* request : {"", "[]", "7", "{", R"({"verb":7})", R"({"verb":"fly"})",
                                R"({"verb":"evaluate"})", R"({"verb":"staff","options":[]})",
                                R"({"verb":"staff","options":null})", R"({"verb":"levels","book":7})"})
        EXPECT_EQ(refused(answer(request)), "bad-request") << request;
    EXPECT_EQ(refused(answer(R"({"verb":"levels","book":"{}"})")), "not-a-book");
}

TEST(Desk, OneStepAndTwoGiveTheSameBytes) {
    const std::string book = std::string(first) + "\n";
    const auto opened = open(book);
    ASSERT_TRUE(opened);
    for (const char* verb : {"evaluate", "levels"})
        EXPECT_EQ(run(**opened, Json{{"verb", verb}}.dump()),
                  answer(Json{{"verb", verb}, {"book", book}}.dump()));
    EXPECT_EQ(refused(run(**opened, "x")), "bad-request");
    const auto none = open("{}");
    ASSERT_FALSE(none);
    EXPECT_EQ(refused(refuse(none.finding())), "not-a-book");
}

TEST(Desk, AFallMayBeTypedAgainstItsChainageButNotWhatIsShown) {
    Json options = {{"readings", {1.6, 1.2}}, {"at", {40, 0}}};
    const Json fall = asked("fall", options);
    ASSERT_FALSE(fall.contains("error")) << fall.dump();
    // At chainage 0 the staff reads 1.2, at 40 it reads 1.6: it falls with chainage.
    EXPECT_EQ(fall["gradient"]["ratio"], -0.01);
    EXPECT_EQ(fall["difference"], -0.4);
    options["shown"] = "1 in 100 fall";
    EXPECT_TRUE(asked("fall", options).contains("error"));
    const Json onward =
        asked("fall", {{"readings", {1.2, 1.6}}, {"at", {0, 40}}, {"shown", "1 in 100 fall"}});
    EXPECT_EQ(onward["check"]["agrees"], true);
}

TEST(Desk, TypedFallsThatCannotBeAreRefused) {
    for (const Json& options :
         {Json{{"readings", {1.2, 1.6}}, {"at", {0, 0}}}, Json{{"readings", {1.2, 1.6}}, {"at", {0}}},
          Json{{"readings", {1.2, 1.6}}, {"over", -4}},
          Json{{"readings", {1.2, 1.6}}, {"over", 4}, {"at", {0, 4}}},
          Json{{"readings", {1.2, 1.6}}, {"over", 4}, {"over_sd", -1}},
          Json{{"readings", {1.2, 1.6}}, {"shown", 0.01}}, Json{{"readings", 1.2}},
          Json{{"readings", {1.2, nullptr}}}, Json{{"readings", {1.2, 1e300}}},
          Json{{"readings", {1.2, 1.6}}, {"over", 1e300}}, Json{{"line", "D1"}}})
        EXPECT_TRUE(asked("fall", options).contains("error")) << options.dump();
}

TEST(Desk, OneReadingHasItsPicture) {
    const Json upright = asked("staff", {{"reading", 1.432}});
    EXPECT_EQ(upright["reading"], 1.432);
    EXPECT_EQ(upright["inverted"], false);
    const Json inverted = asked("staff", {{"reading", "-4.70 ft"}, {"unit", "ft"}, {"style", "svg"}});
    EXPECT_EQ(inverted["reading"], 4.7);
    EXPECT_EQ(inverted["inverted"], true);
    EXPECT_EQ(inverted["drawing"].get<std::string>().rfind("<svg", 0), 0u);
}

TEST(Desk, AStaffThatCannotBeIsRefused) {
    for (const Json& options :
         {Json::object(), Json{{"reading", "high"}}, Json{{"reading", 12}}, Json{{"reading", 1e300}},
          Json{{"reading", -1e300}}, Json{{"reading", 1}, {"staff_length", 0}},
          Json{{"reading", 1}, {"style", "oil"}}, Json{{"reading", 1}, {"staff_length", 1e300}},
          Json{{"reading", 1}, {"window", 1e300}}, Json{{"reading", 1}, {"unit", "yd"}},
          Json{{"reading", 1}, {"ascii", 1}}})
        EXPECT_TRUE(asked("staff", options).contains("error")) << options.dump();
}

}  // namespace fallwright::desk
