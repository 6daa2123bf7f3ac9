#include "exchange/native/pdf/flow.h"

#include <algorithm>
#include <cmath>

#include "sheet/markup.h"

namespace fallwright::pdf {

std::string_view Flow::clean(std::string_view text) {
    const auto plain = [](char c) { return c >= 0x20 && c < 0x7f; };
    if (std::all_of(text.begin(), text.end(), plain)) return text;
    std::string mended;
    sheet::append_plain(mended, text);
    return laid_.texts.emplace_back(std::move(mended));
}

void Flow::add_sheet(bool turned) {
    laid_.sheets.push_back({turned, {}});
    y_ = paper_.margin;
}

void Flow::next_sheet(bool turned) {
    if (laid_.sheets.back().pieces.empty()) {
        laid_.sheets.pop_back();
    }
    add_sheet(turned);
}

void Flow::put_line(std::string_view line, double x, Style style, std::size_t opening) {
    const double y = y_ + style.drop();
    opening = std::min(opening, line.size());
    if (opening > 0) {
        const std::string_view first = line.substr(0, opening);
        put(Words{{x, y}, first, style.size, true, Setting::Fine});
        x += type_.width(first, style.size, true);
    }
    put(Words{{x, y}, line.substr(opening), style.size, style.bold, Setting::Fine});
}

void Flow::rule(double from_x, double to_x, double y, double width, sheet::Ink ink) {
    put(Rule{{from_x, y}, {to_x, y}, {width, ink, sheet::Dash::Solid}});
}

void Flow::bookmark(int depth, std::string_view text) {
    laid_.bookmarks.push_back({depth, text, sheet(), {left(), y_}});
}

std::size_t Flow::taken(std::size_t left, bool first, double leading) const {
    // A little over, so that lines that fit exactly do.
    const double fit = std::floor(room() / leading + 1e-6);
    const auto fitting = static_cast<std::size_t>(std::max(0.0, fit));
    if (fitting >= left) return left;
    std::size_t count = fitting;
    if (left - count == 1 && count > 1) --count;
    if (first && count < 2) count = 0;
    return at_top() ? std::max<std::size_t>(count, 1) : count;
}

}  // namespace fallwright::pdf
