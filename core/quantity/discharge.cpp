#include "quantity/discharge.h"

#include <array>
#include <initializer_list>
#include <optional>
#include <utility>

#include "quantity/scan.h"
#include "quantity/unit_words.h"

namespace fallwright {

namespace {

constexpr double litre = 0.001;
constexpr double gallon = litres_per_gallon * litre;
constexpr double minute = 60, hour = 3600, day = 86400;

// Abbreviations that hold volume and time in one word.
constexpr std::array<std::pair<std::string_view, double>, 11> whole_words = {
    {{"lps", litre},
     {"cumec", 1},
     {"cumecs", 1},
     {"cfs", cubic_metres_per_cubic_foot},
     {"cusec", cubic_metres_per_cubic_foot},
     {"cusecs", cubic_metres_per_cubic_foot},
     {"cfm", cubic_metres_per_cubic_foot / minute},
     {"gpm", gallon / minute},
     {"gpd", gallon / day},
     {"mgd", 1e6 * gallon / day},
     {"mld", 1e6 * litre / day}}};

constexpr std::array<std::pair<std::string_view, double>, 14> volumes = {
    {{"l", litre},
     {"litre", litre},
     {"litres", litre},
     {"liter", litre},
     {"liters", litre},
     {"ml", litre / 1000},
     {"gal", gallon},
     {"gals", gallon},
     {"gallon", gallon},
     {"gallons", gallon},
     {"cuft", cubic_metres_per_cubic_foot},
     {"cf", cubic_metres_per_cubic_foot},
     {"cum", 1},
     {"cbm", 1}}};

constexpr std::array<std::pair<std::string_view, double>, 13> times = {{{"s", 1},
                                                                        {"sec", 1},
                                                                        {"second", 1},
                                                                        {"seconds", 1},
                                                                        {"min", minute},
                                                                        {"minute", minute},
                                                                        {"minutes", minute},
                                                                        {"h", hour},
                                                                        {"hr", hour},
                                                                        {"hour", hour},
                                                                        {"d", day},
                                                                        {"day", day},
                                                                        {"days", day}}};

template <std::size_t size>
std::optional<double> take_word(Cursor& cursor,
                                const std::array<std::pair<std::string_view, double>, size>& words) {
    for (const auto& [word, factor] : words) {
        if (cursor.take(word)) return factor;
    }
    return std::nullopt;
}

// "/s", "per second"; also "a minute".
std::optional<double> take_time(Cursor& cursor) {
    if (!cursor.take_any({"/", "per", "a"})) return std::nullopt;
    return take_word(cursor, times);
}

// Litres, gallons, or the cube of a length: m3, m^3, cu ft, cubic feet.
std::optional<double> take_volume(Cursor& cursor) {
    if (const std::optional<double> volume = take_word(cursor, volumes)) return volume;
    const bool named = cursor.take_any({"cu", "cubic"});
    const std::optional<UnitOfLength> side = take_unit(cursor);
    if (!side) return std::nullopt;
    if (!named) {
        cursor.take("^");
        const bool cubed = cursor.peek().text == "3";
        if (!cubed) return std::nullopt;
        cursor.advance();
    }
    const double metres = side->metres(1);
    return metres * metres * metres;
}

// m3/s a unit of discharge.
std::optional<double> take_discharge_unit(Cursor& cursor) {
    if (const std::optional<double> whole = take_word(cursor, whole_words)) return whole;
    const std::optional<double> volume = take_volume(cursor);
    const std::optional<double> time = volume ? take_time(cursor) : std::nullopt;
    return time ? std::optional<double>(*volume / *time) : std::nullopt;
}

std::optional<double> take_velocity_unit(Cursor& cursor) {
    if (cursor.take("fps")) return metres_per_foot;
    const std::optional<UnitOfLength> length = take_unit(cursor);
    const std::optional<double> time = length ? take_time(cursor) : std::nullopt;
    return time ? std::optional<double>(length->metres(1) / *time) : std::nullopt;
}

// A figure and its unit, as SI; `bare` for a figure alone.
Result<double> parse(std::string_view text, double bare, std::optional<double> (*take_unit_of)(Cursor&),
                     std::string_view what, std::string_view cure) {
    Result<Cursor> tokens = scan(text);
    if (!tokens) return tokens.finding();
    const auto refused = [&](std::string_view why) {
        return bad_number(text, std::string(why) + std::string(what), std::string(cure));
    };
    if (tokens->sign() < 0) return refused("is negative, which is no ");
    const std::optional<double> figure = tokens->quantity();
    if (!figure) return refused("is no ");
    if (tokens->at_end()) return *figure * bare;
    const std::optional<double> unit = take_unit_of(*tokens);
    if (!unit || !tokens->at_end()) return refused("is no ");
    return *figure * *unit;
}

}  // namespace

Result<Discharge> parse_discharge(std::string_view text, Unit unit) {
    const Result<double> value = parse(text, Discharge::in(unit, 1).cubic_metres(), take_discharge_unit,
                                       "flow", "write it like 2.5 l/s, 0.0025 m3/s, 40 gpm, 0.54 cfs");
    if (!value) return value.finding();
    return Discharge::cubic_metres(*value);
}

Result<Velocity> parse_velocity(std::string_view text, Unit unit) {
    const Result<double> value = parse(text, Velocity::in(unit, 1).metres(), take_velocity_unit, "velocity",
                                       "write it like 0.7 m/s or 2.3 ft/s");
    if (!value) return value.finding();
    return Velocity::metres(*value);
}

}  // namespace fallwright
