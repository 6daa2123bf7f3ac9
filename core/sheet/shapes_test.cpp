#include "sheet/shapes.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "sheet/hostile_test.h"
#include "sheet/markup.h"
#include "sheet/type.h"

namespace fallwright::sheet {

namespace {

double length_of(const std::vector<HatchLine>& lines) {
    double sum = 0;
    for (const HatchLine& line : lines) sum += std::hypot(line.to.x - line.from.x, line.to.y - line.from.y);
    return sum;
}

// Twice the signed area by the surveyor's formula.
double doubled_area(const std::vector<At>& ring) {
    double sum = 0;
    for (std::size_t k = 0; k < ring.size(); ++k) {
        const At a = ring[k], b = ring[(k + 1) % ring.size()];
        sum += a.x * b.y - b.x * a.y;
    }
    return sum;
}

// Even-odd by a ray to the right.
bool inside(const std::vector<At>& ring, At p) {
    bool in = false;
    for (std::size_t k = 0; k < ring.size(); ++k) {
        const At a = ring[k], b = ring[(k + 1) % ring.size()];
        if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)) in = !in;
    }
    return in;
}

Box box_of_points(const std::vector<At>& points, Box box) {
    for (const At& p : points) {
        box = {std::min(box.left, p.x), std::min(box.top, p.y), std::max(box.right, p.x),
               std::max(box.bottom, p.y)};
    }
    return box;
}

}  // namespace

TEST(Shapes, DirectionsOfEighthsAreExact) {
    EXPECT_EQ(direction_of(0).x, 1);
    EXPECT_EQ(direction_of(90).y, -1) << "anticlockwise is up, and y is down";
    EXPECT_EQ(direction_of(-90).y, 1);
    EXPECT_EQ(direction_of(45).x, -direction_of(45).y);
    EXPECT_EQ(direction_of(405).x, direction_of(45).x);
    EXPECT_NEAR(direction_of(30).y, -0.5, 1e-15);
}

TEST(Shapes, HatchCoversAnAreaEvenly) {
    // Lines of spacing s over an area A are A / s long in all, but for what the edges take.
    const Area square{{{0, 0}, {80, 0}, {80, 60}, {0, 60}},
                      {{{20, 20}, {40, 20}, {40, 50}, {20, 50}}},
                      Ink::Line,
                      Pattern::HatchUp};
    const double area = 80.0 * 60 - 20.0 * 30, spacing = 1.6;
    EXPECT_NEAR(length_of(hatch_of(square)), area / spacing, 0.01 * area / spacing);
    Area cross = square;
    cross.pattern = Pattern::CrossHatch;
    EXPECT_NEAR(length_of(hatch_of(cross)), 2 * area / spacing, 0.02 * area / spacing);
    Area dots = square;
    dots.pattern = Pattern::Dots;
    EXPECT_NEAR(static_cast<double>(hatch_of(dots).size()), area / (1.2 * 1.2), 150);
    Area tint = square;
    tint.pattern = Pattern::Tint;
    EXPECT_TRUE(hatch_of(tint).empty());
}

TEST(Shapes, AHatchTooLargeIsNotDrawnForever) {
    EXPECT_TRUE(hatch_of({{{0, 0}, {1e9, 0}, {1e9, 1e9}}, {}, Ink::Line, Pattern::HatchUp}).empty());
    EXPECT_LT(hatch_of({{{0, 0}, {1e9, 0}, {1e9, 10}}, {}, Ink::Line, Pattern::Dots}).size(), 100000U);
}

RC_GTEST_PROP(Shapes, HatchLinesLieInsideTheirOutline, ()) {
    Area area{*rc::gen::container<std::vector<At>>(*rc::gen::inRange<std::size_t>(3, 9), place_on(60, 60)),
              {},
              Ink::Line,
              *rc::gen::element(Pattern::HatchUp, Pattern::HatchDown, Pattern::CrossHatch)};
    for (const HatchLine& line : hatch_of(area)) {
        if (std::hypot(line.to.x - line.from.x, line.to.y - line.from.y) < 1e-6) continue;
        const At middle{(line.from.x + line.to.x) / 2, (line.from.y + line.to.y) / 2};
        RC_ASSERT(inside(area.outline, middle));
    }
    if (area.outline.size() == 3) {
        const double expected = std::fabs(doubled_area(area.outline)) / 2 / 1.6;
        const double lines = area.pattern == Pattern::CrossHatch ? 2 : 1;
        RC_ASSERT(std::fabs(length_of(hatch_of(area)) - lines * expected) < lines * 90);
    }
}

TEST(Shapes, EachSymbolHasItsSizeAndInk) {
    for (int k = 0; k <= static_cast<int>(Mark::FlowArrow); ++k) {
        const Symbol symbol{{50, 50}, static_cast<Mark>(k), 10, 0, Ink::Dig};
        Box box{50, 50, 50, 50};
        for (const Item& part : parts_of(symbol)) {
            if (const auto* line = std::get_if<Polyline>(&part.what)) box = box_of_points(line->points, box);
            if (const auto* area = std::get_if<Area>(&part.what)) box = box_of_points(area->outline, box);
            if (const auto* arc = std::get_if<Arc>(&part.what)) {
                const double r = arc->radius + arc->stroke.width / 2;
                box = box_of_points({{50 - r, 50 - r}, {50 + r, 50 + r}}, box);
            }
        }
        const double extent = std::max(box.right - box.left, box.bottom - box.top);
        EXPECT_GE(extent, 4.5) << k;
        EXPECT_LE(extent, 10.001) << k;
    }
}

TEST(Shapes, WedgesPointWhereTheyShould) {
    const auto tip = [](Mark mark) {
        const std::vector<Item> parts = parts_of({{0, 0}, mark, 1, 0, Ink::Line});
        return std::get<Area>(parts.front().what).outline.back().y;
    };
    EXPECT_GT(tip(Mark::DigWedge), 0) << "down";
    EXPECT_LT(tip(Mark::FillWedge), 0) << "up";
    EXPECT_EQ(tip(Mark::Benchmark), 0) << "on its point";
}

TEST(Type, WidthsAreThoseOfTheCoreFonts) {
    // Ten figures of 0.556, a comma of 0.278 (advance widths of the sans serif core font of PDF, from
    // memory).
    EXPECT_NEAR(text_width("0123456789,", 2), 2 * (10 * 0.556 + 0.278), 1e-12);
    EXPECT_NEAR(text_width("Wi", 1, true), 0.944 + 0.278, 1e-12);
    EXPECT_NEAR(text_width("\xc2\xb1", 1), 0.584, 1e-12);
}

TEST(Type, BoxesFollowAnchorAndTurn) {
    Label label = label_at({10, 10}, "1234", 0);
    label.anchor = Anchor::End;
    EXPECT_NEAR(box_of(label).right, 10, 1e-12);
    EXPECT_NEAR(box_of(label).left, 10 - 4 * 0.556 * 2.5, 1e-12);
    label.turn = 90;
    EXPECT_NEAR(box_of(label).bottom - box_of(label).top, 4 * 0.556 * 2.5, 1e-9);
    EXPECT_NEAR(box_of(label).top, 10, 1e-9) << "ends at its anchor, reading upwards";
    EXPECT_LT(box_of(label).left, 10) << "letters stand left of a line that reads upwards";
    EXPECT_TRUE(box_of(label).meets({0, 9, 20, 11}));
    EXPECT_FALSE(box_of(label).meets({0, 0, 20, 9.9}));
}

TEST(Markup, WhatXmlForbidsIsReplaced) {
    const auto escaped = [](std::string_view text) {
        std::string out;
        append_escaped(out, text);
        return out;
    };
    EXPECT_EQ(escaped("a<b>&\"c'"), "a&lt;b&gt;&amp;&quot;c'");
    EXPECT_EQ(escaped("1\n2\t3"), "1 2 3");
    const std::string_view nul("x\0y", 3);
    EXPECT_EQ(escaped(nul), "x\xef\xbf\xbdy");
    // Overlong, surrogate, torn and beyond the last: one mark a byte.
    EXPECT_EQ(escaped("\xc0\xaf"), "\xef\xbf\xbd\xef\xbf\xbd");
    EXPECT_EQ(escaped("\xed\xa0\x80"), "\xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd");
    EXPECT_EQ(escaped("\xe2\x82"), "\xef\xbf\xbd\xef\xbf\xbd");
    EXPECT_EQ(escaped("\xf4\x90\x80\x80").size(), 12U);
    EXPECT_EQ(escaped("\xe2\x82\xac\xf0\x9f\x9a\xa7"), "\xe2\x82\xac\xf0\x9f\x9a\xa7");
}

}  // namespace fallwright::sheet
