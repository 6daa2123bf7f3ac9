#include <algorithm>

#include "base/print.h"
#include "design/design.h"

namespace fallwright {

namespace {

constexpr double least_bend = 0.001;    // radians: corners of the plan that count
constexpr double same_gradient = 5e-8;  // half the last place of a gradient in results
constexpr double same_level = 1e-6;     // metres
constexpr double same_crossfall = 5e-8;

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

    void add(const ProfilePiece& piece, const LevelOf& level_of) {
        const double level = piece.level.value(level_of);
        const double gradient = piece.gradient.value(level_of);
        if (std::isnan(level) || std::isnan(gradient)) return;
        double from = piece.from;
        for (const Directions::Segment& segment : directions_.segments()) {
            if (segment.from <= from + least_chainage) continue;
            if (segment.from >= piece.to - least_chainage) break;
            append(from, segment.from, level + gradient * (from - piece.from), gradient);
            from = segment.from;
        }
        append(from, piece.to, level + gradient * (from - piece.from), gradient);
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

}  // namespace

std::vector<PlaneStretch> Design::planes(const LevelOf& level_of) const {
    const double left = line_->crossfall.left;
    const double right = line_->crossfall.right;
    const Directions directions(*line_);
    StraightJoiner straights(directions, left == 0 && right == 0);
    for (const ProfilePiece& piece : profile_.pieces()) {
        if (!piece.curved) straights.add(piece, level_of);
    }
    const std::array<Maybe, 2> sides = edges();
    const bool has_left = !(sides[0].has() && sides[0].value >= 0);
    const bool has_right = !(sides[1].has() && sides[1].value <= 0);
    const bool one = std::fabs(left + right) < same_crossfall;
    std::vector<PlaneStretch> planes;
    for (const Straight& s : straights.found()) {
        if (one) planes.push_back({s.from, s.to, s.level, s.gradient, right, has_left, has_right});
        if (!one && has_left) planes.push_back({s.from, s.to, s.level, s.gradient, -left, true, false});
        if (!one && has_right) planes.push_back({s.from, s.to, s.level, s.gradient, right, false, true});
    }
    return planes;
}

}  // namespace fallwright
