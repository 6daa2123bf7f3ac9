#include <algorithm>

#include "base/print.h"
#include "base/stable_order.h"
#include "design/design.h"

namespace fallwright {

namespace {

constexpr double least_bend = 0.001;    // radians: corners of the plan that count
constexpr double same_gradient = 5e-8;  // half the last place of a gradient in results
constexpr double same_level = 1e-6;     // metres
constexpr double same_crossfall = 5e-8;

// A stretch of the line in which sides keep one crossfall, rising to the right.
struct Kept {
    double from, to, crossfall;
    bool to_left, to_right;
};

// The direction of a line's plan, segment by segment.
class Directions {
  public:
    explicit Directions(const LineEntry& line) {
        double ch = line.start;
        for (std::size_t i = 1; i < line.plan.size(); ++i) {
            const double e = line.plan[i][0] - line.plan[i - 1][0];
            const double n = line.plan[i][1] - line.plan[i - 1][1];
            const double length = std::sqrt(e * e + n * n);
            segments_.push_back({ch, e / length, n / length});
            ch += length;
        }
        if (segments_.empty()) segments_.push_back({line.start, 0, 1});
    }

    struct Segment {
        double from, e, n;
    };
    // The end segments go on beyond the ends.
    const Segment& at(double ch) const {
        const auto next = std::upper_bound(segments_.begin() + 1, segments_.end(), ch,
                                           [](double value, const Segment& s) { return value < s.from; });
        return *std::prev(next);
    }
    const std::vector<Segment>& segments() const { return segments_; }

    static bool same(const Segment& a, const Segment& b) {
        return std::fabs(a.e * b.n - a.n * b.e) < least_bend && a.e * b.e + a.n * b.n > 0;
    }

  private:
    std::vector<Segment> segments_;
};

// A straight stretch, still without its sides.
struct Straight {
    double from, to, level, gradient;
    const Directions::Segment* direction;
};

class StraightJoiner {
  public:
    StraightJoiner(const Directions& directions, bool level_across)
        : directions_(directions), level_across_(level_across) {}

    // What of a piece lies in from..to.
    void add(const ProfilePiece& piece, const Kept& within, const LevelOf& level_of) {
        const double level = piece.level.value(level_of);
        const double gradient = piece.gradient.value(level_of);
        if (std::isnan(level) || std::isnan(gradient)) return;
        double from = std::max(piece.from, within.from);
        const double to = std::min(piece.to, within.to);
        if (to - from < least_chainage) return;
        for (const Directions::Segment& segment : directions_.segments()) {
            if (segment.from <= from + least_chainage) continue;
            if (segment.from >= to - least_chainage) break;
            append(from, segment.from, level + gradient * (from - piece.from), gradient);
            from = segment.from;
        }
        append(from, to, level + gradient * (from - piece.from), gradient);
    }

    const std::vector<Straight>& found() const { return found_; }

  private:
    void append(double from, double to, double level, double gradient) {
        const Directions::Segment& direction = directions_.at((from + to) / 2);
        const Straight next{from, to, level, gradient, &direction};
        if (!found_.empty() && goes_on(found_.back(), next))
            found_.back().to = to;
        else
            found_.push_back(next);
    }

    bool goes_on(const Straight& last, const Straight& next) const {
        const double reached = last.level + last.gradient * (next.from - last.from);
        const bool flat = level_across_ && rounded_to(next.gradient, gradient_places) == 0;
        return next.from - last.to < same_level && std::fabs(next.level - reached) < same_level &&
               std::fabs(next.gradient - last.gradient) < same_gradient &&
               (flat || Directions::same(*last.direction, *next.direction));
    }

    const Directions& directions_;
    bool level_across_;
    std::vector<Straight> found_;
};

void append(std::vector<Kept>& all, const Kept& next) {
    const bool goes_on = !all.empty() && all.back().to == next.from && all.back().to_left == next.to_left &&
                         all.back().to_right == next.to_right &&
                         std::fabs(all.back().crossfall - next.crossfall) < same_crossfall;
    if (goes_on)
        all.back().to = next.to;
    else
        all.push_back(next);
}

// Both sides as one plane, else each by itself; by rising chainage, left before right.
std::vector<Kept> kept_across(const Across& across, const std::array<bool, 2>& sides) {
    std::vector<Kept> both, left, right;
    for (const Across::Stretch& s : across.stretches()) {
        const bool one = std::fabs(s.left.value + s.right.value) < same_crossfall;
        if (one && (sides[0] || sides[1])) append(both, {s.from, s.to, s.right.value, sides[0], sides[1]});
        if (!one && sides[0] && s.left.has()) append(left, {s.from, s.to, -s.left.value, true, false});
        if (!one && sides[1] && s.right.has()) append(right, {s.from, s.to, s.right.value, false, true});
    }
    both.insert(both.end(), left.begin(), left.end());
    both.insert(both.end(), right.begin(), right.end());
    return both;
}

}  // namespace

std::array<bool, 2> Design::sides() const {
    const std::array<Maybe, 2> at = edges();
    return {!(at[0].has() && at[0].value >= 0), !(at[1].has() && at[1].value <= 0)};
}

std::vector<PlaneStretch> Design::planes(const LevelOf& level_of) const {
    const Directions directions(*line_);
    std::vector<PlaneStretch> planes;
    for (const Kept& kept : kept_across(across_, sides())) {
        StraightJoiner straights(directions, kept.crossfall == 0);
        for (const ProfilePiece& piece : profile_.pieces()) {
            if (!piece.curved) straights.add(piece, kept, level_of);
        }
        for (const Straight& s : straights.found())
            planes.push_back(
                {s.from, s.to, s.level, s.gradient, kept.crossfall, kept.to_left, kept.to_right});
    }
    sort_stably(planes, [](const PlaneStretch& a, const PlaneStretch& b) { return a.from < b.from; });
    return planes;
}

std::vector<Twist> Design::twists() const {
    std::vector<Twist> found;
    if (!any()) return found;
    const std::array<bool, 2> has = sides();
    for (const bool left : {true, false}) {
        for (const Across::Stretch& s : across_.stretches()) {
            if (!has[left ? 0 : 1] || (left ? s.left : s.right).has()) continue;
            const double from = std::max(s.from, profile_.from());
            const double to = std::min(s.to, profile_.to());
            if (to - from < least_chainage) continue;
            if (!found.empty() && found.back().left == left && found.back().to == from)
                found.back().to = to;
            else
                found.push_back({from, to, left});
        }
    }
    return found;
}

}  // namespace fallwright
