#include "quantity/unit_words.h"

#include <array>
#include <string_view>
#include <utility>

namespace fallwright {

namespace {

constexpr UnitOfLength metric(double multiply, double divide) {
    return {multiply, divide, false};
}

constexpr UnitOfLength imperial(double ten_thousandths) {
    return {ten_thousandths, 10000, true};
}

constexpr std::array<std::pair<std::string_view, UnitOfLength>, 31> units = {{
    {"m", metric(1, 1)},
    {"metre", metric(1, 1)},
    {"metres", metric(1, 1)},
    {"meter", metric(1, 1)},
    {"meters", metric(1, 1)},
    {"mm", metric(1, 1000)},
    {"millimetre", metric(1, 1000)},
    {"millimetres", metric(1, 1000)},
    {"millimeter", metric(1, 1000)},
    {"millimeters", metric(1, 1000)},
    {"cm", metric(1, 100)},
    {"centimetre", metric(1, 100)},
    {"centimetres", metric(1, 100)},
    {"centimeter", metric(1, 100)},
    {"centimeters", metric(1, 100)},
    {"km", metric(1000, 1)},
    {"kilometre", metric(1000, 1)},
    {"kilometres", metric(1000, 1)},
    {"kilometer", metric(1000, 1)},
    {"kilometers", metric(1000, 1)},
    {"ft", imperial(3048)},
    {"foot", imperial(3048)},
    {"feet", imperial(3048)},
    {"'", imperial(3048)},
    {"in", imperial(254)},
    {"inch", imperial(254)},
    {"inches", imperial(254)},
    {"\"", imperial(254)},
    {"mi", imperial(16093440)},
    {"mile", imperial(16093440)},
    {"miles", imperial(16093440)},
}};

}  // namespace

std::optional<UnitOfLength> take_unit(Cursor& cursor) {
    for (const auto& [word, unit] : units) {
        if (cursor.take(word)) return unit;
    }
    return std::nullopt;
}

}  // namespace fallwright
