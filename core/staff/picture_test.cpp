#include "staff/picture.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <sstream>
#include <string>
#include <vector>

namespace fallwright::staff {

namespace {

Decimal m(double metres) {
    return Decimal::metres(metres);
}

View view_at(double metres, bool inverted = false, Unit unit = Unit::Metre) {
    View view;
    view.reading = m(metres);
    view.inverted = inverted;
    view.unit = unit;
    return view;
}

std::string after(const std::string& text, const std::string& mark) {
    const std::size_t at = text.find(mark);
    return at == std::string::npos ? "" : text.substr(at + mark.size());
}

double attribute(const std::string& element, const std::string& name) {
    return std::stod(after(element, " " + name + "=\""));
}

std::vector<std::string> elements(const std::string& svg, const std::string& start) {
    std::vector<std::string> found;
    for (std::size_t at = svg.find(start); at != std::string::npos; at = svg.find(start, at + 1)) {
        found.push_back(svg.substr(at, svg.find('\n', at) - at));
    }
    return found;
}

// Reads an SVG as a person reads the staff, from what is drawn alone: from the light back to the nearest line
// with a figure (or the foot), whole blocks counted by their edges, the rest measured on the last block. y
// grows downwards; `sign` is -1 where figures grow upwards.
double read_svg(const std::string& svg, double block_height) {
    const bool inverted = svg.find("rotate(180 ") != std::string::npos;
    const double centre = inverted ? std::stod(after(after(svg, "rotate(180 "), " ")) : 0;
    const auto on_page = [&](double y) { return inverted ? 2 * centre - y : y; };
    const double sign = inverted ? 1 : -1;
    const double light = attribute(elements(svg, "<line class=\"light\"").at(0), "y1");

    // Where each figure's line lies, and what it says: digits stand on their line, three units above it.
    double from = -1, value = -1;
    for (const std::string& figure : elements(svg, "<text class=\"figure\"")) {
        const double y = on_page(attribute(figure, "y") + 3);
        const double says = std::stod(after(figure, ">"));
        if (sign * (light - y) >= -1e-6 && says > value) {
            from = y;
            value = says;
        }
    }
    const std::string board = elements(svg, "<rect class=\"board\"").at(0);
    if (value < 0) {
        from = on_page(attribute(board, "y") + attribute(board, "height"));
        value = 0;
    }
    std::vector<double> edges;
    for (const std::string& dark : elements(svg, "<rect class=\"dark\"")) {
        edges.push_back(on_page(attribute(dark, "y")));
        edges.push_back(on_page(attribute(dark, "y") + attribute(dark, "height")));
    }
    double last = from;
    for (const double edge : edges) {
        if (sign * (edge - from) < 1e-6 || sign * (light - edge) < -1e-6) continue;
        value += block_height;
        if (sign * (edge - last) > 0) last = edge;
    }
    const double block_on_page = attribute(elements(svg, "<rect class=\"dark\"").at(0), "height");
    return value + sign * (light - last) / block_on_page * block_height;
}

// Reads the picture of a terminal the same way: lines from the figure to the light, then what stands beside
// it.
double read_text(const std::string& picture, double block_height, bool inverted) {
    std::vector<std::string> lines;
    std::stringstream stream(picture);
    for (std::string line; std::getline(stream, line);) lines.push_back(line);
    lines.pop_back();
    if (!inverted) std::reverse(lines.begin(), lines.end());
    double value = 0;
    for (const std::string& line : lines) {
        const std::string figure = line.substr(0, 6);
        if (figure.find_first_not_of(' ') != std::string::npos) value = std::stod(figure);
        if (line.find("<--") == std::string::npos) {
            value += block_height;
            continue;
        }
        const std::string rest = after(line, ", ");
        if (rest.rfind("on ", 0) == 0) return value;
        return value + std::stod(rest) / (rest.find(" mm ") == std::string::npos ? 1 : 1000);
    }
    return -1;
}

std::size_t count_lines(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

}  // namespace

TEST(Picture, EveryMillimetreOfAFiveMetreStaffReadsBackFromTheDrawing) {
    for (int mm = 0; mm <= 5000; ++mm) {
        for (const bool inverted : {false, true}) {
            View view = view_at(mm / 1000.0, inverted);
            view.length = m(5);
            ASSERT_NEAR(read_svg(picture_svg(view), 0.010), mm / 1000.0, 1e-6) << mm << inverted;
        }
    }
}

TEST(Picture, EveryMillimetreOfAFiveMetreStaffReadsBackFromTheTerminal) {
    for (int mm = 0; mm <= 5000; ++mm) {
        for (const bool inverted : {false, true}) {
            View view = view_at(mm / 1000.0, inverted);
            view.length = m(5);
            // The window's first figure may lie above its first lines: those count from the foot only at the
            // foot.
            const std::string picture = picture_text(view, Ink::Ascii);
            ASSERT_NEAR(read_text(picture, 0.010, inverted), mm / 1000.0, 1e-9) << picture;
        }
    }
}

TEST(Picture, FeetReadBackFromTheDrawing) {
    for (int thousandth = 0; thousandth <= 16000; thousandth += 7) {
        const double feet = thousandth / 1000.0;
        const View view = view_at(feet * metres_per_foot, false, Unit::Foot);
        ASSERT_NEAR(read_svg(picture_svg(view), 0.01), feet, 1e-6) << feet;
        ASSERT_NEAR(read_text(picture_text(view, Ink::Ascii), 0.01, false), feet, 1e-9) << feet;
    }
}

TEST(Picture, WindowStaysOnTheStaff) {
    View foot = view_at(0.005);
    EXPECT_EQ(count_lines(picture_text(foot, Ink::Ascii)), 31U);
    View end = view_at(4.999);
    end.length = m(5);
    const std::string picture = picture_text(end, Ink::Ascii);
    EXPECT_EQ(count_lines(picture), 31U);
    EXPECT_EQ(picture.find("5.0_"), std::string::npos);
    EXPECT_NE(picture.find("4.8_"), std::string::npos);
    View rod = view_at(0.1);
    rod.length = m(0.2);
    EXPECT_EQ(count_lines(picture_text(rod, Ink::Ascii)), 21U);
}

TEST(Picture, WindowIsAsWideAsAsked) {
    View view = view_at(1.432);
    view.window = m(0.6);
    EXPECT_EQ(count_lines(picture_text(view, Ink::Ascii)), 61U);
    view.window = m(0);
    EXPECT_EQ(count_lines(picture_text(view, Ink::Ascii)), 2U);
}

TEST(Picture, AsciiIsAsciiAndBlocksHaveTheSameLines) {
    const View view = view_at(1.432, true);
    const std::string ascii = picture_text(view, Ink::Ascii);
    EXPECT_TRUE(
        std::all_of(ascii.begin(), ascii.end(), [](char c) { return c == '\n' || (c >= 32 && c < 127); }));
    EXPECT_EQ(count_lines(picture_text(view, Ink::Blocks)), count_lines(ascii));
}

// The E has its upright on the reader's left in 1.4, on the right in 1.3 and 1.5; turned half round the sides
// change.
TEST(Picture, LettersTurnWithTheStaff) {
    const std::string upright = picture_text(view_at(1.432), Ink::Ascii);
    EXPECT_NE(upright.find("|%%    |<-- 1.432, 2 mm above the lower edge"), std::string::npos) << upright;
    const std::string turned = picture_text(view_at(1.432, true), Ink::Ascii);
    EXPECT_NE(turned.find("|    %%|<-- 1.432, 2 mm below the upper edge"), std::string::npos) << turned;
    EXPECT_LT(upright.find("1.5_"), upright.find("1.4_"));
    EXPECT_GT(turned.find("1.5^"), turned.find("1.4^"));
}

// STF-07: the joined 50 mm, and with them a dark block, begin at each figure's line.
TEST(Picture, ADarkBlockStandsOnEveryFiguresLine) {
    for (const Unit unit : {Unit::Metre, Unit::Foot}) {
        const std::string svg = picture_svg(view_at(1.432, false, unit));
        const std::vector<std::string> figures = elements(svg, "<text class=\"figure\"");
        EXPECT_GE(figures.size(), 2U);
        for (const std::string& figure : figures) {
            const double at = attribute(figure, "y") + 3;
            const std::vector<std::string> dark = elements(svg, "<rect class=\"dark\"");
            EXPECT_EQ(std::count_if(dark.begin(), dark.end(),
                                    [&](const std::string& block) {
                                        return std::fabs(attribute(block, "y") + attribute(block, "height") -
                                                         at) < 1e-6;
                                    }),
                      1)
                << figure;
        }
    }
}

TEST(Picture, SvgSaysInWordsWhatItShows) {
    const std::string svg = picture_svg(view_at(1.432));
    EXPECT_EQ(svg.rfind("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" viewBox=\"0 0 250 324\">", 0),
              0U);
    EXPECT_NE(svg.find("<title>Face of the staff at 1.432 m</title>"), std::string::npos);
    EXPECT_NE(svg.find("<desc>the light is 2 mm above the top of the third block past 1.4: 1.432</desc>"),
              std::string::npos);
    EXPECT_NE(picture_svg(view_at(1.432, true)).find("1.432 m, upside down</title>"), std::string::npos);
}

// Without colour: dark blocks are filled on white, and the light is a dark line inside a wider white one.
TEST(Picture, SvgIsReadableInBlackAndWhite) {
    const std::string svg = picture_svg(view_at(1.425));
    const std::string casing = elements(svg, "<line class=\"casing\"").at(0);
    const std::string light = elements(svg, "<line class=\"light\"").at(0);
    EXPECT_EQ(attribute(casing, "y1"), attribute(light, "y1"));
    EXPECT_GE(attribute(casing, "stroke-width"), 3 * attribute(light, "stroke-width"));
    EXPECT_NE(casing.find("stroke=\"#ffffff\""), std::string::npos);
    EXPECT_LT(svg.find("class=\"casing\""), svg.find("class=\"light\""));
}

}  // namespace fallwright::staff
