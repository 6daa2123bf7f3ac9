#include "quantity/gradient.h"

#include <cmath>

#include "base/print.h"
#include "quantity/angle.h"
#include "quantity/scan.h"
#include "quantity/unit_words.h"

namespace fallwright {

namespace {

constexpr double level_below = 1e-7;

Finding unreadable(std::string_view text) {
    return bad_number(text, "is no gradient",
                      "write it like 1 in 80 fall, 1:80, -1.25 %, 12.5 mm/m, 0.7162 deg");
}

Finding too_steep(std::string_view text) {
    return bad_number(
        text, "is steeper than 1 in 1",
        "write the rise first, 1 in 80; a bare figure is rise per length, for 1.25 % write the %");
}

Finding two_ways(std::string_view text) {
    return bad_number(text, "says both up and down, or has two signs",
                      "keep one sign or one word: 1.25 % fall");
}

bool take_falling(Cursor& cursor) {
    return cursor.take_any({"fall", "falls", "falling", "down", "downhill", "downward", "downwards"});
}

bool take_rising(Cursor& cursor) {
    return cursor.take_any({"rise", "rises", "rising", "up", "uphill", "upward", "upwards"});
}

// What has been read of one gradient. Signs: -1, +1, 0 for none.
struct Reader {
    Cursor cursor;
    int sign = 0;
    int word = 0;
    bool contradicts = false;
    bool in_or_inches = false;  // "3 in 10 ft"
    bool upright = false;       // "1 in 0"

    void note(int& known, int said) {
        contradicts = contradicts || known * said < 0;
        known = said != 0 ? said : known;
    }

    // Words of direction, with "a", "of", "at" between them.
    void directions() {
        for (;;) {
            if (take_falling(cursor)) {
                note(word, -1);
            } else if (take_rising(cursor)) {
                note(word, 1);
            } else if (!cursor.take_any({"a", "of", "at"})) {
                return;
            }
        }
    }

    // A sign before a figure; a second one anywhere contradicts.
    void read_sign() {
        const int said = cursor.sign();
        contradicts = contradicts || (said != 0 && sign != 0);
        if (said != 0) sign = said;
    }

    // The second figure of a ratio; after "in" a unit would make the first one inches.
    std::optional<double> over(double rise) {
        const bool in = cursor.take("in");
        if (!in) cursor.advance();
        read_sign();
        const std::optional<double> run = cursor.quantity();
        if (!run) return std::nullopt;
        upright = *run == 0;
        in_or_inches = in && take_unit(cursor).has_value();
        return upright ? 0 : rise / *run;
    }

    // "mm/m", "in per ft", "ft/100 ft", "mm in 3 m": the unit of the rise is taken already.
    std::optional<double> per_length(double rise) {
        if (!cursor.take_any({"/", "per", "in"})) return std::nullopt;
        const std::optional<double> count = cursor.quantity();
        const std::optional<UnitOfLength> unit = take_unit(cursor);
        if (!unit) return std::nullopt;
        const double run = unit->metres(count.value_or(1));
        upright = run == 0;
        return upright ? 0 : rise / run;
    }

    bool ratio_follows() const {
        if (!cursor.next_is("in")) return cursor.next_is(":") || cursor.next_is("to");
        const bool signed_figure = cursor.next_is("-", 1) || cursor.next_is("+", 1);
        return cursor.peek(signed_figure ? 2 : 1).kind == Token::Kind::Number;
    }

    bool take_permille() {
        if (cursor.take("permille")) return true;
        if (!cursor.next_is("per") || !cursor.next_is("mille", 1)) return false;
        cursor.advance();
        cursor.advance();
        return true;
    }

    bool take_percent() {
        if (cursor.take_any({"%", "percent", "pct"})) return true;
        if (!cursor.next_is("per") || !cursor.next_is("cent", 1)) return false;
        cursor.advance();
        cursor.advance();
        return true;
    }

    // The figure with its unit, as rise per length without the sign. Beyond 45 degrees: 2, which is refused.
    std::optional<double> figure() {
        const std::optional<double> count = cursor.quantity();
        if (!count) return std::nullopt;
        if (ratio_follows()) return over(*count);
        if (take_percent()) return Gradient::percent(*count).ratio();
        if (take_permille()) return Gradient::permille(*count).ratio();
        if (cursor.take_any({"deg", "degree", "degrees"})) {
            return *count > 45 ? 2 : Gradient::degrees(*count).ratio();
        }
        const std::optional<UnitOfLength> unit = take_unit(cursor);
        return unit ? per_length(unit->metres(*count)) : count;
    }
};

// `figure` with its direction, once nothing is left to read.
Result<Gradient> directed(const Reader& reader, double figure, std::string_view text) {
    if (reader.contradicts || reader.sign * reader.word < 0) return two_ways(text);
    if (reader.in_or_inches) {
        return bad_number(text, "may be inches or a ratio", "write 3 in per 10 ft, or 3 ft in 10 ft");
    }
    if (reader.upright) {
        return bad_number(text, "is no gradient: 1 in 0 would stand upright",
                          "write level where there is no fall");
    }
    if (rounded_to(figure, gradient_places) > 1) return too_steep(text);
    const bool falls = reader.sign < 0 || reader.word < 0;
    return Gradient::ratio(falls && figure > 0 ? -figure : figure);
}

}  // namespace

Gradient Gradient::degrees(double value) {
    assert(value > -90 && value < 90);
    const SinCos at = sincos_degrees(value);
    return Gradient(at.sin / at.cos);
}

std::optional<double> Gradient::one_in() const {
    const double magnitude = std::fabs(ratio_);
    if (rounded_to(magnitude, gradient_places) < level_below) return std::nullopt;
    return 1.0 / magnitude;
}

double Gradient::degrees() const {
    return atan_degrees(ratio_);
}

std::string_view Gradient::word() const {
    if (!one_in()) return "level";
    return ratio_ < 0 ? "falling" : "rising";
}

Result<Gradient> parse_gradient(std::string_view text) {
    Result<Cursor> tokens = scan(text);
    if (!tokens) return tokens.finding();
    Reader reader{*tokens};
    if (reader.cursor.take_any({"level", "flat"})) {
        return reader.cursor.at_end() ? Result<Gradient>(Gradient()) : unreadable(text);
    }
    reader.directions();
    reader.read_sign();
    const std::optional<double> figure = reader.figure();
    reader.directions();
    if (!figure || !reader.cursor.at_end()) return unreadable(text);
    return directed(reader, *figure, text);
}

Gradient as_fall(Gradient gradient, std::string_view text) {
    Result<Cursor> tokens = scan(text);
    if (!tokens) return gradient;
    for (; !tokens->at_end(); tokens->advance()) {
        const double size = std::fabs(gradient.ratio());
        if (take_falling(*tokens)) return Gradient::ratio(size);
        if (take_rising(*tokens)) return Gradient::ratio(-size);
    }
    return gradient;
}

Result<Gradient> parse_fall(std::string_view text) {
    const Result<Gradient> gradient = parse_gradient(text);
    if (!gradient) return gradient;
    return as_fall(*gradient, text);
}

GradientTexts all_ways(Gradient gradient, int figures) {
    GradientTexts texts;
    const std::optional<double> n = gradient.one_in();
    if (n) texts.one_in = "1 in " + significant(*n, figures) + " ";
    texts.one_in += gradient.word();
    texts.percent = significant(gradient.percent(), figures) + " %";
    texts.mm_per_m = significant(gradient.permille(), figures) + " mm/m";
    texts.degrees = significant(gradient.degrees(), figures) + " deg";
    return texts;
}

}  // namespace fallwright
