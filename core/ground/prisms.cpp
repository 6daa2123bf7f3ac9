#include "ground/prisms.h"

#include <cmath>

namespace fallwright::ground {

namespace {

constexpr double third = 1.0 / 3;

std::array<double, 3> heights(const Prisms& prisms, const Prism& prism, double raised) {
    std::array<double, 3> found{};
    for (std::size_t k = 0; k < 3; ++k)
        found[k] = prisms.height[static_cast<std::size_t>(prism.corner[k])] - raised;
    return found;
}

std::array<double, 3> turned_over(const std::array<double, 3>& height) {
    return {-height[0], -height[1], -height[2]};
}

// Only corner `a` lies above: a smaller triangle at it.
AboveZero one_above(const std::array<double, 3>& height, std::size_t a) {
    const std::size_t b = (a + 1) % 3, c = (a + 2) % 3;
    const double to_b = height[a] / (height[a] - height[b]);
    const double to_c = height[a] / (height[a] - height[c]);
    AboveZero found;
    found.area = to_b * to_c;
    found.moment[a] = found.area * (3 - to_b - to_c) * third;
    found.moment[b] = found.area * to_b * third;
    found.moment[c] = found.area * to_c * third;
    return found;
}

AboveZero rest_of(const AboveZero& part) {
    return {1 - part.area, {third - part.moment[0], third - part.moment[1], third - part.moment[2]}};
}

double volume(const AboveZero& part, const std::array<double, 3>& height) {
    return part.moment[0] * height[0] + part.moment[1] * height[1] + part.moment[2] * height[2];
}

void add_outline(const Sheet& sheet, std::size_t triangle, const std::vector<EastNorth>& outline,
                 Prisms& prisms) {
    const auto first = static_cast<std::int32_t>(prisms.height.size());
    for (const EastNorth& place : outline) {
        const std::array<double, 3> share = shares_at(sheet, triangle, place);
        Blend blend;
        for (std::size_t k = 0; k < 3; ++k) blend.add(sheet.triangles[triangle][k], share[k]);
        prisms.blends.push_back(blend);
        prisms.height.push_back(0);
    }
    for (std::int32_t i = 2; i < static_cast<std::int32_t>(outline.size()); ++i) {
        const auto at = static_cast<std::size_t>(i);
        const double area = area_within({outline[0], outline[at - 1], outline[at]});
        prisms.prisms.push_back({area, {first, first + i - 1, first + i}});
    }
}

}  // namespace

AboveZero above_zero(const std::array<double, 3>& height) {
    std::size_t above = 0, one = 0, other = 0;
    for (std::size_t k = 0; k < 3; ++k) {
        if (height[k] > 0) {
            ++above;
            one = k;
        } else {
            other = k;
        }
    }
    if (above == 0) return {};
    if (above == 1) return one_above(height, one);
    if (above == 3 || height[other] == 0) return {1, {third, third, third}};
    return rest_of(one_above(turned_over(height), other));
}

void Prisms::settle() {
    for (std::size_t i = 0; i < blends.size(); ++i) {
        double sum = 0;
        for (std::size_t k = 0; k < static_cast<std::size_t>(blends[i].count); ++k)
            sum += blends[i].share[k] * height[static_cast<std::size_t>(blends[i].of[k])];
        height[bases + i] = sum;
    }
}

Prisms prisms_under(const Sheet& sheet) {
    Prisms prisms;
    prisms.bases = sheet.at.size();
    prisms.height = sheet.level;
    prisms.prisms.reserve(sheet.triangles.size());
    for (std::size_t i = 0; i < sheet.whole(); ++i)
        prisms.prisms.push_back({sheet.area(i), sheet.triangles[i]});
    for (std::size_t i = 0; i < sheet.parts.size(); ++i)
        add_outline(sheet, sheet.whole() + i, sheet.parts[i], prisms);
    prisms.settle();
    return prisms;
}

Earthwork earthwork(const Prisms& prisms, double raised) {
    Earthwork sum;
    for (const Prism& prism : prisms.prisms) {
        const std::array<double, 3> height = heights(prisms, prism, raised);
        const AboveZero above = above_zero(height);
        const std::array<double, 3> depth = turned_over(height);
        const AboveZero below = above_zero(depth);
        sum.cut += prism.area * volume(above, height);
        sum.fill += prism.area * volume(below, depth);
        sum.cut_area += prism.area * above.area;
        sum.fill_area += prism.area * below.area;
    }
    return sum;
}

EarthworkWeights earthwork_weights(const Prisms& prisms, double raised) {
    EarthworkWeights weights;
    weights.cut.resize(prisms.height.size());
    weights.fill.resize(prisms.height.size());
    for (const Prism& prism : prisms.prisms) {
        const std::array<double, 3> height = heights(prisms, prism, raised);
        const AboveZero above = above_zero(height);
        const AboveZero below = above_zero(turned_over(height));
        for (std::size_t k = 0; k < 3; ++k) {
            const auto corner = static_cast<std::size_t>(prism.corner[k]);
            weights.cut[corner] += prism.area * above.moment[k];
            weights.fill[corner] -= prism.area * below.moment[k];
        }
    }
    for (std::vector<double>* each : {&weights.cut, &weights.fill}) {
        for (std::size_t i = prisms.blends.size(); i-- > 0;) {
            const Blend& blend = prisms.blends[i];
            for (std::size_t k = 0; k < static_cast<std::size_t>(blend.count); ++k)
                (*each)[static_cast<std::size_t>(blend.of[k])] += blend.share[k] * (*each)[prisms.bases + i];
        }
        each->resize(prisms.bases);
    }
    return weights;
}

}  // namespace fallwright::ground
