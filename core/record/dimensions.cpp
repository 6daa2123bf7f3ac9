#include "record/dimensions.h"

#include <algorithm>

namespace fallwright::record {

namespace {

using sheet::Anchor;
using sheet::At;

constexpr double tick = 0.9, beyond = 1.2, gap = 0.9;
const sheet::Stroke dimension_stroke = {thin, sheet::Ink::Line, sheet::Dash::Solid};

// A short line at 45 degrees where the dimension ends.
void draw_tick(Drawing& drawing, At at) {
    drawing.line({at.x - tick, at.y + tick}, {at.x + tick, at.y - tick},
                 {wide, sheet::Ink::Line, sheet::Dash::Solid});
}

}  // namespace

void dimension_across(Drawing& drawing, double a, double b, double y, const std::string& words, double size) {
    drawing.line({a - beyond, y}, {b + beyond, y}, dimension_stroke);
    draw_tick(drawing, {a, y});
    draw_tick(drawing, {b, y});
    drawing.place(label({}, words, size), {{{(a + b) / 2, y - gap}, Anchor::Middle},
                                           {{b + beyond + gap, y + size * 0.36}, Anchor::Start},
                                           {{a - beyond - gap, y + size * 0.36}, Anchor::End},
                                           {{(a + b) / 2, y + gap + size * ascent}, Anchor::Middle}});
}

void dimension_up(Drawing& drawing, double x, double a, double b, const std::string& words, double size) {
    const double top = std::min(a, b), bottom = std::max(a, b), middle = (top + bottom) / 2;
    drawing.line({x, top - beyond}, {x, bottom + beyond}, dimension_stroke);
    draw_tick(drawing, {x, top});
    draw_tick(drawing, {x, bottom});
    if (text_width(words, size) < bottom - top - 2 * gap) {
        drawing.text(turned({x - gap, middle}, words, size));
        return;
    }
    drawing.place(label({}, words, size), {{{x + gap + tick, middle + size * 0.36}, Anchor::Start},
                                           {{x + gap + tick, top - gap}, Anchor::Start},
                                           {{x + gap + tick, bottom + gap + size * ascent}, Anchor::Start}});
}

void draw_name_of(Drawing& drawing, At what, At name, const std::string& words, double size) {
    drawing.path({what, name}, dimension_stroke);
    drawing.mark({what, sheet::Mark::Spot, 0.8, 0, sheet::Ink::Line});
    drawing.place(label({}, words, size), {{{name.x + gap, name.y + size * 0.36}, Anchor::Start},
                                           {{name.x - gap, name.y + size * 0.36}, Anchor::End}});
}

}  // namespace fallwright::record
