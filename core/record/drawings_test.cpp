#include "record/drawings.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <map>
#include <set>
#include <sstream>

#include "base/print.h"
#include "record/figure_check.h"
#include "record/figures_of.h"

namespace fallwright::record {
namespace {

Evaluation evaluated(const std::string& entries, const std::string& first_line_has = "") {
    auto book =
        read_book(R"({"kind":"book","format":"fallwright","version":1)" + first_line_has + "}\n" + entries);
    return evaluate(std::shared_ptr<const Book>(std::move(*book)));
}

const std::string site = R"({"kind":"benchmark","point":"BM","level":50}
{"kind":"instrument","name":"L","type":"rotating-laser"}
{"kind":"setup","name":"S","instrument":"L","place":{"line":"D1","ch":5,"off":-3},"plane":{"main":0,"cross":0,"towards":"D1"}}
{"kind":"reading","point":"BM","staff":1.0,"dist":12}
)";

const std::string drain =
    R"({"kind":"line","name":"D1","use":"drain","profile":[{"ch":0,"level":48.5},{"ch":40,"gradient":"1 in 100 fall"}],"pipes":[{"from":0,"to":40,"bore":0.15,"wall":0.01,"bedding":0.1}],"chambers":[{"name":"MH1","ch":0},{"name":"MH2","ch":40}]}
{"kind":"tolerance","line":"D1","what":"laid","below":-0.01,"above":0.01}
)";

// The staff on the invert at a chainage, so much above the design.
std::string laid(double ch, double off) {
    return R"({"kind":"reading","line":"D1","ch":)" + fixed(ch, 3) + R"(,"what":"laid","staff":)" +
           fixed(51 - (48.5 - ch / 100) - off, 4) + "}\n";
}

std::string ground(double ch, double level) {
    return R"({"kind":"reading","line":"D1","ch":)" + fixed(ch, 3) + R"(,"what":"ground","staff":)" +
           fixed(51 - level, 3) + "}\n";
}

std::vector<sheet::Figure> all_of(const Evaluation& evaluation, Room room = {}) {
    std::vector<sheet::Figure> all;
    for (const FigureKind& kind : figure_kinds()) {
        const auto figures = figures_of(evaluation, kind.name, "", room);
        if (figures) all.insert(all.end(), figures->begin(), figures->end());
    }
    return all;
}

// Labels with the x they stand at, whose text is one of these.
std::map<std::string, double> x_of_texts(const sheet::Figure& figure, const std::set<std::string>& texts) {
    std::map<std::string, double> found;
    for (const sheet::Label* label : labels_of(figure)) {
        if (texts.count(label->text) > 0) found[label->text] = label->at.x;
    }
    return found;
}

const sheet::Symbol* mark_about(const sheet::Figure& figure, const std::string& about) {
    for (const sheet::Item& item : figure.items) {
        const auto* symbol = std::get_if<sheet::Symbol>(&item.what);
        if (symbol != nullptr && item.about == about) return symbol;
    }
    return nullptr;
}

RC_GTEST_PROP(Drawings, LabelsNeverOverlapAndNothingLeavesTheSheet, ()) {
    std::string entries = site + drain;
    const int count = *rc::gen::inRange(0, 40);
    for (int i = 0; i < count; ++i) {
        const double ch = *rc::gen::inRange(0, 40001) / 1000.0;
        entries += *rc::gen::arbitrary<bool>() ? laid(ch, *rc::gen::inRange(-60, 61) / 1000.0)
                                               : ground(ch, *rc::gen::inRange(49000, 51000) / 1000.0);
    }
    const Room room = {*rc::gen::inRange(150, 280) * 1.0, *rc::gen::inRange(120, 280) * 1.0};
    for (const sheet::Figure& figure : all_of(evaluated(entries), room)) {
        RC_ASSERT(overlapping_labels(figure) == "");
        RC_ASSERT(off_the_sheet(figure) == "");
        RC_ASSERT(figure.width <= room.width + 1e-9);
        RC_ASSERT(!figure.title.empty() && !figure.said.empty());
    }
}

// Measured on the paper: two chainages of the boxes, and two levels of the axis.
TEST(LongSection, StatedScaleIsTrue) {
    const Evaluation evaluation =
        evaluated(site + drain + ground(0, 50) + ground(20, 50.2) + ground(40, 49.9));
    const std::vector<sheet::Figure> figures = long_section(evaluation, 0, {});
    ASSERT_EQ(figures.size(), 1u);
    ASSERT_NE(label_that(figures[0], "Horizontal 1:500, vertical 1:50 (heights exaggerated 10 times)"),
              nullptr);
    const auto at = x_of_texts(figures[0], {"0.000", "20.000", "40.000"});
    EXPECT_NEAR(at.at("40.000") - at.at("0.000"), 40 * 1000.0 / 500, 1e-6);
    EXPECT_NEAR(at.at("20.000") - at.at("0.000"), 20 * 1000.0 / 500, 1e-6);
    const sheet::Label* low = label_that(figures[0], "48.5");
    const sheet::Label* high = label_that(figures[0], "49.5");
    ASSERT_TRUE(low != nullptr && high != nullptr);
    EXPECT_NEAR(low->at.y - high->at.y, 1000.0 / 50, 1e-6);
}

TEST(LongSection, DatumLineIsRoundAndBelowEverything) {
    const Evaluation evaluation = evaluated(site + drain + ground(0, 50) + ground(40, 49.9));
    const std::vector<sheet::Figure> figures = long_section(evaluation, 0, {});
    const sheet::Label* datum = label_that(figures.at(0), "Datum ");
    ASSERT_NE(datum, nullptr);
    EXPECT_EQ(datum->text, "Datum 47.500");  // lowest: trench bottom 48.100 - 0.010 - 0.100
}

// A line longer than the sheet: every chainage in the boxes of exactly one sheet.
TEST(LongSection, SheetsCoverEveryChainageOnce) {
    std::string entries =
        site +
        R"({"kind":"line","name":"D1","use":"road","profile":[{"ch":0,"level":50},{"ch":500,"gradient":0.01}]})" +
        "\n";
    for (int i = 1; i <= 99; ++i) entries += ground(i * 5 + 0.25, 45.001 + i * 0.05);
    const std::vector<sheet::Figure> figures = long_section(evaluated(entries), 0, {});
    EXPECT_GT(figures.size(), 1u);
    std::multiset<std::string> written;
    for (const sheet::Figure& figure : figures) {
        EXPECT_EQ(overlapping_labels(figure), "");
        EXPECT_EQ(off_the_sheet(figure), "");
        for (const sheet::Label* label : labels_of(figure)) written.insert(label->text);
    }
    for (int i = 1; i <= 99; ++i) EXPECT_EQ(written.count(fixed(i * 5 + 0.25, 3)), 1u) << i;
}

// High lies above the design on paper and has a wedge that points down; low the other way round; the band
// lies about the design.
TEST(Deviations, HighIsUpWithAWedgeDown) {
    const Evaluation evaluation =
        evaluated(site + drain + laid(10, 0.04) + laid(20, -0.04) + laid(30, 0) + laid(35, 0.0095));
    const std::vector<sheet::Figure> figures = deviation_strip(evaluation, 0, {});
    ASSERT_EQ(figures.size(), 1u);
    const sheet::Symbol* high = mark_about(figures[0], "D1 10.000 laid");
    const sheet::Symbol* low = mark_about(figures[0], "D1 20.000 laid");
    const sheet::Symbol* on = mark_about(figures[0], "D1 30.000 laid");
    const sheet::Symbol* open = mark_about(figures[0], "D1 35.000 laid");
    ASSERT_TRUE(high && low && on && open);
    EXPECT_EQ(high->mark, sheet::Mark::DigWedge);
    EXPECT_EQ(low->mark, sheet::Mark::FillWedge);
    EXPECT_EQ(on->mark, sheet::Mark::OnBar);
    EXPECT_EQ(open->mark, sheet::Mark::Undecided);
    EXPECT_LT(high->at.y, on->at.y);
    EXPECT_GT(low->at.y, on->at.y);
    EXPECT_NE(label_that(figures[0], "+40.0 HIGH"), nullptr);
    EXPECT_NE(label_that(figures[0], "-40.0 LOW"), nullptr);
    // 40 mm either way: 80 mm at the scale, and the band of +-10 a quarter of that.
    double top = 0, bottom = 0;
    for (const sheet::Item& item : figures[0].items) {
        const auto* area = std::get_if<sheet::Area>(&item.what);
        if (area == nullptr || area->pattern != sheet::Pattern::HatchUp || bottom != 0) continue;
        top = area->outline[0].y;
        bottom = area->outline[2].y;
    }
    EXPECT_NEAR((bottom - top) / (low->at.y - high->at.y), 0.25, 0.02);
    EXPECT_NEAR((top + bottom) / 2, on->at.y, 0.5);
}

// Word and shape first: no two meanings of one legend have the same sample, ink left aside.
TEST(Drawings, NoTwoMeaningsShareAShape) {
    std::string entries = site + drain;
    for (int i = 0; i <= 8; ++i) entries += ground(i * 5, 50 - i * 0.05) + laid(i * 5, (i - 4) * 0.004);
    for (const sheet::Figure& figure : all_of(evaluated(entries))) {
        std::map<std::string, std::string> meaning;
        for (std::size_t i = 1; i < figure.items.size(); ++i) {
            // In a legend a sample stands right before its word.
            const auto* word = std::get_if<sheet::Label>(&figure.items[i].what);
            if (word == nullptr || word->size != 2.0 || word->anchor != sheet::Anchor::Start) continue;
            std::string shape;
            if (const auto* line = std::get_if<sheet::Polyline>(&figure.items[i - 1].what)) {
                const bool sample = line->points.size() == 2 &&
                                    std::fabs(line->points[1].x - line->points[0].x - 8) < 1e-9 &&
                                    line->points[0].y == line->points[1].y;
                if (sample)
                    shape = "line " + fixed(line->stroke.width, 2) + " " +
                            std::to_string(static_cast<int>(line->stroke.dash));
            } else if (const auto* symbol = std::get_if<sheet::Symbol>(&figure.items[i - 1].what)) {
                shape = "mark " + std::to_string(static_cast<int>(symbol->mark));
            }
            if (shape.empty()) continue;
            const auto [known, fresh] = meaning.emplace(shape, word->text);
            EXPECT_TRUE(fresh || known->second == word->text)
                << figure.title << ": " << known->second << " | " << word->text;
        }
    }
}

TEST(Drawings, NothingToDrawGivesNothing) {
    const Evaluation evaluation = evaluated("");
    EXPECT_TRUE(all_of(evaluation).empty());
    const auto figures = figures_of(evaluation, "long-section", "", {});
    ASSERT_FALSE(figures);
    EXPECT_EQ(figures.finding().code, Code::BadRequest);
    EXPECT_FALSE(figures_of(evaluation, "long-section", "D1", {}));
    EXPECT_FALSE(figures_of(evaluation, "no such drawing", "", {}));
}

// Names that no sheet has room for are cut, in the middle of no character.
TEST(Drawings, HoldOnLongNames) {
    std::string name = "D";
    for (int i = 0; i < 60; ++i) name += i % 7 == 0 ? " \xc3\xa9" : "W";
    std::string entries = site + drain;
    for (int i = 0; i <= 4; ++i) entries += ground(i * 10, 50) + laid(i * 10, 0.002 * i);
    const auto renamed = [&name](std::string text, const std::string& from) {
        for (std::size_t at = text.find(from); at != std::string::npos;
             at = text.find(from, at + name.size()))
            text.replace(at, from.size(), name);
        return text;
    };
    entries = renamed(renamed(entries, "MH1"), "D1");
    const std::vector<sheet::Figure> figures =
        all_of(evaluated(entries, R"(,"title":")" + name + name + name + '"'));
    EXPECT_GE(figures.size(), 6u);
    for (const sheet::Figure& figure : figures) {
        EXPECT_EQ(overlapping_labels(figure), "");
        EXPECT_EQ(off_the_sheet(figure), "");
    }
}

// Far from the origin, below zero, level, one station: a drawing or none, but a sound one.
TEST(Drawings, HoldOnOddBooks) {
    const std::vector<std::string> books = {
        R"({"kind":"benchmark","point":"BM","level":-431.25}
{"kind":"instrument","name":"L","type":"optical-level"}
{"kind":"line","name":"D1","use":"kerb","plan":[[654321.5,-5123456.25],[654381.5,-5123456.25]],"profile":[{"ch":0,"level":-432},{"ch":60,"gradient":0}]}
{"kind":"place","point":"BM","e":654300,"n":-5123450}
{"kind":"setup","name":"S","instrument":"L","place":{"line":"D1","ch":5,"off":-3}}
{"kind":"reading","point":"BM","staff":1.0}
{"kind":"reading","line":"D1","ch":0,"what":"kerb","staff":1.75}
{"kind":"reading","line":"D1","ch":60,"what":"kerb","staff":1.751}
)",
        R"({"kind":"instrument","name":"L","type":"optical-level"}
{"kind":"line","name":"D1"}
{"kind":"setup","name":"S","instrument":"L"}
{"kind":"reading","line":"D1","ch":7,"what":"ground","staff":1.75}
)",
        R"({"kind":"instrument","name":"L","type":"optical-level"}
{"kind":"line","name":"D1"}
{"kind":"setup","name":"S","instrument":"L"}
{"kind":"reading","line":"D1","ch":0,"what":"finished","staff":1.75}
{"kind":"reading","line":"D1","ch":100000,"what":"finished","staff":1.75}
)"};
    for (const std::string& book : books) {
        for (const char* unit : {"", R"(,"unit":"ft")"}) {
            const std::vector<sheet::Figure> figures = all_of(evaluated(book, unit));
            EXPECT_FALSE(figures.empty());
            for (const sheet::Figure& figure : figures) {
                EXPECT_EQ(overlapping_labels(figure), "");
                EXPECT_EQ(off_the_sheet(figure), "");
            }
        }
    }
}

}  // namespace
}  // namespace fallwright::record
