#include "sheet/shapes.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "sheet/ink.h"
#include "sheet/type.h"

namespace fallwright::sheet {

namespace {

constexpr double half_turn = 180;
constexpr double most_lines = 20000;  // of one hatch: no sheet is so large, only a slip

// Builds a symbol in a frame of its own: x right and y up of its centre in parts of its size, then turned.
class Builder {
  public:
    Builder(const Symbol& symbol, double turn) : symbol_(symbol), along_(direction_of(turn)) {}

    At at(double x, double y) const {
        const double right = x * symbol_.size, up = y * symbol_.size;
        return {symbol_.at.x + right * along_.x + up * along_.y,
                symbol_.at.y + right * along_.y - up * along_.x};
    }
    void line(const std::vector<At>& points, bool closed = false, double share = 0.1) {
        Polyline line{{}, stroke(share), closed};
        for (const At& p : points) line.points.push_back(at(p.x, p.y));
        parts_.push_back({line, ""});
    }
    void area(const std::vector<At>& points, Ink ink) {
        Area area{{}, {}, ink, Pattern::Solid};
        for (const At& p : points) area.outline.push_back(at(p.x, p.y));
        parts_.push_back({area, ""});
    }
    void ring(double radius, double share = 0.1) {
        parts_.push_back({Arc{symbol_.at, radius * symbol_.size, 0, 2 * half_turn, stroke(share)}, ""});
    }
    // A circle of half the radius drawn as thick as the radius is a disc.
    void disc(double radius) { ring(radius / 2, radius); }
    void letter(const char* text, double x, double y, double size) {
        Label label;
        label.at = at(x, y);
        label.text = text;
        label.size = size * symbol_.size;
        label.anchor = Anchor::Middle;
        label.turn = symbol_.turn;
        label.ink = symbol_.ink;
        parts_.push_back({label, ""});
    }
    Ink ink() const { return symbol_.ink; }
    std::vector<Item> take() { return std::move(parts_); }

  private:
    Stroke stroke(double share) const { return {share * symbol_.size, symbol_.ink, Dash::Solid}; }

    const Symbol& symbol_;
    At along_;
    std::vector<Item> parts_;
};

void tripod(Builder& build) {
    const double far = 0.5, near = 0.16, half = 0.5, root = std::sqrt(0.75);
    build.line({{0, near}, {0, far}});
    build.line({{-near * root, -near * half}, {-far * root, -far * half}});
    build.line({{near * root, -near * half}, {far * root, -far * half}});
    build.ring(near);
}

void north(Builder& build) {
    build.line({{0, -0.5}, {0, 0.2}}, false, 0.04);
    build.area({{0, 0.2}, {-0.1, -0.15}, {0, -0.08}}, build.ink());
    build.line({{0, 0.2}, {-0.1, -0.15}, {0, -0.08}, {0.1, -0.15}}, true, 0.04);
    build.letter("N", 0, 0.24, 0.36);
}

void draw(Builder& build, Mark mark) {
    const std::vector<At> down{{-0.5, 0.43}, {0.5, 0.43}, {0, -0.43}},
        up{{-0.5, -0.43}, {0.5, -0.43}, {0, 0.43}};
    const std::vector<At> on_point{{-0.5, 0.87}, {0.5, 0.87}, {0, 0}};
    switch (mark) {
        case Mark::Benchmark:
            return build.area(on_point, build.ink());
        case Mark::LevelMark:
            return build.line({{-0.46, 0.8}, {0.46, 0.8}, {0, 0}}, true, 0.07);
        case Mark::SetUp:
            return tripod(build);
        case Mark::Point:
            build.line({{-0.5, 0}, {0.5, 0}});
            return build.line({{0, -0.5}, {0, 0.5}});
        case Mark::Spot:
            return build.disc(0.25);
        case Mark::Chamber:
            build.area({{-0.45, -0.45}, {0.45, -0.45}, {0.45, 0.45}, {-0.45, 0.45}}, Ink::Paper);
            return build.line({{-0.45, -0.45}, {0.45, -0.45}, {0.45, 0.45}, {-0.45, 0.45}}, true);
        case Mark::DigWedge:
            return build.area(down, build.ink());
        case Mark::FillWedge:
            return build.area(up, build.ink());
        case Mark::OnBar:
            return build.area({{-0.5, -0.13}, {0.5, -0.13}, {0.5, 0.13}, {-0.5, 0.13}}, build.ink());
        case Mark::Undecided:
            return build.ring(0.42, 0.14);
        case Mark::NorthArrow:
            return north(build);
        case Mark::FlowArrow:
            build.line({{-0.5, 0}, {0.45, 0}}, false, 0.08);
            return build.area({{0.5, 0}, {0.15, 0.17}, {0.15, -0.17}}, build.ink());
    }
}

// A line of the plane in a hatch's own frame: `s` along its lines, `t` across them.
struct Frame {
    At along;
    double s(At p) const { return p.x * along.x + p.y * along.y; }
    double t(At p) const { return p.y * along.x - p.x * along.y; }
    At at(double s, double t) const { return {s * along.x - t * along.y, s * along.y + t * along.x}; }
};

// Where the line at t crosses the outline: each edge is closed at its lower end and open at its upper one, so
// that a corner is crossed once or not at all.
void add_crossings(std::vector<double>& out, const std::vector<At>& outline, const Frame& frame, double t) {
    for (std::size_t k = 0; k < outline.size(); ++k) {
        const At a = outline[k], b = outline[(k + 1) % outline.size()];
        const double ta = frame.t(a), tb = frame.t(b);
        if ((ta <= t) == (tb <= t)) continue;
        out.push_back(frame.s(a) + (t - ta) / (tb - ta) * (frame.s(b) - frame.s(a)));
    }
}

void add_stretch(std::vector<HatchLine>& out, const Frame& frame, double t, double from, double to,
                 const Hatch& hatch) {
    if (!hatch.dots) {
        out.push_back({frame.at(from, t), frame.at(to, t)});
        return;
    }
    for (double k = std::ceil(from / hatch.spacing);
         k * hatch.spacing <= to && static_cast<double>(out.size()) <= most_lines; ++k) {
        const At p = frame.at(k * hatch.spacing, t);
        out.push_back({p, p});
    }
}

void add_hatch(std::vector<HatchLine>& out, const Area& area, const Hatch& hatch) {
    const Frame frame{direction_of(hatch.turn)};
    double low = frame.t(area.outline.front()), high = low;
    for (const At& p : area.outline) {
        low = std::min(low, frame.t(p));
        high = std::max(high, frame.t(p));
    }
    if (!((high - low) / hatch.spacing <= most_lines)) return;
    std::vector<double> crossings;
    for (double k = std::ceil(low / hatch.spacing); k * hatch.spacing <= high; ++k) {
        const double t = k * hatch.spacing;
        crossings.clear();
        add_crossings(crossings, area.outline, frame, t);
        for (const std::vector<At>& hole : area.holes) add_crossings(crossings, hole, frame, t);
        std::sort(crossings.begin(), crossings.end());
        for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
            add_stretch(out, frame, t, crossings[i], crossings[i + 1], hatch);
        }
    }
}

}  // namespace

At direction_of(double degrees) {
    // In eighths of a turn, exactly where they are whole.
    constexpr double eighth = 45, pi = 3.14159265358979323846;
    const double eighths = degrees / eighth, whole = std::floor(eighths + 0.5);
    if (eighths != whole || !(std::fabs(whole) < 1e6)) {
        return {std::cos(degrees * pi / half_turn), -std::sin(degrees * pi / half_turn)};
    }
    const double root = std::sqrt(0.5);
    const double cosines[] = {1, root, 0, -root, -1, -root, 0, root};
    const auto k = static_cast<std::size_t>(((static_cast<long>(whole) % 8) + 8) % 8);
    return {cosines[k], -cosines[(k + 6) % 8]};
}

std::vector<Item> parts_of(const Symbol& symbol) {
    Builder build(symbol, symbol.turn);
    draw(build, symbol.mark);
    return build.take();
}

Area clearing_of(const Label& label) {
    const double width = text_width(label.text, label.size, label.bold), rim = 0.15 * label.size;
    const double before = label.anchor == Anchor::Start ? 0 : label.anchor == Anchor::Middle ? 0.5 : 1;
    const At along = direction_of(label.turn);
    const auto at = [&](double run, double over) {
        return At{label.at.x + run * along.x + over * along.y, label.at.y + run * along.y - over * along.x};
    };
    const double from = -before * width - rim, to = (1 - before) * width + rim;
    const double top = ascent * label.size, bottom = -descent * label.size;
    return {{at(from, top), at(to, top), at(to, bottom), at(from, bottom)}, {}, Ink::Paper, Pattern::Solid};
}

Symbol mark_of(const Cell& cell) {
    const bool on_point = cell.mark == Mark::Benchmark || cell.mark == Mark::LevelMark;
    return {{0.5, on_point ? 0.95 : 0.5}, cell.mark, 1, 0, cell.ink};
}

std::vector<HatchLine> hatch_of(const Area& area) {
    std::vector<HatchLine> out;
    if (area.outline.size() < 3) return out;
    for (const Hatch& hatch : hatches_of(area.pattern)) add_hatch(out, area, hatch);
    return out;
}

std::vector<double> dashes_of(const Stroke& stroke) {
    const double w = std::max(stroke.width, 0.18);
    switch (stroke.dash) {
        case Dash::Dashed:
            return {12 * w, 4 * w};
        case Dash::DashDot:
            return {16 * w, 4 * w, 1 * w, 4 * w};
        case Dash::Dotted:
            return {1 * w, 4 * w};
        case Dash::Solid:
            break;
    }
    return {};
}

}  // namespace fallwright::sheet
