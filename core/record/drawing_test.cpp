#include "record/drawing.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <vector>

#include "record/figure_check.h"
#include "record/scales.h"

namespace fallwright::record {
namespace {

// Labels as they crowd a plan: points wherever they fall, names of any length, four kinds of places.
RC_GTEST_PROP(Drawing, OffersNoPlaceTwice, ()) {
    Drawing drawing(80, 60);
    const int count = *rc::gen::inRange(1, 120);
    for (int i = 0; i < count; ++i) {
        const double x = *rc::gen::inRange(0, 80), y = *rc::gen::inRange(0, 60);
        const std::string name(static_cast<std::size_t>(*rc::gen::inRange(1, 14)), 'm');
        const double size = *rc::gen::element(small_type, usual_type, title_type);
        if (*rc::gen::inRange(0, 4) == 0) {
            drawing.mark({{x, y}, sheet::Mark::Spot, 1, 0, sheet::Ink::Line});
        } else if (*rc::gen::inRange(0, 3) == 0) {
            drawing.avoid({x, y}, {x + 20, y});
        } else {
            drawing.place(label({}, name, size), places_around({x, y}, 1.5, size));
        }
    }
    const sheet::Figure figure = drawing.take("t", "s");
    RC_ASSERT(overlapping_labels(figure) == "");
    RC_ASSERT(off_the_sheet(figure) == "");
}

TEST(Drawing, LabelGoesBesideALineWhereItCan) {
    Drawing drawing(50, 50);
    drawing.avoid({20, 20}, {45, 20});
    ASSERT_TRUE(drawing.place(label({}, "BM1", 2), {{{25, 20.5}}, {{25, 30}}}));
    ASSERT_TRUE(drawing.place(label({}, "BM2", 2), {{{35, 20.5}}}));
    const sheet::Figure figure = drawing.take("t", "s");
    EXPECT_EQ(std::get<sheet::Label>(figure.items[0].what).at.y, 30);
    EXPECT_EQ(std::get<sheet::Label>(figure.items[1].what).at.y, 20.5);
}

TEST(Scales, AreRound) {
    EXPECT_EQ(round_scale(437, Unit::Metre), 500);
    EXPECT_EQ(round_scale(500, Unit::Metre), 500);
    EXPECT_EQ(round_scale(220, Unit::Metre), 250);
    EXPECT_EQ(round_scale(0.3, Unit::Metre), 0.5);
    EXPECT_EQ(round_scale(200, Unit::Foot), 240);
    EXPECT_EQ(scale_words(240, Unit::Foot), "1 in = 20 ft (1:240)");
    EXPECT_EQ(scale_words(0.5, Unit::Metre), "2:1");
    EXPECT_DOUBLE_EQ(round_step(0.3, Unit::Metre), 0.5);
    EXPECT_DOUBLE_EQ(round_step(0.3, Unit::Foot), 0.3048);
}

RC_GTEST_PROP(Scales, NoRoundScaleIsFinerThanAskedOrNeedlesslyCoarse, ()) {
    const double n = *rc::gen::inRange(1, 2000000) / 10.0;
    for (const Unit unit : {Unit::Metre, Unit::Foot}) {
        const double scale = round_scale(n, unit);
        RC_ASSERT(scale >= n * (1 - 1e-8));
        RC_ASSERT(scale <= std::max(n, 1.0) * 2.5 + 1e-6);
        RC_ASSERT(coarser_scale(scale, unit) > scale);
    }
}

// Every place is on exactly one sheet, and no sheet holds more than it can.
RC_GTEST_PROP(Windows, CoverEveryPlaceOnce, ()) {
    std::vector<double> chainages;
    double ch = *rc::gen::inRange(-1000, 1000);
    const int count = *rc::gen::inRange(1, 200);
    for (int i = 0; i < count; ++i) {
        chainages.push_back(ch);
        ch += *rc::gen::inRange(0, 400) / 100.0 + (*rc::gen::inRange(0, 30) == 0 ? 500 : 0);
    }
    const double width = *rc::gen::inRange(1, 60);
    const auto most = static_cast<std::size_t>(*rc::gen::inRange(1, 40));
    std::size_t next = 0;
    for (const Window& window : windows_of(chainages, width, most)) {
        RC_ASSERT(window.first == next);
        RC_ASSERT(window.last >= window.first);
        RC_ASSERT(window.last - window.first < most);
        RC_ASSERT(chainages[window.last] - window.from <= width * (1 + 1e-8));
        RC_ASSERT(window.to >= chainages[window.last] && window.to <= window.from + width * (1 + 1e-8));
        next = window.last + 1;
    }
    RC_ASSERT(next == chainages.size());
}

RC_GTEST_PROP(Spread, KeepsOrderAndDistance, ()) {
    std::vector<double> wanted;
    const int count = *rc::gen::inRange(1, 30);
    wanted.reserve(static_cast<std::size_t>(count));
    for (int i = 0; i < count; ++i) wanted.push_back(*rc::gen::inRange(0, 1000) / 10.0);
    std::sort(wanted.begin(), wanted.end());
    const std::vector<double> places = spread(wanted, 3, 0, 100);
    RC_ASSERT(places.size() == wanted.size());
    for (std::size_t i = 0; i < places.size(); ++i) {
        RC_ASSERT(places[i] >= -1e-9 && places[i] <= 100 + 1e-9);
        if (i > 0) RC_ASSERT(places[i] - places[i - 1] >= 3 - 1e-9);
    }
}

TEST(Spread, MovesNothingThatHasRoom) {
    EXPECT_EQ(spread({1, 10, 20}, 3, 0, 30), (std::vector<double>{1, 10, 20}));
    const std::vector<double> pushed = spread({10, 10}, 3, 0, 30);
    EXPECT_DOUBLE_EQ(pushed[0], 8.5);
    EXPECT_DOUBLE_EQ(pushed[1], 11.5);
}

}  // namespace
}  // namespace fallwright::record
