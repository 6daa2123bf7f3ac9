#include <string_view>

#include "base/print.h"
#include "staff/face.h"
#include "staff/picture.h"
#include "staff/window.h"

namespace fallwright::staff {

namespace {

// Units of the drawing; 10 a block.
constexpr double block_units = 10;
constexpr double margin = 12;
constexpr double face_left = 30, face_width = 120;
constexpr double column_width = 52;  // of the blocks, at the face's left
constexpr double spine_width = 14;
constexpr double figure_left = face_left + column_width + 6;
constexpr double digits_height = 30;
constexpr double light_left = 8, light_right = face_left + face_width + 14;
constexpr double label_left = light_right + 4;
constexpr double drawing_width = 250;

constexpr std::string_view black = "#1a1a1a";
constexpr std::string_view red = "#a31621";

std::string_view colour(Paint paint) {
    return paint == Paint::Red ? red : black;
}

// The vertical frame: where a figure of an upright staff comes to lie.
struct Frame {
    Window window;
    double block_metres;
    double height() const { return static_cast<double>(window.count) * block_units; }
    double y(Decimal figure) const {
        const double blocks = figure.metres() / block_metres - static_cast<double>(window.first);
        return margin + height() - blocks * block_units;
    }
};

void attribute(std::string& out, std::string_view name, double value) {
    out += ' ';
    out += name;
    out += "=\"";
    append_trimmed(out, value, 3);
    out += '"';
}

void attribute(std::string& out, std::string_view name, std::string_view value) {
    out += ' ';
    out += name;
    out += "=\"";
    out += value;
    out += '"';
}

void rectangle(std::string& out, std::string_view kind, double x, double y, double width, double height,
               std::string_view fill) {
    out += "<rect";
    attribute(out, "class", kind);
    attribute(out, "x", x);
    attribute(out, "y", y);
    attribute(out, "width", width);
    attribute(out, "height", height);
    attribute(out, "fill", fill);
    out += "/>\n";
}

void line(std::string& out, std::string_view kind, double x1, double x2, double y, std::string_view stroke,
          double width) {
    out += "<line";
    attribute(out, "class", kind);
    attribute(out, "x1", x1);
    attribute(out, "y1", y);
    attribute(out, "x2", x2);
    attribute(out, "y2", y);
    attribute(out, "stroke", stroke);
    attribute(out, "stroke-width", width);
    out += "/>\n";
}

void text(std::string& out, std::string_view kind, double x, double y, double size, std::string_view fill,
          std::string_view content) {
    out += "<text";
    attribute(out, "class", kind);
    attribute(out, "x", x);
    attribute(out, "y", y);
    attribute(out, "font-family", "sans-serif");
    attribute(out, "font-weight", "bold");
    attribute(out, "font-size", size);
    attribute(out, "fill", fill);
    out += '>';
    out += content;
    out += "</text>\n";
}

void draw_block(std::string& out, const Block& block, const Frame& frame) {
    const double y = frame.y(block.top);
    if (block.dark) {
        rectangle(out, "dark", face_left, y, column_width, block_units, colour(block.paint));
    } else if (block.spine != Spine::None) {
        const double x = block.spine == Spine::Left ? face_left : face_left + column_width - spine_width;
        rectangle(out, "spine", x, y, spine_width, block_units, colour(block.paint));
    }
}

void draw_figure(std::string& out, const FaceFigure& figure, const Frame& frame) {
    const double y = frame.y(figure.at);
    line(out, "at", face_left + column_width, face_left + face_width, y, colour(figure.paint), 1.2);
    // No room for the digits at the window's end: the line alone.
    if (y - digits_height < margin) return;
    text(out, "figure", figure_left, y - 3, figure.text.size() > 3 ? 26 : 34, colour(figure.paint),
         figure.text);
}

// The face as on an upright staff; turned half round about the window's middle where it is inverted.
void draw_face(std::string& out, const View& view, const Frame& frame) {
    out += "<g";
    attribute(out, "class", "face");
    if (view.inverted) {
        const std::string centre =
            trimmed(face_left + face_width / 2, 3) + " " + trimmed(margin + frame.height() / 2, 3);
        attribute(out, "transform", "rotate(180 " + centre + ")");
    }
    out += ">\n";
    rectangle(out, "board", face_left, margin, face_width, frame.height(), "#ffffff");
    for (std::int64_t i = 0; i < frame.window.count; ++i) {
        const std::int64_t number = frame.window.first + i;
        draw_block(out, block(number, view.unit), frame);
        if (figure_stands_under(number)) draw_figure(out, figure_under(number, view.unit), frame);
    }
    out += "</g>\n";
    out += "<rect class=\"edge\" fill=\"none\" stroke=\"#1a1a1a\" stroke-width=\"1\"";
    attribute(out, "x", face_left);
    attribute(out, "y", margin);
    attribute(out, "width", face_width);
    attribute(out, "height", frame.height());
    out += "/>\n";
}

// White under black, so that the line shows on dark blocks as on light ones, in any colour or none.
void draw_light(std::string& out, const View& view, const Frame& frame) {
    const double upright = frame.y(view.reading);
    const double y = view.inverted ? 2 * margin + frame.height() - upright : upright;
    line(out, "casing", light_left, light_right, y, "#ffffff", 3);
    line(out, "light", light_left, light_right, y, black, 1);
    text(out, "reading", label_left, y + 7, 20, black, figure_text(view.reading, view.unit));
}

}  // namespace

std::string picture_svg(const View& view) {
    const Frame frame{window_of(view), block_height(view.unit).metres()};
    std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" viewBox=\"0 0 ";
    append_trimmed(out, drawing_width, 0);
    out += ' ';
    append_trimmed(out, frame.height() + 2 * margin, 0);
    out += "\">\n<title>Face of the staff at ";
    out += figure_text(view.reading, view.unit);
    out += view.unit == Unit::Foot ? " ft" : " m";
    out += view.inverted ? ", upside down</title>\n<desc>" : "</title>\n<desc>";
    out += how_to_read(view.reading, view.unit, view.inverted);
    out += "</desc>\n";
    draw_face(out, view, frame);
    draw_light(out, view, frame);
    return out + "</svg>\n";
}

}  // namespace fallwright::staff
