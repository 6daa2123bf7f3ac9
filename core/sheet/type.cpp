#include "sheet/type.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>

#include "sheet/markup.h"
#include "sheet/shapes.h"

namespace fallwright::sheet {

namespace {

// From U+0020 to U+007E.
constexpr std::uint16_t regular_widths[] = {
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333,  278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
    611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667,  611, 722, 667, 944, 667,
    667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278,  556, 556, 222, 222, 500,
    222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500,  500, 334, 260, 334, 584};
constexpr std::uint16_t bold_widths[] = {
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611, 975, 722, 722, 722, 722, 667,
    611, 778, 722, 278, 556, 722, 611, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
    667, 611, 333, 278, 333, 584, 556, 333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556,
    278, 889, 611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584};
static_assert(sizeof regular_widths == sizeof bold_widths &&
              sizeof bold_widths == 95 * sizeof(std::uint16_t));

constexpr double latin_letter = 0.667, sign = 0.584, wide = 1.0;

double width_of(char32_t c, bool bold) {
    constexpr double per_thousand = 0.001;
    constexpr char32_t first = 0x20, last = 0x7e, degree = 0xb0, plus_minus = 0xb1, times = 0xd7;
    constexpr char32_t minus = 0x2212, end_of_latin = 0x500;
    if (c < first) return 0;
    if (c <= last) return per_thousand * (bold ? bold_widths : regular_widths)[c - first];
    if (c == degree) return 0.4;
    if (c == plus_minus || c == times || c == minus) return sign;
    return c < end_of_latin ? latin_letter : wide;
}

}  // namespace

double text_width(std::string_view text, double size, bool bold) {
    double sum = 0;
    for (std::size_t at = 0; at < text.size();) sum += width_of(next_character(text, at), bold);
    return sum * size;
}

Box box_of(const Label& label) {
    const double width = text_width(label.text, label.size, label.bold);
    const double before = label.anchor == Anchor::Start ? 0 : label.anchor == Anchor::Middle ? 0.5 : 1;
    const At along = direction_of(label.turn);
    Box box{label.at.x, label.at.y, label.at.x, label.at.y};
    for (const double run : {-before * width, (1 - before) * width}) {
        for (const double over : {-descent * label.size, ascent * label.size}) {
            const double x = label.at.x + run * along.x + over * along.y;
            const double y = label.at.y + run * along.y - over * along.x;
            box = {std::min(box.left, x), std::min(box.top, y), std::max(box.right, x),
                   std::max(box.bottom, y)};
        }
    }
    return box;
}

}  // namespace fallwright::sheet
