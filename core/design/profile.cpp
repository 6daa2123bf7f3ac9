#include "design/profile.h"

#include <algorithm>

#include "design/profile_pieces.h"

namespace fallwright {

Profile::Profile(std::vector<ProfileVertex> vertices) : vertices_(std::move(vertices)) {
    Pieces pieces = lay_pieces(vertices_);
    pieces_ = std::move(pieces.laid);
    refused_ = std::move(pieces.refused);
}

// The end or step that is at that chainage.
const ProfileVertex* Profile::border_at(double ch) const {
    const auto next =
        std::lower_bound(vertices_.begin(), vertices_.end(), ch - least_chainage,
                         [](const ProfileVertex& vertex, double at) { return vertex.ch <= at; });
    if (next == vertices_.end() || next->ch - ch >= least_chainage) return nullptr;
    const bool is_end = &*next == &vertices_.front() || &*next == &vertices_.back();
    return is_end || steps(*next) ? &*next : nullptr;
}

// Where two pieces meet, the one on that side; else the one there is.
const ProfilePiece* Profile::piece_at(double ch, Side side) const {
    const auto next = std::upper_bound(pieces_.begin(), pieces_.end(), ch + least_length,
                                       [](double at, const ProfilePiece& piece) { return at < piece.from; });
    if (next == pieces_.begin()) return nullptr;
    const auto here = std::prev(next);
    if (here->to < ch - least_length) return nullptr;
    const bool begins_here = here->from > ch - least_length;
    if (side == Side::Before && begins_here && here != pieces_.begin()) {
        const auto before = std::prev(here);
        if (before->to > ch - least_length) return &*before;
    }
    return &*here;
}

DesignLevel Profile::level(double ch, Side side) const {
    const ProfileVertex* border = border_at(ch);
    const double at = border == nullptr ? ch : border->ch;
    const ProfilePiece* piece = piece_at(at, side);
    if (piece == nullptr) return {};
    if (border == &vertices_.front() && side == Side::Before) return border->before;
    if (border == &vertices_.back() && side == Side::After) return border->after;
    const double x = at - piece->from;
    const DesignLevel straight = combined(1, piece->level, x, piece->gradient);
    return piece->curved ? combined(1, straight, x * x / 2, piece->bend) : straight;
}

DesignLevel Profile::gradient(double ch, Side side) const {
    const ProfileVertex* border = border_at(ch);
    const double at = border == nullptr ? ch : border->ch;
    const ProfilePiece* piece = piece_at(at, side);
    if (piece == nullptr) return {};
    return piece->curved ? combined(1, piece->gradient, at - piece->from, piece->bend) : piece->gradient;
}

DesignLevel Profile::curvature(double ch, Side side) const {
    const ProfileVertex* border = border_at(ch);
    const ProfilePiece* piece = piece_at(border == nullptr ? ch : border->ch, side);
    return piece == nullptr ? DesignLevel() : piece->bend;
}

}  // namespace fallwright
