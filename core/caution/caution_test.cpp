#include "caution/caution.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <memory>
#include <utility>

#include "setout/trench.h"
#include "staff/figures.h"

namespace fallwright {

namespace {

// A book as far as the stage before this one.
class Cautioned {
  public:
    explicit Cautioned(const std::string& lines)
        : book_(std::move(*read_book(
              "{\"kind\":\"book\",\"format\":\"fallwright\",\"version\":1,\"curvature\":false}\n" + lines))),
          designs_(design_lines(*book_)),
          figures_(read_figures(*book_)),
          where_(locate(*book_, 30)),
          model_(build_model(*book_, figures_, where_)),
          found_(find_falls(*book_, *model_)),
          basis_{*book_, designs_, where_, *model_, found_},
          cautions(cautions_of(basis_)) {}

    const Caution* of(const std::string& code) const {
        const auto found = std::find_if(cautions.all.begin(), cautions.all.end(),
                                        [&](const Caution& each) { return each.code == code; });
        return found == cautions.all.end() ? nullptr : &*found;
    }
    const SetoutBasis& basis() const { return basis_; }
    const Book& book() const { return *book_; }

  private:
    std::unique_ptr<Book> book_;
    Designs designs_;
    Figures figures_;
    Where where_;
    std::unique_ptr<Model> model_;
    std::vector<LineFalls> found_;
    SetoutBasis basis_;

  public:
    Cautions cautions;
};

const std::string kit = R"({"kind":"benchmark","point":"BM","level":10}
{"kind":"instrument","name":"O","type":"optical-level"}
{"kind":"setup","name":"S","instrument":"O"}
{"kind":"reading","point":"BM","staff":1,"dist":10}
)";

const std::string drain =
    R"({"kind":"line","name":"D1","use":"drain","edges":[1,1],"profile":[{"ch":0,"level":8.5},{"ch":20,"level":8.3}],"pipes":[{"from":0,"to":20,"bore":0.15,"wall":0.02,"bedding":0.1}]}
)";

std::string ground(double ch, double staff, double off = 0) {
    return R"({"kind":"reading","line":"D1","dist":10,"ch":)" + std::to_string(ch) + R"(,"off":)" +
           std::to_string(off) + R"(,"staff":)" + std::to_string(staff) + "}\n";
}

}  // namespace

// Ground 10.0 to 9.8 on the line, a bank of 10.4 at chainage 7: bottom 8.38 - ch / 100 there.
TEST(Caution, DepthIsFoundWhereverGroundWasRead) {
    const Cautioned one(kit + drain + ground(0, 1) + ground(7, 0.6) + ground(20, 1.2));
    const Trench trench = trench_along(one.basis(), 0);
    EXPECT_EQ(trench.depths.size(), 3);
    EXPECT_EQ(trench.deepest_at, 7);
    EXPECT_NEAR(trench.deepest, 10.4 - (8.38 - 0.07), 1e-9);
    EXPECT_GT(trench.deepest_sd, 0);
    ASSERT_NE(one.of("excavation"), nullptr);
    EXPECT_NE(one.of("excavation")->text.find("2.090"), std::string::npos) << one.of("excavation")->text;
    EXPECT_NE(one.of("excavation")->text.find("from chainage 0.000 to 20.000"), std::string::npos);
}

TEST(Caution, TheHigherEdgeCounts) {
    const Cautioned one(kit + drain + ground(0, 1) + ground(20, 1.2) + ground(0, 0.8, -1) +
                        ground(20, 1.2, -1));
    EXPECT_NEAR(trench_along(one.basis(), 0).deepest, 10.2 - 8.38, 1e-9);
    EXPECT_EQ(trench_along(one.basis(), 0).deepest_at, 0);
}

TEST(Caution, WithoutGroundOrDesignTheDepthCannotBeTold) {
    const Cautioned none(kit + drain);
    EXPECT_TRUE(std::isnan(trench_along(none.basis(), 0).deepest));
    EXPECT_NE(none.of("excavation")->text.find("cannot be told"), std::string::npos);
    const Cautioned no_design(kit + R"({"kind":"line","name":"D1","use":"drain"})" + "\n" + ground(0, 1));
    EXPECT_NE(no_design.of("excavation")->text.find("cannot be told"), std::string::npos);
    // A pipe above the ground is dug nowhere; the depth is none, and the caution stays.
    const Cautioned above(kit + drain + ground(0, 3) + ground(20, 3));
    EXPECT_TRUE(std::isnan(trench_along(above.basis(), 0).deepest));
    EXPECT_NE(above.of("excavation"), nullptr);
}

TEST(Caution, WhatDoesNotApplyIsNotSaid) {
    const Cautioned kerb(kit + R"({"kind":"line","name":"K1","use":"kerb","profile":[{"ch":0,"level":10}]})" +
                         "\n");
    EXPECT_NE(kerb.of("traffic"), nullptr);
    for (const char* code :
         {"excavation", "services", "confined-space", "drainage-design", "laser-light", "job"})
        EXPECT_EQ(kerb.of(code), nullptr) << code;
    EXPECT_TRUE(Cautioned(kit).cautions.all.empty());
}

// One sentence about two lines stands once; what is about one line stays with it.
TEST(Caution, EqualSentencesStandOnce) {
    const Cautioned two(kit + drain +
                        R"({"kind":"line","name":"D2","use":"drain","profile":[{"ch":0,"level":9}]})" + "\n");
    EXPECT_EQ(two.of("services")->about, (std::vector<std::string>{"D1", "D2"}));
    EXPECT_EQ(std::count_if(two.cautions.all.begin(), two.cautions.all.end(),
                            [](const Caution& each) { return each.code == "services"; }),
              1);
    for (const Caution& each : cautions_beside(two.book(), two.cautions, 1))
        EXPECT_NE(std::find(each.about.begin(), each.about.end(), "D2"), each.about.end()) << each.text;
}

TEST(Caution, NotesOfTrenchesAreOnceALine) {
    const Cautioned one(kit + drain + ground(0, 1) + ground(20, 1.2));
    SetoutTable table;
    const Findings notes = trench_notes(one.basis(), {table, table});
    ASSERT_EQ(notes.size(), 1);
    EXPECT_EQ(notes[0].code, Code::TrenchDepth);
    EXPECT_TRUE(trench_notes(Cautioned(kit + drain).basis(), {table}).empty());
}

}  // namespace fallwright
