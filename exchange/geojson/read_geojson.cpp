#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "exchange/geojson/geojson.h"

namespace fallwright::geojson {

namespace {

using handover::Standing;
using Json = nlohmann::json;

constexpr std::size_t most_bytes = std::size_t{16} << 20;
constexpr std::size_t deepest = 32;
constexpr std::size_t most_features = 200000;

// What the text looks like before it is read: how deep, and where each feature begins.
struct Outline {
    std::size_t depth = 0;
    std::vector<std::uint32_t> features;  // lines
};

// Strings and brackets only; whether it is JSON is for the reader to say.
class Scan {
  public:
    explicit Scan(std::string_view text) : text_(text) {}

    Outline outline() {
        for (at_ = 0; at_ < text_.size() && made_.depth <= deepest; ++at_) {
            const char c = text_[at_];
            if (c == '\n') ++line_;
            if (c == '"') string();
            if (c == '{' || c == '[') open(c);
            if ((c == '}' || c == ']') && depth_ > 0) close();
        }
        return std::move(made_);
    }

  private:
    void string() {
        const std::size_t begin = ++at_;
        while (at_ < text_.size() && text_[at_] != '"') at_ += text_[at_] == '\\' ? 2 : 1;
        if (depth_ == 1) last_ = text_.substr(begin, std::min(at_, text_.size()) - begin);
    }
    void open(char c) {
        if (c == '{' && depth_ == 2 && in_features_) made_.features.push_back(line_);
        if (c == '[' && depth_ == 1) in_features_ = last_ == "features";
        made_.depth = std::max(made_.depth, ++depth_);
    }
    void close() {
        if (--depth_ == 1) in_features_ = false;
    }

    std::string_view text_, last_;
    std::size_t at_ = 0, depth_ = 0;
    std::uint32_t line_ = 1;
    bool in_features_ = false;
    Outline made_;
};

std::uint32_t line_at(std::string_view text, std::size_t place) {
    const std::string_view before = text.substr(0, std::min(place, text.size()));
    return 1 + static_cast<std::uint32_t>(std::count(before.begin(), before.end(), '\n'));
}

// A tree as Json::parse makes it, that says where the text breaks off instead of throwing: in the browser's
// module nothing is thrown at all.
class Tree : public nlohmann::detail::json_sax_dom_parser<Json> {
  public:
    explicit Tree(Json& into) : json_sax_dom_parser(into, false) {}
    bool parse_error(std::size_t place, const std::string& token, const nlohmann::detail::exception& fault) {
        constexpr int number_overflow = 406;
        too_large = fault.id == number_overflow;
        broken_at = place;
        return json_sax_dom_parser::parse_error(place, token, fault);
    }

    bool too_large = false;
    std::size_t broken_at = 0;  // bytes from the beginning
};

class Reader {
  public:
    Reader(const Projection& projection, Unit unit) : projection_(projection), unit_(unit) {}

    Read read(std::string_view text) {
        if (text.size() > most_bytes)
            return refused(Code::ImportTooLarge, 0, "the file is larger than 16 MB");
        const Outline outline = Scan(text).outline();
        if (outline.depth > deepest) return refused(Code::ImportJson, 0, "it is nested deeper than 32");
        if (outline.features.size() > most_features)
            return refused(Code::ImportTooLarge, 0, "the file holds more than 200000 features");
        Json root;
        Tree tree(root);
        if (!Json::sax_parse(text, &tree)) {
            if (tree.too_large) return refused(Code::ImportJson, 0, "a number in it is too large");
            return refused(Code::ImportJson, line_at(text, tree.broken_at),
                           "the text is no JSON from there on");
        }
        made_.found.unit = unit_;
        collection(root, outline);
        notes();
        return std::move(made_);
    }

  private:
    // Of the file as a whole.
    void fault(Code code, std::uint32_t line, std::string message) {
        failed_ = true;
        std::vector<std::string> about;
        if (line > 0) about.push_back("line " + std::to_string(line));
        made_.findings.push_back(finding(code, std::move(about), std::move(message)));
    }
    Read refused(Code code, std::uint32_t line, std::string message) {
        fault(code, line, std::move(message));
        return std::move(made_);
    }

    void refuse(std::string message, std::string cure = {}) {
        constexpr std::size_t most = 20;
        failed_ = true;
        if (++refused_ > most) return;
        std::vector<std::string> about;
        if (line_ > 0) about.push_back("line " + std::to_string(line_));
        about.push_back(name_.empty() ? "feature " + std::to_string(number_) : name_);
        made_.findings.push_back(
            cure.empty()
                ? finding(Code::ImportElement, std::move(about), std::move(message))
                : finding(Code::ImportElement, std::move(about), std::move(message), std::move(cure)));
    }

    static std::string type_of(const Json& object) {
        const bool given = object.is_object() && object.contains("type") && object["type"].is_string();
        return given ? object["type"].get<std::string>() : std::string();
    }

    void collection(const Json& root, const Outline& outline) {
        const std::string type = type_of(root);
        if (type == "FeatureCollection" && root.contains("features") && root["features"].is_array()) {
            if (root.contains("crs"))
                return fault(Code::ImportJson, 0,
                             "it names a coordinate system of its own (crs), which RFC 7946 does not have");
            for (const Json& each : root["features"]) {
                line_ = number_ < outline.features.size() ? outline.features[number_] : 0;
                ++number_;
                feature(each);
            }
        } else if (type == "Feature") {
            number_ = 1;
            feature(root);
        } else {
            fault(Code::ImportJson, 0, "it is no FeatureCollection and no Feature");
        }
    }

    void feature(const Json& feature) {
        name_.clear();
        if (type_of(feature) != "Feature" || !feature.contains("geometry"))
            return refuse("it is no Feature with a geometry");
        const Json none = Json::object();
        const bool given = feature.contains("properties") && feature["properties"].is_object();
        const Json& properties = given ? feature["properties"] : none;
        name_ = text(properties, "name");
        if (name_.empty()) name_ = text(properties, "point");
        if (name_.empty()) name_ = text(feature, "id");
        const std::string kind = text(properties, "kind");
        if (kind == "pipe" || kind == "chamber") return void(++parts_);
        const Json& geometry = feature["geometry"];
        const std::string type = type_of(geometry);
        if (geometry.is_null() || !geometry.is_object() || !geometry.contains("coordinates"))
            return void(++other_);
        const Json& coordinates = geometry["coordinates"];
        if (type == "Point") return point(coordinates, properties, name_);
        if (type == "MultiPoint") return points(coordinates, properties);
        if (type == "LineString") return line(coordinates, properties);
        ++other_;
    }

    // Text, or a whole number as text.
    static std::string text(const Json& object, const char* key) {
        if (!object.contains(key)) return {};
        const Json& value = object[key];
        if (value.is_string()) return value.get<std::string>();
        return value.is_number_integer() ? value.dump() : std::string();
    }

    double length(const Json& properties, const char* key) {
        if (!properties.contains(key) || properties[key].is_null()) return handover::unknown;
        constexpr double most = 1e8;
        const std::string unit = text(properties, "unit");
        if (!unit.empty() && unit != "m" && unit != "ft") refuse("unit is neither m nor ft");
        const bool feet = unit.empty() ? unit_ == Unit::Foot : unit == "ft";
        if (!properties[key].is_number() || !(std::fabs(properties[key].get<double>()) < most)) {
            refuse(std::string(key) + " is no length");
            return handover::unknown;
        }
        return properties[key].get<double>() * (feet ? metres_per_foot : 1);
    }

    std::optional<handover::EastNorth> place(const Json& position) {
        const bool given =
            position.is_array() && position.size() >= 2 && position[0].is_number() && position[1].is_number();
        if (!given) {
            refuse("its coordinates are not longitude and latitude");
            return std::nullopt;
        }
        if (position.size() > 2) ++heights_;
        const LonLat at{position[0].get<double>(), position[1].get<double>()};
        constexpr double round = 180, pole = 90;
        if (!(std::fabs(at.lon) <= round && std::fabs(at.lat) <= pole)) {
            refuse("its coordinates are no longitude and latitude in degrees",
                   "export it on WGS 84, longitude before latitude, as RFC 7946 has it");
            return std::nullopt;
        }
        const auto found = projection_.to_grid(at);
        if (!found)
            refuse("it lies more than 40 degrees from the meridian of the book's projection",
                   "check that longitude stands before latitude, and the rule projection");
        return found;
    }

    void point(const Json& position, const Json& properties, const std::string& name) {
        const auto at = place(position);
        if (!at) return;
        handover::Point made;
        made.name = name;
        made.e = at->e;
        made.n = at->n;
        made.level = length(properties, "level");
        made.sd = length(properties, "sd");
        made.note = text(properties, "source");
        made.line = line_;
        const std::string standing = text(properties, "standing");
        if (standing == "held") made.standing = Standing::Held;
        if (standing == "wanted") made.standing = Standing::Wanted;
        made_.found.points.push_back(std::move(made));
    }

    void points(const Json& positions, const Json& properties) {
        if (!positions.is_array()) return refuse("its coordinates are no list");
        for (std::size_t i = 0; i < positions.size(); ++i)
            point(positions[i], properties, name_ + " " + std::to_string(i + 1));
    }

    void line(const Json& positions, const Json& properties) {
        if (!positions.is_array() || positions.size() < 2) return refuse("it has fewer than two places");
        handover::Line made;
        made.name = name_;
        made.use = text(properties, "use");
        const double start = length(properties, "start");
        made.start = handover::known(start) ? start : 0;
        made.line = line_;
        for (const Json& position : positions) {
            const auto at = place(position);
            if (!at) return;
            made.plan.push_back(*at);
        }
        made_.found.lines.push_back(std::move(made));
    }

    void notes() {
        if (failed_) return;
        const auto note = [&](std::size_t count, const std::string& what) {
            if (count > 0)
                made_.findings.push_back(
                    finding(Code::ImportNotUsed, {}, std::to_string(count) + " " + what));
        };
        note(heights_,
             "heights that stand as a third coordinate are not taken: they count from the ellipsoid");
        note(other_, "features that are neither points nor lines are not taken");
        note(parts_, "pipes and chambers are not taken: GeoJSON has them as drawn, LandXML as built");
        if (!made_.found.any() && made_.findings.empty())
            made_.findings.push_back(finding(Code::ImportEmpty, {}, "the file holds no points and no lines"));
    }

    const Projection& projection_;
    Unit unit_;
    Read made_;
    bool failed_ = false;
    std::string name_;
    std::uint32_t line_ = 0;
    std::size_t number_ = 0, refused_ = 0, heights_ = 0, other_ = 0, parts_ = 0;
};

}  // namespace

Read read_geojson(std::string_view text, const Projection& projection, Unit unit) {
    return Reader(projection, unit).read(text);
}

bool is_geojson(std::string_view text) {
    constexpr std::size_t head = 4096;
    const std::string_view begin = text.substr(0, head);
    const std::size_t first = begin.find_first_not_of(" \t\r\n");
    if (first == std::string_view::npos || begin[first] != '{') return false;
    return begin.find("\"Feature") != std::string_view::npos ||
           begin.find("\"features\"") != std::string_view::npos ||
           begin.find("\"type\"") != std::string_view::npos;
}

}  // namespace fallwright::geojson
