#include <gtest/gtest.h>

#include <cmath>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "plan/plan.h"

namespace fallwright {
namespace {

// A book and all a plan asks of its evaluation.
class Planned {
  public:
    explicit Planned(const std::string& entries)
        : book_(std::move(
              *read_book("{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1}\n" + entries))),
          designs_(design_lines(*book_)),
          figures_(read_figures(*book_)),
          where_(locate(*book_, 30)),
          model_(build_model(*book_, figures_, where_)),
          found_(find_falls(*book_, *model_)) {}

    Plan plan(bool search) const {
        PlanWish wish;
        wish.search = search;
        return plan_work({*book_, designs_, figures_, where_, *model_, found_, checked_}, wish);
    }
    double sd(const std::string& point) const {
        const std::int32_t at = model_->points.at(book_->names.find(point));
        return model_->levels.at(static_cast<std::size_t>(at)).sd;
    }

  private:
    std::unique_ptr<Book> book_;
    Designs designs_;
    Figures figures_;
    Where where_;
    std::unique_ptr<Model> model_;
    std::vector<LineFalls> found_;
    CheckedInstruments checked_;
};

// Two set-ups in a line, common points CP and Q, a benchmark at either end; every effect of a laser is there.
const std::string ground =
    R"({"kind":"benchmark","point":"A","level":10,"sd":0.001}
{"kind":"benchmark","point":"B","level":10.2,"sd":0.001}
{"kind":"instrument","name":"L","type":"rotating-laser"}
{"kind":"place","point":"A","e":-4,"n":0}
{"kind":"place","point":"P1","e":6,"n":20}
{"kind":"place","point":"P2","e":2,"n":45}
{"kind":"place","point":"CP","e":0,"n":62}
{"kind":"place","point":"Q","e":9,"n":58}
{"kind":"place","point":"P3","e":5,"n":90}
{"kind":"place","point":"B","e":1,"n":125}
{"kind":"setup","name":"S1","instrument":"L","place":{"e":0,"n":30},"plane":{"main":0,"cross":0,"bearing":0}}
{"kind":"setup","name":"S2","instrument":"L","place":{"e":0,"n":95},"plane":{"main":0,"cross":0,"bearing":0}}
)";

struct Sighted {
    const char* setup;
    const char* point;
};
const std::vector<Sighted> all_sights = {{"S1", "A"},  {"S1", "P1"}, {"S1", "P2"}, {"S1", "CP"},
                                         {"S1", "Q"},  {"S2", "CP"}, {"S2", "Q"},  {"S2", "P2"},
                                         {"S2", "P3"}, {"S2", "B"},  {"S1", "A"}};

std::string sighted(const Sighted& sight, bool planned) {
    return std::string(R"({"kind":"reading","setup":")") + sight.setup + R"(","point":")" + sight.point +
           (planned ? "\",\"planned\":true}\n" : "\",\"staff\":1.5}\n");
}

// All of them but one; those before `read` are read, the rest planned.
std::string book_of(std::size_t without, std::size_t read) {
    std::string text = ground;
    for (std::size_t i = 0; i < all_sights.size(); ++i) {
        if (i != without) text += sighted(all_sights[i], i >= read);
    }
    return text;
}
std::string book_of(std::size_t read) {
    return book_of(all_sights.size(), read);
}

double sd_in(const Plan& plan, const std::string& point) {
    for (const StationOutlook& station : plan.outlook.stations) {
        if (plan.names[station.point] == point) return station.sd;
    }
    return NAN;
}

TEST(PlanInvariants, WhatIsPlannedIsAsSureAsItIsOnceRead) {
    const Planned done(book_of(all_sights.size()));
    for (const std::size_t read : {0U, 1U, 4U, 7U}) {
        const Plan plan = Planned(book_of(read)).plan(false);
        ASSERT_FALSE(plan.outlook.stations.empty());
        for (const StationOutlook& station : plan.outlook.stations) {
            EXPECT_NEAR(station.sd, done.sd(plan.names[station.point]), 1e-12)
                << plan.names[station.point] << " with " << read << " read";
        }
    }
}

TEST(PlanInvariants, AFurtherReadingNeverMakesALevelLessSure) {
    const Plan with = Planned(book_of(0)).plan(false);
    int surer = 0;
    for (std::size_t left_out = 0; left_out < all_sights.size(); ++left_out) {
        const Plan without = Planned(book_of(left_out, 0)).plan(false);
        for (const StationOutlook& station : without.outlook.stations) {
            const double less = sd_in(with, without.names[station.point]);
            EXPECT_LE(less, station.sd + 1e-12)
                << without.names[station.point] << " without sight " << left_out;
            surer += less < station.sd - 1e-6 ? 1 : 0;
        }
    }
    EXPECT_GT(surer, 10);
}

TEST(PlanInvariants, ASearchIsNeverWorseThanItsStartAndItsStepsAddUp) {
    // One set-up, one benchmark, nothing twice: much to better.
    std::string text = ground;
    for (const std::size_t i : {0U, 1U, 2U, 3U, 5U, 8U}) text += sighted(all_sights[i], true);
    const Plan plan = Planned(text).plan(true);
    ASSERT_FALSE(plan.steps.empty());
    EXPECT_LT(plan.better_outlook.worst, plan.outlook.worst);
    double worst = plan.outlook.worst;
    double mean = plan.outlook.mean;
    double effort = plan.outlook.effort;
    for (const Advice& step : plan.steps) {
        EXPECT_GE(step.worst_gain, -1e-12);
        worst -= step.worst_gain;
        mean -= step.mean_gain;
        effort += step.effort;
        EXPECT_NEAR(step.worst, worst, 1e-12);
        EXPECT_NEAR(step.mean, mean, 1e-12);
    }
    EXPECT_NEAR(plan.better_outlook.worst, worst, 1e-12);
    EXPECT_NEAR(plan.better_outlook.mean, mean, 1e-12);
    EXPECT_NEAR(plan.better_outlook.effort, effort, 1e-9);
}

TEST(PlanInvariants, TheSameBookGivesTheSamePlan) {
    const Planned planned(book_of(2));
    const Plan a = planned.plan(true);
    const Plan b = planned.plan(true);
    EXPECT_EQ(a.tried, b.tried);
    EXPECT_EQ(a.better_outlook.worst, b.better_outlook.worst);
    EXPECT_EQ(a.better_outlook.mean, b.better_outlook.mean);
    ASSERT_EQ(a.steps.size(), b.steps.size());
    for (std::size_t i = 0; i < a.steps.size(); ++i) {
        EXPECT_EQ(a.steps[i].change, b.steps[i].change);
        EXPECT_EQ(a.steps[i].points, b.steps[i].points);
        EXPECT_EQ(a.steps[i].setups, b.steps[i].setups);
    }
}

TEST(PlanInvariants, ACureShowsWhatItPromises) {
    std::string text = ground;
    for (const std::size_t i : {0U, 1U, 2U, 3U}) text += sighted(all_sights[i], true);
    const Plan plan = Planned(text).plan(false);
    ASSERT_EQ(plan.outlook.sights.size(), 4U);
    for (std::size_t i = 0; i < 4; ++i) {
        ASSERT_TRUE(std::isnan(plan.outlook.sights[i].detectable)) << i;
        const Cure& cure = plan.outlook.sights[i].cure;
        const std::string setup = plan.names[plan.layout.stands[cure.stand].name];
        const std::string point = plan.names[cure.point];
        const Plan cured = Planned(text + sighted({setup.c_str(), point.c_str()}, true)).plan(false);
        EXPECT_NEAR(cured.outlook.sights[i].detectable, cure.detectable, 1e-9) << i << " by " << point;
    }
}

}  // namespace
}  // namespace fallwright
