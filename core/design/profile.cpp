#include "design/profile.h"

#include <algorithm>

#include "design/profile_pieces.h"

namespace fallwright {

Profile::Profile(std::vector<ProfileVertex> vertices) : vertices_(std::move(vertices)) {
    Pieces pieces = lay_pieces(vertices_);
    pieces_ = std::move(pieces.laid);
    refused_ = std::move(pieces.refused);
}

const ProfileVertex* Profile::vertex_at(double ch) const {
    const auto next = std::lower_bound(vertices_.begin(), vertices_.end(), ch,
                                       [](const ProfileVertex& vertex, double at) { return vertex.ch < at; });
    if (next != vertices_.end() && next->ch - ch < least_chainage) return &*next;
    if (next != vertices_.begin() && ch - std::prev(next)->ch < least_chainage) return &*std::prev(next);
    return nullptr;
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
    const ProfileVertex* vertex = vertex_at(ch);
    const double at = vertex == nullptr ? ch : vertex->ch;
    const ProfilePiece* piece = piece_at(at, side);
    if (piece == nullptr) return {};
    if (vertex == &vertices_.front() && side == Side::Before) return vertex->before;
    if (vertex == &vertices_.back() && side == Side::After) return vertex->after;
    const double x = at - piece->from;
    const DesignLevel straight = combined(1, piece->level, x, piece->gradient);
    return piece->curved ? combined(1, straight, x * x / 2, piece->bend) : straight;
}

DesignLevel Profile::gradient(double ch, Side side) const {
    const ProfileVertex* vertex = vertex_at(ch);
    const double at = vertex == nullptr ? ch : vertex->ch;
    const ProfilePiece* piece = piece_at(at, side);
    if (piece == nullptr) return {};
    return piece->curved ? combined(1, piece->gradient, at - piece->from, piece->bend) : piece->gradient;
}

DesignLevel Profile::curvature(double ch, Side side) const {
    const ProfileVertex* vertex = vertex_at(ch);
    const ProfilePiece* piece = piece_at(vertex == nullptr ? ch : vertex->ch, side);
    return piece == nullptr ? DesignLevel() : piece->bend;
}

}  // namespace fallwright
