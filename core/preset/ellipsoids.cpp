#include "preset/ellipsoids.h"

#include <array>

namespace fallwright::preset {

namespace {

constexpr std::array<Ellipsoid, 9> table = {{
    {"wgs-84", 6378137, 298.257223563},
    {"grs-80", 6378137, 298.257222101},
    {"airy-1830", 6377563.396, 299.3249646},
    {"airy-modified", 6377340.189, 299.3249646},
    {"bessel-1841", 6377397.155, 299.1528128},
    {"clarke-1866", 6378206.4, 294.978698213898},
    {"clarke-1880-rgs", 6378249.145, 293.465},
    {"international-1924", 6378388, 297},
    {"krassowsky-1940", 6378245, 298.3},
}};

}  // namespace

const Ellipsoid* find_ellipsoid(std::string_view name) {
    for (const Ellipsoid& ellipsoid : table) {
        if (ellipsoid.name == name) return &ellipsoid;
    }
    return nullptr;
}

std::string ellipsoid_names() {
    std::string all;
    for (const Ellipsoid& ellipsoid : table) {
        if (!all.empty()) all += &ellipsoid == &table.back() ? " and " : ", ";
        all += ellipsoid.name;
    }
    return all;
}

}  // namespace fallwright::preset
