#include "exchange/native/pdf/paint.h"

#include <cairo.h>

#include <cstdlib>
#include <string>

#include "sheet/ink.h"
#include "sheet/markup.h"
#include "sheet/shapes.h"

namespace fallwright::pdf {

namespace {

using sheet::At;

void set_stroke(cairo_t* on, const sheet::Stroke& stroke) {
    set_ink(on, stroke.ink);
    cairo_set_line_width(on, stroke.width);
    const std::vector<double> dashes = sheet::dashes_of(stroke);
    cairo_set_dash(on, dashes.data(), static_cast<int>(dashes.size()), 0);
}

void ring(cairo_t* on, const std::vector<At>& points, bool closed) {
    for (std::size_t k = 0; k < points.size(); ++k) {
        (k == 0 ? cairo_move_to : cairo_line_to)(on, points[k].x, points[k].y);
    }
    if (closed && !points.empty()) cairo_close_path(on);
}

// Items of a figure in painting order.
class Painter {
  public:
    Painter(cairo_t* on, Type& type) : on_(on), type_(type) {}

    void item(const sheet::Item& item) {
        std::visit([&](const auto& what) { draw(what); }, item.what);
    }

  private:
    void draw(const sheet::Polyline& line) {
        ring(on_, line.points, line.closed);
        set_stroke(on_, line.stroke);
        cairo_set_line_join(on_, CAIRO_LINE_JOIN_ROUND);
        cairo_stroke(on_);
    }

    void draw(const sheet::Area& area) {
        if (area.outline.size() < 3 || area.pattern == sheet::Pattern::None) return;
        if (area.pattern == sheet::Pattern::Solid || area.pattern == sheet::Pattern::Tint) {
            ring(on_, area.outline, true);
            for (const std::vector<At>& hole : area.holes) ring(on_, hole, true);
            set_ink(on_, area.ink, area.pattern == sheet::Pattern::Tint ? sheet::tint_share : 1);
            cairo_set_fill_rule(on_, CAIRO_FILL_RULE_EVEN_ODD);
            cairo_fill(on_);
            return;
        }
        hatch(area);
    }

    void hatch(const sheet::Area& area) {
        const bool dots = area.pattern == sheet::Pattern::Dots;
        for (const sheet::HatchLine& line : sheet::hatch_of(area)) ring(on_, {line.from, line.to}, false);
        sheet::Stroke stroke = sheet::hatch_stroke(area.ink);
        if (dots) stroke.width = sheet::dot_diameter;
        set_stroke(on_, stroke);
        cairo_set_line_cap(on_, dots ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
        cairo_stroke(on_);
        cairo_set_line_cap(on_, CAIRO_LINE_CAP_BUTT);
    }

    void draw(const sheet::Arc& arc) {
        constexpr double radians = 3.14159265358979323846 / 180;
        cairo_new_sub_path(on_);
        const bool backwards = arc.to_degrees < arc.from_degrees;
        (backwards ? cairo_arc_negative : cairo_arc)(on_, arc.centre.x, arc.centre.y, arc.radius,
                                                     arc.from_degrees * radians, arc.to_degrees * radians);
        set_stroke(on_, arc.stroke);
        cairo_stroke(on_);
    }

    void draw(const sheet::Label& label) {
        if (label.cleared) draw(sheet::clearing_of(label));
        std::string text;
        sheet::append_plain(text, label.text);
        if (text.empty()) return;
        const double width = type_.width(text, label.size, label.bold);
        const double before = label.anchor == sheet::Anchor::Start    ? 0
                              : label.anchor == sheet::Anchor::Middle ? 0.5
                                                                      : 1;
        const At along = sheet::direction_of(label.turn);
        cairo_save(on_);
        const cairo_matrix_t turned{along.x, along.y, -along.y, along.x, label.at.x, label.at.y};
        cairo_transform(on_, &turned);
        set_ink(on_, label.ink);
        type_.show(on_, {-before * width, 0}, text, label.size, label.bold, Setting::Quick);
        cairo_restore(on_);
    }

    void draw(const sheet::Symbol& symbol) {
        for (const sheet::Item& part : sheet::parts_of(symbol)) item(part);
    }

    cairo_t* on_;
    Type& type_;
};

void draw(cairo_t* on, const Words& words, Type& type) {
    set_ink(on, sheet::Ink::Line);
    type.show(on, words.at, words.text, words.size, words.bold, words.setting);
}

void draw(cairo_t* on, const Rule& rule, Type& /*type*/) {
    set_stroke(on, rule.stroke);
    cairo_move_to(on, rule.from.x, rule.from.y);
    cairo_line_to(on, rule.to.x, rule.to.y);
    cairo_stroke(on);
}

void draw(cairo_t* on, const CellMark& mark, Type& type) {
    sheet::Symbol symbol = sheet::mark_of(*mark.cell);
    symbol.at = {mark.at.x + symbol.at.x * mark.size, mark.at.y + symbol.at.y * mark.size};
    symbol.size = mark.size;
    Painter(on, type).item({symbol, ""});
}

void draw(cairo_t* on, const Picture& picture, Type& type) {
    cairo_save(on);
    cairo_translate(on, picture.at.x, picture.at.y);
    cairo_scale(on, picture.scale, picture.scale);
    paint(on, *picture.figure, type);
    cairo_restore(on);
}

}  // namespace

void set_ink(cairo_t* on, sheet::Ink ink, double share) {
    constexpr int two_digits = 0xff, hexadecimal = 16;
    constexpr unsigned red = 16, green = 8;
    const auto colour = static_cast<unsigned>(std::strtoul(sheet::ink_colour(ink) + 1, nullptr, hexadecimal));
    const auto part = [&](unsigned shift) {
        return static_cast<double>((colour >> shift) & two_digits) / two_digits;
    };
    cairo_set_source_rgba(on, part(red), part(green), part(0), share);
}

void paint(cairo_t* on, const sheet::Figure& figure, Type& type) {
    cairo_save(on);
    // A hair over, so that a frame drawn on the edge keeps its width.
    constexpr double hair = 0.5;
    cairo_rectangle(on, -hair, -hair, figure.width + 2 * hair, figure.height + 2 * hair);
    cairo_clip(on);
    Painter painter(on, type);
    for (const sheet::Item& item : figure.items) painter.item(item);
    cairo_restore(on);
}

void paint(cairo_t* on, const Sheet& sheet, Type& type) {
    for (const auto& piece : sheet.pieces) {
        std::visit([&](const auto& what) { draw(on, what, type); }, piece);
    }
}

}  // namespace fallwright::pdf
