#include <algorithm>

#include "design/design.h"

namespace fallwright {

namespace {

class OwnPoints {
  public:
    explicit OwnPoints(const Profile& profile) : profile_(profile) {}

    void add(double ch, OwnPointKind kind) {
        if (ch > profile_.from() - least_chainage && ch < profile_.to() + least_chainage)
            points_.push_back({ch, kind});
    }

    // The tangent points, and where the gradient is 0 between them.
    void add_curve(const ProfilePiece& piece, const LevelOf& level_of) {
        add(piece.from, OwnPointKind::CurveStart);
        add(piece.to, OwnPointKind::CurveEnd);
        const double gradient = piece.gradient.value(level_of);
        const double bend = piece.bend.value(level_of);
        const double x = -gradient / bend;
        // Written so that what is not there (NaN) is no summit.
        if (!(x > 0 && x < piece.to - piece.from)) return;
        add(piece.from + x, bend < 0 ? OwnPointKind::Summit : OwnPointKind::Low);
    }

    std::vector<OwnPoint> run() {
        const auto first = [](const OwnPoint& a, const OwnPoint& b) {
            return a.ch != b.ch ? a.ch < b.ch : a.kind < b.kind;
        };
        std::sort(points_.begin(), points_.end(), first);
        // A summit worked out to stand at a corner stands there.
        for (std::size_t i = 1; i < points_.size(); ++i) {
            if (points_[i].ch - points_[i - 1].ch < least_chainage) points_[i].ch = points_[i - 1].ch;
        }
        std::sort(points_.begin(), points_.end(), first);
        const auto same = [](const OwnPoint& a, const OwnPoint& b) {
            return a.kind == b.kind && a.ch == b.ch;
        };
        points_.erase(std::unique(points_.begin(), points_.end(), same), points_.end());
        return std::move(points_);
    }

  private:
    const Profile& profile_;
    std::vector<OwnPoint> points_;
};

}  // namespace

std::vector<OwnPoint> Design::own_points(const LevelOf& level_of) const {
    if (!any()) return {};
    OwnPoints points(profile_);
    for (const ProfilePoint& point : line_->profile) points.add(point.ch, OwnPointKind::ProfilePoint);
    for (const double ch : across_.turns()) points.add(ch, OwnPointKind::Crossfall);
    for (const Chamber* chamber : usable_chambers(*line_)) points.add(chamber->ch, OwnPointKind::Chamber);
    for (const ProfilePiece& piece : profile_.pieces()) {
        if (piece.curved) points.add_curve(piece, level_of);
    }
    for (const Pipe* pipe : pipes_.pipes()) {
        points.add(pipe->from, OwnPointKind::PipeEnd);
        points.add(pipe->to, OwnPointKind::PipeEnd);
    }
    return points.run();
}

}  // namespace fallwright
