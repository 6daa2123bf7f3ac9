#include <cmath>

#include "ground/box_tree.h"
#include "ground/prisms.h"

namespace fallwright::ground {

namespace {

// Outlines of triangles and parts; of a triangle that is whole, its three corners.
std::vector<EastNorth> outline_of(const Sheet& sheet, std::size_t triangle) {
    if (triangle >= sheet.whole()) return sheet.parts[triangle - sheet.whole()];
    std::vector<EastNorth> outline;
    for (const std::int32_t corner : sheet.triangles[triangle])
        outline.push_back(sheet.at[static_cast<std::size_t>(corner)]);
    return outline;
}

Box box_around(const std::vector<EastNorth>& outline, const EastNorth& shift) {
    const auto point = [&shift](const EastNorth& at) {
        return Box{at.e + shift.e, at.n + shift.n, at.e + shift.e, at.n + shift.n};
    };
    Box box = point(outline.front());
    for (const EastNorth& at : outline) box.take_in(point(at));
    return box;
}

// How far a place lies to the left of the way from a to b, times its length.
double left_of(const EastNorth& a, const EastNorth& b, const EastNorth& place) {
    return (b.e - a.e) * (place.n - a.n) - (b.n - a.n) * (place.e - a.e);
}

// What of an outline, which may run back and forth, lies to the left of the way from a to b.
std::vector<EastNorth> cut_off(const std::vector<EastNorth>& outline, const EastNorth& a,
                               const EastNorth& b) {
    std::vector<EastNorth> kept;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const EastNorth& from = outline[i];
        const EastNorth& to = outline[(i + 1) % outline.size()];
        const double at_from = left_of(a, b, from), at_to = left_of(a, b, to);
        if (at_from >= 0) kept.push_back(from);
        if ((at_from > 0 && at_to < 0) || (at_from < 0 && at_to > 0)) {
            const double share = at_from / (at_from - at_to);
            kept.push_back({from.e + share * (to.e - from.e), from.n + share * (to.n - from.n)});
        }
    }
    return kept;
}

class Overlay {
  public:
    Overlay(const Sheet& upper, const Sheet& lower)
        : upper_(upper),
          lower_(lower),
          shift_{lower.origin.e - upper.origin.e, lower.origin.n - upper.origin.n} {
        found_.bases = upper.at.size() + lower.at.size();
        found_.height = upper.level;
        for (const double level : lower.level) found_.height.push_back(-level);
    }

    Prisms run() {
        std::vector<Box> boxes;
        boxes.reserve(lower_.triangles.size());
        for (std::size_t i = 0; i < lower_.triangles.size(); ++i)
            boxes.push_back(box_around(outline_of(lower_, i), shift_));
        const BoxTree tree(std::move(boxes));
        for (std::size_t i = 0; i < upper_.triangles.size(); ++i) {
            const std::vector<EastNorth> outline = outline_of(upper_, i);
            tree.meeting(box_around(outline, {0, 0}), [&](std::size_t j) { add_pair(i, outline, j); });
        }
        found_.settle();
        return std::move(found_);
    }

  private:
    // The lower outline as triangles that add up to it, some of them taken off where it runs inwards.
    void add_pair(std::size_t i, const std::vector<EastNorth>& outline, std::size_t j) {
        std::vector<EastNorth> below = outline_of(lower_, j);
        for (EastNorth& at : below) at = {at.e + shift_.e, at.n + shift_.n};
        for (std::size_t k = 2; k < below.size(); ++k) {
            const double side = left_of(below[0], below[k - 1], below[k]);
            if (side == 0) continue;
            const EastNorth& second = side > 0 ? below[k - 1] : below[k];
            const EastNorth& last = side > 0 ? below[k] : below[k - 1];
            std::vector<EastNorth> common = cut_off(outline, below[0], second);
            common = cut_off(common, second, last);
            common = cut_off(common, last, below[0]);
            add_common(i, j, common, side > 0 ? 1 : -1);
        }
    }

    void add_common(std::size_t i, std::size_t j, const std::vector<EastNorth>& common, double sign) {
        if (common.size() < 3) return;
        const auto first = static_cast<std::int32_t>(found_.height.size());
        for (const EastNorth& place : common) {
            Blend blend;
            add_shares(upper_, i, place, 0, blend);
            add_shares(lower_, j, {place.e - shift_.e, place.n - shift_.n}, upper_.at.size(), blend);
            found_.blends.push_back(blend);
            found_.height.push_back(0);
        }
        for (std::size_t k = 2; k < common.size(); ++k) {
            const auto at = static_cast<std::int32_t>(k);
            const double area = sign * area_within({common[0], common[k - 1], common[k]});
            found_.prisms.push_back({area, {first, first + at - 1, first + at}});
        }
    }

    static void add_shares(const Sheet& sheet, std::size_t triangle, const EastNorth& place,
                           std::size_t first, Blend& blend) {
        const std::array<double, 3> share = shares_at(sheet, triangle, place);
        for (std::size_t k = 0; k < 3; ++k)
            blend.add(static_cast<std::int32_t>(first) + sheet.triangles[triangle][k], share[k]);
    }

    const Sheet& upper_;
    const Sheet& lower_;
    EastNorth shift_;  // of the lower sheet's origin
    Prisms found_;
};

}  // namespace

Prisms prisms_between(const Sheet& upper, const Sheet& lower) {
    return Overlay(upper, lower).run();
}

}  // namespace fallwright::ground
