#include <array>

#include "base/json_out.h"
#include "base/print.h"
#include "exchange/geojson/geojson.h"
#include "exchange/handover/network.h"

namespace fallwright::geojson {

namespace {

using handover::known;

constexpr int degree_places = 9;
constexpr std::array<const char*, 3> standings = {"held", "measured", "wanted"};

class Writer {
  public:
    Writer(const handover::Handover& from, const Projection& projection)
        : from_(from), projection_(projection) {}

    Written all() {
        out_.begin_object().text("type", "FeatureCollection");
        if (!from_.title.empty()) out_.text("title", from_.title);
        if (!from_.datum.empty()) out_.text("datum", from_.datum);
        out_.key("features").begin_array();
        for (const handover::Point& point : from_.points) this->point(point);
        for (const handover::Line& line : from_.lines) this->line(line);
        out_.end_array().end_object();
        Written written{out_.take() + "\n", {}};
        if (left_out_ > 0)
            written.notes.push_back(
                finding(Code::ExportLeftOut, {},
                        std::to_string(left_out_) +
                            (left_out_ == 1 ? " point or line has" : " points and lines have") +
                            " no place on the grid, or one beyond its projection"));
        return written;
    }

  private:
    double in_unit(double metres) const {
        return from_.unit == Unit::Foot ? metres / metres_per_foot : metres;
    }
    void length(const char* name, double metres) {
        if (known(metres)) out_.number(name, in_unit(metres), length_places);
    }
    const char* unit() const { return from_.unit == Unit::Foot ? "ft" : "m"; }

    void position(const LonLat& at) {
        out_.begin_array().number(at.lon, degree_places).number(at.lat, degree_places).end_array();
    }

    // A feature of these places up to its properties; false where one of them has none.
    bool feature(const std::vector<handover::EastNorth>& places) {
        std::vector<LonLat> all;
        for (const handover::EastNorth& place : places) {
            const std::optional<LonLat> at = projection_.to_lon_lat(place.e, place.n);
            if (!at) return false;
            all.push_back(*at);
        }
        out_.begin_object().text("type", "Feature").key("geometry").begin_object();
        out_.text("type", all.size() == 1 ? "Point" : "LineString").key("coordinates");
        if (all.size() == 1) {
            position(all.front());
        } else {
            out_.begin_array();
            for (const LonLat& at : all) position(at);
            out_.end_array();
        }
        out_.end_object().key("properties").begin_object();
        return true;
    }
    void end_feature() { out_.end_object().end_object(); }

    void point(const handover::Point& point) {
        if (!point.placed() || !feature({{point.e, point.n}})) return void(++left_out_);
        out_.text("kind", "point").text("name", point.name);
        length("level", point.level);
        length("sd", point.sd);
        out_.text("unit", unit()).text("standing", standings[static_cast<std::size_t>(point.standing)]);
        if (!point.note.empty()) out_.text("source", point.note);
        end_feature();
    }

    void line(const handover::Line& line) {
        if (line.plan.empty() || !feature(line.plan)) return void(++left_out_);
        out_.text("kind", "line").text("name", line.name).text("use", line.use).text("unit", unit());
        length("start", line.start);
        end_feature();
        const auto network = network_of(line);
        if (!network) return;
        for (const handover::Node& node : network->nodes) {
            if (node.chamber == nullptr || !feature({{node.e, node.n}})) continue;
            out_.text("kind", "chamber").text("name", node.name).text("line", line.name).text("unit", unit());
            length("ch", node.ch);
            length("in", node.chamber->in);
            length("out", node.chamber->out);
            length("cover", node.chamber->cover);
            end_feature();
        }
        for (const handover::Stretch& part : network->stretches) {
            const handover::Node& a = network->nodes[part.from];
            const handover::Node& b = network->nodes[part.to];
            if (!feature({{a.e, a.n}, {b.e, b.n}})) continue;
            out_.text("kind", "pipe").text("name", part.name).text("line", line.name).text("unit", unit());
            length("from", a.ch);
            length("to", b.ch);
            length("from_invert", part.from_level);
            length("to_invert", part.to_level);
            length("bore", part.pipe->bore);
            end_feature();
        }
    }

    const handover::Handover& from_;
    const Projection& projection_;
    JsonOut out_;
    std::size_t left_out_ = 0;
};

}  // namespace

Written write_geojson(const handover::Handover& from, const Projection& projection) {
    return Writer(from, projection).all();
}

}  // namespace fallwright::geojson
