#include "properties/transform.h"

#include <cmath>
#include <set>

namespace fallwright::properties {

namespace {

using Change = std::function<void(const std::string&, Json&)>;

void visit(const std::string& key, Json& value, const Change& change) {
    if (value.is_number()) return change(key, value);
    if (value.is_object()) {
        for (auto& [name, member] : value.items()) visit(name, member, change);
    } else if (value.is_array()) {
        for (Json& element : value) visit(key, element, change);
    }
}

const std::set<std::string>& length_keys() {
    static const std::set<std::string> keys = {
        "level",  "sd",     "reading_sd", "length", "to",      "zero", "zero_sd", "at",      "step_sd",
        "window", "plan",   "start",      "ch",     "off",     "e",    "n",       "head_sd", "clamp",
        "staff",  "mark",   "high",       "low",    "offset",  "top",  "bottom",  "dist",    "dist_sd",
        "along",  "across", "shoe",       "rise",   "foot_sd", "from", "range",   "d",       "a"};
    return keys;
}

bool is_kind(const Json& line, const char* kind) {
    return line["kind"] == kind;
}

void turn(double& e, double& n, double degrees, double east, double north) {
    const double radians = degrees * 0.017453292519943295;
    const double was_e = e;
    e = was_e * std::cos(radians) + n * std::sin(radians) + east;
    n = n * std::cos(radians) - was_e * std::sin(radians) + north;
}

void turn_pair(Json& e, Json& n, double degrees, double east, double north) {
    double new_e = e.get<double>();
    double new_n = n.get<double>();
    turn(new_e, new_n, degrees, east, north);
    e = new_e;
    n = new_n;
}

// high and low change places: the receiver that was above the light is below it now.
void swap_sides(Json& line) {
    Json turned = line;
    turned.erase("high");
    turned.erase("low");
    if (line.contains("high")) turned["low"] = line["high"];
    if (line.contains("low")) turned["high"] = line["low"];
    line = turned;
}

void turn_staff(Json& line) {
    swap_sides(line);
    const bool was_inverted = line.contains("inverted") || (line.contains("staff") && line["staff"] < 0);
    line.erase("inverted");
    for (const char* key : {"staff", "top", "bottom"}) {
        if (line.contains(key)) line[key] = std::fabs(line[key].get<double>());
    }
    if (!was_inverted) line["inverted"] = true;
}

void reverse_place(Json& place) {
    if (!place.contains("line") || place["line"] != "D1") return;
    place["ch"] = 70 - place["ch"].get<double>();
    if (place.contains("off")) place["off"] = -place["off"].get<double>();
}

}  // namespace

void for_each_number(RandomBook& book, const Change& change) {
    for (Json& line : book.lines) visit("", line, change);
}

RandomBook raised(const RandomBook& book, double shift) {
    RandomBook other = book;
    for (Json& line : other.lines) {
        if (is_kind(line, "benchmark")) line["level"] = line["level"].get<double>() + shift;
    }
    return other;
}

RandomBook in_feet(const RandomBook& book) {
    RandomBook other = book;
    for_each_number(other, [](const std::string& key, Json& number) {
        if (length_keys().count(key) > 0) number = number.get<double>() / 0.3048;
    });
    other.lines.front()["unit"] = "ft";
    return other;
}

RandomBook with_sds_times(const RandomBook& book, double factor) {
    RandomBook other = book;
    for_each_number(other, [factor](const std::string& key, Json& number) {
        const bool is_sd =
            key == "sd" || key == "sd_per_m" || (key.size() > 3 && key.rfind("_sd") == key.size() - 3);
        if (is_sd) number = number.get<double>() * factor;
    });
    return other;
}

RandomBook mixed(const RandomBook& book, Draw& draw) {
    RandomBook other;
    other.lines.push_back(book.lines.front());
    std::vector<Json> rest, last;
    for (std::size_t i = 1; i < book.lines.size(); ++i) {
        const bool speaks_of_another = is_kind(book.lines[i], "amend") || is_kind(book.lines[i], "strike");
        (speaks_of_another ? last : rest).push_back(book.lines[i]);
    }
    while (!rest.empty()) {
        const std::size_t next = draw.below(rest.size());
        other.lines.push_back(rest[next]);
        rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(next));
    }
    other.lines.insert(other.lines.end(), last.begin(), last.end());
    return other;
}

RandomBook turned_site(const RandomBook& book, double degrees, double east, double north) {
    RandomBook other = book;
    for (Json& line : other.lines) {
        if (line.contains("plan")) {
            for (Json& vertex : line["plan"]) turn_pair(vertex[0], vertex[1], degrees, east, north);
        }
        Json& place = is_kind(line, "setup") && line.contains("place") ? line["place"] : line;
        if (place.contains("e")) turn_pair(place["e"], place["n"], degrees, east, north);
        if (line.contains("plane") && line["plane"].contains("bearing"))
            line["plane"]["bearing"] = line["plane"]["bearing"].get<double>() + degrees;
    }
    return other;
}

RandomBook upside_down(const RandomBook& book) {
    RandomBook other = book;
    for (Json& line : other.lines) {
        if (is_kind(line, "reading")) turn_staff(line);
    }
    const std::set<std::string> keys = {"level", "rise", "main", "cross", "tilt", "cone", "collimation"};
    for_each_number(other, [&keys](const std::string& key, Json& number) {
        if (keys.count(key) > 0) number = -number.get<double>();
    });
    return other;
}

RandomBook reversed_line(const RandomBook& book) {
    RandomBook other = book;
    for (Json& line : other.lines) {
        if (is_kind(line, "line") && line["name"] == "D1")
            line["plan"] = Json::array({line["plan"][2], line["plan"][1], line["plan"][0]});
        if (is_kind(line, "reading")) reverse_place(line);
        if (is_kind(line, "setup") && line.contains("place")) reverse_place(line["place"]);
        if (!is_kind(line, "relaid")) continue;
        const Json to = line["to"];
        line.erase("to");
        line["from"] = 70 - to.get<double>();
    }
    return other;
}

}  // namespace fallwright::properties
