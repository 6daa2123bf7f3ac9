#include "record/plan_frame.h"

#include <algorithm>
#include <cmath>

#include "record/figure_words.h"
#include "record/scales.h"

namespace fallwright::record {

namespace {

using sheet::Anchor;
using sheet::Ink;

constexpr double rim = 14;           // mm between what is shown and the frame, for labels
constexpr double axis = 9;           // mm left of and under the frame for figures of the grid
constexpr double least_size = 0.01;  // metres
constexpr double grid_apart = 30, bar_length = 40;
constexpr double narrow = 5, narrow_height = 110;
constexpr double least_frame = 45;  // mm high
const sheet::Stroke thin_line = {thin, Ink::Line, sheet::Dash::Solid};

}  // namespace

void Extent::take(double e, double n) {
    if (!any()) {
        west = east = e;
        south = north = n;
        return;
    }
    west = std::min(west, e);
    east = std::max(east, e);
    south = std::min(south, n);
    north = std::max(north, n);
}

PlanFrame::PlanFrame(const Extent& extent, double top, double width, double height, Unit unit) {
    const double inner_width = width - axis - 2 * rim, inner_height = height - 2 * rim;
    const double across = std::max(extent.east - extent.west, least_size);
    const double up = std::max(extent.north - extent.south, least_size);
    // A line that runs north needs no whole sheet to itself.
    const double most_up = across < up / narrow ? std::min(inner_height, narrow_height) : inner_height;
    scale_ = round_scale(std::max(across * mm_per_metre / inner_width, up * mm_per_metre / most_up), unit);
    const double shown = std::max(on_paper(up, scale_) + 2 * rim, least_frame);
    box_ = {axis, top, width - 0.5, top + shown};
    const double middle_e = (extent.west + extent.east) / 2, middle_n = (extent.south + extent.north) / 2;
    west_ = middle_e - (box_.right - box_.left) / 2 * scale_ / mm_per_metre;
    north_ = middle_n + shown / 2 * scale_ / mm_per_metre;
}

sheet::At PlanFrame::at(double e, double n) const {
    return {box_.left + on_paper(e - west_, scale_), box_.top + on_paper(north_ - n, scale_)};
}

void PlanFrame::draw(Drawing& drawing, const Book& book, bool on_grid) const {
    drawing.box(box_, thin_line);
    const double step = round_step(grid_apart * scale_ / mm_per_metre, book.unit);
    const double width = (box_.right - box_.left) * scale_ / mm_per_metre;
    const double height = (box_.bottom - box_.top) * scale_ / mm_per_metre;
    const double tick = 1.5, south = north_ - height;
    // So far from the origin that a step is lost in rounding there is no grid to show.
    const auto ticks = [step](double from, double length) {
        std::vector<double> all;
        const double first = std::ceil(from / step) * step;
        for (int i = 0; first + i * step < from + length && first + step > first; ++i)
            all.push_back(first + i * step);
        return all;
    };
    for (const double e : ticks(west_, width)) {
        const double x = at(e, north_).x;
        drawing.line({x, box_.bottom}, {x, box_.bottom - tick}, thin_line);
        drawing.line({x, box_.top}, {x, box_.top + tick}, thin_line);
        drawing.place(label({}, short_words(book, e) + (on_grid ? " E" : ""), small_type),
                      {{{x, box_.bottom + 0.6 + ascent * small_type}, Anchor::Middle}});
    }
    for (const double n : ticks(south, height)) {
        const double y = at(west_, n).y;
        drawing.line({box_.left, y}, {box_.left + tick, y}, thin_line);
        drawing.line({box_.right, y}, {box_.right - tick, y}, thin_line);
        drawing.place(turned({}, short_words(book, n) + (on_grid ? " N" : ""), small_type),
                      {{{box_.left - 1.2, y}, Anchor::Middle}});
    }
    if (on_grid) {
        drawing.mark({{box_.right - 8, box_.top + 9}, sheet::Mark::NorthArrow, 11, 0, Ink::Line});
    } else {
        const double x = box_.right - 8;
        drawing.line({x, box_.top + 14}, {x, box_.top + 5}, thin_line);
        drawing.mark({{x, box_.top + 5}, sheet::Mark::FlowArrow, 4, 90, Ink::Line});
        drawing.place(label({}, "chainage", small_type), {{{x, box_.top + 17}, Anchor::Middle}});
    }
}

double PlanFrame::draw_scale_bar(Drawing& drawing, const Book& book, double top) const {
    constexpr int parts = 4;
    const double step = round_step(bar_length / parts * scale_ / mm_per_metre, book.unit);
    const double part = on_paper(step, scale_), left = box_.left, y = top + 3.4, high = 1.4;
    for (int i = 0; i < parts; ++i) {
        const double x = left + i * part;
        if (i % 2 == 0)
            drawing.area({{x, y}, {x + part, y}, {x + part, y + high}, {x, y + high}}, Ink::Line,
                         sheet::Pattern::Solid);
    }
    drawing.box({left, y, left + parts * part, y + high}, thin_line);
    for (const int i : {0, parts / 2, parts}) {
        const std::string words = short_words(book, i * step) + (i == parts ? " " + unit_words(book) : "");
        drawing.place(label({}, words, small_type), {{{left + i * part, y - 0.8}, Anchor::Middle}});
    }
    return y + high + 1.5;
}

}  // namespace fallwright::record
