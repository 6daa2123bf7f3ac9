#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cstdlib>

#include "sheet/hostile_test.h"
#include "sheet/ink.h"
#include "sheet/markup.h"
#include "sheet/render.h"
#include "sheet/xml_check.h"

namespace fallwright::sheet {

namespace {

std::string plain(std::string_view text) {
    std::string out;
    append_plain(out, text);
    return out;
}

bool holds(const XmlSeen& seen, const std::string& text) {
    const std::string as_read = plain(text);
    if (as_read.find_first_not_of(' ') == std::string::npos) return true;
    return std::find(seen.texts.begin(), seen.texts.end(), as_read) != seen.texts.end();
}

// Largest x and y in the paths of lines and areas, which write "x y" after M and L; least in low.
struct Reach {
    double low_x = 1e9, low_y = 1e9, x = -1e9, y = -1e9;
};
Reach reach_of(const std::string& svg) {
    Reach reach;
    for (std::size_t at = svg.find(" d=\""); at != svg.npos; at = svg.find(" d=\"", at + 1)) {
        const std::size_t end = svg.find('"', at + 4);
        for (std::size_t k = at + 4; k < end; ++k) {
            if (svg[k] != 'M' && svg[k] != 'L') continue;
            char* rest = nullptr;
            const double x = std::strtod(&svg[k + 1], &rest), y = std::strtod(rest, nullptr);
            reach = {std::min(reach.low_x, x), std::min(reach.low_y, y), std::max(reach.x, x),
                     std::max(reach.y, y)};
        }
    }
    return reach;
}

Figure figure_with(Item item) {
    Figure figure;
    figure.title = "Long section D1";
    figure.said = "A drain of 54 m.";
    figure.width = 100;
    figure.height = 50;
    figure.items = {std::move(item)};
    return figure;
}

}  // namespace

TEST(Svg, SaysItsSizeTitleAndDescription) {
    const std::string svg = svg_of(figure_with({Polyline{{{0, 0}, {100, 50}}, {}, false}, "BM1"}), "d1");
    EXPECT_NE(svg.find("width=\"100mm\" height=\"50mm\" viewBox=\"0 0 100 50\" role=\"img\" "
                       "aria-labelledby=\"d1-title d1-desc\""),
              svg.npos);
    EXPECT_NE(svg.find("<title id=\"d1-title\">Long section D1</title>"), svg.npos);
    EXPECT_NE(svg.find("<desc id=\"d1-desc\">A drain of 54 m.</desc>"), svg.npos);
    EXPECT_NE(svg.find("<g data-about=\"BM1\">\n<path d=\"M0 0L100 50\" fill=\"none\" stroke=\"#1b1b1f\" "
                       "stroke-width=\"0.25\""),
              svg.npos);
}

TEST(Svg, ATurnedLabelIsTurnedAroundItsPlaceAndStaysText) {
    Label label = label_at({30, 20}, "50.000 \xc2\xb1 1.2", 90);
    label.anchor = Anchor::End;
    label.bold = true;
    const std::string svg = svg_of(figure_with({label, ""}));
    EXPECT_NE(svg.find("<text x=\"30\" y=\"20\" font-size=\"2.5\" text-anchor=\"end\" font-weight=\"bold\" "
                       "fill=\"#1b1b1f\" transform=\"rotate(-90 30 20)\">50.000 \xc2\xb1 1.2</text>"),
              svg.npos);
    EXPECT_LT(svg.find("fill=\"#ffffff\""), svg.find("<text")) << "the paper is cleared before the text";
}

TEST(Svg, ArcsRunClockwiseOnPaper) {
    const std::string svg = svg_of(figure_with({Arc{{50, 20}, 10, 0, 90, {}}, ""}));
    EXPECT_NE(svg.find("M60 20A10 10 0 0 1 50 30"), svg.npos) << svg;
    EXPECT_NE(svg_of(figure_with({Arc{{50, 20}, 10, 0, 360, {}}, ""})).find("<circle cx=\"50\""),
              std::string::npos);
}

TEST(Svg, InksAreColoursOfTheirOwn) {
    std::vector<std::string> colours;
    for (const Ink ink : {Ink::Line, Ink::Faint, Ink::Dig, Ink::Fill, Ink::Ground, Ink::Water, Ink::Paper}) {
        colours.emplace_back(ink_colour(ink));
        const std::string svg =
            svg_of(figure_with({Polyline{{{0, 0}, {1, 1}}, {0.25, ink, Dash::Solid}, false}, ""}));
        EXPECT_NE(svg.find("stroke=\"" + colours.back()), svg.npos);
    }
    std::sort(colours.begin(), colours.end());
    EXPECT_EQ(std::adjacent_find(colours.begin(), colours.end()), colours.end());
}

RC_GTEST_PROP(Svg, AnyFigureIsBalancedHoldsItsTextsAndStaysOnThePaper, ()) {
    const Figure figure = random_figure();
    const std::string svg = svg_of(figure, "f1");
    const XmlSeen seen = read_xml(svg);
    RC_ASSERT(seen.trouble == std::string());
    RC_ASSERT(holds(seen, figure.title));
    RC_ASSERT(holds(seen, figure.said));
    bool symbols = false;
    for (const Item& item : figure.items) {
        RC_ASSERT(holds(seen, item.about));
        if (const auto* label = std::get_if<Label>(&item.what)) RC_ASSERT(holds(seen, label->text));
        // What surrounds its place may reach beyond: that is the drawer's care.
        const auto* cleared = std::get_if<Label>(&item.what);
        symbols = symbols || (cleared != nullptr && cleared->cleared);
        symbols =
            symbols || std::holds_alternative<Symbol>(item.what) || std::holds_alternative<Arc>(item.what);
    }
    const Reach reach = reach_of(svg);
    if (!symbols && reach.x >= 0) {
        const double rounding = 0.001;
        RC_ASSERT(reach.low_x >= -rounding && reach.low_y >= -rounding);
        RC_ASSERT(reach.x <= figure.width + rounding && reach.y <= figure.height + rounding);
    }
    for (const char* active : {"script", "style", "image", "foreignObject", "a", "use"}) {
        RC_ASSERT(std::find(seen.tags.begin(), seen.tags.end(), active) == seen.tags.end());
    }
}

}  // namespace fallwright::sheet
