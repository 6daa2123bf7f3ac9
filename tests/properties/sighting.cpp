#include "properties/sighting.h"

#include <cmath>

namespace fallwright::properties {

namespace {

constexpr double radians = 0.017453292519943295;
constexpr double clamp_mark = 2.0;

}  // namespace

Sighting::Sighting(Draw& draw, const Wishes& wishes, const Site& site, std::size_t number) : wishes_(wishes) {
    const bool laser = !draw.one_in(3);
    entry_ = {
        {"kind", "setup"}, {"name", "U" + std::to_string(number + 1)}, {"instrument", laser ? "L1" : "N1"}};
    height_ = draw.step(51, 51.5, 0.001);
    place(draw, site);
    if (laser) set_plane(draw);
    if (draw.one_in(2)) entry_["staff"] = "E1";
    if (laser && draw.one_in(3)) entry_["receiver"] = "R1";
    if (laser && draw.one_in(3)) entry_["clamp"] = clamp_mark;
}

void Sighting::place(Draw& draw, const Site& site) {
    placed_ = !draw.one_in(3);
    if (!placed_) return;
    e_ = draw.step(-5, 45, 0.5);
    n_ = draw.step(-5, 45, 0.5);
    entry_["place"] = {{"e", e_}, {"n", n_}};
    const Spot& spot = draw.from(site.spots);
    const bool over_point = draw.one_in(4) && spot.on_grid && spot.target.contains("point");
    if (over_point) {
        e_ = spot.e;
        n_ = spot.n;
        entry_["place"] = {{"point", spot.name}};
    } else if (draw.one_in(4)) {
        const double ch = draw.step(1.5, 28.5, 1);
        e_ = ch;
        n_ = -3;
        entry_["place"] = {{"line", "D1"}, {"ch", ch}, {"off", 3}};
    }
}

void Sighting::set_plane(Draw& draw) {
    Json plane = Json::object();
    bearing_ = draw.step(0, 350, 10);
    const bool oriented = !draw.one_in(3);
    if (oriented) plane["bearing"] = bearing_;
    sloped_ = !wishes_.level && placed_ && oriented && draw.one_in(2);
    if (sloped_) {
        slope(draw, plane);
    } else if (oriented && placed_ && !wishes_.on_grid && draw.one_in(3)) {
        plane = {{"towards", "D1"}};
    }
    if (!plane.empty()) entry_["plane"] = plane;
}

void Sighting::slope(Draw& draw, Json& plane) {
    main_ = draw.step(-0.02, 0.02, 0.005);
    cross_ = draw.one_in(2) ? draw.step(-0.01, 0.01, 0.005) : 0;
    if (main_ == 0 && cross_ == 0) main_ = 0.01;
    plane["main"] = main_;
    plane["cross"] = cross_;
    if (!draw.one_in(4)) return;
    plane["main"] = nullptr;  // matched: what it is, the readings and perhaps the display tell
    if (draw.one_in(2)) entry_["shown"] = {{"main", main_}};
}

Sighting Sighting::turned(Draw& draw, std::size_t number) const {
    Sighting next = *this;
    next.entry_ = {{"kind", "setup"}, {"name", "U" + std::to_string(number + 1)}, {"instrument", "L1"}};
    next.entry_["head"] = entry_["name"];
    if (wishes_.all_sds) next.entry_["head_sd"] = draw.step(0, 0.002, 0.001);
    Json plane = Json::object();
    next.main_ = next.cross_ = 0;
    next.sloped_ = !wishes_.level;
    if (next.sloped_) next.slope(draw, plane);
    if (!plane.empty()) next.entry_["plane"] = plane;
    return next;
}

double Sighting::true_figure(const Spot& spot) const {
    const double e = spot.e - e_;
    const double n = spot.n - n_;
    const double u = e * std::sin(bearing_ * radians) + n * std::cos(bearing_ * radians);
    const double v = e * std::cos(bearing_ * radians) - n * std::sin(bearing_ * radians);
    const double plane = height_ + (sloped_ ? main_ * u + cross_ * v : 0);
    return spot.soffit ? spot.height - plane : plane - spot.height;
}

void Sighting::write_clamped(Draw& draw, double figure, bool soffit, Json& line) const {
    const bool clamped = entry_.contains("clamp");
    const double mark = clamped ? clamp_mark : millimetres(figure + draw.step(-0.05, 0.05, 0.01));
    if (!clamped) line["mark"] = mark;
    if (soffit) line["inverted"] = true;
    if (!clamped && draw.one_in(3)) {
        line["offset"] = millimetres(figure - mark);
        return;
    }
    const double above = (soffit ? -1 : 1) * (mark - figure);
    line[above >= 0 ? "high" : "low"] = millimetres(std::fabs(above));
}

void Sighting::write_value(Draw& draw, double figure, bool soffit, Json& line) const {
    const bool laser = entry_["instrument"] == "L1";
    if (laser && draw.one_in(2)) return write_clamped(draw, figure, soffit, line);
    line["staff"] = soffit ? -figure : figure;
    if (laser || !draw.one_in(4)) return;
    const double half = draw.step(0.05, 0.25, 0.001);
    line["top"] = (soffit ? -1 : 1) * millimetres(figure + half);
    line["bottom"] = (soffit ? -1 : 1) * millimetres(figure - half);
}

Json Sighting::reading(Draw& draw, const Spot& spot) const {
    Json line = spot.target;
    line["kind"] = "reading";
    if (wishes_.told || draw.one_in(4)) line["setup"] = entry_["name"];
    if (wishes_.all_sds && !line.contains("line")) line["what"] = "stone";
    const double shoe = draw.one_in(10) ? 0.1 : 0;
    if (shoe != 0) line["shoe"] = shoe;
    const double figure = millimetres(true_figure(spot) + draw.step(-0.002, 0.002, 0.001)) - shoe;
    write_value(draw, millimetres(figure), spot.soffit, line);
    if (draw.one_in(4)) line["sd"] = draw.step(0.0005, 0.002, 0.0005);
    write_distance(draw, spot, line);
    return line;
}

void Sighting::write_distance(Draw& draw, const Spot& spot, Json& line) const {
    const bool both = placed_ && spot.on_grid;
    const double e = spot.e - e_;
    const double n = spot.n - n_;
    const double away = std::sqrt(e * e + n * n);
    if (both ? away > 1 && draw.one_in(6) : draw.one_in(2))
        line["dist"] = both ? away : draw.step(5, 60, 0.5);
    if (line.contains("dist") && draw.one_in(2)) line["dist_sd"] = 0.1;
    if (!both || !has_bearing() || !draw.one_in(8)) return;
    const double sin = std::sin(bearing_ * radians);
    const double cos = std::cos(bearing_ * radians);
    line["along"] = e * sin + n * cos;
    line["across"] = e * cos - n * sin;
}

}  // namespace fallwright::properties
