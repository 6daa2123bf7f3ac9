#include "staff/face.h"

#include <array>
#include <cassert>
#include <string_view>

#include "base/print.h"

namespace fallwright::staff {

namespace {

constexpr std::int64_t ticks_per_mm = 10000;
constexpr std::int64_t metric_block = 10 * ticks_per_mm;
constexpr std::int64_t foot_block = 30480;  // 0.01 ft
constexpr std::int64_t blocks_per_metre = 100;
constexpr std::int64_t blocks_per_foot = 100;
// The lower half of each 100 mm.
constexpr std::int64_t blocks_joined = 5;

constexpr std::array<std::string_view, blocks_per_figure> ordinals = {
    "", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth"};

std::int64_t block_ticks(Unit unit) {
    return unit == Unit::Foot ? foot_block : metric_block;
}

double in_unit(Decimal figure, Unit unit) {
    return unit == Unit::Foot ? figure.metres() / metres_per_foot : figure.metres();
}

// "2 mm", "0.005 ft".
std::string small_length(Decimal length, Unit unit) {
    if (unit == Unit::Foot) return trimmed(in_unit(length, unit), 5) + " ft";
    return trimmed(length.metres() * 1000, 4) + " mm";
}

Spine spine_of(std::int64_t number) {
    if (number % blocks_per_figure >= blocks_joined) return Spine::None;
    return number / blocks_per_figure % 2 == 0 ? Spine::Left : Spine::Right;
}

// "the line at 1.4", or "the foot of the staff" where no figure stands.
std::string line_name(std::int64_t number, Unit unit) {
    return number == 0 ? "the foot of the staff" : "the line at " + figure_under(number, unit).text;
}

// "the top of the third block past 1.4".
std::string block_name(std::int64_t number, Unit unit, bool inverted) {
    const std::int64_t past = number % blocks_per_figure;
    const std::int64_t from = number - past;
    const std::string figure = from == 0 ? "the foot of the staff" : figure_under(from, unit).text;
    return std::string(inverted ? "the bottom" : "the top") + " of the " +
           std::string(ordinals[static_cast<std::size_t>(past)]) + " block past " + figure;
}

}  // namespace

Decimal block_height(Unit unit) {
    return Decimal::ticks(block_ticks(unit));
}

std::int64_t block_of(Decimal figure, Unit unit) {
    assert(figure >= Decimal());
    return figure.ticks() / block_ticks(unit);
}

Block block(std::int64_t number, Unit unit) {
    assert(number >= 0);
    const bool metric = unit == Unit::Metre;
    Block result;
    result.number = number;
    result.bottom = Decimal::ticks(number * block_ticks(unit));
    result.top = result.bottom + block_height(unit);
    result.dark = number % 2 == 0;
    result.spine = metric ? spine_of(number) : Spine::None;
    result.paint = metric && number / blocks_per_metre % 2 == 1 ? Paint::Red : Paint::Black;
    return result;
}

bool figure_stands_under(std::int64_t block_number) {
    return block_number > 0 && block_number % blocks_per_figure == 0;
}

FaceFigure figure_under(std::int64_t block_number, Unit unit) {
    assert(figure_stands_under(block_number));
    const Block above = block(block_number, unit);
    const bool whole_foot = unit == Unit::Foot && block_number % blocks_per_foot == 0;
    return {above.bottom, fixed(in_unit(above.bottom, unit), 1), whole_foot ? Paint::Red : above.paint};
}

std::string figure_text(Decimal figure, Unit unit) {
    const double value = in_unit(figure, unit);
    const int usual = unit == Unit::Foot ? 2 : 3;
    for (int places = usual; places < length_places; ++places) {
        if (rounded_to(value, places) == rounded_to(value, length_places)) return fixed(value, places);
    }
    return fixed(value, length_places);
}

std::string how_to_read(Decimal figure, Unit unit, bool inverted) {
    const std::int64_t number = block_of(figure, unit);
    const Decimal rest = figure - block(number, unit).bottom;
    const bool on_figure = number % blocks_per_figure == 0;
    const std::string edge = on_figure ? line_name(number, unit) : block_name(number, unit, inverted);
    std::string out = inverted ? "upside down, the light is " : "the light is ";
    if (rest > Decimal()) {
        out += small_length(rest, unit) + (inverted ? " below " : " above ") + edge;
    } else {
        out += (on_figure ? "on " : "at ") + edge;
    }
    out += ": " + figure_text(figure, unit);
    if (inverted && figure > Decimal()) out += ", booked as " + figure_text(-figure, unit);
    return out;
}

}  // namespace fallwright::staff
