#include "design/profile_pieces.h"

#include <algorithm>
#include <optional>

namespace fallwright {

namespace {

// What a curve takes up of the line, refused or not.
struct Extent {
    double from, to;
    std::size_t vertex;
    bool refused;
};

class PieceLayer {
  public:
    explicit PieceLayer(const std::vector<ProfileVertex>& vertices) : vertices_(vertices) {}

    Pieces run() {
        find_extents();
        refuse_curves();
        taken_ = extents_;
        std::sort(taken_.begin(), taken_.end(),
                  [](const Extent& a, const Extent& b) { return a.from < b.from; });
        for (std::size_t i = 0; i + 1 < vertices_.size(); ++i) lay_grade(i);
        for (const Extent& extent : extents_) {
            if (!extent.refused) lay_curve(extent);
        }
        if (vertices_.size() == 1)
            pieces_.laid.push_back({vertices_[0].ch, vertices_[0].ch, vertices_[0].after, {}, {}, false});
        std::sort(pieces_.laid.begin(), pieces_.laid.end(),
                  [](const ProfilePiece& a, const ProfilePiece& b) { return a.from < b.from; });
        return std::move(pieces_);
    }

  private:
    void find_extents() {
        for (std::size_t i = 0; i < vertices_.size(); ++i) {
            const ProfileVertex& vertex = vertices_[i];
            if (vertex.curve > least_length)
                extents_.push_back({vertex.ch - vertex.curve / 2, vertex.ch + vertex.curve / 2, i, false});
        }
    }

    void refuse_curves() {
        std::vector<double> next_from(extents_.size() + 1, std::numeric_limits<double>::infinity());
        for (std::size_t k = extents_.size(); k-- > 0;)
            next_from[k] = std::min(next_from[k + 1], extents_[k].from);
        double earlier_to = -std::numeric_limits<double>::infinity();
        for (std::size_t k = 0; k < extents_.size(); ++k) {
            Extent& extent = extents_[k];
            const std::optional<CurveTrouble> why = trouble_of(extent, earlier_to, next_from[k + 1]);
            extent.refused = why.has_value();
            if (why) pieces_.refused.push_back({vertices_[extent.vertex].ch, *why});
            earlier_to = std::max(earlier_to, extent.to);
        }
    }

    std::optional<CurveTrouble> trouble_of(const Extent& extent, double earlier_to, double later_from) const {
        const std::size_t i = extent.vertex;
        if (i == 0 || i + 1 == vertices_.size()) return CurveTrouble::AtEnd;
        if (extent.from < vertices_.front().ch - least_length ||
            extent.to > vertices_.back().ch + least_length)
            return CurveTrouble::PastEnd;
        if (steps(vertices_[i])) return CurveTrouble::Steps;
        const double room_from = std::max(vertices_[i - 1].ch, earlier_to);
        const double room_to = std::min(vertices_[i + 1].ch, later_from);
        if (extent.from < room_from - least_length || extent.to > room_to + least_length)
            return CurveTrouble::Overlaps;
        return std::nullopt;
    }

    DesignLevel grade(std::size_t i) const {
        const double length = vertices_[i + 1].ch - vertices_[i].ch;
        return combined(1 / length, vertices_[i + 1].before, -1 / length, vertices_[i].after);
    }

    // The straight grade from corner i on, as far as no curve takes it up.
    void lay_grade(std::size_t i) {
        double from = vertices_[i].ch;
        const double end = vertices_[i + 1].ch;
        for (const Extent& extent : taken_) {
            if (extent.to <= from || extent.from >= end) continue;
            if (extent.from > from + least_length) lay_straight(i, from, extent.from);
            from = std::max(from, extent.to);
        }
        if (end > from + least_length) lay_straight(i, from, end);
    }

    void lay_straight(std::size_t i, double from, double to) {
        const DesignLevel gradient = grade(i);
        pieces_.laid.push_back({from,
                                to,
                                combined(1, vertices_[i].after, from - vertices_[i].ch, gradient),
                                gradient,
                                {0, {}},
                                false});
    }

    void lay_curve(const Extent& extent) {
        const ProfileVertex& corner = vertices_[extent.vertex];
        const DesignLevel before = grade(extent.vertex - 1);
        const DesignLevel after = grade(extent.vertex);
        pieces_.laid.push_back({extent.from, extent.to, combined(1, corner.before, -corner.curve / 2, before),
                                before, combined(1 / corner.curve, after, -1 / corner.curve, before), true});
    }

    const std::vector<ProfileVertex>& vertices_;
    std::vector<Extent> extents_;  // by corner
    std::vector<Extent> taken_;    // by where they begin: refused ones may reach over others
    Pieces pieces_;
};

}  // namespace

Pieces lay_pieces(const std::vector<ProfileVertex>& vertices) {
    return PieceLayer(vertices).run();
}

}  // namespace fallwright
