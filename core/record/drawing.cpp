#include "record/drawing.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace fallwright::record {

namespace {

using sheet::Anchor;
using sheet::At;

constexpr double cell = 8;      // mm: a few labels in each
constexpr double margin = 0.2;  // mm between two labels

}  // namespace

std::vector<LabelPlace> places_around(At point, double reach, double size) {
    const double x = point.x, y = point.y, r = reach;
    const double up = y - r * 0.6 - descent * size, down = y + r * 0.6 + ascent * size;
    const double level = y + (ascent - descent) / 2 * size;
    return {{{x + r, up}, Anchor::Start},      {{x + r, down}, Anchor::Start},
            {{x - r, up}, Anchor::End},        {{x - r, down}, Anchor::End},
            {{x, up - r / 2}, Anchor::Middle}, {{x, down + r / 2}, Anchor::Middle},
            {{x + r, level}, Anchor::Start},   {{x - r, level}, Anchor::End}};
}

Drawing::Drawing(double width, double height) {
    figure_.width = width;
    figure_.height = height;
    columns_ = static_cast<std::size_t>(width / cell) + 1;
    rows_ = static_cast<std::size_t>(height / cell) + 1;
    grid_.resize(columns_ * rows_);
    avoided_.resize(columns_ * rows_);
}

void Drawing::line(At a, At b, const sheet::Stroke& stroke, std::string about) {
    figure_.items.push_back({sheet::Polyline{{a, b}, stroke, false}, std::move(about)});
}

void Drawing::path(std::vector<At> points, const sheet::Stroke& stroke, std::string about, bool closed) {
    if (points.size() < 2) return;
    figure_.items.push_back({sheet::Polyline{std::move(points), stroke, closed}, std::move(about)});
}

void Drawing::box(const Box& box, const sheet::Stroke& stroke) {
    path({{box.left, box.top}, {box.right, box.top}, {box.right, box.bottom}, {box.left, box.bottom}}, stroke,
         "", true);
}

void Drawing::area(std::vector<At> outline, sheet::Ink ink, sheet::Pattern pattern,
                   std::vector<std::vector<At>> holes) {
    if (outline.size() < 3) return;
    figure_.items.push_back({sheet::Area{std::move(outline), std::move(holes), ink, pattern}, ""});
}

void Drawing::arc(const sheet::Arc& arc) {
    figure_.items.push_back({arc, ""});
}

void Drawing::mark(const sheet::Symbol& symbol, std::string about) {
    const double half = symbol.size / 2;
    keep_clear({symbol.at.x - half, symbol.at.y - half, symbol.at.x + half, symbol.at.y + half});
    figure_.items.push_back({symbol, std::move(about)});
}

void Drawing::text(const sheet::Label& label, std::string about) {
    if (label.text.empty()) return;
    keep_clear(box_of(label));
    figure_.items.push_back({label, std::move(about)});
}

bool Drawing::place(sheet::Label label, const std::vector<LabelPlace>& places, std::string about) {
    const LabelPlace* chosen = nullptr;
    for (const LabelPlace& each : places) {
        label.at = each.at;
        label.anchor = each.anchor;
        const Box box = box_of(label);
        const bool on_sheet =
            box.left >= 0 && box.top >= 0 && box.right <= figure_.width && box.bottom <= figure_.height;
        if (!on_sheet || !is_free(box)) continue;
        const bool best = !over_line(box);
        if (chosen == nullptr || best) chosen = &each;
        if (best) break;
    }
    if (chosen == nullptr) return false;
    label.at = chosen->at;
    label.anchor = chosen->anchor;
    text(label, std::move(about));
    return true;
}

std::pair<std::size_t, std::size_t> Drawing::cells(double from, double to, std::size_t most) const {
    const auto cell_of = [most](double at) {
        return static_cast<std::size_t>(std::clamp(at / cell, 0.0, static_cast<double>(most - 1)));
    };
    return {cell_of(from), cell_of(to)};
}

bool Drawing::is_free(const Box& box) const {
    const Box wider = {box.left - margin, box.top - margin, box.right + margin, box.bottom + margin};
    const auto [left, right] = cells(wider.left, wider.right, columns_);
    const auto [top, bottom] = cells(wider.top, wider.bottom, rows_);
    for (std::size_t row = top; row <= bottom; ++row) {
        for (std::size_t column = left; column <= right; ++column) {
            for (const std::uint32_t index : grid_[row * columns_ + column]) {
                if (taken_[index].meets(wider)) return false;
            }
        }
    }
    return true;
}

bool Drawing::over_line(const Box& box) const {
    const auto [left, right] = cells(box.left, box.right, columns_);
    const auto [top, bottom] = cells(box.top, box.bottom, rows_);
    for (std::size_t row = top; row <= bottom; ++row) {
        for (std::size_t column = left; column <= right; ++column) {
            for (const At& at : avoided_[row * columns_ + column]) {
                if (at.x > box.left && at.x < box.right && at.y > box.top && at.y < box.bottom) return true;
            }
        }
    }
    return false;
}

void Drawing::avoid(At a, At b) {
    const double length = std::fabs(b.x - a.x) + std::fabs(b.y - a.y);
    if (!(length < figure_.width + figure_.height)) return;
    const int steps = static_cast<int>(length) + 1;
    for (int i = 0; i <= steps; ++i) {
        const At at = {a.x + (b.x - a.x) * i / steps, a.y + (b.y - a.y) * i / steps};
        avoided_[cells(at.y, at.y, rows_).first * columns_ + cells(at.x, at.x, columns_).first].push_back(at);
    }
}

void Drawing::keep_clear(const Box& box) {
    const auto [left, right] = cells(box.left, box.right, columns_);
    const auto [top, bottom] = cells(box.top, box.bottom, rows_);
    const auto index = static_cast<std::uint32_t>(taken_.size());
    taken_.push_back(box);
    for (std::size_t row = top; row <= bottom; ++row) {
        for (std::size_t column = left; column <= right; ++column)
            grid_[row * columns_ + column].push_back(index);
    }
}

sheet::Figure Drawing::take(std::string title, std::string said) {
    figure_.title = std::move(title);
    figure_.said = std::move(said);
    return std::move(figure_);
}

std::string cut_to(std::string text, double size, double most, bool bold) {
    if (text_width(text, size, bold) <= most) return text;
    const auto continues = [&text] { return (static_cast<unsigned char>(text.back()) & 0xc0) == 0x80; };
    while (!text.empty() && text_width(text + "...", size, bold) > most) {
        // A whole character of UTF-8 at a time.
        while (!text.empty() && continues()) text.pop_back();
        if (!text.empty()) text.pop_back();
    }
    return text + "...";
}

sheet::Label label(At at, std::string text, double size, Anchor anchor) {
    sheet::Label made;
    made.at = at;
    made.text = std::move(text);
    made.size = size;
    made.anchor = anchor;
    return made;
}

sheet::Label turned(At at, std::string text, double size, Anchor anchor) {
    sheet::Label made = label(at, std::move(text), size, anchor);
    made.turn = 90;
    return made;
}

}  // namespace fallwright::record
