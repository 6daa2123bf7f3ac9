#include "ground/sheet.h"

#include <cassert>

namespace fallwright::ground {

namespace {

// Twice the area of a triangle, positive counterclockwise.
double twice(const EastNorth& a, const EastNorth& b, const EastNorth& c) {
    return (b.e - a.e) * (c.n - a.n) - (b.n - a.n) * (c.e - a.e);
}

}  // namespace

void Blend::add(std::int32_t corner, double part) {
    const auto next = static_cast<std::size_t>(count++);
    assert(next < most_blended);
    of[next] = corner;
    share[next] = part;
}

double area_within(const std::vector<EastNorth>& outline) {
    double sum = 0;
    for (std::size_t i = 2; i < outline.size(); ++i) sum += twice(outline[0], outline[i - 1], outline[i]);
    return sum / 2;
}

double Sheet::area(std::size_t triangle) const {
    const std::array<std::int32_t, 3>& corner = triangles[triangle];
    const auto place = [&](std::size_t i) { return at[static_cast<std::size_t>(corner[i])]; };
    return twice(place(0), place(1), place(2)) / 2;
}

double Sheet::area() const {
    double sum = 0;
    for (std::size_t i = 0; i < whole(); ++i) sum += area(i);
    for (const std::vector<EastNorth>& part : parts) sum += area_within(part);
    return sum;
}

std::vector<double> Sheet::on_spots(std::vector<double> weights) const {
    assert(weights.size() == at.size());
    for (std::size_t i = blends.size(); i-- > 0;) {
        const Blend& blend = blends[i];
        for (std::size_t k = 0; k < static_cast<std::size_t>(blend.count); ++k)
            weights[static_cast<std::size_t>(blend.of[k])] += blend.share[k] * weights[spots() + i];
    }
    weights.resize(spots());
    return weights;
}

std::array<double, 3> shares_at(const Sheet& sheet, std::size_t triangle, const EastNorth& place) {
    const std::array<std::int32_t, 3>& corner = sheet.triangles[triangle];
    const EastNorth& a = sheet.at[static_cast<std::size_t>(corner[0])];
    const EastNorth& b = sheet.at[static_cast<std::size_t>(corner[1])];
    const EastNorth& c = sheet.at[static_cast<std::size_t>(corner[2])];
    const double all = twice(a, b, c);
    const double second = twice(a, place, c) / all;
    const double third = twice(a, b, place) / all;
    return {1 - second - third, second, third};
}

Sheet sheet_of(const Triangulation& ground) {
    Sheet sheet;
    sheet.origin = {ground.origin_e, ground.origin_n};
    sheet.level = ground.level;
    sheet.spot = ground.spot;
    sheet.at.reserve(ground.place.size());
    for (std::size_t i = 0; i < ground.place.size(); ++i)
        sheet.at.push_back(ground.local(static_cast<std::int32_t>(i)));
    const auto triangles = static_cast<std::size_t>(ground.surface_triangles());
    sheet.triangles.reserve(triangles);
    for (std::size_t i = 0; i < triangles; ++i)
        sheet.triangles.push_back({ground.corner[3 * i], ground.corner[3 * i + 1], ground.corner[3 * i + 2]});
    for (const Piece& piece : ground.cut) sheet.parts.push_back(piece.outline);
    return sheet;
}

}  // namespace fallwright::ground
