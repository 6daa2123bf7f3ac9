#include "properties/site.h"

#include <array>
#include <cmath>
#include <cstdio>

namespace fallwright::properties {

namespace {

// D1 runs 30 m east, then 40 m north.
constexpr double first_leg = 30, whole_line = 70;

Spot on_drain(Draw& draw) {
    // Half metres: never at the bend itself, which belongs to the leg before it.
    const double ch = draw.step(0.5, whole_line - 0.5, 1);
    const double off = draw.one_in(3) ? draw.step(-2, 2, 1) : 0;
    const std::string what = draw.one_in(2) ? "laid" : "ground";
    Spot spot;
    spot.target = {{"line", "D1"}, {"ch", ch}};
    if (off != 0) spot.target["off"] = off;
    if (what != "ground" || draw.one_in(2)) spot.target["what"] = what;
    std::array<char, 64> name{};
    if (off == 0) {
        std::snprintf(name.data(), name.size(), "D1 %.3f %s", ch, what.c_str());
    } else {
        std::snprintf(name.data(), name.size(), "D1 %.3f %c%.3f %s", ch, off < 0 ? 'L' : 'R', std::fabs(off),
                      what.c_str());
    }
    spot.name = name.data();
    spot.what = what;
    spot.height = (what == "laid" ? 48.0 : 49.5) - ch / 80 + draw.step(-0.01, 0.01, 0.001);
    spot.on_grid = true;
    spot.e = ch < first_leg ? ch : first_leg + off;
    spot.n = ch < first_leg ? -off : ch - first_leg;
    return spot;
}

Spot on_kerb(Draw& draw) {
    const double ch = draw.step(0.5, 39.5, 1);
    std::array<char, 32> name{};
    std::snprintf(name.data(), name.size(), "K1 %.3f kerb", ch);
    Spot spot;
    spot.target = {{"line", "K1"}, {"ch", ch}, {"what", "kerb"}};
    spot.name = name.data();
    spot.what = "kerb";
    spot.height = 49.2 + ch / 200;
    return spot;
}

Spot named(Draw& draw, std::size_t number, bool placed, Site& site) {
    Spot spot;
    spot.soffit = draw.one_in(6);
    spot.name = (spot.soffit ? "S" : "P") + std::to_string(number);
    spot.target = {{"point", spot.name}};
    spot.height = spot.soffit ? draw.step(53, 54, 0.001) : draw.step(48, 50, 0.001);
    spot.on_grid = placed;
    spot.e = draw.step(-10, 50, 0.5);
    spot.n = draw.step(-10, 50, 0.5);
    if (placed) site.lines.push_back({{"kind", "place"}, {"point", spot.name}, {"e", spot.e}, {"n", spot.n}});
    return spot;
}

}  // namespace

double millimetres(double metres) {
    return static_cast<double>(std::llround(metres * 1000)) / 1000;
}

Site random_site(Draw& draw, const Wishes& wishes) {
    Site site;
    site.lines.push_back({{"kind", "line"}, {"name", "D1"}, {"use", "drain"}});
    site.lines.back()["plan"] = Json::array({{0, 0}, {first_leg, 0}, {first_leg, whole_line - first_leg}});
    if (!wishes.on_grid) site.lines.push_back({{"kind", "line"}, {"name", "K1"}, {"use", "kerb"}});
    for (std::size_t i = 1; i <= 7; ++i) site.spots.push_back(named(draw, i, !draw.one_in(3), site));
    for (std::size_t i = 0; i < 8; ++i) site.spots.push_back(on_drain(draw));
    for (std::size_t i = 0; i < 3 && !wishes.on_grid; ++i) site.spots.push_back(on_kerb(draw));
    return site;
}

}  // namespace fallwright::properties
