#include "design/heights.h"

#include <algorithm>
#include <limits>

namespace fallwright {

namespace {

using From = DesignSurface::Kind;

DesignSurface of_pipe(std::string_view what) {
    if (what == "laid" || what == "laid out" || what == "invert") return {From::Above, 0, false};
    if (what == "laid in") return {From::Above, 0, true};
    if (what == "soffit") return {From::Soffit, 0, false};
    if (what == "crown") return {From::Crown, 0, false};
    if (what == "collar") return {From::Collar, 0, false};
    if (what == "bed") return {From::Bed, 0, false};
    if (what == "formation") return {From::Formation, 0, false};
    return {};
}

}  // namespace

double height_above_profile(const DesignSurface& surface, const Pipe* pipe) {
    if (surface.kind == From::Above) return surface.height;
    if (surface.kind == From::None || pipe == nullptr) return std::numeric_limits<double>::quiet_NaN();
    const double wall = pipe->wall.or_else(0);
    switch (surface.kind) {
        case From::Soffit:
            return pipe->bore.value;
        case From::Crown:
            return pipe->bore.value + wall;
        case From::Collar:
            return pipe->bore.value + wall + pipe->collar.value;
        case From::Bed:
            return -wall;
        default:
            return -wall - pipe->bedding.value;
    }
}

Heights::Heights(const LineEntry& line, const Book& book) {
    piped_ = line.use == LineUse::Drain || line.use == LineUse::Other;
    layered_ = line.use != LineUse::Drain;
    kerb_ = line.use == LineUse::Kerb;
    layers_unused_ = !layered_ && !line.layers.empty();
    for (const WhatHeight& what : line.whats) above_.emplace_back(book.name(what.what), what.height);
    if (layered_ && !line.layers.empty()) add_layers(line, book);
}

void Heights::add_layers(const LineEntry& line, const Book& book) {
    double top = 0;
    std::vector<std::string> names;
    for (const Layer& layer : line.layers) {
        const std::string& name = book.name(layer.what);
        const bool again = std::find(names.begin(), names.end(), name) != names.end();
        (again ? repeated_ : names).push_back(name);
        above_.emplace_back(name, top);
        top -= layer.thickness;
    }
    above_.emplace_back("formation", top);
}

DesignSurface Heights::find(std::string_view what) const {
    for (const auto& [name, height] : above_) {
        if (name == what) return {From::Above, height, false};
    }
    if (layered_ && what == "finished") return {From::Above, 0, false};
    if (kerb_ && what == "kerb") return {From::Above, 0, false};
    return piped_ ? of_pipe(what) : DesignSurface();
}

}  // namespace fallwright
