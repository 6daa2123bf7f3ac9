#include "sheet/svg.h"

#include <cmath>
#include <type_traits>
#include <variant>

#include "base/print.h"
#include "sheet/ink.h"
#include "sheet/markup.h"
#include "sheet/render.h"
#include "sheet/shapes.h"
#include "sheet/type.h"

namespace fallwright::sheet {

namespace {

constexpr int places = 3;  // of a millimetre

class Svg {
  public:
    explicit Svg(std::string& out) : out_(out) {}

    void item(const Item& item) {
        if (!item.about.empty()) {
            out_ += "<g";
            attribute(out_, "data-about", item.about);
            out_ += ">\n";
        }
        std::visit([&](const auto& what) { draw(what); }, item.what);
        if (!item.about.empty()) out_ += "</g>\n";
    }

  private:
    void point(At p) {
        append_trimmed(out_, p.x, places);
        out_ += ' ';
        append_trimmed(out_, p.y, places);
    }

    void stroke(const Stroke& stroke) {
        attribute(out_, "fill", "none");
        attribute(out_, "stroke", ink_colour(stroke.ink));
        attribute(out_, "stroke-width", stroke.width);
        std::string dashes;
        for (const double length : dashes_of(stroke)) {
            if (!dashes.empty()) dashes += ' ';
            append_trimmed(dashes, length, places);
        }
        if (!dashes.empty()) attribute(out_, "stroke-dasharray", dashes);
    }

    void ring(const std::vector<At>& points, bool closed) {
        for (std::size_t k = 0; k < points.size(); ++k) {
            out_ += k == 0 ? 'M' : 'L';
            point(points[k]);
        }
        if (closed) out_ += 'Z';
    }

    void draw(const Polyline& line) {
        if (line.points.empty()) return;
        out_ += "<path d=\"";
        ring(line.points, line.closed);
        out_ += '"';
        stroke(line.stroke);
        attribute(out_, "stroke-linejoin", "round");
        out_ += "/>\n";
    }

    void draw(const Area& area) {
        if (area.outline.size() < 3 || area.pattern == Pattern::None) return;
        if (area.pattern == Pattern::Solid || area.pattern == Pattern::Tint) {
            out_ += "<path d=\"";
            ring(area.outline, true);
            for (const std::vector<At>& hole : area.holes) ring(hole, true);
            out_ += '"';
            attribute(out_, "fill", ink_colour(area.ink));
            if (area.pattern == Pattern::Tint) attribute(out_, "fill-opacity", tint_share);
            attribute(out_, "fill-rule", "evenodd");
            out_ += "/>\n";
            return;
        }
        hatch(area);
    }

    void hatch(const Area& area) {
        const std::vector<HatchLine> lines = hatch_of(area);
        if (lines.empty()) return;
        const bool dots = area.pattern == Pattern::Dots;
        out_ += "<path d=\"";
        for (const HatchLine& line : lines) ring({line.from, line.to}, false);
        out_ += '"';
        Stroke thin = hatch_stroke(area.ink);
        if (dots) thin.width = dot_diameter;
        stroke(thin);
        if (dots) attribute(out_, "stroke-linecap", "round");
        out_ += "/>\n";
    }

    void draw(const Arc& arc) {
        constexpr double full = 360, half = 180;
        const double sweep = arc.to_degrees - arc.from_degrees;
        if (std::fabs(sweep) >= full) {
            out_ += "<circle";
            attribute(out_, "cx", arc.centre.x);
            attribute(out_, "cy", arc.centre.y);
            attribute(out_, "r", arc.radius);
        } else {
            out_ += "<path d=\"M";
            point(end_of(arc, arc.from_degrees));
            out_ += 'A';
            point({arc.radius, arc.radius});
            out_ += std::fabs(sweep) > half ? " 0 1 " : " 0 0 ";
            out_ += sweep > 0 ? "1 " : "0 ";
            point(end_of(arc, arc.to_degrees));
            out_ += '"';
        }
        stroke(arc.stroke);
        out_ += "/>\n";
    }

    static At end_of(const Arc& arc, double degrees) {
        const At along = direction_of(-degrees);
        return {arc.centre.x + arc.radius * along.x, arc.centre.y + arc.radius * along.y};
    }

    void turned(const Label& label) {
        if (label.turn == 0) return;
        std::string turn = "rotate(";
        append_trimmed(turn, -label.turn, places);
        turn += ' ';
        append_trimmed(turn, label.at.x, places);
        turn += ' ';
        append_trimmed(turn, label.at.y, places);
        attribute(out_, "transform", turn + ")");
    }

    void draw(const Label& label) {
        if (label.text.empty()) return;
        if (label.cleared) draw(clearing_of(label));
        out_ += "<text";
        attribute(out_, "x", label.at.x);
        attribute(out_, "y", label.at.y);
        attribute(out_, "font-size", label.size);
        if (label.anchor != Anchor::Start) {
            attribute(out_, "text-anchor", label.anchor == Anchor::Middle ? "middle" : "end");
        }
        if (label.bold) attribute(out_, "font-weight", "bold");
        attribute(out_, "fill", ink_colour(label.ink));
        turned(label);
        out_ += '>';
        append_escaped(out_, label.text);
        out_ += "</text>\n";
    }

    void draw(const Symbol& symbol) {
        for (const Item& part : parts_of(symbol)) item(part);
    }

    std::string& out_;
};

void element(std::string& out, const char* name, const std::string& id, const std::string& text) {
    out += '<';
    out += name;
    attribute(out, "id", id);
    out += '>';
    append_escaped(out, text);
    out += "</";
    out += name;
    out += ">\n";
}

}  // namespace

std::string svg_of(const Figure& figure, const std::string& ids) {
    std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\"";
    attribute(out, "width", trimmed(figure.width, places) + "mm");
    attribute(out, "height", trimmed(figure.height, places) + "mm");
    attribute(out, "viewBox", "0 0 " + trimmed(figure.width, places) + " " + trimmed(figure.height, places));
    attribute(out, "role", "img");
    attribute(out, "aria-labelledby", ids + "-title " + ids + "-desc");
    attribute(out, "font-family", type_family);
    out += ">\n";
    element(out, "title", ids + "-title", figure.title);
    element(out, "desc", ids + "-desc", figure.said);
    Svg svg(out);
    for (const Item& item : figure.items) svg.item(item);
    out += "</svg>\n";
    return out;
}

std::string svg_mark(const Cell& cell) {
    std::string out =
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"mark\" width=\"9\" height=\"9\" viewBox=\"0 0 1 "
        "1\" "
        "aria-hidden=\"true\">";
    Svg(out).item({mark_of(cell), ""});
    out += "</svg>";
    return out;
}

}  // namespace fallwright::sheet
