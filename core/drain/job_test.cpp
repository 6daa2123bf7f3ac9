#include "drain/job.h"

#include <gtest/gtest.h>

#include <memory>
#include <string>
#include <utility>

namespace fallwright::drain {

namespace {

std::string rule(const std::string& fields) {
    return R"({"kind":"rule","name":"hydraulics",)" + fields + "}\n";
}

std::unique_ptr<Book> book_of(const std::string& lines) {
    return std::move(*read_book("{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1}\n" + lines));
}

Code said_of(const std::string& fields) {
    const std::unique_ptr<Book> book = book_of(rule(fields));
    return job_of(*book).findings.at(0).code;
}

}  // namespace

TEST(Job, WithoutARuleFrictionIsAssumed) {
    const std::unique_ptr<Book> book = book_of("");
    const Job job = job_of(*book);
    EXPECT_TRUE(job.friction_assumed);
    EXPECT_EQ(job.friction.roughness, assumed_roughness);
    EXPECT_TRUE(std::isnan(job.flow));
    EXPECT_TRUE(job.own.empty());
    EXPECT_EQ(job.held_to, nullptr);
}

TEST(Job, FrictionFlowAndOwnFigures) {
    const std::unique_ptr<Book> book = book_of(rule(
        R"("preset":"maguire","values":{"manning":0.012,"viscosity":1.31e-6,"dwellings":5,"closets":7,"fall":"1 in 80","velocity":0.75,"source":"drawing 12"})"));
    const Job job = job_of(*book);
    EXPECT_FALSE(job.friction_assumed);
    EXPECT_EQ(job.friction.manning, 0.012);
    EXPECT_DOUBLE_EQ(job.flow, 0.0035);
    EXPECT_EQ(job.closets, 7);
    EXPECT_EQ(job.held_to->name, "maguire");
    Pipe pipe;
    EXPECT_EQ(friction_of(job, pipe).law, Friction::Law::Manning);
    pipe.roughness = {0.0015};
    EXPECT_EQ(friction_of(job, pipe).roughness, 0.0015);
    EXPECT_EQ(friction_of(job, pipe).viscosity, 1.31e-6);
    const std::vector<CleansingVerdict> all =
        rules_of(job, {0.15, 1.0 / 100, job.friction, job.flow, job.closets}, Unit::Metre);
    ASSERT_EQ(all.size(), preset::cleansing_rules().size() + 2);
    EXPECT_EQ(all[0].rule->name, "own-fall");
    EXPECT_EQ(all[0].verdict, Cleansing::Flatter);
    EXPECT_DOUBLE_EQ(all[0].wants_fall, 1.0 / 80);
    EXPECT_EQ(all[0].rule->source.text, "drawing 12");
    EXPECT_EQ(all[1].rule->name, "own-velocity");
    EXPECT_EQ(all[2].rule->name, "maguire");
}

TEST(Job, PresetsThatAreNotThereOrFromMemoryAreSaid) {
    EXPECT_EQ(said_of(R"("preset":"none-of-these")"), Code::UnknownPreset);
    EXPECT_EQ(said_of(R"("preset":"one-in-bore")"), Code::PresetFromMemory);
    EXPECT_EQ(said_of(R"("values":{"dwellings":40})"), Code::DrainNoFlow);
}

}  // namespace fallwright::drain
