#include "record/deviations.h"

#include <algorithm>
#include <cmath>

#include "record/figure_words.h"
#include "record/scales.h"

namespace fallwright::record {

namespace {

using sheet::Anchor;
using sheet::Ink;

constexpr double two_sided_95 = 1.96;
constexpr double band_share = 1.6;      // how much of the band's size is shown
constexpr double least_reach = 0.0005;  // metres
constexpr double wild = 4;              // times the ninth of ten points: drawn at the edge
constexpr double tick_apart = 5;        // mm
constexpr double mark_size = 2.4, cap = 0.7;

double shown_value(const Found& found, bool of_fit) {
    return of_fit ? found.off_fit : found.deviation;
}

double to_y(const DeviationPanel& panel, double metres) {
    return panel.middle - on_paper(metres, panel.scale);
}

double clamped(const DeviationPanel& panel, double y) {
    return std::clamp(y, panel.box.top, panel.box.bottom);
}

void draw_band(Drawing& drawing, const DeviationPanel& panel) {
    if (std::isnan(panel.below) && std::isnan(panel.above)) return;
    const double top = std::isnan(panel.above) ? panel.box.top : clamped(panel, to_y(panel, panel.above));
    const double bottom =
        std::isnan(panel.below) ? panel.box.bottom : clamped(panel, to_y(panel, panel.below));
    const double left = panel.box.left, right = panel.box.right;
    drawing.area({{left, top}, {right, top}, {right, bottom}, {left, bottom}}, Ink::Faint,
                 sheet::Pattern::HatchUp);
    const sheet::Stroke edge = {thin, Ink::Line, sheet::Dash::Dashed};
    if (!std::isnan(panel.above)) drawing.line({left, top}, {right, top}, edge);
    if (!std::isnan(panel.below)) drawing.line({left, bottom}, {right, bottom}, edge);
}

void draw_axis(Drawing& drawing, const DeviationPanel& panel, const Book& book) {
    const double step = round_step(tick_apart * panel.scale / mm_per_metre, book.unit);
    const int most = static_cast<int>((panel.box.bottom - panel.box.top) / tick_apart) + 1;
    for (int i = -most; i <= most; ++i) {
        const double y = to_y(panel, i * step);
        if (y < panel.box.top - 0.01 || y > panel.box.bottom + 0.01) continue;
        drawing.line({panel.box.left - 1.2, y}, {panel.box.left, y}, {thin, Ink::Line, sheet::Dash::Solid});
        drawing.place(label({}, short_difference_words(book, i * step), small_type),
                      {{{panel.box.left - 1.8, y + small_type * 0.36}, Anchor::End}});
    }
}

void draw_bar(Drawing& drawing, const DeviationPanel& panel, const DeviationPoint& point) {
    if (!(point.sd > 0)) return;
    const auto bar = [&](double sds, double width, double cap_width) {
        const double top = clamped(panel, to_y(panel, point.value + sds * point.sd));
        const double bottom = clamped(panel, to_y(panel, point.value - sds * point.sd));
        const sheet::Stroke stroke = {width, Ink::Line, sheet::Dash::Solid};
        drawing.line({point.x, top}, {point.x, bottom}, stroke, point.about);
        if (cap_width == 0) return;
        drawing.keep_clear({point.x - cap_width, top, point.x + cap_width, bottom});
        drawing.line({point.x - cap_width, top}, {point.x + cap_width, top}, stroke);
        drawing.line({point.x - cap_width, bottom}, {point.x + cap_width, bottom}, stroke);
    };
    bar(two_sided_95, thin, cap);
    bar(1, heavy_line, 0);
}

void draw_value(Drawing& drawing, const DeviationPanel& panel, const DeviationPoint& point, const Book& book,
                bool must) {
    const double reach =
        std::max(mark_size / 2, std::isnan(point.sd) ? 0 : on_paper(two_sided_95 * point.sd, panel.scale));
    const double y = clamped(panel, to_y(panel, point.value));
    const std::string word =
        point.judged.verdict == Verdict::Outside ? " " + word_of(point.judged, point.value) : "";
    sheet::Label text = label({}, difference_words(book, point.value) + word, small_type);
    text.bold = must;
    text.cleared = true;
    const double up = y - reach - 0.6, down = y + reach + 0.6 + ascent * small_type;
    const double level = y + 0.26 * small_type, aside = mark_size / 2 + 0.6;
    std::vector<LabelPlace> places;
    const auto add = [&](double x, double at, Anchor anchor) {
        // Inside the panel, so that no figure lands in the boxes.
        if (at - ascent * small_type > panel.box.top && at < panel.box.bottom)
            places.push_back({{x, at}, anchor});
    };
    if (must || point.value >= 0) add(point.x, up, Anchor::Middle);
    add(point.x, down, Anchor::Middle);
    if (must) {
        add(point.x + aside, level, Anchor::Start);
        add(point.x - aside, level, Anchor::End);
        for (int i = 1; i < 5; ++i) {
            add(point.x + aside, level - i * 2.6, Anchor::Start);
            add(point.x + aside, level + i * 2.6, Anchor::Start);
            add(point.x - aside, level - i * 2.6, Anchor::End);
            add(point.x - aside, level + i * 2.6, Anchor::End);
        }
    }
    drawing.place(text, places, point.about);
}

}  // namespace

double deviation_reach(const std::vector<FoundSurface>& surfaces, bool of_fit) {
    double band = 0;
    std::vector<double> sizes;
    for (const FoundSurface& surface : surfaces) {
        if (surface.tolerance != nullptr && !of_fit) {
            band = std::max({band, std::fabs(surface.tolerance->below.or_else(0)),
                             std::fabs(surface.tolerance->above.or_else(0))});
        }
        for (const Found& found : surface.found) {
            const double value = shown_value(found, of_fit);
            if (std::isnan(value)) continue;
            sizes.push_back(std::fabs(value) + (std::isnan(found.sd) ? 0 : two_sided_95 * found.sd));
        }
    }
    if (sizes.empty()) return std::max(band * band_share, least_reach);
    std::sort(sizes.begin(), sizes.end());
    const double most = std::max(wild * sizes[sizes.size() * 9 / 10], 2 * band);
    const double shown = std::min(sizes.back(), most);
    return std::max({shown * 1.1, band * band_share, least_reach});
}

DeviationPanel deviation_panel(const Box& box, double reach, const Tolerance* tolerance, Unit unit) {
    DeviationPanel panel;
    panel.box = box;
    panel.middle = (box.top + box.bottom) / 2;
    panel.scale = round_scale(reach * mm_per_metre / ((box.bottom - box.top) / 2), unit);
    if (tolerance != nullptr) {
        panel.below = tolerance->below.value;
        panel.above = tolerance->above.value;
    }
    return panel;
}

void draw_panel(Drawing& drawing, const DeviationPanel& panel, const Book& book) {
    draw_band(drawing, panel);
    drawing.box(panel.box, {thin, Ink::Line, sheet::Dash::Solid});
    drawing.line({panel.box.left, panel.middle}, {panel.box.right, panel.middle},
                 {wide, Ink::Design, sheet::Dash::Solid});
    draw_axis(drawing, panel, book);
}

void draw_points(Drawing& drawing, const DeviationPanel& panel, const std::vector<DeviationPoint>& points,
                 const Book& book, bool values, UsedMarks& used) {
    for (const DeviationPoint& point : points) draw_bar(drawing, panel, point);
    for (const DeviationPoint& point : points) {
        const sheet::Mark mark = mark_of(point.judged, point.value);
        note_mark(used, mark);
        drawing.mark({{point.x, clamped(panel, to_y(panel, point.value))},
                      mark,
                      mark == sheet::Mark::Spot ? 1.4 : mark_size,
                      0,
                      ink_of(point.judged, point.value)},
                     point.about);
    }
    const auto beyond = [&](const DeviationPoint& point) {
        const double y = to_y(panel, point.value);
        return y < panel.box.top || y > panel.box.bottom;
    };
    // What matters most first, so that it finds its place.
    for (const bool must : {true, false}) {
        for (const DeviationPoint& point : points) {
            const bool matters = point.judged.verdict == Verdict::Outside ||
                                 point.judged.verdict == Verdict::Undecided || beyond(point);
            if (matters == must && (must || values)) draw_value(drawing, panel, point, book, must);
        }
    }
}

}  // namespace fallwright::record
