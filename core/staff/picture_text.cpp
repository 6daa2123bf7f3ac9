#include <string_view>

#include "base/print.h"
#include "staff/face.h"
#include "staff/picture.h"
#include "staff/window.h"

namespace fallwright::staff {

namespace {

constexpr int face_cells = 6;
constexpr int spine_cells = 2;
constexpr std::size_t figure_cells = 6;

struct Marks {
    std::string_view black, red, side, pointer;
    std::string_view upper_edge;  // beside a figure that names it; a lower edge is _
};

Marks marks(Ink ink) {
    if (ink == Ink::Ascii) return {"#", "%", "|", "<--", "^"};
    return {"\xE2\x96\x88", "\xE2\x96\x93", "\xE2\x94\x82", "\xE2\x97\x84\xE2\x94\x80\xE2\x94\x80",
            "\xE2\x80\xBE"};
}

// Turned half round, left and right change places.
bool spine_on_left(const Block& block, bool inverted) {
    return (block.spine == Spine::Left) != inverted;
}

bool is_dark(const Block& block, int cell, bool inverted) {
    if (block.dark) return true;
    if (block.spine == Spine::None) return false;
    return spine_on_left(block, inverted) ? cell < spine_cells : cell >= face_cells - spine_cells;
}

std::string face_row(const Block& block, bool inverted, const Marks& mark) {
    std::string out(mark.side);
    for (int cell = 0; cell < face_cells; ++cell) {
        if (is_dark(block, cell, inverted)) {
            out += block.paint == Paint::Red ? mark.red : mark.black;
        } else {
            out += ' ';
        }
    }
    return out + std::string(mark.side);
}

// "1.432, 2 mm above the lower edge of this block".
std::string light_note(const View& view) {
    const std::string edge = view.inverted ? "the upper edge of this block" : "the lower edge of this block";
    const Decimal past = past_block(view);
    std::string out = figure_text(view.reading, view.unit);
    if (past == Decimal()) return out + ", on " + edge;
    out += ", ";
    if (view.unit == Unit::Foot) {
        append_trimmed(out, past.metres() / metres_per_foot, 5);
        out += " ft";
    } else {
        append_trimmed(out, past.metres() * 1000, 4);
        out += " mm";
    }
    return out + (view.inverted ? " below " : " above ") + edge;
}

std::string row(const View& view, std::int64_t number, const Marks& mark) {
    std::string figure;
    if (figure_stands_under(number)) figure = figure_under(number, view.unit).text;
    std::string out(figure_cells - figure.size(), ' ');
    out += figure;
    out += figure.empty() ? " " : view.inverted ? mark.upper_edge : "_";
    out += face_row(block(number, view.unit), view.inverted, mark);
    if (number == light_block(view)) out += std::string(mark.pointer) + " " + light_note(view);
    return out + "\n";
}

}  // namespace

std::string picture_text(const View& view, Ink ink) {
    const Window window = window_of(view);
    const Marks mark = marks(ink);
    std::string out;
    for (std::int64_t i = 0; i < window.count; ++i) {
        // The top line of the picture is the largest figure upright, the smallest upside down.
        const std::int64_t step = view.inverted ? i : window.count - 1 - i;
        out += row(view, window.first + step, mark);
    }
    out += "a line is ";
    out += view.unit == Unit::Foot ? "0.01 ft" : "10 mm";
    out += view.inverted ? "; a figure names the upper edge of its line (upside down)\n"
                         : "; a figure names the lower edge of its line\n";
    return out;
}

}  // namespace fallwright::staff
