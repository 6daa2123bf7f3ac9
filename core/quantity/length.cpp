#include "quantity/length.h"

#include <cmath>
#include <utility>

#include "base/decimal.h"
#include "base/print.h"
#include "quantity/scan.h"
#include "quantity/unit_words.h"

namespace fallwright {

namespace {

constexpr UnitOfLength metre{1, 1, false};
constexpr UnitOfLength foot{3048, 10000, true};

// A length as read: the unit it was written in, if any, and what is wrong, if anything.
struct Written {
    double metres = 0;
    std::optional<UnitOfLength> unit;
    std::string wrong;
    std::string cure;
};

Written wrong(std::string what, std::string cure) {
    return {0, std::nullopt, std::move(what), std::move(cure)};
}

UnitOfLength default_unit(Unit unit) {
    return unit == Unit::Foot ? foot : metre;
}

bool is_foot(const UnitOfLength& unit) {
    return unit.imperial && unit.multiply == foot.multiply;
}

// The inches after whole feet, "8 3/8 in" or "-8 3/8 in"; `feet` as read so far.
Written with_inches(Cursor& cursor, double feet, UnitOfLength unit) {
    cursor.take("-");
    const double inches = cursor.quantity().value_or(0);
    if (!cursor.take_any({"in", "inch", "inches", "\""})) {
        return wrong("has a figure without a unit after the feet",
                     "write the inches with their unit: 4 ft 8 in; or feet and tenths: 4.70 ft");
    }
    if (feet != std::floor(feet) || inches >= 12) {
        return wrong("is no feet and inches: feet are whole and inches below 12 where both are written",
                     "write 4 ft 8 3/8 in, or 4.70 ft");
    }
    return {foot.metres(feet + inches / 12), unit, "", ""};
}

// A length without a sign. `fallback`: the unit where none is written.
Written read_length(Cursor& cursor, UnitOfLength fallback) {
    const std::optional<double> count = cursor.quantity();
    if (!count) return wrong("is no length", "write it like 1.432, 1432 mm, 4 ft 8 3/8 in");
    const std::optional<UnitOfLength> unit = take_unit(cursor);
    const bool dash_and_number = cursor.next_is("-") && cursor.peek(1).kind == Token::Kind::Number;
    const bool more = cursor.peek().kind == Token::Kind::Number || dash_and_number;
    if (unit && is_foot(*unit) && more) return with_inches(cursor, *count, *unit);
    return {unit.value_or(fallback).metres(*count), unit, "", ""};
}

// The length with its sign; the unit goes to `written` for the sd that may follow.
Result<Length> signed_length(Cursor& cursor, std::string_view text, Unit unit, Written& written) {
    const int sign = cursor.sign();
    written = read_length(cursor, default_unit(unit));
    if (!written.wrong.empty()) return bad_number(text, written.wrong, written.cure);
    if (written.metres > Decimal::limit_metres) {
        return bad_number(text, "is larger than any length", "check the digits and the unit");
    }
    return Length::metres(sign < 0 && written.metres > 0 ? -written.metres : written.metres);
}

Finding left_over(Cursor& cursor, std::string_view text) {
    return bad_number(text, "is no length: " + quoted(cursor.peek().text) + " is not understood there",
                      "write it like 1.432, 1432 mm, 4 ft 8 3/8 in");
}

// Figures of the part after the plus, and the length of one whole before it.
struct Stationing {
    int figures;
    double whole;
};

Stationing stationing(Unit unit) {
    return unit == Unit::Foot ? Stationing{2, 100} : Stationing{3, 1000};
}

// The length of "0+900" without a sign, the cursor on its first number.
Result<Length> read_station(Cursor& cursor, std::string_view text, Unit unit) {
    const Token before = cursor.peek(0);
    const Token after = cursor.peek(2);
    for (int i = 0; i < 3; ++i) cursor.advance();
    const Stationing rule = stationing(unit);
    if (!before.is_whole() || after.kind != Token::Kind::Number || after.whole != rule.figures ||
        !cursor.at_end()) {
        const std::string cure = unit == Unit::Foot
                                     ? "in a book in feet write stations of 100 ft, 9+00, or 900 ft"
                                     : "in a metric book write kilometres and metres, 0+900, or 900 m";
        return bad_number(text, "is no chainage of this book", cure);
    }
    return Length::in(unit, before.value * rule.whole + after.value);
}

}  // namespace

Result<Length> parse_length(std::string_view text, Unit unit) {
    Result<Cursor> cursor = scan(text);
    if (!cursor) return cursor.finding();
    Written written;
    Result<Length> value = signed_length(*cursor, text, unit, written);
    if (value && !cursor->at_end()) return left_over(*cursor, text);
    return value;
}

Result<Measured> parse_measured(std::string_view text, Unit unit) {
    Result<Cursor> cursor = scan(text);
    if (!cursor) return cursor.finding();
    Written value;
    const Result<Length> length = signed_length(*cursor, text, unit, value);
    if (!length) return length.finding();
    Measured measured{*length, std::nullopt};
    if (cursor->take("+-")) {
        const Written sd = read_length(*cursor, value.unit.value_or(default_unit(unit)));
        if (!sd.wrong.empty()) {
            return bad_number(text, "has no standard deviation after the plus-minus",
                              "write it like 54.88 +- 0.05");
        }
        if (!value.unit && sd.unit && sd.unit->imperial != (unit == Unit::Foot)) {
            return bad_number(text,
                              "names a unit for the standard deviation only, and another than the book's",
                              "write the unit with both figures");
        }
        measured.sd = Length::metres(sd.metres);
    }
    if (!cursor->at_end()) return left_over(*cursor, text);
    return measured;
}

Result<Length> parse_chainage(std::string_view text, Unit unit) {
    Result<Cursor> cursor = scan(text);
    if (!cursor) return cursor.finding();
    const int sign = cursor->sign();
    const bool station = cursor->peek().kind == Token::Kind::Number && cursor->next_is("+", 1);
    if (!station) return parse_length(text, unit);
    const Result<Length> chainage = read_station(*cursor, text, unit);
    return chainage && sign < 0 ? Result<Length>(-*chainage) : chainage;
}

std::string chainage_text(Length chainage, Unit unit, int places) {
    const Stationing rule = stationing(unit);
    const double value = rounded_to(chainage.in(unit), places);
    const double magnitude = std::fabs(value);
    const double whole = std::floor(magnitude / rule.whole);
    std::string out = value < 0 ? "-" : "";
    append_fixed(out, whole, 0);
    out += '+';
    const std::string rest = fixed(magnitude - whole * rule.whole, places);
    const std::size_t point = rest.find('.');
    const std::size_t digits = point == std::string::npos ? rest.size() : point;
    out.append(static_cast<std::size_t>(rule.figures) - digits, '0');
    return out + rest;
}

}  // namespace fallwright
