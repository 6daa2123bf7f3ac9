#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "desk/desk.h"

namespace fallwright::desk {

namespace {

using Json = nlohmann::json;

Json asked(const Json& options) {
    return Json::parse(answer(Json{{"verb", "drain"}, {"options", options}}.dump()));
}

const Json usual = {{"bore", "150 mm"}, {"fall", "1 in 80"}, {"roughness", "0.6 mm"}};

Json with(const char* name, const Json& value) {
    Json options = usual;
    options[name] = value;
    return asked(options);
}

// What the refusal is about; empty where there is none.
std::string refused(const Json& options) {
    const Json response = asked(options);
    if (!response.contains("error")) return "";
    EXPECT_FALSE(response["error"]["cure"].get<std::string>().empty());
    return response["error"]["about"].empty() ? "?" : response["error"]["about"][0].get<std::string>();
}

std::string refused_with(const char* name, const Json& value) {
    Json options = usual;
    options[name] = value;
    return refused(options);
}

}  // namespace

TEST(Drain, BoresAndRoughnessesAsTyped) {
    const Json wanted = asked(usual);
    ASSERT_FALSE(wanted.contains("error")) << wanted.dump();
    EXPECT_EQ(wanted["bore"], 0.15);
    EXPECT_EQ(wanted["roughness"], 0.0006);
    for (const Json& bore : {Json("150"), Json(150), Json("0.15"), Json(0.15), Json("15 cm")}) {
        for (const Json& rough : {Json("0.6"), Json(0.6), Json("0.0006"), Json(0.0006), Json("0.6mm")}) {
            const Json read = asked({{"bore", bore}, {"fall", 0.0125}, {"roughness", rough}});
            EXPECT_EQ(read, wanted) << bore << " " << rough;
        }
    }
    // As thin as glass: millimetres beside a bare bore in millimetres, metres beside one in metres.
    EXPECT_EQ(asked({{"bore", 150}, {"fall", 0.0125}, {"roughness", 0.0015}})["roughness"], 0.0000015);
    EXPECT_EQ(asked({{"bore", 0.15}, {"fall", 0.0125}, {"roughness", 0.0015}})["roughness"], 0.0015);
}

TEST(Drain, FallsArePositiveTheWayTheWaterRuns) {
    for (const Json& fall :
         {Json("1 in 80 fall"), Json("1:80"), Json("1.25 %"), Json("12.5 mm/m"), Json(0.0125)})
        EXPECT_EQ(with("fall", fall), asked(usual)) << fall;
    const Json adverse = with("fall", "1 in 80 rise");
    EXPECT_EQ(adverse["fall"], -0.0125);
    EXPECT_EQ(adverse["full"]["velocity"], 0);
    EXPECT_EQ(adverse["findings"][0]["code"], "drain-no-fall");
    EXPECT_EQ(with("fall", "level")["findings"][0]["code"], "drain-no-fall");
    EXPECT_EQ(with("fall", 0)["full"]["flow"], 0);
}

TEST(Drain, FeetAreTheSamePipe) {
    const Json metric = asked({{"bore", "8 in"}, {"fall", "0.4 %"}, {"manning", 0.013}, {"flow", "100 gpm"}});
    const Json feet =
        asked({{"bore", "8 in"}, {"fall", "0.4 %"}, {"manning", 0.013}, {"flow", "100 gpm"}, {"unit", "ft"}});
    ASSERT_FALSE(feet.contains("error")) << feet.dump();
    EXPECT_EQ(feet["unit"], "ft");
    EXPECT_NEAR(feet["bore"].get<double>(), 8.0 / 12, 1e-5);
    for (const char* state : {"full", "greatest_flow", "part"}) {
        EXPECT_NEAR(feet[state]["velocity"].get<double>() * 0.3048, metric[state]["velocity"].get<double>(),
                    2e-6);
        EXPECT_NEAR(feet[state]["flow"].get<double>() * 0.028316846592, metric[state]["flow"].get<double>(),
                    1e-7);
        EXPECT_EQ(feet[state]["drag"], metric[state]["drag"]);
    }
    EXPECT_NEAR(feet["flow"].get<double>() * 448.831, 100, 1e-3);
}

TEST(Drain, FlowDepthAndFallFindEachOther) {
    const Json at_flow = with("flow", "5 l/s");
    const double depth = at_flow["part"]["depth"].get<double>();
    const Json at_depth = with("depth", depth);
    EXPECT_NEAR(at_depth["part"]["flow"].get<double>(), 0.005, 2e-6);
    EXPECT_EQ(with("depth", "50 %")["part"]["depth"], 0.075);
    EXPECT_EQ(with("depth", "75")["part"]["depth"], 0.075);
    EXPECT_EQ(with("depth", "75 mm")["part"]["proportion"], 0.5);
    const double full = at_flow["full"]["velocity"].get<double>();
    const Json found = asked({{"bore", "150 mm"}, {"roughness", "0.6 mm"}, {"velocity", full}});
    EXPECT_EQ(found["fall_from"], "velocity");
    EXPECT_NEAR(found["fall"].get<double>(), 0.0125, 2e-7);
    const Json at_both =
        asked({{"bore", "150 mm"}, {"roughness", "0.6 mm"}, {"flow", "5 l/s"}, {"depth", depth}});
    EXPECT_EQ(at_both["fall_from"], "flow");
    EXPECT_NEAR(at_both["fall"].get<double>(), 0.0125, 1e-5);
    const Json full_flow = asked({{"bore", "150 mm"}, {"roughness", "0.6 mm"}, {"flow", "5 l/s"}});
    EXPECT_NEAR(full_flow["full"]["flow"].get<double>(), 0.005, 1e-7);
    const Json speed =
        asked({{"bore", "150 mm"}, {"roughness", "0.6 mm"}, {"flow", "5 l/s"}, {"velocity", "0.7 m/s"}});
    EXPECT_NEAR(speed["part"]["velocity"].get<double>(), 0.7, 1e-5);
}

// Between the full flow and the greatest one two depths carry it; above that none does.
TEST(Drain, TheHumpAndAboveIt) {
    const Json full = asked(usual);
    const double most = full["greatest_flow"]["flow"].get<double>(),
                 bore_full = full["full"]["flow"].get<double>();
    const Json two = with("flow", (most + bore_full) / 2);
    EXPECT_EQ(two["findings"][0]["code"], "drain-two-depths");
    EXPECT_LT(two["part"]["depth"], two["upper"]["depth"]);
    EXPECT_NEAR(two["part"]["flow"].get<double>(), two["upper"]["flow"].get<double>(), 1e-9);
    const Json over = with("flow", most * 1.2);
    EXPECT_EQ(over["findings"][0]["code"], "drain-overfull");
    EXPECT_TRUE(over["part"].is_null());
    EXPECT_GT(over["pressure_fall"], 0.0125);
    EXPECT_TRUE(two["pressure_fall"].is_null());
    EXPECT_TRUE(full["part"].is_null());
    EXPECT_TRUE(full["critical"].is_null());
    EXPECT_EQ(with("flow", 0)["part"]["depth"], 0);
}

TEST(Drain, WhatIsMissingOrTwiceIsRefusedInWords) {
    EXPECT_EQ(refused({{"fall", 0.01}, {"roughness", 0.6}}), "bore");
    EXPECT_EQ(refused({{"bore", 150}, {"fall", 0.01}}), "roughness");
    EXPECT_EQ(refused({{"bore", 150}, {"roughness", 0.6}}), "fall");
    EXPECT_EQ(refused_with("manning", 0.013), "manning");
    EXPECT_EQ(refused_with("velocity", "0.7 m/s"), "velocity");
    Json both = usual;
    both["flow"] = "5 l/s";
    both["depth"] = "50 %";
    EXPECT_EQ(refused(both), "depth");
    both.erase("depth");
    both["dwellings"] = 3;
    EXPECT_EQ(refused(both), "dwellings");
    EXPECT_EQ(refused({{"bore", "8"}, {"fall", 0.01}, {"manning", 0.013}, {"unit", "ft"}}), "bore");
    EXPECT_EQ(refused({{"bore", 150}, {"roughness", 0.6}, {"velocity", "200 m/s"}}), "fall");
}

TEST(Drain, WhatCannotBeIsRefusedInWords) {
    for (const Json& bore : {Json(0), Json(-150), Json("25 m"), Json("wide"), Json(true), Json("150 l/s")})
        EXPECT_EQ(refused_with("bore", bore), "bore") << bore;
    for (const Json& fall : {Json("1 in 0"), Json("2:1"), Json(1.25), Json("1.25"), Json(-3)})
        EXPECT_EQ(refused_with("fall", fall), "fall") << fall;
    for (const Json& rough : {Json(-1), Json("150 mm"), Json(400)})
        EXPECT_EQ(refused_with("roughness", rough), "roughness") << rough;
    for (const Json& flow : {Json(-1), Json("5"), Json("5 l"), Json("1e9"), Json(1e9)}) {
        if (flow == "5") continue;
        EXPECT_EQ(refused_with("flow", flow), "flow") << flow;
    }
    for (const Json& depth : {Json(-1), Json("151 mm"), Json("110 %"), Json("deep")})
        EXPECT_EQ(refused_with("depth", depth), "depth") << depth;
    for (const Json& n : {Json(0), Json(-0.01), Json(2), Json("rough")})
        EXPECT_EQ(refused({{"bore", 150}, {"fall", 0.01}, {"manning", n}}), "manning") << n;
    EXPECT_EQ(refused_with("viscosity", 0), "viscosity");
    EXPECT_EQ(refused_with("closets", 1.5), "closets");
    EXPECT_EQ(refused_with("dwellings", 31), "dwellings");
    EXPECT_EQ(refused_with("rule", "none-of-these"), "rule");
    EXPECT_EQ(refused_with("unit", "yd"), "unit");
}

TEST(Drain, RulesStandSideBySide) {
    Json options = usual;
    options.update({{"fall", "1 in 160"}, {"flow", "2.5 l/s"}, {"closets", 6}, {"rule", "england-foul"}});
    const Json answer = asked(options);
    EXPECT_EQ(answer["held_to"], "england-foul");
    const Json& first = answer["rules"][0];
    EXPECT_EQ(first["name"], "england-foul");
    EXPECT_EQ(first["verdict"], "flatter");
    EXPECT_EQ(first["wants"]["fall"], 0.0066667);
    EXPECT_EQ(first["has"]["fall"], 0.00625);
    EXPECT_EQ(first["edition"], "1998");
    std::size_t hints = 0;
    for (const Json& rule : answer["rules"]) {
        if (rule["provenance"] == "from memory" && rule["verdict"] != "not-applicable") {
            EXPECT_EQ(rule["verdict"], "hint") << rule.dump();
            ++hints;
        }
    }
    EXPECT_GE(hints, 2);
}

}  // namespace fallwright::desk
